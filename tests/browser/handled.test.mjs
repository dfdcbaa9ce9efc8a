/* What comes up while one works: a stack to close, an alarm, bags to throw
 * away, and what can be off with a batch. */

import assert from "node:assert/strict";
import { browserTest, call, runAll } from "./stage.js";
import { batchAt, setUpShop } from "./shop.js";

let shop = null;

async function prepare(base) {
    shop = await setUpShop(base);
}

async function until(test) {
    const end = Date.now() + 8000;
    while (Date.now() < end) {
        if (await test())
            return;
        await new Promise((resolve) => setTimeout(resolve, 40));
    }
    throw new Error("it did not come about in 8 s");
}

const cardOf = (base, id) => call(base, "batch.get", { id });
const press = (page, name) =>
    page.getByRole("button", { name, exact: true }).click();

/* --- Today closes it ----------------------------------------------------- */

browserTest("Today closes a stack in one tap, and one more takes it back",
    "limit", "the closing step is ticked as on the card",
    async ({ page, base }) => {
        const id = await batchAt(base, shop.instant.large, "chill_open");
        const { pieces, batch: { number } } = await cardOf(base, id);
        await call(base, "batch.box", { batch_id: id,
            pieces: pieces.map(({ piece }) =>
                ({ id: piece.id, balls_made: piece.balls_planned })) });
        const state = async () => (await cardOf(base, id)).batch.state;
        await page.goto(`${base}/today`);
        const thing = page.locator(".next li",
            { hasText: `batch ${number}.` });
        await thing.getByRole("button", { name: /^It is closed/ }).click();
        await until(async () => await state() === "closed");
        await thing.waitFor({ state: "detached" });
        await press(page, "Undo");
        await until(async () => await state() === "boxed");
        await thing.waitFor();
    });

await runAll(prepare);
