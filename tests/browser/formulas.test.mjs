/* Formulas, as a person at the bench uses it. */

import assert from "node:assert/strict";
import { FRAME_MS, keystrokes } from "./keystroke.js";
import { browserTest, call, runAll } from "./stage.js";

const LINES = [["Flour", "flour", 100], ["Water", "water", 56],
    ["Salt", "salt", 1.75], ["Sugar", "sugar", 2], ["Oil", "fat", 2],
    ["Instant yeast", "yeast_instant", 0.375]];

const recipe = (name, steps) => ({ name, formula: { stages: [],
    lines: LINES.map(([material, kind, percent]) =>
        ({ material, kind, percent })) }, steps });

/* A formula of its own for each test: its id. */
async function stored(base, name) {
    const { templates } = await call(base, "procedure.templates", {});
    const made = await call(base, "recipe.save",
        recipe(name, templates[0].steps));
    return made.formula_id;
}

async function open({ page, base }, name, who = {}) {
    const id = await stored(base, name);
    await page.addInitScript((kept) => {
        localStorage.setItem("doughwright.person",
            localStorage.getItem("doughwright.person") ??
            JSON.stringify(kept));
    }, who);
    await page.goto(`${base}/formulas/${id}`);
    await page.locator(".sheet tfoot .weight", { hasText: /\d/ }).waitFor();
    return id;
}

const percentOf = (page, material) =>
    page.getByLabel(`${material}, percent of flour`);

const weightOf = (page, material) => page.locator(".sheet tbody tr",
    { hasText: material }).locator(".weight");

const plain = (text) => text.replaceAll("\u00a0", " ").trim();

async function says(locator, text) {
    const end = Date.now() + 4000;
    let got = "";
    while (Date.now() < end) {
        got = plain(await locator.innerText());
        if (got === text)
            return;
        await new Promise((resolve) => setTimeout(resolve, 20));
    }
    assert.equal(got, text);
}

const choose = (page, name) =>
    page.getByRole("radio", { name, exact: true }).check({ force: true });

browserTest("ten pounds of flour give about sixteen pounds of dough",
    "practice", "common practice, no source", async (stage) => {
        const { page } = stage;
        await open(stage, "Ten pounds");
        await page.getByLabel("Flour to use").fill("10 lb");
        await says(weightOf(page, "Instant yeast"), "0.6 oz");
        /* 10 lb at 162.125 %: 16.2125 lb */
        await says(page.locator(".sheet tfoot .weight"), "16 lb 3.4 oz");
        await page.getByRole("button", { name: "lb, °F" }).click();
        await choose(page, "kg, g, °C, cm");
        await says(weightOf(page, "Instant yeast"), "17 g");
    });

browserTest("weights move with each keystroke", "derived",
    "50 lb at 56, 6 and 62 %", async (stage) => {
        const { page } = stage;
        await open(stage, "Keystrokes");
        await says(weightOf(page, "Water"), "28 lb");
        await percentOf(page, "Water").fill("6");
        await says(weightOf(page, "Water"), "3 lb");
        await percentOf(page, "Water").press("End");
        await page.keyboard.type("2");
        await says(weightOf(page, "Water"), "31 lb");
    });

browserTest("a keystroke shows its numbers within one frame of 16 ms",
    "limit", "median of 60 keystrokes, the best of at most five rounds: " +
    "other work of the machine does not count", async (stage) => {
        const { page } = stage;
        await open(stage, "One frame");
        let median = Infinity;
        for (let i = 0; i < 5 && median >= FRAME_MS; i++)
            median = Math.min(median, (await keystrokes(page)).median);
        console.log(`keystroke to numbers: median ${median.toFixed(1)} ms`);
        assert.ok(median < FRAME_MS, `${median} ms`);
    });

browserTest("a slipped decimal point is asked about once for a version",
    "practice", "instant yeast 0.0375 % is a tenfold slip", async (stage) => {
        const { page } = stage;
        const id = await open(stage, "Slipped");
        await percentOf(page, "Instant yeast").fill("0.0375");
        const slip = page.locator(".slip", { hasText: "tenth" });
        await slip.waitFor();
        assert.match(plain(await slip.innerText()), /Instant yeast 0\.0375 %/);
        await page.getByRole("button", { name: "Use it all the same" })
            .click();
        await slip.waitFor({ state: "detached" });
        await page.getByRole("button", { name: "Save", exact: true }).click();
        await page.getByText("Saved as version 1.").waitFor();
        await page.goto(`${stage.base}/formulas/${id}`);
        await page.locator(".sheet .weight").first().waitFor();
        await page.waitForTimeout(400);
        assert.equal(await page.locator(".slip").count(), 0);
    });

browserTest("pieces of several sizes and the loss decide the dough", "derived",
    "(24 x 400 g + 0) / (1 - 0.04) = 10 kg; + 10 x 96 g = 11 kg",
    async (stage) => {
        const { page } = stage;
        await open(stage, "Pieces", { units: "metric" });
        await choose(page, "balls");
        await page.getByLabel("How many").fill("24");
        await page.getByLabel("Each weighs").fill("400");
        await page.getByLabel("Lost on the way, %").fill("4");
        await says(page.locator(".sheet tfoot .weight"), "10 kg");
        await page.getByRole("button", { name: "Add another size" }).click();
        await page.getByLabel("How many").nth(1).fill("10");
        await page.getByLabel("Each weighs").nth(1).fill("96 g");
        await says(page.locator(".sheet tfoot .weight"), "11 kg");
    });

browserTest("a pan's size and its loading decide the dough", "practice",
    "10 oz on 12 in is 17.78 oz on 16 in", async (stage) => {
        const { page } = stage;
        await open(stage, "Pans");
        await choose(page, "pans");
        await page.getByLabel("How many").fill("1");
        await page.getByLabel("Across").fill("16 in");
        await page.getByLabel("Dough, oz/in²").fill("0.08841941");
        await says(page.locator(".sheet tfoot .weight"), "1 lb 1.8 oz");
        await choose(page, "Rectangular");
        await page.getByLabel("Long").fill("18");
        await page.getByLabel("Wide").fill("26");
        await page.getByLabel("Dough, oz/in²").fill("0.1149");
        /* 0.1149 x 468 = 53.8 oz */
        await says(page.locator(".sheet tfoot .weight"), "3 lb 5.8 oz");
    });

browserTest("a poolish and the final mix add up to the total", "derived",
    "10 kg of flour, a fifth of it in a poolish at 100 %", async (stage) => {
        const { page } = stage;
        await open(stage, "Poolish", { units: "metric" });
        await page.getByLabel("Flour to use").fill("10 kg");
        await page.getByRole("combobox", { name: "Add a preferment" })
            .selectOption("poolish");
        const row = page.locator(".reconciled tbody tr", { hasText: "Water" });
        await row.waitFor();
        await says(row, "Water\t5.6 kg\t2 kg\t3.6 kg");
        await page.getByText("No step makes Poolish and adds it.").waitFor();
        await page.getByRole("button", { name: "Start from a template" })
            .click();
        await choose(page, "Poolish");
        await page.getByRole("button", { name: "Take these steps" }).click();
        await page.getByText("No step makes Poolish").waitFor(
            { state: "detached" });
        assert.equal(await page.getByLabel("Name of the formula")
            .inputValue(), "Poolish");
    });

browserTest("yeast of one type becomes another by the usual table", "practice",
    "fresh 1, active dry 0.45, instant 0.35", async (stage) => {
        const { page } = stage;
        await open(stage, "Yeast");
        await percentOf(page, "Instant yeast").fill("0.35");
        await page.getByRole("button", { name: "Instant yeast" }).click();
        await page.getByText("Goes dry onto the flour").waitFor();
        await page.getByRole("button", { name: "of fresh yeast" }).click();
        await page.getByText("Crumbled onto the flour").waitFor();
        await page.getByRole("button", { name: "Close", exact: true }).click();
        assert.equal(await percentOf(page, "Fresh yeast").inputValue(), "1");
    });

browserTest("two flours show the protein of their blend", "derived",
    "0.75 x 14 + 0.25 x 10 = 13", async (stage) => {
        const { page } = stage;
        await open(stage, "Blend");
        const tell = async (name, protein) => {
            await page.getByRole("button", { name, exact: true }).click();
            await page.getByLabel("Protein in it, %").fill(protein);
            await page.getByRole("button", { name: "Close", exact: true })
                .click();
        };
        await tell("Flour", "14");
        await percentOf(page, "Flour").fill("75");
        await page.getByText("The flours add up to 75 %").waitFor();
        await page.getByRole("button", { name: "Add an ingredient" }).click();
        await page.getByLabel("What your shop calls it").fill("Weak flour");
        await page.getByLabel("What it is").selectOption("flour");
        await page.getByRole("button", { name: "Close", exact: true }).click();
        await percentOf(page, "Weak flour").fill("25");
        await tell("Weak flour", "10");
        await page.getByRole("button", { name: "13 %", exact: true }).click();
        await page.getByText("14 %").waitFor();
    });

browserTest("what cannot be read is said at its field and nothing is lost",
    "limit", "one clear error, nothing changed", async (stage) => {
        const { page } = stage;
        const id = await open(stage, "Unread");
        await percentOf(page, "Water").fill("6o");
        await page.getByText("“6o”").waitFor();
        await says(weightOf(page, "Water"), "28 lb");
        assert.equal(await page.getByRole("button", { name: "Save",
            exact: true }).isDisabled(), true);
        const kept = await call(stage.base, "recipe.get", { formula_id: id });
        assert.equal(kept.formula.lines[1].percent, 56);
    });

browserTest("a draft survives a reload until it is saved or left", "limit",
    "nothing typed is lost", async (stage) => {
        const { page } = stage;
        await open(stage, "Draft");
        await percentOf(page, "Water").fill("61");
        await page.getByRole("button", { name: "Leave it as it was" })
            .waitFor();
        await page.reload();
        await page.getByRole("button", { name: "Leave it as it was" })
            .waitFor();
        assert.equal(await percentOf(page, "Water").inputValue(), "61");
        await page.getByRole("button", { name: "Leave it as it was" }).click();
        assert.equal(await percentOf(page, "Water").inputValue(), "56");
        await page.reload();
        await page.locator(".sheet .weight").first().waitFor();
        assert.equal(await percentOf(page, "Water").inputValue(), "56");
    });

browserTest("steps are added, moved, taken out and saved", "limit",
    "what is saved is what was shown", async (stage) => {
        const { page } = stage;
        const id = await open(stage, "Steps");
        await page.getByRole("button", { name: "Add a step" }).click();
        await page.getByLabel("Minutes", { exact: true }).fill("20");
        await page.getByLabel("In your shop's own words").fill("Wait a little");
        await page.getByRole("button", { name: "Move up" }).click();
        await page.getByRole("button", { name: "Close", exact: true }).click();
        await page.getByRole("button", { name: "Stop the mixer" }).click();
        await page.getByRole("button", { name: "Take it out" }).click();
        await page.getByRole("button", { name: "Save", exact: true }).click();
        await page.getByText("Saved as version 1.").waitFor();
        const { steps } = await call(stage.base, "recipe.get",
            { formula_id: id });
        assert.equal(steps.at(-2).text, "Wait a little");
        assert.equal(steps.at(-2).minutes, 20);
        assert.equal(steps.some((step) => step.kind === "stop"), false);
    });

browserTest("a version that was used stays, and the next tells what changed",
    "limit", "versions never change once used", async (stage) => {
        const { page, base } = stage;
        const id = await open(stage, "Used");
        await call(base, "shop.save", { name: "A shop", zone: "UTC",
            currency: "USD" });
        await call(base, "minors.make", { formula_id: id, flour_kg: 20,
            bags: 1 });
        await page.reload();
        await percentOf(page, "Water").fill("62");
        await page.getByLabel("Why it changed").fill("softer in winter");
        await page.getByRole("button", { name: "Save as version 2" }).click();
        await page.getByText("Saved as version 2.").waitFor();
        await page.getByText("softer in winter").waitFor();
        await page.getByRole("button", { name: "What changed since version 1" })
            .click();
        await page.locator(".changes", { hasText: /Water.*56.*62/ }).waitFor();
        const first = await call(base, "recipe.versions", { id });
        const kept = await call(base, "recipe.get",
            { version_id: first.versions[1].id });
        assert.equal(kept.formula.lines[1].percent, 56);
    });

browserTest("a change on one tablet shows on another at once", "limit",
    "2 % of 50 lb", async (stage) => {
        const { page, context, base } = stage;
        const id = await open(stage, "Two tablets");
        const other = await context.newPage();
        await other.goto(`${base}/formulas/${id}`);
        await other.locator(".sheet .weight").first().waitFor();
        await percentOf(page, "Salt").fill("2");
        await page.getByRole("button", { name: "Save", exact: true }).click();
        await page.getByText("Saved as version 1.").waitFor();
        await says(weightOf(other, "Salt"), "1 lb");
    });

await runAll();
