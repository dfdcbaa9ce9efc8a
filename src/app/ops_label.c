/* Labels: what a scanner reads off a box. */
#include "app/op.h"
#include "doughwright/gs1.h"

static dw_status write_symbol(dw_call *call, const void *request, void *reply)
{
    return dw_gs1_write(request, call->arena, call->err, reply);
}

static dw_status read_symbol(dw_call *call, const void *request, void *reply)
{
    return dw_gs1_read(request, call->arena, call->err, reply);
}

const dw_op dw_ops_label[] = {
    {"label.scan", DW_OP_PURE, &dw_gs1_read_request_shape,
     &dw_gs1_read_reply_shape, read_symbol,
     "What the GS1 elements of a scanned box say."},
    {"label.symbol", DW_OP_PURE, &dw_gs1_write_request_shape,
     &dw_gs1_write_reply_shape, write_symbol,
     "The GS1 elements of a box's symbol, for GS1-128 or GS1 DataMatrix."},
};
const size_t dw_ops_label_count = DW_COUNT(dw_ops_label);
