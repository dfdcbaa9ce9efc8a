/* One formula on the bench: percents, weights, slips, how much, preferments,
 * procedure, and what it was before. */

import { html, useEffect, useLayoutEffect, useLoaded, useMemo, usePerson,
    useRef, useState } from "../../lib/view.js";
import { write } from "../../lib/api.js";
import { clock } from "../../lib/clock.js";
import { writeMoment } from "../../lib/dates.js";
import { go } from "../../lib/route.js";
import { bareUnit, readQuantity, writeQuantity }
    from "../../lib/quantity.js";
import { t } from "../../lib/say.js";
import { Amount } from "../../parts/amount.js";
import { Blank } from "../../parts/blank.js";
import { Pick } from "../../parts/pick.js";
import { toast } from "../../parts/toast.js";
import { differs, draftOf, formulaOf, hasErrors, keepDraft, keptDraft,
    recipeOf, withYeast } from "./draft.js";
import { Facts } from "./facts.js";
import { Make } from "./make.js";
import { Outcome, Procedure } from "./procedure.js";
import { Refused, useAnswer } from "./reckon.js";
import { Sheet } from "./sheet.js";
import { Stages } from "./stages.js";
import { inUnits, newTarget, targetFor } from "./target.js";
import { Versions } from "./versions.js";
import { processes, styles } from "./words.js";

function Goal({ value, units, onValue }) {
    return html`<${Amount} needed name=${t("Dough temperature")} units=${units}
        shown=${writeQuantity(value, "temperature", units)}
        read=${(text) => readQuantity(text, "temperature",
        bareUnit("temperature", units))}
        onValue=${onValue} />`;
}

/* The name as a heading one writes on; a long one takes more lines. */
function Title({ name, onName }) {
    const area = useRef(null);
    useLayoutEffect(() => {
        area.current.style.height = "auto";
        area.current.style.height = `${area.current.scrollHeight + 2}px`;
    }, [name]);
    return html`
        <h1 class="title"><label>
            <span class="only-heard">${t("Name of the formula")}</span>
            <textarea ref=${area} rows="1" maxlength="80" spellcheck=${false}
                placeholder=${t("Name it")} value=${name}
                onInput=${(event) =>
        onName(event.target.value.replace(/\s*\n\s*/g, " "))} />
        </label></h1>`;
}

function Head({ draft, units, onChange }) {
    const again = (what) => onChange({ ...what, slips_accepted: false });
    return html`
        <header class="stack">
            <${Title} name=${draft.name}
                onName=${(name) => onChange({ name })} />
            <div class="blanks">
                <${Pick} name=${t("Style of dough")} value=${draft.style}
                    options=${styles()} onPick=${(style) => again({ style })} />
                <${Pick} name=${t("How it is held")} value=${draft.process}
                    options=${processes()}
                    onPick=${(process) => again({ process })} />
                <${Goal} value=${draft.dough_goal_c} units=${units}
                    onValue=${(dough_goal_c) => onChange({ dough_goal_c })} />
            </div>
        </header>`;
}

/* What is changed and not saved, always in sight. */
function Keep({ draft, recipe, onNote, onSave, onBack, refusal }) {
    const nameless = !draft.name.trim();
    const next = recipe?.used
        ? t("Save as version {number}", { number: recipe.number + 1 })
        : t("Save");
    return html`
        <div class="keep stack">
            <${Refused} refusal=${refusal} draft=${draft} />
            ${recipe?.used && html`
                <${Blank} name=${t("Why it changed (may stay empty)")}
                    text=${draft.note} maxlength="400" onType=${onNote} />`}
            <div class="row">
                <button type="button" class="do"
                    disabled=${nameless || hasErrors(draft)}
                    onClick=${onSave}>${next}</button>
                <button type="button" onClick=${onBack}>
                    ${recipe ? t("Leave it as it was") : t("Forget it")}
                </button>
                ${nameless && html`<span class="quiet">
                    ${t("Give it a name first.")}</span>`}
                ${hasErrors(draft) && html`<span class="trouble">
                    ${t("A field cannot be read yet.")}</span>`}
            </div>
        </div>`;
}

/* On paper: which version this is, and when it was printed. */
function Printed({ draft, recipe, changed }) {
    const [now, setNow] = useState(clock.now());
    useEffect(() => {
        const stamp = () => setNow(clock.now());
        addEventListener("beforeprint", stamp);
        return () => removeEventListener("beforeprint", stamp);
    }, []);
    const time = writeMoment(now);
    const { number } = recipe;
    return html`<p class="paper-only quiet">${changed
        ? t("{name}, version {number} with changes that are not saved. " +
            "Printed {time}.", { name: draft.name, number, time })
        : t("{name}, version {number}. Printed {time}.",
            { name: draft.name, number, time })}</p>`;
}

const loadLife = () => import("./life/panel.js").then((it) => it.Life);

/* The same one frame later: the weights of a keystroke go first. */
function useNextFrame(value) {
    const [shown, set] = useState(value);
    const text = JSON.stringify(value);
    useEffect(() => {
        const frame = requestAnimationFrame(() => set(value));
        return () => cancelAnimationFrame(frame);
    }, [text]);
    return shown;
}

/* The life of a ball beside the formula: fetched when the weights stand. */
function LifeColumn({ ready, ...of }) {
    const Life = useLoaded(ready ? loadLife : null);
    const shown = useNextFrame(of);
    return useMemo(() => Life && html`
        <div class="life-column"><${Life} ...${shown} /></div>`,
    [Life, shown]);
}

function useTarget(units) {
    const [target, set] = useState(() => newTarget(units));
    useEffect(() => set((was) => inUnits(was, units)), [units]);
    return [target, (change) => set((was) => ({ ...was, ...change }))];
}

/* The draft of one formula: kept over a reload while it differs from what is
 * stored; a stored change of somebody else shows at once when it does not. */
function useDraft(id, recipe, steps) {
    const [draft, set] = useState(() =>
        keptDraft(id) ?? draftOf(recipe, steps));
    const changed = !recipe || differs(draft, recipe) || hasErrors(draft);
    const before = useRef(recipe);
    useEffect(() => {
        if (recipe && before.current && !differs(draft, before.current))
            set(draftOf(recipe));
        before.current = recipe;
    }, [recipe]);
    useEffect(() => keepDraft(id, changed ? draft : null), [draft, changed]);
    return { draft, changed, set,
        change: (what) => set((was) => ({ ...was, ...what })) };
}

function useSave(id, recipe, { draft, set }) {
    const [refusal, setRefusal] = useState(null);
    function saved({ number, formula_id }) {
        toast(t("Saved as version {number}.", { number }));
        go(`/formulas/${formula_id}`);
    }
    /* A stored formula stays open, its draft kept, until the server has it. */
    function queued() {
        toast(t("Kept on this tablet; it is sent when the shop's computer can be " +
            "reached."));
        if (!recipe)
            go("/formulas");
    }
    async function save() {
        try {
            const reply = await write("recipe.save", recipeOf(draft, recipe));
            setRefusal(null);
            if (!reply.queued || !recipe)
                keepDraft(id, null);
            if (!reply.queued)
                saved(reply);
            else
                queued();
        } catch (problem) {
            setRefusal(problem);
        }
    }
    function back() {
        keepDraft(id, null);
        setRefusal(null);
        if (recipe)
            set(draftOf(recipe));
        else
            go("/formulas");
    }
    return { save, back, refusal };
}

/* yeastTable: the shop's own, or null;
 * id: of the formula, "new" for one that is not stored yet; recipe: as stored,
 * or null; steps: what a new one starts with. */
export function Editor({ id, recipe, steps, yeastTable }) {
    const { units } = usePerson();
    const state = useDraft(id, recipe, steps ?? []);
    const { draft, change } = state;
    const { save, back, refusal } = useSave(id, recipe, state);
    const [target, changeTarget] = useTarget(units);
    const formula = formulaOf(draft);
    const request = { formula, target: targetFor(target) };
    const scale = useAnswer("formula.scale", request);
    const check = useAnswer("formula.check", { formula, style: draft.style,
        process: draft.process,
        norm: recipe?.slips_accepted ? recipe.formula : null,
        yeast_table: yeastTable });
    /* Typing a percent touches neither the steps nor the versions: what has
     * not changed is not drawn anew. */
    const materials = draft.lines.map((line) => line.material);
    const procedure = useMemo(() => html`
        <${Procedure} steps=${draft.steps} materials=${materials}
            units=${units} onProcedure=${change} />`,
    [materials.join("\n"), draft.steps, units]);
    const versions = useMemo(() => recipe && html`
        <${Versions} recipe=${recipe} />`, [recipe]);
    return html`
        <div class="bench">
            <div class="column stack-wide">
                <${Head} draft=${draft} units=${units} onChange=${change} />
                <${Sheet} draft=${draft} scaled=${scale.reply}
                    slips=${check.reply?.slips ?? []} units=${units}
                    yeastTable=${yeastTable} onChange=${change} />
                <${Refused} refusal=${scale.refusal} draft=${draft} />
                <${Facts} draft=${draft} scaled=${scale.reply} />
                <${Make} target=${target} scaled=${scale.reply}
                    units=${units} onTarget=${changeTarget} />
                <${Stages} draft=${draft} scaled=${scale.reply}
                    request=${request} units=${units} onChange=${change} />
                ${procedure}
                <${Outcome} draft=${draft} formula=${formula}
                    flour_kg=${scale.reply?.flour_kg} />
                ${versions}
                ${recipe && html`
                    <${Printed} draft=${draft} recipe=${recipe}
                        changed=${state.changed} />`}
                ${state.changed && html`
                    <${Keep} draft=${draft} recipe=${recipe}
                        refusal=${refusal} onSave=${save} onBack=${back}
                        onNote=${(note) => change({ note })} />`}
            </div>
            <${LifeColumn} ready=${scale.reply !== null} formula=${formula}
                formula_id=${recipe?.formula_id}
                goal_c=${draft.dough_goal_c} process=${draft.process}
                units=${units} onYeast=${(percent) => state.set((was) =>
        ({ ...was, lines: withYeast(was.lines, percent) }))}
                onGoal=${(dough_goal_c) => change({ dough_goal_c })} />
        </div>`;
}
