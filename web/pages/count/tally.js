/* A count on its way: one row for each product and mixing day, in the order
 * one walks along the shelves. Pure; what is short comes from the server. */

/* A product with nothing expected still has one row: somebody looks. */
export function rowsOf(sheet) {
    return sheet.products.flatMap((product) => {
        const ages = product.ages.length ? product.ages
            : [{ mixing_day: sheet.day, balls: 0, readiness: null }];
        return ages.map((age) => newRow(product, age));
    });
}

export function newRow(product, age) {
    return { key: `${product.product_id}:${age.mixing_day}`,
        product_id: product.product_id, mixing_day: age.mixing_day,
        per_box: product.balls_per_box, expected: age.balls,
        readiness: age.readiness };
}

/* The sheet's rows and those somebody added, each product's together. */
export function withAdded(rows, added) {
    const fresh = added.filter((one) =>
        !rows.some((row) => row.key === one.key));
    const place = new Map(rows.map((row, i) => [row.product_id, i]));
    return [...rows, ...fresh].map((row, i) => [row, i])
        .sort(([a, i], [b, j]) => (place.get(a.product_id) ?? i) -
            (place.get(b.product_id) ?? j) || a.mixing_day - b.mixing_day)
        .map(([row]) => row);
}

/* --- typing: "3 boxes + 4" ----------------------------------------------- */

export const nothingTyped = { boxes: null, digits: "" };

export function press(typed, key) {
    if (key === "back")
        return typed.digits
            ? { ...typed, digits: typed.digits.slice(0, -1) }
            : { boxes: null,
                digits: typed.boxes === null ? "" : String(typed.boxes) };
    if (key === "boxes")
        return typed.digits && typed.boxes === null
            ? { boxes: Number(typed.digits), digits: "" } : typed;
    return typed.digits.length < 5
        ? { ...typed, digits: typed.digits + key } : typed;
}

/* Balls, or null while nothing is typed. */
export function ballsOf(typed, per_box) {
    if (typed.boxes === null && typed.digits === "")
        return null;
    return (typed.boxes ?? 0) * per_box + Number(typed.digits || 0);
}

/* --- what is counted ------------------------------------------------------ */

/* The next row without a number after `key`, else the first without one. */
export function nextRow(rows, counted, key) {
    const at = rows.findIndex((row) => row.key === key);
    const open = (row) => counted[row.key] === undefined;
    return rows.slice(at + 1).find(open) ?? rows.find(open) ?? null;
}

/* A product's count replaces all that was known of it, so it is sent only when
 * each of its mixing days has a number. */
export function linesOf(rows, counted) {
    const open = new Set(rows.filter((row) => counted[row.key] === undefined)
        .map((row) => row.product_id));
    return rows.filter((row) => !open.has(row.product_id))
        .map(({ key, product_id, mixing_day }) =>
            ({ product_id, mixing_day, balls: counted[key] }));
}

export function uncounted(sheet, lines) {
    const sent = new Set(lines.map((line) => line.product_id));
    return sheet.products.filter((one) => !sent.has(one.product_id));
}

/* What is short, as an order of balls; and the address that shows its batches
 * before they are made. */
export function orderOf(products) {
    return products.filter((one) => one.need > 0)
        .map(({ product_id, need }) => ({ product_id, balls: need }));
}

export function orderPath(products) {
    const short = orderOf(products)
        .map(({ product_id, balls }) => `${product_id}:${balls}`);
    return `/batches?order=${short.join(",")}`;
}
