/* Formulas: the shop's own, and one of them on the bench. */

import { html, useEffect, useState } from "../lib/view.js";
import { call, onChanged } from "../lib/api.js";
import { go } from "../lib/route.js";
import { t } from "../lib/say.js";
import { Editor } from "./formulas/editor.js";
import { List } from "./formulas/list.js";

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

function useTemplates() {
    const [templates, set] = useState(null);
    useEffect(() => {
        call("procedure.templates").then(
            (reply) => set(reply.templates), () => set([]));
    }, []);
    return templates;
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

function One({ id }) {
    const { recipe, refusal } = useRecipe(id);
    const templates = useTemplates();
    const yeastTable = useYeastTable();
    if (refusal && !recipe)
        return html`<p class="trouble" role="alert">${refusal.message}</p>`;
    if (!templates || (!recipe && id !== "new"))
        return null;
    return html`<${Editor} id=${id} recipe=${recipe}
        templates=${templates} yeastTable=${yeastTable} />`;
}

export function Page({ path }) {
    const id = path.split("/")[2];
    return id
        ? html`<${One} key=${id} id=${id} />`
        : html`<${List} onNew=${() => go("/formulas/new")} />`;
}
