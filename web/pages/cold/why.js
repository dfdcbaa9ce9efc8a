/* Why a stack stands where it stands: what was read, the rule, the shop's
 * days beside it; and if something happens, what that changes. */

import { html } from "../../lib/view.js";
import { write } from "../../lib/api.js";
import { writeDayName } from "../../lib/dates.js";
import { writeQuantity } from "../../lib/quantity.js";
import { t } from "../../lib/say.js";
import { betweenHours, noLife, readinessWord, roundHours, rulesOf,
    sourceOfRules } from "../../life/words.js";
import { lifeRows } from "../../life/taught.js";
import { CoreButton } from "../../parts/cup.js";
import { toast } from "../../parts/toast.js";
import { Why } from "../../parts/why.js";
import { fateInputs, fateRule, fateSentence } from "./fates.js";
import { nextWords } from "./words.js";

const HOUR_MS = 3600000;

const agoOf = (moment, now) => ({
    p05: moment.early_ms ? (moment.early_ms - now) / HOUR_MS : null,
    p95: moment.late_ms ? (moment.late_ms - now) / HOUR_MS : null,
});

/* One life in twenty was past before now. */
const latestWords = ({ p95 }) => p95 !== null && p95 > 0
    ? t("perhaps already, {time} at most", { time: roundHours(p95) })
    : t("perhaps already");

function lifeInputs({ life }, now, units) {
    const degrees = (c) => writeQuantity(c, "temperature", units);
    const end = agoOf(life.end, now);
    return [
        [t("Dough off the mixer"), degrees(life.dough_c)],
        [t("Each ball weighs"), writeQuantity(life.piece_g / 1000, "mass",
            units)],
        [t("On the bench"), writeQuantity(life.bench_h, "time", units)],
        [life.closed ? t("Open in the cold") : t("Open, when closed as due"),
            writeQuantity(life.open_h, "time", units)],
        [life.air_read ? t("Cold room, as read") : life.air_learned
            ? t("Cold room, as it settles") : t("Cold room, as set"),
            degrees(life.air_c)],
        ...lifeRows(life),
        ...(end.p05 === null ? [] : [[t("Past in, nine lives in ten"),
            end.p05 > 0 ? betweenHours(end) : latestWords(end)]]),
    ];
}

async function tap(op, request) {
    try {
        const reply = await write(op, request);
        toast(reply?.message ?? t("Written down. What it teaches stands in " +
            "Shop."));
    } catch (problem) {
        toast(problem.message);
    }
}

const keyOf = { ready: "ready_h", best: "best_from_h",
    use_first: "use_first_h", past: "end_h" };

export function StackWhy({ stack, fate, banded, now, units, limits,
    onClose }) {
    const { life, days } = stack;
    const lived = life ? lifeInputs(stack, now, units) : [];
    const told = fate?.verdict ?? null;
    return html`
        <${Why} title=${stack.name}
            value=${fate ? fateSentence(fate, banded) : nextWords(stack, now)}
            inputs=${told ? [...fateInputs(fate, units), ...lived] : lived}
            equation=${told ? fateRule() : life
        ? rulesOf(life.end_reason, limits)[keyOf[stack.next] ?? "end_h"]
        : noLife(stack.no_life)}
            source=${life ? sourceOfRules()
        : t("the shop's own days, common practice")}
            rule=${t("by the shop's days it is {state} and past from {day}", {
        state: readinessWord(days.readiness),
        day: writeDayName(days.end_ms) })} onClose=${onClose}>
            ${stack.stack_id > 0 && stack.batch_id > 0 && !fate && html`
                <${CoreButton} units=${units} onTap=${tap}
                    batch_id=${stack.batch_id}
                    product_id=${stack.product_id} />`}
        <//>`;
}
