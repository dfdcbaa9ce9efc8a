/* Yeast by type: how much of one stands for how much of another.
 *
 * The usual table is fresh 1, active dry 0.45, instant 0.35 by weight: common
 * practice (sources.md "yeast_conversion"); makers' own tables differ, so the
 * table has a name and can be set. */
#ifndef DOUGHWRIGHT_YEAST_H
#define DOUGHWRIGHT_YEAST_H

#include "doughwright/formula.h"

/* Weights that raise dough alike. */
typedef struct dw_yeast_table {
    const char *name;
    double fresh, active_dry, instant; /* each > 0, at most 10 */
} dw_yeast_table;

extern const dw_shape dw_yeast_table_shape;
extern const dw_yeast_table dw_yeast_usual;

bool dw_line_kind_is_yeast(int kind);
/* The weight in `table` of a yeast line kind (asserted). */
double dw_yeast_weight(const dw_yeast_table *table, int kind);
/* `amount` (percent or kg) of yeast kind `from`, told as yeast kind `to`. */
double dw_yeast_convert(const dw_yeast_table *table, double amount, int from,
                        int to);

#endif
