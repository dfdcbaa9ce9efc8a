/* The words of a drop. */

import { writeClock, writeMoment } from "../../lib/dates.js";
import { t, tn } from "../../lib/say.js";

export const ballsText = (n) => tn("{n} ball", "{n} balls", n);
export const boxesText = (n) => tn("{n} box", "{n} boxes", n);

export function stateSentence(drop) {
    const time = (ms) => ({ time: writeMoment(ms) });
    return ({
        open: () => t("Orders until {time}.", time(drop.cutoff_ms)),
        closed: () => t("Orders closed {time}; later ones are late.",
            time(drop.cutoff_ms)),
        loaded: () => t("Loaded {time}.", time(drop.loaded_ms)),
        arrived: () => t("Handed over {time}.", time(drop.arrived_ms)),
    })[drop.state]();
}

export function wantedSentence(drop) {
    if (drop.late)
        return t("Ordered late, at {time}.",
            { time: writeClock(drop.placed_ms) });
    if (drop.ordered)
        return t("Ordered {time}.", { time: writeMoment(drop.placed_ms) });
    return drop.drop_id ? "" : t("No order yet: what it sells is expected.");
}

export const ruleSentence = (rule) => ({
    share: () => t("When balls do not reach, all are short in proportion."),
    late_first: () => t("When balls do not reach, who ordered late is short " +
        "first."),
    last_first: () => t("When balls do not reach, the last on the list is " +
        "short first."),
})[rule]();
