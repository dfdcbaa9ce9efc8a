/* The demand of the shop's own products, from what it has recorded. */
#ifndef DW_APP_DEMAND_H
#define DW_APP_DEMAND_H

#include "app/rows.h"
#include "doughwright/forecast.h"

typedef struct dw_demand_request {
    int64_t outlet_id; /* 0: all together */
    int64_t first_day; /* 0: today; what was sold on it or later is not used */
    int64_t days;      /* to forecast */
    int64_t check_weeks; /* past weeks to forecast again; 0: none */
} dw_demand_request;

extern const char *const dw_demand_source_words[]; /* sales counts nothing */
typedef enum dw_demand_source {
    DW_DEMAND_SALES,
    DW_DEMAND_COUNTS, /* closing counts alone */
    DW_DEMAND_NOTHING
} dw_demand_source;

typedef struct dw_demand_product {
    int64_t product_id;
    int64_t like_id; /* 0: none */
    int source;      /* dw_demand_source */
    dw_forecast forecast;
    dw_hours_day *hours; /* by weekday from Monday; none: not known */
    size_t hours_count;
    bool hours_own; /* false: of all products together */
} dw_demand_product;

typedef struct dw_demand {
    int64_t today, first_day, outlet_id;
    int64_t last_sale_day;       /* 0: none */
    dw_demand_product *products; /* those still made, in the shop's order */
    size_t products_count;
    dw_demand_event *events;
    size_t events_count;
    dw_demand_override *overrides; /* not expired, to_day not past */
    size_t overrides_count;
    dw_demand_mark *marks; /* of the last four weeks, newest first */
    size_t marks_count;
    dw_outlet *outlets;
    size_t outlets_count;
} dw_demand;

extern const dw_shape dw_demand_request_shape, dw_demand_shape;

/* Nothing is written. */
dw_status dw_demand_of(dw_call *call, const dw_demand_request *request,
                       dw_demand *demand);

#endif
