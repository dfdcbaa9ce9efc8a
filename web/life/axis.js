/* Scales and paths, nothing else: from hours and values to places on the
 * drawing and back. */

/* A cold life has its turns in the first hours and its window days after. The
 * hours up to `early_h` (0: none) are drawn wider; the rest is straight. */
const EARLY_SHARE = 0.36;

export function timeAxis(span_h, early_h, left, right) {
    const width = right - left;
    const wide = early_h * 3 < span_h ? early_h : 0;
    const turn = left + (wide ? EARLY_SHARE * width : 0);
    const late = (right - turn) / (span_h - wide);
    const early = wide ? (turn - left) / wide : late;
    return {
        span_h, early_h: wide, left, right, turn,
        x: (h) => h <= wide ? left + h * early : turn + (h - wide) * late,
        h: (x) => x <= turn && wide ? (x - left) / early
            : wide + (x - turn) / late,
        early, late,
    };
}

const HOURS = [0.25, 0.5, 1, 2, 3, 6, 12, 24, 48, 96];
const TICK_PX = 58;

function stepFor(px_per_h) {
    return HOURS.find((step) => step * px_per_h >= TICK_PX) ?? 96;
}

/* Hours that get a mark and a number. */
export function timeTicks(axis) {
    const ticks = [];
    if (axis.early_h)
        for (let h = 0, step = stepFor(axis.early); h <= axis.early_h; h += step)
            ticks.push(h);
    const step = stepFor(axis.late);
    const clear = axis.early_h ? axis.turn + 0.7 * TICK_PX : axis.left;
    for (let h = 0; h <= axis.span_h; h += step)
        if (axis.x(h) >= clear - 1)
            ticks.push(h);
    return ticks;
}

const STEPS = [0.1, 0.2, 0.25, 0.5, 1, 2, 5, 10, 20, 25, 50, 100, 200, 500];

/* Straight from [low, high], which grow to whole steps, to [bottom, top]. */
export function valueAxis(low, high, bottom, top, least = 4) {
    const step = STEPS.find((one) => (high - low) / one <= least) ?? 1000;
    const from = Math.floor(low / step + 1e-9) * step;
    const to = Math.max(Math.ceil(high / step - 1e-9) * step, from + step);
    const ticks = [];
    for (let i = 0; from + i * step <= to + step / 2; i++)
        ticks.push(Number((from + i * step).toFixed(6)));
    const scale = (bottom - top) / (to - from);
    return { ticks, top, bottom, low: from, high: to,
        y: (value) => bottom - (value - from) * scale,
        value: (y) => from + (bottom - y) / scale };
}

const place = (x, y) => `${x.toFixed(1)},${y.toFixed(1)}`;

export function linePath(xs, ys) {
    return xs.map((x, i) => `${i ? "L" : "M"}${place(x, ys[i])}`).join("");
}

/* The area between two lines over the same xs. */
export function areaPath(xs, highs, lows) {
    const back = xs.map((x, i) => `L${place(x, lows[i])}`).reverse();
    return `${linePath(xs, highs)}${back.join("")}Z`;
}

/* The value of a curve given by points, at h. */
export function at(times, values, h) {
    const i = times.findIndex((time) => time >= h);
    if (i <= 0)
        return values[i < 0 ? values.length - 1 : 0];
    const part = (h - times[i - 1]) / (times[i] - times[i - 1]);
    return values[i - 1] + part * (values[i] - values[i - 1]);
}

/* A span that ends on a whole number of hours one would write down. */
export function wholeSpan(h) {
    const step = h > 96 ? 24 : h > 36 ? 12 : h > 12 ? 4 : h > 4 ? 1 : 0.5;
    return Math.min(336, Math.ceil(h / step - 1e-9) * step);
}
