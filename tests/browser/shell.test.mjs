/* What every page has: its weight, its reach without a network, its outbox,
 * its languages, and what hands, keys and screen readers need of it. */

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { batchAt, setUpShop } from "./shop.js";
import { browserTest, call, runAll, until } from "./stage.js";

const AXE = readFileSync(
    createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

const FORMULA = { stages: [], lines: [
    { material: "Flour", kind: "flour", percent: 100 },
    { material: "Water", kind: "water", percent: 60 },
    { material: "Salt", kind: "salt", percent: 1.75 },
    { material: "Instant yeast", kind: "yeast_instant", percent: 0.375 }] };

async function prepare(base) {
    const { templates } = await call(base, "procedure.templates", {});
    await call(base, "recipe.save", { name: "House dough",
        formula: FORMULA, steps: templates[0].steps });
    const { instant, active } = await setUpShop(base);
    for (const kind of ["read", "weigh", "mix", "ask", "divide", "chill_open"])
        await batchAt(base, instant.large, kind);
    await batchAt(base, active.small, "wet_yeast");
}

/* One mix card for each kind of stop in prepare(). */
const PAGES = ["/formulas", "/formulas/1", "/formulas/new", "/batches",
    ...[1, 2, 3, 4, 5, 6, 7].map((id) => `/mix/${id}`), "/book", "/book/1",
    "/book/6", "/book/1/sheet", "/minors"];

function reads(page, who) {
    return page.addInitScript((kept) => localStorage.setItem(
        "doughwright.person", JSON.stringify(kept)), who);
}

async function settled(page) {
    await page.locator("main h1, main h2").first().waitFor();
    await page.waitForTimeout(400);
}

/* What the service worker is told to keep. */
async function shell(base) {
    const self = {};
    Function("self", await (await fetch(`${base}/shell.js`)).text())(self);
    return self.shell;
}

/* --- weight -------------------------------------------------------------- */

browserTest("a formula's page, its data apart, weighs at most 100 KB", "limit",
    "the project's own limit, on the wire with heads, charts not counted",
    async ({ page, base }) => {
        const wire = await page.context().newCDPSession(page);
        const files = new Set();
        let bytes = 0;
        await wire.send("Network.enable");
        wire.on("Network.requestWillBeSent", ({ requestId, request }) =>
            /\/(api|life)\//.test(request.url) || files.add(requestId));
        wire.on("Network.loadingFinished", (event) => {
            bytes += files.has(event.requestId) ? event.encodedDataLength : 0;
        });
        await page.goto(`${base}/formulas/1`);
        await settled(page);
        console.log(`the page weighs ${(bytes / 1024).toFixed(1)} KB in ` +
            `${files.size} files`);
        assert.ok(bytes > 20000 && bytes <= 100 * 1024, `${bytes} bytes`);
    }, { serviceWorkers: "block" });

/* What a line of the source is once its comment and indentation are gone. */
function bare(source) {
    const comment = /^ *\/\*(?:(?!\*\/)[^])*\*\/ *$/gm;
    return source.replace(comment, (text) => text.replace(/[^\n]/g, ""))
        .replace(/^ +/gm, "");
}

browserTest("a page's files leave out on the wire only indentation and the " +
    "comments on lines of their own", "limit",
"the files as they are written, line for line", async ({ base }) => {
    const { files } = await shell(base);
    for (const file of files.filter((one) => /\.(js|css)$/.test(one) &&
        !one.startsWith("/vendor/"))) {
        const source = readFileSync(
            new URL(`../../web${file}`, import.meta.url), "utf8");
        const packed = await (await fetch(base + file)).text();
        assert.equal(packed, bare(source), file);
        assert.equal(packed.split("\n").length, source.split("\n").length);
    }
    assert.ok(files.length > 60, `${files.length} files`);
});

/* --- without a network --------------------------------------------------- */

async function installed(page, base) {
    await page.goto(`${base}/formulas`);
    await page.evaluate(() => navigator.serviceWorker.ready);
    await settled(page);
    await page.reload();
    await settled(page);
}

browserTest("a page opens again without a network", "limit",
    "offline reload", async ({ page, context, base }) => {
        await installed(page, base);
        await context.setOffline(true);
        await page.reload();
        await page.getByRole("link", { name: "Formulas" }).waitFor();
        await page.getByText("The shop's computer cannot be reached.").waitFor();
        await context.setOffline(false);
    });

async function makeNew(page, base, name) {
    await page.goto(`${base}/formulas/new`);
    await page.evaluate(async () => {
        const { serviceWorker } = navigator;
        while (!serviceWorker.controller)
            await new Promise((go) => setTimeout(go, 20));
    });
    await page.getByLabel("Name of the formula").fill(name);
    await page.locator(".sheet tfoot .weight", { hasText: /\d/ }).waitFor();
}

const named = async (base, name) => (await call(base, "recipe.list", {}))
    .formulas.filter((one) => one.name === name).length;

browserTest("what is saved without a network arrives once when it is back",
    "limit", "exactly once", async ({ page, context, base }) => {
        await makeNew(page, base, "Saved offline");
        await context.setOffline(true);
        await page.getByRole("button", { name: "Save", exact: true }).click();
        await page.getByText("Kept on this tablet").waitFor();
        await page.getByRole("button", { name: "1 entry waits" }).waitFor();
        assert.equal(await named(base, "Saved offline"), 0);
        await context.setOffline(false);
        await until("what was tapped",
            async () => await named(base, "Saved offline") === 1);
        await page.getByRole("button", { name: "1 entry waits" })
            .waitFor({ state: "detached" });
        await page.waitForTimeout(500);
        assert.equal(await named(base, "Saved offline"), 1);
    });

browserTest("what waits survives closing the tablet", "limit",
    "nothing is dropped", async ({ page, context, base }) => {
        await installed(page, base);
        await makeNew(page, base, "Closed tablet");
        await context.setOffline(true);
        await page.getByRole("button", { name: "Save", exact: true }).click();
        await page.getByText("Kept on this tablet").waitFor();
        await page.close();
        const again = await context.newPage();
        await again.goto(`${base}/formulas`);
        await again.getByRole("button", { name: "1 entry waits" }).waitFor();
        await context.setOffline(false);
        await until("what was tapped",
            async () => await named(base, "Closed tablet") === 1);
    });

browserTest("an answer lost on the way does not save a thing twice", "limit",
    "exactly once", async ({ page, base }) => {
        let lost = 0;
        await page.route("**/api/v1/recipe.save", async (route) => {
            await route.fetch(); /* the server takes it */
            if (lost++ < 2)
                await route.abort("connectionreset");
            else
                await route.continue();
        });
        await makeNew(page, base, "Answer lost");
        await page.getByRole("button", { name: "Save", exact: true }).click();
        await page.getByText("Kept on this tablet").waitFor();
        await until("what was tapped", async () => lost > 2);
        await page.waitForTimeout(500);
        assert.equal(await named(base, "Answer lost"), 1);
    });

browserTest("an entry refused later is shown until the person lets it go",
    "limit", "never dropped", async ({ page, context, base }) => {
        await makeNew(page, base, "Refused later");
        await context.setOffline(true);
        await page.getByRole("button", { name: "Save", exact: true }).click();
        await page.getByText("Kept on this tablet").waitFor();
        await page.route("**/api/v1/recipe.save", (route) => route.fulfill({
            status: 422, contentType: "application/json",
            body: JSON.stringify({ error: { code: "conflict", field: "name",
                message: "name clashes with another", low: null,
                high: null } }) }));
        await context.setOffline(false);
        await page.getByRole("button", { name: "1 entry was refused" })
            .click();
        await page.getByText("name clashes with another").waitFor();
        await page.getByText("Refused later").first().waitFor();
        await page.unroute("**/api/v1/recipe.save");
        await page.getByRole("button", { name: "Send it again" }).click();
        await until("what was tapped",
            async () => await named(base, "Refused later") === 1);
    });

/* --- parts -------------------------------------------------------------- */

browserTest("the numeric pad asks again outside the usual range and still " +
    "takes the number", "practice", "flour between 60 and 90 °F",
async ({ page, base }) => {
    await reads(page, { lang: "en" });
    await page.goto(`${base}/formulas`);
    await settled(page);
    await page.evaluate(async () => {
        const { html, render } = await import("/lib/view.js");
        const { Pad } = await import("/parts/pad.js");
        const place = document.body.appendChild(document.createElement("div"));
        render(html`<${Pad} title="Flour" unit="°F" low=${60} high=${90}
            onDone=${(value) => { document.title = `took ${value}`; }}
            onClose=${() => undefined} />`, place);
    });
    const press = (name) => page.getByRole("button", { name, exact: true })
        .click();
    await page.keyboard.type("68");
    await page.keyboard.press("Enter");
    assert.equal(await page.title(), "took 68");
    for (const key of ["Erase the last digit", "Erase the last digit", "7",
        "2", ".", "5"])
        await press(key);
    await page.getByText("Usually between 60 and 90 °F.", { exact: true })
        .waitFor();
    await press("Use this");
    assert.equal(await page.title(), "took 72.5");
    for (let i = 0; i < 4; i++)
        await press("Erase the last digit");
    await page.keyboard.type("172");
    await page.getByText("Look again?").waitFor();
    await press("Use it all the same");
    assert.equal(await page.title(), "took 172");
    const small = await page.locator(".pad .keys button").evaluateAll((all) =>
        all.filter((one) => one.getBoundingClientRect().height < 72).length);
    assert.equal(small, 0);
});

/* --- language, units, light ---------------------------------------------- */

browserTest("the page speaks Spanish the moment it is asked to", "practice",
    "Spanish words of the trade", async ({ page, base }) => {
        await page.goto(`${base}/formulas/1`);
        await settled(page);
        await page.getByRole("button", { name: "lb, °F" }).click();
        await page.getByRole("radio", { name: "Español" })
            .click({ force: true });
        await page.getByRole("heading", { name: "Procedimiento" }).waitFor();
        assert.equal(await page.locator("html").getAttribute("lang"), "es");
        await page.reload();
        await page.getByRole("heading", { name: "Procedimiento" }).waitFor();
    });

/* --- hands, keys, screen readers ----------------------------------------- */

for (const theme of ["day", "night"])
    browserTest(`axe finds nothing serious by ${theme}`, "published",
        "axe-core 4.14, WCAG 2.2 A and AA", async ({ page, base }) => {
            await reads(page, { theme, lang: "en" });
            for (const path of PAGES) {
                await page.goto(base + path);
                await settled(page);
                const cdp = await page.context().newCDPSession(page);
                await cdp.send("Page.setBypassCSP", { enabled: true });
                await page.reload();
                await settled(page);
                await page.addScriptTag({ content: AXE });
                const found = await page.evaluate(async () =>
                    (await window.axe.run()).violations
                        .filter((one) => /serious|critical/.test(one.impact))
                        .map((one) => `${one.id}: ${one.nodes[0].html}`));
                assert.deepEqual(found, [], path);
            }
        });

/* Sizes of all that can be touched; a radio's is its label's. */
const SMALL = () => [...document.querySelectorAll(
    "button, select, input, main a, header a")]
    .map((one) => one.matches("[type=radio], [type=checkbox]")
        ? one.closest("label") : one)
    .map((one) => ({ box: one.getBoundingClientRect(),
        html: one.outerHTML.slice(0, 80) }))
    .filter(({ box }) => box.width > 0 && box.top >= 0 &&
        (box.height < 47.5 || box.width < 47.5))
    .map(({ box, html }) => `${box.width}x${box.height} ${html}`);

for (const width of [360, 768, 1280])
    browserTest(`at ${width} px nothing is cut off or too small to touch`,
        "limit", "48 px targets, no sideways scrolling",
        async ({ page, base }) => {
            await page.setViewportSize({ width, height: 800 });
            await reads(page, { lang: "es", units: "us" });
            for (const path of PAGES) {
                await page.goto(base + path);
                await settled(page);
                const wide = await page.evaluate(() =>
                    document.documentElement.scrollWidth);
                assert.ok(wide <= width, `${path} is ${wide} px wide`);
                assert.deepEqual(await page.evaluate(SMALL), [], path);
            }
        });

browserTest("letters of twice the size fit", "published",
    "WCAG 2.2, 1.4.4 and 1.4.10: 1280 px at 200 % is 640 px",
    async ({ page, base }) => {
        await page.setViewportSize({ width: 640, height: 450 });
        for (const path of PAGES) {
            await page.goto(base + path);
            await settled(page);
            assert.ok(await page.evaluate(() =>
                document.documentElement.scrollWidth) <= 640, path);
        }
    });

browserTest("a formula is changed and saved with keys alone", "published",
    "WCAG 2.2, 2.1.1", async ({ page, base }) => {
        await page.goto(`${base}/formulas`);
        await settled(page);
        const reach = async (test) => {
            for (let i = 0; i < 60; i++) {
                await page.keyboard.press("Tab");
                if (await page.evaluate(test))
                    return;
            }
            throw new Error("the key Tab never got there");
        };
        await reach(() => document.activeElement.textContent
            .includes("House dough"));
        await page.keyboard.press("Enter");
        await page.locator(".sheet").waitFor();
        await reach(() => document.activeElement.closest("label")
            ?.textContent.includes("Water, percent"));
        await page.keyboard.type("61.5");
        await reach(() => document.activeElement.textContent.trim() === "Save");
        await page.keyboard.press("Enter");
        await page.getByText("Saved as version 1.").waitFor();
        const kept = await call(base, "recipe.get", { formula_id: 1 });
        assert.equal(kept.formula.lines[1].percent, 61.5);
    });

await runAll(prepare);
