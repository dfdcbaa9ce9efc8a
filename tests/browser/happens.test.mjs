/* The cold room is warm, if this happens, an emergency dough: asked, drawn,
 * told and printed, and nothing stored but what somebody keeps. */

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { addBatch, setUp } from "./coldroom.js";
import { browserTest, call, runAll } from "./stage.js";

const AXE = readFileSync(
    createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/* A young stack, a ripe one, an old one, and one whose dough nobody read. */
async function prepare(base) {
    await setUp(base);
    await addBatch(base, 5);
    await addBatch(base, 50);
    await addBatch(base, 7 * 24);
    await addBatch(base, 30, { dough_c: null });
}

async function open({ page, base }, who = {}) {
    await page.addInitScript((kept) =>
        localStorage.setItem("doughwright.person", JSON.stringify(kept)),
    { lang: "en", units: "us", ...who });
    await page.goto(`${base}/cold`);
    await page.locator(".strip-row .strip-cell rect").first().waitFor();
}

const ask = (page, name) => page.getByRole("button", { name }).click();
const plain = async (locator) =>
    (await locator.innerText()).replaceAll("\u00a0", " ").trim();
const row = (page, batch) => page.locator("li.strip-row",
    { hasText: `batch ${batch}` });
const fate = (page, batch) => row(page, batch).locator("[data-verdict]");
const drawn = (page) => page.locator("[data-verdict]").nth(3).waitFor();
const stacksOf = async (base) => JSON.stringify(await call(base,
    "cold.stacks", { members: 0 }).then(({ stacks }) =>
    stacks.map((one) => [one.stack_id, one.balls_left,
        one.life?.air_read])));

browserTest("a long power cut says of every stack what becomes of it",
    "practice", "a day at 104 °F around the room: young dough does not last; " +
    "what was past is past in any case", async (stage) => {
        const { page, base } = stage;
        await open(stage);
        const before = await stacksOf(base);
        await ask(page, /If this happens/);
        await drawn(page);
        await page.getByLabel("Air around the cold room").fill("104 F");
        await page.getByLabel("Power back").selectOption("24");
        await fate(page, 2).getByText(/past from/).waitFor();
        assert.match(await plain(fate(page, 3)), /past by then in any case/);
        assert.match(await plain(fate(page, 4)),
            /temperature was not read.*shop's days hold/);
        await page.locator(".happens").getByText(/By .*: saved .* use first .* past /).waitFor();
        assert.equal(await stacksOf(base), before);
        assert.equal((await call(base, "today.get", {})).readings.length, 0);
    });

browserTest("each strip is drawn twice, planned and as it happens, and back",
    "limit", "before over after", async (stage) => {
        const { page } = stage;
        await open(stage);
        const bars = () => row(page, 2).locator(".state-bar.best .rim").count();
        assert.equal(await bars(), 1);
        await ask(page, /If this happens/);
        await drawn(page);
        assert.equal(await bars(), 2);
        assert.equal(await row(page, 1).getByRole("button",
            { name: /Pull/ }).count(), 0);
        await ask(page, "Back to what is");
        await row(page, 1).getByRole("button", { name: /Pull/ }).waitFor();
        assert.equal(await bars(), 1);
    });

browserTest("a box forgotten outside changes its own stack only", "limit",
    "the others are not touched", async (stage) => {
        const { page } = stage;
        await open(stage);
        await ask(page, /If this happens/);
        await page.getByRole("radio", { name: "A box forgotten outside" })
            .check({ force: true });
        await page.getByLabel("Which stack").selectOption(
            { label: "14 oz ball, batch 1" });
        await page.getByLabel("Back in the cold").selectOption("12");
        await fate(page, 2).getByText("not touched, as planned").waitFor();
        assert.match(await plain(fate(page, 1)), /instead of|past from/);
    });

browserTest("asked why, a stack tells when it is over, its core, before and " +
    "after, and the shop's days", "limit", "every number can be asked",
async (stage) => {
    const { page } = stage;
    await open(stage);
    await ask(page, /If this happens/);
    await drawn(page);
    await row(page, 1).locator(".says").click();
    const why = page.getByRole("dialog");
    for (const words of ["When it is over", "Core of the ball then",
        "Past, as planned", "Past, if it happens", "lived twice",
        "The trade's rule", "Source:"])
        await why.getByText(words).first().waitFor();
});

browserTest("what becomes of the stacks prints as a list, the worst first",
    "limit", "past, use first, saved, no model", async (stage) => {
        const { page } = stage;
        await open(stage);
        await ask(page, /If this happens/);
        await drawn(page);
        await page.emulateMedia({ media: "print" });
        const sheet = page.locator(".tonight");
        await sheet.getByText("Past: look at each, then throw away").waitFor();
        const text = await plain(sheet);
        assert.match(text, /Past: look[^]*Saved[^]*No model/);
        assert.match(text, /14 oz ball\s+3\s+5 boxes\s+past by then/);
        assert.equal(await page.locator(".strips").isVisible(), false);
    });

browserTest("a warm cold room is read only when somebody keeps it", "limit",
    "asked, then one tap", async (stage) => {
        const { page, base } = stage;
        await open(stage);
        await ask(page, "The cold room is warm");
        await drawn(page);
        await page.getByLabel("It has now").fill("48 F");
        await page.getByLabel("Warm since").selectOption("-3");
        await page.getByLabel("Mended").selectOption("1");
        assert.equal((await call(base, "today.get", {})).readings.length, 0);
        await ask(page, /Keep 48 °F as the cold room's reading/);
        await page.getByText("reading of 48 °F is kept").waitFor();
        const { readings } = await call(base, "today.get", {});
        assert.equal(readings[0].kind, "cold_c");
        assert.ok(Math.abs(readings[0].celsius - 8.889) < 0.001);
    });

browserTest("an air that cannot be is refused under its blank", "limit",
    "48 °C is how degrees Fahrenheit look", async (stage) => {
        const { page } = stage;
        await open(stage, { units: "metric" });
        await ask(page, "The cold room is warm");
        await page.getByLabel("It has now").fill("48");
        await page.getByText(/Between .* and 35.°C, please/).waitFor();
    });

browserTest("emergency dough is asked from the cold room: more yeast the " +
    "sooner, with its band", "practice",
"0.375 % instant yeast is ready in about 2 h at 21 to 22 °C", async (stage) => {
    const { page } = stage;
    await open(stage);
    await ask(page, /Emergency dough/);
    const answer = page.locator(".happens .comes-to");
    const yeast = async () => Number(/([\d.]+) %/.exec(await plain(answer))[1]);
    await answer.waitFor();
    const two = await yeast();
    assert.ok(two > 0.3 && two < 0.5, `${two} %`);
    await page.getByText(/Ready after between/).waitFor();
    await page.getByLabel("Usable after").fill("4 h");
    await answer.filter({ hasNotText: String(two) }).waitFor();
    assert.ok(await yeast() < two);
    await answer.getByRole("button").click();
    await page.getByRole("dialog").getByText("Ready, nine lives in ten")
        .waitFor();
});

browserTest("the whole of it is done with keys alone", "limit",
    "Tab, arrows, Enter", async (stage) => {
        const { page } = stage;
        await open(stage);
        await page.getByRole("button", { name: /If this happens/ }).focus();
        await page.keyboard.press("Enter");
        await drawn(page);
        await page.getByRole("radio", { name: "Power cut, doors shut" })
            .focus();
        await page.keyboard.press("ArrowRight");
        await page.getByLabel("Air in the van").waitFor();
        await page.getByLabel("Arrives").focus();
        await page.keyboard.press("ArrowDown");
        await drawn(page);
        await page.getByRole("button", { name: "Back to what is" }).focus();
        await page.keyboard.press("Enter");
        await row(page, 1).getByRole("button", { name: /Pull/ }).waitFor();
    });

for (const what of [/If this happens/, "The cold room is warm",
    /Emergency dough/])
    browserTest(`axe finds nothing serious when asked: ${what}`, "published",
        "axe-core 4.14, WCAG 2.2 A and AA", async (stage) => {
            const { page } = stage;
            const cdp = await page.context().newCDPSession(page);
            await cdp.send("Page.setBypassCSP", { enabled: true });
            await open(stage);
            await ask(page, what);
            await page.locator(".happens").waitFor();
            await page.addScriptTag({ content: AXE });
            const found = await page.evaluate(async () =>
                (await window.axe.run()).violations
                    .filter((one) => /serious|critical/.test(one.impact))
                    .map((one) => `${one.id}: ${one.nodes[0].html}`));
            assert.deepEqual(found, []);
        });

for (const width of [360, 768, 1280])
    browserTest(`it fits ${width} px in Spanish, for fingers`, "limit",
        "48 px targets, no sideways scrolling", async (stage) => {
            const { page } = stage;
            await page.setViewportSize({ width, height: 800 });
            await open(stage, { lang: "es", units: "metric" });
            for (const place of [0, 1, 2]) {
                await page.locator("button[aria-pressed]").nth(place).click();
                await page.locator(".happens").waitFor();
                assert.ok(await page.evaluate(() =>
                    document.documentElement.scrollWidth) <= width);
                const small = await page.locator("main button, main select")
                    .evaluateAll((all) => all.filter((one) => {
                        const box = one.getBoundingClientRect();
                        return box.width > 0 &&
                            (box.height < 47.5 || box.width < 47.5);
                    }).map((one) => one.outerHTML.slice(0, 90)));
                assert.deepEqual(small, []);
            }
        });

await runAll(prepare);
