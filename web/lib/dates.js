/* Days and moments as people read them, in the tablet's own time zone. */

import { lang } from "./say.js";

const DAY = { day: "numeric", month: "short", year: "numeric" };

export function writeDay(ms) {
    return new Intl.DateTimeFormat(lang(), DAY).format(new Date(ms));
}

/* "14:05" */
export function writeClock(ms) {
    const at = new Date(ms);
    const two = (n) => String(n).padStart(2, "0");
    return `${two(at.getHours())}:${two(at.getMinutes())}`;
}

export function writeMoment(ms) {
    return `${writeDay(ms)}, ${writeClock(ms)}`;
}

/* --- civil days: whole days since 1970-01-01 ------------------------------ */

const DAY_MS = 86400000;

function civil(day, how) {
    return new Intl.DateTimeFormat(lang(), { ...how, timeZone: "UTC" })
        .format(new Date(day * DAY_MS));
}

/* A civil day of the shop: "Mon, Nov 23". */
export function civilDay(day) {
    return civil(day, { weekday: "short", day: "numeric", month: "short" });
}

/* "Monday" */
export function writeWeekday(day) {
    return civil(day, { weekday: "long" });
}

/* The seven, from Monday: "Mon". */
export function weekdays(how = "short") {
    return [0, 1, 2, 3, 4, 5, 6].map((n) => civil(n + 4, { weekday: how }));
}

/* As a browser's date field has it: "2026-11-23", and back. */
export function dateOfDay(day) {
    return new Date(day * DAY_MS).toISOString().slice(0, 10);
}

export function dayOfDate(text) {
    return Math.round(Date.parse(`${text}T00:00:00Z`) / DAY_MS);
}
