/* Demand in its pure form: sales in, forecasts out. */
#include "app/op.h"

#include "doughwright/forecast.h"
#include "doughwright/smooth.h"

static dw_status run_demand(dw_call *call, const void *request, void *reply)
{
    return dw_forecast_run(request, call->arena, reply, call->err);
}

static dw_status run_hours(dw_call *call, const void *request, void *reply)
{
    return dw_hours_run(request, call->arena, reply, call->err);
}

static dw_status run_smooth(dw_call *call, const void *request, void *reply)
{
    return dw_smooth_run(request, call->arena, reply, call->err);
}

const dw_op dw_ops_forecast[] = {
    {"forecast.demand", DW_OP_PURE, &dw_forecast_ask_shape,
     &dw_forecast_reply_shape, run_demand,
     "How many will be wanted, by product and day, as a whole distribution, "
     "from past sales."},
    {"forecast.hours", DW_OP_PURE, &dw_hours_ask_shape, &dw_hours_reply_shape,
     run_hours, "Which share of a day's balls each hour has, by weekday."},
    {"forecast.smooth", DW_OP_PURE, &dw_smooth_ask_shape,
     &dw_smooth_reply_shape, run_smooth,
     "Plain exponential smoothing as textbooks have it: a second opinion."},
};
const size_t dw_ops_forecast_count = DW_COUNT(dw_ops_forecast);
