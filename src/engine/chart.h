/* What the files of the chart module share. */
#ifndef DW_ENGINE_CHART_H
#define DW_ENGINE_CHART_H

#include "doughwright/chart.h"

/* Marks every rule that a point completes; z is what is plotted, in its own
 * sigmas from the centre. `signals` has room for all. */
void dw_chart__mark(const dw_chart_rules *rules, double limit, const double *z,
                    size_t count, dw_chart_signal *signals,
                    size_t *signals_count);
/* Rules there are to complete, for sizing. */
enum { DW_CHART__RULES = 9 };

#endif
