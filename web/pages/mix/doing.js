/* What is done rather than weighed: add, mix, rest, look, stop. */

import { html, useNow } from "../../lib/view.js";
import { writeTimer } from "../../lib/clock.js";
import { inPersonUnits, writeNumber } from "../../lib/quantity.js";
import { t } from "../../lib/say.js";
import { Next } from "./next.js";
import { BigTimer } from "./timers.js";
import { isMinor } from "./walk.js";
import { MinorsSum } from "./weigh.js";
import { WaterNotes, WaterPlan } from "./water.js";
import { Reading } from "./readings.js";
import { mass, minutesOf, untilOf } from "./words.js";

function Done({ stop, onMark, words, how = "done" }) {
    return html`
        <${Next}><button type="button" class="do big"
            onClick=${() => onMark(stop, how)}>${words}</button><//>`;
}

/* --- into the bowl ------------------------------------------------------- */

const firstMinor = (card) => card.steps.find(({ step }) =>
    step.kind === "add" && !step.stage && isMinor(step.line_kind ?? ""));

export function AddScreen({ card, stop, units, onMark, onRead }) {
    const { step } = stop;
    const water = step.code === "add_water";
    return html`
        ${water ? html`<${WaterPlan} card=${card} units=${units} />`
        : step.kg !== null && html`
            <p class="amount">${mass(step.kg, units)}</p>`}
        <${Done} stop=${stop} onMark=${onMark} words=${t("It is in")} />
        ${water && html`
            <div class="readings"><${Reading} card=${card} kind="water_c"
                units=${units} assumed=${null} onRead=${onRead} /></div>
            <${WaterNotes} card=${card} units=${units} />`}
        ${stop.row === firstMinor(card) && html`
            <${MinorsSum} card=${card} units=${units} />`}`;
}

/* --- with a clock -------------------------------------------------------- */

/* The mixer may be running already: then only the clock is started. */
function startWords(card, step) {
    if (step.kind !== "mix")
        return step.kind === "wet_yeast" ? t("It is wetted")
            : t("Start the rest");
    if (step.speed === "second")
        return t("To second speed");
    return card.steps.some((row) => row.step.kind === "mix" &&
        row.step.stage === step.stage && row.started_ms > 0)
        ? t("Start the clock") : t("Start the mixer");
}

function Wetting({ card, stop, units }) {
    const { step } = stop;
    const yeast = card.weighings.find((row) =>
        row.weighing.material === step.material);
    const span = (c) => writeNumber(inPersonUnits(c, units), 0);
    return html`
        <p class="amount">${t("{yeast} in {water}", {
        yeast: yeast ? mass(yeast.weighing.planned_kg, units)
            : step.material, water: mass(step.kg, units) })}</p>
        <p>${t("of water between {low} and {high} {unit}; it comes off the " +
        "batch's water.", { low: span(step.low_c), high: span(step.high_c),
        unit: units === "us" ? "\u00b0F" : "\u00b0C" })}</p>`;
}

function Slid({ card }) {
    const slid = card.steps.findLast((row) => row.answer === "sliding");
    const now = useNow();
    return slid && html`
        <p class="slip" role="status">${t("The oil was sliding. Stay on low " +
        "until it is taken up: {time} so far.",
        { time: writeTimer(now - slid.done_ms) })}</p>`;
}

/* Mix, rest and wet: start it, see the time, end it. */
export function TimedScreen({ card, stop, units, onMark }) {
    const { step, row } = stop;
    const until = untilOf(step, units);
    const counts = step.minutes > 0;
    return html`
        ${step.kind === "wet_yeast" && html`
            <${Wetting} card=${card} stop=${stop} units=${units} />`}
        <p class="how-long">${counts && minutesOf(step)}
            ${counts && until ? ", " : ""}${until}</p>
        ${step.speed === "second" && !stop.running && html`
            <${Slid} card=${card} />`}
        ${stop.running && counts && html`
            <${BigTimer} started_ms=${row.started_ms} minutes=${step.minutes}
                minutes_to=${step.minutes_to} />`}
        ${stop.running || !counts
        ? html`<${Done} stop=${stop} onMark=${onMark} words=${t("Done")} />`
        : html`<${Done} stop=${stop} onMark=${onMark} how="begin"
            words=${startWords(card, step)} />`}`;
}

/* --- looking ------------------------------------------------------------- */

export function AskScreen({ stop, onMark }) {
    const { row } = stop;
    const answers = [["driving", t("The hook drives through the dough")],
        ["sliding", t("The oil is sliding")]];
    return html`
        <${Next}>${answers.map(([answer, words]) => html`
            <button type="button" class="big answer" key=${answer}
                aria-pressed=${row.answer === answer}
                onClick=${() => onMark(stop, "done", answer)}>${words}
            </button>`)}
        <//>
        <p class="aside">${t("Sliding: stay on low until it is taken up. It " +
        "is written down for you.")}</p>`;
}

const WORDS = {
    stop: () => t("It has stopped"), hold: () => t("Noted"),
    temper: () => t("Noted"),
};

export function PlainScreen({ stop, units, onMark }) {
    const { step } = stop;
    const until = untilOf(step, units);
    return html`
        ${step.kg !== null && html`
            <p class="amount">${mass(step.kg, units)}</p>`}
        ${until && html`<p class="how-long">${until}</p>`}
        <${Done} stop=${stop} onMark=${onMark}
            words=${WORDS[step.kind]?.() ?? t("Done")} />`;
}
