/* When to close a stack, on its card and on Today: by the life of its balls,
 * the trade's clock beside it, and why. */

import assert from "node:assert/strict";
import { addBatch, setUp } from "./coldroom.js";
import { browserTest, call, runAll } from "./stage.js";
import { nothingSerious } from "./walk.js";

const ids = {};

/* Two open stacks: one whose dough was read, one whose was not. */
async function prepare(base) {
    await setUp(base);
    await addBatch(base, 0.6, { closed_ms: 0 });
    await addBatch(base, 0.5, { closed_ms: 0, dough_c: null });
    const { open } = await call(base, "today.get", {});
    [ids.read, ids.unread] = open.map((one) => one.id).sort((a, b) => a - b);
}

async function open({ page, base }, path, who = {}) {
    await page.addInitScript((kept) =>
        localStorage.setItem("doughwright.person", JSON.stringify(kept)),
    { lang: "en", units: "us", ...who });
    await page.goto(base + path);
}

const plain = async (locator) =>
    (await locator.innerText()).replaceAll("\u00a0", " ").trim();

/* The card at its closing step. */
async function closing(stage, id, who) {
    await open(stage, `/mix/${id}`, who);
    await stage.page.locator(".rail").getByRole("button",
        { name: /Close the stack|Cerrar la pila/ }).first().click();
    await stage.page.locator(".stop .amount").waitFor();
}

browserTest("the card's last step says when to close by the life, the trade's " +
    "clock beside it and why they differ", "limit",
"the same as batch.get tells", async (stage) => {
    const { page, base } = stage;
    const { clock } = await call(base, "batch.get", { id: ids.read });
    await closing(stage, ids.read);
    const stop = page.locator(".stop");
    const zone = "America/New_York";
    const time = (ms) => new Intl.DateTimeFormat("en-GB", { hour: "2-digit",
        minute: "2-digit", timeZone: zone }).format(ms);
    assert.equal(await plain(stop.locator(".amount")),
        `${time(clock.life.from_ms)} to ${time(clock.life.by_ms)}`);
    const aside = await plain(stop.locator(".aside").first());
    assert.ok(aside.includes(`The trade's clock says ${
        time(clock.close_from_ms)} to ${time(clock.close_by_ms)};`), aside);
    assert.match(aside, /on the bench at .*heat of the yeast/);
    await stop.getByRole("button", { name: "Why?" }).click();
    const why = page.getByRole("dialog");
    for (const words of ["Dough off the mixer", "77 °F", "Close it by, likely",
        "The open stack gives up heat", "The trade's rule", "Source:"])
        await why.getByText(words).first().waitFor();
});

browserTest("without the dough's temperature the card goes by the trade's " +
    "clock and says so", "limit", "no model without a reading",
async (stage) => {
    const { page } = stage;
    await closing(stage, ids.unread);
    await page.locator(".stop").getByText(/By the trade's clock, a rule of/)
        .waitFor();
    await page.getByText(/dough's temperature was not read/).waitFor();
    assert.equal(await page.locator(".stop").getByRole("button",
        { name: "Why?" }).count(), 0);
});

browserTest("Today says what each closing time goes by, and why", "limit",
    "life where it can tell, else the clock", async (stage) => {
        const { page } = stage;
        await open(stage, "/");
        const things = page.locator(".next > li");
        await things.filter({ hasText: "batch 1" })
            .getByRole("button", { name: "by the life of the balls" }).click();
        const why = page.getByRole("dialog");
        await why.getByText("Close it by, likely between").waitFor();
        await why.getByRole("button", { name: "Close" }).click();
        await things.filter({ hasText: "batch 2" }).getByRole("button",
            { name: "by the trade's clock, a rule of thumb" }).click();
        await why.getByText("Cooling of a sphere").waitFor();
        await page.keyboard.press("Escape");
        await page.locator("dialog").waitFor({ state: "detached" });
    });

browserTest("axe finds nothing serious at the closing step and on Today",
    "published", "axe-core 4.14, WCAG 2.2 A and AA", async (stage) => {
        const { page } = stage;
        const cdp = await page.context().newCDPSession(page);
        await cdp.send("Page.setBypassCSP", { enabled: true });
        await closing(stage, ids.read);
        await nothingSerious(page);
        await open(stage, "/");
        await page.locator(".next .by").first().waitFor();
        await nothingSerious(page);
    });

for (const width of [360, 768, 1280])
    browserTest(`the closing step and Today fit ${width} px in Spanish`,
        "limit", "no sideways scrolling, 48 px", async (stage) => {
            const { page } = stage;
            await page.setViewportSize({ width, height: 800 });
            const fits = async () => assert.ok(await page.evaluate(() =>
                document.documentElement.scrollWidth) <= width);
            await closing(stage, ids.read, { lang: "es", units: "metric" });
            await fits();
            await open(stage, "/", { lang: "es", units: "metric" });
            const by = page.locator(".next .by").first();
            await by.waitFor();
            assert.ok((await by.boundingBox()).height >= 47.5);
            await fits();
        });

await runAll(prepare);
