/* Emergency dough from the cold room's page: of which formula, and by when. */

import { html, useEffect, useState } from "../../lib/view.js";
import { useAnswer } from "../../lib/answer.js";
import { call } from "../../lib/api.js";
import { t } from "../../lib/say.js";
import { HurryAnswer } from "../../life/hurry.js";
import { useUsed } from "../../life/used.js";
import { Pick } from "../../parts/pick.js";

const BALL_G = 396.9; /* 14 oz */
const ROOM_C = 22;

function useRecipe(formula_id) {
    const [recipe, set] = useState(null);
    useEffect(() => {
        if (formula_id)
            call("recipe.get", { formula_id }).then(set, () => set(null));
    }, [formula_id]);
    return recipe;
}

export function Hurry({ units }) {
    const { reply: list } = useAnswer("recipe.list", {});
    const { reply: today } = useAnswer("today.get", {});
    const [picked, pick] = useState(0);
    const formula_id = picked || (list?.formulas[0]?.formula_id ?? 0);
    const recipe = useRecipe(formula_id);
    const used = useUsed(recipe?.formula ?? null, formula_id);
    const product = today?.stock.find((one) => one.formula_id === formula_id);
    const read = today?.readings.find((one) => one.kind === "room_c");
    return html`
        <section class="happens stack" aria-labelledby="hurry-head">
            <h2 id="hurry-head">${t("Emergency dough")}</h2>
            ${list?.formulas.length === 0 && html`<p>
                ${t("Write down a formula first.")}</p>`}
            ${list?.formulas.length > 0 && html`
                <${Pick} name=${t("Formula")} value=${String(formula_id)}
                    options=${list.formulas.map((one) =>
        [String(one.formula_id), one.name])}
                    onPick=${(id) => pick(Number(id))} />`}
            ${recipe && today && used !== undefined && html`
                <${HurryAnswer} key=${formula_id} formula=${recipe.formula}
                    piece_g=${product ? product.ball_kg * 1000 : BALL_G}
                    room_c=${read?.celsius ?? ROOM_C} used=${used}
                    units=${units} />
                <p><a href=${`/formulas/${formula_id}`}>
                    ${t("Open the formula")}</a></p>`}
        </section>`;
}
