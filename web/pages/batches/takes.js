/* What the mixer takes of a dough, and why. From the plan's reply alone. */

import { html, useState } from "../../lib/view.js";
import { writeNumber, writeQuantity } from "../../lib/quantity.js";
import { t } from "../../lib/say.js";
import { Why } from "../../parts/why.js";

const mass = (kg, units) => writeQuantity(kg, "mass", units);

const originOf = ({ origin, note }) => ({
    plate: t("the plate or manual: {note}", { note: note ?? "\u2013" }),
    table: t("makers' capacity charts for mixers of this size"),
    unknown: t("no rating is known"),
})[origin];

export function TakesWhy({ takes, dough_kg, units, onClose }) {
    const known = takes.max_dough_kg !== null;
    return html`
        <${Why} title=${takes.mixer ?? t("Mixer")} onClose=${onClose}
            value=${known ? t("at most {dough} of this dough", {
        dough: mass(takes.max_dough_kg, units) })
        : t("What it takes is not known: look at its plate.")}
            inputs=${[
        [t("This batch"), mass(dough_kg, units)],
        [t("Water on flour"), writeQuantity(takes.absorption_percent,
            "percent")],
        ...(takes.rated_kg !== null ? [[t("Rated at that"),
            mass(takes.rated_kg, units)]] : []),
        ...(takes.derating < 1 ? [[t("Less, for strong flour or cold"),
            t("times {n}", { n: writeNumber(takes.derating, 2) })]] : []),
        ...(takes.min_dough_kg !== null ? [[t("It picks up no less than"),
            mass(takes.min_dough_kg, units)]] : [])]}
            equation=${t("The rating at this much water, interpolated " +
        "between those known; below the lowest it shrinks with the water. " +
        "A tenth less for high-gluten flour, a tenth less for cold flour, " +
        "ice or water below {celsius}.", { celsius: writeQuantity(165 / 9,
        "temperature", units) })}
            rule=${t("the plate on the mixer decides, before any table")}
            source=${originOf(takes)} />`;
}

/* "48 lb of 90 lb in Big mixer", to be asked why. */
export function Takes({ takes, dough_kg, units }) {
    const [open, setOpen] = useState(false);
    return html`<button type="button" class="plain ask" aria-haspopup="dialog"
            onClick=${() => setOpen(true)}>${takes.max_dough_kg === null
        ? t("mixer's limit not known")
        : t("mixer takes {dough}", { dough: mass(takes.max_dough_kg,
            units) })}</button>
        ${open && html`<${TakesWhy} takes=${takes} dough_kg=${dough_kg}
            units=${units} onClose=${() => setOpen(false)} />`}`;
}
