/* What the formula comes to. Each number says why when it is touched. */

import { html, useLoaded, useState } from "../../lib/view.js";
import { t } from "../../lib/say.js";
import { writeQuantity } from "../../lib/quantity.js";
import { useAnswer } from "./reckon.js";

const percent = (value) => writeQuantity(value, "percent");

function totalFact(scaled) {
    return {
        name: t("All lines together"),
        value: percent(scaled.total_percent),
        inputs: scaled.lines.map((line) =>
            [line.material, percent(line.percent)]),
        equation: t("The lines added up. Dough weighs flour × total ÷ 100."),
        source: t("Bread Bakers Guild of America, formula format (2009)"),
    };
}

function hydrationFact(scaled) {
    const water = scaled.lines.filter((line) => line.kind === "water")
        .map((line) => [line.material, percent(line.percent)]);
    return {
        name: t("True hydration"),
        value: percent(scaled.hydration_percent),
        inputs: water,
        equation: scaled.hydration_assumed
            ? t("All water over all flour, what is inside milk, eggs, fresh " +
                "yeast and old dough counted. For an ingredient whose water " +
                "you did not enter, the usual of its kind is used.")
            : t("All water over all flour, what is inside milk, eggs, fresh " +
                "yeast and old dough counted."),
        source: t("water in foods: USDA National Nutrient Database SR26"),
    };
}

/* Flours whose protein is known, as formula.blend takes them; null when one is
 * not. */
function blendRequest(lines) {
    const flours = lines.filter((line) =>
        line.kind === "flour" && line.percent > 0);
    if (!flours.length || flours.some((line) => line.protein_percent === null))
        return null;
    return { flours: flours.map((line) => ({ material: line.material,
        share_percent: line.percent, protein_percent: line.protein_percent,
        ...(line.water_percent === null ? {}
            : { moisture_percent: line.water_percent }) })) };
}

function proteinFact(lines, blend) {
    return {
        name: t("Protein of the flour"),
        value: percent(blend.protein_as_is_percent),
        inputs: lines.filter((line) => line.kind === "flour").map((line) =>
            [line.material, t("{share} of {protein}", {
                share: percent(line.percent),
                protein: percent(line.protein_percent) })]),
        equation: t("Each flour's protein times its share, added up."),
        source: null,
    };
}

const loadWhy = () => import("../../parts/why.js").then((it) => it.Why);

export function Facts({ draft, scaled }) {
    const [open, setOpen] = useState(null);
    const Why = useLoaded(open ? loadWhy : null);
    const request = blendRequest(draft.lines);
    const { reply: blend } = useAnswer("formula.blend", request);
    if (!scaled)
        return null;
    const facts = [totalFact(scaled), hydrationFact(scaled)];
    if (request && blend)
        facts.push(proteinFact(draft.lines, blend));
    const fact = facts.find((one) => one.name === open);
    return html`
        <section aria-label=${t("What it comes to")}>
            <dl class="facts">${facts.map((one) => html`
                <div key=${one.name}>
                    <dt class="quiet">${one.name}</dt>
                    <dd>
                        <button type="button" class="plain ask"
                            aria-haspopup="dialog"
                            onClick=${() => setOpen(one.name)}>
                            ${one.value}
                        </button>
                    </dd>
                </div>`)}
            </dl>
            ${fact && Why && html`
                <${Why} title=${fact.name} ...${fact}
                    onClose=${() => setOpen(null)} />`}
        </section>`;
}
