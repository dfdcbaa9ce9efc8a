/* What comes up while one works: a stack to close, an alarm, bags to throw
 * away, and what can be off with a batch. */

import assert from "node:assert/strict";
import { browserTest, call, runAll, until } from "./stage.js";
import { batchAt, setUpShop } from "./shop.js";

let shop = null;

async function prepare(base) {
    shop = await setUpShop(base);
}

const cardOf = (base, id) => call(base, "batch.get", { id });
const press = (page, name) =>
    page.getByRole("button", { name, exact: true }).click();

/* --- Today closes it ----------------------------------------------------- */

browserTest("Today closes a stack in one tap, and one more takes it back",
    "limit", "the closing step is ticked as on the card",
    async ({ page, base }) => {
        const id = await batchAt(base, shop.instant.large, "chill_open");
        const { pieces, batch: { number } } = await cardOf(base, id);
        await call(base, "batch.box", { batch_id: id,
            pieces: pieces.map(({ piece }) =>
                ({ id: piece.id, balls_made: piece.balls_planned })) });
        const state = async () => (await cardOf(base, id)).batch.state;
        await page.goto(`${base}/today`);
        const thing = page.locator(".next li",
            { hasText: `batch ${number}.` });
        await thing.getByRole("button", { name: /^It is closed/ }).click();
        await until("the stack is closed", async () =>
            await state() === "closed");
        await thing.waitFor({ state: "detached" });
        await press(page, "Undo");
        await until("it is open again", async () =>
            await state() === "boxed");
        await thing.waitFor();
    });

/* --- the alarm ----------------------------------------------------------- */

/* Each oscillator that is started, with the state of what it sounds in. */
const spyOnSound = (page) => page.addInitScript(() => {
    globalThis.tones = [];
    const { start } = OscillatorNode.prototype;
    OscillatorNode.prototype.start = function (at) {
        globalThis.tones.push({ state: this.context.state,
            hertz: this.frequency.value, ahead_s: at - this.context.currentTime });
        return start.call(this, at);
    };
});

const tones = (page) => page.evaluate(() => globalThis.tones);

browserTest("a timer that has run out is heard until somebody taps", "limit",
    "three tones every 20 s; a done step rings no more",
    async ({ page, base }) => {
        await spyOnSound(page);
        await page.clock.install();
        const id = await batchAt(base, shop.instant.large, "mix");
        await page.goto(`${base}/mix/${id}`);
        await page.locator(".big-timer .digits").waitFor();
        await page.locator("#stop-name").click(); /* wakes the sound */
        assert.deepEqual(await tones(page), []);
        await page.clock.fastForward("03:00");
        await page.getByText("Time is up.").first().waitFor();
        await until("three tones", async () =>
            (await tones(page)).length === 3);
        for (const { state, hertz, ahead_s } of await tones(page)) {
            assert.equal(state, "running");
            assert.ok(hertz > 200 && ahead_s < 2, `${hertz} Hz`);
        }
        await page.clock.fastForward("00:21");
        await until("it rings again", async () =>
            (await tones(page)).length === 6);
        await press(page, "Done");
        await page.locator(".big-timer").waitFor({ state: "detached" });
        await page.clock.fastForward("01:00");
        await page.clock.runFor(2000);
        assert.equal((await tones(page)).length, 6);
    });

browserTest("with the sound off a timer is only seen", "limit",
    "no oscillator is started", async ({ page, base }) => {
        await spyOnSound(page);
        await page.clock.install();
        const id = await batchAt(base, shop.instant.large, "mix");
        await page.goto(`${base}/mix/${id}`);
        await page.locator(".big-timer .digits").waitFor();
        await press(page, "Sound on");
        await page.clock.fastForward("03:00");
        await page.getByText("Time is up.").first().waitFor();
        await page.clock.runFor(2000);
        assert.deepEqual(await tones(page), []);
    });

/* --- something is off ---------------------------------------------------- */

/* Say on the card of a batch in the mixer what was off, tap by tap; the card
 * as it is then. */
async function say(page, base, taps) {
    const id = await batchAt(base, shop.instant.large, "mix");
    const before = await cardOf(base, id);
    await page.goto(`${base}/mix/${id}`);
    await press(page, "Something is off");
    for (const name of taps)
        await page.locator("dialog").getByRole("button",
            { name, exact: true }).click();
    await page.getByText("Written down.").waitFor();
    return { before, after: await cardOf(base, id) };
}

const weighed = (card, material) => card.weighings.find(({ weighing }) =>
    weighing.material === material).weighing.planned_kg;

/* Within half a division of the scale that weighed it. */
const near = (is_kg, wanted_kg, division_kg) => assert.ok(
    Math.abs(is_kg - wanted_kg) <= division_kg / 2,
    `${is_kg} kg, not ${wanted_kg} kg`);

browserTest("salt that was forgotten is missing from the dough", "derived",
    "dough less its salt", async ({ page, base }) => {
        const { before, after } = await say(page, base,
            ["Something was forgotten", "Salt"]);
        near(after.totals.dough_kg,
            before.totals.dough_kg - weighed(before, "Salt"), 0.001);
        assert.equal(after.batch.version_id, before.batch.version_id);
    });

browserTest("water that went in twice raises the absorption", "derived",
    "twice 58 %", async ({ page, base }) => {
        const { before, after } = await say(page, base,
            ["Something went in twice", "Water"]);
        near(after.totals.dough_kg,
            before.totals.dough_kg + weighed(before, "Water"), 0.02);
        assert.ok(Math.abs(after.totals.hydration_percent -
            2 * before.totals.hydration_percent) < 0.5);
    });

browserTest("another yeast that raises alike weighs by the usual table",
    "practice", "instant 0.35, fresh 1: 1 / 0.35 as much",
    async ({ page, base }) => {
        const { before, after } = await say(page, base,
            ["Another kind of yeast went in", "fresh yeast",
                "As much as raises alike"]);
        const was = weighed(before, "Instant yeast");
        near(after.totals.dough_kg, before.totals.dough_kg - was + was / 0.35,
            0.001);
        const { kind, to_kind } = after.changes.at(-1);
        assert.deepEqual([kind, to_kind], ["yeast_type", "yeast_fresh"]);
    });

browserTest("another lot is written on the batch", "limit",
    "the open lot L-2207", async ({ page, base }) => {
        const { after } = await say(page, base,
            ["Another lot went in", "Bread flour, lot L-2207"]);
        const { material_lots } = await call(base, "shop.get", {});
        const { kind, lot_id } = after.changes.at(-1);
        assert.deepEqual([kind, lot_id], ["lot",
            material_lots.find((lot) => lot.code === "L-2207").id]);
    });

/* --- an order in equal parts --------------------------------------------- */

browserTest("an order that needs two batches can be split in halves", "derived",
    "120 balls of 14 oz: a whole bag and a half, or two alike", async ({ page, base }) => {
        await page.goto(`${base}/batches`);
        await press(page, "Order balls");
        await page.locator(".wanted").first().click();
        await page.keyboard.type("120");
        await page.keyboard.press("Enter");
        const [one, other] = [0, 1].map((n) =>
            page.locator(".plan > li b").nth(n));
        await other.waitFor();
        assert.notEqual(await one.innerText(), await other.innerText());
        await page.getByRole("radio", { name: "Equal batches" })
            .check({ force: true });
        await until("two alike", async () =>
            await one.innerText() === await other.innerText());
    });

await runAll(prepare);
