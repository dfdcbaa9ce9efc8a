/* Readiness as a bar: hollow, quarter-filled, filled, filled with a notch,
 * crossed. Shape first, tone second; both the chart of a formula and the cold
 * room draw it. SVG, in the pixels of its owner. */

import { html } from "../lib/view.js";

const CROSS_PX = 18;

function Notched({ x, y, width, height }) {
    const half = Math.min(9, width / 2);
    const mid = x + width / 2;
    return html`<path class="fill" d=${`M${x},${y}H${mid - half}` +
        `l${half},${height * 0.55}l${half},${-height * 0.55}` +
        `H${x + width}v${height}H${x}Z`} />`;
}

function Crossed({ x, y, width, height }) {
    const count = Math.max(1, Math.floor(width / CROSS_PX));
    const step = width / count;
    const size = Math.min(step, height) * 0.3;
    const middle = y + height / 2;
    const crosses = Array.from({ length: count }, (_, i) => {
        const at = x + (i + 0.5) * step;
        return `M${at - size},${middle - size}l${2 * size},${2 * size}` +
            `M${at - size},${middle + size}l${2 * size},${-2 * size}`;
    });
    return html`<path class="cross" d=${crosses.join("")} />`;
}

const INSIDE = {
    not_yet: () => null,
    ready: ({ x, y, width, height }) => html`<rect class="fill" x=${x}
        y=${y + height * 0.75} width=${width} height=${height * 0.25} />`,
    best: (box) => html`<rect class="fill" ...${box} />`,
    use_first: Notched,
    past: Crossed,
};

/* One state over a box { x, y, width, height }. */
export function State({ name, ...box }) {
    const width = Math.max(0, box.width);
    const Inside = INSIDE[name];
    return width < 0.5 ? null : html`
        <g class=${`state-bar ${name}`}>
            <${Inside} ...${box} width=${width} />
            <rect class="rim" ...${box} width=${width} />
        </g>`;
}

/* zones: [state, from, to] in hours on `axis` (life/axis.js); what lies
 * outside of it is cut off. */
export function Strip({ zones, axis, y, height }) {
    const inside = (h) => axis.x(Math.min(Math.max(h, axis.from_h ?? 0),
        axis.span_h));
    return zones.map(([name, from, to]) => html`
        <${State} key=${name} name=${name} x=${inside(from)} y=${y}
            width=${inside(to) - inside(from)} height=${height} />`);
}

/* The same shape as a small mark in a line of text. */
export function Mark({ name }) {
    return html`
        <svg class="mark" width="30" height="18" aria-hidden="true">
            <${State} name=${name} x=${1} y=${1} width=${28} height=${16} />
        </svg>`;
}
