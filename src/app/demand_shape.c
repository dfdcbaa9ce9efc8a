/* The shapes of demand.h. */
#include "app/demand.h"

enum { DAY_LAST = 84000 };

static const dw_field request_fields[] = {
    DW_F_ID(dw_demand_request, outlet_id, "0: all together"),
    DW_F_WHOLE_PRESET(dw_demand_request, first_day, "d", 0, DAY_LAST, 0,
                      "0: today; sales on it or later are not used"),
    DW_F_WHOLE_PRESET(dw_demand_request, days, "d", 1, DW_FORECAST_DAYS_MOST,
                      14, "to forecast"),
    DW_F_WHOLE_PRESET(dw_demand_request, check_weeks, "", 0,
                      DW_FORECAST_CHECK_WEEKS_MOST, 4,
                      "past weeks to forecast again and hold against what "
                      "came"),
};
const dw_shape dw_demand_request_shape =
    DW_SHAPE("demand_request", dw_demand_request, request_fields,
             "which outlets and days");

static const dw_field product_fields[] = {
    DW_F_ID(dw_demand_product, product_id, "which product"),
    DW_F_ID(dw_demand_product, like_id, "what it is like while it is new"),
    DW_F_CHOICE(dw_demand_product, source, dw_demand_source_words,
                "where its history comes from"),
    DW_F_ONE(dw_demand_product, forecast, &dw_forecast_shape,
             "its days to come, and how past forecasts did"),
    DW_F_MANY_OPT(dw_demand_product, hours, &dw_hours_day_shape, 7,
                  "shares of a day by hour; none: not known"),
    DW_F_YES(dw_demand_product, hours_own, false,
             "false: of all products together"),
};
static const dw_shape product_shape =
    DW_SHAPE("demand_product", dw_demand_product, product_fields,
             "the demand of one product");

static const dw_field demand_fields[] = {
    DW_F_WHOLE(dw_demand, today, "d", 0, DAY_LAST, "business day"),
    DW_F_WHOLE(dw_demand, first_day, "d", 0, DAY_LAST, "first day forecast"),
    DW_F_ID(dw_demand, outlet_id, "0: all together"),
    DW_F_WHOLE(dw_demand, last_sale_day, "d", 0, DAY_LAST,
               "newest day with sales; 0: none"),
    DW_F_MANY_OPT(dw_demand, products, &product_shape, DW_FORECAST_SERIES_MOST,
                  "in the shop's order"),
    DW_F_MANY_OPT(dw_demand, events, &dw_demand_event_noun,
                  DW_FORECAST_EVENTS_MOST, "all that are known"),
    DW_F_MANY_OPT(dw_demand, overrides, &dw_demand_override_noun, 10000,
                  "that hold now or later"),
    DW_F_MANY_OPT(dw_demand, marks, &dw_demand_mark_noun, 10000,
                  "of the last four weeks, newest first"),
    DW_F_MANY_OPT(dw_demand, outlets, &dw_outlet_noun, 10000, "all there are"),
};
const dw_shape dw_demand_shape =
    DW_SHAPE("demand", dw_demand, demand_fields, "what the next days may want");
