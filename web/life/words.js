/* The window of a ball in words: never more digits than are known. */

import { writeNumber } from "../lib/quantity.js";
import { t } from "../lib/say.js";

export const READINESS = ["not_yet", "ready", "best", "use_first", "past"];

export const readinessWord = (name) => ({
    not_yet: t("not yet"), ready: t("ready"), best: t("best"),
    use_first: t("use first"), past: t("past"),
})[name];

/* Where one state gives way to the next, as [state, from_h, to_h]; to_h of the
 * last is Infinity. */
export function zonesOf(window, from_h = 0) {
    const end = window.end_h ?? Infinity;
    const first = Math.min(window.use_first_h ?? Infinity, end);
    const ready = Math.min(window.ready_h ?? Infinity, end);
    const best = Math.max(ready, Math.min(window.best_from_h ?? Infinity,
        first));
    const use = Math.max(first, ready);
    return [["not_yet", from_h, ready], ["ready", ready, Math.min(best, use)],
        ["best", best, use], ["use_first", use, end], ["past", end, Infinity]]
        .filter(([, from, to]) => to > from);
}

export function readinessAt(window, h) {
    return zonesOf(window).find(([, from, to]) => h >= from && h < to)?.[0] ??
        "past";
}

/* Why a stack has no life of its own. */
export const noLife = (why) => ({
    form: t("There is no model for this form of dough; the shop's days hold."),
    dough: t("The dough's temperature was not read, so the shop's days hold."),
    times: t("It is not known when the mixer stopped and the boxes went in, " +
        "so the shop's days hold."),
    answer: t("What was read cannot be right, so the shop's days hold."),
})[why];

/* --- hours --------------------------------------------------------------- */

/* Whole hours; halves under ten, five minutes under one. */
const stepOf = (h) => h < 1 ? 1 / 12 : h < 10 ? 0.5 : 1;

function inSteps(h, round, step = stepOf(h)) {
    return round(h / step - (round === Math.ceil ? 1e-6 : -1e-6)) * step;
}

const plainHours = (h) => h < 1
    ? t("{n} min", { n: writeNumber(h * 60, 0) })
    : t("{n} h", { n: writeNumber(h, 1) });

export const roundHours = (h) => plainHours(inSteps(h, Math.round));

export function aboutHours(h) {
    return h === null || h === undefined ? t("not within 14 days")
        : t("about {time}", { time: roundHours(h) });
}

/* "between 20 and 27 h"; what less than one life in twenty does not reach has
 * no upper end. */
export function betweenHours(moment) {
    const { p05, p95 } = moment;
    if (p05 === null)
        return t("not within 14 days");
    const step = stepOf(p95 ?? p05);
    const low = inSteps(p05, Math.floor, step);
    if (p95 === null)
        return t("{time} or later", { time: plainHours(low) });
    const high = inSteps(p95, Math.ceil, step);
    if (high < 1)
        return t("between {low} and {high} min", {
            low: writeNumber(low * 60, 0), high: writeNumber(high * 60, 0) });
    return t("between {low} and {high} h",
        { low: writeNumber(low, 1), high: writeNumber(high, 1) });
}

/* --- moments ------------------------------------------------------------- */

export const MOMENTS = ["ready_h", "best_from_h", "use_first_h", "end_h"];

export const momentWord = (name) => ({
    ready_h: t("Ready"), best_from_h: t("Best from"),
    use_first_h: t("Use first from"), end_h: t("Past"),
})[name];

/* Which state begins with it. */
export const stateOf = { ready_h: "ready", best_from_h: "best",
    use_first_h: "use_first", end_h: "past" };

export const endReason = (reason) => ({
    age: () => t("it has aged too long and turns slack and sour"),
    gas: () => t("it has made more gas than it can carry"),
    leaking: () => t("gas leaks as fast as it is made"),
    bench_life: () => t("it was out of the cold for the shop's bench life"),
})[reason]?.() ?? "";

/* The life in two sentences, for the eye and for the ear. */
export function summaryOf({ window, band }) {
    if (window.ready_h === null)
        return t("It is not ready within 14 days.");
    const ready = band ? betweenHours(band.window.ready_h)
        : aboutHours(window.ready_h);
    const first = t("Ready after {time}.", { time: ready });
    if (window.end_h === null)
        return t("{first} It does not end within 14 days.", { first });
    const end = band ? betweenHours(band.window.end_h)
        : aboutHours(window.end_h);
    return t("{first} Past after {time}, when {reason}.",
        { first, time: end, reason: endReason(window.end_reason) });
}

/* --- why ----------------------------------------------------------------- */

/* The gas at which each moment of the window comes. */
export const gasLimits = ({ gas_ready, gas_best, gas_use_first, gas_end }) =>
    [gas_ready, gas_best, gas_use_first, gas_end];

/* The rule of each moment, by the limits that came with the answer. */
export function rulesOf(reason, limits) {
    const n = Object.fromEntries(Object.entries(limits).map(([name, value]) =>
        [name, writeNumber(value, 1)]));
    return {
        ready_h: t("Ready when {gas_ready} mL of gas are made for 100 g of " +
            "flour and the dough is {age_ready} h old, counted at 25 °C " +
            "(77 °F); dough held cold not before {earliest_cold_use_h} h in " +
            "the cold.", n),
        best_from_h: t("Best from {gas_best} mL of gas for 100 g of flour, " +
            "never before it is ready.", n),
        use_first_h: t("Use first from {gas_use_first} mL of gas, or in the " +
            "last {use_first_cold} h before the end in the cold, " +
            "{use_first_bench} h on the bench.", n),
        end_h: t("Past when {reason}: {age_end} h old counted at 25 °C (77 " +
            "°F), or {gas_end} mL of gas with {age_gas_end} h of age, or " +
            "bubbles that leak, or the shop's bench life, whichever is first.",
        { ...n, reason: endReason(reason) }),
    };
}

export const sourceOfRules = () => t("the window: common practice, no " +
    "source. Gas, growth, sugars: {papers}.", { papers: "White & Munns 1951; " +
    "Jayaram et al. 2013; Salvadó et al. 2011; Saunders, Ng & Kline 1972" });
