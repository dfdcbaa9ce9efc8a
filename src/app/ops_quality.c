/* Quality: has something drifted, and is the weight what the label says? */
#include "app/op.h"
#include "doughwright/chart.h"
#include "doughwright/effects.h"
#include "doughwright/net_weight.h"

static dw_status chart(dw_call *call, const void *request, void *reply)
{
    return dw_chart_draw(request, call->arena, call->err, reply);
}

static dw_status effects(dw_call *call, const void *request, void *reply)
{
    return dw_effects_find(request, call->arena, call->err, reply);
}

static dw_status net_weight(dw_call *call, const void *request, void *reply)
{
    return dw_net_weight_check(request, call->err, reply);
}

const dw_op dw_ops_quality[] = {
    {"quality.chart", DW_OP_PURE, &dw_chart_request_shape,
     &dw_chart_reply_shape, chart,
     "A control chart: limits, marks, false alarms, the strongest step."},
    {"quality.effects", DW_OP_PURE, &dw_effects_request_shape,
     &dw_effects_reply_shape, effects,
     "The parts of person, lot, mixer and shift in a row of values, told "
     "apart."},
    {"quality.net_weight", DW_OP_PURE, &dw_net_weight_request_shape,
     &dw_net_weight_reply_shape, net_weight,
     "Does a lot hold what its labels say, by the rules of the US or the EU."},
};
const size_t dw_ops_quality_count = DW_COUNT(dw_ops_quality);
