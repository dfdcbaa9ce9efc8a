/* Lets the pages open again without a network.
 *
 * /shell.js is written at build time: the list of files and one hash over all
 * of them. A new build changes it, so the browser installs this worker anew
 * with a cache of its own. While the server answers, files come from it (it
 * says 304 for what has not changed); when it does not, from the cache. Calls
 * and events are never touched: the outbox (lib/queue.js) keeps those. */

importScripts("/shell.js"); /* self.shell = { build, files } */

const CACHE = `doughwright-${self.shell.build}`;
const PATIENCE_MS = 2500;
const REST_MS = 30000;
let silentUntil = 0; /* after one time-out, do not wait for each file again */

self.addEventListener("install", (event) => {
    event.waitUntil(caches.open(CACHE)
        .then((cache) => cache.addAll(self.shell.files.map((file) =>
            new Request(file, { cache: "no-cache" }))))
        .then(() => self.skipWaiting()));
});

async function dropOthers() {
    const names = await caches.keys();
    await Promise.all(names
        .filter((name) => name.startsWith("doughwright-") && name !== CACHE)
        .map((name) => caches.delete(name)));
    await self.clients.claim();
}

self.addEventListener("activate", (event) => event.waitUntil(dropOthers()));

async function fromCache(request) {
    const cache = await caches.open(CACHE);
    return request.mode === "navigate"
        ? cache.match("/index.html") : cache.match(request);
}

function fromServer(request) {
    return new Promise((resolve, reject) => {
        setTimeout(reject, PATIENCE_MS);
        fetch(request).then(resolve, reject);
    });
}

async function answer(request) {
    if (Date.now() < silentUntil) {
        const kept = await fromCache(request);
        if (kept)
            return kept;
    }
    try {
        const reply = await fromServer(request);
        silentUntil = 0;
        return reply;
    } catch {
        silentUntil = Date.now() + REST_MS;
        return await fromCache(request) ?? Response.error();
    }
}

self.addEventListener("fetch", (event) => {
    const url = new URL(event.request.url);
    if (event.request.method === "GET" && url.origin === location.origin &&
        !url.pathname.startsWith("/api/"))
        event.respondWith(answer(event.request));
});
