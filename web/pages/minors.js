/* Bags of minors: weigh some ahead, and see which are left. */

import { html, useEffect, useMemo, usePerson, useState }
    from "../lib/view.js";
import { useAnswer } from "../lib/answer.js";
import { latest, write } from "../lib/api.js";
import { clock } from "../lib/clock.js";
import { bareUnit, readNumber, readQuantity, writeNumber }
    from "../lib/quantity.js";
import { go } from "../lib/route.js";
import { businessDay } from "../lib/shoptime.js";
import { t, tn } from "../lib/say.js";
import { Blank } from "../parts/blank.js";
import { Choice } from "../parts/choice.js";
import { Empty } from "../parts/empty.js";
import { Pick } from "../parts/pick.js";
import { toast } from "../parts/toast.js";
import { civilDay, mass } from "./book/words.js";

/* --- what is asked for --------------------------------------------------- */

function readAll(texts, work) {
    const errors = {};
    const request = {};
    for (const [name, read] of Object.entries(work)) {
        try {
            request[name] = read(texts[name]);
        } catch (error) {
            errors[name] = error.message;
        }
    }
    return { request, errors };
}

function number(text, whole) {
    const value = readNumber(text);
    if (value === null || (whole && value !== Math.floor(value)))
        throw new Error(whole ? t("Write a whole number")
            : t("Write a number"));
    return value;
}

function readAsked(texts, units) {
    const kg = (text) => readQuantity(text, "mass", bareUnit("mass", units));
    const { request, errors } = readAll(texts, { formula_id: Number,
        flour_kg: kg, bags: (text) => number(text, true), diluent_kg: kg,
        tolerance_percent: (text) => number(text),
        days: (text) => number(text, true),
        lots: (text) => text.trim() || null });
    return { request, errors };
}

const usual = (formula_id, standards, units) => ({
    formula_id: String(formula_id), bags: "4", lots: "",
    flour_kg: standards.length ? mass(standards[0].flour_kg, units) : "",
    diluent_kg: units === "us" ? mass(0.45359237, units) : mass(0.5, units),
    tolerance_percent: "1", days: "7" });

/* The bag as the server works it out, asked at every keystroke. */
function usePreview(request, sound) {
    const [state, set] = useState({ made: null, refusal: null });
    const ask = useMemo(() => latest("minors.preview"), []);
    const key = sound ? JSON.stringify(request) : null;
    useEffect(() => {
        if (key)
            ask(JSON.parse(key)).then(
                (made) => made && set({ made, refusal: null }),
                (refusal) => set({ made: null, refusal }));
        else
            set({ made: null, refusal: null });
    }, [key]);
    return state;
}

/* --- the bag ------------------------------------------------------------- */

function Bag({ made, units }) {
    const { bag, lot } = made;
    return html`
        <section class="bag stack">
            <p class="bag-target">${t("{bag} ± {off}", {
        bag: mass(bag.bag_kg, units),
        off: mass(lot.tolerance_kg, units) })}</p>
            <p>${t("A full bag weighs between {low} and {high}.", {
        low: mass(bag.low_kg, units), high: mass(bag.high_kg, units) })}</p>
            <table class="ledger">
                <caption class="only-heard">${t("What goes into a bag")}
                </caption>
                <thead><tr>
                    <th scope="col" class="quiet">${t("ingredient")}</th>
                    <th scope="col" class="number quiet">${t("one bag")}</th>
                    <th scope="col" class="number quiet">
                        ${tn("{n} bag", "{n} bags", bag.bags)}</th>
                </tr></thead>
                <tbody>${bag.lines.map((line) => html`
                    <tr key=${line.material}>
                        <th scope="row">${line.material}</th>
                        <td class="number">${mass(line.bag_kg, units)}</td>
                        <td class="number">${mass(line.all_kg, units)}</td>
                    </tr>`)}</tbody>
            </table>
            <p>${t("The batch then takes {flour} of {material}: the rest of " +
        "it is in the bag.", { flour: mass(bag.flour_left_kg, units),
        material: bag.diluent })}</p>
            <p class="strong">${t("Made {made}, thrown away after {discard}.",
        { made: civilDay(lot.made_day),
            discard: civilDay(lot.discard_day) })}</p>
        </section>`;
}

/* --- the form ------------------------------------------------------------ */

const FIELDS = ["flour_kg", "bags", "diluent_kg", "tolerance_percent",
    "days", "lots"];

function StandardChoice({ standards, texts, put, units }) {
    return standards.length > 0 && html`
        <${Choice} shown legend=${t("For a batch of")}
            value=${texts.flour_kg}
            options=${standards.map((one) =>
        [mass(one.flour_kg, units), one.name])}
            onChoose=${(flour_kg) => put({ flour_kg })} />`;
}

function Blanks({ texts, put, errors, units }) {
    const names = { flour_kg: t("Flour of the batch"), bags: t("Bags to fill"),
        diluent_kg: t("Flour of the batch in each bag"),
        tolerance_percent: t("Give or take, %"), days: t("Kept for, days"),
        lots: t("Lots, as written on the packs") };
    return html`
        <div class="paper-cells">${FIELDS.map((name) => html`
            <${Blank} key=${name} number=${name !== "lots"}
                name=${names[name]} text=${texts[name]} error=${errors[name]}
                onType=${(text) => put({ [name]: text })} />`)}
        </div>`;
}

/* What the server refuses in a formula, with its names instead of the
 * request's fields; else its own sentence. */
function formulaSentence({ code, field, message }, { formula }) {
    const [, i] = /\[(\d+)\]/.exec(field) ?? [];
    if (code === "not_a_choice" && field.endsWith(".kind"))
        return t("{yeast} does not keep in a bag with salt and flour; only " +
            "instant yeast does. Weigh it at the mixer, or change the yeast " +
            "in the formula.", { yeast: sentenceCase(
            formula.lines[i].material) });
    if (code === "conflict" && formula.stages[i])
        return t("{stage} takes salt, sugar or yeast of its own, so one bag " +
            "would not do. Weigh this formula's minors at the mixer.",
        { stage: sentenceCase(formula.stages[i].name) });
    return message;
}

const sentenceCase = (text) => text[0].toUpperCase() + text.slice(1);

/* Where the server's refusal stands: at its blank, or under the formula. */
function placed(refusal, recipe) {
    return refusal && (FIELDS.includes(refusal.field)
        ? { [refusal.field]: refusal.message }
        : { formula_id: formulaSentence(refusal, recipe) });
}

/* The formula that the page opens with: one whose minors keep in a bag. */
const bagged = ({ formula }) => !formula.stages.length &&
    formula.lines.some(({ kind }) => kind === "yeast_instant");

function Weigh({ formulas, shop, units }) {
    const [texts, set] = useState(() => usual(
        (formulas.find(bagged) ?? formulas[0]).formula_id,
        shop.standard_batches, units));
    const put = (change) => set((was) => ({ ...was, ...change }));
    const { request, errors: wrong } = readAsked(texts, units);
    const { made, refusal } = usePreview(request,
        !Object.keys(wrong).length);
    const recipe = formulas.find((one) =>
        one.formula_id === request.formula_id);
    const errors = { ...wrong, ...placed(refusal, recipe) };
    async function keep() {
        try {
            const reply = await write("minors.make", request);
            toast(reply.queued ? t("Kept on this tablet until the shop's computer " +
                "is back.") : tn("{n} bag is written down.",
                "{n} bags are written down.", request.bags));
            put({ lots: "" });
        } catch (refused) {
            toast(refused.message);
        }
    }
    return html`
        <section class="stack">
            <div class="section-head"><h2>${t("Weigh bags")}</h2></div>
            <${Pick} name=${t("For the formula")} value=${texts.formula_id}
                options=${formulas.map((one) =>
        [String(one.formula_id), one.name])}
                onPick=${(formula_id) => put({ formula_id })} />
            ${errors.formula_id && html`<p class="slip" data-level="wrong"
                role="alert">${errors.formula_id}</p>`}
            <${StandardChoice} standards=${shop.standard_batches} texts=${texts}
                put=${put} units=${units} />
            <${Blanks} texts=${texts} put=${put} errors=${errors}
                units=${units} />
            ${made && html`
                <${Bag} made=${made} units=${units} />
                <button type="button" class="do" onClick=${keep}>
                    ${tn("Write down {n} bag", "Write down {n} bags",
        request.bags)}</button>`}
        </section>`;
}

/* --- what is left -------------------------------------------------------- */

function leftSentence({ lot }, today) {
    const values = { left: lot.left_count, made: lot.made,
        day: civilDay(lot.made_day), discard: civilDay(lot.discard_day) };
    if (lot.discard_day < today)
        return t("{left} of {made} left, made {day}: throw them away, their " +
            "last day was {discard}.", values);
    return lot.discard_day === today
        ? t("{left} of {made} left, made {day}: today is their last day.",
            values)
        : t("{left} of {made} left, made {day}, good to {discard}.", values);
}

function Lot({ line, today, units }) {
    const { lot } = line;
    const past = lot.discard_day < today;
    return html`
        <li class=${past ? "slip" : ""} data-level=${past ? "wrong" : null}>
            <p>${leftSentence(line, today)}</p>
            <p class="quiet">${t("For {flour} of flour, {bag} ± {off} each.",
        { flour: mass(lot.flour_kg, units), bag: mass(lot.target_kg, units),
            off: mass(lot.tolerance_kg, units) })}${" "}
                ${lot.lots && t("Lots: {lots}.", { lots: lot.lots })}</p>
        </li>`;
}

function Left({ lines, today, units }) {
    const left = lines.filter(({ lot }) => lot.left_count > 0);
    const names = [...new Set(left.map((line) => line.formula_name))].sort();
    const count = (name) => left.filter((line) => line.formula_name === name)
        .reduce((sum, { lot }) => sum + lot.left_count, 0);
    return html`
        <section class="stack-wide">
            <div class="section-head"><h2>${t("Bags left")}</h2></div>
            ${!left.length && html`<p>${t("None. A bag holds the salt, " +
        "sugar and instant yeast of one batch with some of its flour; the " +
        "mix card then asks for one bag.")}</p>`}
            ${names.map((name) => html`
                <div class="stack" key=${name}>
                    <h3>${t("{formula}: {n}", { formula: name,
        n: count(name) })}</h3>
                    <ul class="ruled">${left.filter((line) =>
        line.formula_name === name).map((line) => html`
                        <${Lot} key=${line.lot.id} line=${line}
                            today=${today} units=${units} />`)}</ul>
                </div>`)}
        </section>`;
}

/* --- the page ------------------------------------------------------------ */

export function Page() {
    const { units } = usePerson();
    const shop = useAnswer("shop.get", {});
    const recipes = useAnswer("recipe.list", {});
    const bags = useAnswer("minors.list", {});
    const trouble = shop.refusal ?? recipes.refusal ?? bags.refusal;
    if (!shop.reply || !recipes.reply || !bags.reply)
        return trouble && html`<p class="trouble" role="alert">
            ${trouble.message}</p>`;
    const { formulas } = recipes.reply;
    if (!formulas.length)
        return html`<${Empty} title=${t("Bags of minors are weighed for a " +
            "formula")} text=${t("Write down a formula first; its salt, " +
            "sugar and instant yeast can then be weighed ahead, a bag for " +
            "each batch.")} button=${t("Write a formula")}
            onPress=${() => go("/formulas/new")} />`;
    return html`
        <div class="stack-wide">
            <h1>${t("Bags of minors")}</h1>
            <div class="beside-two">
                <${Weigh} key=${units} formulas=${formulas} units=${units}
                    shop=${shop.reply} />
                <${Left} lines=${bags.reply.lots} units=${units}
                    today=${businessDay(clock.now(), shop.reply.shop)} />
            </div>
        </div>`;
}
