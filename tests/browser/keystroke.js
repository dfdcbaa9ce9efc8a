/* From a key on Formulas to new numbers on the page, for the test and for the
 * measurement. */

export const FRAME_MS = 16;

/* In the page: an input event in the second percent, and the moment when the
 * second weight of the sheet has changed. */
async function measure(count) {
    const input = document.querySelectorAll(".sheet tbody input")[1];
    const cell = document.querySelectorAll(".sheet .weight")[1];
    const times = [];
    for (let i = 0; i < count; i++) {
        const began = performance.now();
        const shown = new Promise((resolve) => {
            const watch = new MutationObserver(() => {
                watch.disconnect();
                resolve(performance.now() - began);
            });
            watch.observe(cell, { subtree: true, childList: true,
                characterData: true });
        });
        input.value = String(55 + i % 20 + 0.5);
        input.dispatchEvent(new Event("input", { bubbles: true }));
        times.push(await shown);
        await new Promise((resolve) => setTimeout(resolve, 25));
    }
    return times;
}

/* { median, most } in ms, of a formula's page that is open. The first strokes
 * warm the page up. */
export async function keystrokes(page, count = 60) {
    await page.evaluate(measure, 10);
    const times = (await page.evaluate(measure, count)).sort((a, b) => a - b);
    return { median: times[Math.floor(count / 2)], most: times.at(-1) };
}
