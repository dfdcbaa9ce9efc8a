/* Drift: has something changed, and since when? */
#include "app/op.h"
#include "doughwright/chart.h"

static dw_status chart(dw_call *call, const void *request, void *reply)
{
    return dw_chart_draw(request, call->arena, call->err, reply);
}

const dw_op dw_ops_quality[] = {
    {"quality.chart", DW_OP_PURE, &dw_chart_request_shape,
     &dw_chart_reply_shape, chart,
     "A control chart: limits, marks, false alarms, the strongest step."},
};
const size_t dw_ops_quality_count = DW_COUNT(dw_ops_quality);
