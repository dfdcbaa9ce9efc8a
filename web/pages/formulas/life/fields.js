/* The same edges as blanks to write on. */

import { html } from "../../../lib/view.js";
import { writeNumber } from "../../../lib/quantity.js";
import { t } from "../../../lib/say.js";
import { Field, within } from "../../../life/field.js";
import { Amount } from "../../../parts/amount.js";

function Heat({ name, value, onValue }) {
    const say = (one) => writeNumber(one, 1);
    return html`<${Amount} needed name=${name} units="" shown=${say(value)}
        read=${(text) => within(Number(text.replace(",", ".")), 1, 60, say)}
        onValue=${onValue} />`;
}

/* The heat that a surface passes on: a detail for who has measured it. */
function Heats({ history, onMove }) {
    return html`
        <details>
            <summary>${t("How fast the air takes the heat")}</summary>
            <p class="quiet">${t("Watts for each square metre and degree: " +
                "open tray about 12, offset boxes 8, closed stack 3. Worked " +
                "out from practice; a core probe tells your own.")}</p>
            <div class="blanks">
                <${Heat} name=${t("While open, W/m²K")}
                    value=${history.open_h_w_per_m2_k}
                    onValue=${(h) => onMove("open_h_w_per_m2_k", h, true)} />
                <${Heat} name=${t("Closed, W/m²K")}
                    value=${history.closed_h_w_per_m2_k}
                    onValue=${(h) => onMove("closed_h_w_per_m2_k", h, true)} />
            </div>
        </details>`;
}

const FIELDS = {
    piece_g: () => ({ name: t("Each ball weighs"), dimension: "mass",
        low: 0.05, high: 2, times: 1000 }),
    dough_c: () => ({ name: t("Dough temperature"), dimension: "temperature",
        low: 5, high: 45 }),
    room_c: () => ({ name: t("Kitchen"), dimension: "temperature", low: 10,
        high: 45 }),
    bench_h: () => ({ name: t("On the bench"), dimension: "time",
        bare: "min", low: 1 / 60, high: 4 }),
    open_h: () => ({ name: t("Open in the cold"), dimension: "time", bare: "h",
        low: 1 / 60, high: 48 }),
    cold_c: () => ({ name: t("Cold room"), dimension: "temperature", low: -0.5,
        high: 15 }),
    out_h: () => ({ name: t("Taken out after"), dimension: "time", bare: "h",
        low: 1 / 60, high: 336, needed: false }),
};
const WARM = ["piece_g", "dough_c", "room_c"];
const COLD = [...WARM, "bench_h", "open_h", "cold_c", "out_h"];

export function Fields({ history, dough_c, cold, units, onMove }) {
    const values = { ...history, dough_c };
    return html`
        <div class="blanks screen-only">
            ${(cold ? COLD : WARM).map((field) => {
        const { times = 1, bare, ...rest } = FIELDS[field]();
        const value = values[field];
        return html`<${Field} key=${field} ...${rest} units=${units}
                    bare=${bare ?? (field !== "piece_g" ? undefined
            : units === "us" ? "oz" : "g")}
                    value=${value === null ? null : value / times}
                    onValue=${(to) => onMove(field,
            to === null ? null : to * times, true)} />`;
    })}
        </div>
        ${cold && html`<${Heats} history=${history} onMove=${onMove} />`}`;
}
