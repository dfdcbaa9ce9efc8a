/* How drift is said: what is looked at with its unit, since when it is
 * otherwise, and what moved with it. */

import { writeLongMoment } from "../../lib/dates.js";
import { inPersonUnits, writeNumber, writeQuantity }
    from "../../lib/quantity.js";
import { t } from "../../lib/say.js";

const degree = (units) => units === "us" ? "°F" : "°C";
const scaled = (units) => units === "us" ? 1.8 : 1;
const difference = (c, units) => writeQuantity(c, "difference", units);
const kilojoules = (j) => `${writeNumber(j / 1000, 1)}\u00a0kJ/kg`;
const percent = (p) => `${writeNumber(p, 1)}\u00a0%`;

/* name, head (of the axis), shown (on the axis, in its unit), write (a value),
 * by (a difference); up and down say a step of { when, by, who }. */
const WHATS = {
    dough_c: {
        name: () => t("Dough temperature"),
        head: (units) => t("{unit} off its goal", { unit: degree(units) }),
        shown: (c, units) => c * scaled(units),
        write: difference,
        by: difference,
        up: (of) => t("Since {when}: dough {by} warmer ({who}).", of),
        down: (of) => t("Since {when}: dough {by} colder ({who}).", of),
    },
    work_j_per_kg_dough: {
        name: () => t("Mixing work"),
        head: () => t("kJ into a kg of dough"),
        shown: (j) => j / 1000,
        write: kilojoules,
        by: kilojoules,
        up: (of) => t("Since {when}: mixing warms the dough by {by} more " +
            "({who}).", of),
        down: (of) => t("Since {when}: mixing warms the dough by {by} less " +
            "({who}).", of),
    },
    yield_percent: {
        name: () => t("Yield"),
        head: () => t("% of the dough that was planned"),
        shown: (p) => p,
        write: percent,
        by: (p) => writeNumber(p, 1),
        up: (of) => t("Since {when}: {by} more of every 100 of dough came out " +
            "({who}).", of),
        down: (of) => t("Since {when}: {by} less of every 100 of dough came " +
            "out ({who}).", of),
    },
    cold_c: {
        name: () => t("Cold room"),
        head: degree,
        shown: inPersonUnits,
        write: (c, units) => writeQuantity(c, "temperature", units),
        by: difference,
        up: (of) => t("Since {when}: cold room {by} warmer.", of),
        down: (of) => t("Since {when}: cold room {by} colder.", of),
    },
};

export const whats = () => Object.entries(WHATS).map(([what, of]) =>
    [what, of.name()]);

export const wordsOf = (what) => WHATS[what];

export const whose = (series) => series.mixer_name ?? t("all mixers");

/* --- a step -------------------------------------------------------------- */

function stepSentence(what, series, units) {
    const { step } = series;
    const by = step.after - step.before;
    const { up, down, by: write } = WHATS[what];
    const of = { who: whose(series), when: writeLongMoment(step.since_ms),
        by: write(Math.abs(by), units) };
    return by > 0 ? up(of) : down(of);
}

const COMPANIONS = {
    tap_c: (rose, by) => rose
        ? t("The tap rose {by} at the same time.", { by })
        : t("The tap fell {by} at the same time.", { by }),
    room_c: (rose, by) => rose
        ? t("The room rose {by} at the same time.", { by })
        : t("The room fell {by} at the same time.", { by }),
    flour_c: (rose, by) => rose
        ? t("The flour rose {by} at the same time.", { by })
        : t("The flour fell {by} at the same time.", { by }),
    water_off_c: (rose, by) => rose
        ? t("The water was poured {by} warmer against what was asked for " +
            "than before.", { by })
        : t("The water was poured {by} colder against what was asked for " +
            "than before.", { by }),
    work_j_per_kg_dough: (rose, by) => rose
        ? t("Mixing gave {by} more at the same time.", { by })
        : t("Mixing gave {by} less at the same time.", { by }),
};

function companionSentence({ what, before, after }, units) {
    const by = Math.abs(after - before);
    return COMPANIONS[what](after > before, what === "work_j_per_kg_dough"
        ? kilojoules(by) : difference(by, units));
}

/* What is said first: sentences. */
export function verdictOf(what, series, units) {
    if (series.step)
        return [stepSentence(what, series, units),
            ...series.step.companions.map((one) =>
                companionSentence(one, units))];
    return series.points.at(-1).alarm
        ? [t("No step can be told, but the last values lie outside the " +
            "limits: look again soon.")]
        : [t("Nothing has drifted.")];
}

/* --- how sure ------------------------------------------------------------ */

export function alarmSentence(what, { run_good }) {
    const n = writeNumber(run_good, 0);
    return what === "cold_c"
        ? t("A false alarm comes once in {n} readings.", { n })
        : t("A false alarm comes once in {n} batches.", { n });
}

export function spanSentence({ step }) {
    return step && t("It began between {from} and {to}, nine times in ten. " +
        "What moved with it is a hint, not a cause.", {
        from: writeLongMoment(step.earliest_ms),
        to: writeLongMoment(step.latest_ms) });
}

/* --- whose doing --------------------------------------------------------- */

const hour = (h) => `${String(h).padStart(2, "0")}:00`;

const FACTORS = {
    person: (_, name) => name,
    lot: (_, code) => t("flour lot {code}", { code }),
    mixer: (_, name) => name,
    hours: (from) => t("{from} to {to}", { from: hour(from),
        to: hour(from + 6) }),
};

/* A part of a person, lot, mixer or of hours, or of two of them. */
export function effectSentence(what, effect, units) {
    const above = effect.part > 0;
    const of = { by: WHATS[what].write(Math.abs(effect.part), units),
        who: FACTORS[effect.factor](effect.level, effect.name) };
    if (!effect.has_together)
        return above ? t("{who}: {by} above the average.", of)
            : t("{who}: {by} below the average.", of);
    const both = { ...of, other: FACTORS[effect.together_factor](
        effect.together_level, effect.together_name) };
    return above
        ? t("{who} with {other}: {by} above the average. They came together, " +
            "so they cannot be told apart.", both)
        : t("{who} with {other}: {by} below the average. They came together, " +
            "so they cannot be told apart.", both);
}
