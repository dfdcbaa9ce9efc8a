/* Today: what to do next, the day's temperatures, nothing and very much. */

import assert from "node:assert/strict";
import { browserTest, call, runAll, until } from "./stage.js";
import { nothingSerious, plain, stocked } from "./walk.js";
import { setUpShop } from "./shop.js";

browserTest("an empty business is told where to begin", "limit",
    "no shop, no product, nothing to do", async ({ page, base }) => {
        await page.goto(base);
        await page.getByText("Begin with your shop").waitFor();
        await page.goto(`${base}/count`);
        await page.getByText("Nothing to count yet").waitFor();
        await page.getByRole("button", { name: "Go to Shop" }).click();
        await page.getByText("Eight things").waitFor();
        await page.getByLabel("Name of the shop").fill("Birch Lane");
        await page.locator("#place").getByRole("button", { name: "Save" })
            .click();
        await page.getByRole("heading", { name: "Birch Lane" }).waitFor();
        await nothingSerious(page);
        await setUpShop(base);
    });

browserTest("a batch that is due stands first, with its card one tap away",
    "limit", "the plan of the test", async ({ page, base }) => {
        const { products } = await stocked(base);
        const { batches } = await call(base, "batch.plan", {
            pieces: [{ product_id: products[0].id, balls: 72 }],
            bag_of_minors: false });
        const { number, id } = batches[0].batch;
        await page.goto(base);
        const next = page.locator(".next > li").first();
        await next.waitFor();
        assert.match(plain(await next.innerText()),
            new RegExp(`Mix batch ${number}, cold dough`));
        await next.getByRole("link", { name: /^Open the card/ }).click();
        await page.waitForURL(`${base}/mix/${id}`);
    });

browserTest("bags of minors past their day are written off with one tap",
    "limit", "2 bags, their day is told as over", async ({ page, base }) => {
        const { products } = await stocked(base);
        const { lot } = await call(base, "minors.make", { flour_kg: 22.68,
            formula_id: products[0].formula_id, bags: 2 });
        const due = { kind: "discard_minors", due_ms: 1, balls: 2,
            name: "cold dough", minors_lot_id: lot.id, batch_id: 0,
            product_id: 0, number: 0, boxes: 0 };
        await page.route("**/api/v1/today.get", async (route) => {
            const response = await route.fetch();
            const today = await response.json();
            await route.fulfill({ response,
                json: { ...today, next: [due, ...today.next] } });
        });
        await page.goto(base);
        await page.getByRole("button", { name: /^Thrown away/ }).click();
        await until("no bag is left", async () => {
            const { lots } = await call(base, "minors.list", {});
            return lots.find((one) => one.lot.id === lot.id)
                .lot.left_count === 0;
        });
        await page.unrouteAll({ behavior: "ignoreErrors" });
    });

browserTest("a reading feeds the water of the next batch", "derived",
    "59 °F is 15 °C", async ({ page, base }) => {
        const { products } = await stocked(base);
        const { batches } = await call(base, "batch.plan", {
            pieces: [{ product_id: products[0].id, balls: 40 }],
            bag_of_minors: false });
        await page.goto(base);
        await page.getByRole("button", { name: /Tap water/ }).click();
        await page.keyboard.type("59");
        await page.keyboard.press("Enter");
        await page.getByText("Taken. The water").waitFor();
        const card = await call(base, "batch.get",
            { id: batches[0].batch.id });
        assert.equal(card.water.inputs.tap_c, 15); /* 59 F */
        assert.ok(card.water.tap_read);
    });

browserTest("whoever taps their name is written with what they do", "limit",
    "who read the tap", async ({ page, base }) => {
        const { id } = await call(base, "person.save",
            { name: "Wren", units: "metric" });
        await page.goto(base);
        await page.getByRole("button", { name: "lb, °F" }).click();
        await page.getByRole("radio", { name: "Wren" }).click();
        await page.keyboard.press("Escape");
        await page.getByRole("button", { name: "Wren kg, °C" }).waitFor();
        await page.getByRole("button", { name: /Tap water/ }).click();
        await page.keyboard.type("14");
        await page.keyboard.press("Enter");
        await page.getByText("Taken. The water").waitFor();
        const { readings } = await call(base, "today.get", {});
        const tap = readings.find((one) => one.kind === "tap_c");
        assert.equal(tap.celsius, 14);
        assert.equal(tap.person_id, id);
    });

browserTest("°F typed as °C is asked about and taken", "practice",
    "a room of 70 °C is a room of 70 °F", async ({ page, base }) => {
        await page.addInitScript(() => localStorage.setItem(
            "doughwright.person", JSON.stringify({ units: "metric" })));
        await page.goto(base);
        await page.getByRole("button", { name: /^Room/ }).click();
        await page.keyboard.type("70");
        await page.getByText("Look again?").waitFor();
        await page.getByRole("button", { name: "Use it all the same" })
            .click();
        await page.getByText("looks like °F typed as °C").waitFor();
        await page.getByRole("button", { name: /^Room/ }).click();
        await page.keyboard.type("21");
        await page.keyboard.press("Enter");
        await page.getByRole("button", { name: /^Room 21 °C/ }).waitFor();
    });

browserTest("what another tablet does shows without a touch", "limit",
    "server-sent events", async ({ page, base }) => {
        await page.goto(base);
        await page.getByText("How warm is it?").waitFor();
        await page.waitForTimeout(300);
        await call(base, "reading.save",
            { batch_id: 0, kind: "cold_c", celsius: 4 });
        await page.getByRole("button", { name: /^Cold room 39\.2 °F/ })
            .waitFor();
    });

browserTest("forty stacks fit on the page and stay readable", "limit",
    "10 mixing days of each product; nothing wider than the window",
    async ({ page, base }) => {
        const { products, day } = await stocked(base);
        await call(base, "count.save", { lines: products.slice(0, 4)
            .flatMap((one) => Array.from({ length: 10 }, (_, ago) => ({
                product_id: one.id, balls: 30, mixing_day: day - ago }))) });
        for (const width of [360, 768, 1280]) {
            await page.setViewportSize({ width, height: 900 });
            for (const path of ["/today", "/count"]) {
                await page.goto(base + path);
                await page.locator("h1").waitFor();
                await page.waitForTimeout(300);
                assert.equal(await page.evaluate(() =>
                    document.documentElement.scrollWidth), width);
            }
        }
        assert.equal(await page.locator(".shelf-line").count(), 40);
        await page.goto(`${base}/today`);
        await page.locator(".next > li").first().waitFor();
        await page.waitForTimeout(300);
        await nothingSerious(page);
    });

await runAll();
