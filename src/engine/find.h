/* Where something that falls comes to nought: the search behind every answer
 * that is asked the other way round. */
#ifndef DW_ENGINE_FIND_H
#define DW_ENGINE_FIND_H

#include "doughwright/base.h"

/* What is asked at x: above 0 on the low side of the place looked for, below 0
 * on the high side; INFINITY where it is above and has no number. */
typedef dw_status dw_find__gap(void *owner, double x, double *gap, dw_err *err);

typedef struct dw_find__search {
    dw_find__gap *gap;
    void *owner;
    double least, most; /* of x */
    double guess;       /* within them */
    double per_gap;     /* x for a unit of gap, roughly: the first stride */
    double within;      /* of x */
    double gap_within;  /* small enough to stop at once */
} dw_find__search;

/* The x whose gap is nought. From the guess in growing strides until it is
 * passed, then Chandrupatla's method (Advances in Engineering Software 28:145,
 * 1997). DW_E_UNREACHABLE, with nothing said in err, when the gap has one sign
 * from least to most; else what `gap` fails with. */
dw_status dw_find__nought(const dw_find__search *search, double *x,
                          dw_err *err);

#endif
