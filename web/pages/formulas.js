/* Formulas: the shop's own, and one of them on the bench: percents, weights,
 * slips, how much of it. */

import { html, useEffect, usePerson, useState } from "../lib/view.js";
import { t } from "../lib/say.js";
import { Blank } from "../parts/blank.js";
import { draftOf, formulaOf } from "./formulas/draft.js";
import { Make } from "./formulas/make.js";
import { useAnswer } from "./formulas/reckon.js";
import { Sheet } from "./formulas/sheet.js";
import { inUnits, newTarget, targetFor } from "./formulas/target.js";
import { processes, styles } from "./formulas/words.js";

function Pick({ name, value, options, onPick }) {
    return html`
        <label class="pick">
            <span class="only-heard">${name}</span>
            <select onChange=${(event) => onPick(event.target.value)}>
                ${options.map(([one, word]) => html`
                    <option value=${one} selected=${one === value}>
                        ${word}</option>`)}
            </select>
        </label>`;
}

function Head({ draft, onChange }) {
    return html`
        <header class="stack">
            <div class="title"><${Blank} heard name=${t("Name of the formula")}
                text=${draft.name} maxlength="80"
                placeholder=${t("Name it")}
                onType=${(name) => onChange({ name })} /></div>
            <div class="row">
                <${Pick} name=${t("Style of dough")} value=${draft.style}
                    options=${styles()}
                    onPick=${(style) => onChange({ style,
        slips_accepted: false })} />
                <${Pick} name=${t("How it is held")} value=${draft.process}
                    options=${processes()}
                    onPick=${(process) => onChange({ process,
        slips_accepted: false })} />
            </div>
        </header>`;
}

function useTarget(units) {
    const [target, set] = useState(() => newTarget(units));
    useEffect(() => set((was) => inUnits(was, units)), [units]);
    return [target, (change) => set((was) => ({ ...was, ...change }))];
}

function Editor({ version }) {
    const { units } = usePerson();
    const [draft, setDraft] = useState(() => draftOf(version));
    const [target, changeTarget] = useTarget(units);
    const change = (what) => setDraft((was) => ({ ...was, ...what }));
    const formula = formulaOf(draft);
    const scale = useAnswer("formula.scale",
        { formula, target: targetFor(target) });
    const check = useAnswer("formula.check", { formula, style: draft.style,
        process: draft.process });
    return html`
        <div class="bench">
            <div class="column stack-wide">
                <${Head} draft=${draft} onChange=${change} />
                <${Sheet} draft=${draft} scaled=${scale.reply}
                    slips=${check.reply?.slips ?? []} units=${units}
                    onChange=${change} />
                ${scale.refusal && html`
                    <p class="trouble" role="alert">
                        ${scale.refusal.message}</p>`}
                <${Make} target=${target} scaled=${scale.reply}
                    units=${units} onTarget=${changeTarget} />
            </div>
        </div>`;
}

export function Page() {
    return html`<${Editor} />`;
}
