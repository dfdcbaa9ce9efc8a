/* What went into a batch: its cost as planned and what it contains. */

import { html } from "../../lib/view.js";
import { lang, t } from "../../lib/say.js";
import { mass } from "../mix/words.js";

/* Money is kept in the currency's smallest unit. */
function money(minor, currency) {
    const format = new Intl.NumberFormat(lang() === "es" ? "es-US" : "en-US",
        { style: "currency", currency, currencyDisplay: "narrowSymbol" });
    const digits = format.resolvedOptions().maximumFractionDigits;
    return format.format(minor / 10 ** digits);
}

export function Materials({ card: { totals }, shop, units }) {
    const oil = mass(totals.release_oil_kg, units);
    const cost = money(totals.cost_minor, shop.currency);
    return html`
        ${totals.allergens && html`<p><b>${t("Contains {allergens}.",
        { allergens: totals.allergens })}</b></p>`}
        <p>${totals.cost_complete
        ? t("The materials cost {cost} as planned, with {oil} of release oil.",
            { cost, oil })
        : t("The cost is not known: a material under Shop has no price. " +
            "Release oil: {oil}.", { oil })}</p>`;
}
