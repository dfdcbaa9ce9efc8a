import assert from "node:assert/strict";
import { graded } from "./graded.js";
import { createClock, writeTimer } from "../../web/lib/clock.js";

const MINUTE = 60000;

/* A tablet whose wall clock and steady clock the test sets. */
function tablet(kept = new Map()) {
    const time = { wall: 1000000, steady: 0 };
    const clock = createClock({
        wall: () => time.wall,
        steady: () => time.steady,
        kept: { getItem: (k) => kept.get(k), setItem: (k, v) => kept.set(k, v) },
    });
    const pass = (ms) => { time.wall += ms; time.steady += ms; };
    return { time, clock, pass, kept };
}

graded("time runs from the server's clock", "derived",
    "half of a 200 ms journey", () => {
        const { clock, pass } = tablet();
        pass(200);
        clock.hear(5000000, 0);
        assert.equal(clock.now(), 5000100);
        pass(MINUTE);
        assert.equal(clock.now(), 5060100);
    });

graded("setting the tablet's clock back moves no timer", "limit",
    "a timer hangs on the server's clock alone", () => {
        const { clock, time, pass } = tablet();
        clock.hear(5000000, 0);
        pass(MINUTE);
        time.wall -= 60 * MINUTE;
        assert.equal(clock.now(), 5000000 + MINUTE);
        pass(MINUTE);
        assert.equal(clock.now(), 5000000 + 2 * MINUTE);
    });

graded("a tablet that slept wakes up later, and unsure", "derived",
    "ten minutes asleep are ten minutes", () => {
        const { clock, time } = tablet();
        clock.hear(5000000, 0);
        assert.equal(clock.sure(), true);
        time.wall += 10 * MINUTE; /* the steady clock stood still */
        assert.equal(clock.now(), 5000000 + 10 * MINUTE);
        assert.equal(clock.sure(), false);
        clock.hear(5000000 + 10 * MINUTE, time.steady);
        assert.equal(clock.sure(), true);
    });

graded("a page that reloads without a network knows the shop's time", "limit",
    "the difference of both clocks is kept", () => {
        const first = tablet();
        first.clock.hear(5000000, 0);
        const second = tablet(first.kept);
        assert.equal(second.clock.now(), 5000000);
        assert.equal(second.clock.sure(), false);
    });

graded("an answer without a clock changes nothing", "limit",
    "not a number is not a time", () => {
        const { clock } = tablet();
        const before = clock.now();
        clock.hear(NaN, 0);
        assert.equal(clock.now(), before);
    });

graded("timers read as minutes and seconds, hours when there are any",
    "derived", "by hand", () => {
        assert.equal(writeTimer(4 * MINUTE + 5000), "4:05");
        assert.equal(writeTimer(59999), "0:59");
        assert.equal(writeTimer(72.5 * MINUTE), "1:12:30");
        assert.equal(writeTimer(-90000), "\u22121:30");
        assert.equal(writeTimer(-500), "0:00");
    });
