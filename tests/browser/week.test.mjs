/* Week: fourteen days with their band, what people know, a register's file. */

import assert from "node:assert/strict";
import { browserTest, call, demo, loopback, runAll } from "./stage.js";
import { nothingSerious, plain } from "./walk.js";

browserTest("fourteen days say what is likely, and why", "limit",
    "the page's numbers are those of demand.get", async ({ page, base }) => {
        const told = await call(base, "demand.get", {});
        const { days } = told.products[0].forecast;
        await page.goto(`${base}/week`);
        await page.locator(".demand-day").nth(13).waitFor();
        assert.equal(await page.locator(".demand-day").count(), 14);
        const first = page.locator(".demand-day").first();
        assert.equal(Number(await first.locator("b").innerText()),
            days[0].middle);
        assert.equal(await first.locator(".demand-range").innerText(),
            `${days[0].low_80}–${days[0].high_80}`);
        await first.click();
        const why = page.getByRole("dialog");
        await why.getByText("A mean day").waitFor();
        await page.keyboard.press("Escape");
        await page.getByText("fell inside the band").waitFor();
        await nothingSerious(page);
    });

browserTest("a number of one's own stands on its day until it is taken away",
    "limit", "its own words", async ({ page, base }) => {
        await page.goto(`${base}/week`);
        await page.getByRole("button", { name: "Put a number of your own in" })
            .click();
        const form = page.getByRole("dialog");
        await form.getByLabel("Balls a day").fill("7");
        await form.getByLabel("Reason").fill("road closed");
        await form.getByRole("button", { name: "Save" }).click();
        const changed = page.locator('.demand-day[data-changed="true"]');
        await changed.waitFor();
        assert.match(plain(await changed.innerText()), /road closed/);
        await page.getByRole("button", { name: /road closed$/ }).last()
            .click();
        await page.getByRole("button", { name: "Take it away" }).click();
        await changed.waitFor({ state: "detached" });
    });

browserTest("a register's file is shown, confirmed and taken in", "derived",
    "3 April or 4 March; two lines of one day are 3 balls", async (stage) => {
        const { page, base } = stage;
        await page.goto(`${base}/week/sales`);
        await page.locator("input[type=file]").setInputFiles({
            name: "sales.csv", mimeType: "text/csv", buffer: Buffer.from(
                "Fecha;Tienda;Articulo;Cantidad\n" +
                "3/4/2024 18:05;Mill Pond;LARGE THIN 15OZ;2\n" +
                "3/4/2024 18:40;Mill Pond;LARGE THIN 15OZ;1\n" +
                "3/4/2024 18:41;Mill Pond;Cola;many\n") });
        const take = page.getByRole("button", { name: /take it in$/ });
        await take.waitFor();
        assert.ok(await take.isDisabled());
        await page.getByRole("radio", { name: "day, 28/3/2026" }).check();
        await page.getByText("Wed, Apr 3, 18:00").first().waitFor();
        assert.equal(await page.getByLabel("LARGE THIN 15OZ is")
            .locator("option:checked").innerText(), "Large thin 15 oz");
        const [file] = await Promise.all([page.waitForEvent("download"),
            page.getByRole("link", { name: "Take these rows home" }).click()]);
        assert.equal(file.suggestedFilename(), "kept-aside.csv");
        await nothingSerious(page);
        await take.click();
        await page.getByText("1 days are new").waitFor();
        const { sales } = await call(base, "sale.list",
            { from_day: 19816, to_day: 19816 }); /* date -u: 2024-04-03 */
        assert.deepEqual(sales.map((one) => one.balls), [3]);
    }, { viewport: { width: 768, height: 1024 } });

await runAll(undefined, async (folder) => {
    demo(folder);
    return loopback;
});
