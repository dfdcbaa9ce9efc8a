/* Drops: dough that goes to the shops of a commissary on given days.
 *
 * A shop orders until the cut-off; who does not order is expected to want what
 * it sells until its next drop. Balls that are there are allotted so that each
 * shop gets at least the days it was promised (doughwright/allot.h), for today
 * and tomorrow; what is not mixed yet is given to nobody. Loading a drop takes
 * the balls out of their stacks and lends the boxes. */
#ifndef DW_APP_DROPS_H
#define DW_APP_DROPS_H

#include "app/rows.h"
#include "store/drops.h"

/* Balls of one stack on a drop: allotted, or sent. */
typedef struct dw_drop_part {
    int64_t line_id; /* of the drop that went out; 0: allotted */
    int64_t stack_id, number, mixing_day, days_left, balls, boxes;
    int64_t refused;
    bool credited;
    const char *reason;
} dw_drop_part;

typedef struct dw_drop_piece {
    int64_t product_id, balls_per_box;
    const char *name;
    int64_t wanted;
    bool ordered; /* else expected */
    int64_t balls, boxes, short_of;
    dw_drop_part *parts;
    size_t parts_count;
} dw_drop_piece;

extern const char *const dw_drop_state_words[]; /* open closed loaded arrived */
typedef enum dw_drop_state {
    DW_DROP_OPEN,   /* orders are taken */
    DW_DROP_CLOSED, /* the cut-off has passed: an order is late */
    DW_DROP_LOADED,
    DW_DROP_ARRIVED
} dw_drop_state;

typedef struct dw_drop {
    int64_t day, outlet_id, drop_id; /* drop_id 0: not loaded */
    const char *outlet;
    int64_t at_ms, cutoff_ms;
    int state; /* dw_drop_state */
    bool ordered, late, allotted;
    int64_t placed_ms, promised_days;
    const char *order_note, *note;
    dw_drop_piece *pieces;
    size_t pieces_count;
    int64_t loaded_ms, arrived_ms, boxes_out, boxes_back;
    bool has_door_c, door_warm;
    double door_c, door_most_c;
} dw_drop;

typedef struct dw_drops {
    int64_t from_day, today;
    int short_rule; /* dw_allot_rule */
    dw_drop *drops; /* by day and time */
    size_t drops_count;
    dw_outlet_owes *owes;
    size_t owes_count;
} dw_drops;
extern const dw_shape dw_drops_shape, dw_drop_shape;

/* Drops of `days` days from from_day on, those that went out included;
 * outlet_id 0: of all shops. */
dw_status dw_drops_read(dw_call *call, int64_t from_day, int64_t days,
                        int64_t outlet_id, dw_drops *out);
/* The one of that day and shop; DW_E_NOT_FOUND (day). */
dw_status dw_drop_find(dw_call *call, int64_t day, int64_t outlet_id,
                       dw_drop *out);

#endif
