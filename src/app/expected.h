/* What the days to come are expected to take, by product, and at which hours.
 *
 * Here is the only place that decides it: the mean of the same weekday in the
 * last four weeks of sales, sold-out days as they came; with no such sales, the
 * balls to have on that weekday; with neither, nothing. */
#ifndef DW_APP_EXPECTED_H
#define DW_APP_EXPECTED_H

#include "app/stock.h"

extern const char *const dw_expected_basis_words[]; /* nothing build_to sales */
typedef enum dw_expected_basis {
    DW_EXPECTED_NOTHING,
    DW_EXPECTED_BUILD_TO,
    DW_EXPECTED_SALES
} dw_expected_basis;

typedef struct dw_expected {
    int64_t today;
    dw_sale *sales; /* of the last four weeks */
    dw_build_to *build_to;
    size_t sales_count, build_to_count;
} dw_expected;

dw_status dw_expected_open(dw_call *call, const dw_shop *shop,
                           dw_expected *expected);
/* Mean balls of that day, today or later or up to two weeks back; outlet_id 0:
 * all outlets together. */
double dw_expected_balls(const dw_expected *expected, int64_t product_id,
                         int64_t outlet_id, int64_t day,
                         dw_expected_basis *basis);
/* The part of a day's balls that each hour of the wall clock takes; 24, they
 * sum to 1. Common practice, no source: a small noon and a large evening. */
const double *dw_expected_hours(void);

#endif
