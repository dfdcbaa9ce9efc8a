/* The batch book: its log, a batch planned beside actual, a paper sheet
 * entered afterwards, verdicts, and bags of minors. */

import assert from "node:assert/strict";
import { browserTest, call, runAll } from "./stage.js";
import { setUpShop } from "./shop.js";

let shop = null;

async function prepare(base) {
    shop = await setUpShop(base);
}

const plan = (base, balls, of = shop.instant) => call(base, "batch.plan",
    { pieces: [{ product_id: of.large, balls }] });

const reads = (page, who) => page.addInitScript((kept) =>
    localStorage.setItem("doughwright.person", JSON.stringify(kept)),
{ lang: "en", units: "us", theme: "day", person_id: 0, ...who });

const newest = async (base) => (await call(base, "batch.list", {})).batches
    .reduce((a, b) => b.batch.id > a.batch.id ? b : a).batch;

async function openSheet(page, base, who) {
    await plan(base, 40);
    const { id } = await newest(base);
    await reads(page, who);
    await page.goto(`${base}/book/${id}/sheet`);
    await page.getByLabel("First step at").waitFor();
    return id;
}

/* "14:05" in the shop, so many minutes ago; and the moment itself. */
function ago(minutes) {
    const ms = Math.floor(Date.now() / 60000) * 60000 - minutes * 60000;
    const text = new Intl.DateTimeFormat("en-GB", { hour: "2-digit",
        minute: "2-digit", timeZone: "America/New_York" }).format(ms);
    return { ms, text };
}

/* --- the log ------------------------------------------------------------- */

browserTest("a book without a batch teaches", "limit", "0 batches",
    async ({ page, base }) => {
        await reads(page);
        await page.goto(`${base}/book`);
        await page.getByRole("heading",
            { name: "Every batch writes itself down here" }).waitFor();
    });

browserTest("one batch reads as a sentence and opens", "limit", "1 batch",
    async ({ page, base }) => {
        await plan(base, 40);
        await reads(page);
        await page.goto(`${base}/book`);
        const line = page.getByRole("link", { name: /cold dough, batch 1/ });
        await line.waitFor();
        assert.match(await line.innerText(), /Planned for \d\d:\d\d\./);
        assert.match(await line.innerText(), /\d+ balls planned\./);
        await line.click();
        await page.getByRole("heading", { name: "Batch 1", exact: true })
            .waitFor();
        await page.getByRole("link", { name: "Enter its paper sheet" })
            .waitFor();
    });

/* --- the paper sheet ----------------------------------------------------- */

browserTest("a paper sheet is entered with keys alone in under 90 s",
    "derived", "10 keys a second; 78.8 °F = 26 °C, 0.5 lb = 0.226796185 kg",
    async ({ page, base }) => {
        const id = await openSheet(page, base);
        const { weighings } = await call(base, "batch.get", { id });
        const times = { started_ms: ago(200), stopped_ms: ago(186),
            first_box_ms: ago(180), last_box_ms: ago(165),
            closed_ms: ago(10) };
        const began = Date.now();
        const enter = async (text) => {
            await page.keyboard.type(text, { delay: 100 });
            await page.keyboard.press("Enter");
        };
        await enter(times.started_ms.text);
        for (const { weighing } of weighings)
            await enter(`${weighing.planned_kg} kg`);
        for (const reading of ["70", "72", "60", "55.4", "78.8"])
            await enter(reading);
        for (const name of ["stopped_ms", "first_box_ms", "last_box_ms",
            "closed_ms"])
            await enter(times[name].text);
        for (const rest of ["0.5", "6 oz", "39", "a little slack"])
            await enter(rest);
        await page.keyboard.press("Enter");
        await page.getByText(/is in the book/).waitFor();
        const seconds = (Date.now() - began) / 1000;
        console.log(`the sheet took ${seconds.toFixed(1)} s`);
        assert.ok(seconds < 90, `${seconds} s`);
        const card = await call(base, "batch.get", { id });
        for (const [name, { ms }] of Object.entries(times))
            assert.equal(card.batch[name], ms, name);
        assert.equal(card.batch.state, "closed");
        assert.equal(card.batch.on_paper, true);
        assert.ok(card.batch.entered_ms >= began - 1000);
        assert.equal(card.pieces[0].piece.balls_made, 39);
        assert.ok(Math.abs(card.batch.scrap_kg - 0.226796185) < 1e-9);
        assert.equal(card.batch.note, "a little slack");
        const dough = card.readings.find(({ kind }) => kind === "dough_c");
        assert.ok(Math.abs(dough.celsius - 26) < 1e-9);
        assert.deepEqual(card.weighings.map(({ weighing }) =>
            weighing.weighed_kg), weighings.map(({ weighing }) =>
            weighing.planned_kg));
    });

browserTest("errors of a sheet stand at their blank and nothing is kept",
    "limit", "bad input changes nothing", async ({ page, base }) => {
        const id = await openSheet(page, base);
        await page.getByLabel("First step at").fill(ago(100).text);
        await page.getByLabel("Mixer stopped at").fill(ago(120).text);
        await page.getByLabel("Dough, °F").fill("warm");
        await page.getByLabel("Salt, ").fill("3 miles");
        await page.getByRole("button", { name: "Put it into the book" })
            .click();
        const field = (name) => page.locator("label.field", {
            has: page.getByLabel(name) });
        await field("Mixer stopped at")
            .getByText("That is before the time above it").waitFor();
        await field("Dough, °F").locator(".field-error").waitFor();
        await field("Salt, ").locator(".field-error").waitFor();
        const { batch } = await call(base, "batch.get", { id });
        assert.equal(batch.state, "planned");
    });

browserTest("blanks are allowed and a typed sheet survives a reload", "limit",
    "blanks stay as planned", async ({ page, base }) => {
        const id = await openSheet(page, base);
        await page.getByLabel("First step at").fill(ago(100).text);
        await page.getByLabel("Dough, °F").fill("79");
        await page.reload();
        await page.getByLabel("Dough, °F").waitFor();
        assert.equal(await page.getByLabel("Dough, °F").inputValue(), "79");
        await page.getByRole("button", { name: "Put it into the book" })
            .click();
        await page.getByText(/is in the book/).waitFor();
        const { batch, stacks } = await call(base, "batch.get", { id });
        assert.equal(batch.state, "mixing");
        assert.equal(batch.stopped_ms, 0);
        assert.deepEqual(stacks, []);
    });

browserTest("a sheet entered without a network arrives once", "limit",
    "exactly once", async ({ page, context, base }) => {
        const id = await openSheet(page, base);
        await context.setOffline(true);
        const at = ago(60);
        await page.getByLabel("First step at").fill(at.text);
        await page.getByRole("button", { name: "Put it into the book" })
            .click();
        await page.getByText("Kept on this tablet").waitFor();
        assert.equal((await call(base, "batch.get", { id })).batch.started_ms,
            0);
        await page.getByRole("button", { name: "1 entry waits" }).waitFor();
        await context.setOffline(false);
        let began = 0;
        for (let i = 0; i < 80 && !began; i++) {
            await page.waitForTimeout(100);
            began = (await call(base, "batch.get", { id })).batch.started_ms;
        }
        assert.equal(began, at.ms);
    });

/* --- a batch ------------------------------------------------------------- */

browserTest("a verdict is one tap and stands in the log", "limit",
    "one-tap verdict at first use", async ({ page, base }) => {
        await reads(page);
        await page.goto(`${base}/book/2`);
        await page.getByRole("button", { name: "bubbles" }).click();
        await page.getByText(/: bubbles\./).waitFor();
        const { verdicts } = await call(base, "batch.get", { id: 2 });
        assert.equal(verdicts.at(-1).verdict, "bubbles");
        await page.getByRole("link", { name: "Batch book" }).first().click();
        const line = page.getByRole("link", { name: /cold dough, batch 2/ });
        await line.getByText("bubbles").waitFor();
        assert.match(await line.innerText(), /Entered from paper\./);
        assert.match(await line.innerText(), /39 balls of \d+ planned/);
    });

browserTest("a batch shows planned beside what came", "derived",
    "goal 26 °C; the sheet said 26 °C; 21 min of 25 on the bench",
    async ({ page, base }) => {
        await reads(page, { units: "metric" });
        await page.goto(`${base}/book/2`);
        await page.getByRole("heading", { name: "Temperatures" }).waitFor();
        const row = (name) => page.getByRole("row", { name });
        assert.equal((await row(/^Dough/).innerText()).replace(/\s+/g, " "),
            "Dough 26 °C 26 °C none");
        assert.match(await row(/^Closed/).innerText(), /\d\d:\d\d/);
        await page.getByText(/21\smin from the mixer's stop/).waitFor();
        await page.getByText(/The mixer gave .* kJ/).waitFor();
    });

/* --- bags of minors ------------------------------------------------------ */

browserTest("bags of minors are weighed, written down and listed", "derived",
    "salt 1.75 + sugar 2 + yeast 0.375 % of 24 kg is 0.99 kg, and 0.5 kg " +
    "of flour; 1 % of 1.49 kg is 14.9 g",
    async ({ page, base }) => {
        await reads(page, { units: "metric" });
        await page.goto(`${base}/minors`);
        await page.getByLabel("For the formula")
            .selectOption({ label: "cold dough" });
        await page.getByLabel("Flour of the batch", { exact: true })
            .fill("24");
        await page.getByLabel("Bags to fill").fill("3");
        await page.getByText("1.49 kg ± 14.9 g").waitFor();
        await page.getByLabel("Lots, as written on the packs").fill("S-9");
        await page.getByRole("button", { name: "Write down 3 bags" }).click();
        await page.getByText(/3 of 3 left/).waitFor();
        await page.getByText("Lots: S-9.").waitFor();
        const { lots } = await call(base, "minors.list", {});
        assert.equal(lots[0].lot.left_count, 3);
        assert.equal(lots[0].lot.discard_day - lots[0].lot.made_day, 7);
    });

browserTest("yeast that does not keep in a bag is refused plainly",
    "practice", "common practice, no source", async ({ page, base }) => {
        await reads(page);
        await page.goto(`${base}/minors`);
        await page.getByLabel("For the formula")
            .selectOption({ label: "wetted dough" });
        await page.getByText("Active dry yeast does not keep in a bag")
            .waitFor();
        assert.equal(await page.getByRole("button", { name: /Write down/ })
            .count(), 0);
    });

/* --- a full book --------------------------------------------------------- */

browserTest("a long book is found in by number, lot, person, days, verdict " +
    "and what was off", "limit", "45 batches, 40 of them at a time",
async ({ page, base }) => {
    const { batches: before } = await call(base, "batch.list", {});
    for (let n = before.length; n < 45; n++)
        await plan(base, 40);
    await reads(page);
    await page.goto(`${base}/book`);
    const lines = page.locator(".log-line");
    const counts = async (n, of) => {
        const end = Date.now() + 4000;
        while (await lines.count() !== n && Date.now() < end)
            await page.waitForTimeout(20);
        assert.equal(await lines.count(), n, of);
    };
    const find = async (text, count) => {
        await page.getByLabel("Find").fill(text);
        await counts(count, text);
    };
    await counts(40, "the newest");
    await page.getByRole("button", { name: "Further back" }).click();
    await counts(45, "all");
    const { batches } = await call(base, "batch.find", { limit: 1000 });
    const off = batches.filter((one) => one.changes > 0).length;
    await find("17", 1);
    await find("cold dough", 40);
    await find("100 % cold", 0);
    await page.getByText("No batch of the book is like that.").waitFor();
    await find("", 40);
    await page.getByRole("button", { name: /^By days/ }).click();
    await page.getByLabel("At first use").selectOption("bubbles");
    await counts(1, "bubbles");
    await page.getByLabel("At first use").selectOption("");
    await page.getByLabel("Something was off").check();
    await counts(off, "off");
    await page.getByLabel("Something was off").uncheck();
    await page.getByLabel("To", { exact: true }).fill("2020-01-01");
    await counts(0, "before there was a book");
});

browserTest("a batch of an older version tells what has changed since",
    "derived", "water from 58 to 62 %", async ({ page, base }) => {
        const { formula_id } = shop.active;
        const { batches: [{ batch: { id } }] } = await plan(base, 40,
            shop.active);
        await call(base, "batch.begin", { batch_id: id });
        const recipe = await call(base, "recipe.get", { formula_id });
        const lines = recipe.formula.lines.map((line) =>
            line.kind === "water" ? { ...line, percent: 62 } : line);
        await reads(page);
        await page.goto(`${base}/book/${id}`);
        await page.getByRole("heading", { name: "Weights" }).waitFor();
        assert.equal(await page.getByText("What has changed").count(), 0);
        await call(base, "recipe.save", { formula_id, name: recipe.name,
            dough_goal_c: recipe.dough_goal_c, steps: recipe.steps,
            formula: { ...recipe.formula, lines } });
        await page.getByRole("button", { name:
            "What has changed up to version 2" }).click();
        await page.locator(".changes",
            { hasText: /Water.*58.*62/ }).waitFor();
    });

await runAll(prepare);
