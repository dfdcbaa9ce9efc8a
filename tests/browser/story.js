/* The whole story on the demo's commissary, as its people live it: count, see
 * what is short, make the batches, mix one on two tablets with the network gone
 * for a while, close the stack, look at the book, say how it was. Registers its
 * tests; story.test.mjs and network.test.mjs say where they run. */

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { browserTest, command, dataIn, until } from "./stage.js";
import { PASSWORD } from "./network.js";

/* What the program knows, asked on the command line beside the server. */
const ask = (folder, op, request = {}) => JSON.parse(command(
    ["call", op, "--data", dataIn(folder)], JSON.stringify(request)));

/* Rows of the journal, as a database of anyone would tell. */
const journal = (folder, op) => Number(execFileSync("sqlite3", ["-readonly",
    dataIn(folder), `SELECT count(*) FROM journal WHERE op = '${op}'`],
{ encoding: "utf8" }));

const plain = (text) => text.replaceAll("\u00a0", " ").trim();

/* --- arriving ------------------------------------------------------------ */

/* Open a path; sign in when the place asks for it. */
export async function arrive(page, base, path) {
    await page.goto(base + path);
    const password = page.locator("input[type=password]");
    await page.locator("main h1, main h2, input[type=password]").first()
        .waitFor();
    if (!await password.count())
        return;
    await password.fill(PASSWORD);
    await page.keyboard.press("Enter");
    await page.waitForURL(base + path);
    await page.locator("main h1, main h2").first().waitFor();
}

function reads(context, lang) {
    return context.addInitScript((who) => localStorage.setItem(
        "doughwright.person", JSON.stringify(who)), { lang, units: "us" });
}

/* --- words --------------------------------------------------------------- */

const WORDS = {
    en: { saved: "Write down the count", again: "Count again",
        short: /: \d+ short for /, make: "Make these batches",
        dough: "Dough temperature", gave: /The mixer gave \d/ },
    es: { saved: "Anotar el conteo", again: "Contar otra vez",
        short: /: faltan \d+ para el /, make: "Hacer estas tandas",
        dough: "Temperatura de la masa", gave: /La amasadora dio \d/ },
};

/* The stops of delayed oil, in the order of the trade: common practice. */
const ORDER = [/^Weigh /, /^Add (tap |city )?water/i, /^Add .*salt/i,
    /^Add .*flour/i, /^Add .*yeast/i, /^Low speed/, /^Add .*oil/i,
    /^Look at the oil/, /^Second speed/, /^Stop the mixer/,
    /^Dough temperature/, /^Divide/, /^Cold room, open/, /^Close the stack/];

function inOrder(seen) {
    let from = 0;
    for (const wanted of ORDER) {
        const at = seen.findIndex((one, i) => i >= from && wanted.test(one));
        assert.ok(at >= 0, `${wanted} after ${from} in ${seen.join(", ")}`);
        from = at;
    }
}

/* Words that English cannot do without and Spanish does not have. */
const ENGLISH = /\b(the|and|with|from|into|this|that|was|were|is|are|of|by|when|what|not|will|your)\b/gi;

/* Every name that the shop gave to something. */
function namesOf(folder) {
    const texts = (value) => Object.entries(value ?? {}).flatMap(
        ([key, one]) => typeof one === "object" ? texts(one)
            : ["name", "plate_note"].includes(key) ? [one] : []);
    return texts(ask(folder, "shop.get")).filter(Boolean);
}

/* What of a page is still English, the shop's own names taken out. */
async function englishOn(page, folder) {
    const names = namesOf(folder);
    return (await page.locator("body").innerText()).split("\n")
        .filter((line) => names.reduce((rest, name) =>
            rest.replaceAll(name, ""), line).match(ENGLISH));
}

/* --- counting ------------------------------------------------------------ */

/* None of the first product is left; all else is as expected. */
async function countAll(page, words) {
    const pad = page.locator(".count-pad");
    const first = await pad.locator("h2").evaluate((one) =>
        one.firstChild.textContent.trim());
    for (let i = 0; i < 100 && await pad.count(); i++) {
        const name = await pad.locator("h2").innerText();
        if (name.startsWith(first))
            await pad.getByRole("button", { name: "0", exact: true }).click();
        await pad.locator("button.do").click();
        await until("the next shelf", async () => !await pad.count() ||
            await pad.locator("h2").innerText() !== name);
    }
    await page.getByRole("button", { name: words.saved }).click();
    await page.getByRole("button", { name: words.again }).waitFor();
    return first;
}

/* From the count to the batches that were made: their cards. */
async function orderShort(page, folder, words) {
    const before = new Set(ask(folder, "batch.list").batches.map(
        ({ batch }) => batch.id));
    const first = await countAll(page, words);
    const { products } = ask(folder, "count.get");
    const one = products.find(({ name }) => name === first);
    const line = page.locator(".short li", { hasText: first });
    assert.match(plain(await line.innerText()), words.short);
    assert.ok(plain(await line.innerText()).includes(`${one.need} `));
    assert.equal(one.need, one.build_to - one.usable);
    await page.getByRole("button", { name: words.make }).click();
    let made = [];
    await until("the batches are made", () => {
        made = ask(folder, "batch.list").batches.filter(({ batch }) =>
            !before.has(batch.id));
        return made.length > 0;
    });
    const balls = made.flatMap(({ pieces }) => pieces).filter((cut) =>
        cut.name === first).reduce((sum, { piece }) =>
        sum + piece.balls_planned, 0);
    assert.ok(balls >= one.need, `${balls} balls for ${one.need}`);
    return made.find(({ pieces }) => pieces.some((cut) => cut.name === first))
        .batch;
}

/* --- the card ------------------------------------------------------------ */

const TAP = ".card-next .do, .card-next .answer";
const stopName = async (page) =>
    plain(await page.locator("#stop-name").innerText());

const facing = (page) => page.evaluate((tap) =>
    document.querySelector("#stop-name").innerText +
    document.querySelector(tap)?.innerText, TAP);

async function tapOn(page) {
    const before = await facing(page);
    await page.locator(TAP).first().click();
    await until(`after "${before}"`, async () =>
        await facing(page) !== before);
}

async function typeOn(page, digits) {
    await page.locator("dialog .pad").waitFor();
    await page.keyboard.type(digits);
    await page.keyboard.press("Enter");
}

const seconds = (text) => {
    const [minutes, rest] = text.split(":").map(Number);
    return 60 * minutes + rest;
};
const bigTimer = async (page) =>
    seconds(await page.locator(".big-timer .digits").innerText());

/* At the first running timer: a reload, and it runs on. */
async function reloadInMid(page) {
    await page.locator(".big-timer .digits").waitFor();
    const before = await bigTimer(page);
    await page.reload();
    await page.locator(".big-timer .digits").waitFor();
    const after = await bigTimer(page);
    assert.ok(after <= before && after > before - 20, `${before}, ${after}`);
}

/* Three taps without a network and a reload in between; all of them arrive when
 * it is back, each once. The stops that were passed. */
async function mixOffline(page, { place, context, folder }) {
    await page.evaluate(() => navigator.serviceWorker.ready);
    await page.reload(); /* now the worker has it */
    await page.locator("#stop-name").waitFor();
    const marks = journal(folder, "step.mark");
    await place.cut(context);
    await tapOn(page);
    await tapOn(page);
    const name = await stopName(page);
    await page.reload();
    await page.locator("#stop-name").waitFor();
    await until("the card as it was", async () =>
        await stopName(page) === name);
    await tapOn(page);
    assert.equal(journal(folder, "step.mark"), marks);
    await place.mend(context);
    await until("what waited arrives", () =>
        journal(folder, "step.mark") === marks + 3, 60000);
    await page.getByRole("status").getByRole("button").waitFor(
        { state: "detached", timeout: 30000 });
    assert.equal(journal(folder, "step.mark"), marks + 3);
    return name;
}

/* From the first weighing to the open boxes in the cold room. */
async function mix(page, { other, words, stage, look = () => undefined }) {
    const seen = [];
    let [reloaded, offline] = [false, false];
    for (let i = 0; i < 80; i++) {
        const name = await stopName(page);
        if (name !== seen.at(-1))
            seen.push(name);
        await look(page);
        if (await page.locator(".days").count())
            return seen;
        if (name === words.dough) {
            await page.locator(".stop .reading").first().click();
            await typeOn(page, "80");
            await page.getByText(words.gave).waitFor();
        }
        if (!reloaded && await page.locator(".big-timer").count()) {
            await reloadInMid(page);
            reloaded = true;
        } else if (reloaded && !offline && stage &&
            await page.locator(".answer").count()) {
            seen.push(await mixOffline(page, stage));
            offline = true;
        } else {
            await tapOn(page);
            if (other)
                await until(`the other tablet, after ${name}`, async () =>
                    await stopName(other) === await stopName(page));
        }
    }
    throw new Error(`the card never ended: ${seen.join(", ")}`);
}

/* --- closing and the book ------------------------------------------------ */

/* Today knows of the stack, leads to its card, and it is closed there. */
async function closeFromToday(page, { base, folder, batch }) {
    await arrive(page, base, "/today");
    const line = page.locator(".day-line li",
        { hasText: new RegExp(`^.*Close .*batch ${batch.number}\\b`, "s") });
    await line.first().waitFor();
    await arrive(page, base, `/mix/${batch.id}`);
    await page.locator(".card-next .do").click();
    await until("the stack is closed", () =>
        ask(folder, "batch.get", { id: batch.id }).batch.state === "closed");
    await arrive(page, base, "/today");
    await page.locator(".day-line li", { hasText: `Batch ${batch.number},` })
        .filter({ hasText: "closed." }).waitFor();
}

async function rowOf(page, caption, name) {
    const row = page.getByRole("group", { name: caption }).locator("tr",
        { has: page.getByRole("rowheader", { name, exact: true }) });
    return plain(await row.innerText()).split(/\s*\t\s*|\n/);
}

async function lookInBook(page, { base, folder, batch }) {
    await arrive(page, base, "/book");
    await page.locator(`a[href="/book/${batch.id}"]`).click();
    await page.getByRole("heading", { name: `Batch ${batch.number}` })
        .waitFor();
    const card = ask(folder, "batch.get", { id: batch.id });
    const dough = await rowOf(page, /^Temperatures/, "Dough");
    assert.ok(dough.includes("80 °F"), dough.join(" | "));
    const salt = card.weighings.find(({ weighing }) =>
        /salt/i.test(weighing.material)).weighing;
    assert.equal(salt.weighed_kg, salt.planned_kg);
    await page.getByRole("group", { name: /at first use/ }).first()
        .getByRole("button", { name: "good", exact: true }).click();
    await until("the verdict is written", () => ask(folder, "batch.list")
        .batches.find((one) => one.batch.id === batch.id)
        .verdicts.some(({ verdict }) => verdict === "good"));
}

/* --- the story ----------------------------------------------------------- */

const TABLET = { viewport: { width: 768, height: 1024 } };

browserTest("a day's story: count, short, batches, mix card on two tablets, " +
    "network gone and back, closed, book, verdict", "practice",
"the order of delayed oil: common practice, no source", async (stage) => {
    const { page, context, base, folder } = stage;
    page.setDefaultTimeout(20000);
    await reads(context, "en");
    await arrive(page, base, "/count");
    assert.notDeepEqual(await englishOn(page, folder), []);
    const batch = await orderShort(page, folder, WORDS.en);
    const second = await context.browser().newContext(TABLET);
    await reads(second, "en");
    const other = await second.newPage();
    await arrive(other, base, `/mix/${batch.id}`);
    await arrive(page, base, `/mix/${batch.id}`);
    const seen = await mix(page, { words: WORDS.en, other,
        stage });
    await second.close();
    inOrder(seen);
    const card = ask(folder, "batch.get", { id: batch.id });
    assert.ok(card.weighings.every(({ weighing }) =>
        weighing.weighed_kg === weighing.planned_kg));
    assert.ok(card.batch.first_box_ms <= card.batch.last_box_ms);
    assert.ok(card.batch.work_j_per_kg_dough > 0);
    await closeFromToday(page, { base, folder, batch });
    await lookInBook(page, { base, folder, batch });
}, TABLET);

browserTest("the same in Spanish, and nothing in English is left on the way",
    "practice", "Spanish words of the trade", async (stage) => {
        const { page, context, base, folder } = stage;
        page.setDefaultTimeout(20000);
        await reads(context, "es");
        await arrive(page, base, "/count");
        assert.deepEqual(await englishOn(page, folder), []);
        const batch = await orderShort(page, folder, WORDS.es);
        assert.deepEqual(await englishOn(page, folder), []);
        await arrive(page, base, `/mix/${batch.id}`);
        const english = new Set();
        const seen = await mix(page, { words: WORDS.es,
            look: async () => (await englishOn(page, folder)).forEach((line) =>
                english.add(line)) });
        assert.deepEqual([...english], []);
        for (const wanted of [/^Pesar /, /^Añadir /,
            /^Temperatura de la masa$/])
            assert.ok(seen.some((one) => wanted.test(one)), seen.join(", "));
        for (const path of ["/today", "/batches", `/book/${batch.id}`]) {
            await arrive(page, base, path);
            assert.deepEqual(await englishOn(page, folder), [], path);
        }
    }, TABLET);
