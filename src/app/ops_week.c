/* The plan of the next days: plan.week. */
#include "app/op.h"

#include "app/said.h"
#include "doughwright/week.h"

static dw_status run_week(dw_call *call, const void *request, void *reply)
{
    dw_week_reply *out = reply;
    DW_TRY(
        dw_week_plan(request, call->solver, NULL, call->arena, call->err, out));
    return dw_said_notes(call, out->notes, out->notes_count);
}

const dw_op dw_ops_week[] = {
    {"plan.week", DW_OP_PURE, &dw_week_request_shape, &dw_week_reply_shape,
     run_week,
     "Which batches to mix on the next days, at the least expected cost."},
};
const size_t dw_ops_week_count = DW_COUNT(dw_ops_week);
