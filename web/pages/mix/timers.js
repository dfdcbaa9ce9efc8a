/* Every timer that runs, of all batches: on every card, with sound. */

import { html, useEffect, useNow, useRef, useState } from "../../lib/view.js";
import { writeTimer } from "../../lib/clock.js";
import { isQuiet, ring, setQuiet } from "../../lib/alarm.js";
import { t } from "../../lib/say.js";
import { nameOf } from "./words.js";

const RING_AGAIN_MS = 20000;
const GIVE_UP_MS = 30 * 60000; /* then only the screen says it */

export const endOf = (started_ms, minutes) => started_ms + minutes * 60000;

/* Of the card in hand, from its own steps: these show a tap at once. */
function ownTimers(batch, walk) {
    return walk.filter((one) => one.running && one.step.minutes > 0)
        .map((one) => ({ key: one.key, batch_id: batch.id,
            number: batch.number, name: nameOf(one), stop: one.key,
            ends_ms: endOf(one.row.started_ms, one.step.minutes) }));
}

const DUE = { box: () => t("Boxes in"), close: () => t("Close the stack") };

/* Of all other batches, as the server knows them. */
function otherTimers(today, batch_id) {
    const steps = today.timers.map((one) => ({ key: `s${one.step_id}`,
        batch_id: one.batch_id, number: one.number, name: one.says,
        ends_ms: endOf(one.started_ms, one.minutes) }));
    const due = today.next.filter((one) => DUE[one.kind] && one.batch_id)
        .map((one) => ({ key: `${one.kind}${one.batch_id}`,
            batch_id: one.batch_id, number: one.number,
            name: DUE[one.kind](), ends_ms: one.due_ms }));
    return [...steps, ...due].filter((one) => one.batch_id !== batch_id);
}

/* today: of today.get, or null; card and walk: null away from a card. */
export function timersOf(today, card, walk) {
    const own = card ? ownTimers(card.batch, walk) : [];
    const other = today ? otherTimers(today, card?.batch.id) : [];
    return [...own, ...other].sort((a, b) => a.ends_ms - b.ends_ms);
}

/* Sounds when one runs out, and again until somebody has dealt with it. */
function useAlarm(timers, now) {
    const rung = useRef(new Map());
    useEffect(() => {
        const over = timers.filter(({ ends_ms }) =>
            now >= ends_ms && now - ends_ms < GIVE_UP_MS);
        const due = over.filter(({ key }) =>
            now - (rung.current.get(key) ?? 0) >= RING_AGAIN_MS);
        if (due.length && ring())
            due.forEach(({ key }) => rung.current.set(key, now));
    }, [timers, now]);
}

function Timer({ timer, now, onHere }) {
    const left = timer.ends_ms - now;
    const inside = html`
        <span class="timer-name">${t("{number}: {name}",
        { number: timer.number, name: timer.name })}</span>
        <b>${writeTimer(left)}</b>
        ${left <= 0 && html`<span class="only-heard">
            ${t("Time is up")}</span>`}`;
    return html`
        <li>${timer.stop
        ? html`<button type="button" class="timer" data-over=${left <= 0}
            onClick=${() => onHere(timer.stop)}>${inside}</button>`
        : html`<a class="timer" data-over=${left <= 0}
            href=${`/mix/${timer.batch_id}`}>${inside}</a>`}</li>`;
}

const BELL = "M6 17V11a6 6 0 0 1 12 0v6l2 2H4zM10 21h4M12 5V3";

export function Sound() {
    const [quiet, set] = useState(isQuiet());
    return html`
        <button type="button" class="plain sound" aria-pressed=${quiet}
            onClick=${() => { setQuiet(!quiet); set(!quiet); }}>
            <svg viewBox="0 0 24 24" width="28" height="28" aria-hidden="true">
                <path d=${BELL} />${quiet && html`<path d="M4 3 20 21" />`}
            </svg>
            <span>${quiet ? t("Sound off") : t("Sound on")}</span>
        </button>`;
}

/* shown: the stop whose own timer fills the screen; onHere(key) goes to a stop
 * of this card. */
export function TimerStrip({ timers, shown, onHere }) {
    const now = useNow();
    useAlarm(timers, now);
    const listed = timers.filter((timer) => timer.stop !== shown || !shown);
    return listed.length > 0 && html`
        <div class="timers" role="group" aria-label=${t("Running timers")}>
            <ul>${listed.map((timer) => html`
                <${Timer} key=${timer.key} timer=${timer} now=${now}
                    onHere=${onHere} />`)}
            </ul>
        </div>`;
}

/* The time of one step, large enough to read across the kitchen. */
export function BigTimer({ started_ms, minutes, minutes_to }) {
    const now = useNow();
    const left = endOf(started_ms, minutes) - now;
    const most = minutes_to ? endOf(started_ms, minutes_to) - now : null;
    return html`
        <div class="big-timer" data-over=${left <= 0}>
            <p role="timer" class="digits">${writeTimer(left)}</p>
            <p aria-live="assertive">${left > 0 ? ""
        : most === null || most <= 0 ? t("Time is up.")
            : t("Enough, up to {left} more.",
                { left: writeTimer(most) })}</p>
        </div>`;
}

/* Counts up: "since the mixer stopped". */
export function Since({ at_ms, warn_ms, late_ms }) {
    const now = useNow();
    const past = now - at_ms;
    return html`<b class="since" data-state=${late_ms && now > late_ms
        ? "late" : warn_ms && past > warn_ms ? "warn" : "good"}>
        ${writeTimer(Math.max(0, past))}</b>`;
}
