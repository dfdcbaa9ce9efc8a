/* Yeast by type: its own way into the dough, and how much of another type
 * raises alike, by the shop's table. */

import { html } from "../../lib/view.js";
import { writePercentNumber, writeQuantity } from "../../lib/quantity.js";
import { t } from "../../lib/say.js";
import { useAnswer } from "./reckon.js";
import { isYeast, kinds, wordOf } from "./words.js";

const wayIn = (units) => ({
    yeast_instant: () => t("Goes dry onto the flour; never into ice, nor " +
        "into water below {cold}.",
    { cold: writeQuantity(140 / 9, "temperature", units) }),
    yeast_active_dry: () => t("Wetted ten minutes before in five times its " +
        "weight of water at {low} to {high}, taken from the formula's water.",
    { low: writeQuantity(340 / 9, "temperature", units),
        high: writeQuantity(365 / 9, "temperature", units) }),
    yeast_fresh: () => t("Crumbled onto the flour, away from salt and sugar."),
});

const capital = (word) => word.charAt(0).toUpperCase() + word.slice(1);

function Swap({ line, to, table, onSwap }) {
    const { reply } = useAnswer("yeast.convert", { percent: line.percent,
        from: line.kind, to, ...(table ? { table } : {}) });
    if (!reply)
        return null;
    const name = wordOf(kinds(), to);
    const percent = reply.percent;
    return html`
        <button type="button" onClick=${() => onSwap({ kind: to, percent,
        text: writePercentNumber(percent), error: null,
        material: capital(name) })}>
            ${t("Use {percent} of {yeast} instead", { yeast: name,
        percent: writeQuantity(percent, "percent") })}
        </button>`;
}

export function Yeast({ line, table, units, onSwap }) {
    const others = kinds().map(([kind]) => kind)
        .filter((kind) => isYeast(kind) && kind !== line.kind);
    return html`
        <p class="note">${wayIn(units)[line.kind]()}</p>
        <div class="row">${others.map((to) => html`
            <${Swap} key=${to} line=${line} to=${to} table=${table}
                onSwap=${onSwap} />`)}
        </div>`;
}
