/* Batches by what the day asks of them. */
#ifndef DW_STORE_BATCHES_H
#define DW_STORE_BATCHES_H

#include "store/nouns.h"
#include "store/store.h"

/* Readings of a kind since a moment, newest first; batch_id 0: the shop's own.
 */
dw_status dw_store_readings_newest(dw_store *store, int64_t batch_id, int kind,
                                   int64_t since_ms, dw_arena *arena,
                                   dw_reading_row **rows, size_t *count,
                                   dw_err *err);
/* Batches whose mixer stopped in that time, newest first. */
dw_status dw_store_batches_stopped(dw_store *store, int64_t mixer_id,
                                   int64_t from_ms, int64_t to_ms,
                                   dw_arena *arena, dw_batch_row **rows,
                                   size_t *count, dw_err *err);
/* Batches of days from..to, by day and planned start. */
dw_status dw_store_batches_of_days(dw_store *store, int64_t from_day,
                                   int64_t to_day, dw_arena *arena,
                                   dw_batch_row **rows, size_t *count,
                                   dw_err *err);
enum { DW_FIND_TEXT = 80 }; /* bytes of a search's text at most */
/* Which batches: each word of the text is in the name of formula, product,
 * person or mixer, in the note or in a lot's code (letters of ASCII in either
 * case; the fourth word is all that is left). A bare number is the batch's own
 * or a lot's code. */
typedef struct dw_batch_search {
    int64_t from_day, to_day;
    const char *text; /* NULL: any */
    bool has_verdict;
    int verdict; /* the newest on one of its products */
    bool off;    /* only where something was off */
    int64_t limit, offset;
} dw_batch_search;
/* Newest day and start first. */
dw_status dw_store_batches_find(dw_store *store, const dw_batch_search *search,
                                dw_arena *arena, dw_batch_row **rows,
                                size_t *count, dw_err *err);
/* Batches that still want something: begun or planned, not closed, not
 * abandoned. */
dw_status dw_store_batches_open(dw_store *store, dw_arena *arena,
                                dw_batch_row **rows, size_t *count,
                                dw_err *err);
/* Stacks that are open in the cold room. */
dw_status dw_store_stacks_open(dw_store *store, dw_arena *arena,
                               dw_stack **rows, size_t *count, dw_err *err);
/* The number that the next batch gets. */
dw_status dw_store_batch_number(dw_store *store, dw_arena *arena,
                                int64_t *number, dw_err *err);

/* What a mixer's recorded batches taught, oldest first, `but_id` left out. */
typedef struct dw_batch_taught {
    int64_t batch_id, formula_id;
    double mixer_minutes, work_j_per_kg_dough, sd_j_per_kg;
} dw_batch_taught;
dw_status dw_store_batches_taught(dw_store *store, int64_t mixer_id,
                                  int64_t but_id, dw_arena *arena,
                                  dw_batch_taught **rows, size_t *count,
                                  dw_err *err);

#endif
