/* A formula while somebody works on it: what they typed, and what it means.
 *
 * Fields keep their text as typed; a field that cannot be read keeps its last
 * meaning, so the numbers beside it do not jump while a digit is missing. */

import { readQuantity, writePercentNumber } from "../../lib/quantity.js";

let keys = 0;
const newKey = () => ++keys;

/* What the trade starts from; a shop changes what it likes. */
const FIRST_LINES = [
    ["Flour", "flour", 100], ["Water", "water", 60], ["Salt", "salt", 1.75],
    ["Oil", "fat", 2], ["Instant yeast", "yeast_instant", 0.375],
];

function lineOf({ material, kind, percent, water_percent = null,
    protein_percent = null }) {
    return { key: newKey(), material, kind, percent,
        text: writePercentNumber(percent), error: null,
        water_percent, protein_percent };
}

function stageOf(stage) {
    return { key: newKey(), name: stage.name, kind: stage.kind,
        percent: stage.flour_percent,
        text: writePercentNumber(stage.flour_percent), error: null,
        lines: stage.lines.map(lineOf) };
}

/* From a stored version, or with nothing given a new formula. */
export function draftOf(version) {
    return {
        name: version?.name ?? "",
        style: version?.style ?? "thin",
        process: version?.process ?? "cold",
        lines: (version?.formula.lines ?? FIRST_LINES.map(
            ([material, kind, percent]) => ({ material, kind, percent })))
            .map(lineOf),
        stages: (version?.formula.stages ?? []).map(stageOf),
        slips_accepted: version?.slips_accepted ?? false,
    };
}

/* Text typed into a percent field. */
export function typePercent(one, text) {
    try {
        return { ...one, text, error: null,
            percent: readQuantity(text, "percent", "%") };
    } catch (error) {
        return { ...one, text, error: error.message };
    }
}

export function changeLine(lines, key, change) {
    return lines.map((line) => line.key === key ? change(line) : line);
}

export function addLine(lines, material, kind) {
    return [...lines, lineOf({ material, kind, percent: 0 })];
}

export function removeLine(lines, key) {
    return lines.filter((line) => line.key !== key);
}

/* One place up (-1) or down (+1). */
export function moveLine(lines, key, by) {
    const from = lines.findIndex((line) => line.key === key);
    const to = from + by;
    if (to < 0 || to >= lines.length)
        return lines;
    const moved = [...lines];
    [moved[from], moved[to]] = [moved[to], moved[from]];
    return moved;
}

export function addStage(draft, name, kind, lines) {
    return [...draft.stages,
        stageOf({ name, kind, flour_percent: 20, lines })];
}

function lineFor({ material, kind, percent, water_percent,
    protein_percent }) {
    return { material, kind, percent,
        ...(water_percent === null ? {} : { water_percent }),
        ...(protein_percent === null ? {} : { protein_percent }) };
}

/* As the operations take it. */
export function formulaOf(draft) {
    return {
        lines: draft.lines.map(lineFor),
        stages: draft.stages.map((stage) => ({
            name: stage.name, kind: stage.kind,
            flour_percent: stage.percent, lines: stage.lines.map(lineFor),
        })),
    };
}
