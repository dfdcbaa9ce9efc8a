/* Count and Shop, as people use them: on the walk along the shelves, and once
 * when the shop is set up. */

import assert from "node:assert/strict";
import { browserTest, call, runAll } from "./stage.js";
import { setUpShop } from "./shop.js";
import { nothingSerious, plain, stocked } from "./walk.js";

const key = (page, name) => page.locator(".count-pad")
    .getByRole("button", { name, exact: true });

browserTest("a whole shop is counted in under a minute of taps", "derived",
    "4 products x 3 mixing days; 3 boxes of 8 and 4 are 28; 60 to have, 28 + " +
    "20 + 20 of days 0 to 2 all good tomorrow, day 3 the last", async (stage) => {
        const { page, base } = stage;
        await stocked(base);
        await page.goto(`${base}/count`);
        await page.locator(".count-pad").waitFor();
        const began = Date.now();
        let taps = 0;
        const tap = async (name) => {
            await key(page, name).click();
            taps++;
        };
        await tap("3");
        await tap("boxes");
        await tap("4");
        assert.equal(plain(await page.locator(".count-pad output")
            .innerText()), "3 boxes + 4 = 28");
        await tap("28, next");
        await tap("0");
        await tap("0, next");
        for (let i = 2; i < 12; i++)
            await tap("The same: 20");
        await page.getByRole("button", { name: "Write down the count" })
            .click();
        await page.getByRole("button", { name: "Count again" }).waitFor();
        const first = page.locator(".short li").first();
        assert.match(plain(await first.innerText()),
            /12 short for .*48 of 60 will be good then/);
        /* A wet finger takes about a second and a half for a tap. */
        const seconds = (Date.now() - began) / 1000 + 1.5 * (taps + 1);
        console.log(`${taps + 1} taps, ${seconds.toFixed(0)} s at 1.5 s each`);
        assert.ok(seconds < 60, `${seconds} s`);
        await page.getByRole("link", { name: "Look at them first" }).click();
        await page.getByRole("button", { name: /: 12 wanted$/ }).waitFor();
    }, { viewport: { width: 768, height: 1024 } });

browserTest("a keyboard counts as well as a finger, and a reload forgets " +
    "nothing", "limit", "what was typed is there again", async (stage) => {
        const { page, base } = stage;
        await stocked(base);
        await page.goto(`${base}/count`);
        await page.locator(".count-pad").waitFor();
        await page.keyboard.type("2b5");
        await page.keyboard.press("Enter");
        const done = page.locator(".shelf-line[data-done=true] b").first();
        assert.equal(parseInt(await done.innerText(), 10), 21);
        await page.reload();
        await done.waitFor();
        assert.equal(parseInt(await done.innerText(), 10), 21);
    });

browserTest("a count without a network waits and arrives once", "limit",
    "the outbox delivers it", async (stage) => {
        const { page, base, context } = stage;
        const { products } = await stocked(base);
        await page.goto(`${base}/count`);
        await page.locator(".count-pad").waitFor();
        await context.setOffline(true);
        await page.keyboard.type("7");
        await page.keyboard.press("Enter");
        for (let i = 0; i < 2; i++)
            await page.keyboard.press("Enter");
        await page.getByRole("button", { name: "Write down what is counted" })
            .click();
        await page.getByText("kept on this tablet").first().waitFor();
        await context.setOffline(false);
        const end = Date.now() + 8000;
        let balls = 0;
        while (balls !== 47 && Date.now() < end) {
            const sheet = await call(base, "count.get", {});
            balls = sheet.products.find((one) =>
                one.product_id === products[0].id).balls;
            await page.waitForTimeout(100);
        }
        assert.equal(balls, 47);
    });

browserTest("how many to have is typed in the grid", "limit",
    "what was typed is stored, the other days as they were", async (stage) => {
        const { page, base } = stage;
        const { products } = await stocked(base);
        await page.goto(`${base}/count`);
        await page.getByLabel(`${products[0].name} on Friday`).fill("96");
        await page.getByRole("button", { name: "Save the week" }).click();
        await page.getByText("Saved.").waitFor();
        const { build_tos } = await call(base, "shop.get", {});
        const mine = build_tos.filter((one) =>
            one.product_id === products[0].id);
        assert.deepEqual(mine.map((one) => one.balls),
            [60, 60, 60, 60, 96, 60, 60]);
    });

browserTest("a mixer takes what its plate says, in pounds or kilograms",
    "derived", "100 lb is 45.359237 kg by definition", async (stage) => {
        const { page, base } = stage;
        await page.goto(`${base}/shop`);
        await page.getByRole("button", { name: "Add a mixer" }).click();
        const dialog = page.getByRole("dialog");
        await dialog.getByLabel("What people call it").fill("Old mixer");
        await dialog.getByLabel("Kind").selectOption("fork");
        await dialog.getByText("is not known").waitFor();
        await dialog.getByLabel("The empty bowl weighs").fill("999 kg");
        await dialog.getByRole("button", { name: "Add a limit" }).click();
        await dialog.getByLabel("At absorption, %").fill("60");
        await dialog.getByLabel("most dough").fill("100");
        await dialog.getByText("by its plate").waitFor();
        await dialog.getByLabel("Where its limits were read").fill("plate");
        await dialog.getByRole("button", { name: "Save" }).click();
        /* 500 kg is 1102.3 lb */
        const error = dialog.locator(".field-error");
        await error.waitFor();
        assert.match(plain(await error.innerText()),
            /Between 0 oz and 1102\.3 lb/);
        await dialog.getByLabel("The empty bowl weighs").fill("40 lb");
        await dialog.getByRole("button", { name: "Save" }).click();
        await page.getByText("Saved.").waitFor();
        const shop = await call(base, "shop.get", {});
        const mixer = shop.mixers.find((one) => one.name === "Old mixer");
        const [limit] = shop.mixer_limits.filter((one) =>
            one.mixer_id === mixer.id);
        assert.ok(Math.abs(limit.rating.dough_kg - 45.359237) < 1e-9);
        assert.ok(Math.abs(mixer.bowl_kg - 18.1436948) < 1e-9);
    });

browserTest("Shop keeps what was set up and shows it in the other units",
    "derived", "5 and 12 in kg; 77 F is 25 C", async (stage) => {
        const { page, base } = stage;
        await page.goto(`${base}/shop`);
        const goal = page.getByLabel("Wanted dough temperature");
        await goal.fill("25 C");
        await goal.press("Tab");
        assert.equal(await goal.inputValue(), "77 °F");
        await page.locator("#bench").getByRole("button", { name: "Save" })
            .click();
        await page.getByText("Saved.").waitFor();
        const { shop } = await call(base, "shop.get", {});
        assert.equal(shop.dough_goal_c, 25);
        assert.equal(shop.zone, "America/New_York");
    });

for (const path of ["/count", "/shop"])
    browserTest(`nothing serious is in the way of a screen reader on ${path}`,
        "published", "axe-core rules", async ({ page, base }) => {
            await stocked(base);
            await page.goto(base + path);
            await page.locator("h1").waitFor();
            await page.waitForTimeout(400);
            await nothingSerious(page);
        });

for (const path of ["/count", "/shop"])
    browserTest(`${path} fits 360 px in both languages`, "limit",
        "nothing wider than the window", async ({ page, base }) => {
            for (const lang of ["en", "es"]) {
                await page.addInitScript((name) => localStorage.setItem(
                    "doughwright.person", JSON.stringify({ lang: name })),
                lang);
                await page.goto(base + path);
                await page.locator("h1").waitFor();
                await page.waitForTimeout(300);
                assert.equal(await page.evaluate(() =>
                    document.documentElement.scrollWidth), 360);
            }
        }, { viewport: { width: 360, height: 740 } });

await runAll(setUpShop);
