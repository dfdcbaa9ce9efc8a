/* A solver of mixed-integer programs, as the engine sees it: the app hands one
 * in (src/solve), the engine stays pure.
 *
 *     least  cost . x,   row_low <= A x <= row_high,  low <= x <= high    (1)
 *     x[j] whole where whole[j]
 */
#ifndef DOUGHWRIGHT_SOLVER_H
#define DOUGHWRIGHT_SOLVER_H

#include "doughwright/base.h"

#define DW_SOLVER_INFINITE 1e30

/* All arrays are borrowed. Row i has the entries row_start[i] up to, but not
 * with, row_start[i + 1]. */
typedef struct dw_program {
    size_t columns, rows;
    double *cost, *low, *high;
    bool *whole;
    double *row_low, *row_high;
    int32_t *row_start, *column;
    double *value;
    const double *start; /* a solution to begin from, or NULL */
    double seconds;      /* of the clock */
    double gap;          /* stop when (cost - bound) / cost is below */
} dw_program;

typedef struct dw_solved {
    bool found;     /* x is within all limits */
    double cost;    /* of x */
    double bound;   /* no x costs less */
    double seconds; /* of the clock that it took */
    double *x;      /* the caller's, `columns` long; untouched unless found */
} dw_solved;

typedef struct dw_solver {
    /* Called now and then while it works when not NULL; false stops it. A
     * solver that cannot be asked, dies or is stopped says found false and a
     * bound of -DW_SOLVER_INFINITE; it is not an error. */
    void (*solve)(void *owner, const dw_program *program,
                  bool (*go_on)(void *watcher, double cost, double bound),
                  void *watcher, dw_solved *solved);
    void *owner;
} dw_solver;

#endif
