/* The trade's words for kinds, styles and processes, and how a weight is
 * shown. */

import { writeQuantity } from "../../lib/quantity.js";
import { t } from "../../lib/say.js";

export const kinds = () => [
    ["flour", t("flour")], ["water", t("water")], ["salt", t("salt")],
    ["sugar", t("sugar")], ["fat", t("oil or fat")],
    ["yeast_fresh", t("fresh yeast")],
    ["yeast_active_dry", t("active dry yeast")],
    ["yeast_instant", t("instant yeast")], ["malt", t("malt")],
    ["gluten", t("vital gluten")], ["dairy", t("milk, egg or dairy")],
    ["dough", t("old dough or scrap")], ["other", t("something else")],
];

export const styles = () => [
    ["thin", t("thin")], ["new_york", t("New York")], ["pan", t("pan")],
    ["biscuit", t("biscuit deep dish")], ["cracker", t("cracker")],
    ["sicilian", t("Sicilian")], ["neapolitan", t("Neapolitan")],
    ["roman_tray", t("Roman tray")],
];

export const processes = () => [
    ["cold", t("cold overnight")], ["same_day", t("same day")],
    ["emergency", t("emergency")], ["frozen", t("frozen")],
];

export const stageKinds = () => [
    ["poolish", t("Poolish")], ["biga", t("Biga")], ["sponge", t("Sponge")],
    ["old_dough", t("Old dough")],
];

export function wordOf(list, value) {
    return list.find(([one]) => one === value)?.[1] ?? value;
}

export function mass(kg, units) {
    return kg === null || kg === undefined
        ? "\u2013" : writeQuantity(kg, "mass", units);
}

export const isYeast = (kind) => kind.startsWith("yeast_");
