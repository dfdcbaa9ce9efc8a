/* What lessons are made from, newest first. */
#ifndef DW_STORE_TAUGHT_H
#define DW_STORE_TAUGHT_H

#include "store/nouns.h"
#include "store/store.h"

/* The newest `most` readings of a kind of any batch and the shop. */
dw_status dw_store_readings_of(dw_store *store, int kind, int64_t most,
                               dw_arena *arena, dw_reading_row **rows,
                               size_t *count, dw_err *err);
/* What thermometers in the cold room showed from one moment to another, for
 * one batch or the shop, oldest first; what is left out is not among them. */
dw_status dw_store_cold_between(dw_store *store, int64_t batch_id,
                                int64_t from_ms, int64_t to_ms, dw_arena *arena,
                                dw_reading_row **rows, size_t *count,
                                dw_err *err);

/* The same of all batches and the shop, from a moment on. */
dw_status dw_store_cold_since(dw_store *store, int64_t from_ms, dw_arena *arena,
                              dw_reading_row **rows, size_t *count,
                              dw_err *err);

/* Dough that was judged or stood in a cup: a verdict's or a cup's id, its
 * batch, formula, yeast and the lot of it that was weighed in (0: not told). */
typedef struct dw_tasted {
    int64_t id, batch_id, formula_id, lot_id;
    int yeast; /* dw_line_kind */
    int64_t occurred_ms;
} dw_tasted;
/* The newest of one yeast; formula_id and lot_id 0: of any. Verdicts of dough
 * that nobody looked at are none. */
dw_status dw_store_verdicts_of(dw_store *store, int yeast, int64_t formula_id,
                               int64_t lot_id, int64_t most, dw_arena *arena,
                               dw_tasted **rows, size_t *count, dw_err *err);
dw_status dw_store_cups_of(dw_store *store, int yeast, int64_t formula_id,
                           int64_t lot_id, int64_t most, dw_arena *arena,
                           dw_tasted **rows, size_t *count, dw_err *err);
/* Filled after a moment, oldest first. */
dw_status dw_store_cups_since(dw_store *store, int64_t since_ms,
                              dw_arena *arena, dw_cup **rows, size_t *count,
                              dw_err *err);
/* Which yeasts, formulas and lots have any, each combination once; `id`,
 * batch_id and occurred_ms mean nothing. */
dw_status dw_store_tasted_kinds(dw_store *store, dw_arena *arena,
                                dw_tasted **rows, size_t *count, dw_err *err);

/* Does any lesson hang on a batch (its probes, verdicts or cups), or on what
 * was so after a moment? */
dw_status dw_store_teaches(dw_store *store, int64_t batch_id, dw_arena *arena,
                           bool *teaches, dw_err *err);
dw_status dw_store_teaches_after(dw_store *store, int64_t after_ms,
                                 dw_arena *arena, bool *teaches, dw_err *err);

/* What is left out now. */
dw_status dw_store_left_out(dw_store *store, dw_arena *arena,
                            dw_left_out **rows, size_t *count, dw_err *err);

#endif
