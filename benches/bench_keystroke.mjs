/* Formulas in Chromium on the demo's first formula: from a key to new numbers
 * on the page, and how much of a frame of 16 ms that is. One line of JSON. */

import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { FRAME_MS, keystrokes } from "../tests/browser/keystroke.js";
import { demo, openBrowser, startServer } from "../tests/browser/stage.js";

const folder = mkdtempSync(join(tmpdir(), "doughwright-bench-"));
demo(folder);
const server = await startServer(folder);
const browser = await openBrowser();
try {
    const page = await browser.newPage();
    await page.goto(`${server.base}/formulas/1`);
    await page.locator(".sheet tfoot .weight", { hasText: /\d/ }).waitFor();
    const { median, most } = await keystrokes(page, 200);
    console.log(JSON.stringify({ bench: "keystroke",
        what: "key to numbers on the page", strokes: 200,
        median_ms: Number(median.toFixed(2)), most_ms: Number(most.toFixed(2)),
        of_a_frame: Number((median / FRAME_MS).toFixed(3)) }));
} finally {
    await browser.close();
    await server.stop();
    rmSync(folder, { recursive: true });
}
