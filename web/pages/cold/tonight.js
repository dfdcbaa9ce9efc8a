/* What is past before the business day is over, as a list to work by; it is
 * what the page prints. */

import { html } from "../../lib/view.js";
import { writeClock, writeDayName } from "../../lib/dates.js";
import { t, tn } from "../../lib/say.js";

export function tonightOf(room) {
    return room.stacks.filter((one) => one.readiness === "past" ||
        (one.end_ms && one.end_ms <= room.day_ends_ms));
}

const whenOf = (stack, now_ms) => stack.end_ms && stack.end_ms > now_ms
    ? t("at {time}", { time: writeClock(stack.end_ms) })
    : t("since {day}", { day: writeDayName(stack.end_ms) });

export function Tonight({ room, stacks }) {
    return html`
        <section class="paper-only stack">
            <h2>${t("What dies tonight")}</h2>
            ${stacks.length ? html`<table class="tonight">
                <thead><tr>
                    <th scope="col">${t("Stack")}</th>
                    <th scope="col">${t("Batch")}</th>
                    <th scope="col">${t("Left")}</th>
                    <th scope="col">${t("Past")}</th>
                    <th scope="col">${t("Used")}</th>
                    <th scope="col">${t("Thrown away")}</th>
                </tr></thead>
                <tbody>${stacks.map((one) => html`
                    <tr key=${`${one.stack_id}.${one.product_id}`}>
                        <th scope="row">${one.name}</th>
                        <td>${one.number || "\u2013"}</td>
                        <td>${tn("{n} ball", "{n} balls", one.balls_left)}</td>
                        <td>${whenOf(one, room.now_ms)}</td>
                        <td>\u25a1</td><td>\u25a1</td>
                    </tr>`)}
                </tbody></table>`
        : html`<p>${t("Nothing dies before {time}.",
            { time: writeClock(room.day_ends_ms) })}</p>`}
            <p>${t("Look at each before it goes: these are windows of quality " +
        "by a model and the shop's days, not a safety clearance.")}</p>
        </section>`;
}
