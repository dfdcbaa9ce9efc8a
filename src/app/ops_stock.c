/* How many to have, which go first, what comes out when, who gets what. All
 * pure. */
#include "app/op.h"

#include "doughwright/allot.h"
#include "doughwright/buy.h"
#include "doughwright/pull.h"
#include "doughwright/stock.h"

static dw_status run_order(dw_call *call, const void *request, void *reply)
{
    return dw_stock_order(request, reply, call->err);
}

static dw_status run_keeping(dw_call *call, const void *request, void *reply)
{
    return dw_stock_order_perishable(request, call->arena, reply, call->err);
}

static dw_status run_use(dw_call *call, const void *request, void *reply)
{
    const dw_use_ask *ask = request;
    dw_use_reply *out = reply;
    size_t n = ask->ages_count;
    out->ages = DW_NEW_ARRAY(call->arena, dw_age, n + 1);
    if (!out->ages)
        return dw_fail(call->err, DW_E_ROOM, "ages", NULL);
    out->ages_count = n;
    for (size_t i = 0; i < n; i++)
        out->ages[i] = ask->ages[i];
    out->unserved = dw_stock_use(out->ages, n, ask->wanted);
    for (size_t i = 0; i < n; i++) {
        out->used += out->ages[i].used;
        out->wasted += out->ages[i].wasted;
        out->left += out->ages[i].left;
    }
    return DW_OK;
}

static dw_status run_allot(dw_call *call, const void *request, void *reply)
{
    return dw_allot_units(request, call->arena, reply, call->err);
}

static dw_status run_pull(dw_call *call, const void *request, void *reply)
{
    return dw_pull_make(request, call->arena, reply, call->err);
}

static dw_status run_buy(dw_call *call, const void *request, void *reply)
{
    return dw_buy_plan(request, call->arena, reply, call->err);
}

const dw_op dw_ops_stock[] = {
    {"drop.allot", DW_OP_PURE, &dw_allot_ask_shape, &dw_allot_reply_shape,
     run_allot, "Which balls go to which shop, each with its promised days."},
    {"pull.make", DW_OP_PURE, &dw_pull_plan_shape, &dw_pull_sheet_shape,
     run_pull, "Which boxes come out of the cold when, for what is wanted."},
    {"stock.buy", DW_OP_PURE, &dw_buy_ask_shape, &dw_buy_reply_shape, run_buy,
     "What to buy of a material, and by when, so that it does not run out."},
    {"stock.order", DW_OP_PURE, &dw_order_ask_shape, &dw_order_reply_shape,
     run_order, "How many to have for one day, by what over and short cost."},
    {"stock.order_keeping", DW_OP_PURE, &dw_perishable_ask_shape,
     &dw_perishable_reply_shape, run_keeping,
     "How many to make today of balls that keep for some days; exact."},
    {"stock.use", DW_OP_PURE, &dw_use_ask_shape, &dw_use_reply_shape, run_use,
     "What a day's demand leaves of balls of several ages."},
};
const size_t dw_ops_stock_count = DW_COUNT(dw_ops_stock);
