/* The engine in WebAssembly gives the same bits as the program does here.
 *     node tests/wasm/same_bits.mjs ENGINE.wasm NUMBERS
 * NUMBERS is the program built from print.c. */

import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";

const [wasm, program] = process.argv.slice(2);
const tally = { passed: 0, failed: 0 };

function check(sentence, right, why = "") {
    tally[right ? "passed" : "failed"]++;
    if (!right)
        console.log(`FAILED ${sentence}\n  ${why}`);
}

const module = new WebAssembly.Module(readFileSync(wasm));
const imports = WebAssembly.Module.imports(module);
check("the engine needs nothing from outside", imports.length === 0,
    JSON.stringify(imports));

const engine = new WebAssembly.Instance(module, {}).exports;
const count = engine.dw_numbers_count();
const there = Array.from(new BigUint64Array(engine.memory.buffer,
    engine.dw_numbers(), count),
(bits) => bits.toString(16).padStart(16, "0"));
const here = execFileSync(program, { encoding: "utf8" }).trim().split("\n");

/* 6 lines and 3 sums; 47 rows (0 to 45 h by the hour, and 45.5 h) of 11
 * columns; 2 moments: 528. */
check("both answer a scaled formula and a life", here.length === 528 &&
    there.length === here.length, `${here.length} and ${there.length}`);
const other = here.findIndex((bits, i) => bits !== there[i]);
check("every number has the same 64 bits", other < 0,
    `number ${other}: ${here[other]} here, ${there[other]} there`);

console.log(`${here.length} numbers compared`);
console.log(`${tally.passed} passed, ${tally.failed} failed`);
process.exitCode = tally.failed ? 1 : 0;
