/* The last weeks' forecasts, each made from what was known before its week,
 * against what came. */

import { html } from "../../lib/view.js";
import { civilDay } from "../../lib/dates.js";
import { writeNumber } from "../../lib/quantity.js";
import { t, tn } from "../../lib/say.js";
import { Band } from "./days.js";

const SHOWN = 7;

function Row({ day, most }) {
    const inside = day.came >= day.low_80 && day.came <= day.high_80;
    return html`
        <li class="past-day">
            <span>${civilDay(day.day)}</span>
            <${Band} day=${day} most=${most} came=${day.came} />
            <b class="number">${day.came}</b>
            <span class="quiet past-said">${day.at_least
        ? t("sold out; {low}–{high} were likely", { low: day.low_80,
            high: day.high_80 }) : inside
        ? t("inside {low}–{high}", { low: day.low_80, high: day.high_80 })
        : t("outside {low}–{high}", { low: day.low_80,
            high: day.high_80 })}</span>
        </li>`;
}

function Record({ record }) {
    return html`
        <p>${tn("Of the last {n} day, {share} % fell inside the band that " +
        "should hold 80 %.", "Of the last {n} days, {share} % fell inside " +
        "the band that should hold 80 %.", record.days, {
        share: writeNumber(record.covered_80_percent, 0) })}</p>
        <p class="quiet">${t("It erred by {error} of the usual difference " +
        "from week to week; taking last week's number by {naive}.", {
        error: writeNumber(record.scaled_error, 2),
        naive: writeNumber(record.scaled_error_last_week, 2) })}</p>`;
}

export function Past({ forecast }) {
    const days = forecast.checked.slice(-SHOWN);
    const most = Math.max(1, ...days.map((day) =>
        Math.max(day.high_80, day.came)));
    if (!forecast.record)
        return null;
    return html`
        <section class="stack" aria-labelledby="past-head">
            <h2 id="past-head" class="section-head">
                ${t("Last week, and what came")}</h2>
            <ul class="past-days">${days.map((day) => html`
                <${Row} key=${day.day} day=${day} most=${most} />`)}
            </ul>
            <${Record} record=${forecast.record} />
        </section>`;
}
