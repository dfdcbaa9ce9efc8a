/* The mix card and the list of batches, as a dough maker uses them. */

import assert from "node:assert/strict";
import { browserTest, call, runAll, until } from "./stage.js";
import { setUpShop } from "./shop.js";

let shop = null;

async function prepare(base) {
    shop = await setUpShop(base);
}

/* A batch of its own for each test: its id. */
async function planned(base, product_id, balls = 60) {
    const plan = await call(base, "batch.plan",
        { pieces: [{ product_id, balls }] });
    return plan.batches[0].batch.id;
}

const cardOf = (base, id) => call(base, "batch.get", { id });

async function open(page, base, id) {
    await page.goto(`${base}/mix/${id}`);
    await page.locator("#stop-name").waitFor();
}

async function begin(page) {
    await page.getByRole("button", { name: /^Begin batch/ }).click();
    await at(page, /^Weigh/);
}

const stopName = (page) => page.locator("#stop-name");

async function at(page, name) {
    await until("what was tapped",
        async () => name.test(await stopName(page).innerText()));
}

async function type(page, digits) {
    await page.locator("dialog .pad").waitFor();
    await page.keyboard.type(digits);
    await page.keyboard.press("Enter");
}

const plain = (text) => text.replaceAll("\u00a0", " ");
const press = (page, name) =>
    page.getByRole("button", { name, exact: true }).click();
const goTo = (page, name) =>
    page.locator(".rail").getByRole("button", { name }).first().click();

/* 1:58 as seconds. */
function seconds(text) {
    const [minutes, rest] = text.split(":").map(Number);
    return minutes * 60 + rest;
}

/* --- one batch, two tablets ---------------------------------------------- */

const TAP = ".card-next .do, .card-next .answer";

/* The stop in sight and its main button. */
const facing = (page) => page.evaluate((tap) =>
    document.querySelector("#stop-name").innerText +
    document.querySelector(tap)?.innerText, TAP);

/* What is tapped at each stop, first to last; the other tablet follows. */
async function walk(page, other) {
    const seen = [];
    for (let i = 0; i < 60; i++) {
        const name = await stopName(page).innerText();
        if (name !== seen.at(-1))
            seen.push(name);
        if (name === "Warm up")
            return seen;
        if (name === "Dough temperature") {
            await page.locator(".reading").first().click();
            await type(page, "80");
            await page.getByText(/The mixer gave \d/).waitFor();
        }
        const before = await facing(page);
        await page.locator(TAP).first().click();
        await until("what was tapped",
            async () => await facing(page) !== before);
        if (/^(Weigh|Add|Stop)/.test(name))
            await until("what was tapped",
                async () => await stopName(other).innerText() ===
                await stopName(page).innerText());
    }
    throw new Error(`the card never ended: ${seen.join(", ")}`);
}

browserTest("a batch is walked to its closed stack, two tablets alike",
    "practice", "the order of delayed oil: common practice, no source",
    async ({ page, context, base }) => {
        const id = await planned(base, shop.instant.large, 48);
        await open(page, base, id);
        const tablet = await context.browser().newContext();
        const other = await tablet.newPage();
        await open(other, base, id);
        const seen = await walk(page, other);
        await tablet.close();
        const order = ["Add Water", "Add Salt", "Add Bread flour",
            "Add Instant yeast", "Low speed", "Add Oil", "Look at the oil",
            "Second speed", "Stop the mixer", "Dough temperature",
            "Cold room, open", "Close the stack"].map((one) =>
            seen.indexOf(one));
        assert.ok(order.every((place, i) =>
            place >= 0 && (i === 0 || place > order[i - 1])), seen.join(", "));
        await until("what was tapped", async () =>
            (await cardOf(base, id)).batch.state === "closed");
        const card = await cardOf(base, id);
        assert.ok(card.weighings.every((row) =>
            row.weighing.weighed_kg === row.weighing.planned_kg));
        assert.equal(card.stacks[0].balls, card.pieces[0].piece.balls_planned);
        assert.ok(card.batch.first_box_ms <= card.batch.last_box_ms);
        assert.ok(card.batch.work_j_per_kg_dough > 0);
        await press(page, "Whole batch");
        await page.getByRole("radio", { name: "bubbles" })
            .check({ force: true });
        await until("what was tapped",
            async () => (await cardOf(base, id)).verdicts
            .some((one) => one.verdict === "bubbles"));
    });

/* --- in reach ------------------------------------------------------------ */

/* What is wrong with the stop in sight before and after it is scrolled. */
const outOfReach = (page) => page.evaluate((tap) => {
    const wrong = [];
    const seen = document.scrollingElement;
    const name = document.querySelector("#stop-name").innerText;
    for (const button of document.querySelectorAll(
        `${tap}, .card-foot button`)) {
        const { left, right, top, bottom } = button.getBoundingClientRect();
        const found = document.elementFromPoint((left + right) / 2,
            (top + bottom) / 2);
        if (left < 0 || right > innerWidth || bottom > innerHeight ||
            !button.contains(found))
            wrong.push(`${name}: ${button.innerText} is out of reach`);
    }
    seen.scrollTo(0, seen.scrollHeight);
    const end = Math.max(...[...document.querySelector(".stop").children]
        .map((one) => one.getBoundingClientRect().bottom));
    if (end > document.querySelector(".card-bar").getBoundingClientRect().top)
        wrong.push(`${name}: its end stays under the bar`);
    if (seen.scrollWidth > innerWidth)
        wrong.push(`${name}: wider than the screen`);
    seen.scrollTo(0, 0);
    return wrong;
}, TAP);

browserTest("what is tapped next is in reach at every stop on every screen",
    "limit", "no scrolling, nothing over it, nothing left under it",
    async ({ page, base }) => {
        const id = await planned(base, shop.active.large);
        await call(base, "batch.begin", { batch_id: id });
        for (const lang of ["en", "es"]) {
            await page.goto(`${base}/mix/${id}`);
            await page.evaluate((kept) => localStorage.setItem(
                "doughwright.person", kept), JSON.stringify({ lang }));
            await open(page, base, id);
            for (const [width, height] of [[360, 640], [768, 1024],
                [1280, 800]]) {
                await page.setViewportSize({ width, height });
                const stops = page.locator(".rail button");
                for (let i = 0; i < await stops.count(); i++) {
                    await stops.nth(i).evaluate((one) => one.click());
                    await page.locator(".rail li").nth(i)
                        .locator("[aria-current]").waitFor();
                    assert.deepEqual(await outOfReach(page), [],
                        `${lang}, ${width} x ${height}`);
                }
            }
        }
    });

/* --- timers -------------------------------------------------------------- */

const bigTimer = async (page) =>
    seconds(await page.locator(".big-timer .digits").innerText());

async function startMixing(page) {
    await goTo(page, /Low speed/);
    await press(page, "Start the mixer");
    await page.locator(".big-timer .digits").waitFor();
}

/* Seconds that are left of two minutes, by the server. */
async function leftOf(base, id) {
    const { steps } = await cardOf(base, id);
    const running = steps.find((row) => row.step.kind === "mix" &&
        row.started_ms > 0 && row.done_ms === 0);
    const { now_ms } = await call(base, "today.get", {});
    return 120 - (now_ms - running.started_ms) / 1000;
}

browserTest("a timer runs on through a reload and on a closed tablet", "limit",
    "two minutes less what has passed", async ({ page, context, base }) => {
        const id = await planned(base, shop.instant.large);
        await open(page, base, id);
        await startMixing(page);
        await page.waitForTimeout(2200);
        await page.reload();
        await page.locator(".big-timer .digits").waitFor();
        assert.ok(Math.abs(await bigTimer(page) - await leftOf(base, id)) < 2);
        await page.close();
        await new Promise((resolve) => setTimeout(resolve, 1500));
        const again = await context.newPage();
        await open(again, base, id);
        await again.locator(".big-timer .digits").waitFor();
        assert.ok(Math.abs(await bigTimer(again) - await leftOf(base, id)) < 2);
    });

browserTest("a tablet whose clock is an hour off starts the same timer",
    "limit", "two minutes, whatever the tablet's clock says",
    async ({ page, base }) => {
        const id = await planned(base, shop.instant.large);
        await page.addInitScript(() => {
            const real = Date.now.bind(Date);
            Date.now = () => real() + 3600000;
        });
        await open(page, base, id);
        await startMixing(page);
        await until("what was tapped",
            async () => (await cardOf(base, id)).batch.started_ms > 0);
        const left = await leftOf(base, id);
        assert.ok(left > 110 && left <= 120.5, `${left} s`);
        assert.ok(Math.abs(await bigTimer(page) - left) < 3);
        await page.evaluate(() => {
            const was = Date.now.bind(Date);
            Date.now = () => was() - 7200000;
        });
        await page.waitForTimeout(1500);
        assert.ok(Math.abs(await bigTimer(page) - await leftOf(base, id)) < 3);
    });

browserTest("every card shows the timers of all batches", "limit",
    "several batches at once", async ({ page, base }) => {
        const first = await planned(base, shop.instant.large);
        const second = await planned(base, shop.instant.small);
        const { batch } = await cardOf(base, first);
        const { steps } = await cardOf(base, first);
        await open(page, base, second);
        await call(base, "step.mark", { mark: "begin",
            step_id: steps.find((row) => row.step.kind === "mix").id });
        await page.locator(".timers", { hasText: `${batch.number}: ` })
            .waitFor();
        await page.locator(".timers a", { hasText: `${batch.number}: ` })
            .click();
        await page.getByRole("heading", { name: `Batch ${batch.number}` })
            .waitFor();
    });

browserTest("yeast is wetted first, and its ten minutes run while one weighs",
    "practice", "active dry, ten minutes before: common practice, no source",
    async ({ page, base }) => {
        const id = await planned(base, shop.active.large);
        await open(page, base, id);
        await begin(page);
        await at(page, /^Weigh Active dry yeast/);
        await press(page, "Weighed");
        await at(page, /^Wet the yeast/);
        await page.getByText(/between 100 and 105/).waitFor();
        await press(page, "It is wetted");
        await at(page, /^Weigh Bread flour/);
        await page.locator(".timers", { hasText: /Wet the yeast\s*9:5\d/ })
            .waitFor();
    });

/* --- weighing ------------------------------------------------------------ */

browserTest("a typed weight that looks like a slip is said, and taken",
    "practice", "ten times too much: common practice, no source",
    async ({ page, base }) => {
        const id = await planned(base, shop.instant.large);
        const salt = (await cardOf(base, id)).weighings.find((row) =>
            row.weighing.material === "Salt").weighing;
        await open(page, base, id);
        await goTo(page, /Weigh Salt/);
        await press(page, "Another weight");
        await type(page, String(Math.round(salt.planned_kg * 10000)));
        await page.locator(".stop .slip", { hasText: /Salt/ }).waitFor();
        const now = (await cardOf(base, id)).weighings.find((row) =>
            row.weighing.id === salt.id).weighing;
        assert.ok(Math.abs(now.weighed_kg - salt.planned_kg * 10) < 0.001);
        await press(page, "Weigh again");
        await press(page, "Weighed");
        await until("what was tapped",
            async () => (await cardOf(base, id)).weighings.find((row) =>
            row.weighing.id === salt.id).weighing.weighed_kg ===
            salt.planned_kg);
    });

browserTest("the last tap is undone, a lot is one tap away", "limit",
    "nothing is ever locked", async ({ page, base }) => {
        const id = await planned(base, shop.instant.large);
        const flour = async () => (await cardOf(base, id)).weighings[0];
        await open(page, base, id);
        await begin(page);
        assert.match(plain(await page.locator(".stop").innerText()),
            /1 whole bag of 50 lb/);
        await press(page, "Which lot?");
        await press(page, "L-2207");
        await page.getByRole("button", { name: "Lot L-2207" }).waitFor();
        await press(page, "Weighed");
        await until("what was tapped",
            async () => (await flour()).weighing.weighed_kg !== null);
        assert.equal((await flour()).lot, "L-2207");
        await press(page, "Undo: Weigh Bread flour");
        await until("what was tapped",
            async () => (await flour()).weighing.weighed_kg === null);
        await at(page, /^Weigh Bread flour/);
    });

browserTest("a warmer flour asks for colder water, and it is said", "limit",
    "the heat balance falls with the flour's temperature",
    async ({ page, base }) => {
        const id = await planned(base, shop.instant.large);
        const before = (await cardOf(base, id)).water.answer.water_c;
        await open(page, base, id);
        await page.locator(".reading", { hasText: "Flour" }).click();
        await type(page, "85");
        await page.getByText(/^The water is now .* it was /).waitFor();
        const after = (await cardOf(base, id)).water.answer.water_c;
        assert.ok(after < before - 1, `${before} then ${after}`);
    });

browserTest("oil that slides is flagged, and low speed goes on", "practice",
    "stay on low until it is absorbed: common practice, no source",
    async ({ page, base }) => {
        const id = await planned(base, shop.instant.large);
        await open(page, base, id);
        await goTo(page, /Look at the oil/);
        await press(page, "The oil is sliding");
        await until("what was tapped",
            async () => (await cardOf(base, id)).changes.some(
            (one) => one.kind === "sliding"));
        await goTo(page, /Second speed/);
        await page.getByText(/Stay on low until it is taken up/).waitFor();
    });

/* --- something is off ---------------------------------------------------- */

browserTest("more water is told, and the bowl is reckoned anew", "derived",
    "1 lb more water is 1 lb more dough", async ({ page, base }) => {
        const id = await planned(base, shop.instant.large);
        const was = (await cardOf(base, id)).totals.dough_kg;
        await open(page, base, id);
        await press(page, "Something is off");
        await press(page, "More water went in");
        await type(page, "16");
        await page.getByText("Written down.").waitFor();
        const now = (await cardOf(base, id)).totals.dough_kg;
        assert.ok(Math.abs(now - was - 0.45359237) < 1e-6, `${now - was}`);
        await press(page, "Back to the card");
        await press(page, "Whole batch");
        await page.getByText("1 lb more water").waitFor();
    });

browserTest("forgotten yeast is told to leave no window", "limit",
    "no yeast, no gas", async ({ page, base }) => {
        const id = await planned(base, shop.instant.large);
        await open(page, base, id);
        await press(page, "Something is off");
        await press(page, "Something was forgotten");
        await press(page, (await cardOf(base, id)).weighings.find((row) =>
            row.weighing.kind === "yeast_instant").weighing.material);
        await page.getByText(/It does not get ready any more; planned was /)
            .waitFor();
    });

browserTest("another yeast of the same weight moves the window", "limit",
    "by weight active dry raises less", async ({ page, base }) => {
        const id = await planned(base, shop.instant.large);
        await open(page, base, id);
        await press(page, "Something is off");
        await press(page, "Another kind of yeast went in");
        await press(page, "active dry yeast");
        await press(page, "The same weight as planned");
        await page.getByText(/^Ready about \d+.h after mixing, planned /)
            .waitFor();
        const { window } = await cardOf(base, id);
        assert.ok(window.in_bowl.ready_h > window.planned.ready_h + 1);
    });

/* --- without a network --------------------------------------------------- */

browserTest("taps without a network show at once and arrive once", "limit",
    "exactly once", async ({ page, context, base }) => {
        const id = await planned(base, shop.instant.large);
        await open(page, base, id);
        await begin(page);
        await page.evaluate(() => navigator.serviceWorker.ready);
        await page.reload();
        await at(page, /^Weigh Bread flour/);
        await context.setOffline(true);
        await press(page, "Weighed");
        await at(page, /^Weigh Water/);
        await press(page, "Something is off");
        await press(page, "More water went in");
        await type(page, "16");
        await page.getByText("Kept on this tablet.").waitFor();
        await press(page, "Back to the card");
        await startMixing(page);
        await page.getByRole("button", { name: "3 entries wait" }).waitFor();
        await page.reload();
        await page.locator(".big-timer .digits").waitFor();
        assert.ok(await bigTimer(page) > 100);
        const before = await cardOf(base, id);
        assert.equal(before.weighings[0].weighing.weighed_kg, null);
        await context.setOffline(false);
        await until("what was tapped",
            async () => (await cardOf(base, id)).steps.some((row) =>
            row.step.kind === "mix" && row.started_ms > 0));
        await page.waitForTimeout(500);
        const after = await cardOf(base, id);
        assert.notEqual(after.weighings[0].weighing.weighed_kg, null);
        assert.equal(after.changes.length, 1);
    });

/* --- orders -------------------------------------------------------------- */

browserTest("96 balls of 14 oz and 60 of 10 oz become batches", "limit",
    "batches and stock add up to the order", async ({ page, base }) => {
        const count = async () =>
            (await call(base, "batch.list", {})).batches.length;
        const before = await count();
        await page.goto(`${base}/batches`);
        await page.getByRole("heading", { name: "Batches", exact: true })
            .waitFor();
        if (await page.getByRole("button", { name: "Order balls" }).count())
            await press(page, "Order balls");
        await page.getByRole("button", { name: /^14 oz cold dough: 0/ })
            .click();
        await type(page, "96");
        await page.getByRole("button", { name: /^10 oz cold dough: 0/ })
            .click();
        await type(page, "60");
        await page.locator(".plan li", { hasText: "whole bag: 50" }).waitFor();
        await page.locator(".run-strip .at-bench").first().waitFor();
        await page.getByRole("button", { name: /^Make th/ }).click();
        await page.getByText(/planned\.$/).waitFor();
        const made = (await call(base, "batch.list", {})).batches
            .slice(before);
        const balls = made.flatMap((line) => line.pieces).reduce((sums, cut) =>
            ({ ...sums, [cut.piece.product_id]:
                (sums[cut.piece.product_id] ?? 0) + cut.piece.balls_planned -
                cut.piece.to_stock }), {});
        assert.deepEqual(balls, { [shop.instant.large]: 96,
            [shop.instant.small]: 60 });
    });

/* --- words --------------------------------------------------------------- */

browserTest("the card speaks Spanish and kilograms to who reads so", "practice",
    "Spanish words of the trade", async ({ page, base }) => {
        const id = await planned(base, shop.instant.large);
        await page.addInitScript(() => localStorage.setItem(
            "doughwright.person", JSON.stringify({ lang: "es",
                units: "metric" })));
        await open(page, base, id);
        await page.getByRole("button", { name: /^Empezar la tanda/ }).click();
        await at(page, /^Pesar Bread flour/);
        assert.match(plain(await page.locator(".stop").innerText()),
            /1 saco entero de 22.68 kg/);
    });

browserTest("a batch is begun and weighed with keys alone", "published",
    "WCAG 2.2, 2.1.1", async ({ page, base }) => {
        const id = await planned(base, shop.instant.large);
        await open(page, base, id);
        for (const name of [/^Begin batch/, /^Weighed$/]) {
            const button = page.getByRole("button", { name });
            for (let i = 0; i < 60 && !await button.evaluate((one) =>
                one === document.activeElement); i++)
                await page.keyboard.press("Tab");
            await page.keyboard.press("Enter");
            await page.waitForTimeout(300);
        }
        await at(page, /^Weigh Water/);
    });

await runAll(prepare);
