/* Something is off in a batch: what it is now.
 *
 * Adjustments belong to the batch and never touch the formula's version. From
 * the planned weights and what happened come the weights in the bowl, their
 * percents of the flour that is really there, and the true hydration. */
#ifndef DOUGHWRIGHT_ADJUST_H
#define DOUGHWRIGHT_ADJUST_H

#include "doughwright/formula.h"
#include "doughwright/yeast.h"

extern const char *const dw_adjustment_words[];
typedef enum dw_adjustment_what {
    DW_ADJUST_ADD,       /* kg more of a line, or less (negative) */
    DW_ADJUST_WEIGHED,   /* kg is what went in */
    DW_ADJUST_FORGOTTEN, /* none went in */
    DW_ADJUST_DOUBLED,   /* it went in twice */
    DW_ADJUST_SWAP       /* another yeast, as much as raises alike */
} dw_adjustment_what;

typedef struct dw_adjustment {
    int what;             /* dw_adjustment_what */
    const char *material; /* the line's name */
    bool has_kg;
    double kg; /* for add and weighed */
    bool has_kind;
    int kind; /* for swap: a yeast line kind */
} dw_adjustment;

extern const dw_shape dw_adjustment_shape;

/* A line as it is in the bowl. */
typedef struct dw_adjusted_line {
    const char *material; /* borrowed from the formula */
    int kind;
    double planned_kg, kg;
    double percent; /* of the flour in the bowl */
} dw_adjusted_line;

typedef struct dw_adjusted {
    double flour_kg, dough_kg, total_percent, hydration_percent;
} dw_adjusted;

/* Apply `count` adjustments in order to the planned kg (one a line of the
 * formula). `lines` has lines_count (at most 60, asserted), yours;
 * after a failure it holds nothing of use. DW_E_NOT_FOUND for a material
 * that is not in the formula, DW_E_MISSING for a kg or kind that is needed,
 * DW_E_CHOICE for a swap that is not between yeasts, DW_E_RANGE when less than
 * nothing would be left, DW_E_NO_FLOUR when no flour is. */
dw_status dw_batch_adjust(const dw_formula *formula, const double *planned_kg,
                          const dw_adjustment *adjustments, size_t count,
                          const dw_yeast_table *table, dw_adjusted_line *lines,
                          dw_adjusted *adjusted, dw_err *err);

#endif
