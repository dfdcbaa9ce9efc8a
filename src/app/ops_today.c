/* Today: what to do next and until when, what is in the cold room, the day's
 * readings, every running timer. The handover sheet is made from the same. */
#include "app/today.h"

#include "app/checks.h"
#include "app/pulls.h"
#include "app/said.h"
#include "app/shifts.h"
#include "app/stack_life.h"
#include "app/stacks.h"
#include "store/taught.h"

#include "os/zone.h"

#include <stdlib.h>

#define DAY_MS 86400000LL

/* ---- what to do ---------------------------------------------------------- */

const char *const dw_todo_words[] = {
    "mix",         "box",  "close", "use_first", "count", "discard_minors",
    "look_at_cup", "pull", "check", NULL};

const char *const dw_todo_by_words[] = {"life", "clock", "days", NULL};

static const dw_field todo_fields[] = {
    DW_F_CHOICE(dw_todo, kind, dw_todo_words, "what to do"),
    DW_F_MOMENT(dw_todo, due_ms, "until when"),
    DW_F_ID(dw_todo, batch_id, "which batch"),
    DW_F_WHOLE_PRESET(dw_todo, number, "", 0, 1e9, 0, "its number"),
    DW_F_ID(dw_todo, product_id, "which product"),
    DW_F_TEXT_OPT(dw_todo, name, 80, "formula or product"),
    DW_F_WHOLE_PRESET(dw_todo, balls, "", 0, 1e9, 0, "how many balls"),
    DW_F_WHOLE_PRESET(dw_todo, boxes, "", 0, 1e9, 0, "in how many boxes"),
    DW_F_ID(dw_todo, minors_lot_id, "which bags of minors"),
    DW_F_CHOICE_OPT(dw_todo, by, dw_todo_by_words,
                    "life of the balls, the trade's clock or the shop's days"),
    DW_F_ID(dw_todo, check_id, "which check"),
    DW_F_YES(dw_todo, wants_value, false, "the check is a number to read"),
};
static const dw_shape todo_shape =
    DW_SHAPE("todo", dw_todo, todo_fields, "one thing to do");

static const dw_field timer_fields[] = {
    DW_F_ID(dw_timer, batch_id, "of which batch"),
    DW_F_WHOLE(dw_timer, number, "", 0, 1e9, "its number"),
    DW_F_ID(dw_timer, step_id, "of which step"),
    DW_F_MOMENT(dw_timer, started_ms, "runs since"),
    DW_F_REAL(dw_timer, minutes, "min", 0, 10080, "how long"),
    DW_F_REAL_OPT(dw_timer, minutes_to, "min", 0, 10080, "at most"),
    DW_F_TEXT_OPT(dw_timer, says, 1000, "the step in words"),
};
static const dw_shape timer_shape =
    DW_SHAPE("timer", dw_timer, timer_fields, "a step that runs");

static const dw_field today_fields[] = {
    DW_F_MOMENT(dw_agenda, now_ms, "the server's clock"),
    DW_F_WHOLE(dw_agenda, day, "d", 0, 84000, "business day"),
    DW_F_MOMENT(dw_agenda, leaves_ms, "last person leaves; 0: not known"),
    DW_F_MOMENT(dw_agenda, counted_ms, "newest count; 0: none yet"),
    DW_F_MANY_OPT(dw_agenda, next, &todo_shape, 10000, "soonest first"),
    DW_F_MANY_OPT(dw_agenda, dying, &todo_shape, 100000,
                  "past already, or before the business day is over"),
    DW_F_ONE(dw_agenda, limits, &dw_life_limits_shape,
             "what the windows go by"),
    DW_F_MANY_OPT(dw_agenda, timers, &timer_shape, 1000, "running steps"),
    DW_F_MANY_OPT(dw_agenda, readings, &dw_reading_noun, 4,
                  "newest flour, room, tap and cold room"),
    DW_F_MANY_OPT(dw_agenda, stock, &dw_stock_line_shape, 1000, "by product"),
    DW_F_MANY_OPT(dw_agenda, open, &dw_batch_noun, 1000,
                  "batches that still want something"),
};
static const dw_shape today_shape =
    DW_SHAPE("today", dw_agenda, today_fields, "the day as it stands");

typedef struct desk {
    dw_call *call;
    dw_shop shop;
    const dw_zone *zone;
    dw_agenda *out;
    size_t room;
    dw_pull_day pulls; /* today's */
} desk;

static int by_due(const void *a, const void *b)
{
    int64_t left = ((const dw_todo *)a)->due_ms,
            right = ((const dw_todo *)b)->due_ms;
    return (left > right) - (left < right);
}

static dw_status no_room(dw_call *call)
{
    return dw_fail(call->err, DW_E_ROOM, "today", NULL);
}

static dw_status add(desk *d, dw_todo one)
{
    if (d->out->next_count == d->room)
        return dw_fail(d->call->err, DW_E_TOO_LARGE, "next", NULL);
    d->out->next[d->out->next_count++] = one;
    return DW_OK;
}

static dw_status formula_name(desk *d, int64_t version_id, const char **name)
{
    dw_formula_version version;
    dw_formula_row formula;
    DW_TRY(dw_row_get(d->call, "formula_version", &dw_formula_version_noun,
                      version_id, "version_id", &version));
    DW_TRY(dw_row_get(d->call, "formula", &dw_formula_noun, version.formula_id,
                      "formula_id", &formula));
    *name = formula.name;
    return DW_OK;
}

/* ---- batches and their timers -------------------------------------------- */

static dw_status add_timers(desk *d, const dw_batch_row *batch)
{
    dw_batch_step *steps;
    size_t n;
    DW_TRY(dw_rows_get(d->call, "batch_step", &dw_batch_step_noun, "batch_id",
                       batch->id, "position", &steps, &n));
    for (size_t i = 0; i < n; i++) {
        const dw_batch_step *step = &steps[i];
        if (step->started_ms == 0 || step->done_ms != 0 ||
            step->step.minutes == 0)
            continue;
        dw_card_saying *saying;
        DW_TRY(dw_said_card(d->call, &step->step, 1, &saying));
        if (d->out->timers_count == d->room)
            return dw_fail(d->call->err, DW_E_TOO_LARGE, "timers", NULL);
        d->out->timers[d->out->timers_count++] =
            (dw_timer){batch->id,
                       batch->number,
                       step->id,
                       step->started_ms,
                       step->step.minutes,
                       step->step.has_minutes_to,
                       step->step.minutes_to,
                       saying->step};
    }
    return DW_OK;
}

static dw_status add_batches(desk *d)
{
    dw_agenda *out = d->out;
    DW_TRY(dw_store_batches_open(d->call->store, d->call->arena, &out->open,
                                 &out->open_count, d->call->err));
    for (size_t i = 0; i < out->open_count; i++) {
        const dw_batch_row *batch = &out->open[i];
        dw_todo one = {.batch_id = batch->id, .number = batch->number};
        DW_TRY(formula_name(d, batch->version_id, &one.name));
        if (batch->state == DW_BATCH_PLANNED) {
            one.kind = DW_TODO_MIX;
            one.due_ms = batch->planned_ms;
            DW_TRY(add(d, one));
        } else if (batch->state == DW_BATCH_MIXED) {
            one.kind = DW_TODO_BOX;
            one.due_ms =
                batch->stopped_ms + (int64_t)(d->shop.bench_minutes * 60000);
            DW_TRY(add(d, one));
        }
        if (batch->state != DW_BATCH_PLANNED)
            DW_TRY(add_timers(d, batch));
    }
    return DW_OK;
}

static dw_status add_stacks(desk *d)
{
    dw_stack *stacks;
    size_t n;
    DW_TRY(dw_store_stacks_open(d->call->store, d->call->arena, &stacks, &n,
                                d->call->err));
    for (size_t i = 0; i < n; i++) {
        dw_product product;
        dw_batch_row batch;
        DW_TRY(dw_row_get(d->call, "product", &dw_product_noun,
                          stacks[i].product_id, "product_id", &product));
        DW_TRY(dw_row_get(d->call, "batch", &dw_batch_noun, stacks[i].batch_id,
                          "batch_id", &batch));
        DW_TRY(add(d, (dw_todo){.kind = DW_TODO_CLOSE,
                                .due_ms = stacks[i].close_due_ms,
                                .batch_id = batch.id,
                                .number = batch.number,
                                .product_id = product.id,
                                .name = product.name,
                                .balls = stacks[i].balls,
                                .boxes = stacks[i].boxes,
                                .has_by = true,
                                .by = stacks[i].close_by_life ? DW_BY_LIFE
                                                              : DW_BY_CLOCK}));
    }
    return DW_OK;
}

/* ---- stock, count, minors ------------------------------------------------ */

static int64_t day_ends_ms(const desk *d, int64_t day)
{
    return dw_zone_day_starts_ms(d->zone, day + 1,
                                 (int)d->shop.cutover_minutes);
}

static int64_t boxes_of(int64_t balls, int64_t per_box)
{
    return (balls + per_box - 1) / per_box;
}

/* What is to be used before all other: by the life of its balls, else by the
 * days it was made under. The end of either is until when. */
static dw_status use_first_of(desk *d, dw_stack_lives *lives,
                              const dw_stack_left *left, dw_todo *one,
                              bool *found)
{
    const dw_stack *stack = &left->stack;
    dw_product product;
    dw_batch_row batch = {.number = 0};
    dw_stack_life life;
    bool has_life = false;
    int none;
    DW_TRY(dw_row_get(d->call, "product", &dw_product_noun, stack->product_id,
                      "product_id", &product));
    if (stack->batch_id != 0) {
        DW_TRY(dw_row_get(d->call, "batch", &dw_batch_noun, stack->batch_id,
                          "batch_id", &batch));
        DW_TRY(dw_stack_life_of(lives, stack, &batch, &product, &life,
                                &has_life, &none));
    }
    int64_t now_ms = d->call->now_ms;
    dw_cold_days days = dw_stack_days(&d->shop, stack, &product);
    int64_t age = d->out->day - stack->mixing_day;
    *one = (dw_todo){
        .kind = DW_TODO_USE_FIRST,
        .number = batch.number,
        .product_id = product.id,
        .name = product.name,
        .balls = left->left,
        .boxes = boxes_of(left->left, product.balls_per_box),
        .has_by = true,
        .by = has_life ? DW_BY_LIFE : DW_BY_DAYS,
        .due_ms = has_life ? life.end.at_ms
                           : day_ends_ms(d, stack->mixing_day + days.last_day)};
    *found = has_life ? life.use_first.at_ms != 0 &&
                            life.use_first.at_ms <= now_ms &&
                            (life.end.at_ms == 0 || life.end.at_ms > now_ms)
                      : dw_cold_readiness(&days, age) == DW_USE_FIRST;
    return DW_OK;
}

/* Stacks of one product that go by the same are one thing to do, until the
 * first of them is past. */
static bool joined(dw_agenda *out, size_t from, const dw_todo *one)
{
    for (size_t i = from; i < out->next_count; i++) {
        dw_todo *other = &out->next[i];
        if (other->product_id != one->product_id || other->by != one->by)
            continue;
        other->balls += one->balls;
        other->boxes += one->boxes;
        other->number = 0; /* of several batches */
        if (one->due_ms != 0 &&
            (other->due_ms == 0 || one->due_ms < other->due_ms))
            other->due_ms = one->due_ms;
        return true;
    }
    return false;
}

static dw_status add_use_first(desk *d)
{
    dw_stack_left *left;
    size_t n, from = d->out->next_count;
    dw_stack_lives lives;
    DW_TRY(dw_stacks_left(d->call, &left, &n));
    DW_TRY(dw_stack_lives_begin(d->call, &d->shop, 0, n, &lives));
    d->out->dying = DW_NEW_ARRAY(d->call->arena, dw_todo, n + 1);
    if (!d->out->dying)
        return no_room(d->call);
    for (size_t i = 0; i < n; i++) {
        dw_todo one;
        bool found;
        if (left[i].left <= 0) /* taken to be pulled by now */
            continue;
        DW_TRY(use_first_of(d, &lives, &left[i], &one, &found));
        if (one.due_ms != 0 && one.due_ms <= day_ends_ms(d, d->out->day))
            d->out->dying[d->out->dying_count++] = one;
        if (found && !joined(d->out, from, &one))
            DW_TRY(add(d, one));
    }
    qsort(d->out->dying, d->out->dying_count, sizeof(dw_todo), by_due);
    return DW_OK;
}

/* The evening count, unless one was taken in this business day. */
static dw_status add_count(desk *d)
{
    dw_count_row *counts;
    size_t n;
    DW_TRY(dw_rows_get(d->call, "count_taken", &dw_count_taken_noun, NULL, 0,
                       "at_ms DESC", &counts, &n));
    d->out->counted_ms = n > 0 ? counts[0].at_ms : 0;
    if (d->out->stock_count == 0 || (n > 0 && counts[0].day == d->out->day))
        return DW_OK;
    int64_t due =
        d->out->leaves_ms ? d->out->leaves_ms : day_ends_ms(d, d->out->day);
    return add(d, (dw_todo){.kind = DW_TODO_COUNT, .due_ms = due});
}

/* A witness cup is looked at after 45 minutes and again after an hour; after
 * three hours nobody waits for it. */
static dw_status add_cups(desk *d)
{
    static const int64_t look_ms[] = {45 * 60000LL, 60 * 60000LL};
    static const int64_t given_up_ms = 3 * 3600000LL;
    dw_cup *cups;
    size_t n, looks;
    DW_TRY(dw_store_cups_since(d->call->store, d->call->now_ms - given_up_ms,
                               d->call->arena, &cups, &n, d->call->err));
    for (size_t i = 0; i < n; i++) {
        dw_cup_reading *rows;
        dw_batch_row batch;
        DW_TRY(dw_rows_get(d->call, "cup_reading", &dw_cup_reading_noun,
                           "cup_id", cups[i].id, "id", &rows, &looks));
        if (looks >= DW_COUNT(look_ms))
            continue;
        DW_TRY(dw_row_get(d->call, "batch", &dw_batch_noun, cups[i].batch_id,
                          "batch_id", &batch));
        dw_todo one = {.kind = DW_TODO_LOOK_AT_CUP,
                       .due_ms = cups[i].occurred_ms + look_ms[looks],
                       .batch_id = batch.id,
                       .number = batch.number};
        DW_TRY(formula_name(d, batch.version_id, &one.name));
        DW_TRY(add(d, one));
    }
    return DW_OK;
}

static dw_status add_minors(desk *d)
{
    dw_minors_lot *lots;
    size_t n;
    DW_TRY(dw_rows_get(d->call, "minors_lot", &dw_minors_lot_noun, NULL, 0,
                       "discard_day, id", &lots, &n));
    for (size_t i = 0; i < n; i++) {
        if (lots[i].left_count == 0 || lots[i].discard_day > d->out->day)
            continue;
        dw_todo one = {.kind = DW_TODO_DISCARD_MINORS,
                       .due_ms = day_ends_ms(d, lots[i].discard_day - 1),
                       .balls = lots[i].left_count,
                       .minors_lot_id = lots[i].id};
        DW_TRY(formula_name(d, lots[i].version_id, &one.name));
        DW_TRY(add(d, one));
    }
    return DW_OK;
}

/* Checks that are due before the business day is over. */
static dw_status add_checks(desk *d)
{
    dw_check *checks;
    size_t n;
    DW_TRY(dw_checks_read(d->call, &checks, &n));
    for (size_t i = 0; i < n; i++) {
        int64_t day = dw_zone_day(d->zone, checks[i].due_ms,
                                  (int)d->shop.cutover_minutes);
        const dw_check_due *due = &checks[i].due;
        if (day > d->out->day)
            break;
        DW_TRY(add(
            d, (dw_todo){.kind = DW_TODO_CHECK,
                         .due_ms = day_ends_ms(d, day),
                         .name = due->name,
                         .check_id = due->id,
                         .wants_value = due->has_lowest || due->has_highest}));
    }
    return DW_OK;
}

/* ---- what comes out of the cold ------------------------------------------ */

/* The next boxes of each product by the day's pull sheet. */
static dw_status add_pulls(desk *d)
{
    for (size_t i = 0; i < d->pulls.products_count; i++) {
        const dw_product_pull *product = &d->pulls.products[i];
        size_t j = 0;
        while (j < product->lines_count &&
               (product->lines[j].past || product->lines[j].row.boxes == 0))
            j++;
        if (j == product->lines_count)
            continue;
        const dw_pull_line *line = &product->lines[j];
        DW_TRY(add(d, (dw_todo){.kind = DW_TODO_PULL,
                                .due_ms = line->row.at_ms,
                                .number = line->number,
                                .product_id = product->product_id,
                                .name = product->name,
                                .balls = line->row.balls,
                                .boxes = line->row.boxes}));
    }
    return DW_OK;
}

/* ---- the day ------------------------------------------------------------- */

static dw_status read_readings(desk *d)
{
    static const int kinds[] = {DW_READ_FLOUR, DW_READ_ROOM, DW_READ_TAP,
                                DW_READ_COLD};
    d->out->readings =
        DW_NEW_ARRAY(d->call->arena, dw_reading_row, DW_COUNT(kinds));
    if (!d->out->readings)
        return no_room(d->call);
    for (size_t i = 0; i < DW_COUNT(kinds); i++) {
        dw_reading_row *rows;
        size_t n;
        DW_TRY(dw_store_readings_newest(
            d->call->store, 0, kinds[i], d->call->now_ms - DAY_MS,
            d->call->arena, &rows, &n, d->call->err));
        if (n > 0)
            d->out->readings[d->out->readings_count++] = rows[0];
    }
    return DW_OK;
}

static dw_status set_leaves(desk *d)
{
    dw_day_people people;
    DW_TRY(dw_day_people_read(d->call, &d->shop, d->out->day, &people));
    d->out->leaves_ms = people.leaves_ms;
    return DW_OK;
}

static dw_status open_desk(desk *d)
{
    dw_call *call = d->call;
    dw_agenda *out = d->out;
    DW_TRY(dw_shop_get(call, &d->shop));
    DW_TRY(dw_zone_load(d->shop.zone, call->arena, &d->zone, call->err));
    out->now_ms = call->now_ms;
    out->limits = dw_stack_life_limits();
    out->day = dw_zone_day(d->zone, call->now_ms, (int)d->shop.cutover_minutes);
    d->room = 2000;
    out->next = DW_NEW_ARRAY(call->arena, dw_todo, d->room);
    out->timers = DW_NEW_ARRAY(call->arena, dw_timer, d->room);
    return out->next && out->timers ? DW_OK : no_room(call);
}

dw_status dw_agenda_read(dw_call *call, dw_agenda *agenda)
{
    *agenda = (dw_agenda){.day = 0};
    desk d = {.call = call, .out = agenda};
    DW_TRY(open_desk(&d));
    DW_TRY(set_leaves(&d));
    DW_TRY(read_readings(&d));
    /* first: it tells on the way what is there now */
    DW_TRY(dw_pull_day_read(call, 0, &d.pulls));
    DW_TRY(dw_stock_of(call, &d.shop, d.out->day, &d.out->stock,
                       &d.out->stock_count));
    DW_TRY(add_batches(&d));
    DW_TRY(add_stacks(&d));
    DW_TRY(add_use_first(&d));
    DW_TRY(add_pulls(&d));
    DW_TRY(add_count(&d));
    DW_TRY(add_minors(&d));
    DW_TRY(add_cups(&d));
    DW_TRY(add_checks(&d));
    qsort(d.out->next, d.out->next_count, sizeof(dw_todo), by_due);
    return DW_OK;
}

static dw_status today_run(dw_call *call, const void *request, void *reply)
{
    (void)request;
    return dw_agenda_read(call, reply);
}

const dw_op dw_ops_today[] = {
    {"today.get", DW_OP_READ, &dw_nothing_shape, &today_shape, today_run,
     "What to do next, what is in the cold room, readings, running timers."},
};
const size_t dw_ops_today_count = DW_COUNT(dw_ops_today);
