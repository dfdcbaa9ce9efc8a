/* A quantity of a ball's life as a blank, with the range it may have. */

import { html } from "../lib/view.js";
import { bareUnit, readQuantity, writeQuantity } from "../lib/quantity.js";
import { t } from "../lib/say.js";
import { Amount } from "../parts/amount.js";

export const within = (value, low, high, said) => {
    if (value < low || value > high)
        throw new Error(t("Between {low} and {high}, please",
            { low: said(low), high: said(high) }));
    return value;
};

/* name, dimension, bare: unit of a bare number (the person's usual one when
 * not told), its range; say(value): as text, when not as usual. */
export function Field({ name, value, dimension, bare, low, high, units,
    needed = true, say = (one) => writeQuantity(one, dimension, units),
    onValue }) {
    return html`<${Amount} name=${name} units=${units} needed=${needed}
        shown=${value === null ? "" : say(value).replaceAll("\u00a0", " ")}
        read=${(text) => within(readQuantity(text, dimension,
        bare ?? bareUnit(dimension, units)), low, high, say)}
        onValue=${onValue} />`;
}
