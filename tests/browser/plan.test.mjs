/* The page Week on the demo: the plan is drawn, a batch that is moved makes
 * every row answer, a number says why, a day's batches are made in one tap. */

import assert from "node:assert/strict";
import { browserTest, call, demo, loopback, runAll, until } from "./stage.js";
import { nothingSerious, plain } from "./walk.js";

async function open({ page, base }) {
    await page.goto(`${base}/week`);
    await page.locator("button.block").first().waitFor();
}

const rows = (page) => page.locator(".plan-grid tbody").first().locator("tr");

/* What a screen reader hears of a product's days. */
const heard = (page, row) => rows(page).nth(row).locator("button")
    .evaluateAll((all) => all.map((one) => one.textContent));

browserTest("a fortnight is planned and nothing in it is nameless", "published",
    "axe-core; fourteen columns", async (stage) => {
        await open(stage);
        assert.equal(await stage.page.locator(".plan-grid thead th").count(), 15);
        await nothingSerious(stage.page);
    });

browserTest("a batch moved by the keyboard makes the balls' days answer",
    "derived", "what is made a day later is ready a day later",
    async (stage) => {
        await open(stage);
        const { page } = stage;
        const block = page.locator("button.block").last();
        const id = await block.getAttribute("id");
        const product = /^\d+ ([^,]+)/.exec(
            await block.getAttribute("title"))[1];
        const names = await rows(page).locator("th").allInnerTexts();
        const row = names.findIndex((name) => plain(name) === product);
        const before = await heard(page, row);
        await block.focus();
        await page.keyboard.press("ArrowLeft");
        await until("the row answers", async () =>
            String(await heard(page, row)) !== String(before));
        assert.equal(await page.locator(`#${id}`).count(), 1);
    });

browserTest("a tap on a number says what went into it", "limit",
    "seven inputs and the rule", async (stage) => {
        await open(stage);
        const { page } = stage;
        await rows(page).first().locator("button").nth(2).click();
        const why = page.locator("dialog[open]");
        await why.waitFor();
        assert.equal(await why.locator("tr").count(), 7);
        assert.match(await why.innerText(), /oldest first/);
    });

browserTest("the batches of a day are made in one tap and stay in the plan",
    "derived", "balls of the plan against those of the batch book",
    async (stage) => {
        await open(stage);
        const { page, base } = stage;
        const plan = await call(base, "week.plan", { days: 14 });
        const before = plan.plan.batches.filter((one) => one.fixed).length;
        await page.getByRole("button", { name: /^Make the batches of/ })
            .first().click();
        await until("they are kept", async () =>
            (await call(base, "week.plan", { days: 14 })).plan.batches
                .filter((one) => one.fixed).length > before);
    });

await runAll(undefined, async (folder) => {
    demo(folder);
    return loopback;
});
