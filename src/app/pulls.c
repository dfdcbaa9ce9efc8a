#include "app/pulls.h"

#include "app/batches.h"
#include "app/expected.h"
#include "app/shifts.h"
#include "doughwright/cold.h"

#include <stdlib.h>

enum { DAYS_BACK = 7, DAYS_AHEAD = 7, DAYS_SAMPLED = 60, HOURS = 24 };
static const int64_t DAY_MS = 86400000, HOUR_MS = 3600000;
static const double ROOM_USUAL_C = 23; /* when nobody read it today */

typedef dw_stack_left *stack_ref;

typedef struct desk {
    dw_call *call;
    dw_shop shop;
    dw_service service;
    const dw_zone *zone;
    int64_t today;
    double room_c, cold_c;
    dw_expected expected;
    dw_product *products;
    size_t products_count;
    dw_stack_left **stacks; /* by product, oldest first; emptied ones too */
    size_t stacks_count;
    dw_stack_went *went; /* of the last days */
    size_t went_count;
    dw_stock_counted *counted; /* when each product was */
    size_t counted_count;
} desk;

static dw_status no_room(dw_call *call)
{
    return dw_fail(call->err, DW_E_ROOM, "pulls", NULL);
}

static dw_status open_desk(desk *d, dw_call *call)
{
    bool found;
    dw_cold_room *rooms;
    size_t n;
    d->call = call;
    DW_TRY(dw_shop_get(call, &d->shop));
    DW_TRY(dw_service_get(call, &d->service));
    DW_TRY(dw_zone_load(d->shop.zone, call->arena, &d->zone, call->err));
    DW_TRY(dw_expected_open(call, &d->shop, &d->expected));
    d->today = d->expected.today;
    DW_TRY(
        dw_reading_or(call, 0, DW_READ_ROOM, ROOM_USUAL_C, &d->room_c, &found));
    DW_TRY(dw_rows_get(call, "cold_room", &dw_cold_room_noun, NULL, 0, "id",
                       &rooms, &n));
    DW_TRY(dw_reading_or(call, 0, DW_READ_COLD, n > 0 ? rooms[0].air_c : 3,
                         &d->cold_c, &found));
    DW_TRY(dw_rows_get(call, "product", &dw_product_noun, NULL, 0,
                       "position, id", &d->products, &d->products_count));
    DW_TRY(dw_store_stock_counted(call->store, call->arena, &d->counted,
                                  &d->counted_count, call->err));
    return dw_store_stacks_went(
        call->store, call->now_ms - (DAYS_BACK + 2) * DAY_MS, call->arena,
        &d->went, &d->went_count, call->err);
}

static int by_age(const void *a, const void *b)
{
    const dw_stack *left = &(*(dw_stack_left *const *)a)->stack;
    const dw_stack *right = &(*(dw_stack_left *const *)b)->stack;
    if (left->product_id != right->product_id)
        return left->product_id < right->product_id ? -1 : 1;
    if (left->mixing_day != right->mixing_day)
        return left->mixing_day < right->mixing_day ? -1 : 1;
    if (left->opened_ms != right->opened_ms)
        return left->opened_ms < right->opened_ms ? -1 : 1;
    return (left->id > right->id) - (left->id < right->id);
}

static bool has_stack(const desk *d, int64_t stack_id)
{
    for (size_t i = 0; i < d->stacks_count; i++)
        if (d->stacks[i]->stack.id == stack_id)
            return true;
    return false;
}

/* Stacks that were emptied in these days were there when their day began. */
static dw_status set_stacks(desk *d, dw_stack_left *given, size_t count)
{
    dw_arena *arena = d->call->arena;
    d->stacks = DW_NEW_ARRAY(arena, dw_stack_left *, count + d->went_count + 1);
    if (!d->stacks)
        return no_room(d->call);
    for (size_t i = 0; i < count; i++)
        d->stacks[d->stacks_count++] = &given[i];
    for (size_t i = 0; i < d->went_count; i++) {
        if (has_stack(d, d->went[i].stack_id))
            continue;
        dw_stack_left *one = DW_NEW(arena, dw_stack_left);
        if (!one)
            return no_room(d->call);
        DW_TRY(dw_row_get(d->call, "stack", &dw_stack_noun, d->went[i].stack_id,
                          "stack_id", &one->stack));
        d->stacks[d->stacks_count++] = one;
    }
    qsort(d->stacks, d->stacks_count, sizeof(stack_ref), by_age);
    return DW_OK;
}

static int64_t starts_ms(const desk *d, int64_t day)
{
    return dw_zone_day_starts_ms(d->zone, day, (int)d->shop.cutover_minutes);
}

/* From when on a product's stock is told by its sheets; 0: not at all. */
static int64_t since_ms(const desk *d, int64_t product_id)
{
    int64_t since = 0;
    for (size_t i = 0; i < d->counted_count; i++)
        if (d->counted[i].product_id == product_id)
            since = d->counted[i].at_ms;
    for (size_t i = 0; i < d->stacks_count && !since; i++)
        if (d->stacks[i]->stack.product_id == product_id)
            since = d->stacks[i]->stack.opened_ms;
    int64_t earliest = starts_ms(d, d->today - DAYS_BACK);
    return since == 0 || since > earliest ? since : earliest;
}

/* ---- what is wanted, hour by hour ---------------------------------------- */

/* The business day's hours from the first to the last that takes balls. */
static dw_status set_slots(desk *d, const dw_product *product, int64_t day,
                           dw_pull_plan *plan, dw_product_pull *out)
{
    dw_expected_basis basis;
    const double *hours;
    DW_TRY(dw_expected_hours(&d->expected, product->id, day, &hours));
    DW_TRY(dw_expected_served(&d->expected, product->id, day, &out->wanted,
                              &basis));
    out->basis = (int)basis;
    int64_t first = -1, from = d->shop.cutover_minutes / 60;
    plan->wanted = DW_NEW_ARRAY(d->call->arena, double, HOURS);
    if (!plan->wanted)
        return no_room(d->call);
    if (out->wanted <= 0)
        return DW_OK;
    for (int64_t i = from; i < from + HOURS; i++) {
        double balls = out->wanted * hours[i % HOURS];
        if (first < 0 && balls > 0) {
            first = i;
            plan->start_ms =
                dw_zone_utc_ms(d->zone, day * DAY_MS + i * HOUR_MS);
        }
        if (first < 0)
            continue;
        plan->wanted[i - first] = balls;
        if (balls > 0)
            plan->wanted_count = (size_t)(i - first + 1);
    }
    return DW_OK;
}

/* By the trade's clock: the core at 10 degC from the cold room's air. */
static bool set_temper(const desk *d, const dw_product *product,
                       dw_pull_plan *plan, dw_product_pull *out)
{
    dw_cold_bench bench;
    dw_cold_temper temper;
    dw_shape_preset(&dw_cold_bench_shape, &bench);
    bench.piece_g = product->ball_kg * 1000;
    bench.core_c = d->cold_c;
    bench.room_c = d->room_c;
    bench.bench_h = d->shop.bench_life_h;
    out->room_c = d->room_c;
    out->bench_h = d->shop.bench_life_h;
    if (dw_cold_temper_time(&bench, &temper, NULL) != DW_OK)
        return false;
    out->temper_h = temper.usable_from_h;
    plan->temper_h = out->temper_h;
    plan->bench_h = out->bench_h;
    out->has_temper = plan->bench_h >= plan->temper_h + 0.1;
    return out->has_temper;
}

/* ---- what is there ------------------------------------------------------- */

/* What went out of a stack after a moment, by whatever. */
static int64_t went_after(const desk *d, int64_t stack_id, int64_t after_ms)
{
    int64_t balls = 0;
    for (size_t i = 0; i < d->went_count && stack_id; i++)
        if (d->went[i].stack_id == stack_id &&
            d->went[i].occurred_ms > after_ms)
            balls += d->went[i].balls;
    return balls;
}

/* What somebody tapped for service in that time. */
static int64_t tapped(const desk *d, int64_t product_id, int64_t after_ms,
                      int64_t to_ms)
{
    int64_t balls = 0;
    for (size_t i = 0; i < d->went_count; i++) {
        const dw_stack_went *one = &d->went[i];
        if (one->service && one->product_id == product_id &&
            one->occurred_ms > after_ms && one->occurred_ms <= to_ms)
            balls += one->balls;
    }
    return balls;
}

static dw_pull_lot lot_of(const desk *d, const dw_stack_left *left,
                          const dw_product *product, int64_t from_ms)
{
    const dw_stack *stack = &left->stack;
    dw_cold_days days = dw_product_days(&d->shop, product);
    int64_t ready =
        stack->id ? stack->ready_day : stack->mixing_day + days.ready_day;
    int64_t last =
        stack->id ? stack->last_day : stack->mixing_day + days.last_day;
    int64_t balls = left->left + went_after(d, stack->id, from_ms);
    return (dw_pull_lot){.stack_id = stack->id,
                         .balls = balls > 0 ? balls : 0,
                         .ready_ms = starts_ms(d, ready),
                         .has_end_ms = true,
                         .end_ms = starts_ms(d, last + 1)};
}

/* The product's stacks as lots, as they stood when the day began. */
static dw_status set_lots(desk *d, const dw_product *product, int64_t from_ms,
                          dw_pull_plan *plan, dw_stack_left ***of)
{
    plan->lots = DW_NEW_ARRAY(d->call->arena, dw_pull_lot, DW_PULL_LOTS_MOST);
    *of = DW_NEW_ARRAY(d->call->arena, dw_stack_left *, DW_PULL_LOTS_MOST);
    if (!plan->lots || !*of)
        return no_room(d->call);
    for (size_t i = 0; i < d->stacks_count; i++) {
        dw_stack_left *left = d->stacks[i];
        if (left->stack.product_id != product->id ||
            plan->lots_count == DW_PULL_LOTS_MOST)
            continue;
        (*of)[plan->lots_count] = left;
        plan->lots[plan->lots_count++] = lot_of(d, left, product, from_ms);
    }
    return DW_OK;
}

/* ---- one product's day --------------------------------------------------- */

/* The balls that the sheet called for up to the moment have gone, but for those
 * that taps have taken already; oldest first, what is ready and not past. */
static void take(const desk *d, const dw_pull_plan *plan,
                 const dw_pull_sheet *sheet, int64_t product_id,
                 dw_stack_left **of, int64_t after_ms, int64_t to_ms)
{
    int64_t gone = -tapped(d, product_id, after_ms, to_ms), last_ms = 0;
    for (size_t i = 0; i < sheet->rows_count; i++) {
        const dw_pull_row *row = &sheet->rows[i];
        if (row->at_ms <= after_ms || row->at_ms > to_ms)
            continue;
        gone += row->balls;
        last_ms = row->at_ms;
    }
    for (size_t i = 0; i < plan->lots_count && gone > 0; i++) {
        const dw_pull_lot *lot = &plan->lots[i];
        if (lot->ready_ms > last_ms || lot->end_ms <= after_ms)
            continue;
        int64_t balls = gone < of[i]->left ? gone : of[i]->left;
        of[i]->left -= balls;
        of[i]->assumed_gone += balls;
        of[i]->assumed |= balls > 0;
        gone -= balls;
    }
}

/* A row to come takes from what is there by now, which may be less, or other,
 * than what was there when the day began. */
static size_t lot_now(const dw_pull_plan *plan, dw_stack_left **of,
                      const int64_t *promised, int64_t usable_ms)
{
    for (size_t i = 0; i < plan->lots_count; i++)
        if (of[i]->left > promised[i] && plan->lots[i].ready_ms <= usable_ms &&
            plan->lots[i].end_ms > usable_ms)
            return i;
    return plan->lots_count;
}

static dw_status name_stack(desk *d, const dw_stack *stack, dw_pull_line *line)
{
    dw_batch_row batch;
    line->row.stack_id = stack->id;
    line->mixing_day = stack->mixing_day;
    if (stack->batch_id == 0)
        return DW_OK;
    DW_TRY(dw_row_get(d->call, "batch", &dw_batch_noun, stack->batch_id,
                      "batch_id", &batch));
    line->number = batch.number;
    return DW_OK;
}

/* One row as lines: done as the sheet had it; to come, from what is there. */
static dw_status add_lines(desk *d, const dw_pull_plan *plan,
                           const dw_pull_row *row, dw_stack_left **of,
                           int64_t *promised, dw_product_pull *out)
{
    bool past = row->at_ms <= d->call->now_ms;
    int64_t balls = row->balls;
    do {
        dw_pull_line *line = &out->lines[out->lines_count++];
        *line = (dw_pull_line){.row = *row, .past = past};
        size_t lot = past ? (size_t)row->lot
                          : lot_now(plan, of, promised, row->usable_ms);
        if (balls > 0 && lot < plan->lots_count)
            DW_TRY(name_stack(d, &of[lot]->stack, line));
        if (past || balls == 0)
            return DW_OK;
        int64_t there =
            lot < plan->lots_count ? of[lot]->left - promised[lot] : 0;
        line->row.balls = balls < there ? balls : there;
        line->row.boxes =
            (line->row.balls + plan->balls_per_box - 1) / plan->balls_per_box;
        if (there == 0)
            return DW_OK;
        promised[lot] += line->row.balls;
        balls -= line->row.balls;
    } while (balls > 0);
    return DW_OK;
}

static dw_status set_lines(desk *d, const dw_pull_plan *plan,
                           const dw_pull_sheet *sheet, dw_stack_left **of,
                           dw_product_pull *out)
{
    size_t room = sheet->rows_count + plan->lots_count + 1;
    int64_t *promised =
        DW_NEW_ARRAY(d->call->arena, int64_t, plan->lots_count + 1);
    out->lines = DW_NEW_ARRAY(d->call->arena, dw_pull_line, room);
    if (!out->lines || !promised)
        return no_room(d->call);
    for (size_t i = 0; i < sheet->rows_count; i++)
        DW_TRY(add_lines(d, plan, &sheet->rows[i], of, promised, out));
    return DW_OK;
}

/* A day's sheet and, where stock runs down by it, what it took until `to_ms`.
 * `out` NULL: only that. */
static dw_status walk_day(desk *d, const dw_product *product, int64_t day,
                          int64_t to_ms, dw_product_pull *out)
{
    dw_product_pull told = {.product_id = product->id,
                            .name = product->name,
                            .balls_per_box = product->balls_per_box};
    dw_pull_plan plan;
    dw_pull_sheet sheet = {0};
    dw_stack_left **of;
    int64_t starts = starts_ms(d, day), after = since_ms(d, product->id);
    dw_shape_preset(&dw_pull_plan_shape, &plan);
    plan.step_minutes = d->service.pull_step_minutes;
    plan.day_sd_percent = d->service.day_sd_percent;
    plan.short_cost = d->service.short_cost_balls;
    plan.balls_per_box = product->balls_per_box;
    plan.days_sampled = DAYS_SAMPLED;
    if (day < d->today) { /* what a mean day took, whole boxes */
        plan.has_enough = true;
        plan.enough = 0.5;
        plan.days_sampled = 0;
    }
    DW_TRY(set_slots(d, product, day, &plan, &told));
    bool some = plan.wanted_count > 0 && set_temper(d, product, &plan, &told);
    if (some) {
        DW_TRY(set_lots(d, product, starts, &plan, &of));
        DW_TRY(dw_pull_make(&plan, d->call->arena, &sheet, d->call->err));
        told.enough = sheet.enough;
        told.unserved = sheet.unserved;
        told.expired = sheet.expired;
        told.left = sheet.left;
        told.pulled = sheet.pulled;
        told.lacking = sheet.lacking;
        bool run_down = d->service.run_down == DW_RUN_DOWN_PULL_SHEET;
        if (run_down && after > 0 && after < to_ms)
            take(d, &plan, &sheet, product->id, of,
                 after > starts ? after : starts, to_ms);
        if (out)
            DW_TRY(set_lines(d, &plan, &sheet, of, &told));
    }
    if (out)
        *out = told;
    return DW_OK;
}

/* ---- days ---------------------------------------------------------------- */

static dw_status is_closed(desk *d, int64_t day, bool *closed)
{
    dw_day_people people;
    DW_TRY(dw_day_people_read(d->call, &d->shop, day, &people));
    *closed = people.closed;
    return DW_OK;
}

/* All products through the days up to `day`; its sheets go to `out`. */
static dw_status walk(desk *d, int64_t day, dw_pull_day *out)
{
    bool closed[DAYS_BACK + DAYS_AHEAD + 1];
    int64_t first = d->today - DAYS_BACK;
    for (int64_t at = first; at <= day; at++)
        DW_TRY(is_closed(d, at, &closed[at - first]));
    for (size_t i = 0; i < d->products_count; i++) {
        const dw_product *product = &d->products[i];
        int64_t since = since_ms(d, product->id), at = d->today;
        if (!product->here)
            continue;
        if (since > 0 && d->service.run_down == DW_RUN_DOWN_PULL_SHEET)
            at = dw_zone_day(d->zone, since, (int)d->shop.cutover_minutes);
        for (at = at < first ? first : at; at <= day; at++) {
            dw_product_pull told = {.wanted = 0};
            int64_t to = at < d->today ? starts_ms(d, at + 1)
                         : at == day   ? d->call->now_ms
                                       : starts_ms(d, at + 1);
            if (!closed[at - first])
                DW_TRY(walk_day(d, product, at, to,
                                at == day && out ? &told : NULL));
            if (at == day && out && told.wanted > 0)
                out->products[out->products_count++] = told;
        }
    }
    return DW_OK;
}

dw_status dw_pulls_run_down(dw_call *call, dw_stack_left *stacks, size_t count)
{
    desk d = {.call = call};
    if (count == 0)
        return DW_OK;
    DW_TRY(open_desk(&d, call));
    if (d.service.run_down != DW_RUN_DOWN_PULL_SHEET)
        return DW_OK;
    DW_TRY(set_stacks(&d, stacks, count));
    return walk(&d, d.today, NULL);
}

dw_status dw_pull_day_read(dw_call *call, int64_t day, dw_pull_day *out)
{
    desk d = {.call = call};
    dw_stack_left *stacks;
    size_t n;
    DW_TRY(open_desk(&d, call));
    DW_TRY(dw_stacks_counted(call, &stacks, &n));
    DW_TRY(set_stacks(&d, stacks, n));
    if (day == 0)
        day = d.today;
    DW_TRY(dw_check_range(call->err, "day", (double)day, (double)d.today,
                          (double)d.today + DAYS_AHEAD));
    *out = (dw_pull_day){.day = day, .now_ms = call->now_ms};
    out->runs_down = d.service.run_down == DW_RUN_DOWN_PULL_SHEET;
    out->products =
        DW_NEW_ARRAY(call->arena, dw_product_pull, d.products_count + 1);
    if (!out->products)
        return no_room(call);
    DW_TRY(walk(&d, day, out));
    return day == d.today ? dw_stacks_keep(call, stacks, n) : DW_OK;
}
