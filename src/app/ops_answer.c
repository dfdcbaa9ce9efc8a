/* What to do so that dough is good when it is wanted: piece.warmth,
 * piece.close, piece.pull, formula.transfer, formula.hurry. */
#include "app/op.h"

#include "doughwright/answers.h"

static dw_status run_warmth(dw_call *call, const void *request, void *reply)
{
    return dw_answer_warmth(request, call->arena, reply, call->err);
}

static dw_status run_close(dw_call *call, const void *request, void *reply)
{
    return dw_answer_close(request, call->arena, reply, call->err);
}

static dw_status run_pull(dw_call *call, const void *request, void *reply)
{
    return dw_answer_pull(request, call->arena, reply, call->err);
}

static dw_status run_transfer(dw_call *call, const void *request, void *reply)
{
    return dw_answer_transfer(request, call->arena, reply, call->err);
}

static dw_status run_hurry(dw_call *call, const void *request, void *reply)
{
    return dw_answer_hurry(request, call->arena, reply, call->err);
}

const dw_op dw_ops_answer[] = {
    {"piece.warmth", DW_OP_PURE, &dw_warmth_ask_shape, &dw_warmth_reply_shape,
     run_warmth,
     "The dough temperature that makes a ball ready when it is wanted."},
    {"piece.close", DW_OP_PURE, &dw_close_ask_shape, &dw_close_reply_shape,
     run_close, "When to close a stack, from the life of its balls."},
    {"piece.pull", DW_OP_PURE, &dw_pull_ask_shape, &dw_pull_reply_shape,
     run_pull, "When to pull balls so that they open well at a given hour."},
    {"formula.transfer", DW_OP_PURE, &dw_transfer_ask_shape,
     &dw_transfer_reply_shape, run_transfer,
     "What the same dough needs in another shop."},
    {"formula.hurry", DW_OP_PURE, &dw_hurry_ask_shape, &dw_hurry_reply_shape,
     run_hurry, "Yeast and warmth of a dough that is needed today."},
};
const size_t dw_ops_answer_count = DW_COUNT(dw_ops_answer);
