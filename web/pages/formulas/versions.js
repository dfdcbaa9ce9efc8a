/* What this formula was before, and what each change changed. */

import { html, useEffect, useState } from "../../lib/view.js";
import { call } from "../../lib/api.js";
import { writeQuantity } from "../../lib/quantity.js";
import { lang, t } from "../../lib/say.js";

function dayOf(ms) {
    return new Intl.DateTimeFormat(lang(), { day: "numeric", month: "short",
        year: "numeric" }).format(new Date(ms));
}

const FIELDS = () => ({
    kind: t("what it is"), water_percent: t("water in it"),
    protein_percent: t("protein in it"), flour_percent: t("part of all flour"),
});

/* One difference as a sentence. */
function changeSentence(change) {
    const value = (number, word) => number === null
        ? word : writeQuantity(number, "percent");
    const stage = change.stage;
    const material = change.material || stage;
    const name = stage && change.material
        ? t("{material} in {stage}", { material, stage }) : material;
    const from = value(change.from, change.from_word);
    const to = value(change.to, change.to_word);
    if (change.what === "added")
        return t("{name} came in at {to}", { name, to });
    if (change.what === "removed")
        return t("{name} was taken out, it was {from}", { name, from });
    const field = FIELDS()[change.field];
    return field
        ? t("{name}, {field}: {from} became {to}", { name, field, from, to })
        : t("{name}: {from} became {to}", { name, from, to });
}

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
            html`<li>${changeSentence(change)}</li>`)}</ul>`
        : html`<p>${t("The ingredients are the same.")}</p>`;
}

function Version({ version, before }) {
    const [open, setOpen] = useState(false);
    return html`
        <li class="version">
            <p><span class="strong">${t("Version {number}",
        { number: version.number })}</span>${" "}
                <span class="quiet">${version.used
        ? t("{day}, batches were made from it", { day: dayOf(version.made_ms) })
        : t("{day}, no batch yet", { day: dayOf(version.made_ms) })}</span>
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
