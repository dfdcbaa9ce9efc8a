/* One row of values in order: dots, the smoothed line, its limits and the place
 * of a step. Each value has the same room, so that a quiet day takes none. */

import { html, useRef, useWidth } from "../../lib/view.js";
import { writeDayName } from "../../lib/dates.js";
import { writeNumber } from "../../lib/quantity.js";
import { t } from "../../lib/say.js";
import { linePath, valueAxis } from "../../life/axis.js";

const TOP = 34;
const BOTTOM = 226;
const HEIGHT = 262;
const LEFT = 56;
const RIGHT = 12;
const DAY_PX = 76;

/* The first value of each day that has room for its name. */
function dayTicks(points, x) {
    const ticks = [];
    points.forEach(({ at_ms }, i) => {
        const name = writeDayName(at_ms);
        const last = ticks.at(-1);
        const isNew = i === 0 || writeDayName(points[i - 1].at_ms) !== name;
        if (isNew && (!last || x(i) - last.x >= DAY_PX))
            ticks.push({ x: x(i), name });
    });
    return ticks;
}

function scales(series, width, shown) {
    const { points, upper, lower } = series;
    const all = [upper, lower, ...points.map(({ value }) => value),
        ...points.map(({ smoothed }) => smoothed)].map(shown);
    const values = valueAxis(Math.min(...all), Math.max(...all), BOTTOM, TOP,
        5);
    const gap = (width - LEFT - RIGHT) / points.length;
    return { values, x: (i) => LEFT + (i + 0.5) * gap,
        y: (value) => values.y(shown(value)) };
}

function Ground({ values, days, right }) {
    return html`
        ${values.ticks.map((value) => html`
            <line key=${value} class="rule" x1=${LEFT} x2=${right}
                y1=${values.y(value)} y2=${values.y(value)} />
            <text key=${`n${value}`} class="tick" x=${LEFT - 10}
                y=${values.y(value) + 5} text-anchor="end">
                ${writeNumber(value, 2)}</text>`)}
        ${days.map(({ x, name }) => html`
            <line key=${name} class="rule" x1=${x} x2=${x} y1=${BOTTOM}
                y2=${BOTTOM + 6} />
            <text key=${`n${name}`} class="tick" x=${x} y=${BOTTOM + 24}
                text-anchor=${x > right - 40 ? "end" : "start"}>${name}</text>`)}`;
}

function Step({ series, x, right }) {
    const i = series.points.findIndex(({ at_ms }) =>
        at_ms === series.step.since_ms);
    const at = i > 0 ? (x(i - 1) + x(i)) / 2 : x(i);
    return html`
        <line class="step" x1=${at} x2=${at} y1=${TOP - 8} y2=${BOTTOM} />
        <text class="name" x=${at + (at > right - 80 ? -6 : 6)} y=${TOP - 12}
            text-anchor=${at > right - 80 ? "end" : "start"}>
            ${t("since here")}</text>`;
}

/* shown: a value on the axis, in the person's unit; head: that unit. */
export function Chart({ series, name, head, shown }) {
    const frame = useRef(null);
    const width = useWidth(frame);
    if (!width)
        return html`<div ref=${frame} class="drift-chart"></div>`;
    const { values, x, y } = scales(series, width, shown);
    const right = width - RIGHT;
    const level = (value, kind) => html`<line class=${kind} x1=${LEFT}
        x2=${right} y1=${y(value)} y2=${y(value)} />`;
    return html`
        <div ref=${frame} class="drift-chart">
            <svg width=${width} height=${HEIGHT} role="img" aria-label=${name}>
                <text class="head" x="0" y="14">${head}</text>
                <${Ground} values=${values} right=${right}
                    days=${dayTicks(series.points, x)} />
                ${level(series.upper, "limit")}
                ${level(series.lower, "limit")}
                ${level(series.centre, "centre")}
                ${series.points.map(({ value }, i) => html`
                    <circle key=${i} class="value" cx=${x(i)} cy=${y(value)}
                        r="3" />`)}
                <path class="smoothed" d=${linePath(series.points.map((_, i) =>
        x(i)), series.points.map(({ smoothed }) => y(smoothed)))} />
                ${series.points.map(({ smoothed, alarm }, i) => alarm && html`
                    <path key=${i} class="alarm" d=${`M${x(i)},` +
        `${y(smoothed) - 6}l6,6-6,6-6-6z`} />`)}
                ${series.step && html`<${Step} series=${series} x=${x}
                    right=${right} />`}
            </svg>
        </div>`;
}
