/* What the server refused, told with the names on the page instead of the
 * request's fields. What is not known here keeps the server's own sentence. */

import { writePercentNumber } from "../../lib/quantity.js";
import { t } from "../../lib/say.js";

function flourSum(draft) {
    return draft.lines.filter((line) => line.kind === "flour")
        .reduce((sum, line) => sum + line.percent, 0);
}

const lineAt = (draft, i) => draft.lines[i]?.material ?? "";
const stageAt = (draft, i) => draft.stages[i]?.name ?? "";
const stageLineAt = (draft, i, j) =>
    draft.stages[i]?.lines[j]?.material ?? "";

/* code, pattern of the field, sentence(draft, numbers in it, refusal). */
const KNOWN = [
    ["no_flour", /^formula/, () =>
        t("There is no flour, so percents mean nothing.")],
    ["does_not_add_up", /^formula\.lines$/, (draft) =>
        t("The flours add up to {sum} %; together they are always 100 %.",
            { sum: writePercentNumber(flourSum(draft)) })],
    ["does_not_add_up", /^formula\.stages\[(\d+)\]\.lines$/,
        (draft, [i]) => t("The flours of {stage} must add up to 100 %.",
            { stage: stageAt(draft, i) })],
    ["does_not_add_up", /^formula\.stages\[(\d+)\]\.lines\[(\d+)\]/,
        (draft, [i, j], { high }) => t("{stage} takes more {name} than the " +
            "whole formula has; at most {high} % of its flour.", {
            stage: stageAt(draft, i), name: stageLineAt(draft, i, j),
            high: writePercentNumber(high) })],
    ["missing", /^formula\.stages\[(\d+)\]$/, (draft, [i]) =>
        t("No step makes {stage} and adds it. Start from its template, or " +
            "add the steps.", { stage: stageAt(draft, i) })],
    ["missing", /^formula\.lines\[(\d+)\]$/, (draft, [i]) =>
        t("No step adds {name}.", { name: lineAt(draft, i) })],
    ["missing", /^formula\.stages\[(\d+)\]\.lines\[(\d+)\]$/,
        (draft, [i, j]) => t("No step adds {name} to {stage}.", {
            stage: stageAt(draft, i), name: stageLineAt(draft, i, j) })],
    ["conflict", /^formula\.lines\[(\d+)\]$/, (draft, [i]) =>
        t("{name} is added more than once.", { name: lineAt(draft, i) })],
    ["out_of_range", /^formula\.lines\[\d+\]\.material$/, () =>
        t("An ingredient has no name.")],
    ["out_of_range", /^target\./, () => t("Enter how much is wanted.")],
];

export function refusalSentence(refusal, draft) {
    for (const [code, pattern, sentence] of KNOWN) {
        const found = refusal.code === code && pattern.exec(refusal.field);
        if (found)
            return sentence(draft, found.slice(1).map(Number), refusal);
    }
    return refusal.message;
}
