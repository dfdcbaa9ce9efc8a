/* Why? at the numbers of Count, Today and Batches: what went in, the rule, its
 * source, and the trade's rule beside it. */

import assert from "node:assert/strict";
import { setUpShop } from "./shop.js";
import { browserTest, call, runAll } from "./stage.js";
import { nothingSerious, stocked } from "./walk.js";

const shop = {};

async function prepare(base) {
    Object.assign(shop, await setUpShop(base));
    const { products } = await stocked(base);
    await call(base, "build_to.replace", { rows: products.flatMap((one) =>
        [0, 1, 2, 3, 4, 5, 6].map((weekday) =>
            ({ product_id: one.id, weekday, balls: 100 }))) });
}

async function open({ page, base }, path, who = {}) {
    await page.addInitScript((kept) =>
        localStorage.setItem("doughwright.person", JSON.stringify(kept)),
    { lang: "en", units: "us", ...who });
    await page.goto(base + path);
}

/* The open explanation has a value, inputs, a rule of the trade, a source. */
async function explains(page, ...words) {
    const why = page.getByRole("dialog");
    await why.locator(".why-value").waitFor();
    assert.ok(await why.locator("tr").count() > 0);
    for (const text of ["The trade's rule", "Source:", ...words])
        await why.getByText(text).first().waitFor();
    await page.keyboard.press("Escape");
    await page.locator("dialog").waitFor({ state: "detached" });
}

browserTest("Count tells why so many are short: to have, by age, what is good " +
    "then", "derived", "100 to have, less those of 20 of each of three days that are good then",
async (stage) => {
    const { page, base } = stage;
    const { products } = await call(base, "count.get", {});
    const line = products.find((one) => one.need > 0);
    assert.equal(line.need, line.build_to - line.usable);
    await open(stage, "/count");
    await page.locator(".short .ask", { hasText: line.name }).first().click();
    await explains(page, "100 balls", `${line.usable} balls`,
        `${line.need} short`);
});

browserTest("Today's stock tells the same", "limit", "one reply, one reason",
    async (stage) => {
        const { page } = stage;
        await open(stage, "/");
        await page.locator(".short-note .ask").first().click();
        await explains(page, "To be there on");
    });

browserTest("Batches tells what the mixer takes and why", "derived",
    "the plate of the mixer: 45 kg at 58 % water", async (stage) => {
        const { page, base } = stage;
        const plan = await call(base, "batch.preview", { pieces: [
            { product_id: shop.instant.large, balls: 60 }] });
        assert.ok(Math.abs(plan.batches[0].takes.rated_kg - 45) < 1e-6);
        await open(stage, "/batches");
        const pad = page.locator(".wanted").first();
        await pad.click();
        await page.keyboard.type("60");
        await page.keyboard.press("Enter");
        await page.locator(".plan .ask").first().click();
        await explains(page, "Plate on the column", "Water on flour",
            "Rated at that");
    });

for (const path of ["/count", "/batches"])
    browserTest(`axe finds nothing serious on ${path}, 48 px for fingers`,
        "published", "axe-core 4.14, WCAG 2.2 A and AA", async (stage) => {
            const { page } = stage;
            const cdp = await page.context().newCDPSession(page);
            await cdp.send("Page.setBypassCSP", { enabled: true });
            await page.setViewportSize({ width: 360, height: 800 });
            await open(stage, path, { lang: "es", units: "metric" });
            await page.locator("h1, h2").first().waitFor();
            await nothingSerious(page);
            assert.ok(await page.evaluate(() =>
                document.documentElement.scrollWidth) <= 360);
        });

await runAll(prepare);
