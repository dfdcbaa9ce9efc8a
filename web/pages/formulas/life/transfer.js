/* The same dough in another shop: what its mixer, tap, cold room and height do
 * to it, and what yeast or warmth makes it come out as it does here. */

import { html, useEffect, useState } from "../../../lib/view.js";
import { useAnswer } from "../../../lib/answer.js";
import { writeNumber, writeQuantity } from "../../../lib/quantity.js";
import { t } from "../../../lib/say.js";
import { useBanded } from "../../../life/banded.js";
import { Field } from "../../../life/field.js";
import { momentWord, rulesOf, sourceOfRules, summaryOf }
    from "../../../life/words.js";
import { Choice } from "../../../parts/choice.js";
import { intoLife } from "../../../life/used.js";
import { MarkPick, Refused, Told, percent, yeastOf } from "./answers.js";
import { legsOf } from "./history.js";

const USUAL = { flour_kg: 25, flour_c: 21, tap_c: 18, bowl_kg: 20,
    work_j_per_kg_dough: 13000, elevation_m: 0 };

/* What is known of this shop. */
function hereOf(shop, today, history) {
    const read = (kind) => today?.readings.find((one) => one.kind === kind)
        ?.celsius;
    return { ...USUAL, room_c: read("room_c") ?? history.room_c,
        flour_c: read("flour_c") ?? USUAL.flour_c,
        tap_c: read("tap_c") ?? USUAL.tap_c,
        bowl_kg: shop?.mixers?.[0]?.bowl_kg || USUAL.bowl_kg,
        cold_c: history.cold_c };
}

/* As the operation takes a shop: its legs with its own air. */
function waysOf({ cold_c, ...ways }, { history, cold }, span_h) {
    return { ...ways, legs: legsOf({ ...history, cold_c,
        room_c: ways.room_c }, cold, span_h) };
}

const FIELDS = {
    flour_kg: () => ({ name: t("Flour in a batch"), dimension: "mass",
        low: 0.5, high: 500 }),
    flour_c: () => ({ name: t("Flour"), dimension: "temperature", low: -10,
        high: 50 }),
    room_c: () => ({ name: t("Kitchen"), dimension: "temperature", low: 5,
        high: 45 }),
    tap_c: () => ({ name: t("Tap water"), dimension: "temperature", low: 0,
        high: 45 }),
    cold_c: () => ({ name: t("Cold room"), dimension: "temperature", low: -0.5,
        high: 15 }),
    bowl_kg: () => ({ name: t("Bowl weighs"), dimension: "mass", low: 0,
        high: 500 }),
    elevation_m: () => ({ name: t("Above the sea"), dimension: "length",
        bare: "m", low: -400, high: 5000 }),
};

/* A height is said in whole feet or metres. */
const height = (units) => units === "us"
    ? { bare: "ft", say: (m) => `${writeNumber(m / 0.3048, 0)} ft` }
    : { say: (m) => `${writeNumber(m, 0)} m` };

function Blanks({ ways, cold, units, onChange }) {
    return html`
        <div class="blanks">
            ${Object.keys(FIELDS).filter((name) => cold || name !== "cold_c")
        .map((name) => html`<${Field} key=${name} ...${FIELDS[name]()}
                ...${name === "elevation_m" ? height(units) : {}}
                value=${ways[name]} units=${units}
                onValue=${(value) => onChange({ [name]: value })} />`)}
        </div>`;
}

const waterText = ({ liquid_c, ice_kg }, units) => ice_kg > 0
    ? t("{temperature} and {ice} of ice", {
        temperature: writeQuantity(liquid_c, "temperature", units),
        ice: writeQuantity(ice_kg, "mass", units) })
    : writeQuantity(liquid_c, "temperature", units);

function Comes({ reply, banded, formula, dough_c, mark, units }) {
    const degrees = (c) => writeQuantity(c, "temperature", units);
    const yeast = yeastOf(formula);
    const values = { yeast: yeast?.material ?? t("Yeast"),
        percent: percent(reply.percent), celsius: degrees(reply.dough_c),
        water: waterText(reply.there_water, units) };
    return html`<${Told} title=${t("In another shop")}
        said=${t("{yeast} {percent}, dough at {celsius}, water at {water}",
        values)}
        sure=${summaryOf({ window: reply.there.window,
        band: banded?.there.band })}
        why=${{ inputs: [
        [t("Alike in both"), t("{moment} after {time}", {
            moment: momentWord(mark),
            time: writeQuantity(reply.mark_h, "time", units) })],
        [t("Here"), t("{percent}, dough at {celsius}, water at {water}", {
            percent: percent(yeast?.percent ?? 0),
            celsius: degrees(dough_c),
            water: waterText(reply.here_water, units) })]],
    equation: t("The dough is lived through in both shops; yeast or dough " +
        "temperature is changed until the moment comes at the same hour. The " +
        "water follows from the heat balance of that shop. {rule}", {
        rule: rulesOf(reply.there.window.end_reason,
            reply.there.limits)[mark] }),
    rule: t("the same percents everywhere, and the water by the shop's own " +
        "friction number"),
    source: sourceOfRules() }} />`;
}

export function Transfer({ of, formula, dough_c, shop, units }) {
    const { reply: today } = useAnswer("today.get", {});
    const [turn, setTurn] = useState("yeast");
    const [mark, setMark] = useState("best_from_h");
    const [there, set] = useState(null);
    const here = hereOf(shop, today, of.history);
    const ways = there ?? here;
    useEffect(() => set(null), [shop]);
    const span_h = 96;
    const { reply, refusal, banded } = useBanded("formula.transfer",
        (members) => ({ formula, piece_g: of.history.piece_g, dough_c,
            here: waysOf(here, of, span_h), there: waysOf(ways, of, span_h),
            turn, mark, members, ...intoLife(of.used) }));
    return html`
        <p class="quiet">${t("The other shop, as far as it differs from this " +
        "one:")}</p>
        <${Blanks} ways=${ways} cold=${of.cold} units=${units}
            onChange=${(change) => set({ ...ways, ...change })} />
        <${Choice} shown legend=${t("What may change")} value=${turn}
            options=${[["yeast", t("the yeast")],
        ["dough_c", t("the dough temperature")]]} onChoose=${setTurn} />
        <${MarkPick} mark=${mark} onMark=${setMark} />
        <${Refused} refusal=${refusal} />
        ${reply && !refusal && html`<${Comes} reply=${reply} banded=${banded}
            formula=${formula} dough_c=${dough_c} mark=${mark}
            units=${units} />`}`;
}
