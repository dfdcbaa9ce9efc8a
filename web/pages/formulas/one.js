/* One formula, stored or new, with what its editor needs around it. */

import { html, useEffect, useState } from "../../lib/view.js";
import { call, onChanged } from "../../lib/api.js";
import { t } from "../../lib/say.js";
import { Editor } from "./editor.js";

/* The stored formula, asked again when anyone saves one. */
function useRecipe(id) {
    const [state, set] = useState({ recipe: null, refusal: null });
    useEffect(() => {
        if (id === "new")
            return undefined;
        const ask = () => call("recipe.get", { formula_id: Number(id) }).then(
            (recipe) => set({ recipe, refusal: null }),
            (refusal) => set((was) => ({ ...was, refusal })));
        ask();
        return onChanged((op) => {
            if (op === "" || op.startsWith("recipe."))
                ask();
        });
    }, [id]);
    return state;
}

/* What a new formula starts from: the trade's default procedure. */
function useFirstSteps(wanted) {
    const [steps, set] = useState(null);
    useEffect(() => {
        if (wanted)
            call("procedure.templates").then(
                (reply) => set(reply.templates[0].steps), () => set([]));
    }, [wanted]);
    return steps;
}

/* The shop's own yeast conversion; null is the usual table. */
function useYeastTable() {
    const [table, set] = useState(null);
    useEffect(() => {
        call("shop.get").then(({ shop }) => shop && set({
            name: t("Your shop's table"), fresh: 1,
            active_dry: shop.yeast_active_dry_ratio,
            instant: shop.yeast_instant_ratio }), () => undefined);
    }, []);
    return table;
}

export function One({ id }) {
    const { recipe, refusal } = useRecipe(id);
    const steps = useFirstSteps(id === "new");
    const yeastTable = useYeastTable();
    if (refusal && !recipe)
        return html`<p class="trouble" role="alert">${refusal.message}</p>`;
    if (id === "new" ? !steps : !recipe)
        return null;
    return html`<${Editor} id=${id} recipe=${recipe} steps=${steps}
        yeastTable=${yeastTable} />`;
}
