/* The batch sizes a shop likes: whole bag, three quarters, half. */

import { t } from "../../lib/say.js";
import { writeQuantity } from "../../lib/quantity.js";
import { amount, text } from "./fields.js";

const fields = () => [text("name", () => t("What people call it"),
    { most: 60 }), amount("flour_kg", () => t("Its flour"), "mass")];

/* The list is written as a whole: an editor of one row gives the new list. */
function listWith(all, row) {
    const plain = ({ name, flour_kg }) => ({ name, flour_kg });
    const rows = all.standard_batches.map((one) =>
        plain(one.id === row.id ? row : one));
    return { rows: (row.id ? rows : [...rows, plain(row)])
        .sort((a, b) => b.flour_kg - a.flour_kg)
        .map((one, position) => ({ ...one, position })) };
}

export const standardBatches = {
    id: "standard", op: "standard_batch.replace", fields,
    title: () => t("Standard batches"),
    about: () => t("Whole bag, three quarters, half: an order is filled " +
        "with these first."),
    add: () => t("Add a size"),
    toRequest: listWith,
    blank: () => ({ name: "", flour_kg: null }),
    says: (row, all, units) => t("{flour} of flour.",
        { flour: writeQuantity(row.flour_kg, "mass", units) }),
};
