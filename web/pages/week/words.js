/* Weights and money of the plan, written. */

import { lang } from "../../lib/say.js";
import { person } from "../../lib/person.js";

const KG_PER_LB = 0.45359237;

/* Dough of a batch: "37 kg", "82 lb". */
export function writeMass(kg) {
    const lb = person().units === "us";
    return `${Math.round(lb ? kg / KG_PER_LB : kg)}\u00a0${lb ? "lb" : "kg"}`;
}

/* Minor units of the shop's currency, to the whole. */
export function writeMoney(minor, currency) {
    const how = currency
        ? { style: "currency", currency, maximumFractionDigits: 0 } : {};
    return new Intl.NumberFormat(lang(), how).format(minor / 100);
}
