/* What becomes of each stack if it happens: a sentence, and the list on
 * paper. */

import { html } from "../../lib/view.js";
import { writeClock, writeDayName } from "../../lib/dates.js";
import { writeQuantity } from "../../lib/quantity.js";
import { t, tn } from "../../lib/say.js";
import { noLife } from "../../life/words.js";

const ALIKE_MS = 1800000; /* nothing here is known better than that */

export const keyOf = ({ stack_id, product_id, mixing_day }) =>
    `${stack_id}.${product_id}.${mixing_day}`;

const timeOf = (ms) => ms
    ? `${writeDayName(ms)} ${writeClock(ms)}` : t("not within 14 days");

const SENTENCES = {
    past: ({ after, before, over_ms }) => before && before <= over_ms
        ? t("past by then in any case")
        : t("past from {time}", { time: timeOf(after) }),
    use_first: ({ after, before }) =>
        t("use it first: past from {time} instead of {before}",
            { time: timeOf(after), before: timeOf(before) }),
    saved: ({ after, before }) => Math.abs(after - before) < ALIKE_MS
        ? t("saved, nothing changes")
        : t("saved: past from {time} instead of {before}",
            { time: timeOf(after), before: timeOf(before) }),
};

/* One sentence for a stack; sure: the band has been asked. */
export function fateSentence(fate, banded) {
    if (fate.no_life)
        return noLife(fate.no_life);
    if (!fate.touched)
        return t("not touched, as planned");
    const said = SENTENCES[fate.verdict]({ over_ms: fate.over_ms,
        after: fate.after.end.at_ms, before: fate.before.end.at_ms });
    return banded && !fate.sure
        ? t("likely {said}", { said }) : said;
}

/* What the verdict was worked out from. */
export function fateInputs(fate, units) {
    return [
        [t("When it is over"), timeOf(fate.over_ms)],
        [t("Core of the ball then"),
            writeQuantity(fate.core_c, "temperature", units)],
        [t("Past, as planned"), timeOf(fate.before.end.at_ms)],
        [t("Past, if it happens"), timeOf(fate.after.end.at_ms)],
        ...(fate.after.end.early_ms ? [[t("Nine lives in ten, past between"),
            t("{early} and {late}", { early: timeOf(fate.after.end.early_ms),
                late: timeOf(fate.after.end.late_ms) })]] : []),
    ];
}

export const fateRule = () => t("The ball's life is lived twice, as planned " +
    "and as it happened. Past: its end has come when it is over. Use first: " +
    "that moment has come. Saved: neither.");

const ORDER = ["past", "use_first", "saved", null];
const headOf = (verdict) => ({ past: t("Past: look at each, then throw away"),
    use_first: t("Use first"), saved: t("Saved") })[verdict] ??
    t("No model: by the shop's days");

function Part({ rows, banded }) {
    return rows.map(({ stack, fate }) => html`
        <tr key=${keyOf(stack)}>
            <th scope="row">${stack.name}</th>
            <td>${stack.number || "\u2013"}</td>
            <td>${tn("{n} box", "{n} boxes", stack.boxes_left)}</td>
            <td>${fateSentence(fate, banded)}</td>
            <td>\u25a1</td>
        </tr>`);
}

/* rows: [{ stack, fate }]; title: what happens, in words. */
export function FateSheet({ rows, title, sum, banded }) {
    return html`
        <section class="paper-only stack">
            <h2>${title}</h2>
            <p>${sum}</p>
            <table class="tonight">
                <thead><tr>
                    <th scope="col">${t("Stack")}</th>
                    <th scope="col">${t("Batch")}</th>
                    <th scope="col">${t("Left")}</th>
                    <th scope="col">${t("What becomes of it")}</th>
                    <th scope="col">${t("Done")}</th>
                </tr></thead>
                ${ORDER.map((verdict) => {
        const some = rows.filter(({ fate }) => fate.verdict === verdict);
        return some.length > 0 && html`<tbody key=${verdict}>
                    <tr><th scope="rowgroup" colspan="5" class="strong">
                        ${headOf(verdict)}</th></tr>
                    <${Part} rows=${some} banded=${banded} /></tbody>`;
    })}
            </table>
            <p>${t("Look at each before it goes: these are windows of " +
        "quality by a model and the shop's days, not a safety " +
        "clearance.")}</p>
        </section>`;
}
