/* What the days to come are expected to take, by product, and at which hours.
 *
 * Here is the only place that decides it: the forecast from today on
 * (demand.h); else the mean of the same weekday in the last four weeks of
 * sales; else the balls to have on that weekday; else nothing. */
#ifndef DW_APP_EXPECTED_H
#define DW_APP_EXPECTED_H

#include "app/demand.h"
#include "app/stock.h"

extern const char *const dw_expected_basis_words[]; /* nothing build_to sales
                                                 forecast */
typedef enum dw_expected_basis {
    DW_EXPECTED_NOTHING,
    DW_EXPECTED_BUILD_TO,
    DW_EXPECTED_SALES,
    DW_EXPECTED_FORECAST
} dw_expected_basis;

enum { DW_EXPECTED_OUTLETS = 64 };

typedef struct dw_expected {
    dw_call *call;
    int64_t today;
    dw_sale *sales; /* of the last weeks */
    dw_build_to *build_to;
    dw_outlet *outlets;
    dw_drop_day *drop_days;
    size_t sales_count, build_to_count, outlets_count, drop_days_count;
    dw_demand *forecasts[DW_EXPECTED_OUTLETS]; /* asked for so far */
    size_t forecasts_count;
} dw_expected;

dw_status dw_expected_open(dw_call *call, const dw_shop *shop,
                           dw_expected *expected);
/* Mean balls of that day, up to two weeks back or four ahead; outlet_id 0: all
 * outlets together. Fails as dw_demand_of. */
dw_status dw_expected_balls(dw_expected *expected, int64_t product_id,
                            int64_t outlet_id, int64_t day, double *balls,
                            dw_expected_basis *basis);
/* The same of what is served from here: outlets that get drops are left out. */
dw_status dw_expected_served(dw_expected *expected, int64_t product_id,
                             int64_t day, double *balls,
                             dw_expected_basis *basis);
/* The part of a day's balls that each hour of the wall clock takes; 24, they
 * sum to 1. As learned from sales by hour; else common practice, no source: a
 * small noon and a large evening. */
dw_status dw_expected_hours(dw_expected *expected, int64_t product_id,
                            int64_t day, const double **hours);

#endif
