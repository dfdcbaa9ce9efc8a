/* What this formula was before, and what each change changed. */

import { html, useEffect, useState } from "../../lib/view.js";
import { call } from "../../lib/api.js";
import { writeDay } from "../../lib/dates.js";
import { t } from "../../lib/say.js";

function useDifference(before, after) {
    const [changes, set] = useState(null);
    useEffect(() => {
        const get = (version) => call("recipe.get",
            { version_id: version.id });
        Promise.all([get(before), get(after)])
            .then(([from, to]) => call("formula.compare",
                { before: from.formula, after: to.formula }))
            .then((reply) => set(reply.changes), () => set([]));
    }, [before.id, after.id]);
    return changes;
}

function Difference({ before, after }) {
    const changes = useDifference(before, after);
    if (!changes)
        return null;
    return changes.length
        ? html`<ul class="changes">${changes.map((change) =>
            html`<li>${change.message}</li>`)}</ul>`
        : html`<p>${t("The ingredients are the same.")}</p>`;
}

function Version({ version, before }) {
    const [open, setOpen] = useState(false);
    return html`
        <li class="version">
            <p><span class="strong">${t("Version {number}",
        { number: version.number })}</span>${" "}
                <span class="quiet">${version.used
        ? t("{day}, batches were made from it", { day: writeDay(version.made_ms) })
        : t("{day}, no batch yet", { day: writeDay(version.made_ms) })}</span>
            </p>
            ${version.note && html`<p>${version.note}</p>`}
            ${before && html`
                <button type="button" class="word" aria-expanded=${open}
                    onClick=${() => setOpen(!open)}>
                    ${t("What changed since version {number}",
        { number: before.number })}
                </button>`}
            ${open && html`
                <${Difference} before=${before} after=${version} />`}
        </li>`;
}

export function Versions({ recipe }) {
    const [versions, set] = useState([]);
    useEffect(() => {
        call("recipe.versions", { id: recipe.formula_id })
            .then((reply) => set(reply.versions), () => set([]));
    }, [recipe.version_id, recipe.used, recipe.made_ms]);
    if (!versions.length)
        return null;
    return html`
        <section class="stack screen-only" aria-labelledby="versions-head">
            <div class="section-head">
                <h2 id="versions-head">${t("Versions")}</h2>
            </div>
            <ol>${versions.map((version, i) => html`
                <${Version} key=${version.id} version=${version}
                    before=${versions[i + 1]} />`)}
            </ol>
        </section>`;
}
