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
