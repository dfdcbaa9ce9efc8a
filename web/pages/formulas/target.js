/* How much is wanted: by flour, dough, bags, pieces or pans, with what is lost
 * on the way. Pure, like draft.js; the weights come from the server. */

import { LOADING, bareUnit, readNumber, readQuantity, writeNumber,
    writePercentNumber, writeQuantity } from "../../lib/quantity.js";
import { t } from "../../lib/say.js";

let keys = 0;

const DIMENSION = { count: "count", loss: "percent", diameter: "length",
    length: "length", width: "length" };
const dimensionOf = (name) => DIMENSION[name] ?? "mass";

/* The unit of a number typed without one: a ball is thought of in ounces or
 * grams, a bag in pounds or kilograms. */
function unitOf(name, units) {
    if (name === "piece")
        return units === "us" ? "oz" : "g";
    return bareUnit(dimensionOf(name), units);
}

function textOf(name, value, units) {
    if (name === "loading")
        return writeNumber(value / LOADING[units].kg_per_m2, 4);
    if (name === "bags")
        return writeNumber(value, 2);
    if (name === "loss")
        return writePercentNumber(value);
    return writeQuantity(value, dimensionOf(name), units)
        .replaceAll("\u00a0", " ");
}

export function field(name, value, units) {
    return { name, value, text: textOf(name, value, units), error: null };
}

function plainNumber(text, times) {
    const value = readNumber(text);
    if (value === null || value < 0)
        throw new Error(t("“{text}” could not be read", { text }));
    return value * times;
}

function read(name, text, units) {
    if (name === "loading")
        return plainNumber(text, LOADING[units].kg_per_m2);
    if (name === "bags")
        return plainNumber(text, 1);
    return readQuantity(text, dimensionOf(name), unitOf(name, units));
}

/* What cannot be read keeps its last value. */
export function typeField(one, text, units) {
    try {
        return { ...one, text, error: null,
            value: read(one.name, text, units) };
    } catch (error) {
        return { ...one, text, error: error.message };
    }
}

function fieldsOf(values, units) {
    return Object.fromEntries(Object.entries(values).map(([name, value]) =>
        [name, field(name, value, units)]));
}

export function newPiece(units, count = 24,
    piece = units === "us" ? 14 * 0.028349523125 : 0.4) {
    return { key: ++keys, ...fieldsOf({ count, piece }, units) };
}

export function newPan(units) {
    return { key: ++keys, shape: "round", ...fieldsOf({ count: 12,
        diameter: 0.0254 * 14, length: 0.0254 * 18, width: 0.0254 * 26,
        loading: 0.0885 * LOADING.us.kg_per_m2 }, units) };
}

export function newTarget(units) {
    const bag = units === "us" ? 50 * 0.45359237 : 25;
    return { by: "flour", pieces: [newPiece(units)], pans: [newPan(units)],
        ...fieldsOf({ flour: bag, dough: bag * 1.6, bags: 1, bag, loss: 0 },
            units) };
}

function rewrite(one, units) {
    return Object.fromEntries(Object.entries(one).map(([key, part]) =>
        [key, part?.name ? field(part.name, part.value, units) : part]));
}

/* The same target in other units. */
export function inUnits(target, units) {
    return { ...rewrite(target, units),
        pieces: target.pieces.map((one) => rewrite(one, units)),
        pans: target.pans.map((one) => rewrite(one, units)) };
}

function panFor(pan) {
    const size = pan.shape === "round"
        ? { diameter_m: pan.diameter.value }
        : { length_m: pan.length.value, width_m: pan.width.value };
    return { count: pan.count.value, ...size,
        loading_kg_per_m2: pan.loading.value };
}

const WANTED = {
    flour: (target) => ({ flour_kg: target.flour.value }),
    dough: (target) => ({ dough_kg: target.dough.value }),
    bags: (target) => ({ bags: target.bags.value,
        bag_kg: target.bag.value }),
    pieces: (target) => ({ pieces: target.pieces.map((one) => ({
        count: one.count.value, piece_g: one.piece.value * 1000 })) }),
    pans: (target) => ({ pans: target.pans.map(panFor) }),
};

/* As formula.scale takes it. */
export function targetFor(target) {
    return { ...WANTED[target.by](target), loss_percent: target.loss.value };
}
