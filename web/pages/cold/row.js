/* One stack: what it is, how much is left, its life as a strip, what comes
 * next and one button. */

import { html, useLayoutEffect, useRef, useState } from "../../lib/view.js";
import { writeClock, writeDayName } from "../../lib/dates.js";
import { zone } from "../../lib/person.js";
import { t, tn } from "../../lib/say.js";
import { civilOf, momentOf } from "../../lib/shoptime.js";
import { Mark, Strip } from "../../life/strip.js";
import { readinessWord, zonesOf } from "../../life/words.js";
import { fateSentence } from "./fates.js";
import { StackWhy } from "./why.js";
import { nextWords } from "./words.js";

const HOUR_MS = 3600000;
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

/* Of a stack and its life: its own, or as it would be. */
function windowOf({ days }, life, axis) {
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

/* If something happens, what was planned is a thin strip over what becomes of
 * it. */
const BEFORE = { y: 9, height: 7 };
const AFTER = { y: 19, height: 20 };

function Strips({ stack, fate, axis }) {
    const { life } = stack;
    const height = life ? STRIP.high : STRIP.thin;
    const zones = (of) => zonesOf(windowOf(stack, of, axis), -Infinity);
    return fate?.verdict ? html`
        <${Strip} zones=${zones(fate.before)} axis=${axis} ...${BEFORE} />
        <${Strip} zones=${zones(fate.after)} axis=${axis} ...${AFTER} />`
        : html`<${Strip} zones=${zones(life)} axis=${axis} height=${height}
            y=${STRIP.top + (STRIP.high - height) / 2} />`;
}

function Life({ stack, fate, axis }) {
    const { days } = stack;
    const end = fate?.verdict ? fate.after.end : stack.life?.end;
    return html`
        <svg class="strip-cell" width=${axis.width} height=${STRIP.height}
            aria-hidden="true">
            ${axis.days.map((ms) => html`<line key=${ms} class="rule"
                x1=${axis.x(axis.h(ms))} x2=${axis.x(axis.h(ms))} y1="0"
                y2=${STRIP.height} />`)}
            <${Span} name="thumb" axis=${axis} y=${4}
                from=${axis.h(days.ready_ms)} to=${axis.h(days.end_ms)} />
            <${Strips} stack=${stack} fate=${fate} axis=${axis} />
            ${end?.early_ms > 0 && html`
                <${Span} name="sure" axis=${axis} y=${STRIP.height - 5}
                    from=${axis.h(end.early_ms)}
                    to=${end.late_ms ? axis.h(end.late_ms)
        : axis.span_h} />`}
            <line class="now" x1=${axis.x(0)} x2=${axis.x(0)} y1="0"
                y2=${STRIP.height} />
        </svg>`;
}

/* --- all of it ------------------------------------------------------------ */

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

/* What its button says: what comes next, or what becomes of it. */
function Says({ stack, fate, banded, now, onWhy }) {
    const name = fate?.verdict === "past" ? "past"
        : fate?.verdict === "use_first" ? "use_first" : stack.readiness;
    return html`
        <div class="strip-says">
            <button type="button" class="plain says" aria-haspopup="dialog"
                onClick=${onWhy}>
                <${Mark} name=${name} />
                <span>${fate
        ? html`<span class="ask" data-verdict=${fate.verdict ??
        "none"}>
            ${fateSentence(fate, banded)}</span>`
        : html`<b>${readinessWord(name)}</b>, <span class="ask">
            ${nextWords(stack, now)}</span>`}</span>
            </button>
            ${!fate && html`<${Open} stack=${stack} now=${now} />`}
        </div>`;
}

/* fate: what becomes of it if something happens; null when nothing is asked. */
export function Row({ stack, fate, banded, axis, now, first, units, limits,
    verb, words, all, onMove }) {
    const [why, setWhy] = useState(false);
    return html`
        ${first && html`<li class="past-head"><h2>
            ${t("Past")}</h2></li>`}
        <li class="strip-row" data-state=${stack.readiness}>
            <${Left} stack=${stack} />
            ${axis.width > 0 && html`<${Life} stack=${stack} fate=${fate}
                axis=${axis} />`}
            <${Says} stack=${stack} fate=${fate} banded=${banded} now=${now}
                onWhy=${() => setWhy(true)} />
            ${stack.stack_id > 0 && !fate && html`
                <button type="button" data-verb=${verb} onClick=${onMove}>
                    ${all ? t("{verb} all", { verb: words })
        : t("{verb} a box", { verb: words })}
                    <span class="only-heard">${stack.name}</span>
                </button>`}
            ${why && html`<${StackWhy} stack=${stack} fate=${fate} now=${now}
                banded=${banded} units=${units} limits=${limits}
                onClose=${() => setWhy(false)} />`}
        </li>`;
}
