/* A test is a sentence with a grade and a source, as in tests/dw_test.h:
 * published, derived, practice, limit, regression. */

import { test } from "node:test";
import { readFileSync } from "node:fs";

const GRADES = ["published", "derived", "practice", "limit", "regression"];

export function graded(sentence, grade, source, work) {
    if (!GRADES.includes(grade) || !source)
        throw new Error(`${sentence}: needs a grade and a source`);
    test(`${sentence} [${grade}: ${source}]`, work);
}

/* Rows of a CSV file under tests/data as objects. Quoted fields may hold
 * commas and doubled quotes, not line ends. */
export function rowsOf(name) {
    const path = new URL(`../data/${name}`, import.meta.url);
    const [head, ...rows] = readFileSync(path, "utf8").trimEnd().split("\n")
        .filter((line) => !line.startsWith("#")).map(cells);
    return rows.map((row) =>
        Object.fromEntries(head.map((key, i) => [key, row[i] ?? ""])));
}

function cells(line) {
    const found = line.matchAll(/("(?:[^"]|"")*"|[^,]*)(?:,|$)/g);
    return [...found].map(([, cell]) => cell.startsWith('"')
        ? cell.slice(1, -1).replaceAll('""', '"') : cell);
}
