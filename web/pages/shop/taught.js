/* What this shop has taught: each number before and after, how sure it is, the
 * readings behind it, and leaving one of them out. */

import { html, useState, usePerson } from "../../lib/view.js";
import { useAnswer } from "../../lib/answer.js";
import { write } from "../../lib/api.js";
import { writeMoment } from "../../lib/dates.js";
import { writeNumber, writeQuantity } from "../../lib/quantity.js";
import { t, tn } from "../../lib/say.js";
import { afterText, beforeText, fromText, isTold, nameOf, spreadText }
    from "../../life/taught.js";
import { toast } from "../../parts/toast.js";
import { Head } from "./section.js";

/* --- a number ------------------------------------------------------------ */

/* Before above, after below, on one scale. */
function Spread({ value }) {
    const low = Math.min(value.prior_low, value.low);
    const high = Math.max(value.prior_high, value.high);
    const x = (n) => 2 + 96 * (n - low) / (high - low);
    return html`
        <svg class="spread" viewBox="0 0 100 20" preserveAspectRatio="none"
            aria-hidden="true">
            <path class="before" d=${`M${x(value.prior_low)},6` +
                `H${x(value.prior_high)}`} />
            <path class="after" d=${`M${x(value.low)},14H${x(value.high)}`} />
            <path class="mean" d=${`M${x(value.prior_mean)},2v8`} />
            <path class="mean" d=${`M${x(value.mean)},9v10`} />
        </svg>`;
}

/* In which formula or of which lot, when that is told apart. */
function subjectOf(value, all) {
    if (value.formula_id)
        return all.formulas.find(({ id }) => id === value.formula_id)?.name;
    if (value.lot_id)
        return t("lot {code}", { code: all.material_lots
            .find(({ id }) => id === value.lot_id)?.code ?? "" });
    return null;
}

function Value({ value, all, units }) {
    const subject = subjectOf(value, all);
    return html`
        <div class="taught-value">
            <dt>${nameOf(value)}${subject && html`
                <span class="quiet">${` \u00b7 ${subject}`}</span>`}</dt>
            <dd>
                <b>${afterText(value, units)}</b>
                <span>${spreadText(value, units)}, ${fromText(value)}</span>
                <${Spread} value=${value} />
                <span class="quiet">${t("before: {value}, {spread}", {
        value: beforeText(value, units),
        spread: spreadText(value, units, "prior_") })}</span>
            </dd>
        </div>`;
}

/* --- its readings -------------------------------------------------------- */

const verdictWord = (name) => ({
    good: t("good"), tight: t("tight"), bubbles: t("bubbles"),
    sticky: t("sticky"), blown: t("blown"),
})[name];

const useWord = (use) => ({
    used: t("counted"), doubted: t("counted, of little weight"),
    refused: t("not counted"), left_out: t("left out"),
})[use];

const whyWord = (why) => ({
    unlike: () => t("unlike the others"),
    fahrenheit: () => t("looks like °F typed as °C"),
    no_sensor: () => t("no thermometer shows that"),
    impossible: () => t("cannot be in this history"),
    backwards: () => t("its time runs backwards"),
    gap: () => t("after a gap"),
    no_stack: () => t("it is not known which stack"),
    no_times: () => t("the batch's times are not known"),
    no_dough: () => t("the dough's temperature was not read"),
    no_air: () => t("nobody read the cold room then"),
    no_model: () => t("no model for this form or way of holding"),
    changed: () => t("its yeast was not as the formula says"),
    late: () => t("too long after the mixer"),
})[why]?.();

function readText(one, units) {
    if (one.verdict)
        return verdictWord(one.verdict);
    if (one.what === "cup_reading")
        return t("{n} times its volume", { n: writeNumber(one.value, 2) });
    return writeQuantity(one.value, "temperature", units);
}

function expectedText(one, units) {
    if (one.expected === null || one.verdict)
        return null;
    return t("{value} expected", { value: one.what === "cup_reading"
        ? writeNumber(one.expected, 2)
        : writeQuantity(one.expected, "temperature", units) });
}

async function leave(what, of_id, out, reason) {
    try {
        await write("learn.leave_out", { what, of_id, out, reason });
        if (out)
            toast(t("Left out."), { button: t("Undo"),
                onPress: () => leave(what, of_id, false, null) });
    } catch (problem) {
        toast(problem.message);
    }
}

function Reading({ one, units }) {
    const out = one.use === "left_out";
    const state = [useWord(one.use), one.reason ?? whyWord(one.why),
        expectedText(one, units)].filter(Boolean).join(", ");
    const of = [writeMoment(one.occurred_ms),
        one.number ? t("batch {n}", { n: one.number }) : null, one.name]
        .filter(Boolean).join(" \u00b7 ");
    return html`
        <li data-use=${one.use}>
            <span><b>${readText(one, units)}</b> <span class="quiet">
                ${of}</span><br />${state}</span>
            <button type="button" class="word" onClick=${() =>
        leave(one.what, one.of_id, !out, null)}>
                ${out ? t("Take back in") : t("Leave out")}
                <span class="only-heard">${readText(one, units)} ${of}</span>
            </button>
        </li>`;
}

/* Newest first; thirty are enough to look at. */
function Readings({ readings, units }) {
    const [open, setOpen] = useState(false);
    if (readings.length === 0)
        return null;
    const shown = readings.toReversed().slice(0, 30);
    return html`
        <button type="button" class="word" aria-expanded=${open}
            onClick=${() => setOpen(!open)}>
            ${tn("The reading behind it", "The {n} readings behind it",
        readings.length)}</button>
        ${open && html`<ul class="taught-readings">${shown.map((one) => html`
            <${Reading} key=${`${one.what} ${one.of_id}`} one=${one}
                units=${units} />`)}</ul>`}`;
}

/* --- a lesson ------------------------------------------------------------ */

const lessonWords = () => ({
    stack: [t("Stacks"), t("Read the core of a ball in a stack, with the " +
        "cold room read that day: it tells how fast your stacks cool.")],
    yeast: [t("Yeast"), t("A witness cup off the mixer, or a tap on how the " +
        "dough was at first use: they tell how strong your yeast is.")],
    room: [t("Cold room"), t("Each reading of the cold room: they tell what " +
        "its air settles to.")],
});

function Lesson({ told, all, units }) {
    const [title, empty] = lessonWords()[told.lesson];
    const values = told.values.filter(isTold);
    return html`
        <div class="stack lesson" data-out=${told.left_out}>
            <h3>${title}</h3>
            ${told.left_out && html`<p class="note">
                ${t("Left out: the usual numbers hold.")}
                ${told.reason && html` ${told.reason}`}</p>`}
            ${values.length === 0 ? html`<p class="quiet">${empty}</p>`
        : html`<dl>${values.map((value) => html`
                <${Value} key=${[value.what, value.yeast, value.formula_id,
        value.lot_id].join(" ")} value=${value} all=${all}
                    units=${units} />`)}</dl>`}
            <div class="row">
                <${Readings} readings=${told.readings} units=${units} />
                ${(values.length > 0 || told.left_out) && html`
                    <button type="button" class="word" onClick=${() =>
        leave(told.lesson, 0, !told.left_out, null)}>
                        ${told.left_out ? t("Learn from it again")
        : t("Do not use this lesson")}</button>`}
            </div>
        </div>`;
}

export function Taught({ all }) {
    const { units } = usePerson();
    const { reply, refusal } = useAnswer("learn.shop", {});
    if (refusal && !reply)
        return html`<p class="trouble" role="alert">${refusal.message}</p>`;
    return html`
        <section id="taught" class="stack" aria-labelledby="taught-head">
            <${Head} id="taught" title=${t("What this shop has taught")}
                about=${t("The upper line is what was known before, the " +
        "lower what your readings say: nine times in ten it lies between. " +
        "A reading that is off moves little; leave it out and it moves " +
        "nothing.")} />
            ${reply?.lessons.map((told) => html`
                <${Lesson} key=${told.lesson} told=${told} all=${all}
                    units=${units} />`)}
        </section>`;
}
