/* The batch's water: how much, how warm, how much of it as ice, what the
 * trade's rule would have said, and why they differ. */

import { html, useState } from "../../lib/view.js";
import { writeNumber } from "../../lib/quantity.js";
import { t } from "../../lib/say.js";
import { Why } from "../../parts/why.js";
import { degrees, isOwnUnit, mass, onScale, temperature } from "./words.js";

/* What of the water is where: { liquid_kg, ice_kg, wet_kg }, the ice by whole
 * divisions of the scale. */
export function waterParts(card) {
    const rows = card.weighings.filter((row) =>
        row.weighing.kind === "water" && row.weighing.stage_position === 0);
    const total_kg = rows.reduce((sum, row) => sum + row.weighing.planned_kg,
        0);
    const division_kg = rows[0]?.division_kg || 0.001;
    const wet_kg = card.steps.filter((row) => row.step.kind === "wet_yeast" &&
        !row.step.stage).reduce((sum, row) => sum + (row.step.kg ?? 0), 0);
    const steps = Math.round((card.water.answer?.ice_kg ?? 0) / division_kg);
    const ice_kg = steps * division_kg;
    return { division_kg, wet_kg, ice_kg,
        liquid_kg: total_kg - wet_kg - ice_kg };
}

export function waterSentence(answer, units) {
    return answer.ice_kg > 0
        ? t("{temperature} and {ice} of ice", {
            temperature: temperature(answer.liquid_c, units),
            ice: mass(answer.ice_kg, units) })
        : temperature(answer.liquid_c, units);
}

const LEARNED = {
    prior: () => t("usual for the trade, nothing recorded yet"),
    mixer: () => t("from this mixer's other batches"),
    own: () => t("from this mixer's batches of this dough"),
};

export const kilojoules = (j_per_kg) =>
    `${writeNumber(j_per_kg / 1000, 1)}\u00a0kJ/kg`;

function whyInputs({ inputs, work, ...water }, units) {
    const read = (yes, text) => yes ? text
        : t("{value}, assumed", { value: text });
    return [
        [t("Dough wanted"), temperature(inputs.goal_c, units)],
        [t("Flour"), read(water.flour_read,
            temperature(inputs.flour_c, units))],
        [t("Room"), read(water.room_read, temperature(inputs.room_c, units))],
        [t("Tap water"), read(water.tap_read,
            temperature(inputs.tap_c, units))],
        [water.warm_bowl ? t("Bowl, warm from the batch before") : t("Bowl"),
            temperature(inputs.bowl_c, units)],
        [t("Flour in the bowl"), mass(inputs.flour_kg, units)],
        [t("Water in the bowl"), mass(inputs.water_kg, units)],
        [t("Mixing work"), t("{work}, {where}", {
            work: kilojoules(work.work_j_per_kg_dough),
            where: LEARNED[work.level]() })],
        [t("Likely between"), t("{low} and {high}", {
            low: kilojoules(work.low_j_per_kg),
            high: kilojoules(work.high_j_per_kg) })],
    ];
}

export function WaterWhy({ water, units, onClose }) {
    const { answer } = water;
    return html`
        <${Why} title=${t("Why this water?")} onClose=${onClose}
            value=${waterSentence(answer, units)}
            inputs=${whyInputs(water, units)}
            equation=${t("Heat in is heat out: warming flour, water, bowl " +
                "and the rest to the dough's temperature takes what wetting " +
                "the flour and the mixer's work give. Ice takes what it " +
                "needs to melt.")}
            rule=${answer.kept_rule && t("{temperature} with a friction " +
                "number of {friction}", {
                temperature: temperature(answer.kept_rule.water_c, units),
                friction: degrees(answer.kept_rule.friction_c, units) })}
            source=${t("Heat balance, docs/models/heat.md; the mixing work " +
                "is learned from the dough temperatures you record.")} />`;
}

/* What to look out for, and the trade's rule beside the balance. */
export function WaterNotes({ card, units }) {
    const { answer } = card.water;
    if (!answer)
        return null;
    return html`
        ${answer.warnings.map((one) => html`
            <p class="slip" key=${one.code}>${one.message}</p>`)}
        ${answer.kept_rule && html`
            <p class="aside">${t("The trade's rule says {temperature}.", {
        temperature: temperature(answer.kept_rule.water_c, units) })}
                ${" "}${answer.why?.message}</p>`}`;
}

export function WaterPlan({ card, units }) {
    const [why, setWhy] = useState(false);
    const { answer } = card.water;
    const { liquid_kg, ice_kg, wet_kg, division_kg } = waterParts(card);
    if (!answer)
        return html`<p class="slip" data-level="wrong">${t("This dough " +
            "temperature cannot be reached with today's readings. Use the " +
            "coldest water there is, and look at the readings again.")}</p>`;
    return html`
        <p class="amount">${onScale(liquid_kg, division_kg, units)}${" "}
            <span class="at">${t("at {temperature}", {
        temperature: temperature(answer.liquid_c, units) })}</span></p>
        ${ice_kg > 0 && html`<p class="amount ice">${t("and {ice} of ice",
            { ice: onScale(ice_kg, division_kg, units) })}</p>`}
        <p>${!isOwnUnit(division_kg, units) && t("that is {amount}",
        { amount: ice_kg > 0 ? t("{water} and {ice}", {
            water: mass(liquid_kg, units), ice: mass(ice_kg, units) })
            : mass(liquid_kg, units) })}${" "}
            <button type="button" class="word" aria-haspopup="dialog"
                onClick=${() => setWhy(true)}>${t("Why?")}</button></p>
        ${wet_kg > 0 && html`<p>${t("{water} more goes warm on the yeast.",
            { water: mass(wet_kg, units) })}</p>`}
        ${card.new_flour_lot && html`<p class="slip">${t("Lot {lot} of flour " +
            "is new here: how it takes water and how it ferments, nobody " +
            "knows yet. Hold a little of the water back until the dough is " +
            "felt, and look at the first balls.",
            { lot: card.new_flour_lot })}</p>`}
        ${why && html`<${WaterWhy} water=${card.water} units=${units}
            onClose=${() => setWhy(false)} />`}`;
}
