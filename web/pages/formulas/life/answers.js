/* The other way round: not what becomes of this dough, but what to do so that
 * it is good when it is wanted. One question at a time; each answer has its
 * band, says why, and can be taken over with one tap. */

import { html, useState } from "../../../lib/view.js";
import { writePercentNumber, writeQuantity }
    from "../../../lib/quantity.js";
import { t } from "../../../lib/say.js";
import { useBanded } from "../../../life/banded.js";
import { Field } from "../../../life/field.js";
import { HurryAnswer } from "../../../life/hurry.js";
import { MOMENTS, aboutHours, betweenHours, momentWord, rulesOf, summaryOf,
    sourceOfRules } from "../../../life/words.js";
import { Pick } from "../../../parts/pick.js";
import { Why } from "../../../parts/why.js";
import { lifeRequest } from "./history.js";
import { inputsOf } from "./moments.js";
import { Transfer } from "./transfer.js";

const hours = (h, units) => writeQuantity(h, "time", units);
const degrees = (c, units) => writeQuantity(c, "temperature", units);
export const percent = (value) => t("{n} %", { n: writePercentNumber(value) });
export const yeastOf = (formula) =>
    formula.lines.find((line) => line.kind.startsWith("yeast_"));

/* said: the answer; sure: how sure it is; why: props of Why but its title and
 * value; taps: [[words, what it does]]. */
export function Told({ title, said, sure, why, taps = [] }) {
    const [open, setOpen] = useState(false);
    return html`
        <p class="comes-to"><button type="button" class="plain ask"
            aria-haspopup="dialog" onClick=${() => setOpen(true)}>
            ${said}</button></p>
        <p aria-live="polite">${sure}</p>
        ${taps.length > 0 && html`<div class="row screen-only">
            ${taps.map(([words, onTap]) => html`<button type="button"
                key=${words} onClick=${onTap}>${words}</button>`)}</div>`}
        ${open && html`<${Why} title=${title} value=${said} ...${why}
            onClose=${() => setOpen(false)} />`}`;
}

export const Refused = ({ refusal }) => refusal && html`
    <p class="trouble" role="alert">${refusal.message}</p>`;

/* --- yeast, dough temperature -------------------------------------------- */

export function MarkPick({ mark, onMark }) {
    return html`<${Pick} name=${t("What should come")} value=${mark}
        options=${MOMENTS.map((one) => [one, momentWord(one)])}
        onPick=${onMark} />`;
}

/* A wanted hour of the window: which, and when. */
function useWish(life) {
    const [mark, setMark] = useState("best_from_h");
    const [wish, setWish] = useState(() => Math.round(life.window.best_from_h ??
        life.window.ready_h ?? 24));
    return { mark, wish, setMark, setWish };
}

function Wish({ wanted, units }) {
    return html`
        <div class="blanks">
            <${MarkPick} mark=${wanted.mark} onMark=${wanted.setMark} />
            <${Field} name=${t("After the mixer stopped")}
                value=${wanted.wish} dimension="time" bare="h" low=${0.25}
                high=${336} units=${units} onValue=${wanted.setWish} />
        </div>`;
}

const sureOf = (reply, banded) => summaryOf({ window: reply.life.window,
    band: banded?.life.band });

const goalInputs = ({ mark, wish }, units) => [[t("Wanted"),
    t("{moment} after {time}", { moment: momentWord(mark),
        time: hours(wish, units) })]];

/* What a wish asks and how it is told, for yeast and for warmth alike. */
function Wished({ op, title, life, ask, learned, units, said, taps, days }) {
    const wanted = useWish(life);
    const { reply, refusal, banded } = useBanded(op, (members) => ({
        life: ask(members), mark: wanted.mark, wanted_h: wanted.wish }));
    const request = ask(0);
    return html`
        <${Wish} wanted=${wanted} units=${units} />
        <${Refused} refusal=${refusal} />
        ${reply && !refusal && html`
            <${Told} title=${title} said=${said(reply)}
                sure=${sureOf(reply, banded)} taps=${taps(reply)}
                why=${{ rule: days, source: sourceOfRules(),
        inputs: [...goalInputs(wanted, units), ...inputsOf(request,
            request.formula, banded?.life.band, learned, wanted.mark, units)],
        equation: t("The same life is lived again with one thing changed, " +
            "until the moment comes when it is wanted. {rule}", {
            rule: rulesOf(reply.life.window.end_reason,
                reply.life.limits)[wanted.mark] }) }} />`}`;
}

function Yeast({ formula, onYeast, ...rest }) {
    const yeast = yeastOf(formula);
    return html`<${Wished} op="piece.yeast" title=${t("How much yeast?")}
        ...${rest} said=${(reply) => t("{yeast} {percent} instead of {now}", {
        yeast: yeast?.material ?? t("Yeast"), now: percent(yeast?.percent ?? 0),
        percent: percent(reply.percent) })}
        taps=${(reply) => [[t("Write it into the formula"),
        () => onYeast(reply.percent)]]} />`;
}

function Warmth({ dough_c, onMove, units, ...rest }) {
    return html`<${Wished} op="piece.warmth" units=${units} ...${rest}
        title=${t("How warm should the dough be?")}
        said=${(reply) => t("dough at {celsius} instead of {now}", {
        celsius: degrees(reply.dough_c, units), now: degrees(dough_c, units) })}
        taps=${(reply) => [[t("Draw it so"),
        () => onMove("dough_c", reply.dough_c, true)]]} />`;
}

/* --- closing, pulling ---------------------------------------------------- */

const moment = ({ early_h, late_h }) =>
    betweenHours({ p05: early_h, p95: late_h });

function Close({ ask, history, learned, shop, units, onMove }) {
    const core = { high: shop?.shop?.close_core_high_c ?? 115 / 9,
        low: shop?.shop?.close_core_low_c ?? 10 };
    const { reply, refusal } = useBanded("piece.close", () => ({
        life: ask(0), close_from_core_c: core.high, close_by_core_c: core.low,
        closed_h_w_per_m2_k: history.closed_h_w_per_m2_k }));
    return html`
        <${Refused} refusal=${refusal} />
        ${reply && !refusal && html`
            <${Told} title=${t("When to close the stack?")}
                said=${t("Close it {from} to {by} after the mixer stopped", {
        from: hours(reply.from_h.at_h, units),
        by: hours(reply.by_h.at_h, units) })}
                sure=${t("At the latest after {span}, as the air takes the " +
        "heat better or worse than told.", { span: moment(reply.by_h) })}
                taps=${[[t("Draw it so"), () => onMove("open_h",
        reply.by_h.at_h - history.bench_h, true)]]}
                why=${{ inputs: [
        [t("Core from"), degrees(core.high, units)],
        [t("Core by"), degrees(core.low, units)],
        [t("Past, closed at the first"),
            aboutHours(reply.closed_from.end_h)],
        [t("Past, closed at the last"), aboutHours(reply.closed_by.end_h)],
        ...inputsOf(ask(0), ask(0).formula, null, learned, "end_h", units)],
    equation: t("The core of the ball is followed through its life, the " +
        "yeast's own heat included, until it is that cold."),
    rule: t("open for 2 to 3 h, until the core is at 50 to 55 °F (10 to " +
        "13 °C)"),
    source: t("Cooling of a sphere, docs/models/cooling.md; core 50 to 55 " +
        "°F (10 to 13 °C) before closing: common practice, no source.") }} />`}`;
}

/* The history as it is before anybody takes the ball out. */
const staying = (of, opening_h) => lifeRequest({ ...of, members: 0,
    span_h: opening_h + 1, history: { ...of.history, out_h: null } });

function Pull({ of, history, learned, units, onMove }) {
    const [opening_h, setOpening] = useState(history.out_h !== null
        ? Math.round(history.out_h + 2) : 48);
    const life = staying(of, opening_h);
    const { reply, refusal } = useBanded("piece.pull", () => ({ life,
        opening_h, room_c: history.room_c }));
    const before = (h) => hours(opening_h - h, units);
    return html`
        <div class="blanks">
            <${Field} name=${t("Opened after the mixer stopped")}
                value=${opening_h} dimension="time" bare="h" low=${1}
                high=${330} units=${units} onValue=${setOpening} />
        </div>
        <${Refused} refusal=${refusal} />
        ${reply && !refusal && html`
            <${Told} title=${t("When to pull the boxes?")}
                said=${reply.from_h
        ? t("Take them out {from} to {by} before they are opened", {
            from: before(reply.from_h.at_h), by: before(reply.by_h.at_h) })
        : t("Take them out {by} before they are opened, or sooner", {
            by: before(reply.by_h.at_h) })}
                sure=${t("At the latest {late} to {early} before, as the air " +
        "warms them better or worse than told. Core at opening {core}.", {
        late: before(reply.by_h.late_h), early: before(reply.by_h.early_h),
        core: degrees(reply.core_c, units) })}
                taps=${[[t("Draw it so"), () => onMove("out_h", reply.pull_h,
        true)]]}
                why=${{ inputs: [
        [t("Kitchen"), degrees(history.room_c, units)],
        [t("Core at opening"), t("{low} to {high}", {
            low: degrees(10, units), high: degrees(140 / 9, units) })],
        ...inputsOf(life, life.formula, null, learned, "end_h", units)],
    equation: t("The ball warms from outside in, in the kitchen's air; its " +
        "core is to be between these two when it is opened."),
    rule: t("one to two hours out of the cold, until the ball is at 50 to " +
        "60 °F (10 to 16 °C)"),
    source: t("Warming of a sphere, docs/models/answers.md; 50 to 60 °F (10 " +
        "to 16 °C) for opening: common practice, no source.") }} />`}`;
}

/* --- all of them --------------------------------------------------------- */

const questions = (cold) => [
    ["yeast", t("How much yeast?")],
    ["warmth", t("How warm should the dough be?")],
    ...(cold ? [["close", t("When to close the stack?")],
        ["pull", t("When to pull the boxes?")]] : []),
    ["transfer", t("In another shop")],
    ["hurry", t("Emergency dough")],
];
const ANSWERS = { yeast: Yeast, warmth: Warmth, close: Close, pull: Pull,
    transfer: Transfer };

/* of: { formula, history, goal_c, cold, used }; life: reply of piece.life for it;
 * onMove(field, value, resting), onYeast(percent), onGoal(dough_c). */
export function Answers({ of, span_h, life, learned, dough_c, shop, days,
    units, onMove, onYeast, onGoal }) {
    const [asked, setAsked] = useState(null);
    const { formula, history, cold } = of;
    const ask = (members) => lifeRequest({ ...of, span_h, members });
    const Answer = ANSWERS[asked];
    function hurry({ percent: yeast, dough_c: warm }) {
        onYeast(yeast);
        onGoal(warm);
    }
    return html`
        <section class="stack answers" aria-labelledby="answers-head">
            <h3 id="answers-head">${t("The other way round")}</h3>
            <div class="row screen-only">${questions(cold).map(([name,
        words]) => html`
                <button type="button" key=${name}
                    aria-pressed=${asked === name}
                    onClick=${() => setAsked(asked === name ? null : name)}>
                    ${words}</button>`)}
            </div>
            ${Answer && html`<${Answer} key=${asked} of=${of} ask=${ask}
                life=${life} formula=${formula} history=${history}
                dough_c=${dough_c} learned=${learned} shop=${shop}
                days=${days} units=${units}
                onMove=${onMove} onYeast=${onYeast} onGoal=${onGoal} />`}
            ${asked === "hurry" && html`<${HurryAnswer} formula=${formula}
                piece_g=${history.piece_g} room_c=${history.room_c}
                used=${of.used}
                units=${units} onUse=${hurry} />`}
        </section>`;
}
