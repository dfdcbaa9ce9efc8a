/* The day's work in sentences. A thing to do has its sentence, its time and at
 * most one button. */

import { t, tn } from "../../lib/say.js";

const SENTENCES = {
    mix: (one) => t("Mix batch {number}, {name}.", one),
    box: (one) => t("Divide and box batch {number}, {name}.", one),
    close: (one) => one.boxes
        ? tn("Close {n} box of {name}, batch {number}.",
            "Close {n} boxes of {name}, batch {number}.", one.boxes, one)
        : t("Close the stack of {name}, batch {number}.", one),
    use_first: (one) => tn("Use {n} of {name} first.",
        "Use {n} of {name} first.", one.balls, one),
    pull: (one) => one.number
        ? tn("Pull {n} box of {name}, batch {number}.",
            "Pull {n} boxes of {name}, batch {number}.", one.boxes, one)
        : tn("Pull {n} box of {name}.", "Pull {n} boxes of {name}.", one.boxes,
            one),
    count: () => t("Count what is left."),
    discard_minors: (one) => tn("Throw away {n} bag of minors for {name}.",
        "Throw away {n} bags of minors for {name}.", one.balls, one),
    check: (one) => t("Check: {name}.", one),
    look_at_cup: (one) =>
        t("Look at the witness cup of batch {number}, {name}.", one),
};

export function todoSentence(one) {
    return SENTENCES[one.kind](one);
}

/* The button of a thing to do: words, and where it leads. What is done by the
 * tap itself is in todoTap. */
const BUTTONS = {
    mix: (one) => [t("Open the card"), `/mix/${one.batch_id}`],
    box: (one) => [t("Open the card"), `/mix/${one.batch_id}`],
    look_at_cup: (one) => [t("Open the card"), `/mix/${one.batch_id}`],
    use_first: () => [t("Count them"), "/count"],
    pull: () => [t("Open the cold room"), "/cold"],
    count: () => [t("Count"), "/count"],
    check: (one) => one.wants_value
        ? [t("Write it down"), `/checks/${one.check_id}`] : null,
};

export function todoButton(one) {
    return BUTTONS[one.kind]?.(one) ?? null;
}

/* What one tap does: words, and the request that writes it; or null. */
const TAPS = {
    discard_minors: ({ minors_lot_id }) => [t("Thrown away"),
        "minors.discard", { minors_lot_id }],
    check: ({ check_id, wants_value }) => wants_value ? null
        : [t("It is done"), "check.do", { check_id }],
};

export const todoTap = (one) => TAPS[one.kind]?.(one) ?? null;

export function todoKey(one) {
    return `${one.kind} ${one.batch_id} ${one.product_id} ${
        one.minors_lot_id} ${one.check_id} ${one.due_ms}`;
}
