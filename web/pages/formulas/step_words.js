/* The steps of a procedure in words. */

import { t } from "../../lib/say.js";
import { writeNumber, writeQuantity } from "../../lib/quantity.js";

const ADD = {
    nothing: () => t("Add nothing"),
    material: (step) => t("Add {material}",
        { material: step.material ?? "\u2026" }),
    water: () => t("Pour in the water"),
    salt_sugar: () => t("Add salt and sugar"),
    flour: () => t("Add the flour"),
    yeast: () => t("Add the yeast, each kind its own way"),
    fat: () => t("Add the oil"),
    stages: () => t("Add the preferment and old dough"),
    others: () => t("Add malt, gluten, milk and the like"),
    rest: () => t("Add all that is not in yet"),
};

const MIX = {
    low: {
        time: () => t("Mix on low"),
        no_dry_flour: () => t("Mix on low until no dry flour is left"),
        absorbed: () => t("Mix on low until it is taken up"),
        smooth: () => t("Mix on low until smooth and satiny"),
    },
    second: {
        time: () => t("Mix on second speed"),
        no_dry_flour: () =>
            t("Mix on second speed until no dry flour is left"),
        absorbed: () => t("Mix on second speed until it is taken up"),
        smooth: () => t("Mix on second speed until smooth and satiny"),
    },
};

const OTHERS = {
    rest: (step) => step.until === "risen"
        ? t("Let it rise") : t("Let it rest"),
    oil_bowl: () => t("A little oil down the side of the bowl"),
    stop: () => t("Stop the mixer"),
    probe: () => t("Take the dough's temperature"),
    divide: () => t("Divide and weigh"),
    round: () => t("Round the balls"),
    box: () => t("Put them in boxes"),
    oil_tops: () => t("Oil the tops"),
    hold: () => t("Keep it in the cold room"),
    sheet: () => t("Sheet it"),
    punch: () => t("Punch it down"),
};

const AT_CORE = {
    chill_open: [() => t("Into the cold room, open and offset"),
        (core) => t("Into the cold room, open and offset, until the core " +
            "is {core}", { core })],
    close: [() => t("Close the stack"),
        (core) => t("Close the stack at a core of {core}", { core })],
    temper: [() => t("Let it warm up before use"),
        (core) => t("Let it warm up to a core of {core} before use",
            { core })],
};

function addWords(step) {
    const what = step.what === "fat" && step.running
        ? t("Pour the oil in with the mixer running")
        : step.running
            ? t("{what}, with the mixer running", { what: ADD[step.what](step) })
            : ADD[step.what](step);
    return step.share_percent < 100
        ? t("{what} ({percent} of it)", { what, percent: writeQuantity(
            step.share_percent, "percent") })
        : what;
}

const QUESTIONS = {
    oil_taken_up: () => t("Look: does the hook drive through the dough, or " +
        "does oil slide?"),
};

/* One step as a sentence for people; their own words go first. */
export function stepSentence(step, units) {
    if (step.text)
        return step.text;
    if (step.kind === "add")
        return addWords(step);
    if (step.kind === "mix")
        return (MIX[step.speed] ?? MIX.low)[step.until]?.() ?? MIX.low.time();
    if (step.kind === "ask")
        return QUESTIONS[step.question]?.() ?? step.question;
    if (AT_CORE[step.kind]) {
        const [plain, core] = AT_CORE[step.kind];
        return step.goal_c === null || step.goal_c === undefined ? plain()
            : core(writeQuantity(step.goal_c, "temperature", units));
    }
    return OTHERS[step.kind](step);
}

/* "2 min", "8–10 min", "8–16 h", or nothing. */
export function stepTime(step) {
    if (!step.minutes)
        return "";
    const long = step.minutes >= 180;
    const low = writeNumber(long ? step.minutes / 60 : step.minutes, 1);
    const high = step.minutes_to && writeNumber(
        long ? step.minutes_to / 60 : step.minutes_to, 1);
    if (long)
        return high ? t("{low}\u2013{high} h", { low, high })
            : t("{low} h", { low });
    return high ? t("{low}\u2013{high} min", { low, high })
        : t("{low} min", { low });
}
