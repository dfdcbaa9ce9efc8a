/* Every page of the demo's commissary, full as it is after a year: what screen
 * readers, fingers, narrow screens and large letters need of it. */

import assert from "node:assert/strict";
import { browserTest, demo, loopback, runAll } from "./stage.js";
import { nothingSerious } from "./walk.js";

/* Batch 56 is boxed, 58 is planned. */
const PAGES = ["/today", "/count", "/batches", "/mix/56", "/mix/58",
    "/formulas", "/formulas/1", "/formulas/new", "/week", "/cold", "/book", "/book/56",
    "/book/58/sheet", "/minors", "/shop"];
const WIDTHS = [360, 768, 1280];

/* Open, and wait until nothing on the page has moved for a third of a second.
 * Running timers move once a second. */
async function open(page, address) {
    await page.goto(address);
    await page.locator("main h1, main h2").first().waitFor();
    await page.evaluate(() => new Promise((resolve) => {
        let timer = setTimeout(resolve, 300);
        new MutationObserver(() => {
            clearTimeout(timer);
            timer = setTimeout(resolve, 300);
        }).observe(document.querySelector("main"),
            { subtree: true, childList: true, characterData: true });
    }));
}

const CONTROLS = new Set(["button", "link", "textbox", "searchbox", "combobox",
    "checkbox", "radio", "spinbutton", "slider", "switch", "tab"]);

/* Controls that a screen reader could only call by their kind. */
async function nameless(page) {
    const wire = await page.context().newCDPSession(page);
    const { nodes } = await wire.send("Accessibility.getFullAXTree");
    await wire.detach();
    const controls = nodes.filter(({ ignored, role }) =>
        !ignored && CONTROLS.has(role?.value));
    assert.ok(controls.length > 5, "the page has controls");
    return controls.filter(({ name }) => !name?.value?.trim())
        .map(({ role }) => role.value);
}

for (const theme of ["day", "night"])
    browserTest(`nothing serious is in the way on any page by ${theme}`,
        "published", "axe-core 4.14, WCAG 2.2 A and AA; 4.1.2 names",
        async ({ page, base }) => {
            await page.addInitScript((who) => localStorage.setItem(
                "doughwright.person", JSON.stringify(who)),
            { theme, lang: "en" });
            for (const width of WIDTHS) {
                await page.setViewportSize({ width, height: 900 });
                for (const path of PAGES) {
                    await open(page, base + path);
                    try {
                        await nothingSerious(page);
                        assert.deepEqual(await nameless(page), []);
                    } catch (error) {
                        throw new Error(`${path} at ${width}: ` +
                            error.message);
                    }
                }
            }
        });

browserTest("no page scrolls sideways, narrow or with letters of twice the " +
    "size", "published", "WCAG 2.2, 1.4.4 and 1.4.10: 1280 px at 200 % is 640",
async ({ page, base }) => {
    const wide = [];
    for (const lang of ["en", "es"]) {
        await page.addInitScript((who) => localStorage.setItem(
            "doughwright.person", JSON.stringify(who)), { lang });
        for (const width of [...WIDTHS, 640]) {
            await page.setViewportSize({ width, height: 450 });
            for (const path of PAGES) {
                await open(page, base + path);
                const came = await page.evaluate(() =>
                    document.documentElement.scrollWidth);
                if (came > width)
                    wide.push(`${path} ${lang} is ${came} px at ${width}`);
            }
        }
    }
    assert.deepEqual(wide, []);
});

await runAll(undefined, async (folder) => {
    demo(folder);
    return loopback;
});
