/* Today: what to do next and until when, the day on a line, how warm it is,
 * and what is in the cold room. */

import { html, useEffect, usePerson, useState } from "../lib/view.js";
import { useAnswer } from "../lib/answer.js";
import { clock } from "../lib/clock.js";
import { civilDate, writeMoment, writeWeekday } from "../lib/dates.js";
import { go } from "../lib/route.js";
import { t } from "../lib/say.js";
import { Empty } from "../parts/empty.js";
import { TimerStrip, timersOf } from "./mix/timers.js";
import { Line } from "./today/line.js";
import { Next } from "./today/next.js";
import { Readings } from "./today/readings.js";
import { Stock } from "./today/stock.js";

const MINUTE_MS = 60000;

/* The shop's time, once a minute: nothing here is told in seconds. */
function useMinute() {
    const [now, set] = useState(clock.now());
    useEffect(() => {
        let timer = 0;
        const tick = () => {
            set(clock.now());
            timer = setTimeout(tick, MINUTE_MS - clock.now() % MINUTE_MS + 20);
        };
        tick();
        return () => clearTimeout(timer);
    }, []);
    return now;
}

function NoShop() {
    return html`<${Empty} title=${t("Begin with your shop")}
        text=${t("Today tells what to mix, close and use first, and until " +
            "when. First it must know the mixer, the boxes and the dough.")}
        button=${t("Set up the shop")} onPress=${() => go("/shop")} />`;
}

function NothingToDo({ today }) {
    return today.stock.length === 0
        ? html`<${Empty} title=${t("No product yet")}
            text=${t("Write down a formula and the pieces you make of it; " +
            "then batches, counts and the day's work appear here.")}
            button=${t("Go on in Shop")} onPress=${() => go("/shop")} />`
        : html`<${Empty} title=${t("Nothing waits")}
            text=${t("Everything is mixed, closed and counted. What comes " +
            "next stands here with the time it has left.")}
            button=${t("Order balls")} onPress=${() => go("/batches")} />`;
}

export function Page() {
    const { units } = usePerson();
    const now = useMinute();
    const { reply: today, refusal } = useAnswer("today.get", {});
    const { reply: book } = useAnswer("batch.list", today &&
        { from_day: today.day });
    if (refusal?.code === "not_found")
        return html`<${NoShop} />`;
    if (!today)
        return refusal && html`
            <p class="trouble" role="alert">${refusal.message}</p>`;
    return html`
        <div class="today-page">
            <header class="row spread">
                <h1>${writeWeekday(today.day)}
                    <small class="quiet">${civilDate(today.day)}</small></h1>
                <div class="row screen-only">
                    <a href="/paper/pull.pdf" target="_blank">
                        ${t("Print the pull sheet")}</a>
                    <a href="/paper/handover.pdf" target="_blank">
                        ${t("Print the handover")}</a>
                    <a href="/paper/day.pdf" target="_blank">
                        ${t("Print the day")}</a>
                </div>
                <p class="paper-only quiet">${t("Printed {time}.",
        { time: writeMoment(now) })}</p>
            </header>
            ${today.next.length > 0
        ? html`<${Next} next=${today.next} now=${now}
            limits=${today.limits} units=${units} />`
        : html`<${NothingToDo} today=${today} />`}
            ${today.timers.length > 0 && html`
                <${TimerStrip} timers=${timersOf(today)} />`}
            <div class="day-and-side">
                <${Line} today=${today} batches=${book?.batches ?? []}
                    now=${now} />
                <div class="stack-wide">
                    <${Readings} readings=${today.readings} units=${units} />
                    ${today.stock.length > 0 && html`
                        <${Stock} stock=${today.stock}
                            counted_ms=${today.counted_ms} />`}
                </div>
            </div>
        </div>`;
}
