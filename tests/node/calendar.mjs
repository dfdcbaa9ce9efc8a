/* The calendar of the demo, read back by another program: npm ical.js.
 *     node tests/node/calendar.mjs      (needs a build and npm ci in tests) */

import ICAL from "ical.js";
import { execFileSync, spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const program = fileURLToPath(new URL("../../build/doughwright",
    import.meta.url));
const folder = mkdtempSync(join(tmpdir(), "doughwright-calendar-"));
const data = join(folder, "demo.db");
const call = (op, request) => JSON.parse(execFileSync(program,
    ["call", op, "--data", data], { input: JSON.stringify(request) }));

const tally = { passed: 0, failed: 0 };

function check(what, right) {
    tally[right ? "passed" : "failed"]++;
    if (!right)
        console.log(`FAILED ${what}`);
}

execFileSync(program, ["demo", "--data", data]);
const { key } = call("calendar.share", {});
const told = call("calendar.list", {});
const server = spawn(program, ["serve", "--data", data, "--port", "0"],
    { stdio: ["ignore", "pipe", "inherit"] });
const base = await new Promise((resolve) => {
    let said = "";
    server.stdout.on("data", (text) => {
        said += text;
        const found = /https?:\/\/\S+?:\d+/.exec(said);
        if (found)
            resolve(found[0]);
    });
});
const answer = await fetch(`${base}/calendar/${key}.ics`);
const text = await answer.text();
server.kill("SIGTERM");

const events = new ICAL.Component(ICAL.parse(text)).getAllSubcomponents(
    "vevent").map((one) => new ICAL.Event(one));
check("it is a calendar", answer.headers.get("content-type")
    .startsWith("text/calendar"));
check("there is something to come", events.length > 10);
check("no two events have one name",
    new Set(events.map((one) => one.uid)).size === events.length);
check("drops are at the moments the program tells", told.events.filter((one) =>
    one.kind === "drop").every((one) => events.some((event) =>
    event.uid === `${one.uid}@doughwright` && event.summary === one.summary &&
    event.startDate.toJSDate().getTime() === one.start_ms)));
rmSync(folder, { recursive: true });
console.log(`${tally.passed} passed, ${tally.failed} failed`);
process.exit(tally.failed ? 1 : 0);
