/* What a shop is made of: for each noun its form, and the sentence that stands
 * for a row on the list. */

import { civilDay } from "../../lib/dates.js";
import { writePercentNumber, writeQuantity } from "../../lib/quantity.js";
import { t } from "../../lib/say.js";
import { kinds, wordOf } from "../formulas/words.js";
import { onScale } from "../mix/words.js";
import { amount, day, money, number, orUnknown, pick, pickId, text, tick,
    whole } from "./fields.js";

const SMALL = { us: "oz", metric: "g" };
const small = { bare: SMALL };
const kg = (value, units) => writeQuantity(value, "mass", units);
const unitChoices = () => [["us", t("lb, oz, °F, in")],
    ["metric", t("kg, g, °C, cm")]];
const languages = () => [["en", "English"], ["es", "Español"]];
const stillHere = () => tick("here", () => t("Still in use"));
const nameField = () => text("name", () => t("What people call it"),
    { most: 60 });

/* --- scales, boxes, cold room -------------------------------------------- */

export const scales = {
    id: "scales", op: "scale.save",
    title: () => t("Scales"),
    about: () => t("Every weight on a sheet is split so that a scale can " +
        "show it."),
    add: () => t("Add a scale"),
    fields: () => [nameField(),
        amount("capacity_kg", () => t("Most it weighs"), "mass"),
        amount("division_kg", () => t("Smallest step it shows"), "mass",
            small), stillHere()],
    blank: () => ({ name: "", capacity_kg: null, division_kg: null,
        here: true }),
    says: (row, all, units) => t("To {most}, in steps of {step}.", {
        most: onScale(row.capacity_kg, row.division_kg, units),
        step: onScale(row.division_kg, row.division_kg, units) }),
};

export const boxes = {
    id: "boxes", op: "box_type.save",
    title: () => t("Dough boxes"),
    about: () => t("Batches are rounded to full boxes; boxes owned are a " +
        "limit too."),
    add: () => t("Add a kind of box"),
    fields: () => [nameField(),
        amount("length_m", () => t("Length, outside"), "length"),
        amount("width_m", () => t("Width, outside"), "length"),
        whole("owned", () => t("How many you own"))],
    blank: () => ({ name: "", length_m: null, width_m: null, owned: 0 }),
    says: (row, all, units) => t("{length} by {width}, {n} of them.", {
        length: writeQuantity(row.length_m, "length", units),
        width: writeQuantity(row.width_m, "length", units), n: row.owned }),
};

export const coldRooms = {
    id: "cold", op: "cold_room.save",
    title: () => t("Cold room"),
    about: () => t("Its usual air decides when a stack is closed. " +
        "Temperatures and dates follow your local code."),
    add: () => t("Add a cold room"),
    fields: () => [nameField(),
        amount("air_c", () => t("Usual air"), "temperature"),
        whole("box_slots", () => t("Boxes it holds")),
        orUnknown(number("capacity_w",
            () => t("Cooling capacity in watts, if known")))],
    blank: () => ({ name: "", air_c: null, box_slots: 0, capacity_w: 0 }),
    says: (row, all, units) => row.box_slots
        ? t("{air}, {n} boxes.", { n: row.box_slots,
            air: writeQuantity(row.air_c, "temperature", units) })
        : writeQuantity(row.air_c, "temperature", units),
};

/* --- people, shops that get dough ----------------------------------------- */

const roles = () => [["dough_maker", t("makes dough")],
    ["shift_lead", t("leads a shift")], ["manager", t("manages")],
    ["technologist", t("writes formulas")], ["reader", t("only reads")]];

export const people = {
    id: "people", op: "person.save",
    title: () => t("People"),
    about: () => t("So that a card knows who mixed, and speaks their " +
        "language. Nobody under 18 works a mixer where the law says so."),
    add: () => t("Add a person"),
    fields: () => [text("name", () => t("As called in the kitchen"),
        { most: 60 }), pick("role", () => t("What they do"), roles),
    pick("lang", () => t("Language"), languages),
    pick("units", () => t("Units"), unitChoices),
    tick("here", () => t("Still works here"))],
    blank: (all) => ({ name: "", role: "dough_maker", here: true,
        lang: all.shop?.lang ?? "en", units: all.shop?.units ?? "us" }),
    says: (row) => t("{role}, reads {language}.", {
        role: wordOf(roles(), row.role),
        language: wordOf(languages(), row.lang) }),
};

export const outlets = {
    id: "outlets", op: "outlet.save",
    title: () => t("Shops that get your dough"),
    about: () => t("For a commissary. A single shop leaves this empty."),
    add: () => t("Add a shop"),
    fields: () => [nameField()],
    blank: () => ({ name: "" }),
    says: () => "",
};

/* --- what goes in ---------------------------------------------------------- */

export const materials = {
    id: "materials", op: "material.save",
    title: () => t("Materials"),
    about: () => t("Use the names of your formulas: bags, water and " +
        "allergens are found by them."),
    add: () => t("Add a material"),
    fields: (all) => [text("name", () => t("What people call it"),
        { most: 60 }), pick("kind", () => t("What it is"), kinds),
    amount("pack_kg", () => t("One bag or pack weighs"), "mass",
        { optional: true }),
    money("pack_price", () => t("Price of a pack"),
        all.shop?.currency ?? "USD"),
    amount("protein_percent", () => t("Protein in it, %"), "percent",
        { optional: true }),
    amount("water_percent", () => t("Water in it, % (empty: the usual)"),
        "percent", { optional: true }),
    text("allergens", () => t("Allergens, as on the label"),
        { most: 120, optional: true }), stillHere()],
    blank: () => ({ name: "", kind: "flour", water_percent: null,
        protein_percent: null, pack_kg: null, pack_price: 0, allergens: null,
        here: true }),
    says: (row, all, units) => [wordOf(kinds(), row.kind),
        row.pack_kg && t("packs of {pack}", { pack: kg(row.pack_kg, units) }),
        row.allergens].filter(Boolean).join(" \u00b7 "),
};

function correction(row) {
    const percent = row.water_correction_percent;
    if (!percent)
        return t("the formula's water");
    return percent > 0
        ? t("{percent} % more water", { percent: writePercentNumber(percent) })
        : t("{percent} % less water",
            { percent: writePercentNumber(-percent) });
}

export const lots = {
    id: "lots", op: "material_lot.save",
    title: () => t("Lots"),
    about: () => t("A lot of flour that wants more or less water carries " +
        "that to its next batches."),
    add: () => t("Add a lot"),
    fields: (all) => [
        pickId("material_id", () => t("Of what"), all.materials),
        text("code", () => t("As printed on the bag"), { most: 40 }),
        text("supplier", () => t("Who sent it"),
            { most: 80, optional: true }),
        day("received_ms", () => t("When it came"), { moment: true }),
        day("best_before_day", () => t("Best before")),
        amount("kg", () => t("How much came"), "mass", { optional: true }),
        whole("packs", () => t("Bags or packs"), { optional: true }),
        amount("received_c", () => t("Temperature at the door"),
            "temperature", { optional: true }),
        text("carrier", () => t("Who brought it"),
            { most: 80, optional: true }),
        text("note", () => t("What was seen"), { most: 400, optional: true }),
        number("water_correction_percent",
            () => t("Water beside the formula's, % of flour")),
        tick("open", () => t("In use"))],
    blank: (all) => ({ material_id: all.materials[0]?.id ?? 0, code: "",
        supplier: null, received_ms: 0, best_before_day: 0, kg: null,
        packs: null, received_c: null, carrier: null, note: null,
        water_correction_percent: 0, open: true }),
    nameOf: (row, all) => t("{material}, lot {code}", { code: row.code,
        material: all.materials.find((one) =>
            one.id === row.material_id)?.name ?? "" }),
    says: (row) => row.best_before_day
        ? t("{correction}, best before {day}.", {
            correction: correction(row), day: civilDay(row.best_before_day) })
        : correction(row),
};

/* --- products -------------------------------------------------------------- */

const forms = () => [["ball", t("ball")], ["panned", t("panned")],
    ["sheet", t("sheet")], ["opened_skin", t("opened skin")],
    ["par_baked", t("par-baked")], ["frozen", t("frozen")]];
const holdings = () => [["offset_boxes", t("in boxes, stacked offset")],
    ["bagged_pan", t("in a bagged pan")], ["single_bags", t("bagged singly")],
    ["covered_rack", t("on a covered rack")]];
const dayField = (key, name) => whole(key, name, { optional: true });

export const products = {
    id: "products", op: "product.save",
    title: () => t("Products"),
    about: () => t("The pieces you make: what is counted, ordered and " +
        "boxed."),
    add: () => t("Add a product"),
    fields: (all) => [text("name", () => t("What people call it"),
        { most: 60 }),
    pickId("formula_id", () => t("Made from"), all.formulas),
    amount("ball_kg", () => t("Weight of a piece"), "mass", small),
    pickId("box_type_id", () => t("Kept in"), all.box_types),
    whole("balls_per_box", () => t("Pieces in a box")),
    pick("form", () => t("What it is"), forms),
    pick("holding", () => t("How it is held"), holdings),
    whole("position", () => t("Place on the lists")),
    dayField("ready_day", () => t("Ready on day (empty: the shop's)")),
    dayField("best_day", () => t("Best on day")),
    dayField("use_first_day", () => t("Used first from day")),
    dayField("last_day", () => t("Last day")),
    tick("here", () => t("Still made"))],
    blank: (all) => ({ name: "", position: all.products.length + 1,
        formula_id: all.formulas[0]?.id ?? 0, ball_kg: null,
        box_type_id: all.box_types[0]?.id ?? 0, balls_per_box: 6,
        form: "ball", holding: "offset_boxes", ready_day: null,
        best_day: null, use_first_day: null, last_day: null, here: true }),
    says: (row, all, units) => t("{weight} of {formula}, {n} in a box.", {
        weight: kg(row.ball_kg, units), n: row.balls_per_box,
        formula: all.formulas.find((one) => one.id === row.formula_id)
            ?.name ?? "\u2013" }),
};
