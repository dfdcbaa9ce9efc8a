/* The shop's own formulas, read like the index of a notebook. */

import { html, useEffect, useState } from "../../lib/view.js";
import { call, onChanged } from "../../lib/api.js";
import { go } from "../../lib/route.js";
import { t } from "../../lib/say.js";
import { Empty } from "../../parts/empty.js";
import { processes, styles, wordOf } from "./words.js";

/* The stored formulas, asked again when anyone saves one. */
function useList() {
    const [state, set] = useState({ formulas: null, refusal: null });
    useEffect(() => {
        const ask = () => call("recipe.list").then(
            (reply) => set({ formulas: reply.formulas, refusal: null }),
            (refusal) => set((was) => ({ ...was, refusal })));
        ask();
        return onChanged((op) => {
            if (op === "" || op.startsWith("recipe."))
                ask();
        });
    }, []);
    return state;
}

function Entry({ one }) {
    return html`
        <li>
            <a href=${`/formulas/${one.formula_id}`}>
                <span class="index-name">${one.name}</span>
                <span class="quiet">${t("{style}, {process}, version {number}",
        { style: wordOf(styles(), one.style),
            process: wordOf(processes(), one.process),
            number: one.number })}</span>
            </a>
        </li>`;
}

export function List() {
    const onNew = () => go("/formulas/new");
    const { formulas, refusal } = useList();
    if (refusal && !formulas)
        return html`<p class="trouble" role="alert">${refusal.message}</p>`;
    if (!formulas)
        return null;
    if (!formulas.length)
        return html`<${Empty} title=${t("Write down your first formula")}
            text=${t("A formula is a list of ingredients in percent of the " +
        "flour. From it come the weights of every batch, its water and its " +
        "steps. Start with the dough you make most.")}
            button=${t("Write a formula")} onPress=${onNew} />`;
    return html`
        <div class="stack-wide">
            <div class="row spread">
                <h1>${t("Formulas")}</h1>
                <button type="button" class="do" onClick=${onNew}>
                    ${t("Write a new formula")}
                </button>
            </div>
            <ul class="index">${formulas.map((one) =>
        html`<${Entry} key=${one.formula_id} one=${one} />`)}</ul>
        </div>`;
}
