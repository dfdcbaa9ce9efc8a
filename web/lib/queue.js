/* The outbox: what people did, on its way to the server.
 *
 * Every entry is written to the browser's database before it is sent, with the
 * key that lets the server take it once however often it arrives, and with the
 * tablet's own time of the tap. Entries go out in the order they were made.
 * One that the server refuses later, when nobody waits for its answer, is kept
 * and shown until the person says what to do with it; it is never dropped and
 * it holds up nobody else. */

/* Answers after which the same entry may yet be taken: not reached, busy,
 * timed out, asked to sign in, too many at once, the server's own failure. */
function mayPassLater(status) {
    return status === 0 || status === 401 || status === 408 ||
        status === 425 || status === 429 || status >= 500;
}

/* store: { add, all, put, remove } over entries with an ascending `id`;
 * send(entry) gives the reply or throws an Error with `status`. */
export function createQueue({ store, send, now, newKey, who = () => 0,
    lock = (w) => w(),
    again = (run) => setTimeout(run, 4000) }) {
    const waiting = new Map(); /* key -> { resolve, reject } of this page */
    const watchers = new Set();
    let busy = null;    /* the delivery under way */
    let wanted = false; /* asked for since it began */
    let timer = null;

    async function tell() {
        const entries = await store.all();
        const count = {
            waiting: entries.filter((e) => e.state === "waiting"),
            refused: entries.filter((e) => e.state === "refused"),
        };
        for (const watcher of watchers)
            watcher(count);
    }

    function answer(key, how, what) {
        waiting.get(key)?.[how](what);
        waiting.delete(key);
    }

    /* True when the next entry may go. */
    async function deliverOne(entry) {
        try {
            const reply = await send(entry);
            await store.remove(entry.id);
            answer(entry.key, "resolve", reply);
            return true;
        } catch (error) {
            if (mayPassLater(error.status ?? 0)) {
                await store.put({ ...entry, tried: entry.tried + 1 });
                answer(entry.key, "resolve", { queued: true });
                return false;
            }
            await refuse(entry, error);
            return true;
        }
    }

    async function refuse(entry, error) {
        if (waiting.has(entry.key) && entry.tried === 0) {
            await store.remove(entry.id);
            return answer(entry.key, "reject", error);
        }
        await store.put({ ...entry, state: "refused",
            refusal: { message: error.message, field: error.field ?? null } });
        answer(entry.key, "reject", error);
    }

    async function deliverAll() {
        for (;;) {
            const next = (await store.all())
                .find((entry) => entry.state === "waiting");
            if (!next)
                return;
            if (!await deliverOne(next))
                break;
            await tell();
        }
        for (const key of [...waiting.keys()])
            answer(key, "resolve", { queued: true });
        clearTimeout(timer);
        timer = again(deliver);
    }

    async function deliverWhileWanted() {
        try {
            while (wanted) {
                wanted = false;
                await lock(deliverAll);
            }
        } finally {
            busy = null;
            await tell();
        }
    }

    /* Send what waits; one at a time over all pages of this tablet. */
    function deliver() {
        wanted = true;
        busy ??= deliverWhileWanted();
        return busy;
    }

    async function add(op, body) {
        const entry = { op, body, key: newKey(), occurred_ms: now(),
            person_id: who(), state: "waiting", tried: 0 };
        const outcome = new Promise((resolve, reject) =>
            waiting.set(entry.key, { resolve, reject }));
        await store.add(entry);
        await tell();
        deliver();
        return outcome;
    }

    /* The person looked at a refused entry and wants it sent once more. A new
     * key: under the old one the server would repeat its refusal. */
    async function retry(id) {
        const entry = (await store.all()).find((e) => e.id === id);
        if (!entry)
            return;
        await store.put({ ...entry, state: "waiting", refusal: null,
            key: newKey() });
        await deliver();
    }

    /* The person looked at a refused entry and lets it go. */
    async function discard(id) {
        await store.remove(id);
        await tell();
    }

    function watch(watcher) {
        watchers.add(watcher);
        tell();
        return () => watchers.delete(watcher);
    }

    return { add, deliver, retry, discard, watch };
}

/* --- the browser's database ---------------------------------------------- */

function asPromise(request) {
    return new Promise((resolve, reject) => {
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error);
    });
}

export function openStore(name = "doughwright") {
    let opened = null;

    function open() {
        const request = indexedDB.open(name, 1);
        request.onupgradeneeded = () => request.result.createObjectStore(
            "outbox", { keyPath: "id", autoIncrement: true });
        return asPromise(request);
    }

    async function change(mode, work) {
        opened ??= open();
        const transaction = (await opened).transaction("outbox", mode);
        const done = new Promise((resolve, reject) => {
            transaction.oncomplete = resolve;
            transaction.onabort = () => reject(transaction.error);
        });
        const result = await asPromise(
            work(transaction.objectStore("outbox")));
        await done;
        return result;
    }

    return {
        add: (entry) => change("readwrite", (table) => table.add(entry)),
        put: (entry) => change("readwrite", (table) => table.put(entry)),
        remove: (id) => change("readwrite", (table) => table.delete(id)),
        all: () => change("readonly", (table) => table.getAll()),
    };
}
