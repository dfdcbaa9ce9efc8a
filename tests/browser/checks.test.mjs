/* Checks: asked for, due on Today, written down with what was done. */

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { setUp } from "./coldroom.js";
import { browserTest, call, runAll } from "./stage.js";

const AXE = readFileSync(
    createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

const open = async ({ page, base }, path) => {
    await page.addInitScript((kept) =>
        localStorage.setItem("doughwright.person", JSON.stringify(kept)),
    { lang: "en", units: "us" });
    await page.goto(`${base}${path}`);
};

browserTest("a thermometer outside its limits is kept with what was done",
    "derived", "ice water: 36.5 degF = 2.5 degC, above 1 degC", async (stage) => {
        const { page, base } = stage;
        await open(stage, "/checks");
        await page.getByLabel("Called").fill("Probe 1");
        await page.getByRole("button", { name: "Ask for it" }).click();
        await page.getByRole("heading", { name: "Probe 1" }).waitFor();
        await page.getByLabel("It shows").fill("36.5");
        await page.getByRole("button", { name: "Write it down" }).click();
        await page.getByText(/say what was done about it/).waitFor();
        await page.getByLabel("Outside its limits: what was done")
            .fill("thrown away");
        await page.getByRole("button", { name: "Write it down" }).click();
        await page.getByText("thrown away").waitFor();
        const { done } = await call(base, "check.list", {});
        assert.equal(done.length, 1);
        assert.equal(done[0].within, false);
        assert.ok(Math.abs(done[0].value - 2.5) < 1e-9);
        await page.evaluate(AXE);
        const { violations } = await page.evaluate(() =>
            globalThis.axe.run({ runOnly: ["wcag2a", "wcag2aa"] }));
        assert.deepEqual(violations.map(({ id }) => id), []);
    });

browserTest("cleaning that is due is done on Today in one tap", "limit",
    "due ones appear on Today", async (stage) => {
        const { page, base } = stage;
        await call(base, "check.save", { what: "cleaning", name: "Mixer bowl",
            every_days: 1 });
        await open(stage, "/today");
        await page.getByRole("button", { name: /It is done\s+Check: Mixer bowl/ })
            .click();
        await page.getByText("Check: Mixer bowl").first()
            .waitFor({ state: "detached" });
        const { done } = await call(base, "check.list", {});
        assert.equal(done.length, 2);
    });

await runAll(setUp);
