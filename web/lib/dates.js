/* Days and moments as people read them, by the clock on the shop's wall: a
 * tablet set to another zone must not say another time than the paper does. */

import { lang } from "./say.js";
import { zone } from "./person.js";

const DAY = { day: "numeric", month: "short", year: "numeric" };
const CLOCK = { hour: "2-digit", minute: "2-digit", hourCycle: "h23" };

function write(ms, language, options) {
    return new Intl.DateTimeFormat(language,
        { ...options, timeZone: zone() }).format(new Date(ms));
}

export function writeDay(ms) {
    return write(ms, lang(), DAY);
}

/* "Thu 26" */
export function writeDayName(ms) {
    return `${write(ms, lang(), { weekday: "short" })}\u00a0${
        write(ms, lang(), { day: "numeric" })}`;
}

/* "14:05" */
export function writeClock(ms) {
    return write(ms, "en-GB", CLOCK);
}

export function writeMoment(ms) {
    return `${writeDay(ms)}, ${writeClock(ms)}`;
}

/* "Tuesday, November 24, 18:00" */
export function writeLongMoment(ms) {
    return `${write(ms, lang(), { weekday: "long", day: "numeric",
        month: "long" })}, ${writeClock(ms)}`;
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

/* "Nov 23" */
export function shortDate(day) {
    return civil(day, { day: "numeric", month: "short" });
}

/* "Monday, November 23" */
export function longDay(day) {
    return civil(day, { weekday: "long", day: "numeric", month: "long" });
}

/* "November 23" */
export function civilDate(day) {
    return civil(day, { day: "numeric", month: "long" });
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
