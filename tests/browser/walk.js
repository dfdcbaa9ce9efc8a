/* What the tests of Today, Count and Shop share: shelves with dough, and the
 * look of a screen reader. */

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { call } from "./stage.js";

const AXE = readFileSync(createRequire(import.meta.url)
    .resolve("axe-core/axe.min.js"), "utf8");

export const plain = (text) => text.replaceAll("\u00a0", " ").trim();

export async function nothingSerious(page) {
    await page.evaluate(AXE);
    const found = await page.evaluate(() => globalThis.axe.run());
    const serious = found.violations.filter(({ impact }) =>
        impact === "serious" || impact === "critical");
    assert.deepEqual(serious.map(({ id, nodes }) =>
        `${id}: ${nodes.map((node) => node.html).join(" | ")}`), []);
}

const wholeWeek = (product_id, balls) => [0, 1, 2, 3, 4, 5, 6].map(
    (weekday) => ({ product_id, weekday, balls }));

/* 60 of each product to have; 20 of each of three mixing days as counted. */
export async function stocked(base) {
    const { products } = await call(base, "shop.get", {});
    await call(base, "build_to.replace", { rows: products.flatMap((one) =>
        wholeWeek(one.id, 60)) });
    const { day } = await call(base, "count.get", {});
    await call(base, "count.save", { lines: products.flatMap((one) =>
        [2, 1, 0].map((ago) => ({ product_id: one.id, balls: 20,
            mixing_day: day - ago }))) });
    return { products, day };
}
