/* Runs the tests of the pages' libraries and closes with "N passed, N failed".
 *     node tests/web/run.mjs */

import { run } from "node:test";
import { readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";

const here = new URL("./", import.meta.url);
const files = readdirSync(here).filter((name) => name.endsWith(".test.js"))
    .map((name) => fileURLToPath(new URL(name, here)));

let passed = 0;
let failed = 0;

/* A file is itself reported as a test around its own; only what fails with no
 * test inside it (a file that does not load) counts. */
function isFile(event) {
    return files.includes(event.name);
}

run({ files })
    .on("test:pass", (event) => { passed += isFile(event) ? 0 : 1; })
    .on("test:fail", (event) => {
        const cause = event.details.error.cause ?? event.details.error;
        if (isFile(event) && event.details.error.failureType ===
            "subtestsFailed")
            return;
        failed++;
        console.log(`FAILED ${event.name}\n  ${cause?.message ?? cause}`);
    })
    .on("end", () => {
        console.log(`${passed} passed, ${failed} failed`);
        process.exitCode = failed || !passed ? 1 : 0;
    })
    .resume();
