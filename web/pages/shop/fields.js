/* The kinds of blank on a form of the shop: how a stored value is shown in the
 * person's own units, and how what is typed becomes a value again. A `read`
 * throws with a sentence; `optional` blanks may stay empty (null). */

import { bareUnit, readNumber, readQuantity, writeNumber, writeQuantity }
    from "../../lib/quantity.js";
import { dateOfDay, dayOfDate } from "../../lib/dates.js";
import { t } from "../../lib/say.js";

const DAY_MS = 86400000;

function needText(typed) {
    if (typed.trim() === "")
        throw new Error(t("Something must be entered"));
    return typed.trim();
}

export function text(key, name, more) {
    return { key, name, control: "blank", show: (value) => value,
        read: needText, ...more };
}

/* dimension: of lib/quantity.js; times: how many of the stored unit make one
 * of the dimension's; bare: the unit of a plain number by `units`, when it is
 * not the usual one. */
export function amount(key, name, dimension, { times = 1, bare, ...more } = {}) {
    const unit = (units) => bare?.[units] ?? bareUnit(dimension, units);
    return { key, name, control: "blank", number: true,
        show: (value, units) => writeQuantity(value / times, dimension, units),
        read: (typed, units) =>
            readQuantity(typed, dimension, unit(units)) * times, ...more };
}

export const minutes = (key, name, more) => amount(key, name, "time",
    { times: 60, bare: { us: "min", metric: "min" }, ...more });

export function whole(key, name, more) {
    return { key, name, control: "blank", number: true,
        show: (value) => writeNumber(value, 0),
        read: (typed) => readQuantity(needText(typed), "count", "count"),
        ...more };
}

export function number(key, name, more) {
    return { key, name, control: "blank", number: true,
        show: (value) => writeNumber(value, 4),
        read(typed) {
            const value = readNumber(needText(typed));
            if (value === null)
                throw new Error(t("“{text}” could not be read",
                    { text: typed }));
            return value;
        }, ...more };
}

/* A quantity of which 0 says "not known": an empty blank. */
export function orUnknown(field) {
    return { ...field, show: (value, units) =>
        value ? field.show(value, units) : "",
    read: (typed, units) =>
        typed.trim() === "" ? 0 : field.read(typed, units) };
}

/* A time of day, "4:00", as minutes after midnight. */
export function readClockTime(typed) {
    const found = /^\s*(\d{1,2})(?:[:.h](\d{2}))?\s*$/.exec(typed);
    if (!found || found[1] > 24 || found[2] > 59)
        throw new Error(t("A time of day, like 7:30 or 22:00"));
    return Number(found[1]) * 60 + Number(found[2] ?? 0);
}

export function writeClockTime(value) {
    const two = String(value % 60).padStart(2, "0");
    return `${Math.floor(value / 60) % 24}:${two}`;
}

export function clockTime(key, name, more) {
    return { key, name, control: "blank", number: true,
        show: writeClockTime, read: readClockTime, ...more };
}

/* Money in the currency's smallest unit, as the currency writes it. */
function decimalsOf(currency) {
    try {
        return new Intl.NumberFormat("en", { style: "currency", currency })
            .resolvedOptions().maximumFractionDigits;
    } catch {
        return 2;
    }
}

export function money(key, name, currency) {
    const times = 10 ** decimalsOf(currency);
    const plain = number(key, name);
    return orUnknown({ ...plain, hint: () => currency,
        show: (value) => writeNumber(value / times, decimalsOf(currency)),
        read: (typed) => Math.round(plain.read(typed) * times) });
}

/* A date of the browser's own field: a civil day, or the moment it began. */
export function day(key, name, { moment } = {}) {
    const times = moment ? DAY_MS : 1;
    return { key, name, control: "date",
        show: (value) => value ? dateOfDay(Math.floor(value / times)) : "",
        read: (typed) => typed ? dayOfDate(typed) * times : 0 };
}

/* options: () => [[value, words]] */
export function pick(key, name, options, more) {
    return { key, name, control: "pick", options, ...more };
}

/* The identity of another row, chosen by its name. */
export const pickId = (key, name, rows) => pick(key, name,
    () => rows.map((row) => [String(row.id), row.name]),
    { numeric: true });

export const tick = (key, name) => ({ key, name, control: "tick" });
