/* The pull sheets of a day, and how stock runs down by them when nobody taps.
 *
 * From a product's newest count on, each day's sheet is taken to have been
 * followed: the balls that its rows called for up to a moment have left the
 * cold room, oldest first, less what was tapped that day. That is worked out
 * whenever stock is read; nothing is written for it. A count says how much is
 * there, so it begins anew from the count. */
#ifndef DW_APP_PULLS_H
#define DW_APP_PULLS_H

#include "app/stacks.h"

#include "doughwright/pull.h"

/* A row of a sheet with the words a person needs. */
typedef struct dw_pull_line {
    dw_pull_row row;
    int64_t number, mixing_day; /* of the stack's batch; 0: not known */
    bool past; /* its time has come: taken to be done when not tapped */
} dw_pull_line;

typedef struct dw_product_pull {
    int64_t product_id, balls_per_box;
    const char *name;
    int basis;       /* dw_expected_basis */
    bool has_temper; /* false: the room is too cool for it, no rows */
    double temper_h, bench_h, room_c;
    dw_pull_line *lines;
    size_t lines_count;
    double wanted, enough, unserved, expired, left;
    int64_t pulled, lacking;
} dw_product_pull;
extern const dw_shape dw_product_pull_shape;

typedef struct dw_pull_day {
    int64_t day, now_ms;
    bool runs_down; /* by the shop's setting: rows that are past are assumed */
    dw_product_pull *products; /* those of which something is wanted */
    size_t products_count;
} dw_pull_day;
extern const dw_shape dw_pull_day_shape;

/* The sheets of a day, 0: today; at most a week ahead, later days from what the
 * days before leave. DW_E_RANGE on day. */
dw_status dw_pull_day_read(dw_call *call, int64_t day, dw_pull_day *out);

/* Take from the stacks what the sheets called for since each product's count.
 * `stacks` by product, oldest first. */
dw_status dw_pulls_run_down(dw_call *call, dw_stack_left *stacks, size_t count);

#endif
