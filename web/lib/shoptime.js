/* The shop's days and moments on any tablet: its business day, and clock times
 * as people write them on paper. Days are civil days counted from 1970-01-01;
 * a business day ends `cutover_minutes` after midnight. */

const MINUTE_MS = 60000;
const DAY_MS = 86400000;
const HALF_DAY = 720; /* minutes */

/* --- the zone's clock ---------------------------------------------------- */

const readers = new Map();

function readerOf(zone) {
    if (!readers.has(zone))
        readers.set(zone, new Intl.DateTimeFormat("en-US", { timeZone: zone,
            hourCycle: "h23", year: "numeric", month: "numeric",
            day: "numeric", hour: "numeric", minute: "numeric",
            second: "numeric" }));
    return readers.get(zone);
}

/* What the zone's clock shows, as if it were UTC. */
function shownMs(ms, zone) {
    const part = Object.fromEntries(readerOf(zone).formatToParts(ms)
        .map(({ type, value }) => [type, Number(value)]));
    return Date.UTC(part.year, part.month - 1, part.day, part.hour,
        part.minute, part.second);
}

/* The moment when the zone's clock shows so many minutes after midnight of a
 * civil day. Twice, since the first guess may lie on the other side of a
 * change of the clocks. */
export function momentOf(day, minutes, zone) {
    const wanted = day * DAY_MS + minutes * MINUTE_MS;
    const ahead = (ms) => shownMs(ms, zone) - Math.floor(ms / 1000) * 1000;
    return wanted - ahead(wanted - ahead(wanted));
}

/* { day, minutes } on the zone's clock. */
export function civilOf(ms, zone) {
    const shown = shownMs(ms, zone);
    const day = Math.floor(shown / DAY_MS);
    return { day, minutes: Math.floor((shown - day * DAY_MS) / MINUTE_MS) };
}

export function businessDay(ms, { zone, cutover_minutes }) {
    const { day, minutes } = civilOf(ms, zone);
    return minutes < cutover_minutes ? day - 1 : day;
}

/* --- times on a paper sheet ---------------------------------------------- */

const CLOCK = /^(\d{1,2})(?:\s*[:.h]?\s*(\d{2}))?\s*(?:([ap])\.?\s?m?\.?)?$/i;

/* "14:20", "1420", "14.20", "2:20 pm", "220p": { minutes, either }, or null.
 * `either`: the half of the day was not written. */
export function readClock(text) {
    const found = CLOCK.exec(text.trim());
    if (!found)
        return null;
    const [, hours, minutes = "0", half] = found;
    const hour = Number(hours);
    if (Number(minutes) > 59 || hour > 23 || (half && (!hour || hour > 12)))
        return null;
    const late = half?.toLowerCase() === "p" ? HALF_DAY : 0;
    const either = !half && hour >= 1 && hour <= 12 && hours[0] !== "0";
    return { either, minutes: (half ? hour % 12 : hour) * 60 +
        Number(minutes) + late };
}

/* The moments around a business day that a written time may mean. */
function candidates({ minutes, either }, day, shop) {
    const clocks = either ? [minutes % HALF_DAY, minutes % HALF_DAY + HALF_DAY]
        : [minutes];
    return clocks.flatMap((one) => [day - 1, day, day + 1].map((civil) =>
        momentOf(civil, one, shop.zone)));
}

const SPAN_MS = 12 * 3600000;

/* The moment meant by a time written under another. It follows `after`, the
 * time above it, by at most half a day: so 0:10 under 23:50 is past midnight,
 * and 2:20 under 1:50 pm is in the afternoon. When none does it is taken as
 * near as it gets, for the person to see that it runs backwards. With nothing
 * above, it is the one nearest to `planned`. */
export function placeClock(clock, { day, shop, planned, after }) {
    const all = candidates(clock, day, shop);
    const near = after ?? planned;
    const best = (some) => some.reduce((a, b) =>
        Math.abs(b - near) < Math.abs(a - near) ? b : a);
    const later = after === undefined ? []
        : all.filter((ms) => ms >= after && ms - after <= SPAN_MS);
    return best(later.length ? later : all);
}
