#include "app/stacks.h"

#include "os/zone.h"

static const dw_field stock_age_fields[] = {
    DW_F_WHOLE(dw_stock_age, mixing_day, "d", 0, 84000, "made when"),
    DW_F_WHOLE(dw_stock_age, balls, "", 0, 1e9, "how many"),
    DW_F_WHOLE(dw_stock_age, assumed_gone, "", 0, 1e9,
               "taken to be pulled by the sheet since the count"),
    DW_F_CHOICE(dw_stock_age, readiness, dw_readiness_words,
                "by the shop's days"),
    DW_F_WHOLE(dw_stock_age, last_day, "d", 0, 84100, "last day of use"),
};
static const dw_shape stock_age_shape = DW_SHAPE(
    "stock_age", dw_stock_age, stock_age_fields, "balls of one mixing day");

static const dw_field stock_line_fields[] = {
    DW_F_ID(dw_stock_line, product_id, "which product"),
    DW_F_ID(dw_stock_line, formula_id, "made from"),
    DW_F_TEXT(dw_stock_line, name, 60, "what people call it"),
    DW_F_REAL(dw_stock_line, ball_kg, "kg", 0, 5, "weight of a ball"),
    DW_F_WHOLE(dw_stock_line, balls_per_box, "", 1, 200, "in a box"),
    DW_F_MANY_OPT(dw_stock_line, ages, &stock_age_shape, 1000, "oldest first"),
    DW_F_WHOLE(dw_stock_line, balls, "", 0, 1e9, "that are not past"),
    DW_F_WHOLE(dw_stock_line, target_day, "d", 0, 84100,
               "first day that a batch of today serves"),
    DW_F_WHOLE(dw_stock_line, build_to, "", 0, 1e9, "to have on that day"),
    DW_F_WHOLE(dw_stock_line, usable, "", 0, 1e9, "of these, then in date"),
    DW_F_WHOLE(dw_stock_line, need, "", 0, 1e9, "short on that day"),
};
const dw_shape dw_stock_line_shape =
    DW_SHAPE("stock_line", dw_stock_line, stock_line_fields,
             "what is there of a product, and what is short");

int64_t dw_weekday(int64_t day)
{
    return (dw_day_weekday(day) + 6) % 7; /* the week begins on Monday */
}

dw_status dw_shop_day(dw_call *call, const dw_shop *shop, int64_t at_ms,
                      int64_t *day)
{
    const dw_zone *zone;
    DW_TRY(dw_zone_load(shop->zone, call->arena, &zone, call->err));
    *day = dw_zone_day(zone, at_ms, (int)shop->cutover_minutes);
    return DW_OK;
}

dw_status dw_today(dw_call *call, int64_t *day)
{
    dw_shop shop;
    DW_TRY(dw_shop_get(call, &shop));
    return dw_shop_day(call, &shop, call->now_ms, day);
}

dw_cold_days dw_product_days(const dw_shop *shop, const dw_product *product)
{
    return (dw_cold_days){
        product->has_ready_day ? product->ready_day : shop->ready_day,
        product->has_best_day ? product->best_day : shop->best_day,
        product->has_use_first_day ? product->use_first_day
                                   : shop->use_first_day,
        product->has_last_day ? product->last_day : shop->last_day,
    };
}

dw_cold_days dw_stack_days(const dw_shop *shop, const dw_stack *stack,
                           const dw_product *product)
{
    int64_t day0 = stack->mixing_day;
    if (stack->id == 0)
        return dw_product_days(shop, product);
    return (dw_cold_days){stack->ready_day - day0, stack->best_day - day0,
                          stack->use_first_day - day0, stack->last_day - day0};
}

static int64_t build_to_of(const dw_build_to *list, size_t count,
                           int64_t product_id, int64_t weekday)
{
    for (size_t i = 0; i < count; i++)
        if (list[i].product_id == product_id && list[i].weekday == weekday)
            return list[i].balls;
    return 0;
}

typedef struct sources {
    dw_product *products;
    dw_build_to *build_to;
    dw_stack_left *stacks; /* by product and mixing day */
    size_t products_count, build_to_count, stacks_count;
} sources;

static dw_status read_sources(dw_call *call, sources *from)
{
    DW_TRY(dw_rows_get(call, "product", &dw_product_noun, NULL, 0,
                       "position, id", &from->products, &from->products_count));
    DW_TRY(dw_rows_get(call, "build_to", &dw_build_to_noun, NULL, 0, "id",
                       &from->build_to, &from->build_to_count));
    return dw_stacks_assumed(call, &from->stacks, &from->stacks_count);
}

/* The stacks of one product, those of a mixing day as one age. */
static dw_status gather_ages(dw_call *call, const sources *from,
                             dw_stock_line *line)
{
    line->ages = DW_NEW_ARRAY(call->arena, dw_stock_age, from->stacks_count);
    if (!line->ages)
        return dw_fail(call->err, DW_E_ROOM, "stock", NULL);
    for (size_t i = 0; i < from->stacks_count; i++) {
        const dw_stack_left *left = &from->stacks[i];
        int64_t made = left->stack.mixing_day;
        if (left->stack.product_id != line->product_id)
            continue;
        size_t last = line->ages_count;
        if (last == 0 || line->ages[last - 1].mixing_day != made)
            line->ages[line->ages_count++] = (dw_stock_age){.mixing_day = made};
        dw_stock_age *age = &line->ages[line->ages_count - 1];
        age->balls += left->left;
        age->assumed_gone += left->assumed_gone;
    }
    return DW_OK;
}

static void fill_ages(const dw_cold_days *days, int64_t day,
                      dw_stock_line *line)
{
    for (size_t i = 0; i < line->ages_count; i++) {
        dw_stock_age *age = &line->ages[i];
        int64_t made = age->mixing_day;
        dw_readiness now = dw_cold_readiness(days, day - made);
        dw_readiness then = dw_cold_readiness(days, line->target_day - made);
        age->readiness = (int)now;
        age->last_day = made + days->last_day;
        if (now != DW_PAST)
            line->balls += age->balls;
        if (then != DW_NOT_YET && then != DW_PAST)
            line->usable += age->balls;
    }
    line->need =
        line->build_to > line->usable ? line->build_to - line->usable : 0;
}

dw_status dw_stock_of(dw_call *call, const dw_shop *shop, int64_t day,
                      dw_stock_line **lines, size_t *count)
{
    sources from = {0};
    DW_TRY(read_sources(call, &from));
    dw_stock_line *list =
        DW_NEW_ARRAY(call->arena, dw_stock_line, from.products_count);
    if (!list)
        return dw_fail(call->err, DW_E_ROOM, "stock", NULL);
    size_t n = 0;
    for (size_t i = 0; i < from.products_count; i++) {
        const dw_product *product = &from.products[i];
        if (!product->here)
            continue;
        dw_cold_days days = dw_product_days(shop, product);
        dw_stock_line *line = &list[n++];
        *line = (dw_stock_line){.product_id = product->id,
                                .formula_id = product->formula_id,
                                .name = product->name,
                                .ball_kg = product->ball_kg,
                                .balls_per_box = product->balls_per_box};
        line->target_day = day + (days.ready_day > 1 ? days.ready_day : 1);
        line->build_to = build_to_of(from.build_to, from.build_to_count,
                                     product->id, dw_weekday(line->target_day));
        DW_TRY(gather_ages(call, &from, line));
        fill_ages(&days, day, line);
    }
    *lines = list;
    *count = n;
    return DW_OK;
}
