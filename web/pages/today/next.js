/* The next three things to do, large enough to read from the mixer. */

import { html, useState } from "../../lib/view.js";
import { call, write } from "../../lib/api.js";
import { writeClock } from "../../lib/dates.js";
import { go } from "../../lib/route.js";
import { t } from "../../lib/say.js";
import { toast } from "../../parts/toast.js";
import { away } from "../mix/words.js";
import { By } from "./why.js";
import { todoButton, todoKey, todoSentence, todoTap } from "./words.js";

/* Hours ahead the time of day says more than the hours left. */
const SOON_MS = 4 * 3600000;

function timeLeft(due_ms, now) {
    const values = { time: writeClock(due_ms), away: away(due_ms, now) };
    return due_ms - now > SOON_MS ? t("by {time}", values)
        : t("{time}, {away}", values);
}

/* Ticks the step that closes the batch's stacks, as its card would; a procedure
 * without one is closed on the card. */
async function closeStacks({ batch_id, number }) {
    const { steps } = await call("batch.get", { id: batch_id });
    const closing = steps.findLast(({ step, done_ms }) =>
        step.kind === "close" && !done_ms);
    if (!closing)
        return go(`/mix/${batch_id}`);
    const mark = (how) => write("step.mark",
        { step_id: closing.id, mark: how });
    await mark("done");
    return toast(t("Batch {number}: the stack is closed.", { number }),
        { button: t("Undo"), onPress: () => mark("undo") });
}

/* Done by the tap itself; a second one while the first is on its way does
 * nothing. */
function Doing({ one, place, words, work }) {
    const [busy, setBusy] = useState(false);
    const tap = () => {
        setBusy(true);
        work().catch((problem) => toast(problem.message))
            .finally(() => setBusy(false));
    };
    return html`<button type="button" class=${place === 1 ? "do" : ""}
        disabled=${busy} onClick=${tap}>${words}
        <span class="only-heard">${todoSentence(one)}</span></button>`;
}

function Thing({ one, place, now, limits, units }) {
    const button = todoButton(one);
    const tap = todoTap(one);
    return html`
        <li data-late=${one.due_ms < now}>
            <span class="place" aria-hidden="true">${place}</span>
            <div>
                <p class="thing">${todoSentence(one)}</p>
                <p class="left">${timeLeft(one.due_ms, now)}${" "}
                    <${By} one=${one} limits=${limits} units=${units} /></p>
            </div>
            ${one.kind === "close" && html`
                <${Doing} one=${one} place=${place} words=${t("It is closed")}
                    work=${() => closeStacks(one)} />`}
            ${tap && html`
                <${Doing} one=${one} place=${place} words=${tap[0]}
                    work=${() => write(tap[1], tap[2])} />`}
            ${button && html`<a class="button ${place === 1 ? "do" : ""}"
                href=${button[1]}>${button[0]}
                <span class="only-heard">${todoSentence(one)}</span></a>`}
        </li>`;
}

export function Next({ next, now, limits, units }) {
    return html`
        <section aria-label=${t("The next things to do")}>
            <ol class="next">${next.slice(0, 3).map((one, i) => html`
                <${Thing} key=${todoKey(one)} one=${one} place=${i + 1}
                    now=${now} limits=${limits} units=${units} />`)}
            </ol>
        </section>`;
}
