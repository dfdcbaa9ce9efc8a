#include "app/recall.h"

#include "app/rows.h"

#include <stdlib.h>
#include <string.h>

enum { LAST_DAY = 84100, LINES_MOST = 10000 };

static dw_status no_room(dw_call *call)
{
    return dw_fail(call->err, DW_E_ROOM, "trace", NULL);
}

/* ---- batches ------------------------------------------------------------- */

static dw_status keep_batch(dw_call *call, const dw_trace_place *place,
                            const dw_trace_node *node, dw_recall *out)
{
    dw_batch_row batch;
    DW_TRY(dw_row_get(call, "batch", &dw_batch_noun, node->id, "batch_id",
                      &batch));
    out->batches[out->batches_count++] =
        (dw_recall_batch){.place = place, .name = node->name, .day = batch.day};
    return DW_OK;
}

/* How it got into each batch, by the links that lead there from what has some
 * of it. */
static dw_status tell_ways(dw_call *call, dw_recall *out)
{
    const dw_trace_found *trace = &out->trace;
    dw_recall_batch **batch_at =
        DW_NEW_ARRAY(call->arena, dw_recall_batch *, trace->nodes_count);
    bool *reached = DW_NEW_ARRAY(call->arena, bool, trace->nodes_count);
    if (!batch_at || !reached)
        return no_room(call);
    for (size_t i = 0; i < trace->forward_count; i++)
        reached[trace->forward[i].node] = true;
    for (size_t i = 0; i < out->batches_count; i++)
        batch_at[out->batches[i].place->node] = &out->batches[i];
    for (size_t i = 0; i < trace->links_count; i++) {
        const dw_trace_link *link = &trace->links[i];
        dw_recall_batch *batch = batch_at[link->to];
        if (!batch)
            continue;
        if (link->from == 0) {
            batch->direct = true;
            batch->assumed = link->assumed;
        } else if (reached[link->from]) {
            batch->by = trace->nodes[link->from].name;
        }
    }
    return DW_OK;
}

/* ---- stacks and what left ------------------------------------------------ */

static dw_status keep_stack(dw_call *call, const dw_trace_place *place,
                            const dw_trace_node *node, dw_recall *out)
{
    dw_stack stack;
    dw_batch_row batch = {.number = 0};
    dw_stack_move *moves;
    size_t count;
    DW_TRY(dw_row_get(call, "stack", &dw_stack_noun, node->id, "stack_id",
                      &stack));
    if (stack.batch_id)
        DW_TRY(dw_row_get(call, "batch", &dw_batch_noun, stack.batch_id,
                          "batch_id", &batch));
    DW_TRY(dw_rows_get(call, "stack_move", &dw_stack_move_noun, "stack_id",
                       node->id, "id", &moves, &count));
    int64_t here = stack.balls;
    for (size_t i = 0; i < count; i++)
        here -= moves[i].balls;
    out->stacks[out->stacks_count++] = (dw_recall_stack){
        place, node->name, batch.number, stack.mixing_day, stack.balls, here};
    return DW_OK;
}

static dw_status keep_sent(dw_call *call, const dw_trace_node *stack,
                           dw_recall *out)
{
    dw_released_row *rows;
    size_t count;
    DW_TRY(dw_store_released(call->store, 0, LAST_DAY, stack->id, LINES_MOST,
                             call->arena, &rows, &count, call->err));
    if (out->sent_count + count >= LINES_MOST)
        return dw_fail_range(call->err, "shipments",
                             (double)(out->sent_count + count), 0,
                             LINES_MOST - 1);
    for (size_t i = 0; i < count; i++)
        out->sent[out->sent_count++] = rows[i];
    return DW_OK;
}

/* Who calls a lot back sets aside what is here first. */
static int here_first(const void *a, const void *b)
{
    const dw_recall_stack *x = a, *y = b;
    if ((x->here_balls > 0) != (y->here_balls > 0))
        return x->here_balls > 0 ? -1 : 1;
    if (x->batch_number != y->batch_number)
        return x->batch_number < y->batch_number ? -1 : 1;
    return strcmp(x->product ? x->product : "", y->product ? y->product : "");
}

static int by_moment(const void *a, const void *b)
{
    const dw_released_row *x = a, *y = b;
    if (x->loaded_ms != y->loaded_ms)
        return x->loaded_ms < y->loaded_ms ? -1 : 1;
    if (x->stack_id != y->stack_id)
        return x->stack_id < y->stack_id ? -1 : 1;
    return 0;
}

/* ---- all of it ----------------------------------------------------------- */

static const dw_trace_balance *balance_of(const dw_trace_found *trace,
                                          int64_t node)
{
    for (size_t i = 0; i < trace->balances_count; i++)
        if (trace->balances[i].node == node)
            return &trace->balances[i];
    return NULL;
}

static dw_status keep(dw_call *call, const dw_trace_place *place,
                      dw_recall *out)
{
    const dw_trace_node *node = &out->trace.nodes[place->node];
    if (node->kind == DW_TRACE_BATCH)
        return keep_batch(call, place, node, out);
    if (node->kind == DW_TRACE_LOT || node->kind == DW_TRACE_MINORS)
        out->kept[out->kept_count++] =
            (dw_recall_kept){place, node, balance_of(&out->trace, place->node)};
    if (node->kind != DW_TRACE_STACK)
        return DW_OK;
    DW_TRY(keep_stack(call, place, node, out));
    return keep_sent(call, node, out);
}

static dw_status make_room(dw_call *call, dw_recall *out)
{
    size_t n = out->trace.forward_count + 1;
    out->batches = DW_NEW_ARRAY(call->arena, dw_recall_batch, n);
    out->kept = DW_NEW_ARRAY(call->arena, dw_recall_kept, n);
    out->stacks = DW_NEW_ARRAY(call->arena, dw_recall_stack, n);
    out->sent = DW_NEW_ARRAY(call->arena, dw_released_row, LINES_MOST);
    return out->batches && out->kept && out->stacks && out->sent
               ? DW_OK
               : no_room(call);
}

dw_status dw_recall_read(dw_call *call, int64_t lot_id, dw_recall *out)
{
    dw_recall one = {.sent_count = 0};
    DW_TRY(dw_row_get(call, "material_lot", &dw_material_lot_noun, lot_id, "id",
                      &one.lot));
    DW_TRY(dw_row_get(call, "material", &dw_material_noun, one.lot.material_id,
                      "material_id", &one.material));
    DW_TRY(
        dw_trace_find(call, &(dw_trace_asked){.lot_id = lot_id}, &one.trace));
    DW_TRY(make_room(call, &one));
    for (size_t i = 0; i < one.trace.forward_count; i++)
        DW_TRY(keep(call, &one.trace.forward[i], &one));
    DW_TRY(tell_ways(call, &one));
    qsort(one.stacks, one.stacks_count, sizeof *one.stacks, here_first);
    qsort(one.sent, one.sent_count, sizeof *one.sent, by_moment);
    DW_TRY(dw_rows_get(call, "recall_drill", &dw_recall_drill_noun, "lot_id",
                       lot_id, "started_ms DESC, id DESC", &one.drills,
                       &one.drills_count));
    *out = one;
    return DW_OK;
}
