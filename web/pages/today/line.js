/* The day as sentences on a time line: what was done, now, what is to come,
 * and when the last one leaves. */

import { html, useState } from "../../lib/view.js";
import { writeClock, writeDayName } from "../../lib/dates.js";
import { t, tn } from "../../lib/say.js";
import { todoKey, todoSentence } from "./words.js";

const DAY_MS = 86400000;
const MOST = 24; /* sentences that one look takes in */

/* What the batches of the day left behind. */
function doneOf({ batch, formula_name }) {
    const values = { number: batch.number, name: formula_name };
    const at = [[batch.started_ms, t("Batch {number}, {name}, begun.", values)],
        [batch.stopped_ms, t("Batch {number}, {name}, off the mixer.",
            values)],
        [batch.last_box_ms, t("Batch {number}, {name}, boxed.", values)],
        [batch.closed_ms, t("Batch {number}, {name}, closed.", values)]];
    return at.filter(([ms]) => ms > 0).map(([at_ms, words]) =>
        ({ key: `${batch.id} ${words}`, at_ms, words, tone: "done" }));
}

export function eventsOf(today, batches, now) {
    const todo = today.next.map((one) => ({ key: todoKey(one),
        at_ms: one.due_ms, words: todoSentence(one),
        tone: one.due_ms < now ? "late" : "todo" }));
    const leaves = today.leaves_ms > 0 ? [{ key: "leaves", tone: "leaves",
        at_ms: today.leaves_ms, words: t("The last one leaves.") }] : [];
    return [...batches.flatMap(doneOf), ...todo, ...leaves,
        { key: "now", at_ms: now, words: t("now"), tone: "now" }]
        .sort((a, b) => a.at_ms - b.at_ms);
}

/* Another day than today is named. */
function timeOf(at_ms, now) {
    const day = writeDayName(at_ms);
    const another = Math.abs(at_ms - now) > DAY_MS / 2 &&
        day !== writeDayName(now);
    const time = writeClock(at_ms);
    return another ? t("{day} {time}", { day, time }) : time;
}

/* The window of events around now. */
function around(events, all) {
    if (all || events.length <= MOST)
        return events;
    const at = events.findIndex((one) => one.tone === "now");
    const from = Math.max(0, Math.min(at - MOST / 2, events.length - MOST));
    return events.slice(from, from + MOST);
}

export function Line({ today, batches, now }) {
    const [all, setAll] = useState(false);
    const events = eventsOf(today, batches, now);
    const shown = around(events, all);
    const more = events.length - shown.length;
    return html`
        <section class="stack" aria-labelledby="line-head">
            <h2 id="line-head" class="section-head">${t("The day")}</h2>
            <ol class="day-line">${shown.map((one) => html`
                <li key=${one.key} data-tone=${one.tone}
                    aria-current=${one.tone === "now" ? "time" : null}>
                    <span class="at">${timeOf(one.at_ms, now)}</span>
                    <span>${one.words}${one.tone === "done" && html`
                        <span class="only-heard"> ${t("Done.")}</span>`}
                    ${one.tone === "late" && html`
                        <b class="trouble"> ${t("Late.")}</b>`}</span>
                </li>`)}
            </ol>
            ${more > 0 && html`
                <button type="button" class="word screen-only"
                    onClick=${() => setAll(true)}>
                    ${tn("Show {n} more", "Show {n} more", more)}</button>`}
        </section>`;
}
