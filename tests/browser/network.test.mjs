/* The whole story on the shop's network: HTTPS with the shop's certificate,
 * its password, and a cable that is pulled. And what only a network has. */

import assert from "node:assert/strict";
import { browserTest, demo, runAll } from "./stage.js";
import { openNetwork } from "./network.js";
import { arrive } from "./story.js";
import { nothingSerious } from "./walk.js";

browserTest("nobody without the shop's password gets past the sign-in page",
    "limit", "a wrong password is refused, the right one leads on",
    async ({ page, base }) => {
        await page.goto(`${base}/formulas`);
        await page.waitForURL(/\/login#\/formulas$/);
        await nothingSerious(page);
        const password = page.locator("input[type=password]");
        await password.fill("not the password");
        await page.keyboard.press("Enter");
        await page.getByText("That is not the shop's password.").waitFor();
        await arrive(page, base, "/formulas");
    });

browserTest("the tablet trusts the shop's certificate, and the worker with it",
    "limit", "a secure context, and a page that opens with the cable pulled",
    async ({ page, context, place, base }) => {
        await arrive(page, base, "/formulas");
        assert.equal(await page.evaluate(() => isSecureContext), true);
        await page.evaluate(() => navigator.serviceWorker.ready);
        await page.reload();
        await page.locator("main h1, main h2").first().waitFor();
        await place.cut(context);
        try {
            await page.reload();
            await page.getByRole("link", { name: "Formulas" }).waitFor();
        } finally {
            await place.mend(context);
        }
    });

await runAll(undefined, async (folder) => {
    demo(folder);
    return openNetwork(folder);
});
