/* The run of a day: its batches laid on mixer and bench, from what the shop
 * knows. Shared by the plan, run.get and the run sheet. */
#ifndef DW_APP_RUN_H
#define DW_APP_RUN_H

#include "app/batches.h"
#include "doughwright/runsheet.h"

/* A run without batches and start: hands, minutes, that day's hours, room. */
dw_status dw_run_open(dw_call *call, const dw_shop *shop, int64_t day,
                      double dough_c, dw_run_request *run);
/* A batch of it: minutes to its dough, and when each of its stacks closes. Its
 * name is yours. */
dw_status dw_run_fill(dw_call *call, const dw_shop *shop, double dough_out_min,
                      const dw_card_cut *cuts, size_t cuts_count,
                      double dough_c, dw_run_batch *line);

/* A batch of the day beside its place in the run. */
typedef struct dw_day_batch {
    int64_t batch_id, number;
    int state;
    const char *formula_name, *person_name; /* person NULL: nobody named */
    double dough_kg;
} dw_day_batch;

/* What one mixer does that day. */
typedef struct dw_mixer_run {
    const char *mixer_name; /* NULL: batches without a mixer */
    dw_day_batch *batches;  /* in the order of run.batches */
    size_t batches_count;
    dw_run_reply run;
} dw_mixer_run;

typedef struct dw_day_run {
    int64_t day, leaves_ms; /* 0: nobody said when the last one leaves */
    dw_mixer_run *mixers;
    size_t mixers_count;
} dw_day_run;
extern const dw_shape dw_day_run_shape;

/* The batches of a day, from the first one's planned start; 0: today.
 * Abandoned ones are left out. */
dw_status dw_day_run_read(dw_call *call, int64_t day, dw_day_run *runs);

#endif
