/* The cold room: every stack with its life, what to use first, and what people
 * take out of it. */
#include "app/stack_life.h"
#include "app/stacks.h"

#include "doughwright/say.h"
#include "os/zone.h"

#include <stdlib.h>

/* ---- what is asked and told ---------------------------------------------- */

typedef struct asked {
    int64_t members;
} asked;
static const dw_field asked_fields[] = {
    DW_F_WHOLE_PRESET(asked, members, "", 0, 63, 7,
                      "lives in each band; 0: no bands"),
};
static const dw_shape asked_shape =
    DW_SHAPE("cold_asked", asked, asked_fields, "how sure it must be");

/* By the shop's own days: a rule of thumb. */
typedef struct by_days {
    int64_t ready_ms, best_ms, use_first_ms, end_ms;
    int readiness;
} by_days;
static const dw_field by_days_fields[] = {
    DW_F_MOMENT(by_days, ready_ms, "first day of use begins"),
    DW_F_MOMENT(by_days, best_ms, "best day begins"),
    DW_F_MOMENT(by_days, use_first_ms, "day to use it first begins"),
    DW_F_MOMENT(by_days, end_ms, "last day of use is over"),
    DW_F_CHOICE(by_days, readiness, dw_readiness_words, "today"),
};
static const dw_shape by_days_shape =
    DW_SHAPE("stack_days", by_days, by_days_fields, "a rule of thumb");

typedef struct row {
    int64_t stack_id, batch_id, number, product_id, cold_room_id, mixing_day;
    const char *name;
    int64_t boxes, balls, balls_per_box;
    int64_t boxes_left, balls_left;
    bool assumed;
    int64_t assumed_gone;
    int64_t stopped_ms, opened_ms, closed_ms, close_due_ms;
    by_days days;
    bool has_life, has_no_life;
    dw_stack_life life;
    int no_life;
    int readiness;
    bool has_next;
    int next;
    int64_t next_ms, end_ms;
} row;
static const dw_field row_fields[] = {
    DW_F_ID(row, stack_id, "0: counted, of no known batch"),
    DW_F_ID(row, batch_id, "from which batch"),
    DW_F_WHOLE(row, number, "", 0, 1e9, "its number"),
    DW_F_ID(row, product_id, "of what"),
    DW_F_ID(row, cold_room_id, "where"),
    DW_F_WHOLE(row, mixing_day, "d", 0, 84100, "day 0"),
    DW_F_TEXT(row, name, 60, "the product"),
    DW_F_WHOLE(row, boxes, "", 0, 10000, "put in"),
    DW_F_WHOLE(row, balls, "", 0, 100000, "put in"),
    DW_F_WHOLE(row, balls_per_box, "", 1, 200, "in a full box"),
    DW_F_WHOLE(row, boxes_left, "", 0, 1e9, "a begun box counts"),
    DW_F_WHOLE(row, balls_left, "", 0, 1e9, "still there"),
    DW_F_YES(row, assumed, false, "by a count or the pull sheet, not by taps"),
    DW_F_WHOLE(row, assumed_gone, "", 0, 1e9,
               "taken to be pulled by the sheet since the count"),
    DW_F_MOMENT(row, stopped_ms, "the mixer stopped"),
    DW_F_MOMENT(row, opened_ms, "open in the cold since"),
    DW_F_MOMENT(row, closed_ms, "closed"),
    DW_F_MOMENT(row, close_due_ms, "close it, rule of thumb"),
    DW_F_ONE(row, days, &by_days_shape, "by the shop's days"),
    DW_F_ONE_OPT(row, life, &dw_stack_life_shape, "from its readings"),
    DW_F_CHOICE_OPT(row, no_life, dw_no_life_words, "why it has none"),
    DW_F_CHOICE(row, readiness, dw_readiness_words,
                "now: by its life, else by the days"),
    DW_F_CHOICE_OPT(row, next, dw_readiness_words, "what it turns to next"),
    DW_F_MOMENT(row, next_ms, "and when"),
    DW_F_MOMENT(row, end_ms, "past from then; 0: not within 14 days"),
};
static const dw_shape row_shape =
    DW_SHAPE("cold_stack_row", row, row_fields, "a stack and its life");

typedef struct cold_room {
    int64_t now_ms, day, day_ends_ms;
    dw_life_limits limits;
    row *stacks;
    size_t stacks_count;
} cold_room;
static const dw_field cold_room_fields[] = {
    DW_F_MOMENT(cold_room, now_ms, "the server's clock"),
    DW_F_WHOLE(cold_room, day, "d", 0, 84000, "business day"),
    DW_F_MOMENT(cold_room, day_ends_ms, "the business day is over"),
    DW_F_ONE(cold_room, limits, &dw_life_limits_shape,
             "what the windows of their lives go by"),
    DW_F_MANY_OPT(cold_room, stacks, &row_shape, 100000,
                  "what to use first comes first, what is past last"),
};
static const dw_shape cold_room_shape =
    DW_SHAPE("cold_stacks", cold_room, cold_room_fields, "what is there");

/* ---- one stack ----------------------------------------------------------- */

typedef struct desk {
    dw_call *call;
    dw_shop shop;
    const dw_zone *zone;
    int64_t day;
    dw_stack_lives lives;
} desk;

static dw_status open_desk(dw_call *call, desk *d)
{
    d->call = call;
    DW_TRY(dw_shop_get(call, &d->shop));
    DW_TRY(dw_zone_load(d->shop.zone, call->arena, &d->zone, call->err));
    d->day = dw_zone_day(d->zone, call->now_ms, (int)d->shop.cutover_minutes);
    return DW_OK;
}

static int64_t starts_ms(const desk *d, int64_t day)
{
    return dw_zone_day_starts_ms(d->zone, day, (int)d->shop.cutover_minutes);
}

static void fill_days(const desk *d, const dw_stack *stack,
                      const dw_product *product, row *out)
{
    int64_t day0 = stack->mixing_day;
    dw_cold_days days = dw_stack_days(&d->shop, stack, product);
    out->days = (by_days){starts_ms(d, day0 + days.ready_day),
                          starts_ms(d, day0 + days.best_day),
                          starts_ms(d, day0 + days.use_first_day),
                          starts_ms(d, day0 + days.last_day + 1),
                          (int)dw_cold_readiness(&days, d->day - day0)};
}

/* The moments at which it turns ready, best, use first, past; 0: never. What
 * never gets ready (no yeast went in) is not to be used first either. */
static void turns_of(const row *out, int64_t turns[4])
{
    const dw_stack_life *life = &out->life;
    bool gets_ready = !out->has_life || life->ready.at_ms != 0;
    const int64_t own[4] = {life->ready.at_ms, life->best.at_ms,
                            life->use_first.at_ms, life->end.at_ms};
    const int64_t days[4] = {out->days.ready_ms, out->days.best_ms,
                             out->days.use_first_ms, out->days.end_ms};
    for (int i = 0; i < 4; i++)
        turns[i] = out->has_life ? own[i] : days[i];
    if (!gets_ready)
        turns[2] = 0;
}

/* Where it stands by its life, and what comes next either way. A turn that
 * comes after a later one (best after use first) is passed over. */
static void fill_now(int64_t now_ms, row *out)
{
    int64_t turns[4];
    turns_of(out, turns);
    out->end_ms = turns[3];
    out->readiness = out->has_life ? (int)DW_NOT_YET : out->days.readiness;
    for (int i = 3; i >= 0; i--) {
        bool later = out->has_next && turns[i] >= out->next_ms;
        if (turns[i] > now_ms && !later) {
            out->has_next = true;
            out->next = i + 1;
            out->next_ms = turns[i];
        }
        if (out->has_life && turns[i] != 0 && turns[i] <= now_ms &&
            out->readiness < i + 1)
            out->readiness = i + 1;
    }
    if (out->readiness == DW_PAST)
        out->has_next = false;
}

static dw_status tell(desk *d, const dw_stack *stack, const dw_product *product,
                      row *out, dw_stack_tale *tale)
{
    *tale = (dw_stack_tale){.none = DW_NO_LIFE_TIMES};
    if (stack->batch_id == 0)
        return DW_OK;
    dw_batch_row batch;
    DW_TRY(dw_row_get(d->call, "batch", &dw_batch_noun, stack->batch_id,
                      "batch_id", &batch));
    out->number = batch.number;
    out->stopped_ms = batch.stopped_ms;
    return dw_stack_tale_of(&d->lives, stack, &batch, product, tale);
}

static void fill_life(const desk *d, const dw_stack_tale *tale, row *out)
{
    out->life = tale->life;
    out->has_life = tale->has_life;
    out->has_no_life = !tale->has_life;
    out->no_life = tale->none;
    fill_now(d->call->now_ms, out);
}

static dw_status fill_row(desk *d, const dw_stack_left *left, row *out,
                          dw_stack_tale *tale)
{
    const dw_stack *stack = &left->stack;
    dw_product product;
    DW_TRY(dw_row_get(d->call, "product", &dw_product_noun, stack->product_id,
                      "product_id", &product));
    int64_t per_box = product.balls_per_box;
    *out = (row){.stack_id = stack->id,
                 .batch_id = stack->batch_id,
                 .product_id = stack->product_id,
                 .cold_room_id = stack->cold_room_id,
                 .mixing_day = stack->mixing_day,
                 .name = product.name,
                 .boxes = stack->boxes,
                 .balls = stack->balls,
                 .balls_per_box = per_box,
                 .boxes_left = (left->left + per_box - 1) / per_box,
                 .balls_left = left->left,
                 .assumed = left->assumed,
                 .assumed_gone = left->assumed_gone,
                 .opened_ms = stack->opened_ms,
                 .closed_ms = stack->closed_ms,
                 .close_due_ms = stack->close_due_ms};
    fill_days(d, stack, &product, out);
    return tell(d, stack, &product, out, tale);
}

/* ---- all of them --------------------------------------------------------- */

/* Past ones last; then what ends first, and what never does last. */
static int by_use(const void *a, const void *b)
{
    const row *left = a, *right = b;
    bool left_past = left->readiness == DW_PAST;
    bool right_past = right->readiness == DW_PAST;
    if (left_past != right_past)
        return left_past - right_past;
    int64_t left_ms = left->end_ms ? left->end_ms : INT64_MAX;
    int64_t right_ms = right->end_ms ? right->end_ms : INT64_MAX;
    if (left_ms != right_ms)
        return left_ms < right_ms ? -1 : 1;
    return (left->stack_id > right->stack_id) -
           (left->stack_id < right->stack_id);
}

static dw_status stacks_run(dw_call *call, const void *request, void *reply)
{
    const asked *wanted = request;
    cold_room *room = reply;
    desk d;
    dw_stack_left *left;
    size_t n;
    DW_TRY(open_desk(call, &d));
    DW_TRY(dw_stacks_left(call, &left, &n));
    DW_TRY(dw_stack_lives_begin(call, &d.shop, wanted->members, n, &d.lives));
    room->now_ms = call->now_ms;
    room->day = d.day;
    room->day_ends_ms = starts_ms(&d, d.day + 1);
    room->limits = dw_stack_life_limits();
    room->stacks = DW_NEW_ARRAY(call->arena, row, n ? n : 1);
    dw_stack_tale *tales = DW_NEW_ARRAY(call->arena, dw_stack_tale, n ? n : 1);
    if (!room->stacks || !tales)
        return dw_fail(call->err, DW_E_ROOM, "stacks", NULL);
    for (size_t i = 0; i < n; i++)
        if (left[i].left > 0) {
            size_t next = room->stacks_count++;
            DW_TRY(fill_row(&d, &left[i], &room->stacks[next], &tales[next]));
        }
    DW_TRY(dw_stack_tales_live(&d.lives, tales, room->stacks_count));
    for (size_t i = 0; i < room->stacks_count; i++)
        fill_life(&d, &tales[i], &room->stacks[i]);
    qsort(room->stacks, room->stacks_count, sizeof(row), by_use);
    return DW_OK;
}

/* ---- moves --------------------------------------------------------------- */

typedef struct move_given {
    int64_t stack_id, balls;
    int kind;
} move_given;
static const dw_field move_given_fields[] = {
    DW_F_ID(move_given, stack_id, "which stack"),
    DW_F_CHOICE(move_given, kind, dw_move_kind_words,
                "pull, put_back, use, throw_away or send"),
    DW_F_WHOLE(move_given, balls, "", 1, 100000, "how many"),
};
static const dw_shape move_given_shape = DW_SHAPE(
    "move_given", move_given, move_given_fields, "what somebody tapped");

typedef struct move_made {
    int64_t id, stack_id, balls_left;
} move_made;
static const dw_field move_made_fields[] = {
    DW_F_ID(move_made, id, "the move"),
    DW_F_ID(move_made, stack_id, "of which stack"),
    DW_F_WHOLE(move_made, balls_left, "", 0, 1e9, "left in it"),
};
static const dw_shape move_made_shape =
    DW_SHAPE("move_made", move_made, move_made_fields, "a move and its rest");

static bool is_tapped(int kind)
{
    return kind == DW_MOVE_PULL || kind == DW_MOVE_PUT_BACK ||
           kind == DW_MOVE_USE || kind == DW_MOVE_THROW_AWAY ||
           kind == DW_MOVE_SEND;
}

/* What is in the stack by counts and taps, and what went out of it by taps: a
 * tap is not held to what was only assumed. An empty stack is in no list, but
 * its moves are. */
static dw_status find_left(dw_call *call, const dw_stack *stack,
                           dw_stack_left *found)
{
    dw_stack_left *left;
    size_t n, moves_count;
    DW_TRY(dw_stacks_counted(call, &left, &n));
    *found = (dw_stack_left){.stack = *stack};
    for (size_t i = 0; i < n; i++)
        if (left[i].stack.id == stack->id)
            *found = left[i];
    dw_stack_move *moves;
    DW_TRY(dw_rows_get(call, "stack_move", &dw_stack_move_noun, "stack_id",
                       stack->id, "id", &moves, &moves_count));
    found->moved = 0;
    for (size_t i = 0; i < moves_count; i++)
        if (!moves[i].assumed)
            found->moved += moves[i].balls;
    return DW_OK;
}

static dw_status move_run(dw_call *call, const void *request, void *reply)
{
    const move_given *given = request;
    dw_stack stack;
    dw_stack_left left;
    if (!is_tapped(given->kind))
        return dw_fail_says(call->err, DW_E_CONFLICT, "kind",
                            dw_move_kind_words[given->kind],
                            DW_MSG("is written by the program itself"));
    DW_TRY(dw_row_get(call, "stack", &dw_stack_noun, given->stack_id,
                      "stack_id", &stack));
    DW_TRY(find_left(call, &stack, &left));
    bool back = given->kind == DW_MOVE_PUT_BACK;
    int64_t most = back ? left.moved : left.left;
    if (most <= 0)
        return dw_fail_says(call->err, DW_E_CONFLICT, "stack_id", NULL,
                            back ? DW_MSG("has nothing that was taken out")
                                 : DW_MSG("has no balls left"));
    DW_TRY(dw_check_range(call->err, "balls", (double)given->balls, 1,
                          (double)most));
    dw_stack_move move = {.stack_id = given->stack_id,
                          .kind = given->kind,
                          .balls = back ? -given->balls : given->balls,
                          .occurred_ms = call->occurred_ms,
                          .person_id = call->person_id};
    DW_TRY(
        dw_row_save(call, "stack_move", &dw_stack_move_noun, &move, &move.id));
    DW_TRY(find_left(call, &stack, &left));
    *(move_made *)reply = (move_made){move.id, stack.id, left.left};
    return DW_OK;
}

const dw_op dw_ops_cold_room[] = {
    {"cold.stacks", DW_OP_READ, &asked_shape, &cold_room_shape, stacks_run,
     "Every stack in the cold room with its life, what to use first on top."},
    {"stack.move", DW_OP_WRITE, &move_given_shape, &move_made_shape, move_run,
     "Pull, put back, use, throw away or send balls of a stack."},
};
const size_t dw_ops_cold_room_count = DW_COUNT(dw_ops_cold_room);
