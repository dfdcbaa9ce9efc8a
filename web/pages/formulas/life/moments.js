/* The moments of the window as large numbers; each says why. */

import { html, useState } from "../../../lib/view.js";
import { writeNumber, writePercentNumber, writeQuantity }
    from "../../../lib/quantity.js";
import { t } from "../../../lib/say.js";
import { Mark } from "../../../life/strip.js";
import { MOMENTS, aboutHours, betweenHours, momentWord, rulesOf,
    sourceOfRules, stateOf } from "../../../life/words.js";
import { Why } from "../../../parts/why.js";

export function inputsOf(request, formula, band, learned, name, units) {
    const lines = formula.lines.filter((line) =>
        line.kind.startsWith("yeast_") ||
        ["water", "salt", "sugar"].includes(line.kind));
    const spread = band?.window[name];
    return [
        [t("Dough temperature"), writeQuantity(request.dough_c, "temperature",
            units)],
        [t("Each ball weighs"), writeQuantity(request.piece_g / 1000, "mass",
            units)],
        ...lines.map((line) => [line.material,
            t("{n} %", { n: writePercentNumber(line.percent) })]),
        ...request.legs.map((leg, i) => [
            i === request.legs.length - 1 ? t("then, at")
                : t("{time} at",
                    { time: writeQuantity(leg.hours, "time", units) }),
            t("{air}, {h} W/m²K", { h: writeNumber(leg.h_w_per_m2_k, 1),
                air: writeQuantity(leg.air_c, "temperature", units) })]),
        ...learned,
        ...(spread ? [[t("Nine lives in ten"), betweenHours(spread)],
            [t("Lives tried"), writeNumber(band.members, 0)]] : []),
    ];
}

export function Moments({ life, band, request, learned, units, days }) {
    const [open, setOpen] = useState(null);
    const { window } = life;
    const said = (name) => aboutHours(window[name]);
    return html`
        <dl class="moments">${MOMENTS.map((name) => html`
            <div key=${name}>
                <dt><${Mark} name=${stateOf[name]} />${" "}
                    ${momentWord(name)}</dt>
                <dd>
                    <button type="button" class="plain ask"
                        aria-haspopup="dialog" onClick=${() => setOpen(name)}>
                        ${said(name)}
                    </button>
                    <span class="quiet">${band
        ? betweenHours(band.window[name]) : "\u00a0"}</span>
                </dd>
            </div>`)}
        </dl>
        ${open && html`
            <${Why} title=${momentWord(open)} value=${said(open)}
                inputs=${inputsOf(request, request.formula, band, learned, open,
        units)}
                equation=${rulesOf(window.end_reason, life.limits)[open]}
                rule=${days}
                source=${sourceOfRules()}
                onClose=${() => setOpen(null)} />`}`;
}
