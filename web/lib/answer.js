/* What the server last answered to a question, asked again whenever anyone
 * writes something. The answer is kept on the tablet, so a page that opens
 * without a network shows what was known; what people did since lies over it
 * (the entries of the outbox, see useEntries). */

import { latest, onChanged, outbox } from "./api.js";
import { useEffect, useState } from "./view.js";

const KEPT = "doughwright.answer.";

function recall(key) {
    try {
        return JSON.parse(localStorage.getItem(KEPT + key));
    } catch {
        return null;
    }
}

function forgetAll() {
    Object.keys(localStorage).filter((name) => name.startsWith(KEPT))
        .forEach((name) => localStorage.removeItem(name));
}

/* A tablet has room for some hundred cards; when it is full the old go. */
function keep(key, reply) {
    for (let attempt = 0; attempt < 2; attempt++) {
        try {
            return localStorage.setItem(KEPT + key, JSON.stringify(reply));
        } catch {
            forgetAll();
        }
    }
    return undefined;
}

/* Calls after something of this tablet was taken, when useEntries knows. */
function whenTaken(again) {
    let waited = 0;
    return outbox.watch(({ waiting }) => {
        if (waiting.length < waited)
            setTimeout(again);
        waited = waiting.length;
    });
}

const both = (one, other) => () => { one(); other(); };

/* { reply, refusal, asked_at }: reply null until it is known; asked_at is when
 * (performance.now()) the question of this reply left, -1 for a kept one.
 * request null: nothing is asked. */
export function useAnswer(op, request) {
    const key = request && `${op} ${JSON.stringify(request)}`;
    const [state, set] = useState({ key: null });
    useEffect(() => {
        if (!key)
            return undefined;
        set({ key, reply: recall(key), refusal: null, asked_at: -1 });
        const ask = latest(op);
        async function again() {
            const asked_at = performance.now();
            try {
                const reply = await ask(JSON.parse(key.slice(op.length + 1)));
                if (!reply)
                    return; /* a newer question is on its way */
                keep(key, reply);
                set({ key, reply, refusal: null, asked_at });
            } catch (refusal) {
                set((was) => ({ ...was, refusal }));
            }
        }
        again();
        return both(onChanged(again), whenTaken(again));
    }, [key]);
    return state.key === key && key ? state
        : { reply: null, refusal: null, asked_at: -1 };
}

/* What was written on this tablet: what waits, and for a minute what was just
 * taken, with `taken_at` (performance.now()), so that nothing flickers back
 * before the next answer shows it. */
export function useEntries() {
    const [entries, set] = useState([]);
    useEffect(() => outbox.watch(({ waiting, refused }) => set((was) => {
        const now = performance.now();
        const gone = was.filter((one) =>
            ![...waiting, ...refused].some((other) => other.key === one.key));
        return [...gone.map((one) => ({ taken_at: now, ...one }))
            .filter((one) => now - one.taken_at < 60000), ...waiting];
    })), []);
    return entries;
}

/* Those of the entries that an answer asked for at `asked_at` may not show. */
export function notIn(asked_at, entries) {
    return entries.filter((one) =>
        one.taken_at === undefined || one.taken_at > asked_at);
}
