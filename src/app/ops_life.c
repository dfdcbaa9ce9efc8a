/* The life of a ball: piece.life and its inverse. */
#include "app/op.h"

#include "doughwright/life.h"

static dw_status run_life(dw_call *call, const void *request, void *reply)
{
    const dw_life_going going = {.hands = call->hands};
    return dw_life_go(request, &going, call->arena, reply, call->err);
}

static dw_status run_yeast(dw_call *call, const void *request, void *reply)
{
    return dw_life_yeast(request, call->arena, reply, call->err);
}

const dw_op dw_ops_life[] = {
    {"piece.life", DW_OP_PURE, &dw_life_request_shape, &dw_life_reply_shape,
     run_life, "Heat and fermentation of a ball from mixer to oven."},
    {"piece.yeast", DW_OP_PURE, &dw_life_yeast_ask_shape,
     &dw_life_yeast_reply_shape, run_yeast,
     "The yeast that makes a ball ready when it is wanted."},
};
const size_t dw_ops_life_count = DW_COUNT(dw_ops_life);
