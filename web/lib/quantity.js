/* Quantities with units, as people type and read them.
 *
 * The same rules as the engine's quantity module, held to the same vectors
 * (tests/data/quantity_vectors.csv): "10 lb", "1 lb 4 oz", "4.5kg", "26C",
 * "80 F", "0.375%", "2 1/2 lb", "12 in". Values inside are kg, °C, percent, m,
 * h, pieces, litres. Factors are exact by definition. */

import { t } from "./say.js";

/* base value = (typed + add) * times / over; the first name is printed. */
function unit(names, times, over = 1, add = 0) {
    return { names: names.split("|"), times, over, add };
}

const LB = 0.45359237;
const GAL = 3.785411784;

const DIMENSIONS = {
    mass: { base: "kg", low: 0, high: 100000, units: [
        unit("kg|kgs|kilo|kilos|kilogram|kilograms", 1),
        unit("g|gr|gm|gms|gram|grams", 1, 1000),
        unit("mg|milligram|milligrams", 1, 1e6),
        unit("t|tonne|tonnes", 1000),
        unit("lb|lbs|pound|pounds|#", LB),
        unit("oz|ozs|ounce|ounces", LB, 16),
        unit("grain|grains", LB, 7000),
        unit("short ton|short tons", 907.18474),
        unit("stone", 6.35029318),
        unit("label oz", 28, 1000)] },
    temperature: { base: "degC", low: -80, high: 600, units: [
        unit("C|\u00b0C|\u00baC|deg C|degrees C|celsius", 1),
        unit("F|\u00b0F|\u00baF|deg F|degrees F|fahrenheit", 5, 9, -32)] },
    difference: { base: "K", low: -1000, high: 1000, units: [
        unit("K|kelvin|C|\u00b0C|\u00baC|degC|deg C|degrees C|celsius", 1),
        unit("F|\u00b0F|\u00baF|degF|deg F|degrees F|fahrenheit", 5, 9)] },
    percent: { base: "percent", low: 0, high: 1000, units: [
        unit("%|percent|per cent|pct", 1)] },
    length: { base: "m", low: 0, high: 100, units: [
        unit("m|metre|metres|meter|meters", 1),
        unit("cm|centimetre|centimetres|centimeter|centimeters", 1, 100),
        unit("mm|millimetre|millimetres|millimeter|millimeters", 1, 1000),
        unit("in|inch|inches|\"|\u2033", 0.0254),
        unit("ft|foot|feet|'|\u2032", 0.3048)] },
    time: { base: "h", low: 0, high: 8784, units: [
        unit("h|hr|hrs|hour|hours", 1),
        unit("min|mins|minute|minutes|m", 1, 60),
        unit("s|sec|secs|second|seconds", 1, 3600),
        unit("d|day|days", 24)] },
    count: { base: "count", low: 0, high: 1e6, units: [
        unit("count|pieces|piece|pcs|pc|balls|ball|x", 1)] },
    volume: { base: "l", low: 0, high: 100000, units: [
        unit("L|litre|litres|liter|liters", 1),
        unit("ml|millilitre|millilitres|milliliter|milliliters|cc", 1, 1000),
        unit("gal|gallon|gallons", GAL),
        unit("qt|qts|quart|quarts", GAL, 4),
        unit("pt|pts|pint|pints", GAL, 8),
        unit("cup|cups", GAL, 16),
        unit("fl oz|fluid ounce|fluid ounces", GAL, 128),
        unit("tbsp|tablespoon|tablespoons", GAL, 256),
        unit("tsp|teaspoon|teaspoons", GAL, 768),
        unit("label tsp", 5, 1000),
        unit("label tbsp", 15, 1000),
        unit("label cup", 240, 1000),
        unit("label fl oz", 30, 1000),
        unit("imp gal|imperial gallon|imperial gallons", 4.54609),
        unit("imp fl oz|imperial fluid ounce", 4.54609, 160),
        unit("cu in|cubic inch|cubic inches|in3", 0.016387064)] },
};

export const dimensions = Object.keys(DIMENSIONS);

/* What a number without a unit means to a person, where it is not told. */
const BARE = {
    us: { mass: "lb", temperature: "F", difference: "F", length: "in" },
    metric: { mass: "kg", temperature: "C", difference: "C", length: "cm" },
    both: { percent: "%", time: "h", count: "count", volume: "L" },
};

export function bareUnit(dimension, units) {
    return BARE[units][dimension] ?? BARE.both[dimension];
}

/* Dough on a pan, kg/m2 inside: ounces on a square inch, grams on a square
 * centimetre. */
export const LOADING = {
    us: { name: "oz/in\u00b2", kg_per_m2: LB / 16 / 0.0254 ** 2 },
    metric: { name: "g/cm\u00b2", kg_per_m2: 10 },
};

/* --- reading ------------------------------------------------------------- */

const FRACTIONS = { "\u00bd": 1 / 2, "\u00bc": 1 / 4, "\u00be": 3 / 4,
    "\u2153": 1 / 3, "\u2154": 2 / 3, "\u215b": 1 / 8, "\u215c": 3 / 8,
    "\u215d": 5 / 8, "\u215e": 7 / 8 };
const BLANK = "[ \\t\\u00a0\\u202f\\u2009]*";
const MARKS = "\\u00bd\\u00bc\\u00be\\u2153\\u2154\\u215b-\\u215e";
const SPACE = new RegExp(`^${BLANK}`);
const FRACTION = new RegExp(`^${BLANK}(?:([${MARKS}])|(\\d+)/(\\d+))`);
/* A unit of letters ends before anything but a letter. */
const WORD_END =
    `(?![a-z]|[^\\x00-\\x7f\\u00a0\\u202f\\u2009${MARKS}])`;
const LONGEST = 64;

/* What is wrong with a typed quantity: code as the engine's, a sentence. */
export class NotAQuantity extends Error {
    constructor(code, message) {
        super(message);
        this.code = code;
    }
}

function notUnderstood(text, message) {
    return new NotAQuantity("not_understood", message ??
        t("“{text}” could not be read", { text }));
}

function skipSpace(text) {
    return text.slice(SPACE.exec(text)[0].length);
}

function readFraction(text) {
    const found = FRACTION.exec(text);
    if (!found || (found[2] && Number(found[3]) === 0))
        return null;
    return { value: found[1] ? FRACTIONS[found[1]]
        : Number(found[2]) / Number(found[3]),
    rest: text.slice(found[0].length) };
}

/* { value, rest, commaUnclear } or null. */
function readNumberAt(text) {
    const fraction = readFraction(text);
    if (fraction)
        return fraction;
    const found = /^(\d*)(?:([.,])(\d+))?/.exec(text);
    if (!found[0])
        return null;
    const rest = text.slice(found[0].length);
    if (found[2]) {
        return { value: Number(`${found[1] || 0}.${found[3]}`), rest,
            commaUnclear: found[2] === "," && found[3].length === 3 &&
                found[1].length <= 3 && Number(found[1]) > 0 };
    }
    const more = readFraction(rest);
    return more
        ? { value: Number(found[1]) + more.value, rest: more.rest }
        : { value: Number(found[1]), rest };
}

const patterns = new Map();

/* How a name may be written: capitals do not matter, nor do spaces. */
function patternOf(name) {
    let pattern = patterns.get(name);
    if (!pattern) {
        const sign = /["'#%\u0080-\uffff]$/.test(name);
        pattern = new RegExp(
            `^${name.replace(/ /g, BLANK)}${sign ? "" : WORD_END}`, "i");
        patterns.set(name, pattern);
    }
    return pattern;
}

function longestName(one, text) {
    return Math.max(0, ...one.names.map((name) =>
        patternOf(name).exec(text)?.[0].length ?? 0));
}

/* The unit `text` begins with: of this dimension if any is, else of another,
 * else null. */
function unitAt(text, dimension) {
    let best = { length: 0 };
    for (const [of, { units }] of Object.entries(DIMENSIONS)) {
        for (const one of units) {
            const length = longestName(one, text);
            if (length > best.length ||
                (length && length === best.length && of === dimension &&
                    best.of !== dimension))
                best = { length, of, one };
        }
    }
    return best.length ? best : null;
}

function unitNamed(dimension, name) {
    return DIMENSIONS[dimension].units.find((one) => one.names.includes(name));
}

const ADDS_UP = new Set(["mass", "length", "time", "volume"]);

function readUnit(rest, dimension, bare, last, whole) {
    const text = skipSpace(rest);
    if (text === "") {
        if (last)
            throw notUnderstood(whole, t("Write a unit after each number"));
        return { one: bare, rest: text };
    }
    if (/^[\d.,:/+-]/.test(text))
        throw notUnderstood(whole);
    const found = unitAt(text, dimension);
    if (!found)
        throw new NotAQuantity("wrong_unit",
            t("The unit in “{text}” is not known here", { text: whole }));
    if (found.of !== dimension)
        throw new NotAQuantity("wrong_unit",
            t("“{text}” has a unit that does not fit", { text: whole }));
    return { one: found.one, rest: skipSpace(
        text.slice(found.length).replace(/^\.(?!\d)/, "")) };
}

function readPart(rest, dimension, bare, last, whole) {
    const number = readNumberAt(rest);
    if (!number)
        throw notUnderstood(whole);
    const { one, rest: after } =
        readUnit(number.rest, dimension, bare, last, whole);
    if (number.commaUnclear && dimension !== "percent" &&
        dimension !== "temperature" && dimension !== "difference")
        throw notUnderstood(whole,
            t("The comma can be read two ways; use a point"));
    if (last && (!ADDS_UP.has(dimension) ||
        one.times / one.over >= last.times / last.over))
        throw notUnderstood(whole);
    return { value: number.value, one, rest: after };
}

function checkReason(value, dimension, whole) {
    const { low, high } = DIMENSIONS[dimension];
    if (!(value >= low && value <= high))
        throw new NotAQuantity("out_of_range",
            t("Between {low} and {high}, please", {
                low: writeQuantity(low, dimension, "metric"),
                high: writeQuantity(high, dimension, "metric") }));
    if (dimension === "count" && value !== Math.floor(value))
        throw new NotAQuantity("wrong_type",
            t("“{text}” must be a whole number", { text: whole }));
    return value;
}

/* The value in the dimension's base unit; throws NotAQuantity. `bare` names
 * the unit of a number that has none. */
export function readQuantity(text, dimension, bare) {
    let rest = skipSpace(text);
    if (rest === "")
        throw new NotAQuantity("missing", t("Something must be entered"));
    if (new TextEncoder().encode(text).length > LONGEST)
        throw new NotAQuantity("too_large", t("That is too long"));
    const signed = /^[-+\u2212]/.exec(rest);
    const sign = signed && signed[0] !== "+" ? -1 : 1;
    rest = rest.slice(signed ? 1 : 0);
    let value = 0;
    let last = null;
    do {
        const part = readPart(rest, dimension, unitNamed(dimension, bare),
            last, text);
        value += (sign * part.value + part.one.add) * part.one.times /
            part.one.over;
        last = part.one;
        rest = part.rest;
    } while (rest !== "");
    return checkReason(value, dimension, text);
}

/* A plain number with either decimal mark, or null. */
export function readNumber(text) {
    const plain = text.trim().replace("\u2212", "-").replace(",", ".");
    return /^-?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : null;
}

/* --- writing ------------------------------------------------------------- */

function rounded(value, decimals) {
    const scale = 10 ** decimals;
    return Math.sign(value) * Math.round(Math.abs(value) * scale) / scale;
}

/* At most that many decimals, none for show. */
export function writeNumber(value, decimals = 3) {
    const shown = Number(rounded(value, decimals).toPrecision(15)) || 0;
    return String(shown).replace("-", "\u2212");
}

function withUnit(value, decimals, name) {
    return `${writeNumber(value, decimals)}\u00a0${name}`;
}

/* Round first, split after, or 15.96 oz would print as 16 oz. */
function writeUsMass(kg) {
    const exact = kg * 16 / LB;
    const oz = rounded(exact, 1);
    if (Math.abs(oz) < 1)
        return withUnit(exact, 2, "oz");
    if (Math.abs(oz) < 16)
        return withUnit(oz, 1, "oz");
    if (Math.abs(oz) >= 1600)
        return withUnit(oz / 16, 1, "lb");
    const lb = Math.trunc(oz / 16);
    const rest = rounded(Math.abs(oz - lb * 16), 1);
    return rest > 0
        ? `${withUnit(lb, 0, "lb")} ${withUnit(rest, 1, "oz")}`
        : withUnit(lb, 0, "lb");
}

function writeMetricMass(kg) {
    const size = Math.abs(kg);
    if (size < 0.000995)
        return withUnit(kg * 1000, 2, "g");
    if (size < 0.09995)
        return withUnit(kg * 1000, 1, "g");
    if (size < 0.9995)
        return withUnit(kg * 1000, 0, "g");
    return withUnit(kg, size < 9.9995 ? 3 : size < 99.995 ? 2 : 1, "kg");
}

function writeTime(h) {
    if (h > 0 && h * 60 < 1)
        return withUnit(h * 3600, 0, "s");
    const minutes = Math.round(h * 60);
    const hours = Math.floor(minutes / 60);
    const rest = minutes - hours * 60;
    const parts = [];
    if (hours > 0)
        parts.push(withUnit(hours, 0, "h"));
    if (rest > 0 || hours === 0)
        parts.push(withUnit(rest, 0, "min"));
    return parts.join(" ");
}

function writeVolume(l, units) {
    if (units === "us")
        return withUnit(l * 4 / GAL, 2, "qt");
    return l < 1 ? withUnit(l * 1000, 0, "ml") : withUnit(l, 2, "L");
}

function percentDecimals(percent) {
    const size = Math.abs(percent);
    return size >= 1 ? 2 : size >= 0.1 ? 3 : size >= 0.01 ? 4 : 5;
}

export function writePercentNumber(percent) {
    return writeNumber(percent, percentDecimals(percent));
}

/* A temperature's number in the person's units, and back. */
export const inPersonUnits = (c, units) => units === "us" ? c * 1.8 + 32 : c;
export const toCelsius = (value, units) =>
    units === "us" ? (value - 32) / 1.8 : value;

const WRITE = {
    mass: (kg, units) =>
        units === "us" ? writeUsMass(kg) : writeMetricMass(kg),
    temperature: (c, units) => withUnit(inPersonUnits(c, units), 1,
        units === "us" ? "\u00b0F" : "\u00b0C"),
    difference: (k, units) => units === "us"
        ? withUnit(k * 1.8, 1, "\u00b0F") : withUnit(k, 1, "\u00b0C"),
    percent: (p) => withUnit(p, percentDecimals(p), "%"),
    length: (m, units) => units === "us"
        ? withUnit(m / 0.0254, 2, "in") : withUnit(m * 100, 1, "cm"),
    time: writeTime,
    count: (n) => writeNumber(n, 0),
    volume: writeVolume,
};

/* "1 lb 4.5 oz" or "567 g", "80 °F" or "26.5 °C", "0.375 %", "1 h 30 min":
 * digits that a shop can weigh or read. A number and its unit stay on one
 * line. */
export function writeQuantity(value, dimension, units) {
    return WRITE[dimension](value, units);
}
