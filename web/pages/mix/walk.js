/* The order in which a batch is walked through: the day's temperatures, then
 * what is weighed, then what is done. Preferments come before the dough, each
 * whole; yeast that is wetted ten minutes ahead is weighed and wetted before
 * the rest is weighed. */

function weighStop(row) {
    return { key: `w${row.weighing.id}`, kind: "weigh", row,
        done: row.weighing.weighed_kg !== null, skipped: false };
}

function stepStop(row, saying) {
    return { key: `s${row.id}`, kind: row.step.kind, row, saying,
        step: row.step, done: row.done_ms > 0 && !row.skipped,
        skipped: row.skipped,
        running: row.started_ms > 0 && row.done_ms === 0 };
}

/* Taking the batch up is what ends the first look at the day. */
function readStop(card) {
    return { key: "read", kind: "read", skipped: false,
        done: card.batch.started_ms > 0 };
}

function portion(weighings, steps) {
    const wet = steps.filter((one) => one.kind === "wet_yeast");
    const early = new Set(wet.map((one) => one.step.material));
    const first = (one) => early.has(one.row.weighing.material);
    return [...weighings.filter(first), ...wet,
        ...weighings.filter((one) => !first(one)),
        ...steps.filter((one) => one.kind !== "wet_yeast")];
}

/* [{ key, kind, done, skipped, running, row, step, saying }] */
export function walkOf(card) {
    const weighings = card.weighings.map(weighStop);
    const steps = card.steps.map((row, i) => stepStop(row, card.sayings[i]));
    const stages = [...new Set(card.steps.map((row) => row.step.stage))]
        .filter(Boolean);
    const of = (stage) => portion(
        weighings.filter((one) => (one.row.stage ?? null) === stage),
        steps.filter((one) => (one.step.stage ?? null) === stage));
    return [readStop(card), ...stages.flatMap(of), ...of(null)];
}

/* Where the batch is: the first that is neither done nor left out and, when
 * one is running, not before it. */
export function currentOf(walk) {
    const open = (one) => !one.done && !one.skipped;
    const running = walk.find((one) => one.running && one.kind !== "wet_yeast"
        && one.kind !== "chill_open");
    return running ?? walk.find((one) => open(one) &&
        !(one.kind === "wet_yeast" && one.running)) ?? walk.at(-1);
}

/* What was tapped last, to be taken back: the stop and when. */
export function newestTap(walk) {
    const at = (one) => one.kind === "weigh" ? one.row.weighing.at_ms
        : one.row ? Math.max(one.row.done_ms, one.row.started_ms) : 0;
    return walk.reduce((best, one) =>
        at(one) > (best ? at(best) : 0) ? one : best, null);
}

export const isMinor = (kind) =>
    ["salt", "sugar", "malt", "gluten", "other"].includes(kind) ||
    kind.startsWith("yeast_");
