/* A formula with preferments: the lines of each stage, and under them a table
 * that shows each stage and the final mix beside the total, so both ways of
 * reading the formula agree. */

import { html } from "../../lib/view.js";
import { t } from "../../lib/say.js";
import { Blank } from "../../parts/blank.js";
import { changeLine, typePercent } from "./draft.js";
import { Refused, useAnswer } from "./reckon.js";
import { mass } from "./words.js";

function Stage({ stage, onStage, onRemove }) {
    return html`
        <fieldset class="stage stack">
            <legend class="strong">${stage.name}</legend>
            <div class="blanks">
                <${Blank} number name=${t("Part of all flour, %")}
                    text=${stage.text} error=${stage.error}
                    onType=${(text) => onStage(typePercent(stage, text))} />
                ${stage.lines.map((line) => html`
                    <${Blank} key=${line.key} number text=${line.text}
                        name=${t("{material}, % of its flour",
        { material: line.material })} error=${line.error}
                        onType=${(text) => onStage({ ...stage,
        lines: changeLine(stage.lines, line.key,
            (was) => typePercent(was, text)) })} />`)}
            </div>
            <button type="button" class="word screen-only"
                onClick=${onRemove}>
                ${t("Take out {name}", { name: stage.name })}
            </button>
        </fieldset>`;
}

const sameLine = (one) => (other) => one.kind === other.kind &&
    one.material.toLowerCase() === other.material.toLowerCase();

/* scaled, split: the replies of formula.scale and formula.split. */
function Reconciled({ scaled, split, units }) {
    const weight = (kg) => html`<td class="number">${mass(kg, units)}</td>`;
    const inStage = (stage, line) =>
        stage.lines.find(sameLine(line))?.kg ?? null;
    return html`
        <div class="wide" tabindex="0" role="region"
            aria-label=${t("Total, stages and final mix")}>
            <table class="reconciled">
                <thead><tr class="quiet">
                    <th scope="col">${t("Ingredient")}</th>
                    <th scope="col" class="number">${t("Total")}</th>
                    ${split.stages.map((stage) => html`
                        <th scope="col" class="number">${stage.name}</th>`)}
                    <th scope="col" class="number">${t("Final mix")}</th>
                </tr></thead>
                <tbody>${split.final.map((line, i) => html`
                    <tr key=${i}>
                        <th scope="row">${line.material}</th>
                        ${weight(scaled.lines[i].kg)}
                        ${split.stages.map((stage) =>
        weight(inStage(stage, line)))}
                        ${weight(line.kg)}
                    </tr>`)}
                </tbody>
                <tfoot><tr>
                    <th scope="row">${t("Dough")}</th>
                    ${weight(split.dough_kg)}
                    ${split.stages.map((stage) => weight(stage.dough_kg))}
                    ${weight(split.final_kg)}
                </tr></tfoot>
            </table>
        </div>`;
}

export function Parted({ draft, scaled, request, units, onStages }) {
    const { reply: split, refusal } = useAnswer("formula.split", request);
    const fits = split && scaled &&
        split.final.length === scaled.lines.length;
    return html`
        ${draft.stages.map((stage) => html`
            <${Stage} key=${stage.key} stage=${stage}
                onStage=${(changed) => onStages(draft.stages.map((one) =>
        one.key === stage.key ? changed : one))}
                onRemove=${() => onStages(draft.stages.filter((one) =>
        one.key !== stage.key))} />`)}
        <${Refused} refusal=${refusal} draft=${draft} />
        ${fits && html`
            <${Reconciled} scaled=${scaled} split=${split}
                units=${units} />`}`;
}
