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

/* From a stored recipe (recipe.get), or with none given a new formula with
 * these steps. */
export function draftOf(recipe, steps = []) {
    return {
        name: recipe?.name ?? "",
        style: recipe?.style ?? "thin",
        process: recipe?.process ?? "cold",
        note: "",
        dough_goal_c: recipe?.dough_goal_c ?? 25,
        lines: (recipe?.formula.lines ?? FIRST_LINES.map(
            ([material, kind, percent]) => ({ material, kind, percent })))
            .map(lineOf),
        stages: (recipe?.formula.stages ?? []).map(stageOf),
        steps: recipe?.steps ?? steps,
        slips_accepted: recipe?.slips_accepted ?? false,
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

/* With so much yeast, whichever it is. */
export function withYeast(lines, percent) {
    return lines.map((line) => line.kind.startsWith("yeast_")
        ? { ...line, percent, text: writePercentNumber(percent), error: null }
        : line);
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

/* As recipe.save takes it; `recipe` is what it was read as, or null. */
export function recipeOf(draft, recipe) {
    return {
        formula_id: recipe?.formula_id ?? 0,
        version_id: recipe?.version_id ?? 0,
        name: draft.name.trim(), style: draft.style, process: draft.process,
        note: draft.note || (recipe && !recipe.used ? recipe.note : null),
        dough_goal_c: draft.dough_goal_c,
        slips_accepted: draft.slips_accepted,
        formula: formulaOf(draft), steps: draft.steps,
    };
}

/* Does the draft differ from what is stored? */
export function differs(draft, recipe) {
    return JSON.stringify(recipeOf(draft, recipe)) !==
        JSON.stringify(recipeOf(draftOf(recipe), recipe));
}

/* Is any field of it unreadable as typed? */
export function hasErrors(draft) {
    return draft.lines.some((line) => line.error) || draft.stages.some(
        (stage) => stage.error || stage.lines.some((line) => line.error));
}

/* --- drafts that survive a reload ---------------------------------------- */

const place = (id) => `doughwright.draft.${id}`;

export function keepDraft(id, draft) {
    if (draft)
        localStorage.setItem(place(id), JSON.stringify(draft));
    else
        localStorage.removeItem(place(id));
}

/* The kept draft with keys of this page, or null. */
export function keptDraft(id) {
    try {
        const draft = JSON.parse(localStorage.getItem(place(id)));
        return draft && { ...draft,
            lines: draft.lines.map((line) => ({ ...line, key: newKey() })),
            stages: draft.stages.map((stage) => ({ ...stage, key: newKey(),
                lines: stage.lines.map((line) =>
                    ({ ...line, key: newKey() })) })) };
    } catch {
        return null;
    }
}
