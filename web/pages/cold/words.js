/* What a stack turns to next, in words. */

import { t } from "../../lib/say.js";
import { roundHours } from "../../life/words.js";

const HOUR_MS = 3600000;
const LEAST_MS = 300000; /* nothing here is known to the minute */

const turnsWords = (name, time) => ({
    ready: () => t("ready in about {time}", { time }),
    best: () => t("best in about {time}", { time }),
    use_first: () => t("use first in about {time}", { time }),
    past: () => t("past in about {time}", { time }),
})[name]();

export function nextWords(stack, now) {
    if (!stack.next)
        return stack.readiness === "past"
            ? t("look at it, then throw it away") : t("stays so for 14 days");
    return turnsWords(stack.next,
        roundHours(Math.max(LEAST_MS, stack.next_ms - now) / HOUR_MS));
}
