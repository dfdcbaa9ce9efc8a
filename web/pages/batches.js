/* Batches: what is being made, what comes next, and new ones from an order of
 * balls. */

import { html, useState, usePerson } from "../lib/view.js";
import { useAnswer } from "../lib/answer.js";
import { t } from "../lib/say.js";
import { Empty } from "../parts/empty.js";
import { BatchLine } from "./batches/line.js";
import { Order } from "./batches/order.js";
import { TimerStrip, timersOf } from "./mix/timers.js";

/* What a link orders: "/batches?order=1:72,2:40" is 72 of product 1 and 40 of
 * product 2. */
function linkedOrder() {
    const text = new URLSearchParams(location.search).get("order") ?? "";
    return Object.fromEntries(text.split(",")
        .map((pair) => pair.split(":").map(Number))
        .filter(([id, balls]) => id > 0 && balls > 0));
}

/* Today's, and those of before that still want something. */
function shownOf(book, open, day) {
    const wanted = new Set(open.map((batch) => batch.id));
    return book.batches.filter(({ batch }) =>
        batch.day >= day || wanted.has(batch.id));
}

const live = ({ batch }) => !["closed", "abandoned"].includes(batch.state);

function Lines({ title, lines, today }) {
    return lines.length > 0 && html`
        <section class="stack">
            <h2 class="section-head">${title}</h2>
            <ul class="batches">${lines.map((line) => html`
                <${BatchLine} key=${line.batch.id} line=${line}
                    today=${today} />`)}
            </ul>
        </section>`;
}

export function Page() {
    const { units } = usePerson();
    const { reply: today, refusal } = useAnswer("today.get", {});
    const { reply: book } = useAnswer("batch.list", today &&
        { from_day: Math.max(0, today.day - 3) });
    const [linked] = useState(linkedOrder);
    const [order, setOrder] = useState(Object.keys(linked).length > 0);
    if (!today || !book)
        return refusal && !today && html`
            <p class="trouble" role="alert">${refusal.message}</p>`;
    const lines = shownOf(book, today.open, today.day);
    const ordering = order || lines.length === 0;
    return html`
        <div class="stack-wide batches-page">
            <div class="row spread">
                <h1>${t("Batches")}</h1>
                ${!ordering && html`
                    <button type="button" class="do"
                        onClick=${() => setOrder(true)}>
                        ${t("Order balls")}</button>`}
            </div>
            ${today.timers.length > 0 && html`
                <${TimerStrip} timers=${timersOf(today)} />`}
            ${lines.length === 0 && html`
                <${Empty} title=${t("No batch is planned")}
                    text=${t("Say how many balls are wanted. They become " +
            "batches that fit the mixer, the bench and the boxes, each with " +
            "its mix card.")} />`}
            ${ordering && html`
                <${Order} today=${today} units=${units} linked=${linked}
                    onClose=${() => setOrder(false)} />`}
            <${Lines} title=${t("In work and next")} today=${today}
                lines=${lines.filter(live)} />
            <${Lines} title=${t("Done")} today=${today}
                lines=${lines.filter((line) => !live(line))} />
        </div>`;
}
