/* Where the balls of a batch were until somebody looked at them. */
#include "app/batches.h"
#include "app/evidence.h"

#define HOUR_MS 3600000.0
#define BEFORE_MS (18 * 3600000LL) /* a reading of the air serves so long */
/* Of air that is a cold room's. */
#define COLDEST_C (-5)
#define WARMEST_C 15
#define ROOM_USUAL_C 22
#define SHORTEST_H (1 / 60.0)

/* The stack of that product; without a product, the batch's only stack. */
static dw_status find_stack(dw_call *call, int64_t batch_id, int64_t product_id,
                            dw_stack *stack, int *why)
{
    dw_stack *rows;
    size_t n;
    DW_TRY(dw_rows_get(call, "stack", &dw_stack_noun, "batch_id", batch_id,
                       "id", &rows, &n));
    *why = DW_WHY_NO_STACK;
    for (size_t i = 0; i < n && *why != DW_TEACH_FINE; i++) {
        bool it = product_id ? rows[i].product_id == product_id : n == 1;
        if (!it)
            continue;
        *stack = rows[i];
        *why = DW_TEACH_FINE;
    }
    return DW_OK;
}

/* Yeast that was forgotten, doubled or swapped is not the formula's. */
static dw_status check_yeast(dw_call *call, int64_t batch_id,
                             const dw_formula *formula, int *why)
{
    dw_batch_change *changes;
    size_t n;
    DW_TRY(dw_rows_get(call, "batch_change", &dw_batch_change_noun, "batch_id",
                       batch_id, "id", &changes, &n));
    for (size_t i = 0; i < n; i++)
        for (size_t j = 0; j < formula->lines_count; j++)
            if (dw_line_kind_is_yeast(formula->lines[j].kind) &&
                dw_text_is(formula->lines[j].material, changes[i].material))
                *why = DW_WHY_CHANGED;
    return DW_OK;
}

dw_status dw_batch_dough(dw_call *call, const dw_batch_row *batch,
                         dw_formula *formula, int *why)
{
    dw_shop shop;
    dw_recipe recipe;
    dw_bowl bowl;
    DW_TRY(dw_shop_get(call, &shop));
    DW_TRY(dw_recipe_read(call, batch->version_id, &recipe));
    DW_TRY(check_yeast(call, batch->id, &recipe.formula, why));
    DW_TRY(dw_bowl_read(call, &shop, batch, &recipe.formula, &bowl));
    *formula = bowl.now;
    return DW_OK;
}

/* The mean of what was read while it lay there; else the newest before. */
static dw_status find_air(dw_call *call, int64_t batch_id, int64_t from_ms,
                          int64_t to_ms, double *air_c, int *why)
{
    dw_reading_row *rows;
    size_t n, inside = 0;
    double sum = 0, before_c = 0;
    bool before = false;
    DW_TRY(dw_store_cold_between(call->store, batch_id, from_ms - BEFORE_MS,
                                 to_ms, call->arena, &rows, &n, call->err));
    for (size_t i = 0; i < n; i++) {
        double c = rows[i].celsius;
        if (c < COLDEST_C || c > WARMEST_C)
            continue;
        if (rows[i].occurred_ms < from_ms) {
            before = true;
            before_c = c;
            continue;
        }
        sum += c;
        inside++;
    }
    if (inside == 0 && !before)
        *why = DW_WHY_NO_AIR;
    else
        *air_c = inside > 0 ? sum / (double)inside : before_c;
    return DW_OK;
}

static double hours_between(int64_t from_ms, int64_t to_ms)
{
    double hours = (double)(to_ms - from_ms) / HOUR_MS;
    return hours > SHORTEST_H ? hours : SHORTEST_H;
}

static void fill_hours(const dw_stack *stack, int64_t until_ms, dw_stay *stay)
{
    bool closed = stack->closed_ms != 0 && stack->closed_ms < until_ms;
    stay->bench_h = hours_between(stay->batch.stopped_ms, stack->opened_ms);
    stay->open_h =
        hours_between(stack->opened_ms, closed ? stack->closed_ms : until_ms);
    stay->closed_h = closed ? hours_between(stack->closed_ms, until_ms) : 0;
}

/* What was read of the batch and what it was made from. */
static dw_status fill_batch(dw_call *call, dw_stay *stay, int *why)
{
    bool read;
    const dw_batch_row *batch = &stay->batch;
    DW_TRY(dw_reading_newest(call, batch->id, DW_READ_DOUGH, &stay->dough_c,
                             &read));
    if (!read)
        *why = DW_WHY_NO_DOUGH;
    stay->room_c = ROOM_USUAL_C;
    DW_TRY(
        dw_reading_newest(call, batch->id, DW_READ_ROOM, &stay->room_c, &read));
    return dw_batch_dough(call, batch, &stay->formula, why);
}

dw_status dw_stay_until(dw_call *call, int64_t batch_id, int64_t product_id,
                        int64_t until_ms, dw_stay *stay, int *why)
{
    dw_stack stack = {.id = 0};
    *stay = (dw_stay){.bench_h = 0};
    DW_TRY(dw_row_get(call, "batch", &dw_batch_noun, batch_id, "batch_id",
                      &stay->batch));
    DW_TRY(find_stack(call, batch_id, product_id, &stack, why));
    if (*why != DW_TEACH_FINE)
        return DW_OK;
    DW_TRY(dw_row_get(call, "product", &dw_product_noun, stack.product_id,
                      "product_id", &stay->product));
    if (stay->product.form != DW_FORM_BALL ||
        stay->product.holding != DW_HOLDING_OFFSET_BOXES)
        *why = DW_WHY_NO_MODEL;
    else if (stay->batch.stopped_ms == 0 || stack.opened_ms == 0 ||
             stack.opened_ms < stay->batch.stopped_ms)
        *why = DW_WHY_NO_TIMES;
    else if (until_ms <= stack.opened_ms)
        *why = DW_TEACH_BACKWARDS;
    if (*why != DW_TEACH_FINE)
        return DW_OK;
    fill_hours(&stack, until_ms, stay);
    if (stay->bench_h + stay->open_h + stay->closed_h > DW_LIFE_LONGEST_H) {
        *why = DW_WHY_LATE;
        return DW_OK;
    }
    DW_TRY(fill_batch(call, stay, why));
    if (*why != DW_TEACH_FINE)
        return DW_OK;
    return find_air(call, batch_id, stack.opened_ms, until_ms, &stay->air_c,
                    why);
}
