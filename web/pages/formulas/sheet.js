/* The formula as a table: ingredient, percent of flour, weight for the batch
 * in hand; slips stand under the line they are about. */

import { html, useLoaded, useName, useState } from "../../lib/view.js";
import { t, tn } from "../../lib/say.js";
import { writePercentNumber } from "../../lib/quantity.js";
import { Blank } from "../../parts/blank.js";
import { addLine, changeLine, typePercent } from "./draft.js";
import { mass } from "./words.js";

function Slip({ slip }) {
    return html`
        <tr class="slip-row">
            <td colspan="3">
                <p class="slip" data-level=${slip.level}>${slip.message}</p>
            </td>
        </tr>`;
}

function Line({ line, kg, slips, units, onType, onOpen }) {
    const told = useName("line");
    return html`
        <tr>
            <th scope="row">
                <button type="button" class="plain line-name"
                    aria-haspopup="dialog" onClick=${onOpen}>
                    ${line.material}
                </button>
            </th>
            <td>
                <${Blank} heard number error=${line.error} text=${line.text}
                    told=${told}
                    name=${t("{material}, percent of flour",
        { material: line.material })}
                    onType=${onType} />
            </td>
            <td class="number weight">${mass(kg, units)}</td>
        </tr>
        ${line.error && html`
            <tr class="slip-row">
                <td colspan="3" class="field-error" id=${told}>
                    ${line.error}</td>
            </tr>`}
        ${slips.map((slip) => html`<${Slip} slip=${slip} />`)}`;
}

/* Where the shop says: looked at, keep it. Once for this version. */
function Accept({ slips, accepted, onAccept }) {
    if (!slips.length)
        return null;
    const n = slips.length;
    return accepted
        ? html`<p class="note">${tn("{n} unusual number, kept on purpose.",
            "{n} unusual numbers, kept on purpose.", n)}</p>`
        : html`
            <div class="row">
                <button type="button" onClick=${onAccept}>
                    ${t("Use it all the same")}
                </button>
                <span class="quiet">${t("Asked once for this version.")}</span>
            </div>`;
}

/* slips of materials that are no line (one that is missing) come last. */
function slipsOf(slips, line) {
    return slips.filter((slip) => slip.material === line.material);
}

const loadLine = () => import("./line.js").then((it) => it.LineDialog);

export function Sheet({ draft, scaled, slips, yeastTable, units, onChange }) {
    const [open, setOpen] = useState(null);
    const LineDialog = useLoaded(open === null ? null : loadLine);
    const shown = draft.slips_accepted ? [] : slips;
    const materials = draft.lines.map((line) => line.material);
    const loose = shown.filter((slip) => !materials.includes(slip.material));
    const opened = draft.lines.find((line) => line.key === open);

    function setLines(lines) {
        onChange({ lines, slips_accepted: false });
    }
    function add() {
        const lines = addLine(draft.lines, t("New ingredient"), "other");
        setLines(lines);
        setOpen(lines.at(-1).key);
    }

    return html`
        <section class="stack" aria-labelledby="sheet-head">
            <table class="sheet">
                <caption class="only-heard" id="sheet-head">
                    ${t("The formula, percent of flour and weight")}
                </caption>
                <thead><tr class="quiet">
                    <th scope="col">${t("Ingredient")}</th>
                    <th scope="col" class="number">${t("% of flour")}</th>
                    <th scope="col" class="number">${t("Weight")}</th>
                </tr></thead>
                <tbody>${draft.lines.map((line, i) => html`
                    <${Line} key=${line.key} line=${line} units=${units}
                        kg=${scaled?.lines[i]?.kg}
                        slips=${slipsOf(shown, line)}
                        onOpen=${() => setOpen(line.key)}
                        onType=${(text) => setLines(changeLine(draft.lines,
        line.key, (was) => typePercent(was, text)))} />`)}
                </tbody>
                <tfoot><tr>
                    <th scope="row">${t("Dough")}</th>
                    <td class="number">${scaled
        ? writePercentNumber(scaled.total_percent) : "\u2013"}</td>
                    <td class="number weight">
                        ${mass(scaled?.dough_kg, units)}</td>
                </tr></tfoot>
            </table>
            <button type="button" class="word screen-only" onClick=${add}>
                ${t("Add an ingredient")}
            </button>
            ${loose.map((slip) => html`
                <p class="slip" data-level=${slip.level}>${slip.message}</p>`)}
            <${Accept} slips=${slips} accepted=${draft.slips_accepted}
                onAccept=${() => onChange({ slips_accepted: true })} />
            ${LineDialog && opened && html`
                <${LineDialog} key=${open} line=${opened}
                    lines=${draft.lines} yeastTable=${yeastTable}
                    units=${units} onLines=${setLines} onClose=${() => setOpen(null)} />`}
        </section>`;
}
