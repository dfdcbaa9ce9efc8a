/* What was tapped and is not in the server's answer yet, laid over the card,
 * so a tap shows at once and without a network. Says the same as the server's
 * operations on a card; weights and water are the server's to work out. */

function changeStep(card, id, change) {
    return { ...card, steps: card.steps.map((row) =>
        row.id === id ? { ...row, ...change(row) } : row) };
}

function begun(card, at) {
    const { batch } = card;
    return batch.started_ms ? card
        : { ...card, batch: { ...batch, started_ms: at, state: "mixing" } };
}

const MARKS = {
    begin: (at) => ({ started_ms: at, done_ms: 0, skipped: false }),
    done: (at, row) => ({ started_ms: row.started_ms || at, done_ms: at,
        skipped: false }),
    skip: (at) => ({ done_ms: at, skipped: true }),
    /* a step that ran goes on running */
    undo: (at, row) => ({ done_ms: 0, skipped: false,
        started_ms: row.done_ms > row.started_ms ? row.started_ms : 0 }),
};

/* What finishing, or taking back, this step means for the batch. */
function follow(card, kind, mark, at) {
    const { batch } = card;
    const set = (change) => ({ ...card, batch: { ...batch, ...change } });
    if (kind === "stop" && mark === "done")
        return set({ stopped_ms: at,
            state: batch.state === "mixing" ? "mixed" : batch.state });
    if (kind === "stop" && mark === "undo")
        return set({ stopped_ms: 0,
            state: batch.state === "mixed" ? "mixing" : batch.state });
    if (kind === "close" && mark === "done")
        return set({ closed_ms: at, state: "closed" });
    if (kind === "close" && mark === "undo")
        return set({ closed_ms: 0,
            state: batch.last_box_ms ? "boxed" : batch.state });
    return card;
}

function markStep(card, { step_id, mark, answer }, at) {
    const row = card.steps.find((one) => one.id === step_id);
    if (!row)
        return card;
    const marked = changeStep(mark === "begin" || mark === "done"
        ? begun(card, at) : card, step_id, (was) =>
        ({ ...MARKS[mark](at, was), answer: answer ?? null }));
    return follow(marked, row.step.kind, mark, at);
}

function markWeighing(card, { weighing_id, weighed_kg, lot_id }, at) {
    return { ...card, weighings: card.weighings.map((row) =>
        row.weighing.id === weighing_id
            ? { ...row, lot: lot_id === row.weighing.lot_id ? row.lot : null,
                weighing: { ...row.weighing, weighed_kg, lot_id,
                    at_ms: weighed_kg === null ? 0 : at } }
            : row) };
}

const APPLY = {
    "step.mark": markStep,
    "weighing.mark": markWeighing,
    "batch.begin": (card, body, at) => begun(card, at),
    "reading.save": (card, { batch_id, kind, celsius }, at) =>
        batch_id !== card.batch.id ? card : { ...card, readings: [
            ...card.readings, { id: 0, kind, celsius, occurred_ms: at }] },
    "change.save": (card, body, at) =>
        body.batch_id !== card.batch.id ? card : { ...card,
            changes: [...card.changes, { ...body, id: 0, occurred_ms: at }],
            batch: body.kind === "abandoned"
                ? { ...card.batch, state: "abandoned" } : card.batch },
    "verdict.save": (card, body) =>
        body.batch_id !== card.batch.id ? card
            : { ...card, verdicts: [...card.verdicts, body] },
    "batch.box": (card, body, at) =>
        body.batch_id !== card.batch.id ? card : { ...card,
            batch: { ...card.batch, state: "boxed",
                first_box_ms: body.first_box_ms || at, last_box_ms: at },
            pieces: card.pieces.map((cut) => ({ ...cut, piece: { ...cut.piece,
                balls_made: body.pieces.find((one) =>
                    one.id === cut.piece.id)?.balls_made ?? null } })) },
};

export function withEntries(card, entries) {
    return entries.reduce((so_far, entry) => APPLY[entry.op]?.(so_far,
        JSON.parse(entry.body), entry.occurred_ms) ?? so_far, card);
}
