/* The shop's time on this tablet.
 *
 * Every answer of the server carries its clock; between answers time runs on
 * performance.now(), so setting the tablet's clock moves no timer. A tablet
 * that slept shows as its own clock having run ahead of performance.now():
 * time passed, so ours does too, until the server confirms it. The last known
 * difference between both clocks is kept, so a page that reloads without a
 * network still knows the shop's time. */

const KEPT = "doughwright.clock_offset_ms";
const DRIFT_MS = 2000;

export function createClock({
    wall = () => Date.now(),
    steady = () => performance.now(),
    kept = globalThis.localStorage,
} = {}) {
    const offset = Number(kept?.getItem(KEPT)) || 0;
    let anchor = { server: wall() + offset, steady: steady(), wall: wall() };
    let sure = false;

    function now() {
        const ran = steady() - anchor.steady;
        const wallRan = wall() - anchor.wall;
        if (wallRan - ran > DRIFT_MS) {
            sure = false;
            anchor = { server: anchor.server + wallRan, steady: steady(),
                wall: wall() };
            return anchor.server;
        }
        return anchor.server + ran;
    }

    /* An answer that left at `sent` (steady) and came now; the server read its
     * clock about half way. */
    function hear(serverMs, sent) {
        if (!Number.isFinite(serverMs))
            return;
        const half = Math.max(0, (steady() - sent) / 2);
        anchor = { server: serverMs + half, steady: steady(), wall: wall() };
        sure = true;
        kept?.setItem(KEPT, String(Math.round(anchor.server - anchor.wall)));
    }

    return { now, hear, sure: () => sure };
}

export const clock = createClock();

/* Calls `tick` at once and after each whole second; returns its stop. */
export function everySecond(tick) {
    let timer = 0;
    function run() {
        tick(clock.now());
        timer = setTimeout(run, 1000 - (clock.now() % 1000) + 5);
    }
    run();
    return () => clearTimeout(timer);
}

/* 4:05, 1:12:30; what is overdue begins with a minus sign. */
export function writeTimer(ms) {
    const s = Math.floor(Math.abs(ms) / 1000);
    const two = (n) => String(n).padStart(2, "0");
    const h = Math.floor(s / 3600);
    const rest = `${two(Math.floor(s / 60) % 60)}:${two(s % 60)}`;
    const text = h ? `${h}:${rest}` : rest.replace(/^0/, "");
    return ms <= -1000 ? `\u2212${text}` : text;
}
