/* What the two ends of the pipe say to each other. One machine, one build:
 * numbers go as they lie in memory. */
#ifndef DW_SOLVE_WIRE_H
#define DW_SOLVE_WIRE_H

#include "doughwright/solver.h"

#define DW_SOLVE_MARK 0x44575031u /* changes when the layout does */

/* To the solver: this, then cost, low, high (columns), whole (columns, a byte
 * each), row_low, row_high (rows), row_start (rows + 1), column, value (as
 * row_start ends), start (columns, if any). */
typedef struct dw_solve__ask {
    uint32_t mark, has_start;
    uint64_t columns, rows, entries;
    double seconds, gap;
} dw_solve__ask;

/* From it: this, then x (columns) when found. */
typedef struct dw_solve__answer {
    uint32_t mark, found;
    double cost, bound;
} dw_solve__answer;

/* All of it or false; interrupted calls go on. */
bool dw_solve__write(int file, const void *from, size_t bytes);
bool dw_solve__read(int file, void *to, size_t bytes);

#endif
