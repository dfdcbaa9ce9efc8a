/* What one version of a formula has otherwise than another, in sentences. */

import { html, useEffect, useState } from "../lib/view.js";
import { call } from "../lib/api.js";
import { t } from "../lib/say.js";

function useDifference(before, after) {
    const [changes, set] = useState(null);
    useEffect(() => {
        const get = (version_id) => call("recipe.get", { version_id });
        Promise.all([get(before), get(after)])
            .then(([from, to]) => call("formula.compare",
                { before: from.formula, after: to.formula }))
            .then((reply) => set(reply.changes), () => set([]));
    }, [before, after]);
    return changes;
}

/* before, after: ids of two versions. */
export function Difference({ before, after }) {
    const changes = useDifference(before, after);
    if (!changes)
        return null;
    return changes.length
        ? html`<ul class="changes">${changes.map((change) =>
            html`<li>${change.message}</li>`)}</ul>`
        : html`<p>${t("The ingredients are the same.")}</p>`;
}
