/* How the batch book says things: the state of a batch, what was off, a
 * verdict. */

import { civilDay, longDay, writeClock } from "../../lib/dates.js";
import { t, tn } from "../../lib/say.js";
import { degrees, mass, onScale, temperature } from "../mix/words.js";

export { civilDay, degrees, longDay, mass, onScale, temperature, writeClock };

/* --- where a batch is ---------------------------------------------------- */

const STATES = {
    planned: (at) => t("Planned for {time}.", { time: at("planned_ms") }),
    mixing: (at) => t("In the mixer since {time}.",
        { time: at("started_ms") }),
    mixed: (at) => t("Off the mixer at {time}, not yet in boxes.",
        { time: at("stopped_ms") }),
    boxed: (at, batch) => batch.close_due_ms
        ? t("In the cold room since {time}, stacks open; close by {by}.",
            { time: at("last_box_ms"), by: at("close_due_ms") })
        : t("In the cold room since {time}, stacks open.",
            { time: at("last_box_ms") }),
    closed: (at) => t("Closed at {time}.", { time: at("closed_ms") }),
    abandoned: () => t("Abandoned."),
};

export function stateSentence(batch) {
    return STATES[batch.state]((name) => writeClock(batch[name]), batch);
}

/* Dough against its goal. Less than half a degree is on the goal: no
 * thermometer of a kitchen tells more (common practice, no source). */
const ON_GOAL_C = 0.5;

export function doughSentence(dough_c, goal_c, units) {
    const off = dough_c - goal_c;
    const values = { dough: temperature(dough_c, units),
        off: degrees(off, units) };
    if (Math.abs(off) < ON_GOAL_C)
        return t("Dough {dough}, on its goal.", values);
    return off > 0 ? t("Dough {dough}, {off} above its goal.", values)
        : t("Dough {dough}, {off} below its goal.", values);
}

export function ballsSentence(pieces) {
    const sum = (name) => pieces.reduce((all, { piece }) =>
        all + (piece[name] ?? 0), 0);
    const planned = sum("balls_planned");
    if (!pieces.some(({ piece }) => piece.balls_made !== null))
        return tn("{n} ball planned.", "{n} balls planned.", planned);
    const made = sum("balls_made");
    return made === planned
        ? tn("{n} ball, as planned.", "{n} balls, as planned.", made)
        : t("{made} balls of {planned} planned.", { made, planned });
}

/* --- something was off --------------------------------------------------- */

const CHANGES = {
    water: ({ kg }, units) => kg < 0
        ? t("{amount} of water left out.", { amount: mass(-kg, units) })
        : t("{amount} of water more.", { amount: mass(kg, units) }),
    yeast_type: ({ material, to_kind }) => t("{material} became {kind}.",
        { material, kind: yeastWord(to_kind) }),
    lot: ({ material }) => t("{material} came from another lot.",
        { material }),
    forgotten: ({ material }) => t("{material} was forgotten.", { material }),
    doubled: ({ material }) => t("{material} went in twice.", { material }),
    sliding: () => t("The oil slid and took longer to be taken up."),
    abandoned: () => t("The batch was abandoned."),
    other: () => t("Something else was off."),
};

function yeastWord(kind) {
    return { yeast_fresh: t("fresh yeast"),
        yeast_active_dry: t("active dry yeast"),
        yeast_instant: t("instant yeast") }[kind] ?? kind;
}

export function changeSentence(change, units) {
    const said = CHANGES[change.kind](change, units);
    return said[0].toUpperCase() + said.slice(1);
}

/* --- verdicts ------------------------------------------------------------ */

export const verdicts = () => [
    ["good", t("good")], ["tight", t("tight")], ["bubbles", t("bubbles")],
    ["sticky", t("sticky")], ["blown", t("blown")],
    ["not_looked", t("not looked")],
];

export const verdictWord = (value) =>
    verdicts().find(([one]) => one === value)[1];

/* The newest verdict on a product of the batch, or undefined. */
export const verdictOn = (list, product_id) =>
    list.findLast((one) => one.product_id === product_id);
