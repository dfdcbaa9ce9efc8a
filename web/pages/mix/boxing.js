/* From the bench into the cold room: balls, boxes, first and last box. */

import { html, useState } from "../../lib/view.js";
import { writeClock } from "../../lib/dates.js";
import { clock } from "../../lib/clock.js";
import { t, tn } from "../../lib/say.js";
import { Pad } from "../../parts/pad.js";
import { toast } from "../../parts/toast.js";
import { ClosePlan } from "./close.js";
import { Next } from "./next.js";
import { away, mass, scaleUnit } from "./words.js";

/* Balls that came, as told at the dividing or at the boxes; else as planned. */
function countOf(card, cut) {
    const told = card.steps.find((row) => row.step.kind === "divide" &&
        row.step.material === cut.name && row.answer !== null);
    return cut.piece.balls_made ?? (told ? Number(told.answer)
        : cut.piece.balls_planned);
}

function boxes(cut) {
    return cut.in_part_box > 0
        ? tn("{n} box, the last with {part}", "{n} boxes, the last with {part}",
            cut.boxes, { part: cut.in_part_box })
        : tn("{n} box", "{n} boxes", cut.boxes);
}

function Balls({ name, value, planned, onCount }) {
    const [pad, setPad] = useState(false);
    return html`
        <button type="button" class="reading" aria-haspopup="dialog"
            onClick=${() => setPad(true)}>
            <span>${name}</span><b>${value}</b>
            <small>${value === planned ? t("balls, as planned")
        : t("balls, {planned} planned", { planned })}</small>
        </button>
        ${pad && html`
            <${Pad} title=${t("How many {name} came?", { name })}
                unit=${t("balls")} whole low=${Math.floor(planned * 0.95)}
                high=${Math.ceil(planned * 1.05)}
                onDone=${(n) => { setPad(false); onCount(Math.round(n)); }}
                onClose=${() => setPad(false)} />`}`;
}

/* --- dividing ------------------------------------------------------------ */

export function DivideScreen({ card, stop, units, onMark }) {
    const { step, row } = stop;
    const cut = card.pieces.find((one) => one.name === step.material);
    const told = row.answer === null ? step.count : Number(row.answer);
    const [count, setCount] = useState(told ?? 0);
    return html`
        ${step.kg !== null && html`
            <p class="amount">${tn("{n} ball of {weight}",
        "{n} balls of {weight}", step.count ?? 1,
        { weight: mass(step.kg, units) })}</p>`}
        ${cut && html`<p>${boxes(cut)}</p>`}
        ${cut && html`<div class="readings">
            <${Balls} name=${cut.name} value=${count} onCount=${setCount}
                planned=${cut.piece.balls_planned} /></div>`}
        <${Next}><button type="button" class="do big" onClick=${() =>
        onMark(stop, "done", cut ? String(count) : null)}>
            ${t("Divided")}</button><//>`;
}

/* --- into the cold room -------------------------------------------------- */

function Scrap({ value, units, onScrap }) {
    const [pad, setPad] = useState(false);
    const unit = scaleUnit(units === "us" ? 0.0028349523125 : 0.001, units);
    return html`
        <button type="button" class="reading" aria-haspopup="dialog"
            onClick=${() => setPad(true)}>
            <span>${t("Scrap left over")}</span>
            <b>${value === null ? "\u2013" : mass(value, units)}</b>
            <small>${t("may stay blank")}</small>
        </button>
        ${pad && html`
            <${Pad} title=${t("Scrap left over")} unit=${unit.name}
                onDone=${(n) => { setPad(false); onScrap(n * unit.kg); }}
                onClose=${() => setPad(false)} />`}`;
}

function Last({ card, stop, units, onTap, onMark }) {
    const [counts, setCounts] = useState(() => Object.fromEntries(
        card.pieces.map((cut) => [cut.piece.id, countOf(card, cut)])));
    const [scrap_kg, setScrap] = useState(card.batch.scrap_kg);
    async function box() {
        const saved = onTap("batch.box", { batch_id: card.batch.id,
            first_box_ms: stop.row.started_ms, scrap_kg,
            pieces: card.pieces.map(({ piece }) =>
                ({ id: piece.id, balls_made: counts[piece.id] })) });
        onMark(stop, "done");
        const message = (await saved)?.message;
        if (message)
            toast(message);
    }
    return html`
        <p>${t("The first box went in at {time}.",
        { time: writeClock(stop.row.started_ms) })}</p>
        <div class="readings">
            ${card.pieces.map((cut) => html`
                <${Balls} key=${cut.piece.id} name=${cut.name}
                    value=${counts[cut.piece.id]}
                    planned=${cut.piece.balls_planned}
                    onCount=${(n) => setCounts((was) =>
        ({ ...was, [cut.piece.id]: n }))} />`)}
            <${Scrap} value=${scrap_kg} units=${units} onScrap=${setScrap} />
        </div>
        <${Next}><button type="button" class="do big" onClick=${box}>
            ${t("The last box is in")}</button><//>`;
}

/* The stop where boxes go into the cold room. */
export function ChillScreen(props) {
    const { card, stop, onMark } = props;
    const box_by = card.clock.box_by_ms;
    if (stop.done)
        return html`<${ClosePlan} ...${props} />`;
    return html`
        ${box_by && html`<p>${t("All boxes in by {time}, {away}.",
        { time: writeClock(box_by), away: away(box_by, clock.now()) })}</p>`}
        ${stop.running ? html`<${Last} ...${props} />`
        : html`<${Next}><button type="button" class="do big"
            onClick=${() => onMark(stop, "begin")}>
            ${t("The first box is in")}</button><//>`}`;
}
