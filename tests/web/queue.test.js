import assert from "node:assert/strict";
import { graded } from "./graded.js";
import { createQueue } from "../../web/lib/queue.js";

function memory() {
    const rows = new Map();
    let last = 0;
    return {
        rows,
        add: async (entry) => { rows.set(++last, { ...entry, id: last }); },
        put: async (entry) => { rows.set(entry.id, entry); },
        remove: async (id) => { rows.delete(id); },
        all: async () => [...rows.values()].sort((a, b) => a.id - b.id),
    };
}

/* A server that takes each key once, and a network that can fail. */
function world({ store = memory() } = {}) {
    const server = { taken: [], up: true, lost: 0, refuse: new Set() };
    const later = [];
    let keys = 0;
    async function send(entry) {
        if (!server.up)
            throw Object.assign(new Error("no network"), { status: 0 });
        if (server.refuse.has(entry.op))
            throw Object.assign(new Error("is too much"),
                { status: 422, field: "kg" });
        if (!server.taken.some((one) => one.key === entry.key))
            server.taken.push({ ...entry });
        if (server.lost-- > 0) /* taken, but the answer is lost */
            throw Object.assign(new Error("cut off"), { status: 0 });
        return { op: entry.op };
    }
    const queue = createQueue({ store, send, now: () => 1234,
        newKey: () => `key-${store.rows.size}-${++keys}`,
        again: (run) => later.push(run) });
    const whatWaits = async () => (await store.all()).map((e) => e.op);
    return { server, store, queue, later, whatWaits };
}

graded("what is done with a network is answered and leaves nothing behind",
    "limit", "exactly once", async () => {
        const { queue, server, whatWaits } = world();
        assert.deepEqual(await queue.add("count.save", "{}"),
            { op: "count.save" });
        assert.equal(server.taken.length, 1);
        assert.deepEqual(await whatWaits(), []);
    });

graded("what is done without a network waits and arrives in order", "limit",
    "exactly once, in order", async () => {
        const { queue, server, whatWaits } = world();
        server.up = false;
        for (const op of ["a", "b", "c"])
            assert.deepEqual(await queue.add(op, "{}"), { queued: true });
        assert.deepEqual(await whatWaits(), ["a", "b", "c"]);
        server.up = true;
        await queue.deliver();
        assert.deepEqual(server.taken.map((e) => e.op), ["a", "b", "c"]);
        assert.deepEqual(await whatWaits(), []);
    });

graded("an answer lost on the way does not make an entry arrive twice",
    "limit", "exactly once", async () => {
        const { queue, server, whatWaits } = world();
        server.lost = 2;
        await queue.add("a", "{}");
        await queue.deliver();
        await queue.deliver();
        assert.equal(server.taken.length, 1);
        assert.deepEqual(await whatWaits(), []);
    });

graded("the tablet's own time of the tap is kept", "limit",
    "entered later, happened then", async () => {
        const { queue, server } = world();
        server.up = false;
        await queue.add("a", "{}");
        server.up = true;
        await queue.deliver();
        assert.equal(server.taken[0].occurred_ms, 1234);
    });

graded("a page that closes keeps what waits; the next one delivers it",
    "limit", "nothing is dropped", async () => {
        const first = world();
        first.server.up = false;
        await first.queue.add("a", "{\"kg\":1}");
        const second = world({ store: first.store });
        await second.queue.deliver();
        assert.equal(second.server.taken[0].body, "{\"kg\":1}");
    });

graded("a refusal while the person looks is theirs at once", "limit",
    "one clear error, nothing changed", async () => {
        const { queue, server, whatWaits } = world();
        server.refuse.add("a");
        await assert.rejects(queue.add("a", "{}"), { field: "kg" });
        assert.deepEqual(await whatWaits(), []);
    });

graded("a later refusal is kept, shown, and holds up nobody else", "limit",
    "never dropped", async () => {
        const { queue, server, store } = world();
        let shown = null;
        server.up = false;
        await queue.add("a", "{}");
        await queue.add("b", "{}");
        server.up = true;
        server.refuse.add("a");
        queue.watch((entries) => { shown = entries; });
        await queue.deliver();
        assert.deepEqual(server.taken.map((e) => e.op), ["b"]);
        assert.equal(shown.refused.length, 1);
        assert.equal(shown.refused[0].refusal.message, "is too much");
        server.refuse.clear();
        await queue.retry(shown.refused[0].id);
        assert.deepEqual(server.taken.map((e) => e.op), ["b", "a"]);
        assert.equal(store.rows.size, 0);
    });

graded("a refused entry goes only when the person lets it go", "limit",
    "never dropped", async () => {
        const { queue, server, store } = world();
        server.up = false;
        await queue.add("a", "{}");
        server.up = true;
        server.refuse.add("a");
        await queue.deliver();
        await queue.deliver();
        assert.equal(store.rows.size, 1);
        await queue.discard([...store.rows.keys()][0]);
        assert.equal(store.rows.size, 0);
    });

graded("entries added while others are on their way all arrive once", "limit",
    "exactly once, in order", async () => {
        const { queue, server } = world();
        const names = Array.from({ length: 40 }, (_, i) => `op-${i}`);
        const replies = await Promise.all(names.map((op) =>
            queue.add(op, "{}")));
        assert.deepEqual(replies.map((reply) => reply.op), names);
        assert.deepEqual(server.taken.map((e) => e.op), names);
    });

graded("a network that stays away is tried again by itself", "limit",
    "nothing is dropped", async () => {
        const { queue, server, later } = world();
        server.up = false;
        await queue.add("a", "{}");
        await queue.deliver();
        assert.ok(later.length >= 1);
        server.up = true;
        await later.at(-1)();
        assert.equal(server.taken.length, 1);
    });
