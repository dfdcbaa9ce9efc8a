/* Is what a person tells of a batch possible, and is it usual? What cannot be
 * is refused with its range, which is the batch's own; what is only unusual is
 * taken and asked about: *said is a sentence, or NULL. Limits: common practice,
 * no source; docs/models/batch.md, "What is asked about". */
#ifndef DW_APP_DOUBT_H
#define DW_APP_DOUBT_H

#include "app/batches.h"

/* What a thermometer shows on a sane day. */
typedef struct dw_usual_reading {
    int kind;
    double low_c, high_c;
} dw_usual_reading;
extern const dw_shape dw_usual_reading_shape;
/* One for each kind of reading, in their order. Static, borrowed. */
const dw_usual_reading *dw_usual_readings(size_t *count);
/* A temperature; asks also whether its unit is right. */
dw_status dw_doubt_reading(dw_call *call, int kind, double celsius,
                           const char **said);

/* A change, against the card before it was written. DW_E_RANGE "kg". */
dw_status dw_doubt_change(dw_call *call, const dw_card *card,
                          const dw_batch_change *change, const char **said);

/* Balls of a piece that came; scrap and residue. DW_E_RANGE. */
dw_status dw_check_balls(dw_call *call, const dw_batch_row *batch,
                         const dw_batch_piece *piece, int64_t balls_made);
dw_status dw_check_rests(dw_call *call, const dw_batch_row *batch);
/* All of it together, once it was boxed. DW_E_ROOM. */
dw_status dw_doubt_boxed(dw_call *call, const dw_card *card, const char **said);

#endif
