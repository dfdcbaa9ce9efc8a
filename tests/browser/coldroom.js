/* A shop with one product and a cold room, for the tests of what is in it. */

import { call } from "./stage.js";

const HOUR_MS = 3600000;

const FORMULA = { stages: [], lines: [
    { material: "Flour", kind: "flour", percent: 100 },
    { material: "Water", kind: "water", percent: 60 },
    { material: "Salt", kind: "salt", percent: 2 },
    { material: "Instant yeast", kind: "yeast_instant", percent: 0.3 }] };

/* A shop with one product; nothing in its cold room. */
export async function setUp(base) {
    await call(base, "shop.save", { name: "Alder Street",
        zone: "America/New_York", currency: "USD" });
    await call(base, "mixer.save", { mixer: { name: "mixer", duty: "heavy",
        bowl_litres: 56.78, bowl_kg: 18 }, limits: [] });
    await call(base, "scale.save", { name: "floor scale", capacity_kg: 60,
        division_kg: 0.02 });
    await call(base, "scale.save", { name: "bench scale", capacity_kg: 3,
        division_kg: 0.001 });
    await call(base, "box_type.save", { name: "tray", length_m: 0.66,
        width_m: 0.46, owned: 80 });
    await call(base, "cold_room.save", { name: "walk-in", air_c: 3 });
    const { templates } = await call(base, "procedure.templates", {});
    await call(base, "recipe.save", { name: "White dough", dough_goal_c: 25,
        formula: FORMULA, steps: templates[0].steps });
    await call(base, "product.save", { name: "14 oz ball", position: 1,
        formula_id: 1, box_type_id: 1, ball_kg: 0.3969, balls_per_box: 8 });
}

/* A batch off paper whose mixer stopped so many hours ago: its stack's id. */
export async function addBatch(base, hours, more = {}) {
    const plan = await call(base, "batch.plan",
        { pieces: [{ product_id: 1, balls: 40 }] });
    const batch_id = plan.batches[0].batch.id;
    const { pieces } = await call(base, "batch.get", { id: batch_id });
    const stopped_ms = Math.round(Date.now() - hours * HOUR_MS);
    const card = await call(base, "batch.enter", { batch_id, room_c: 22,
        dough_c: 25, started_ms: stopped_ms - 840000, stopped_ms,
        pieces: [{ id: pieces[0].piece.id, balls_made: 40 }],
        first_box_ms: stopped_ms + 900000, last_box_ms: stopped_ms + 1200000,
        closed_ms: stopped_ms + 3 * HOUR_MS, ...more });
    return card.stacks[0].id;
}
