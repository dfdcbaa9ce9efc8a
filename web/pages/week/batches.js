/* Batches of the plan as lists: moved, and as balls to order. */

export function movedTo(batches, index, day, mixer) {
    return batches.map((batch, i) =>
        i === index ? { ...batch, day, mixer } : batch);
}

/* The balls of a day's batches, by product, as batch.plan wants them. */
export function piecesOf(shop, batches, day) {
    const ids = new Map(shop.products.map((one) =>
        [one.name, one.product_id]));
    const balls = new Map();
    for (const batch of batches)
        if (batch.day === day)
            for (const piece of batch.pieces)
                balls.set(piece.product,
                    (balls.get(piece.product) ?? 0) + piece.balls);
    return [...balls].map(([name, count]) =>
        ({ product_id: ids.get(name), balls: count }));
}
