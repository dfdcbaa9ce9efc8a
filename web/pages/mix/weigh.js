/* One weighing on the screen: what, how much as the scale shows it, on which
 * scale, from which lot. A weight that looks like a slip is said, never
 * forbidden. */

import { html, useState } from "../../lib/view.js";
import { useAnswer } from "../../lib/answer.js";
import { writeNumber } from "../../lib/quantity.js";
import { t, tn } from "../../lib/say.js";
import { Dialog } from "../../parts/dialog.js";
import { Pad } from "../../parts/pad.js";
import { Next } from "./next.js";
import { Reading } from "./readings.js";
import { isMinor } from "./walk.js";
import { WaterNotes, WaterPlan } from "./water.js";
import { isOwnUnit, mass, onScale, scaleUnit } from "./words.js";

/* --- lots ---------------------------------------------------------------- */

export function lotsOf(shop, material) {
    const ids = new Set((shop?.materials ?? [])
        .filter((one) => one.name === material).map((one) => one.id));
    return (shop?.material_lots ?? [])
        .filter((lot) => ids.has(lot.material_id) && lot.open);
}

function Lots({ lots, value, onPick, onClose }) {
    return html`
        <${Dialog} title=${t("From which lot?")} onClose=${onClose}>
            ${lots.length === 0 && html`<p>${t("No lot of it is open. Lots " +
            "are entered when goods come in.")}</p>`}
            <ul class="stack">${lots.map((lot) => html`
                <li key=${lot.id}><button type="button" class="big wide-button"
                    aria-pressed=${lot.id === value}
                    onClick=${() => onPick(lot.id)}>${lot.code}</button></li>`)}
            </ul>
        <//>`;
}

export function Lot({ row, onPick }) {
    const [open, setOpen] = useState(false);
    const { reply: shop } = useAnswer("shop.get", {});
    const lots = lotsOf(shop, row.weighing.material);
    const code = row.lot ??
        lots.find((lot) => lot.id === row.weighing.lot_id)?.code;
    return html`
        <button type="button" class="word" aria-haspopup="dialog"
            onClick=${() => setOpen(true)}>
            ${code ? t("Lot {code}", { code }) : t("Which lot?")}
        </button>
        ${open && html`<${Lots} lots=${lots} value=${row.weighing.lot_id}
            onPick=${(id) => { setOpen(false); onPick(id); }}
            onClose=${() => setOpen(false)} />`}`;
}

/* --- how much ------------------------------------------------------------ */

function Bags({ count, kg, units }) {
    return html`<p class="amount">${tn("{n} whole bag of {weight}",
        "{n} whole bags of {weight}", count, { weight: mass(kg, units) })}</p>`;
}

export function Amount({ row, units }) {
    const { whole_bags, bag_kg, planned_kg } = row.weighing;
    const rest_kg = planned_kg - whole_bags * bag_kg;
    const loose = rest_kg > 1e-6;
    return html`
        ${whole_bags > 0 && html`
            <${Bags} count=${whole_bags} kg=${bag_kg} units=${units} />`}
        ${loose && html`
            <p class="amount">${whole_bags > 0
        ? t("and {amount}", { amount: onScale(rest_kg, row.division_kg,
            units) })
        : onScale(rest_kg, row.division_kg, units)}</p>`}
        ${loose && !isOwnUnit(row.division_kg, units) && html`
            <p>${t("that is {amount}", { amount: mass(rest_kg, units) })}</p>`}
        ${loose && row.scale && html`
            <p>${t("On the {scale}", { scale: row.scale })}</p>`}`;
}

/* Yeast that is wetted ahead is not among them any more. */
function minorsOf(card) {
    const wetted = card.steps.filter((row) => row.step.kind === "wet_yeast")
        .map((row) => row.step.material);
    return card.weighings.filter(({ weighing }) => isMinor(weighing.kind) &&
        weighing.stage_position === 0 && !wetted.includes(weighing.material));
}

/* What the minors must come to, together, before they go in. */
export function MinorsSum({ card, units }) {
    const minors = minorsOf(card);
    if (minors.length < 2)
        return null;
    const finest = Math.min(...minors.map((row) => row.division_kg || 1));
    const all = minors.every((row) => row.weighing.weighed_kg !== null);
    const came_kg = minors.reduce((sum, row) =>
        sum + (row.weighing.weighed_kg ?? 0), 0);
    const sum_kg = minors.reduce((sum, row) =>
        sum + row.weighing.planned_kg, 0);
    return html`
        <div class="check-sum">
            <p>${minors.map((row) => row.weighing.material).join(", ")}</p>
            <p>${t("Together on the scale: {sum}",
        { sum: onScale(sum_kg, finest, units) })}</p>
            ${all && Math.abs(came_kg - sum_kg) > finest / 2 && html`
                <p class="trouble">${t("What you weighed comes to {sum}.",
            { sum: onScale(came_kg, finest, units) })}</p>`}
        </div>`;
}

function Weighed({ row, units }) {
    const { weighed_kg, planned_kg } = row.weighing;
    if (weighed_kg === null)
        return null;
    const off = weighed_kg - planned_kg;
    if (Math.abs(off) < 1e-6)
        return html`<p class="good">\u2713 ${t("Weighed")}</p>`;
    const values = { weight: onScale(weighed_kg, row.division_kg || 0.001,
        units), off: mass(Math.abs(off), units) };
    return html`<p class="trouble">${off > 0
        ? t("Weighed {weight}: {off} more than planned.", values)
        : t("Weighed {weight}: {off} less than planned.", values)}</p>`;
}

/* --- the screen ---------------------------------------------------------- */

export function WeighScreen({ card, stop, units, onTap, onStay, onRead }) {
    const [pad, setPad] = useState(false);
    const [said, setSaid] = useState(null);
    const { row } = stop;
    const { weighing } = row;
    const unit = scaleUnit(row.division_kg || 0.001, units);

    async function mark(weighed_kg, lot_id = weighing.lot_id) {
        setSaid(null);
        const reply = await onTap("weighing.mark",
            { weighing_id: weighing.id, weighed_kg, lot_id });
        setSaid(reply?.message ?? null);
        return reply?.message;
    }
    /* A typed weight may be a slip: stay until the answer is here. */
    async function typed(value) {
        setPad(false);
        onStay(stop.key);
        if (!await mark(value * unit.kg))
            onStay(null);
    }

    return html`
        ${weighing.kind === "water" && weighing.stage_position === 0
        ? html`<${WaterPlan} card=${card} units=${units} />`
        : html`<${Amount} row=${row} units=${units} />`}
        <${Weighed} row=${row} units=${units} />
        ${said && html`<p class="slip" role="alert">${said}</p>`}
        <${Next}>
            ${weighing.weighed_kg === null
        ? html`<button type="button" class="do big"
            onClick=${() => mark(weighing.planned_kg)}>
            ${t("Weighed")}</button>`
        : html`<button type="button" class="big"
            onClick=${() => mark(null)}>${t("Weigh again")}</button>`}
            <button type="button" class="big" aria-haspopup="dialog"
                onClick=${() => setPad(true)}>${t("Another weight")}</button>
        <//>
        <${Lot} row=${row} onPick=${(id) => mark(weighing.weighed_kg, id)} />
        ${weighing.kind === "water" && html`
            <div class="readings"><${Reading} card=${card} kind="water_c"
                units=${units} assumed=${null} onRead=${onRead} /></div>
            <${WaterNotes} card=${card} units=${units} />`}
        ${row === minorsOf(card).at(-1) && html`
            <${MinorsSum} card=${card} units=${units} />`}
        ${pad && html`
            <${Pad} title=${t("{material}: wanted {amount}", {
        material: weighing.material, amount: `${writeNumber(
            weighing.planned_kg / unit.kg, unit.decimals)} ${unit.name}` })}
                unit=${unit.name}
                onDone=${typed}
                onClose=${() => setPad(false)} />`}`;
}
