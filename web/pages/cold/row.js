/* One stack: what it is, how much is left, its life as a strip, what comes
 * next and one button. */

import { html, useLayoutEffect, useRef, useState } from "../../lib/view.js";
import { writeClock, writeDayName } from "../../lib/dates.js";
import { zone } from "../../lib/person.js";
import { writeQuantity } from "../../lib/quantity.js";
import { t, tn } from "../../lib/say.js";
import { civilOf, momentOf } from "../../lib/shoptime.js";
import { Mark, Strip } from "../../life/strip.js";
import { betweenHours, readinessWord, roundHours, rulesOf,
    sourceOfRules, zonesOf } from "../../life/words.js";
import { Why } from "../../parts/why.js";

const HOUR_MS = 3600000;
const LEAST_MS = 300000; /* nothing here is known to the minute */
const STRIP = { high: 26, thin: 12, top: 11, height: 48 };

/* --- the common axis ----------------------------------------------------- */

/* How wide a strip is: measured once for all of them. */
export function useAxisWidth() {
    const [width, set] = useState(0);
    const frame = useRef(null);
    useLayoutEffect(() => {
        const watch = new ResizeObserver(([entry]) =>
            set(Math.round(entry.contentRect.width)));
        watch.observe(frame.current);
        return () => watch.disconnect();
    }, []);
    return [width, frame];
}

/* The shop's midnights between two moments. */
function midnights(from, to) {
    const first = civilOf(from, zone()).day + 1;
    const last = civilOf(to, zone()).day;
    return Array.from({ length: last - first + 1 }, (_, i) =>
        momentOf(first + i, 0, zone()));
}

/* From a day ago to three days on; on a narrow screen half of that. */
export function axisOver(now, width) {
    const [from_h, span_h] = width < 480 ? [-12, 48] : [-24, 72];
    const px = width / (span_h - from_h);
    return { from_h, span_h, width, x: (h) => (h - from_h) * px,
        h: (ms) => (ms - now) / HOUR_MS,
        days: midnights(now + from_h * HOUR_MS, now + span_h * HOUR_MS) };
}

export function Head({ axis, now }) {
    const x = axis.x(0);
    const { days } = axis;
    const room = (ms, i) => (i + 1 < days.length ? axis.x(axis.h(days[i + 1]))
        : axis.width) - axis.x(axis.h(ms)) > 60;
    return html`
        <div class="strip-row strip-head" aria-hidden="true">
            <svg class="strip-cell" width=${axis.width} height="46">
                ${days.map((ms, i) => room(ms, i) && html`
                    <text key=${ms} class="tick" x=${axis.x(axis.h(ms)) + 6}
                        y="18">${writeDayName(ms)}</text>`)}
                <text class="now-word" x=${x} y="40" text-anchor="middle">
                    ${t("now {time}", { time: writeClock(now) })}</text>
            </svg>
        </div>`;
}

/* --- one strip ----------------------------------------------------------- */

const hoursOf = (ms, axis) => ms ? axis.h(ms) : null;

function windowOf(stack, axis) {
    const { life, days } = stack;
    const at = life ? { ready: life.ready.at_ms, best: life.best.at_ms,
        first: life.use_first.at_ms, end: life.end.at_ms }
        : { ready: days.ready_ms, best: days.best_ms,
            first: days.use_first_ms, end: days.end_ms };
    return { ready_h: hoursOf(at.ready, axis), best_from_h:
        hoursOf(at.best, axis), use_first_h: hoursOf(at.first, axis),
    end_h: hoursOf(at.end, axis) };
}

const inside = (axis, h) => axis.x(Math.min(Math.max(h, axis.from_h),
    axis.span_h));

/* A line from one moment to another, with a foot at each end in sight. */
function Span({ from, to, y, axis, name }) {
    if (to <= axis.from_h || from >= axis.span_h)
        return null;
    const feet = [from, to].filter((h) => h > axis.from_h && h < axis.span_h)
        .map((h) => `M${axis.x(h)},${y - 3}v6`).join("");
    return html`<path class=${name} d=${`M${inside(axis, from)},${y}` +
        `H${inside(axis, to)}${feet}`} />`;
}

function Life({ stack, axis }) {
    const { life, days } = stack;
    const height = life ? STRIP.high : STRIP.thin;
    const zones = zonesOf(windowOf(stack, axis), -Infinity);
    return html`
        <svg class="strip-cell" width=${axis.width} height=${STRIP.height}
            aria-hidden="true">
            ${axis.days.map((ms) => html`<line key=${ms} class="rule"
                x1=${axis.x(axis.h(ms))} x2=${axis.x(axis.h(ms))} y1="0"
                y2=${STRIP.height} />`)}
            <${Span} name="thumb" axis=${axis} y=${5}
                from=${axis.h(days.ready_ms)} to=${axis.h(days.end_ms)} />
            <${Strip} zones=${zones} axis=${axis} height=${height}
                y=${STRIP.top + (STRIP.high - height) / 2} />
            ${life?.end.early_ms > 0 && html`
                <${Span} name="sure" axis=${axis} y=${STRIP.height - 5}
                    from=${axis.h(life.end.early_ms)}
                    to=${life.end.late_ms ? axis.h(life.end.late_ms)
        : axis.span_h} />`}
            <line class="now" x1=${axis.x(0)} x2=${axis.x(0)} y1="0"
                y2=${STRIP.height} />
        </svg>`;
}

/* --- its words ----------------------------------------------------------- */

const turnsWords = (name, time) => ({
    ready: () => t("ready in about {time}", { time }),
    best: () => t("best in about {time}", { time }),
    use_first: () => t("use first in about {time}", { time }),
    past: () => t("past in about {time}", { time }),
})[name]();

function nextWords(stack, now) {
    if (!stack.next)
        return stack.readiness === "past"
            ? t("look at it, then throw it away") : t("stays so for 14 days");
    return turnsWords(stack.next,
        roundHours(Math.max(LEAST_MS, stack.next_ms - now) / HOUR_MS));
}

const noLife = (why) => ({
    form: t("There is no model for this form of dough; the shop's days hold."),
    dough: t("The dough's temperature was not read, so the shop's days hold."),
    times: t("It is not known when the mixer stopped and the boxes went in, " +
        "so the shop's days hold."),
    answer: t("What was read cannot be right, so the shop's days hold."),
})[why];

const agoOf = (moment, now) => ({
    p05: moment.early_ms ? (moment.early_ms - now) / HOUR_MS : null,
    p95: moment.late_ms ? (moment.late_ms - now) / HOUR_MS : null,
});

/* One life in twenty was past before now. */
const latestWords = ({ p95 }) => p95 !== null && p95 > 0
    ? t("perhaps already, {time} at most", { time: roundHours(p95) })
    : t("perhaps already");

function lifeInputs({ life }, now, units) {
    const degrees = (c) => writeQuantity(c, "temperature", units);
    const end = agoOf(life.end, now);
    return [
        [t("Dough off the mixer"), degrees(life.dough_c)],
        [t("Each ball weighs"), writeQuantity(life.piece_g / 1000, "mass",
            units)],
        [t("On the bench"), writeQuantity(life.bench_h, "time", units)],
        [life.closed ? t("Open in the cold") : t("Open, when closed as due"),
            writeQuantity(life.open_h, "time", units)],
        [life.air_read ? t("Cold room, as read") : t("Cold room, as set"),
            degrees(life.air_c)],
        ...(end.p05 === null ? [] : [[t("Past in, nine lives in ten"),
            end.p05 > 0 ? betweenHours(end) : latestWords(end)]]),
    ];
}

function StackWhy({ stack, now, units, onClose }) {
    const { life, days } = stack;
    const key = { ready: "ready_h", best: "best_from_h",
        use_first: "use_first_h", past: "end_h" }[stack.next] ?? "end_h";
    return html`
        <${Why} title=${stack.name} value=${nextWords(stack, now)}
            inputs=${life ? lifeInputs(stack, now, units) : []}
            equation=${life ? rulesOf(life.end_reason)[key]
        : noLife(stack.no_life)}
            source=${life ? sourceOfRules()
        : t("the shop's own days, common practice")}
            rule=${t("by the shop's days it is {state} and past from {day}", {
        state: readinessWord(days.readiness),
        day: writeDayName(days.end_ms) })} onClose=${onClose} />`;
}

function Left({ stack }) {
    return html`
        <div class="strip-name">
            <span class="left"><b>${stack.boxes_left}</b>${" "}<span
                class="quiet">${stack.boxes_left === 1 ? t("box")
        : t("boxes")}</span></span>
            <span>
                <span class="strong">${stack.name}</span>
                <span class="quiet">${[
        tn("{n} ball", "{n} balls", stack.balls_left),
        ...(stack.number ? [t("batch {n}", { n: stack.number })] : []),
        ...(stack.assumed ? [t("assumed")] : []),
    ].join(" \u00b7 ")}</span>
            </span>
        </div>`;
}

/* An open stack says when it is to be closed. */
function Open({ stack, now }) {
    if (!stack.stack_id || stack.closed_ms || !stack.close_due_ms ||
        !stack.batch_id)
        return null;
    return html`<span class="open-stack">${stack.close_due_ms > now
        ? t("Open: close it at {time}",
            { time: writeClock(stack.close_due_ms) })
        : t("Open: close it now, it was due at {time}",
            { time: writeClock(stack.close_due_ms) })}</span>`;
}

export function Row({ stack, axis, now, first, units, verb, words, all,
    onMove }) {
    const [why, setWhy] = useState(false);
    return html`
        ${first && html`<li class="past-head"><h2>
            ${t("Past")}</h2></li>`}
        <li class="strip-row" data-state=${stack.readiness}>
            <${Left} stack=${stack} />
            ${axis.width > 0 && html`<${Life} stack=${stack} axis=${axis} />`}
            <div class="strip-says">
                <button type="button" class="plain says" aria-haspopup="dialog"
                    onClick=${() => setWhy(true)}>
                    <${Mark} name=${stack.readiness} />
                    <span><b>${readinessWord(stack.readiness)}</b>, <span
                        class="ask">${nextWords(stack, now)}</span></span>
                </button>
                <${Open} stack=${stack} now=${now} />
            </div>
            ${stack.stack_id > 0 && html`
                <button type="button" data-verb=${verb} onClick=${onMove}>
                    ${all ? t("{verb} all", { verb: words })
        : t("{verb} a box", { verb: words })}
                    <span class="only-heard">${stack.name}</span>
                </button>`}
            ${why && html`<${StackWhy} stack=${stack} now=${now} units=${units}
                onClose=${() => setWhy(false)} />`}
        </li>`;
}
