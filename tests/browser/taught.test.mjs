/* What the shop has taught: a core read in the cold room, the section in Shop,
 * a reading left out and taken back in, the witness cup on the mix card. */

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { addBatch, setUp } from "./coldroom.js";
import { browserTest, call, runAll } from "./stage.js";

const AXE = readFileSync(
    createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

async function prepare(base) {
    await setUp(base);
}

const open = async ({ page, base }, path, who = {}) => {
    await page.addInitScript((kept) =>
        localStorage.setItem("doughwright.person", JSON.stringify(kept)),
    { lang: "en", units: "us", ...who });
    await page.goto(`${base}${path}`);
};

async function press(page, digits) {
    for (const digit of digits)
        await page.locator(".pad .keys button")
            .filter({ hasText: new RegExp(`^${digit}$`) }).click();
    await page.locator(".pad button.do").click();
}

browserTest("without a reading each lesson says what would teach it", "limit",
    "an empty state teaches", async (stage) => {
        await open(stage, "/shop");
        const section = stage.page.locator("#taught");
        await section.getByText("Read the core of a ball in a stack")
            .waitFor();
        await section.getByText("A witness cup off the mixer").waitFor();
    });

browserTest("a core read at a stack moves the closing stacks, and back",
    "limit", "one tap to leave it out, one to take it back", async (stage) => {
        const { page, base } = stage;
        await call(base, "reading.save", { kind: "cold_c", celsius: 3 });
        await addBatch(base, 2, { closed_ms: 0 });
        await open(stage, "/cold");
        await page.locator(".says").first().click();
        await page.locator("dialog").getByText("usual, not learned here yet")
            .first().waitFor();
        await page.getByRole("button", { name: "Read the core of a ball" })
            .click();
        await press(page, "65");
        await page.locator("dialog").getByText("learned from 1 reading")
            .first().waitFor();

        await page.goto(`${base}/shop`);
        const section = page.locator("#taught");
        await section.getByText("Open stacks give heat away").waitFor();
        const before = await section.locator("dd b").first().innerText();
        await section.getByText("The reading behind it").first().click();
        await section.getByRole("button", { name: "Leave out" }).click();
        await section.getByText("Read the core of a ball in a stack")
            .waitFor();
        await section.getByRole("button", { name: "Take back in" }).click();
        await section.getByText("Open stacks give heat away").waitFor();
        assert.equal(await section.locator("dd b").first().innerText(),
            before);
        await page.evaluate(AXE);
        const { violations } = await page.evaluate(() =>
            window.axe.run("#taught"));
        assert.deepEqual(violations.map((one) => one.id), []);
    });

browserTest("Formulas says what was learned in place of a fixed note", "limit",
    "the note gives way to what is true", async (stage) => {
        const { page, base } = stage;
        await open(stage, "/formulas/1");
        const life = page.locator(".life");
        await life.getByText("This shop has not taught its yeast yet")
            .waitFor();
        await addBatch(base, 30);
        const { batches } = await call(base, "batch.list", {});
        await call(base, "verdict.save", { batch_id: batches[0].batch.id,
            product_id: 1, verdict: "good" });
        await page.reload();
        await life.getByText("What this shop has taught is in it").click();
        await life.getByText("Strength of the instant yeast, learned here")
            .waitFor();
        assert.equal(await life.getByText("has not taught its yeast").count(),
            0);
    });

browserTest("a cup is begun and read on the mix card", "limit",
    "one tap to start, then the mark it has risen to", async (stage) => {
        const { page, base } = stage;
        const plan = await call(base, "batch.plan",
            { pieces: [{ product_id: 1, balls: 40 }] });
        const batch_id = plan.batches[0].batch.id;
        const stopped_ms = Date.now() - 5 * 60000;
        await call(base, "batch.enter", { batch_id, dough_c: 27,
            started_ms: stopped_ms - 840000, stopped_ms, pieces: [] });
        await open(stage, `/mix/${batch_id}`);
        await page.locator(".rail button")
            .filter({ hasText: "Dough temperature" }).click();
        await page.getByRole("button", { name: /Witness cup/ }).click();
        await press(page, "95");
        await page.getByText("Fill to 100 mL").waitFor();
        await page.getByRole("button", { name: /Witness cup/ }).click();
        await press(page, "101");
        await page.getByText(/min at 35/).waitFor();
        const { cups } = await call(base, "cup.list", { batch_id });
        assert.equal(cups[0].readings.length, 1);
        assert.ok(Math.abs(cups[0].cup.place_c - 35) < 0.01);
    });

await runAll(prepare);
