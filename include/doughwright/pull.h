/* The pull sheet: which boxes come out of the cold at which time, so that
 * tempered balls are there when they are wanted and few stand too long.
 *
 * A ball out of the cold can be used from temper_h on (cold.h, answers.h) and
 * until bench_h. Each row of the sheet says how many balls are to be out once
 * it is done, tempering ones included: whoever pulls counts the bench and fills
 * it up with whole boxes, so the sheet holds on a slow night and on a busy one.
 * That number is enough, with the probability `enough`, for what is wanted
 * until the balls of the next row are tempered:
 *
 *   level = m + z sqrt(m + (day_sd m)^2),  m = mean wanted until then      (1)
 *
 * `enough`, unless it is told, is the one of a few that costs least over
 * sampled days of service; and so is `most_enough`, which limits every row to
 * what is wanted, with that probability, before its balls are past or the
 * service ends. Times are ms since 1970 UTC. Nothing is rounded
 * across boxes. Equations, the sampling, what it is held against:
 * docs/models/stock.md. The times are about quality; the local food code says
 * how long dough may stand.
 */
#ifndef DOUGHWRIGHT_PULL_H
#define DOUGHWRIGHT_PULL_H

#include "doughwright/field.h"

enum { DW_PULL_SLOTS_MOST = 96, DW_PULL_LOTS_MOST = 200 };

/* Balls in the cold, in the order they are to be used. */
typedef struct dw_pull_lot {
    int64_t stack_id; /* the caller's; 0: none */
    int64_t balls;
    int64_t ready_ms; /* not opened before; 0: ready */
    bool has_end_ms;
    int64_t end_ms; /* past from then */
} dw_pull_lot;

/* Balls that are out already. */
typedef struct dw_pull_out {
    int64_t balls, usable_ms, end_ms;
} dw_pull_out;

typedef struct dw_pull_plan {
    int64_t start_ms;    /* the first slot begins */
    double slot_minutes; /* preset 60 */
    double *wanted;      /* mean balls in each slot; borrowed */
    size_t wanted_count;
    double day_sd_percent; /* how far a whole day is from its mean: preset 15,
                              common practice, no source */
    bool has_now_ms;
    int64_t now_ms;      /* nothing is pulled before, nor wanted */
    double step_minutes; /* between pulls: preset 30 */
    double temper_h, bench_h;
    int64_t balls_per_box;
    dw_pull_lot *lots; /* borrowed */
    size_t lots_count;
    dw_pull_out *out; /* borrowed */
    size_t out_count;
    bool has_enough;
    double enough;        /* 0.5 to 0.999 */
    int64_t days_sampled; /* preset 120; 0: none, and enough must be told */
    double short_cost, over_cost; /* of a ball: presets 13 and 1 */
} dw_pull_plan;
extern const dw_shape dw_pull_plan_shape;

typedef struct dw_pull_row {
    int64_t at_ms;
    int64_t have_out; /* balls to be out then, tempering ones included */
    int64_t lot;      /* index; a row for each lot it takes from; lots_count:
                   none is expected to come out */
    int64_t stack_id, boxes, balls; /* expected: what a mean day takes */
    int64_t usable_ms, end_ms;
} dw_pull_row;

typedef struct dw_pull_sheet {
    dw_pull_row *rows; /* by time */
    size_t rows_count;
    double wanted;              /* mean, from now on */
    int64_t pulled, lacking;    /* lacking: the most that a row calls for and no
                                   lot has */
    double enough, most_enough;
    double unserved, expired, left; /* means over the sampled days; left: out at
                                       the end */
    bool late; /* wanted before the first ball can be tempered */
} dw_pull_sheet;
extern const dw_shape dw_pull_sheet_shape;

/* The arena needs 64 kB and, while it works, 8 bytes for every five minutes of
 * each sampled day: 1 MiB is enough for the preset. DW_E_MISSING: enough;
 * DW_E_RANGE: bench_h not above temper_h (bench_h), a lot that ends before it
 * is ready (lots.end_ms), more than 48 h of service (wanted); DW_E_ROOM. */
dw_status dw_pull_make(const dw_pull_plan *plan, dw_arena *arena,
                       dw_pull_sheet *sheet, dw_err *err);

#endif
