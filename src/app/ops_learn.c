/* What the shop's own readings teach: learn.room, learn.stack, learn.yeast. */
#include "app/op.h"

#include "doughwright/teach.h"

static dw_status run_room(dw_call *call, const void *request, void *reply)
{
    return dw_teach_room_run(request, call->arena, reply, call->err);
}

static dw_status run_stack(dw_call *call, const void *request, void *reply)
{
    return dw_teach_stack_run(request, call->arena, reply, call->err);
}

static dw_status run_yeast(dw_call *call, const void *request, void *reply)
{
    return dw_teach_yeast_run(request, call->arena, reply, call->err);
}

const dw_op dw_ops_learn[] = {
    {"learn.room", DW_OP_PURE, &dw_teach_room_ask_shape, &dw_teach_room_shape,
     run_room, "Air and time constant of a cold room from its log."},
    {"learn.stack", DW_OP_PURE, &dw_teach_stack_ask_shape,
     &dw_teach_stack_shape, run_stack,
     "Heat transfer of open, offset and closed stacks from core "
     "temperatures."},
    {"learn.yeast", DW_OP_PURE, &dw_teach_yeast_ask_shape,
     &dw_teach_yeast_shape, run_yeast,
     "Activity and cold rate of yeast from marked cups and verdicts; finds "
     "forgotten yeast."},
};
const size_t dw_ops_learn_count = DW_COUNT(dw_ops_learn);
