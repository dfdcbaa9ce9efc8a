/* The next three things to do, large enough to read from the mixer. */

import { write } from "../../lib/api.js";
import { html } from "../../lib/view.js";
import { writeClock } from "../../lib/dates.js";
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

async function tapped(op, request) {
    try {
        await write(op, request);
    } catch (refusal) {
        toast(refusal.message);
    }
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
            ${tap && html`<button type="button"
                class=${place === 1 ? "do" : ""}
                onClick=${() => tapped(tap[1], tap[2])}>${tap[0]}
                <span class="only-heard">${todoSentence(one)}</span></button>`}
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
