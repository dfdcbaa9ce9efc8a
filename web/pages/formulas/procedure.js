/* How the formula becomes dough: typed steps, from a template of the trade or
 * the shop's own, in any order. */

import { html, useLoaded, useState } from "../../lib/view.js";
import { t } from "../../lib/say.js";
import { writeQuantity } from "../../lib/quantity.js";
import { Refused, useAnswer } from "./reckon.js";
import { stepSentence, stepTime } from "./step_words.js";

const NEW_STEP = { kind: "rest", what: "nothing", material: null,
    share_percent: 100, speed: "none", minutes: 10, minutes_to: null,
    until: "time", goal_c: null, running: false, for_stage: false,
    question: null, text: null };

function Step({ step, units, onOpen }) {
    return html`
        <li>
            <button type="button" class="plain step" aria-haspopup="dialog"
                onClick=${onOpen}>
                <span class="step-words">${stepSentence(step, units)}${
        step.for_stage && html` <span class="quiet">
                    ${t("(for the preferment)")}</span>`}</span>
                <span class="number quiet">${stepTime(step)}</span>
            </button>
        </li>`;
}

function Told({ reply }) {
    return html`
        <p>${t("The mixer runs {mixer}; the dough is out of the bowl {out} " +
        "after the first step.", {
        mixer: writeQuantity(reply.mixer_minutes / 60, "time"),
        out: writeQuantity(reply.dough_out_min / 60, "time") })}</p>
        ${(reply.notes ?? []).filter((note) => note.message).map((note) =>
        html`<p class="note">${note.message}</p>`)}`;
}

/* What the steps make of this formula: how long it takes, or what is wrong (a
 * line that no step adds, or one added twice). */
export function Outcome({ draft, formula, flour_kg }) {
    const { reply, refusal } = useAnswer("procedure.steps",
        flour_kg && draft.steps.length
            ? { formula, flour_kg, dough_goal_c: draft.dough_goal_c,
                procedure: { name: draft.name || t("Procedure"),
                    steps: draft.steps } }
            : null, 300);
    return html`
        <div class="stack">
            <${Refused} refusal=${refusal} draft=${draft} tone="slip" />
            ${reply && !refusal && html`<${Told} reply=${reply} />`}
            <p class="note">${t("Guard closed, hands and tools out while " +
        "the mixer turns; power off before scraping. Raw flour and dough " +
        "are not eaten or tasted.")}</p>
        </div>`;
}

const loadTemplates = () =>
    import("./templates.js").then((it) => it.Templates);
const loadStep = () => import("./step.js").then((it) => it.StepDialog);

/* materials: names of the formula's lines. */
export function Procedure({ steps, materials, units, onProcedure }) {
    const [open, setOpen] = useState(null);
    const [choosing, setChoosing] = useState(false);
    const Templates = useLoaded(choosing ? loadTemplates : null);
    const StepDialog = useLoaded(open === null ? null : loadStep);
    const setSteps = (next) => onProcedure({ steps: next });

    function move(by) {
        const next = [...steps];
        [next[open], next[open + by]] = [next[open + by], next[open]];
        setSteps(next);
        setOpen(open + by);
    }
    function remove() {
        setSteps(steps.filter((step, i) => i !== open));
        setOpen(null);
    }
    function add() {
        setSteps([...steps, NEW_STEP]);
        setOpen(steps.length);
    }

    return html`
        <section class="stack" aria-labelledby="procedure-head">
            <div class="section-head">
                <h2 id="procedure-head">${t("Procedure")}</h2>
                <button type="button" class="word screen-only"
                    onClick=${() => setChoosing(true)}>
                    ${t("Start from a template")}
                </button>
            </div>
            <ol class="steps">${steps.map((step, i) => html`
                <${Step} key=${i} step=${step} units=${units}
                    onOpen=${() => setOpen(i)} />`)}
            </ol>
            <button type="button" class="word screen-only" onClick=${add}>
                ${t("Add a step")}
            </button>
            ${Templates && html`
                <${Templates} onTake=${setSteps}
                    onClose=${() => setChoosing(false)} />`}
            ${StepDialog && steps[open] && html`
                <${StepDialog} step=${steps[open]} materials=${materials}
                    units=${units} first=${open === 0}
                    last=${open === steps.length - 1}
                    onStep=${(changed) => setSteps(steps.map((step, i) =>
        i === open ? changed : step))}
                    onMove=${move} onRemove=${remove}
                    onClose=${() => setOpen(null)} />`}
        </section>`;
}
