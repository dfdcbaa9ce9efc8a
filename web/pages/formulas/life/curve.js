/* The life drawn: legs, temperatures, rise with its band, the window as one
 * strip, all over one time. What can be moved has a grip. */

import { html, useRef, useWidth } from "../../../lib/view.js";
import { inPersonUnits, toCelsius, writeNumber, writeQuantity }
    from "../../../lib/quantity.js";
import { t } from "../../../lib/say.js";
import { areaPath, at, linePath, timeAxis, timeTicks, valueAxis }
    from "../../../life/axis.js";
import { Strip } from "../../../life/strip.js";
import { MOMENTS, aboutHours, gasLimits, readinessWord, stateOf, zonesOf }
    from "../../../life/words.js";
import { barsOf, LEAST_H, LONGEST_H } from "./history.js";
import { Grip } from "./grip.js";

const LEGS = { top: 34, height: 22 };
const TEMP = { top: 88, bottom: 240 };
const RISE = { top: 288, bottom: 438 };
const STRIP = { top: 462, height: 32 };
const ROWS = { top: 506, height: 23 };
const AXIS = ROWS.top + 4 * ROWS.height + 6;
const HEIGHT = AXIS + 34;
const LEFT = 54;
const RIGHT = 14;

const legWords = () => ({ bench: t("bench"), open: t("open"),
    closed: t("closed"), out: t("out") });

/* Rough width of a text of 16 px, to leave out what would not fit. */
const widthOf = (text) => text.length * 8.2;

/* --- the ground ---------------------------------------------------------- */

const hourText = (h) => h === 0 ? "0"
    : t("{n}\u00a0h", { n: writeNumber(h, 2) });

function Ground({ axis }) {
    const ticks = timeTicks(axis);
    return html`
        <g aria-hidden="true">
            ${axis.early_h > 0 && html`
                <rect class="early" x=${axis.left} y=${LEGS.top - 8}
                    width=${axis.turn - axis.left}
                    height=${AXIS - LEGS.top + 8} />`}
            ${ticks.map((h) => html`
                <line key=${h} class="rule" x1=${axis.x(h)} x2=${axis.x(h)}
                    y1=${TEMP.top} y2=${AXIS} />
                <text key=${`n${h}`} class="tick" x=${axis.x(h)} y=${AXIS + 20}
                    text-anchor=${axis.x(h) > axis.right - 8 ? "end"
        : "middle"}>${hourText(h)}</text>`)}
        </g>`;
}

function Values({ axis, left, right }) {
    return axis.ticks.map((value) => html`
        <line key=${value} class="rule" x1=${left} x2=${right}
            y1=${axis.y(value)} y2=${axis.y(value)} />
        <text key=${`n${value}`} class="tick" x=${left - 14}
            y=${axis.y(value) + 5} text-anchor="end">${writeNumber(value, 2)}</text>`);
}

function Legs({ axis, bars }) {
    const words = legWords();
    return bars.map(([name, from, to]) => {
        const x = axis.x(from);
        const width = axis.x(Math.min(to, axis.span_h)) - x;
        return html`
            <g key=${name} aria-hidden="true">
                <rect class=${`leg ${name}`} x=${x} y=${LEGS.top}
                    width=${Math.max(0, width)} height=${LEGS.height} />
                ${widthOf(words[name]) < width - 8 && html`
                    <text class="leg-name" x=${x + width / 2}
                        y=${LEGS.top + 16} text-anchor="middle">
                        ${words[name]}</text>`}
            </g>`;
    });
}

/* --- curves -------------------------------------------------------------- */

/* Where core and skin are furthest apart: there is room for their names. */
function widest(life, axis) {
    let best = 0;
    for (let i = 1; i < life.time_h.length; i++) {
        const x = axis.x(life.time_h[i]);
        if (x > axis.left + 70 && x < axis.right - 70 &&
            (!best || life.core_c[i] - life.skin_c[i] >
                life.core_c[best] - life.skin_c[best]))
            best = i;
    }
    return best;
}

function Temperatures({ life, axis, ys }) {
    const xs = life.time_h.map(axis.x);
    const y = (list) => list.map(ys.y);
    const i = widest(life, axis);
    const skin = t("skin");
    return html`
        <g aria-hidden="true">
            <path class="body" d=${areaPath(xs, y(life.core_c),
        y(life.skin_c))} />
            <path class="skin" d=${linePath(xs, y(life.skin_c))} />
            <path class="mean" d=${linePath(xs, y(life.mean_c))} />
            <path class="core" d=${linePath(xs, y(life.core_c))} />
            <text class="name" x=${xs[i] + 8} y=${ys.y(life.core_c[i]) - 8}>
                ${t("core")}</text>
            <text class="name" y=${ys.y(life.skin_c[i]) + 18}
                x=${Math.max(axis.left + 4, xs[i] - 8 - widthOf(skin))}>
                ${skin}</text>
        </g>`;
}

function Rise({ life, curve, band, axis, ys, name }) {
    const xs = life.time_h.map(axis.x);
    const y = (list) => list.map(ys.y);
    const h = axis.span_h * 0.97;
    return html`
        <g aria-hidden="true" clip-path="url(#rise-panel)">
            <clipPath id="rise-panel"><rect x=${axis.left} y=${RISE.top - 4}
                width=${axis.right - axis.left}
                height=${RISE.bottom - RISE.top + 8} /></clipPath>
            ${band && html`<path class="band" d=${areaPath(band.time_h
        .map(axis.x), y(band.p95), y(band.p05))} />`}
            <path class="core" d=${linePath(xs, y(curve))} />
            <text class="name" x=${axis.x(h)} text-anchor="end"
                y=${ys.y(at(life.time_h, curve, h)) + 26}>${name}</text>
        </g>`;
}

/* --- the window ---------------------------------------------------------- */

function Whisker({ name, row, axis, window, band }) {
    const y = ROWS.top + (row + 0.5) * ROWS.height;
    const h = window[name];
    const to = (one) => axis.x(Math.min(one ?? axis.span_h, axis.span_h));
    const low = band?.p05 ?? h;
    if (low === null || low > axis.span_h)
        return null;
    const right = to(band ? band.p95 : h);
    const left = to(low);
    const word = readinessWord(stateOf[name]);
    const after = right + 10 + widthOf(word) < axis.right + RIGHT;
    return html`
        <g class=${`whisker ${stateOf[name]}`} aria-hidden="true">
            <line x1=${left} x2=${right} y1=${y} y2=${y} />
            ${h !== null && h <= axis.span_h && html`
                <circle cx=${axis.x(h)} cy=${y} r="5" />`}
            <text x=${after ? right + 10 : Math.min(left, to(h)) - 10}
                y=${y + 5} text-anchor=${after ? "start" : "end"}>${word}</text>
        </g>`;
}

function Window({ window, band, axis }) {
    const marks = MOMENTS.filter((name) => window[name] !== null &&
        window[name] <= axis.span_h);
    return html`
        ${marks.map((name) => html`
            <line key=${name} class=${`moment ${stateOf[name]}`}
                x1=${axis.x(window[name])} x2=${axis.x(window[name])}
                y1=${TEMP.top} y2=${STRIP.top + STRIP.height} />`)}
        <${Strip} zones=${zonesOf(window)} axis=${axis} y=${STRIP.top}
            height=${STRIP.height} />
        ${MOMENTS.map((name, row) => html`
            <${Whisker} key=${name} name=${name} row=${row} axis=${axis}
                window=${window} band=${band?.window[name]} />`)}`;
}

/* --- what can be moved --------------------------------------------------- */

function TimeGrip({ name, sign, field, h, from_h, axis, onMove, low, high }) {
    const x = axis.x(Math.min(h, axis.span_h));
    const near = x > axis.right - 40 ? "end" : "middle";
    return html`
        <${Grip} name=${name} said=${aboutHours(h - from_h)} value=${h}
            low=${low} high=${high} step=${h < 4 ? 1 / 60 : 0.25} x=${x}
            y=${LEGS.top + LEGS.height / 2} read=${(point) => axis.h(point.x)}
            onValue=${(to, rest) => onMove(field, to - from_h, rest)}>
            <line class="edge" x1=${x} x2=${x} y1=${LEGS.top - 6}
                y2=${TEMP.bottom} />
            <text x=${near === "end" ? axis.right + RIGHT : x}
                y=${LEGS.top - 12} text-anchor=${near}>${sign}</text>
        <//>`;
}

function TimeGrips({ history, axis, onMove }) {
    const { bench_h, open_h, out_h } = history;
    const closing = bench_h + open_h;
    return html`
        <${TimeGrip} name=${t("Into the cold room")} sign=${t("boxed")}
            field="bench_h" h=${bench_h} from_h=${0} axis=${axis} low=${LEAST_H} high=${4}
            onMove=${onMove} />
        <${TimeGrip} name=${t("Close the stack")} sign=${t("closed")}
            field="open_h" h=${closing} from_h=${bench_h} axis=${axis} low=${bench_h + LEAST_H}
            high=${bench_h + 48} onMove=${onMove} />
        <${TimeGrip} name=${t("Take it out")} field="out_h"
            sign=${out_h === null ? t("stays in") : t("taken out")} h=${out_h ?? axis.span_h} from_h=${0} axis=${axis}
            low=${closing + LEAST_H} high=${Math.min(LONGEST_H, axis.span_h)}
            onMove=${(field, h, rest) => onMove(field,
        h >= axis.span_h - 1e-6 ? null : h, rest)} />`;
}

function LevelGrip({ name, field, value, units, ys, x, low, high, onMove }) {
    return html`
        <${Grip} upright name=${name} value=${value} low=${low} high=${high}
            said=${writeQuantity(value, "temperature", units)}
            step=${units === "us" ? 5 / 18 : 0.25} x=${x} y=${ys.y(value)}
            read=${(point) => ys.value(point.y)}
            onValue=${(to, rest) => onMove(field, to, rest)} />`;
}

function Air({ name, value, ys, axis, className }) {
    return html`
        <g aria-hidden="true">
            <line class=${`air ${className}`} x1=${axis.left} x2=${axis.right}
                y1=${ys.y(value)} y2=${ys.y(value)} />
            <text class=${`name ${className}`} x=${axis.right - 34}
                y=${ys.y(value) - 8} text-anchor="end">${name}</text>
        </g>`;
}

/* --- all of it ----------------------------------------------------------- */

/* Degrees of the axis, in the person's units, held in °C. */
function temperatureAxis(life, history, units) {
    const shown = (c) => inPersonUnits(c, units);
    const low = Math.min(history.cold_c, ...life.skin_c, history.room_c) - 1;
    const high = Math.max(history.room_c, ...life.core_c) + 1;
    const axis = valueAxis(shown(low), shown(high), TEMP.bottom, TEMP.top,
        6);
    return { printed: axis, y: (c) => axis.y(shown(c)),
        value: (y) => toCelsius(axis.value(y), units) };
}

function riseAxis(curve, band, limits) {
    const top = Math.max(...curve, ...(band?.p95 ?? []), ...limits) * 1.02;
    /* Gas far past its last limit is cut: what matters lies under it. */
    const high = limits.length ? Math.min(top, limits.at(-1) * 1.35) : top;
    const axis = valueAxis(limits.length ? 0 : 1, high, RISE.bottom,
        RISE.top);
    return limits.length ? { ...axis, ticks: [0, ...limits] } : axis;
}

/* What is drawn of the rise: volume against its start, or gas. */
const RISES = {
    volume_ratio: () => ({ head: t("times its size off the mixer"),
        name: t("size"), limits: [] }),
    gas_ml_per_100g_flour: (limits) => ({
        head: t("mL of gas in 100 g of flour"), name: t("gas"),
        limits: gasLimits(limits) }),
};

/* life: reply of piece.life; band: { time_h, band } of an earlier one or
 * null; what: which rise; view: { span_h, early_h }. */
export function Curve({ life, band, what, history, dough_c, cold, view, units,
    onMove }) {
    const frame = useRef(null);
    const width = useWidth(frame);
    const axis = timeAxis(view.span_h, view.early_h, LEFT, width - RIGHT);
    const temps = temperatureAxis(life, history, units);
    const rise = RISES[what](life.limits);
    const curve = life[what];
    const spread = band && { ...band.band[what], time_h: band.time_h };
    const rises = riseAxis(curve, spread, rise.limits);
    const box = { left: axis.left, right: axis.right };
    return html`
        <div ref=${frame} class="curve">${width > 0 && html`
            <svg width=${width} height=${HEIGHT} role="group"
                aria-label=${t("The life of a ball over time")}>
                <${Ground} axis=${axis} />
                <g aria-hidden="true">
                    <text class="head" x="0" y=${TEMP.top - 12}>
                        ${units === "us" ? "°F" : "°C"}</text>
                    <${Values} axis=${temps.printed} ...${box} />
                    <text class="head" x="0" y=${RISE.top - 14}>
                        ${rise.head}</text>
                    <${Values} axis=${rises} ...${box} />
                </g>
                <${Legs} axis=${axis} bars=${barsOf(history, cold,
        view.span_h)} />
                ${cold && html`<${Air} name=${t("cold room")} axis=${axis}
                    value=${history.cold_c} ys=${temps} className="cold" />`}
                ${!cold && html`<${Air} name=${t("kitchen")} axis=${axis}
                    value=${history.room_c} ys=${temps} className="warm" />`}
                <${Temperatures} life=${life} axis=${axis} ys=${temps} />
                <${Rise} life=${life} curve=${curve} band=${spread}
                    axis=${axis} ys=${rises} name=${rise.name} />
                <${Window} window=${life.window} band=${band?.band}
                    axis=${axis} />
                ${cold && html`<${TimeGrips} history=${history} axis=${axis}
                    onMove=${onMove} />`}
                <${LevelGrip} name=${t("Dough temperature")} field="dough_c"
                    value=${dough_c} ys=${temps} x=${axis.left} units=${units}
                    low=${5} high=${45} onMove=${onMove} />
                <${LevelGrip} name=${cold ? t("Air of the cold room")
        : t("Air of the kitchen")} field=${cold ? "cold_c" : "room_c"}
                    value=${cold ? history.cold_c : history.room_c}
                    ys=${temps} x=${axis.right - 12} units=${units}
                    low=${cold ? -0.5 : 10} high=${cold ? 15 : 45}
                    onMove=${onMove} />
            </svg>`}
        </div>`;
}
