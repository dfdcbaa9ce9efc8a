/* Trace: a lot is picked, its shops, picture and lists are told, a drill runs. */

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { setUp } from "./coldroom.js";
import { browserTest, call, runAll } from "./stage.js";

const AXE = readFileSync(
    createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/* A batch of 40 balls whose flour is of lot A-17. */
async function mixOne(base) {
    const plan = await call(base, "batch.plan",
        { pieces: [{ product_id: 1, balls: 40 }] });
    const { batch } = plan.batches[0];
    const card = await call(base, "batch.get", { id: batch.id });
    const { weighing } = card.weighings.find((one) =>
        one.weighing.kind === "flour");
    const { id: material_id } = await call(base, "material.save",
        { name: weighing.material, kind: "flour" });
    const { id: lot_id } = await call(base, "lot.receive",
        { material_id, code: "A-17", supplier: "Stone mill", kg: 100 });
    const stopped_ms = Date.now() - 3 * 3600000;
    await call(base, "batch.enter", { batch_id: batch.id,
        started_ms: stopped_ms - 840000, stopped_ms,
        first_box_ms: stopped_ms + 600000, last_box_ms: stopped_ms + 900000,
        weighings: [{ weighing_id: weighing.id, lot_id,
            weighed_kg: weighing.planned_kg }],
        pieces: [{ id: card.pieces[0].piece.id, balls_made: 40 }] });
}

const open = async ({ page, base }, who = {}) => {
    await page.addInitScript((kept) =>
        localStorage.setItem("doughwright.person", JSON.stringify(kept)),
    { lang: "en", units: "us", ...who });
    await page.goto(`${base}/trace`);
};

browserTest("without lots the page says what it needs", "limit",
    "an empty state teaches", async (stage) => {
        await open(stage);
        await stage.page.getByRole("heading", { name: "No lot has come yet" })
            .waitFor();
    });

browserTest("a lot is followed into its batch and stack, and drilled",
    "derived", "one lot, one batch, one stack", async (stage) => {
        const { page, base } = stage;
        await mixOne(base);
        await open(stage);
        await page.getByRole("link", { name: /A-17/ }).click();
        await page.getByRole("heading", { name: /A-17/ }).waitFor();
        assert.equal(await page.locator(".trace-picture g.node").count(), 3);
        assert.equal(await page.locator(".trace-picture path").count(), 2);
        await page.getByRole("button", { name: "Start a recall drill" })
            .click();
        await page.getByRole("button", { name: "All was found" }).click();
        await page.getByText("The drill is kept with its time.").waitFor();
        await page.evaluate(AXE);
        const { violations } = await page.evaluate(() =>
            globalThis.axe.run({ runOnly: ["wcag2a", "wcag2aa"] }));
        assert.deepEqual(violations.map(({ id }) => id), []);
    });

browserTest("it speaks Spanish", "limit", "po/es/trace.po", async (stage) => {
    const { page } = stage;
    await open(stage, { lang: "es", units: "metric" });
    await page.getByRole("link", { name: /A-17/ }).click();
    await page.getByRole("heading", { name: "Adónde fue" }).waitFor();
});

await runAll(setUp);
