/* Where a ball is from the mixer on: what a person set, and the legs that the
 * engine takes. */

import { intoLife } from "../../../life/used.js";

export const OPEN_H = 2.5; /* practice: 2 to 3 h, until the core is at 55 °F */
export const STACKING = { tray: 12, offset: 8, closed: 3 };
/* Edges of what one may set, hours. */
export const LEAST_H = 1 / 60;
export const LONGEST_H = 336;

/* shop: reply of shop.get, or null; used: reply of learn.used, or null. */
export function firstHistory(shop, used) {
    return {
        piece_g: 396.9, /* 14 oz */
        dough_c: null, /* null: what the formula aims for */
        bench_h: (shop?.shop?.bench_minutes ?? 20) / 60,
        open_h: OPEN_H,
        out_h: null, /* null: it stays in the cold */
        cold_c: used?.air_c ?? shop?.cold_rooms?.[0]?.air_c ?? 10 / 3,
        room_c: 22,
        open_h_w_per_m2_k: used?.open_w_per_m2_k ?? STACKING.offset,
        closed_h_w_per_m2_k: used?.closed_w_per_m2_k ?? STACKING.closed,
        bench_life_h: shop?.shop?.bench_life_h ?? 3,
    };
}

const onBench = (history, hours) => ({ hours, air_c: history.room_c,
    h_w_per_m2_k: STACKING.offset });

/* Legs that reach to span_h at least; the engine goes on with the last. */
export function legsOf(history, cold, span_h) {
    if (!cold)
        return [onBench(history, span_h)];
    const { bench_h, open_h, out_h, cold_c } = history;
    const closing = bench_h + open_h;
    const legs = [onBench(history, bench_h),
        { hours: open_h, air_c: cold_c,
            h_w_per_m2_k: history.open_h_w_per_m2_k },
        { hours: Math.max(LEAST_H, (out_h ?? span_h) - closing), air_c: cold_c,
            h_w_per_m2_k: history.closed_h_w_per_m2_k }];
    if (out_h !== null)
        legs.push(onBench(history, Math.max(LEAST_H, span_h - out_h)));
    return legs;
}

/* The legs as bars, [name, from_h, to_h]. */
export function barsOf(history, cold, span_h) {
    if (!cold)
        return [["bench", 0, span_h]];
    const { bench_h, open_h, out_h } = history;
    const closing = bench_h + open_h;
    const bars = [["bench", 0, bench_h], ["open", bench_h, closing],
        ["closed", closing, out_h ?? span_h]];
    return out_h === null ? bars : [...bars, ["out", out_h, span_h]];
}

/* As piece.life takes it; members 0: no band; used: as in firstHistory, whose
 * yeast is put in when the shop has taught it. */
export function lifeRequest({ formula, history, goal_c, cold, span_h, used,
    members }) {
    return {
        ...intoLife(used),
        formula, piece_g: history.piece_g,
        dough_c: history.dough_c ?? goal_c,
        legs: legsOf(history, cold, span_h),
        bench_life_h: history.bench_life_h,
        report_every_h: Math.max(0.02, span_h / 480),
        members,
    };
}

/* A time moved to a place where the others stay in order. */
export function moved(history, name, h) {
    const out = history.out_h ?? LONGEST_H;
    if (name === "bench_h")
        return { ...history, bench_h: Math.max(LEAST_H, Math.min(h, 4,
            out - history.open_h - LEAST_H)) };
    if (name === "open_h")
        return { ...history, open_h: Math.max(LEAST_H, Math.min(h, 48,
            out - history.bench_h - LEAST_H)) };
    if (name === "out_h")
        return { ...history, out_h: h === null ? null : Math.max(h,
            history.bench_h + history.open_h + LEAST_H) };
    return { ...history, [name]: h };
}
