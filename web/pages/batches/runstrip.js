/* The run on one time axis: each batch in the mixer, then on the bench, the
 * next mixing while this one is boxed. The same times stand as a table. */

import { html, useName } from "../../lib/view.js";
import { writeClock } from "../../lib/dates.js";
import { t } from "../../lib/say.js";

const WIDTH = 720;
const ROW = 34;
const AXIS = 26;
const LEFT = 36;

/* Ticks at whole quarters, halves or hours: at most seven. */
function ticksOf(from, to) {
    const step = [15, 30, 60, 120, 240, 480].map((min) => min * 60000)
        .find((one) => (to - from) / one <= 7) ?? 86400000;
    const first = Math.ceil(from / step) * step;
    return Array.from({ length: Math.floor((to - first) / step) + 1 },
        (_, i) => first + i * step);
}

function Bar({ from, to, y, kind, x }) {
    return html`<rect class=${kind} x=${x(from)} y=${y + 5}
        width=${Math.max(2, x(to) - x(from))} height=${ROW - 10} />`;
}

function Picture({ run, name }) {
    const { start_ms, boxed_ms, batches } = run;
    const x = (ms) => LEFT + (ms - start_ms) / (boxed_ms - start_ms) *
        (WIDTH - LEFT - 8);
    const height = batches.length * ROW + AXIS;
    return html`
        <svg class="run-strip" viewBox=${`0 0 ${WIDTH} ${height}`} role="img"
            aria-labelledby=${name}>
            ${ticksOf(start_ms, boxed_ms).map((ms) => html`
                <line key=${ms} x1=${x(ms)} x2=${x(ms)} y1="0"
                    y2=${height - AXIS} />
                <text key=${`t${ms}`} x=${x(ms)} y=${height - 6}
                    text-anchor="middle">${writeClock(ms)}</text>`)}
            ${batches.map((line, i) => html`
                <text key=${line.name} x="4" y=${i * ROW + 22}>
                    ${line.name}</text>
                <${Bar} key=${`m${line.name}`} kind="mix" y=${i * ROW} x=${x}
                    from=${line.mix_start_ms} to=${line.dough_out_ms} />
                <${Bar} key=${`b${line.name}`} kind="at-bench" y=${i * ROW}
                    x=${x} from=${line.dough_out_ms} to=${line.boxed_ms} />`)}
        </svg>`;
}

function Table({ run }) {
    return html`
        <table class="run-table">
            <thead><tr class="quiet">
                <th scope="col">${t("Batch")}</th>
                <th scope="col" class="number">${t("Mix")}</th>
                <th scope="col" class="number">${t("Dough out")}</th>
                <th scope="col" class="number">${t("Boxed")}</th>
                <th scope="col" class="number">${t("Close by")}</th>
            </tr></thead>
            <tbody>${run.batches.map((line) => html`
                <tr key=${line.name}>
                    <th scope="row">${line.name}</th>
                    <td class="number">${writeClock(line.mix_start_ms)}</td>
                    <td class="number">${writeClock(line.dough_out_ms)}</td>
                    <td class="number">${writeClock(line.boxed_ms)}</td>
                    <td class="number">${line.stacks.length
        ? writeClock(Math.max(...line.stacks.map((one) => one.close_ms)))
        : "\u2013"}</td>
                </tr>`)}
            </tbody>
        </table>`;
}

export function RunStrip({ run }) {
    const name = useName("run");
    return html`
        <figure class="stack">
            <figcaption id=${name} class="run-key">
                <span class="key mix"></span> ${t("in the mixer")}
                <span class="key at-bench"></span> ${t("on the bench")}
            </figcaption>
            <${Picture} run=${run} name=${name} />
            <div class="wide"><${Table} run=${run} /></div>
        </figure>`;
}
