/* What this formula was before, and what each change changed. */

import { html, useEffect, useLoaded, useState } from "../../lib/view.js";
import { call } from "../../lib/api.js";
import { writeDay } from "../../lib/dates.js";
import { t } from "../../lib/say.js";

const loadDifference = () =>
    import("../../parts/difference.js").then((it) => it.Difference);

function Version({ version, before }) {
    const [open, setOpen] = useState(false);
    const Difference = useLoaded(open ? loadDifference : null);
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
            ${Difference && html`
                <${Difference} before=${before.id} after=${version.id} />`}
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
