/* The curves as numbers, some of their rows. */

import { html } from "../../../lib/view.js";
import { writeNumber, writeQuantity } from "../../../lib/quantity.js";
import { t } from "../../../lib/say.js";
import { readinessAt, readinessWord } from "../../../life/words.js";

const ROWS = 13;

/* Rows spread over the drawing: close together while it cools. */
function rowsOf(life, early_h) {
    const last = life.time_h.length - 1;
    const wanted = Array.from({ length: ROWS }, (_, i) => {
        const early = early_h > 0 && i < 5;
        return early ? early_h * i / 4 : early_h +
            (life.time_h[last] - early_h) *
            (i - (early_h > 0 ? 4 : 0)) / (ROWS - (early_h > 0 ? 5 : 1));
    });
    return wanted.map((h) => life.time_h.reduce((best, time, i) =>
        Math.abs(time - h) < Math.abs(life.time_h[best] - h) ? i : best, 0));
}

const sizeOf = (life, band, i) => band
    ? t("{low}\u2013{high}", { low: writeNumber(band.p05[i], 1),
        high: writeNumber(band.p95[i], 1) })
    : writeNumber(life.volume_ratio[i], 1);

export function Table({ life, band, early_h, units }) {
    const degrees = (c) => writeQuantity(c, "temperature", units);
    const spread = band?.band.volume_ratio.p05.length === life.time_h.length
        ? band.band.volume_ratio : null;
    return html`
        <div class="wide" tabindex="0" role="region"
            aria-label=${t("The life as a table")}>
            <table class="numbers">
                <thead><tr>
                    <th scope="col">${t("After")}</th>
                    <th scope="col">${t("Core")}</th>
                    <th scope="col">${t("Mean")}</th>
                    <th scope="col">${t("Skin")}</th>
                    <th scope="col">${t("Size")}</th>
                    <th scope="col">${t("Gas, mL")}</th>
                    <th scope="col">${t("It is")}</th>
                </tr></thead>
                <tbody>${rowsOf(life, early_h).map((i) => html`
                    <tr key=${i}>
                        <th scope="row">${writeQuantity(life.time_h[i],
        "time", units)}</th>
                        <td class="number">${degrees(life.core_c[i])}</td>
                        <td class="number">${degrees(life.mean_c[i])}</td>
                        <td class="number">${degrees(life.skin_c[i])}</td>
                        <td class="number">${sizeOf(life, spread, i)}</td>
                        <td class="number">${writeNumber(
        life.gas_ml_per_100g_flour[i], 0)}</td>
                        <td>${readinessWord(readinessAt(life.window,
        life.time_h[i]))}</td>
                    </tr>`)}
                </tbody>
            </table>
        </div>`;
}
