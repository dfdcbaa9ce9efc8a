/* Everything about one ingredient that the table has no room for. */

import { html } from "../../lib/view.js";
import { t } from "../../lib/say.js";
import { readQuantity, writePercentNumber } from "../../lib/quantity.js";
import { Amount } from "../../parts/amount.js";
import { Blank } from "../../parts/blank.js";
import { Dialog } from "../../parts/dialog.js";
import { Pick } from "../../parts/pick.js";
import { changeLine, moveLine, removeLine } from "./draft.js";
import { isYeast, kinds } from "./words.js";
import { Yeast } from "./yeast.js";

/* A percent that may be unknown: an empty blank means so. */
function Share({ name, value, onValue }) {
    return html`<${Amount} name=${name} onValue=${onValue}
        shown=${value === null ? "" : writePercentNumber(value)}
        read=${(text) => readQuantity(text, "percent", "%")} />`;
}

export function LineDialog({ line, lines, yeastTable, units, onLines,
    onClose }) {
    const change = (what) => onLines(changeLine(lines, line.key,
        (was) => ({ ...was, ...what })));
    const at = lines.findIndex((one) => one.key === line.key);
    return html`
        <${Dialog} title=${line.material} onClose=${onClose}>
            <${Blank} name=${t("What your shop calls it")}
                text=${line.material} maxlength="80"
                onType=${(material) => change({ material })} />
            <${Pick} name=${t("What it is")} value=${line.kind}
                options=${kinds()} onPick=${(kind) => change({ kind })} />
            ${line.kind === "flour" && html`
                <${Share} name=${t("Protein in it, %")}
                    value=${line.protein_percent}
                    onValue=${(protein_percent) =>
        change({ protein_percent })} />`}
            <${Share} name=${t("Water in it, % (empty: the usual)")}
                value=${line.water_percent}
                onValue=${(water_percent) => change({ water_percent })} />
            ${isYeast(line.kind) && html`
                <${Yeast} line=${line} table=${yeastTable} units=${units}
                    onSwap=${change} />`}
            <div class="row">
                <button type="button" disabled=${at === 0}
                    onClick=${() => onLines(moveLine(lines, line.key, -1))}>
                    ${t("Move up")}
                </button>
                <button type="button" disabled=${at === lines.length - 1}
                    onClick=${() => onLines(moveLine(lines, line.key, 1))}>
                    ${t("Move down")}
                </button>
                <button type="button" onClick=${() => {
        onClose();
        onLines(removeLine(lines, line.key));
    }}>${t("Take it out")}</button>
            </div>
        <//>`;
}
