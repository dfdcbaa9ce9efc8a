/* The pages' only way to the server: one operation, one call.
 *
 * Reading and reckoning go straight (`call`). What a person does goes through
 * the outbox (`write`), which keeps it over a lost network and a reload. */

import { clock } from "./clock.js";
import { device, newKey, person } from "./person.js";
import { createQueue, openStore } from "./queue.js";
import { t } from "./say.js";

/* One failure as the server says it. `status` 0: the server was not reached. */
export class Refusal extends Error {
    constructor({ code, field, message, low, high }, status) {
        super(message);
        this.name = "Refusal";
        Object.assign(this, { code, field, low, high, status });
    }
}

async function readAnswer(answer, sent) {
    clock.hear(Number(answer.headers.get("Doughwright-Now") ?? NaN), sent);
    let body = null;
    try {
        body = await answer.json();
    } catch {
        body = null;
    }
    if (answer.ok && body)
        return body;
    if (answer.status === 401) /* the outbox keeps what was written */
        location.assign(`/login#${encodeURIComponent(location.pathname +
            location.search)}`);
    throw new Refusal(body?.error ?? {
        code: "not_understood",
        message: t("The shop's computer answered {status} and said nothing else.",
            { status: answer.status }),
    }, answer.ok ? 0 : answer.status); /* cut off half-way: not reached */
}

/* person_id: who did it; what waited was done by whoever was there then. */
async function post(op, body, { key, occurred_ms,
    person_id = person().person_id, signal } = {}) {
    const headers = {
        "Content-Type": "application/json",
        "Accept-Language": person().lang,
        "Doughwright-Device": device(),
    };
    if (person_id)
        headers["Doughwright-Person"] = String(person_id);
    if (key)
        headers["Idempotency-Key"] = key;
    if (occurred_ms)
        headers["Doughwright-Occurred"] = String(occurred_ms);
    const sent = performance.now();
    let answer;
    try {
        answer = await fetch(`/api/v1/${op}`,
            { method: "POST", headers, body, signal });
    } catch (error) {
        if (error.name === "AbortError")
            throw error;
        connection(false);
        throw new Refusal({ code: "unreachable",
            message: t("The shop's computer cannot be reached.") }, 0);
    }
    connection(true);
    return readAnswer(answer, sent);
}

/* Ask for something: reply, or a Refusal. */
export function call(op, request = {}, options = {}) {
    return post(op, JSON.stringify(request), options);
}

/* Only the newest question matters: an older one still on its way is dropped,
 * so the last keystroke wins. Resolves to null for a dropped one. */
export function latest(op) {
    let running = null;
    return async function ask(request) {
        running?.abort();
        const mine = new AbortController();
        running = mine;
        try {
            const reply = await call(op, request, { signal: mine.signal });
            return mine === running ? reply : null;
        } catch (error) {
            if (mine !== running || error.name === "AbortError")
                return null;
            throw error;
        }
    };
}

/* --- the outbox ---------------------------------------------------------- */

/* A network that swallows everything says nothing; then it is tried anew. */
const PATIENCE_MS = 15000;

export const outbox = createQueue({
    store: openStore(),
    newKey,
    who: () => person().person_id,
    now: () => Math.round(clock.now()), /* a wrong tablet moves no timer */
    send: (entry) => post(entry.op, entry.body,
        { ...entry, signal: AbortSignal.timeout(PATIENCE_MS) }),
    lock: globalThis.navigator?.locks
        ? (work) => navigator.locks.request("doughwright-outbox", work)
        : (work) => work(),
});

/* Do something: the reply, a Refusal, or { queued: true } when it waits for
 * the network. */
export function write(op, request = {}) {
    return outbox.add(op, JSON.stringify(request));
}

/* --- connection and what others changed ---------------------------------- */

const watchers = new Set();
let online = true;

function connection(is) {
    if (online === is)
        return;
    online = is;
    for (const watcher of watchers)
        watcher(online);
    if (online)
        outbox.deliver();
}

export function isOnline() {
    return online;
}

export function onConnection(watcher) {
    watchers.add(watcher);
    return () => watchers.delete(watcher);
}

const changeWatchers = new Set();

/* watcher(op) after each write of anyone; op "" after a reconnection, when
 * anything may have changed. */
export function onChanged(watcher) {
    changeWatchers.add(watcher);
    return () => changeWatchers.delete(watcher);
}

function tellChanged(op) {
    for (const watcher of changeWatchers)
        watcher(op);
}

/* Listen for the life of the page. */
export function listen() {
    const source = new EventSource("/api/v1/events");
    let lost = false;
    source.addEventListener("changed",
        (event) => tellChanged(JSON.parse(event.data).op));
    source.addEventListener("open", () => {
        connection(true);
        if (lost)
            tellChanged("");
        lost = false;
    });
    source.addEventListener("error", () => {
        lost = true;
        if (source.readyState !== EventSource.CLOSED)
            return;
        /* The browser gave up (the server answered something else): try
         * again by hand. */
        setTimeout(listen, 5000);
    });
    globalThis.addEventListener("offline", () => connection(false));
    globalThis.addEventListener("online", () => outbox.deliver());
    return source;
}
