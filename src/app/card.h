/* What is done to a batch while it is made. Shared by the card's operations and
 * the form that enters a paper sheet. */
#ifndef DW_APP_CARD_H
#define DW_APP_CARD_H

#include "app/batches.h"

/* A batch that may still be changed: not abandoned. */
dw_status dw_batch_open(dw_call *call, int64_t batch_id, dw_batch_row *batch);
dw_status dw_batch_keep(dw_call *call, const dw_batch_row *batch);

/* The mixer starts for the first time, stops for the last time. */
dw_status dw_batch_begin(dw_call *call, dw_batch_row *batch, int64_t at_ms);
dw_status dw_batch_stop(dw_call *call, dw_batch_row *batch, int64_t at_ms);

/* Append a reading (batch, product, kind, what it showed and when; the rest is
 * the call's); a dough temperature teaches the mixer's work. */
dw_status dw_reading_keep(dw_call *call, const dw_reading_row *read);

/* What a person tells of a piece: its id and the balls that came. */
extern const dw_shape dw_boxed_piece_shape;
/* Boxes went into the cold room: the balls of each piece, when the first and
 * the last went in, not before the mixer started. Stacks are made, or made
 * anew; pieces not told of stay as they were told before. */
dw_status dw_batch_box(dw_call *call, dw_batch_row *batch,
                       const dw_batch_piece *made, size_t made_count,
                       int64_t first_ms, int64_t last_ms);
/* Its stacks were closed. */
dw_status dw_batch_close(dw_call *call, dw_batch_row *batch, int64_t at_ms);

/* A tap was taken back: the mixer has not stopped, the stacks are open. */
dw_status dw_batch_unstop(dw_call *call, dw_batch_row *batch);
dw_status dw_batch_reopen(dw_call *call, dw_batch_row *batch);

/* One weighing as it came; *said is a sentence when it looks like a slip. */
dw_status dw_weighing_keep(dw_call *call, int64_t weighing_id,
                           bool has_weighed_kg, double weighed_kg,
                           int64_t lot_id, int64_t at_ms, const char **said);

#endif
