/* What is written on a paper sheet, read into the request that keeps it.
 * Blanks stay blank: the batch keeps what was planned. */

import { bareUnit, readNumber, readQuantity } from "../../lib/quantity.js";
import { placeClock, readClock } from "../../lib/shoptime.js";
import { t } from "../../lib/say.js";
import { scaleUnit } from "../mix/words.js";

/* In the order in which they happen. */
export const TIMES = ["started_ms", "stopped_ms", "first_box_ms",
    "last_box_ms", "closed_ms"];
export const DEGREES = ["flour_c", "room_c", "tap_c", "water_c", "dough_c"];
const MASSES = ["scrap_kg", "residue_kg"];

/* The blanks of a sheet by name: "started_ms", "weighed 12", "balls 3". */
export const weighedName = (id) => `weighed ${id}`;
export const lotName = (id) => `lot ${id}`;
export const ballsName = (id) => `balls ${id}`;

/* Every blank's text once, what is wrong with it noted by its name. */
function reader(texts, errors) {
    return function read(name, work) {
        const text = (texts[name] ?? "").trim();
        if (text === "")
            return null;
        try {
            return work(text);
        } catch (error) {
            errors[name] = error.message;
            return null;
        }
    };
}

function clockOf(text) {
    const clock = readClock(text);
    if (!clock)
        throw new Error(t("Write a time, such as 14:20 or 2:20 pm"));
    return clock;
}

/* Each time under the one above it; they run forward and not past now. */
function readTimes(read, { card, shop, now, errors }) {
    const { day, planned_ms } = card.batch;
    const times = {};
    let after;
    for (const name of TIMES) {
        const clock = read(name, clockOf);
        if (!clock)
            continue;
        const at = placeClock(clock,
            { day, shop, planned: planned_ms, after });
        times[name] = at;
        if (after !== undefined && at < after)
            errors[name] = t("That is before the time above it");
        else if (at > now)
            errors[name] = t("That has not happened yet");
        after = Math.max(at, after ?? 0);
    }
    return times;
}

export function bareOnScale({ division_kg }, units) {
    return division_kg ? scaleUnit(division_kg, units).name
        : bareUnit("mass", units);
}

function readWeighings(read, texts, card, units) {
    return card.weighings.map((row) => {
        const { id, lot_id } = row.weighing;
        const weighed_kg = read(weighedName(id), (text) =>
            readQuantity(text, "mass", bareOnScale(row, units)));
        const lot = texts[lotName(id)];
        return { weighing_id: id, weighed_kg,
            lot_id: lot === undefined ? lot_id : Number(lot),
            touched: weighed_kg !== null || lot !== undefined };
    }).filter(({ touched }) => touched)
        .map(({ weighing_id, weighed_kg, lot_id }) =>
            ({ weighing_id, weighed_kg, lot_id }));
}

function wholeOf(text) {
    const n = readNumber(text);
    if (n === null || n < 0 || n !== Math.floor(n))
        throw new Error(t("Write a whole number of balls"));
    return n;
}

function readPieces(read, card) {
    return card.pieces.map(({ piece }) => ({ id: piece.id,
        balls_made: read(ballsName(piece.id), wholeOf) }))
        .filter(({ balls_made }) => balls_made !== null);
}

/* { request, errors, times }: errors by the name of their blank. */
export function readSheet(texts, { card, shop, units, now }) {
    const errors = {};
    const read = reader(texts, errors);
    const times = readTimes(read, { card, shop, now, errors });
    const request = { batch_id: card.batch.id,
        person_id: Number(texts.person_id ?? 0),
        weighings: readWeighings(read, texts, card, units),
        pieces: readPieces(read, card), note: texts.note?.trim() || null,
        ...times };
    for (const name of DEGREES)
        request[name] = read(name, (text) => readQuantity(text,
            "temperature", bareUnit("temperature", units)));
    for (const name of MASSES)
        request[name] = read(name, (text) => readQuantity(text, "mass",
            bareUnit("mass", units)));
    if (!times.started_ms && !errors.started_ms)
        errors.started_ms =
            t("The sheet needs the time of the first step");
    return { request, errors, times };
}

/* The blank that a refused field of the request stands for, or null. */
export function blankOf(field, request) {
    const weighing = /^weighings\[(\d+)\]\.(\w+)/.exec(field ?? "");
    const piece = /^pieces\[(\d+)\]/.exec(field ?? "");
    if (weighing) {
        const { weighing_id } = request.weighings[Number(weighing[1])];
        return weighing[2] === "lot_id" ? lotName(weighing_id)
            : weighedName(weighing_id);
    }
    if (piece)
        return ballsName(request.pieces[Number(piece[1])].id);
    return field in request ? field : null;
}
