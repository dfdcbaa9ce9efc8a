/* Preferments: part of the flour taken earlier, with what goes with it. The
 * table under them shows each stage and the final mix beside the total, so
 * both ways of reading the formula agree. */

import { html } from "../../lib/view.js";
import { t } from "../../lib/say.js";
import { Blank } from "../../parts/blank.js";
import { Pick } from "../../parts/pick.js";
import { addStage, changeLine, typePercent } from "./draft.js";
import { useAnswer } from "./reckon.js";
import { refusalSentence } from "./refusal.js";
import { isYeast, mass, stageKinds, wordOf } from "./words.js";

/* What each kind usually starts from, percent of its own flour: [water,
 * yeast as a share of the total's]; old dough is made like the total. */
const START = { poolish: [100, 0.1], biga: [50, 0.3], sponge: [60, 0.5] };

/* The lines of a new stage, named as the total's lines are. */
function startLines(kind, lines) {
    const first = (test) => lines.find((line) => test(line.kind));
    const flour = first((one) => one === "flour");
    const water = first((one) => one === "water");
    const yeast = first(isYeast);
    if (kind === "old_dough")
        return lines.map((line) => ({ ...line }));
    const [water_percent, share] = START[kind];
    return [
        { ...flour, percent: 100 },
        water && { ...water, percent: water_percent },
        yeast && { ...yeast, percent: yeast.percent * share },
    ].filter(Boolean);
}

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

export function Stages({ draft, scaled, request, units, onChange }) {
    const { reply: split, refusal } = useAnswer("formula.split",
        draft.stages.length ? request : null);
    const set = (stages) => onChange({ stages, slips_accepted: false });
    const fits = draft.stages.length > 0 && split && scaled &&
        split.final.length === scaled.lines.length;
    function add(kind) {
        const name = wordOf(stageKinds(), kind);
        set(addStage(draft, name, kind, startLines(kind, draft.lines)));
    }
    return html`
        <section class=${draft.stages.length ? "stack" : "stack screen-only"}
            aria-labelledby="stages-head">
            <div class="section-head">
                <h2 id="stages-head">${t("Preferments")}</h2>
            </div>
            ${draft.stages.map((stage) => html`
                <${Stage} key=${stage.key} stage=${stage}
                    onStage=${(changed) => set(draft.stages.map((one) =>
        one.key === stage.key ? changed : one))}
                    onRemove=${() => set(draft.stages.filter((one) =>
        one.key !== stage.key))} />`)}
            ${refusal && draft.stages.length > 0 && html`
                <p class="trouble" role="alert">
                    ${refusalSentence(refusal, draft)}</p>`}
            ${fits && html`
                <${Reconciled} scaled=${scaled} split=${split}
                    units=${units} />`}
            <div class="screen-only"><${Pick} heard value=""
                name=${t("Add a preferment")}
                options=${[["", t("Add a preferment\u2026")],
        ...stageKinds()]}
                onPick=${(kind) => kind && add(kind)} /></div>
        </section>`;
}
