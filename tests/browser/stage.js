/* A stage for browser tests: the real program on a new database, Chromium, and
 * a runner that closes with "N passed, N failed". Each test is a sentence with
 * a grade and a source, as in tests/dw_test.h. */

import { execFileSync, spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { chromium } from "playwright-core";

const PROGRAM = process.env.DOUGHWRIGHT ??
    fileURLToPath(new URL("../../build/doughwright", import.meta.url));
const CHROMIUM = process.env.CHROMIUM ?? "/usr/bin/chromium";

/* { base, stop, again } of a running server; again() starts it anew on the
 * same port and data. `within` are words before the program (ip netns exec...),
 * `flags` those after it. */
export async function startServer(folder, { port = 0, within = [], flags = [] } =
{}) {
    const [first, ...words] = [...within, PROGRAM, "serve", "--data",
        dataIn(folder), "--port", String(port), ...flags];
    const child = spawn(first, words, { stdio: ["ignore", "pipe", "inherit"] });
    let said = "";
    const base = await new Promise((resolve, reject) => {
        child.on("exit", (code) =>
            reject(new Error(`the program ended with ${code}: ${said}`)));
        child.stdout.on("data", (text) => {
            said += text;
            const found = /https?:\/\/\S+?:\d+/.exec(said);
            if (found)
                resolve(found[0]);
        });
    });
    child.removeAllListeners("exit");
    const stop = () => new Promise((resolve) => {
        child.on("exit", resolve);
        child.kill("SIGTERM");
    });
    return { base, stop, again: () => startServer(folder,
        { port: Number(new URL(base).port), within, flags }) };
}

export const dataIn = (folder) => join(folder, "shop.db");

/* The program as a command: what it printed. */
export const command = (words, input = "") => execFileSync(PROGRAM, words,
    { input, encoding: "utf8", maxBuffer: 1 << 26 });

/* The demo's commissary, full as after a year, as a database in the folder. */
export const demo = (folder) =>
    command(["demo", "--seed", "1", "--data", dataIn(folder)]);

export function openBrowser(env = process.env) {
    return chromium.launch({ executablePath: CHROMIUM, env,
        args: ["--no-sandbox", "--disable-gpu", "--disable-quic",
            "--no-first-run", "--disable-background-networking",
            "--disable-component-update", "--disable-sync"] });
}

export async function call(base, op, request) {
    const answer = await fetch(`${base}/api/v1/${op}`, { method: "POST",
        headers: { "Content-Type": "application/json" },
        body: JSON.stringify(request) });
    const body = await answer.json();
    if (!answer.ok)
        throw new Error(`${op}: ${body.error.message}`);
    return body;
}

/* Waits for what comes about sooner or later. */
export async function until(what, test, most_ms = 20000) {
    const end = Date.now() + most_ms;
    while (Date.now() < end) {
        if (await test())
            return;
        await new Promise((resolve) => setTimeout(resolve, 60));
    }
    throw new Error(`it did not come about: ${what}`);
}

const tests = [];

/* work({ page, context, server, base, place, folder }); each has a browser profile of its
 * own. options: those of a browser context (viewport, locale...). */
export function browserTest(sentence, grade, source, work, options = {}) {
    tests.push({ sentence, grade, source, work, options });
}

async function runOne(test, browser, { server, place, folder }) {
    const context = await browser.newContext({ locale: "en-US",
        viewport: { width: 1280, height: 900 }, ...test.options });
    const page = await context.newPage();
    const complaints = [];
    page.on("pageerror", (error) => complaints.push(error.message));
    page.setDefaultTimeout(8000);
    try {
        await test.work({ page, context, server, place, folder,
            base: server.base });
        if (complaints.length)
            throw new Error(`the page complained: ${complaints.join("; ")}`);
        return true;
    } catch (error) {
        console.log(`FAILED ${test.sentence} [${test.grade}: ${test.source}]` +
            `\n  ${error.message}`);
        return false;
    } finally {
        await context.close();
    }
}

/* On this machine alone, over plain HTTP: what a place is made of. `cut` and
 * `mend` take the network away from a context and give it back. */
export const loopback = {
    within: [], flags: [], env: process.env, close: () => undefined,
    cut: (context) => context.setOffline(true),
    mend: (context) => context.setOffline(false),
};

/* Run what was registered; prepare(base, folder) fills the database first.
 * openPlace(folder) tells where the server is and how it is reached, after
 * making what it needs in the folder. Only tests whose sentence contains the
 * command's first word run, when it has one. */
export async function runAll(prepare = async () => undefined,
    openPlace = async () => loopback) {
    const folder = mkdtempSync(join(tmpdir(), "doughwright-browser-"));
    const place = await openPlace(folder);
    const server = await startServer(folder, place);
    const browser = await openBrowser(place.env);
    let passed = 0;
    let failed = 0;
    try {
        await prepare(server.base, folder);
        const only = process.argv[2] ?? "";
        for (const test of tests.filter((one) => one.sentence.includes(only))) {
            if (await runOne(test, browser, { server, place, folder }))
                passed++;
            else
                failed++;
        }
    } catch (error) {
        failed++;
        console.log(`FAILED to prepare: ${error.message}`);
    }
    await browser.close();
    await server.stop();
    place.close();
    rmSync(folder, { recursive: true });
    console.log(`${passed} passed, ${failed} failed`);
    process.exitCode = failed || !passed ? 1 : 0;
}
