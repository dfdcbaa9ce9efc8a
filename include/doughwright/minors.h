/* Minors bags: the small ingredients of a batch weighed ahead, with some of
 * the formula's flour as diluent, so that the card asks for one bag.
 *
 * A bag holds salt, sugar, instant yeast, malt, gluten and whatever else is
 * known to be dry (water_percent at most 15), each at percent / 100 * flour_kg,
 * and diluent_kg of one flour line, which is then taken off that line in the
 * batch. Any other yeast dies or cakes in the bag and is refused. Liquids,
 * fat and dairy stay out. Practice of the trade, no source: 1-2 lb of
 * diluent, 30 days at most, a week is better.
 */
#ifndef DOUGHWRIGHT_MINORS_H
#define DOUGHWRIGHT_MINORS_H

#include "doughwright/formula.h"

typedef struct dw_minors_request {
    dw_formula formula;
    double flour_kg; /* of the batch one bag is for */
    int64_t bags;
    double diluent_kg;        /* flour in one bag */
    const char *diluent;      /* which flour line; NULL: the first */
    double tolerance_percent; /* of the bag, preset 1 */
    int64_t made_ms;
    int64_t days; /* until it is thrown away, 1..30, preset 7 */
} dw_minors_request;

typedef struct dw_minors_line {
    const char *material; /* borrowed */
    int kind;             /* dw_line_kind */
    double bag_kg;        /* in one bag */
    double all_kg;        /* in all of them */
} dw_minors_line;

typedef struct dw_minors_reply {
    dw_minors_line *lines; /* diluent flour first */
    size_t lines_count;
    double bag_kg, low_kg, high_kg; /* of a full bag */
    const char *diluent;            /* borrowed */
    double flour_left_kg;           /* of that flour line in the batch */
    int64_t bags, made_ms, discard_ms;
} dw_minors_reply;

extern const dw_shape dw_minors_request_shape, dw_minors_reply_shape;

/* Does the line go into a bag? */
bool dw_minors_takes(const dw_line *line);

/* Fails with DW_E_CHOICE (yeast that is not instant:
 * formula.lines[i].kind), DW_E_CONFLICT (a stage takes a minor of its own:
 * formula.stages[i]), DW_E_NOT_FOUND (diluent is no flour line), DW_E_RANGE
 * (diluent_kg beyond that line), DW_E_MISSING (nothing to bag:
 * formula.lines), DW_E_NO_FLOUR, DW_E_ROOM. */
dw_status dw_minors_bag(const dw_minors_request *request, dw_arena *arena,
                        dw_err *err, dw_minors_reply *reply);

#endif
