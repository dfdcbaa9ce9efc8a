/* The picture of a trace, from left to right: lots, batches, stacks, shipments,
 * shops. The lists beside it hold the same. */

import { html } from "../../lib/view.js";
import { go } from "../../lib/route.js";
import { t } from "../../lib/say.js";
import { linkTo, nameOf } from "./words.js";

const COLUMN = { lot: 0, minors: 0, batch: 1, stack: 2, shipment: 3, shop: 4 };
const WIDTH = 192;
const GAP = 48;
const HEIGHT = 32;
const STEP = 44;
const TOP = 36;
const LONGEST = 21; /* letters that fit a box */
const TAIL = 9;     /* of them the end, where a lot's code stands */
const EDGE = 2;     /* for the line of the outer boxes */
const MOST = 40;    /* boxes in a column that an eye can follow */

const heads = () => [t("Lots"), t("Batches"), t("Stacks"), t("Shipments"),
    t("Shops")];

/* Where each node stands: its column's next row, in the order of time. */
function placed(nodes) {
    const rows = [0, 0, 0, 0, 0];
    const at = [];
    const order = nodes.map((node, i) => i)
        .sort((a, b) => nodes[a].at_ms - nodes[b].at_ms || a - b);
    for (const i of order) {
        const column = COLUMN[nodes[i].kind];
        at[i] = { x: EDGE + column * (WIDTH + GAP),
            y: TOP + rows[column]++ * STEP };
    }
    return { at, most: Math.max(...rows) };
}

const cut = (name) => name.length > LONGEST
    ? `${name.slice(0, LONGEST - TAIL - 1)}…${name.slice(-TAIL)}` : name;

/* A link to the right leaves at the right edge; rework turns back under. */
function curve(from, to) {
    const x = from.x + WIDTH;
    const y = from.y + HEIGHT / 2;
    const end = to.y + HEIGHT / 2;
    const bend = to.x > from.x ? (to.x - x) / 2 : GAP;
    return `M${x} ${y}C${x + bend} ${y} ${to.x - bend} ${end} ${to.x} ${end}`;
}

function Node({ node, first, place }) {
    const href = linkTo(node);
    const open = href && ((event) => {
        event.preventDefault();
        go(href);
    });
    const box = html`
        <g class=${first ? "node first" : "node"}
            transform=${`translate(${place.x} ${place.y})`}>
            <title>${nameOf(node)}</title>
            <rect width=${WIDTH} height=${HEIGHT} rx="6" />
            <text x="10" y="21">${cut(nameOf(node))}</text>
        </g>`;
    return href ? html`<a href=${href} onClick=${open}>${box}</a>` : box;
}

export function Picture({ found: { nodes, links }, write }) {
    const { at, most } = placed(nodes);
    if (nodes.length < 2)
        return null;
    if (most > MOST)
        return html`<p class="quiet">${t("Too many to draw; the lists hold " +
            "them all.")}</p>`;
    const width = 5 * WIDTH + 4 * GAP + 2 * EDGE;
    const height = TOP + most * STEP;
    return html`
        <div class="trace-picture" tabindex="0" role="region"
            aria-label=${t("The picture of it, from left to right")}>
            <svg width=${width} height=${height}
                viewBox=${`0 0 ${width} ${height}`}>
                ${heads().map((head, i) => html`
                    <text class="head" key=${head} x=${i * (WIDTH + GAP)}
                        y="18">${head}</text>`)}
                ${links.map((link) => html`
                    <path key=${`${link.from} ${link.to}`}
                        class=${link.assumed ? "assumed" : ""}
                        d=${curve(at[link.from], at[link.to])}>
                        <title>${link.kg === null ? t("weight not known")
        : write(link.kg)}</title></path>`)}
                ${nodes.map((node, i) => html`
                    <${Node} key=${i} node=${node} first=${i === 0}
                        place=${at[i]} />`)}
            </svg>
        </div>`;
}
