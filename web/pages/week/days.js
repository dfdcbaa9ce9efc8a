/* Fourteen days on one scale: a light band for 19 days of 20, a darker one for
 * 8 of 10, a mark where as many days are above as below. A touch says why. */

import { html, useState } from "../../lib/view.js";
import { civilDay, longDay, shortDate, weekdays } from "../../lib/dates.js";
import { writeNumber } from "../../lib/quantity.js";
import { t } from "../../lib/say.js";
import { Dialog } from "../../parts/dialog.js";

const span = (low, high, most) =>
    ({ "--from": low / most, "--to": high / most });

export function Band({ day, most, came }) {
    return html`
        <span class="demand-band" aria-hidden="true">
            ${day.low_95 !== undefined && html`<span class="band-95"
                style=${span(day.low_95, day.high_95, most)}></span>`}
            <span class="band-80"
                style=${span(day.low_80, day.high_80, most)}></span>
            <span class="band-middle"
                style=${span(day.middle, day.middle, most)}></span>
            ${came !== undefined && html`<span class="band-came"
                style=${span(came, came, most)}></span>`}
        </span>`;
}

function Day({ day, most, onAsk }) {
    const closed = day.wanted.mean === 0;
    return html`
        <li>
            <button type="button" class="demand-day" aria-haspopup="dialog"
                data-changed=${day.override_reason ? "true" : null}
                onClick=${onAsk}>
                <span class="demand-name">
                    <span>${weekdays()[(day.day + 3) % 7]}</span>${" "}
                    <span>${shortDate(day.day)}</span></span>
                <${Band} day=${day} most=${most} />
                <b>${closed ? "–" : day.middle}</b>
                <span class="only-heard">${closed ? ""
        : t("balls likely; on 8 days of 10")}</span>
                <span class="quiet demand-range">${closed ? t("closed")
        : t("{low}–{high}", { low: day.low_80, high: day.high_80 })}</span>
                <span class="demand-note">${day.override_reason ??
        day.event ?? ""}</span>
            </button>
        </li>`;
}

const factor = (value) => t("{factor} ×", { factor: writeNumber(value, 2) });

function Why({ day, onClose }) {
    const rows = [[t("A mean day"), writeNumber(day.level, 1)],
        [t("This weekday"), factor(day.weekday_factor)]];
    if (day.event)
        rows.push([day.event, factor(day.event_factor)]);
    if (day.override_reason)
        rows.push([t("The forecast"), writeNumber(day.forecast_mean, 1)],
            [day.override_reason, writeNumber(day.wanted.mean, 1)]);
    else
        rows.push([t("Mean"), writeNumber(day.wanted.mean, 1)]);
    rows.push([t("On 8 days of 10"), t("{low}–{high}",
        { low: day.low_80, high: day.high_80 })],
    [t("On 19 days of 20"), t("{low}–{high}",
        { low: day.low_95, high: day.high_95 })]);
    return html`
        <${Dialog} beside title=${longDay(day.day)} onClose=${onClose}>
            <p><span class="why-value">${day.middle}</span>${" "}
                ${t("balls: as many days are above as below.")}</p>
            <table><tbody>${rows.map(([name, value]) => html`
                <tr key=${name}><th scope="row">${name}</th>
                    <td class="number">${value}</td></tr>`)}
            </tbody></table>
            <p class="quiet">${t("Level, weekdays and events are learned " +
        "together from what was sold; a day that sold out counts as at " +
        "least. The band holds the chance of the day and what is not yet " +
        "known.")}</p>
        <//>`;
}

function Table({ days }) {
    return html`
        <details>
            <summary>${t("The same as a table")}</summary>
            <div class="wide"><table>
                <thead><tr>
                    <th scope="col">${t("Day")}</th>
                    <th scope="col" class="number">${t("Likely")}</th>
                    <th scope="col" class="number">${t("8 days of 10")}</th>
                    <th scope="col" class="number">${t("19 days of 20")}</th>
                </tr></thead>
                <tbody>${days.map((day) => html`
                    <tr key=${day.day}>
                        <th scope="row">${civilDay(day.day)}</th>
                        <td class="number">${day.middle}</td>
                        <td class="number">${t("{low}–{high}",
        { low: day.low_80, high: day.high_80 })}</td>
                        <td class="number">${t("{low}–{high}",
        { low: day.low_95, high: day.high_95 })}</td>
                    </tr>`)}
                </tbody>
            </table></div>
        </details>`;
}

export function Days({ forecast }) {
    const [asked, ask] = useState(null);
    const { days } = forecast;
    const most = Math.max(1, ...days.map((day) => day.high_95));
    return html`
        <ol class="demand-days">${days.map((day) => html`
            <${Day} key=${day.day} day=${day} most=${most}
                onAsk=${() => ask(day)} />`)}
        </ol>
        <${Table} days=${days} />
        ${asked && html`
            <${Why} day=${asked} onClose=${() => ask(null)} />`}`;
}
