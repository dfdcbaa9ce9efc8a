/* Cold room: every stack as a strip of its life on one time axis, what to use
 * first on top; moves in one tap; what dies tonight on paper. */

import { html, useEffect, useLoaded, useState, usePerson }
    from "../lib/view.js";
import { call, onChanged, write } from "../lib/api.js";
import { clock } from "../lib/clock.js";
import { writeClock, writeMoment } from "../lib/dates.js";
import { go } from "../lib/route.js";
import { t, tn } from "../lib/say.js";
import { Choice } from "../parts/choice.js";
import { Empty } from "../parts/empty.js";
import { toast } from "../parts/toast.js";
import { Mark } from "../life/strip.js";
import { READINESS, readinessWord } from "../life/words.js";
import { Ask, Sheet, useAsking } from "./cold/asking.js";
import { keyOf } from "./cold/fates.js";
import { Happens } from "./cold/happens.js";
import { Head, Row, axisOver, useAxisWidth } from "./cold/row.js";
import { tonightOf } from "./cold/tonight.js";

const BAND = 63;
const MINUTE_MS = 60000;
/* What others do that changes the strips. */
const TOUCHES = /^(|(stack|count|batch|reading|product|shop|cold_room|verdict|cup|learn)\..*)$/;

/* A moment with the band it had before, until its own comes. */
const bandKept = (now, before) => ({ ...now, early_ms: before.early_ms,
    late_ms: before.late_ms });

/* The stacks of an answer without bands, with those of the answer before it. */
function bandsKept(room, before) {
    const lives = new Map(before?.stacks.map((one) => [keyOf(one), one.life]));
    return { ...room, stacks: room.stacks.map((one) => {
        const old = lives.get(keyOf(one));
        return !one.life || !old ? one : { ...one, life: { ...one.life,
            ...Object.fromEntries(["ready", "best", "use_first", "end"].map(
                (name) => [name, bandKept(one.life[name], old[name])])) } };
    }) };
}

/* The stacks at once, their bands a moment later; anew after each change and
 * every five minutes, for the room's clock goes on without taps. */
function useStacks() {
    const [room, set] = useState(null);
    const [refusal, setRefusal] = useState(null);
    useEffect(() => {
        let newest = 0;
        async function ask() {
            const mine = ++newest;
            try {
                for (const members of [0, BAND]) {
                    const got = await call("cold.stacks", { members });
                    if (mine !== newest)
                        return;
                    set((before) => members ? got : bandsKept(got, before));
                }
                setRefusal(null);
            } catch (problem) {
                setRefusal(problem);
            }
        }
        ask();
        const timer = setInterval(ask, 5 * MINUTE_MS);
        const stop = onChanged((op) => TOUCHES.test(op) && ask());
        return () => {
            newest = -1;
            clearInterval(timer);
            stop();
        };
    }, []);
    return { room, refusal };
}

function useMinute() {
    const [now, set] = useState(clock.now());
    useEffect(() => {
        const timer = setInterval(() => set(clock.now()), MINUTE_MS);
        return () => clearInterval(timer);
    }, []);
    return now;
}

/* --- moves --------------------------------------------------------------- */

const verbs = () => [["pull", t("Pull")], ["use", t("Use")],
    ["send", t("Send")], ["throw_away", t("Throw away")],
    ["put_back", t("Put back")]];

const deedOf = (kind, values) => ({
    pull: () => t("{balls} pulled from {name}.", values),
    use: () => t("{balls} used of {name}.", values),
    send: () => t("{balls} of {name} sent.", values),
    throw_away: () => t("{balls} of {name} thrown away.", values),
    put_back: () => t("{balls} put back to {name}.", values),
})[kind]();

const ballsText = (n) => tn("{n} ball", "{n} balls", n);

/* One tap: it is done and said, and one more tap takes it back. */
async function move(stack, kind, all) {
    const most = kind === "put_back" || !all
        ? stack.balls_per_box : stack.balls_left;
    const balls = kind === "put_back" ? most
        : Math.min(most, stack.balls_left);
    const send = (how) => write("stack.move",
        { stack_id: stack.stack_id, kind: how, balls });
    try {
        await send(kind);
        const values = { balls: ballsText(balls), name: stack.name };
        toast(deedOf(kind, values), kind === "put_back" ? undefined
            : { button: t("Undo"), onPress: () => send("put_back") });
    } catch (problem) {
        toast(problem.message);
    }
}

function Verb({ verb, all, onVerb, onAll }) {
    return html`
        <div class="row screen-only verbs">
            <${Choice} shown legend=${t("A tap on a stack")} value=${verb}
                options=${verbs()} onChoose=${onVerb} />
            <${Choice} shown legend=${t("how much")} value=${all}
                options=${[[false, t("a box")], [true, t("all of it")]]}
                onChoose=${onAll} />
        </div>`;
}

/* --- the page ------------------------------------------------------------ */

function Key() {
    return html`
        <ul class="row key" aria-label=${t("What the shapes mean")}>
            ${READINESS.map((name) => html`<li key=${name}>
                <${Mark} name=${name} />${" "}${readinessWord(name)}</li>`)}
        </ul>`;
}

function Summary({ room, dying }) {
    const balls = room.stacks.reduce((sum, one) =>
        one.readiness === "past" ? sum : sum + one.balls_left, 0);
    const tonight = dying.reduce((sum, one) => sum + one.balls_left, 0);
    const there = t("{balls} in {stacks}.", { balls: ballsText(balls),
        stacks: tn("{n} stack", "{n} stacks", room.stacks.length) });
    return html`
        <p class="comes-to">${there}${" "}${dying.length
        ? t("{balls} die before {time}.", { balls: ballsText(tonight),
            time: writeClock(room.day_ends_ms) })
        : t("Nothing dies before {time}.",
            { time: writeClock(room.day_ends_ms) })}</p>`;
}

function Strips({ room, fates, banded, now, units, verb, all }) {
    const [width, frame] = useAxisWidth();
    const axis = axisOver(now, width);
    const words = Object.fromEntries(verbs())[verb];
    const past = room.stacks.findIndex((one) => one.readiness === "past");
    return html`
        <div class="strips" style=${`--strip: ${width}px`}>
            <div class="measure" ref=${frame} aria-hidden="true"></div>
            <${Head} axis=${axis} now=${now} />
            <ol>${room.stacks.map((stack, i) => html`
                <${Row} key=${keyOf(stack)} stack=${stack} axis=${axis}
                    fate=${fates?.get(keyOf(stack)) ?? null} now=${now}
                    banded=${banded} first=${i === past} units=${units}
                    limits=${room.limits} verb=${verb} words=${words}
                    all=${all}
                    onMove=${() => move(stack, verb, all)} />`)}
            </ol>
        </div>`;
}

/* --- the page ------------------------------------------------------------ */

const loadHurry = () => import("./cold/hurry.js").then((it) => it.Hurry);

function Room({ room }) {
    const { units } = usePerson();
    const now = useMinute();
    const [verb, setVerb] = useState("pull");
    const [all, setAll] = useState(false);
    const asked = useAsking(room.stacks);
    const Hurry = useLoaded(asked.asking === "hurry" ? loadHurry : null);
    const dying = tonightOf(room);
    return html`
        <div class="stack">
            <div class="row spread">
                <h1>${t("Cold room")}</h1>
                ${!asked.what && html`
                    <button type="button" class="word screen-only"
                        onClick=${() => print()}>
                        ${t("Print what dies tonight")}</button>`}
            </div>
            <${Summary} room=${room} dying=${dying} />
            <${Sheet} room=${room} asked=${asked} dying=${dying} />
            <${Ask} what=${asked.asking} onAsk=${asked.ask} />
            <div class="screen-only stack">
                ${asked.what && html`
                    <${Happens} ...${asked} felt=${asked.asking === "warm"}
                        stacks=${room.stacks} now=${now} units=${units}
                        onKind=${asked.begin} onChange=${asked.change}
                        onClose=${() => asked.ask(asked.asking)} />`}
                ${Hurry && html`<${Hurry} units=${units} />`}
                ${!asked.what && html`
                    <${Verb} verb=${verb} all=${all} onVerb=${setVerb}
                        onAll=${setAll} />`}
                <${Strips} room=${room} now=${now} units=${units} verb=${verb}
                    all=${all} fates=${asked.fates} banded=${asked.banded} />
                <${Key} />
                <p class="quiet">${t("The line over a strip marks the " +
        "shop's days, a rule of thumb; a thin strip has nothing else, for no " +
        "dough temperature was read. The line under a strip: nine lives in " +
        "ten end there. Quality only: your food code decides what may be " +
        "sold.")}</p>
            </div>
            <p class="paper-only quiet">${t("Printed {time}.",
        { time: writeMoment(now) })}</p>
        </div>`;
}

export function Page() {
    const { room, refusal } = useStacks();
    if (refusal && !room)
        return html`<h1>${t("Cold room")}</h1>
            <p class="trouble" role="alert">${refusal.code === "not_found"
        ? t("Set up the shop first; then its cold room stands here.")
        : refusal.message}</p>`;
    if (!room)
        return null;
    return room.stacks.length ? html`<${Room} room=${room} />`
        : html`<${Empty} title=${t("The cold room is empty")}
            text=${t("Every stack lies here as a strip of its life: what is " +
        "ready when, what to use first. Box a batch on its mix card, or " +
        "count what is there.")}
            button=${t("Count what is there")}
            onPress=${() => go("/count")} />`;
}
