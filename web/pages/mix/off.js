/* Something is off: what went in otherwise than planned, and what is in the
 * bowl then. The formula's version is never touched. */

import { html, useState } from "../../lib/view.js";
import { useAnswer } from "../../lib/answer.js";
import { writeNumber } from "../../lib/quantity.js";
import { t } from "../../lib/say.js";
import { Dialog } from "../../parts/dialog.js";
import { Pad } from "../../parts/pad.js";
import { lotsOf } from "./weigh.js";
import { mass, scaleUnit, windowSentence } from "./words.js";

const YEASTS = () => [["yeast_fresh", t("fresh yeast")],
    ["yeast_active_dry", t("active dry yeast")],
    ["yeast_instant", t("instant yeast")]];

const materialsOf = (card) => [...new Map(card.weighings.map((row) =>
    [row.weighing.material, row.weighing])).values()];

const waterOf = (card) =>
    materialsOf(card).find((one) => one.kind === "water")?.material;
const yeastOf = (card) =>
    materialsOf(card).find((one) => one.kind.startsWith("yeast_"));

/* --- what it was --------------------------------------------------------- */

function List({ options, onPick }) {
    return html`
        <ul class="stack">${options.map(([value, words]) => html`
            <li key=${value}><button type="button" class="big wide-button"
                onClick=${() => onPick(value)}>${words}</button></li>`)}
        </ul>`;
}

const KINDS = (card) => [
    waterOf(card) && ["more", t("More water went in")],
    waterOf(card) && ["less", t("Less water went in")],
    yeastOf(card) && ["yeast_type", t("Another kind of yeast went in")],
    ["lot", t("Another lot went in")],
    ["forgotten", t("Something was forgotten")],
    ["doubled", t("Something went in twice")],
    ["abandoned", t("Give this batch up")],
].filter(Boolean);

function Water({ card, units, sign, onSave, onClose }) {
    const unit = scaleUnit(units === "us" ? 0.0028349523125 : 0.001, units);
    return html`
        <${Pad} title=${sign > 0 ? t("How much more water?")
        : t("How much less water?")} unit=${unit.name}
            onDone=${(n) => onSave({ kind: "water", material: waterOf(card),
        kg: sign * n * unit.kg })} onClose=${onClose} />`;
}

function LotPick({ card, onSave }) {
    const { reply: shop } = useAnswer("shop.get", {});
    const options = materialsOf(card).flatMap(({ material }) =>
        lotsOf(shop, material).map((lot) => [lot.id,
            t("{material}, lot {code}", { material, code: lot.code })]));
    return options.length
        ? html`<${List} options=${options} onPick=${(id) => onSave({
            kind: "lot", lot_id: id, material: materialsOf(card).find((one) =>
                lotsOf(shop, one.material).some((lot) => lot.id === id))
                .material })} />`
        : html`<p>${t("No lot is open. Lots are entered when goods come " +
            "in.")}</p>`;
}

/* Another yeast: which one, then whether its weight was made to fit. */
function Yeast({ card, onSave }) {
    const [to_kind, pick] = useState(null);
    const { kind, material } = yeastOf(card);
    if (!to_kind)
        return html`<${List} onPick=${pick}
            options=${YEASTS().filter(([value]) => value !== kind)} />`;
    const kg = card.weighings.map((row) => row.weighing)
        .filter((one) => one.material === material)
        .reduce((sum, one) => sum + (one.weighed_kg ?? one.planned_kg), 0);
    const options = [[kg, t("The same weight as planned")],
        [0, t("As much as raises alike")]];
    return html`
        <p>${t("How much of it went in?")}</p>
        <${List} options=${options} onPick=${(weight) => onSave({
            kind: "yeast_type", material, to_kind, kg: weight })} />`;
}

function Which({ card, kind, onSave }) {
    const materials = materialsOf(card).map(({ material }) =>
        [material, material]);
    if (kind === "lot")
        return html`<${LotPick} card=${card} onSave=${onSave} />`;
    if (kind === "yeast_type")
        return html`<${Yeast} card=${card} onSave=${onSave} />`;
    if (kind === "abandoned")
        return html`
            <p>${t("Nothing of this batch goes into stock. What was " +
            "recorded stays in the book.")}</p>
            <button type="button" class="do big" onClick=${() =>
            onSave({ kind })}>${t("Give it up")}</button>`;
    return html`<${List} options=${materials}
        onPick=${(material) => onSave({ kind, material })} />`;
}

/* --- what is in the bowl then -------------------------------------------- */

export function Totals({ totals, was, units }) {
    const rows = [
        [t("Dough in the bowl"), mass(totals.dough_kg, units),
            was && mass(was.dough_kg, units)],
        [t("Flour in the bowl"), mass(totals.flour_kg, units),
            was && mass(was.flour_kg, units)],
        [t("Water, of flour"), percent(totals.hydration_percent),
            was && percent(was.hydration_percent)],
        [t("Everything, of flour"), percent(totals.total_percent),
            was && percent(was.total_percent)],
    ];
    return html`
        <table class="totals">
            <caption class="only-heard">${t("What is in the bowl")}</caption>
            ${was && html`<thead><tr><td></td>
                <th scope="col" class="number quiet">${t("before")}</th>
                <th scope="col" class="number quiet">${t("now")}</th>
            </tr></thead>`}
            <tbody>${rows.map(([name, now, before]) => html`
                <tr key=${name}><th scope="row">${name}</th>
                    ${was && html`<td class="number quiet">${before}</td>`}
                    <td class="number">${now}</td></tr>`)}
            </tbody>
        </table>`;
}

function percent(value) {
    return `${writeNumber(value, 1)}\u00a0%`;
}

function Saved({ card, was, units, queued, onClose }) {
    return html`
        <p>${queued ? t("Kept on this tablet. The numbers follow when the " +
        "shop's computer is reached.") : t("Written down. This is in the bowl now:")}
        </p>
        ${!queued && card.message && html`
            <p class="slip" role="alert">${card.message}</p>`}
        ${!queued && html`<${Totals} totals=${card.totals} was=${was}
            units=${units} />`}
        ${!queued && card.window && html`
            <p class="window-now">${windowSentence(card.window)}</p>`}
        <button type="button" class="do big" onClick=${onClose}>
            ${t("Back to the card")}</button>`;
}

export function SomethingOff({ card, units, onTap, onClose }) {
    const [kind, setKind] = useState(null);
    const [saved, setSaved] = useState(null);
    async function save(change) {
        const was = card.totals;
        const reply = await onTap("change.save",
            { batch_id: card.batch.id, ...change });
        if (reply)
            setSaved({ was, queued: reply.queued, card: reply });
        else
            setKind(null);
    }
    if (!saved && (kind === "more" || kind === "less"))
        return html`<${Water} card=${card} units=${units}
            sign=${kind === "more" ? 1 : -1} onSave=${save}
            onClose=${() => !saved && setKind(null)} />`;
    return html`
        <${Dialog} title=${t("Something is off")} onClose=${onClose}>
            ${saved ? html`<${Saved} ...${saved} units=${units}
                onClose=${onClose} />`
        : kind ? html`<${Which} card=${card} kind=${kind} onSave=${save} />`
            : html`<${List} options=${KINDS(card)} onPick=${setKind} />`}
        <//>`;
}
