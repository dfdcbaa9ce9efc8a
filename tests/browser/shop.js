/* A small shop of our own invention, set up through the program's own
 * operations, for the tests that need batches. */

import { call } from "./stage.js";

const LINES = [["Bread flour", "flour", 100], ["Water", "water", 58],
    ["Salt", "salt", 1.75], ["Sugar", "sugar", 2], ["Oil", "fat", 2]];

const OUNCE = 0.028349523125;

/* Open from 00:00 until 02:00 of the day after, so the hour of the test does
 * not matter. */
const hours = () => [0, 1, 2, 3, 4, 5, 6].map((weekday) =>
    ({ weekday, opens_minute: 0, leaves_minute: 1560 }));

async function tools(base) {
    await call(base, "mixer.save", { mixer: { name: "Big mixer",
        duty: "heavy", bowl_litres: 75.7, bowl_kg: 22,
        plate_note: "Plate on the column" },
    limits: [{ rating: { absorption_percent: 58, dough_kg: 45 } }] });
    await call(base, "scale.save", { name: "floor scale", capacity_kg: 60,
        division_kg: 0.02 });
    await call(base, "scale.save", { name: "bench scale", capacity_kg: 3,
        division_kg: 0.001 });
    await call(base, "box_type.save", { name: "tray", length_m: 0.66,
        width_m: 0.46, owned: 80 });
    await call(base, "cold_room.save", { name: "walk-in", air_c: 3 });
    await call(base, "standard_batch.replace", { rows: [
        { name: "whole bag", flour_kg: 22.68 },
        { name: "half bag", flour_kg: 11.34 }] });
    await call(base, "opening.replace", { rows: hours() });
    const flour = await call(base, "material.save", { name: "Bread flour",
        kind: "flour", pack_kg: 22.68, allergens: "wheat" });
    await call(base, "material_lot.save", { material_id: flour.id,
        code: "L-2201", open: true });
    await call(base, "material_lot.save", { material_id: flour.id,
        code: "L-2207", open: true });
}

/* A formula with this yeast and its two balls: { large, small } product ids. */
export async function product(base, name, yeast) {
    const { templates } = await call(base, "procedure.templates", {});
    const { formula_id } = await call(base, "recipe.save", { name,
        dough_goal_c: 26,
        formula: { lines: [...LINES, yeast].map(([material, kind, percent]) =>
            ({ material, kind, percent })) },
        steps: templates[0].steps });
    const ball = (size, ounces, perBox) => call(base, "product.save", {
        name: `${size} ${name}`, formula_id, box_type_id: 1,
        ball_kg: ounces * OUNCE, balls_per_box: perBox });
    const large = await ball("14 oz", 14, 8);
    const small = await ball("10 oz", 10, 12);
    return { formula_id, large: large.id, small: small.id };
}

/* A batch that has come to its first stop of that kind: "read" is planned,
 * "weigh" begun, at any other the steps before are done and it runs. */
export async function batchAt(base, product_id, kind) {
    const plan = await call(base, "batch.plan",
        { pieces: [{ product_id, balls: 60 }] });
    const { id } = plan.batches[0].batch;
    if (kind === "read")
        return id;
    const card = await call(base, "batch.begin", { batch_id: id });
    if (kind === "weigh")
        return id;
    if (kind !== "wet_yeast")
        for (const { weighing } of card.weighings)
            await call(base, "weighing.mark", { weighing_id: weighing.id,
                weighed_kg: weighing.planned_kg, lot_id: 0 });
    for (const row of card.steps) {
        const here = row.step.kind === kind;
        await call(base, "step.mark", { step_id: row.id,
            mark: here ? "begin" : "done" });
        if (here)
            break;
    }
    return id;
}

export async function setUpShop(base) {
    await call(base, "shop.save", { name: "Alder Street",
        zone: "America/New_York", currency: "USD", dough_goal_c: 26,
        release_oil_kg: 0.03 });
    await tools(base);
    for (const [kind, celsius] of [["flour_c", 21], ["room_c", 23],
        ["tap_c", 19]])
        await call(base, "reading.save", { batch_id: 0, kind, celsius });
    return { instant: await product(base, "cold dough",
        ["Instant yeast", "yeast_instant", 0.375]),
    active: await product(base, "wetted dough",
        ["Active dry yeast", "yeast_active_dry", 0.5]) };
}
