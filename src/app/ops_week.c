/* The plan of the next days: plan.week, week.plan. */
#include "app/week.h"

#include "app/said.h"
#include "doughwright/say.h"

static const char *const change_sentences[] = {
    [DW_WEEK_ADDED] = DW_MSG("Day {day}: {count} more of {formula}, {mixer}."),
    [DW_WEEK_DROPPED] =
        DW_MSG("Day {day}: {count} fewer of {formula}, {mixer}."),
    [DW_WEEK_MORE] = DW_MSG("Day {day}: {count} more {product}."),
    [DW_WEEK_FEWER] = DW_MSG("Day {day}: {count} fewer {product}."),
};

static const char *or_empty(const char *text)
{
    return text ? text : "";
}

static dw_status say_change(dw_call *call, dw_week_change *change)
{
    const dw_value values[] = {
        DW_VALUE_NUMBER("day", (double)change->day + 1),
        DW_VALUE_NUMBER("count", (double)change->count),
        DW_VALUE_TEXT("formula", or_empty(change->formula)),
        DW_VALUE_TEXT("mixer", or_empty(change->mixer)),
        DW_VALUE_TEXT("product", or_empty(change->product)),
    };
    change->message =
        dw_say_in(call->arena, call->lang, change_sentences[change->kind],
                  values, DW_COUNT(values));
    return change->message ? DW_OK
                           : dw_fail(call->err, DW_E_ROOM, "message", NULL);
}

static dw_status say_plan(dw_call *call, dw_week_reply *plan)
{
    for (size_t i = 0; i < plan->changes_count; i++)
        DW_TRY(say_change(call, &plan->changes[i]));
    return dw_said_notes(call, plan->notes, plan->notes_count);
}

static dw_status plan_given(dw_call *call, const void *request, void *reply)
{
    dw_week_reply *out = reply;
    DW_TRY(
        dw_week_plan(request, call->solver, NULL, call->arena, call->err, out));
    return say_plan(call, out);
}

static dw_status plan_shop(dw_call *call, const void *request, void *reply)
{
    dw_week_shop *out = reply;
    DW_TRY(dw_week_of(call, request, NULL, out));
    return say_plan(call, &out->plan);
}

const dw_op dw_ops_week[] = {
    {"plan.week", DW_OP_PURE, &dw_week_request_shape, &dw_week_reply_shape,
     plan_given,
     "Which batches to mix on the next days, at the least expected cost."},
    {"week.plan", DW_OP_READ, &dw_week_ask_shape, &dw_week_shop_shape,
     plan_shop, "The plan of the shop's next days, from what it knows."},
};
const size_t dw_ops_week_count = DW_COUNT(dw_ops_week);
