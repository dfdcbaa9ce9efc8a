/* Drift: the sentence with its day and what moved with it, its chart, and the
 * table behind it. */

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { setUp } from "./coldroom.js";
import { browserTest, call, runAll } from "./stage.js";

const AXE = readFileSync(
    createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const HOUR_MS = 3600000;
const BATCHES = 24;
const FROM = 12;

/* Scatter of a tenth of a degree or two, from no generator at all. */
const scatter = (i) => [0.1, -0.2, 0.2, -0.1, 0, 0.15, -0.15][i % 7];

/* From the thirteenth of 24 batches on, six hours apart, tap and dough are
 * warmer: 3 and 1.5 degC. */
async function mixAll(base) {
    for (let i = 0; i < BATCHES; i++) {
        const late = i >= FROM;
        const stopped_ms = Date.now() - (BATCHES - i) * 6 * HOUR_MS;
        const plan = await call(base, "batch.plan",
            { pieces: [{ product_id: 1, balls: 40 }] });
        await call(base, "batch.enter", { batch_id: plan.batches[0].batch.id,
            room_c: 22 + scatter(i + 2), flour_c: 21 + scatter(i + 4),
            tap_c: 12 + (late ? 3 : 0) + scatter(i + 1),
            dough_c: 25 + (late ? 1.5 : 0) + scatter(i),
            started_ms: stopped_ms - 840000, stopped_ms });
    }
}

async function prepare(base) {
    await setUp(base);
}

const open = async ({ page, base }, who = {}) => {
    await page.addInitScript((kept) =>
        localStorage.setItem("doughwright.person", JSON.stringify(kept)),
    { lang: "en", units: "us", ...who });
    await page.goto(`${base}/drift`);
};

browserTest("without batches the page says what it needs", "limit",
    "an empty state teaches", async (stage) => {
        await open(stage);
        await stage.page.getByRole("heading",
            { name: "Too few batches to look at" }).waitFor();
    });

browserTest("warmer dough is told with its day, its size and the tap",
    "derived", "planted: dough 1.5 degC = 2.7 degF, tap 3 degC = 5.4 degF " +
    "warmer from the 13th batch on, each to 0.4 degF",
    async (stage) => {
        const { page, base } = stage;
        await mixAll(base);
        await open(stage);
        const says = page.locator(".drift-says");
        await says.waitFor();
        const [, by] = /^Since \w+, \w+ \d+, \d\d:\d\d: dough ([\d.]+)\s°F warmer \(mixer\)\.$/
            .exec(await says.innerText());
        assert.ok(Math.abs(by - 2.7) < 0.4, by);
        const tap = page.getByText("The tap rose");
        const [, rose] = /([\d.]+)\s°F/.exec(await tap.innerText());
        assert.ok(Math.abs(rose - 5.4) < 0.4, rose);
        await page.getByRole("img", { name: /Dough temperature/ }).waitFor();
        await page.getByRole("button", { name: "24 values as a table" })
            .click();
        assert.equal(await page.locator("tbody tr").count(), BATCHES);
        await page.evaluate(AXE);
        const { violations } = await page.evaluate(() =>
            globalThis.axe.run({ runOnly: ["wcag2a", "wcag2aa"] }));
        assert.deepEqual(violations.map(({ id }) => id), []);
    });

browserTest("the batch book leads to it, in Spanish too", "limit",
    "the same step in degC", async (stage) => {
        const { page, base } = stage;
        await open(stage, { lang: "es", units: "metric" });
        await page.goto(`${base}/book`);
        await page.getByRole("link", { name: "Desviaciones" }).click();
        await page.getByText(/masa 1\.\d\s°C más caliente/).waitFor();
        await page.getByText(/Hay una falsa alarma cada 500 tandas/).waitFor();
    });

await runAll(prepare);
