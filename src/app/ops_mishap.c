/* When things do not go as planned: stack.foresee, cold.history, cold.carry. */
#include "app/op.h"

#include "doughwright/mishap.h"
#include "doughwright/room.h"

static dw_status run_foresee(dw_call *call, const void *request, void *reply)
{
    return dw_mishap_foresee(request, call->arena, reply, call->err);
}

static dw_status run_history(dw_call *call, const void *request, void *reply)
{
    return dw_room_legs(request, call->arena, reply, call->err);
}

static dw_status run_carry(dw_call *call, const void *request, void *reply)
{
    return dw_room_carry_load(request, call->arena, reply, call->err);
}

const dw_op dw_ops_mishap[] = {
    {"stack.foresee", DW_OP_PURE, &dw_mishap_ask_shape, &dw_mishap_reply_shape,
     run_foresee,
     "What a warm room, a power cut, a van or a forgotten box does to stacks."},
    {"cold.history", DW_OP_PURE, &dw_room_log_shape, &dw_room_history_shape,
     run_history, "A cold room's log as legs of a ball's life."},
    {"cold.carry", DW_OP_PURE, &dw_room_load_shape, &dw_room_carry_shape,
     run_carry, "Whether the cold room carries balls put in, and if it warms."},
};
const size_t dw_ops_mishap_count = DW_COUNT(dw_ops_mishap);
