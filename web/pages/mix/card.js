/* The mix card: one stop of a batch fills the screen. Nothing is ever locked:
 * any stop can be gone to, left out, done again and taken back. */

import { html, useEffect, usePerson, useRef, useState }
    from "../../lib/view.js";
import { notIn, useAnswer, useEntries } from "../../lib/answer.js";
import { write } from "../../lib/api.js";
import { t } from "../../lib/say.js";
import { toast } from "../../parts/toast.js";
import { ChillScreen, DivideScreen } from "./boxing.js";
import { CloseScreen } from "./close.js";
import { AddScreen, AskScreen, PlainScreen, TimedScreen } from "./doing.js";
import { SomethingOff } from "./off.js";
import { NextPlace } from "./next.js";
import { withEntries } from "./pending.js";
import { Rail } from "./rail.js";
import { before, gaveBack, ProbeScreen, ReadScreen } from "./readings.js";
import { Since, Sound, TimerStrip, timersOf } from "./timers.js";
import { currentOf, newestTap, walkOf } from "./walk.js";
import { WeighScreen } from "./weigh.js";
import { Whole } from "./whole.js";
import { nameOf } from "./words.js";

/* --- state --------------------------------------------------------------- */

/* The card with every tap of this tablet on it. */
function useCard(id) {
    const entries = useEntries();
    const { reply, refusal, asked_at } = useAnswer("batch.get", { id });
    return { refusal, asked_at,
        card: reply && withEntries(reply, notIn(asked_at, entries)) };
}

async function tap(op, request) {
    try {
        return await write(op, request);
    } catch (refusal) {
        toast(refusal.message);
        return null;
    }
}

/* The answer to a reading waits until the card is read anew. */
function useGaveBack(card, asked_at, units) {
    const [asked, setAsked] = useState(null);
    async function onRead(kind, celsius) {
        const was = before(card, kind);
        setAsked(null);
        const reply = await tap("reading.save",
            { batch_id: card.batch.id, kind, celsius });
        if (reply && !reply.queued)
            setAsked({ ...was, at: performance.now(), doubt: reply.message });
    }
    const sentence = asked && asked_at > asked.at
        ? gaveBack(asked, card, units) : null;
    return { onRead, sentence, doubt: asked?.doubt ?? null,
        forget: () => setAsked(null) };
}

/* --- what is always in sight --------------------------------------------- */

function Head({ card, whole, onWhole }) {
    const { batch, clock } = card;
    const stopped = batch.stopped_ms > 0 && batch.last_box_ms === 0;
    return html`
        <div class="card-head">
            <div class="card-title">
                <h1>${t("Batch {number}", { number: batch.number })}</h1>
                <p>${card.formula_name}</p>
            </div>
            <${Sound} />
            <button type="button" onClick=${onWhole}>
                ${whole ? t("One step") : t("Whole batch")}</button>
            ${stopped && html`
                <p class="stopped">${t("Since the mixer stopped")}
                    ${" "}<${Since} at_ms=${batch.stopped_ms}
                        warn_ms=${20 * 60000} late_ms=${clock.box_by_ms &&
        Math.max(clock.box_by_ms, batch.stopped_ms + 30 * 60000)} /></p>`}
        </div>`;
}

/* What is next, and under it what can always be done. */
function Foot({ walk, stop, current, onUndo, onGo, onSkip, onOff, whole }) {
    const last = newestTap(walk);
    return html`
        <div class="card-bar">
            <${NextPlace} />
            <div class="card-foot" role="group" aria-label=${t("This card")}>
                ${!whole && stop !== current && html`
                    <button type="button" class="word"
                        onClick=${() => onGo(null)}>${t("Back to the batch")}
                    </button>`}
                <button type="button" disabled=${!last}
                    onClick=${() => onUndo(last)}>
                    <span>${last
        ? t("Undo: {what}", { what: nameOf(last) }) : t("Undo")}</span>
                </button>
                <button type="button" aria-haspopup="dialog" onClick=${onOff}>
                    ${t("Something is off")}</button>
                ${!whole && stop.step && !stop.done && !stop.skipped && html`
                    <button type="button" onClick=${() => onSkip(stop)}>
                        ${t("Skip this")}</button>`}
            </div>
        </div>`;
}

/* --- the stop in hand ---------------------------------------------------- */

const SCREENS = {
    read: ReadScreen, weigh: WeighScreen, add: AddScreen, mix: TimedScreen,
    rest: TimedScreen, wet_yeast: TimedScreen, ask: AskScreen,
    probe: ProbeScreen, divide: DivideScreen, close: CloseScreen,
};

/* Whose sentence says more than the name of the stop. */
const TELLS = new Set(["add_fat_running", "add_yeast_dry", "add_yeast_fresh",
    "add_yeast_wetted", "add_minors_bag", "add_stage", "wet_yeast", "ask",
    "oil_bowl", "chill_open", "temper"]);

/* Where balls are counted into boxes: on the way into the cold room or, in a
 * procedure that has no such step, at the boxes. */
function boxingOf(walk) {
    return walk.find((one) => one.kind === "chill_open") ??
        walk.findLast((one) => one.kind === "box");
}

function Stop({ stop, walk, gave, ...props }) {
    const heading = useRef(null);
    const first = useRef(true);
    useEffect(() => {
        if (!first.current)
            heading.current.focus({ preventScroll: true });
        first.current = false;
    }, [stop.key]);
    const Screen = stop === boxingOf(walk) ? ChillScreen
        : SCREENS[stop.kind] ?? PlainScreen;
    return html`
        <section class="stop" aria-labelledby="stop-name">
            <h2 id="stop-name" tabindex="-1" ref=${heading}>
                ${nameOf(stop)}</h2>
            ${stop.saying && TELLS.has(stop.step.code) && html`
                <p>${stop.saying.step}</p>`}
            ${stop.step?.text && html`<p>${stop.step.text}</p>`}
            ${stop.saying?.caution && html`
                <p class="caution">${stop.saying.caution}</p>`}
            <${Screen} key=${stop.key} stop=${stop} ...${props} />
            <div role="status">
                ${gave.doubt && html`<p class="slip">${gave.doubt}</p>`}
                ${gave.sentence && html`
                    <p class="gave">${gave.sentence}</p>`}
            </div>
        </section>`;
}

function useWake() {
    useEffect(() => {
        let lock = null;
        const hold = () => document.visibilityState === "visible" &&
            navigator.wakeLock?.request("screen").then(
                (got) => { lock = got; }, () => undefined);
        hold();
        document.addEventListener("visibilitychange", hold);
        return () => {
            document.removeEventListener("visibilitychange", hold);
            lock?.release();
        };
    }, []);
}

function Walk({ card, asked_at, units, today }) {
    const [chosen, setChosen] = useState(null);
    const [off, setOff] = useState(false);
    const [whole, setWhole] = useState(false);
    const gave = useGaveBack(card, asked_at, units);
    useWake();
    const walk = walkOf(card);
    const current = currentOf(walk);
    const stop = walk.find((one) => one.key === chosen) ?? current;

    function go(key) {
        gave.forget();
        setWhole(false);
        setChosen(key);
    }
    function mark(one, how, answer = null) {
        go(null);
        tap("step.mark", { step_id: one.row.id, mark: how, answer });
        /* the yeast is in, so its wetting is over */
        const wetting = walk.find(({ kind, running }) =>
            kind === "wet_yeast" && running);
        if (wetting && one.step.code === "add_yeast_wetted" && how === "done")
            tap("step.mark", { step_id: wetting.row.id, mark: how });
    }
    function undo(one) {
        if (one.kind === "weigh")
            tap("weighing.mark", { weighing_id: one.row.weighing.id,
                weighed_kg: null, lot_id: one.row.weighing.lot_id });
        else
            mark(one, "undo");
        go(null);
    }

    return html`
        <div class="mix-card">
            <${Head} card=${card} whole=${whole}
                onWhole=${() => setWhole(!whole)} />
            <${TimerStrip} timers=${timersOf(today, card, walk)}
                shown=${stop.key} onHere=${go} />
            ${card.batch.state === "abandoned" && html`
                <p class="slip" data-level="wrong">${t("This batch was given " +
        "up. It goes into no stock.")}</p>`}
            ${whole
        ? html`<${Whole} card=${card} walk=${walk} units=${units}
            onGo=${go} onTap=${tap} />`
        : html`<div class="card-body">
            <${Rail} walk=${walk} shown=${stop} current=${current}
                onGo=${go} />
            <${Stop} card=${card} stop=${stop} walk=${walk} units=${units} gave=${gave}
                onTap=${tap} onMark=${mark} onRead=${gave.onRead}
                onStay=${setChosen} />
        </div>`}
            <${Foot} walk=${walk} stop=${stop} current=${current}
                whole=${whole} onUndo=${undo} onGo=${go}
                onSkip=${(one) => mark(one, "skip")}
                onOff=${() => setOff(true)} />
            ${off && html`
                <${SomethingOff} card=${card} units=${units} onTap=${tap}
                    onClose=${() => setOff(false)} />`}
        </div>`;
}

export function Card({ id }) {
    const { units } = usePerson();
    const { card, refusal, asked_at } = useCard(id);
    const { reply: today } = useAnswer("today.get", {});
    if (!card)
        return refusal && html`
            <p class="trouble" role="alert">${refusal.message}</p>`;
    return html`<${Walk} card=${card} asked_at=${asked_at} units=${units}
        today=${today} />`;
}
