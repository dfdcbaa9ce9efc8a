/* What the shop's own readings taught, in words: a number, how sure it is, and
 * what it was before. */

import { writeNumber, writeQuantity } from "../lib/quantity.js";
import { t, tn } from "../lib/say.js";

const yeastWord = (kind) => ({
    yeast_fresh: t("fresh yeast"), yeast_active_dry: t("active dry yeast"),
    yeast_instant: t("instant yeast"),
})[kind];

/* f_Tmin is the model's own; people are told of the gas at 4 °C. A formula or
 * a lot is reckoned with by its own from three readings on. */
export const isTold = (value) => value.what !== "f_Tmin" &&
    (value.used + value.doubted >= 3 || !(value.formula_id || value.lot_id));

export const nameOf = (value) => ({
    offset_w_per_m2_k: () => t("Open stacks give heat away"),
    closed_w_per_m2_k: () => t("Closed stacks give heat away"),
    activity: () => t("Strength of the {yeast}",
        { yeast: yeastWord(value.yeast) }),
    cold_ratio: () => t("Its gas at 4 °C (39 °F)"),
    air_c: () => t("The cold room settles at"),
    time_constant_h: () => t("After a door it comes back in"),
})[value.what]();

/* One of its numbers (mean, low, prior_high...) as text. */
function numberText(value, member, units) {
    const number = value[member];
    return {
        offset_w_per_m2_k: () => writeNumber(number, 1),
        closed_w_per_m2_k: () => writeNumber(number, 1),
        activity: () => writeNumber(number, 2),
        cold_ratio: () => writeNumber(number, 2),
        air_c: () => writeQuantity(number, "temperature", units),
        time_constant_h: () => writeQuantity(number, "time", units),
    }[value.what]();
}

const unitText = (value, number) => ({
    offset_w_per_m2_k: () => t("{n} W/m²K", { n: number }),
    closed_w_per_m2_k: () => t("{n} W/m²K", { n: number }),
    activity: () => t("{n} times the usual", { n: number }),
    cold_ratio: () => t("{n} times the usual", { n: number }),
})[value.what]?.() ?? number;

export const afterText = (value, units) =>
    unitText(value, numberText(value, "mean", units));
export const beforeText = (value, units) =>
    unitText(value, numberText(value, "prior_mean", units));
export const spreadText = (value, units, prior = "") =>
    t("between {low} and {high}", {
        low: numberText(value, `${prior}low`, units),
        high: numberText(value, `${prior}high`, units) });

export const countOf = (value) => value.used + value.doubted;

/* "from 10 readings, 1 of them of little weight" */
export function fromText(value) {
    const from = tn("from {n} reading", "from {n} readings", countOf(value));
    return value.doubted === 0 ? from
        : t("{from}, {n} of little weight", { from, n: value.doubted });
}

/* For "why?": [name, text] of each learned number; none learned, none told. */
export const whyRows = (values, units) => values.filter(isTold).map((value) =>
    [t("{name}, learned here", { name: nameOf(value) }),
        t("{value}, {spread}, {from}", { value: afterText(value, units),
            spread: spreadText(value, units), from: fromText(value) })]);

const usual = () => t("usual, not learned here yet");
const from = (n) => t("learned {from}",
    { from: tn("from {n} reading", "from {n} readings", n) });

/* The same of one stack's life, which tells its numbers and their readings. */
export const lifeRows = (life) => [
    [t("Open stacks give heat away"), t("{n} W/m²K, {known}", {
        n: writeNumber(life.open_w_per_m2_k, 1),
        known: life.open_readings ? from(life.open_readings) : usual() })],
    [t("Closed stacks give heat away"), t("{n} W/m²K, {known}", {
        n: writeNumber(life.closed_w_per_m2_k, 1),
        known: life.closed_readings ? from(life.closed_readings)
            : usual() })],
    [t("Strength of the yeast"), t("{n} times the usual, {known}", {
        n: writeNumber(life.activity, 2),
        known: life.yeast_readings ? from(life.yeast_readings) : usual() })],
];
