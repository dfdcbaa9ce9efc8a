/* One step of a procedure, laid open. Only what its kind needs is asked. */

import { html } from "../../lib/view.js";
import { t } from "../../lib/say.js";
import { bareUnit, readQuantity, writeNumber, writePercentNumber,
    writeQuantity } from "../../lib/quantity.js";
import { Amount } from "../../parts/amount.js";
import { Blank } from "../../parts/blank.js";
import { Choice } from "../../parts/choice.js";
import { Dialog } from "../../parts/dialog.js";
import { Pick } from "../../parts/pick.js";
import { stepSentence } from "./step_words.js";

const stepKinds = () => [
    ["add", t("Add")], ["mix", t("Mix")], ["rest", t("Rest")],
    ["ask", t("Look and answer")], ["oil_bowl", t("Oil the bowl")],
    ["stop", t("Stop")], ["probe", t("Temperature")],
    ["divide", t("Divide")], ["round", t("Round the balls")], ["box", t("Box")],
    ["oil_tops", t("Oil the tops")], ["chill_open", t("Chill open")],
    ["close", t("Close")], ["hold", t("Hold")], ["temper", t("Temper")],
    ["sheet", t("Sheet")], ["punch", t("Punch down")],
];

const addKinds = () => [
    ["water", t("water")], ["salt_sugar", t("salt and sugar")],
    ["flour", t("flour")], ["yeast", t("yeast")], ["fat", t("oil or fat")],
    ["stages", t("preferment and old dough")],
    ["others", t("malt, gluten, milk and the like")],
    ["rest", t("all that is not in yet")],
    ["material", t("one ingredient")],
];

const untils = () => [
    ["time", t("the minutes are over")],
    ["no_dry_flour", t("no dry flour is left")],
    ["absorbed", t("it is taken up")], ["smooth", t("smooth and satiny")],
    ["risen", t("risen")], ["core", t("the core is there")],
];

function Minutes({ name, value, onValue }) {
    return html`<${Amount} name=${name} shown=${value
        ? writeNumber(value, 1) : ""}
        read=${(text) => readQuantity(text, "time", "min") * 60}
        onValue=${onValue} />`;
}

function AddFields({ step, materials, onStep }) {
    return html`
        <${Pick} name=${t("What goes in")} value=${step.what}
            options=${addKinds()}
            onPick=${(what) => onStep({ what, material: what === "material"
        ? materials[0] : null })} />
        ${step.what === "material" && html`
            <${Pick} name=${t("Which ingredient")} value=${step.material}
                options=${materials.map((one) => [one, one])}
                onPick=${(material) => onStep({ material })} />`}
        <${Amount} name=${t("How much of it, %")}
            shown=${writePercentNumber(step.share_percent)}
            read=${(text) => readQuantity(text, "percent", "%")}
            onValue=${(share) => onStep({ share_percent: share ?? 100 })} />
        <label class="tick">
            <input type="checkbox" checked=${step.running}
                onChange=${(event) =>
        onStep({ running: event.target.checked })} />
            ${t("While the mixer runs")}
        </label>`;
}

function TimeFields({ step, onStep }) {
    return html`
        <div class="blanks">
            <${Minutes} name=${t("Minutes")} value=${step.minutes}
                onValue=${(minutes) => onStep({ minutes: minutes ?? 0 })} />
            <${Minutes} name=${t("or up to")} value=${step.minutes_to}
                onValue=${(minutes_to) => onStep({ minutes_to })} />
        </div>
        <${Pick} name=${t("Until")} value=${step.until} options=${untils()}
            onPick=${(until) => onStep({ until })} />`;
}

function SpeedField({ step, onStep }) {
    return html`<${Choice} shown legend=${t("Speed")} value=${step.speed}
        options=${[["low", t("Low")], ["second", t("Second")]]}
        onChoose=${(speed) => onStep({ speed })} />`;
}

function CoreField({ step, units, onStep }) {
    return html`<${Amount} name=${t("Core temperature")}
        shown=${step.goal_c === null ? ""
        : writeQuantity(step.goal_c, "temperature", units)}
        read=${(text) => readQuantity(text, "temperature",
        bareUnit("temperature", units))}
        onValue=${(goal_c) => onStep({ goal_c,
        until: goal_c === null ? "time" : "core" })} />`;
}

const FIELDS = {
    add: [AddFields],
    mix: [SpeedField, TimeFields],
    rest: [TimeFields],
    chill_open: [CoreField], close: [CoreField], temper: [CoreField],
};

/* What a step of another kind starts with. */
function turned(step, kind) {
    return { ...step, kind, what: kind === "add" ? "rest" : "nothing",
        material: null, share_percent: 100, running: false,
        speed: kind === "mix" ? "low" : "none", goal_c: null,
        question: kind === "ask" ? "oil_taken_up" : null, until: "time",
        minutes: kind === "mix" || kind === "rest" ? step.minutes || 2 : 0,
        minutes_to: null };
}

export function StepDialog({ step, materials, units, first, last, onStep,
    onMove, onRemove, onClose }) {
    const change = (what) => onStep({ ...step, ...what });
    return html`
        <${Dialog} title=${stepSentence(step, units)} onClose=${onClose}>
            <${Pick} name=${t("Kind of step")} value=${step.kind}
                options=${stepKinds()}
                onPick=${(kind) => onStep(turned(step, kind))} />
            ${(FIELDS[step.kind] ?? []).map((Field) => html`
                <${Field} key=${`${step.kind}-${Field.name}`} step=${step}
                    materials=${materials} units=${units}
                    onStep=${change} />`)}
            <${Blank} name=${t("In your shop's own words")}
                text=${step.text ?? ""} maxlength="400"
                onType=${(text) => change({ text: text || null })} />
            <label class="tick">
                <input type="checkbox" checked=${step.for_stage}
                    onChange=${(event) =>
        change({ for_stage: event.target.checked })} />
                ${t("Done for each preferment")}
            </label>
            <div class="row">
                <button type="button" disabled=${first}
                    onClick=${() => onMove(-1)}>${t("Move up")}</button>
                <button type="button" disabled=${last}
                    onClick=${() => onMove(1)}>${t("Move down")}</button>
                <button type="button" onClick=${onRemove}>
                    ${t("Take it out")}</button>
            </div>
        <//>`;
}
