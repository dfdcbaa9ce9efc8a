#include "app/drops.h"

#include "app/expected.h"
#include "app/shifts.h"
#include "app/stacks.h"
#include "doughwright/allot.h"
#include "doughwright/say.h"

#include <math.h>
#include <stdlib.h>

enum { ALLOT_DAYS = 1, EXPECT_DAYS_MOST = 7 };
static const int64_t DAY_MS = 86400000, MINUTE_MS = 60000;

typedef struct desk {
    dw_call *call;
    dw_shop shop;
    dw_service service;
    const dw_zone *zone;
    int64_t today;
    dw_expected expected;
    dw_outlet *outlets;
    dw_product *products;
    dw_drop_day *days;
    dw_outlet_order *orders;
    dw_drop_made *made;
    dw_stack_left *stacks;
    size_t outlets_count, products_count, days_count, orders_count, made_count,
        stacks_count;
    dw_drops *out;
    size_t room;
} desk;

static dw_status no_room(dw_call *call)
{
    return dw_fail(call->err, DW_E_ROOM, "drops", NULL);
}

static dw_status open_desk(desk *d, int64_t from_day, int64_t to_day)
{
    dw_call *call = d->call;
    DW_TRY(dw_shop_get(call, &d->shop));
    DW_TRY(dw_service_get(call, &d->service));
    DW_TRY(dw_zone_load(d->shop.zone, call->arena, &d->zone, call->err));
    DW_TRY(dw_expected_open(call, &d->shop, &d->expected));
    d->today = d->expected.today;
    DW_TRY(dw_rows_get(call, "outlet", &dw_outlet_noun, NULL, 0, "id",
                       &d->outlets, &d->outlets_count));
    DW_TRY(dw_rows_get(call, "product", &dw_product_noun, NULL, 0,
                       "position, id", &d->products, &d->products_count));
    DW_TRY(dw_rows_get(call, "drop_day", &dw_drop_day_noun, NULL, 0, "id",
                       &d->days, &d->days_count));
    DW_TRY(dw_store_orders_of_days(call->store, from_day, to_day, call->arena,
                                   &d->orders, &d->orders_count, call->err));
    DW_TRY(dw_store_drops_of_days(call->store, from_day, to_day, call->arena,
                                  &d->made, &d->made_count, call->err));
    return dw_stacks_left(call, &d->stacks, &d->stacks_count);
}

static const dw_drop_day *day_of(const desk *d, int64_t outlet_id, int64_t day)
{
    for (size_t i = 0; i < d->days_count; i++)
        if (d->days[i].outlet_id == outlet_id &&
            d->days[i].weekday == dw_weekday(day))
            return &d->days[i];
    return NULL;
}

static const dw_product *product_of(const desk *d, int64_t id)
{
    for (size_t i = 0; i < d->products_count; i++)
        if (d->products[i].id == id)
            return &d->products[i];
    return NULL;
}

static int64_t boxes_of(int64_t balls, int64_t per_box)
{
    return (balls + per_box - 1) / per_box;
}

/* ---- what is wanted ------------------------------------------------------ */

/* What it sells from this drop until the next one. */
static dw_status expect(desk *d, int64_t product_id, int64_t outlet_id,
                        int64_t day, int64_t *wanted)
{
    double balls = 0;
    for (int64_t at = day; at < day + EXPECT_DAYS_MOST; at++) {
        dw_expected_basis basis;
        double one;
        if (at > day && day_of(d, outlet_id, at))
            break;
        DW_TRY(dw_expected_balls(&d->expected, product_id, outlet_id, at, &one,
                                 &basis));
        balls += one;
    }
    *wanted = llround(balls);
    return DW_OK;
}

static dw_drop_piece *add_piece(desk *d, dw_drop *drop, int64_t product_id)
{
    const dw_product *product = product_of(d, product_id);
    for (size_t i = 0; i < drop->pieces_count; i++)
        if (drop->pieces[i].product_id == product_id)
            return &drop->pieces[i];
    dw_drop_piece *piece = &drop->pieces[drop->pieces_count++];
    *piece = (dw_drop_piece){.product_id = product_id,
                             .balls_per_box = product->balls_per_box,
                             .name = product->name};
    return piece;
}

static dw_status set_wanted(desk *d, dw_drop *drop)
{
    const dw_outlet_order *order = NULL;
    dw_outlet_order_line *lines;
    size_t n = 0;
    for (size_t i = 0; i < d->orders_count; i++)
        if (d->orders[i].day == drop->day &&
            d->orders[i].outlet_id == drop->outlet_id)
            order = &d->orders[i];
    if (order) {
        drop->ordered = true;
        drop->late = order->late;
        drop->placed_ms = order->placed_ms;
        drop->order_note = order->note;
        DW_TRY(dw_rows_get(d->call, "outlet_order_line",
                           &dw_outlet_order_line_noun, "order_id", order->id,
                           "id", &lines, &n));
    }
    for (size_t i = 0; i < d->products_count; i++) {
        int64_t product_id = d->products[i].id, wanted = 0;
        for (size_t j = 0; j < n; j++)
            if (lines[j].product_id == product_id)
                wanted = lines[j].balls;
        if (!order && d->products[i].here && drop->day >= d->today)
            DW_TRY(expect(d, product_id, drop->outlet_id, drop->day, &wanted));
        if (wanted == 0)
            continue;
        dw_drop_piece *piece = add_piece(d, drop, product_id);
        piece->wanted = wanted;
        piece->ordered = order != NULL;
    }
    return DW_OK;
}

/* ---- what went out ------------------------------------------------------- */

static dw_status batch_number(desk *d, int64_t stack_id, int64_t *number)
{
    dw_stack stack;
    dw_batch_row batch;
    *number = 0;
    if (stack_id == 0)
        return DW_OK;
    DW_TRY(dw_row_get(d->call, "stack", &dw_stack_noun, stack_id, "stack_id",
                      &stack));
    if (stack.batch_id == 0)
        return DW_OK;
    DW_TRY(dw_row_get(d->call, "batch", &dw_batch_noun, stack.batch_id,
                      "batch_id", &batch));
    *number = batch.number;
    return DW_OK;
}

static dw_status add_part(desk *d, dw_drop_piece *piece, dw_drop_part part,
                          size_t most)
{
    if (!piece->parts)
        piece->parts = DW_NEW_ARRAY(d->call->arena, dw_drop_part, most);
    if (!piece->parts)
        return no_room(d->call);
    DW_TRY(batch_number(d, part.stack_id, &part.number));
    piece->parts[piece->parts_count++] = part;
    piece->balls += part.balls;
    piece->boxes += part.boxes;
    return DW_OK;
}

static int64_t last_day_of(const desk *d, int64_t product_id,
                           int64_t mixing_day)
{
    dw_cold_days days = dw_product_days(&d->shop, product_of(d, product_id));
    return mixing_day + days.last_day;
}

static dw_status set_made(desk *d, const dw_drop_made *made, dw_drop *drop)
{
    dw_drop_line *lines;
    dw_box_move *boxes;
    size_t n, moves;
    drop->drop_id = made->id;
    drop->state = made->arrived_ms ? DW_DROP_ARRIVED : DW_DROP_LOADED;
    drop->loaded_ms = made->loaded_ms;
    drop->arrived_ms = made->arrived_ms;
    drop->note = made->note;
    drop->has_door_c = made->has_door_c;
    drop->door_c = made->door_c;
    drop->door_warm = made->has_door_c && made->door_c > drop->door_most_c;
    DW_TRY(dw_rows_get(d->call, "drop_line", &dw_drop_line_noun, "drop_id",
                       made->id, "id", &lines, &n));
    for (size_t i = 0; i < n; i++) {
        const dw_drop_line *line = &lines[i];
        dw_drop_piece *piece = add_piece(d, drop, line->product_id);
        DW_TRY(add_part(
            d, piece,
            (dw_drop_part){line->id, line->stack_id, 0, line->mixing_day,
                           last_day_of(d, line->product_id, line->mixing_day) -
                               drop->day + 1,
                           line->balls, line->boxes, line->refused,
                           line->credited, line->reason},
            n));
    }
    DW_TRY(dw_rows_get(d->call, "box_move", &dw_box_move_noun, "drop_id",
                       made->id, "id", &boxes, &moves));
    for (size_t i = 0; i < moves; i++) {
        drop->boxes_out += boxes[i].boxes_out;
        drop->boxes_back += boxes[i].boxes_back;
    }
    return DW_OK;
}

/* ---- what is allotted ---------------------------------------------------- */

/* The product's stacks as lots of that day; `of` says which stack each is. Made
 * the same day is not cold yet. */
static size_t lots_on(const desk *d, int64_t product_id, int64_t day,
                      dw_allot_lot *lots, dw_stack_left **of)
{
    size_t n = 0;
    for (size_t i = 0; i < d->stacks_count && n < DW_ALLOT_LOTS_MOST; i++) {
        dw_stack_left *left = &d->stacks[i];
        const dw_stack *stack = &left->stack;
        int64_t last = stack->id
                           ? stack->last_day
                           : last_day_of(d, product_id, stack->mixing_day);
        if (stack->product_id != product_id || stack->mixing_day >= day ||
            last < day || left->left == 0)
            continue;
        of[n] = left;
        lots[n++] = (dw_allot_lot){last - day + 1, left->left};
    }
    return n;
}

/* One product to all drops of the day that are still to be loaded. */
static dw_status allot_product(desk *d, int64_t product_id, dw_drop *drops,
                               size_t count)
{
    dw_allot_lot lots[DW_ALLOT_LOTS_MOST];
    dw_stack_left *of[DW_ALLOT_LOTS_MOST];
    dw_allot_outlet outlets[DW_ALLOT_OUTLETS_MOST];
    dw_drop_piece *pieces[DW_ALLOT_OUTLETS_MOST];
    dw_allot_ask ask = {
        .rule = d->service.short_rule, .lots = lots, .outlets = outlets};
    dw_allot_reply got;
    for (size_t i = 0; i < count; i++)
        for (size_t j = 0; j < drops[i].pieces_count && !drops[i].drop_id; j++)
            if (drops[i].pieces[j].product_id == product_id &&
                ask.outlets_count < DW_ALLOT_OUTLETS_MOST) {
                pieces[ask.outlets_count] = &drops[i].pieces[j];
                outlets[ask.outlets_count++] =
                    (dw_allot_outlet){.promised_days = drops[i].promised_days,
                                      .units = drops[i].pieces[j].wanted,
                                      .late = drops[i].late};
            }
    ask.lots_count = lots_on(d, product_id, drops[0].day, lots, of);
    DW_TRY(dw_allot_units(&ask, d->call->arena, &got, d->call->err));
    for (size_t i = 0; i < got.parts_count; i++) {
        const dw_allot_part *part = &got.parts[i];
        dw_drop_piece *piece = pieces[part->outlet];
        const dw_stack *stack = &of[part->lot]->stack;
        of[part->lot]->left -= part->units;
        DW_TRY(add_part(d, piece,
                        (dw_drop_part){.stack_id = stack->id,
                                       .mixing_day = stack->mixing_day,
                                       .days_left = lots[part->lot].days_left,
                                       .balls = part->units,
                                       .boxes = boxes_of(part->units,
                                                         piece->balls_per_box)},
                        got.parts_count));
    }
    for (size_t i = 0; i < ask.outlets_count; i++)
        pieces[i]->short_of = got.outlets[i].short_of;
    return DW_OK;
}

static dw_status allot_day(desk *d, dw_drop *drops, size_t count)
{
    for (size_t i = 0; i < count; i++)
        drops[i].allotted = !drops[i].drop_id;
    for (size_t i = 0; i < d->products_count; i++)
        DW_TRY(allot_product(d, d->products[i].id, drops, count));
    return DW_OK;
}

/* ---- days ---------------------------------------------------------------- */

static const dw_drop_made *made_of(const desk *d, int64_t outlet_id,
                                   int64_t day)
{
    for (size_t i = 0; i < d->made_count; i++)
        if (d->made[i].outlet_id == outlet_id && d->made[i].day == day)
            return &d->made[i];
    return NULL;
}

static dw_status add_drop(desk *d, const dw_outlet *outlet, int64_t day)
{
    const dw_drop_day *planned = day_of(d, outlet->id, day);
    const dw_drop_made *made = made_of(d, outlet->id, day);
    if (!planned && !made)
        return DW_OK;
    if (d->out->drops_count == d->room)
        return dw_fail(d->call->err, DW_E_TOO_LARGE, "drops", NULL);
    dw_drop *drop = &d->out->drops[d->out->drops_count++];
    *drop = (dw_drop){.day = day,
                      .outlet_id = outlet->id,
                      .outlet = outlet->name,
                      .promised_days = outlet->has_promised_days
                                           ? outlet->promised_days
                                           : d->service.promised_days,
                      .door_most_c = d->service.door_most_c};
    drop->pieces =
        DW_NEW_ARRAY(d->call->arena, dw_drop_piece, d->products_count + 1);
    if (!drop->pieces)
        return no_room(d->call);
    drop->at_ms = made ? made->loaded_ms : 0;
    if (planned) {
        drop->at_ms = dw_zone_utc_ms(
            d->zone, day * DAY_MS + planned->at_minute * MINUTE_MS);
        drop->cutoff_ms = drop->at_ms - planned->cutoff_minutes * MINUTE_MS;
    }
    drop->state =
        d->call->now_ms > drop->cutoff_ms ? DW_DROP_CLOSED : DW_DROP_OPEN;
    DW_TRY(set_wanted(d, drop));
    return made ? set_made(d, made, drop) : DW_OK;
}

static int by_time(const void *a, const void *b)
{
    const dw_drop *left = a, *right = b;
    if (left->at_ms != right->at_ms)
        return left->at_ms < right->at_ms ? -1 : 1;
    return (left->outlet_id > right->outlet_id) -
           (left->outlet_id < right->outlet_id);
}

static dw_status add_day(desk *d, int64_t day)
{
    dw_day_people people;
    size_t before = d->out->drops_count;
    DW_TRY(dw_day_people_read(d->call, &d->shop, day, &people));
    for (size_t i = 0; i < d->outlets_count; i++)
        if (!people.closed || made_of(d, d->outlets[i].id, day))
            DW_TRY(add_drop(d, &d->outlets[i], day));
    size_t added = d->out->drops_count - before;
    if (day >= d->today && day <= d->today + ALLOT_DAYS && added > 0)
        DW_TRY(allot_day(d, d->out->drops + before, added));
    qsort(d->out->drops + before, added, sizeof(dw_drop), by_time);
    return DW_OK;
}

/* All shops are read, for they share what is there; then one's drops stay. */
static void keep_one(dw_drops *out, int64_t from_day, int64_t outlet_id)
{
    size_t kept = 0;
    for (size_t i = 0; i < out->drops_count; i++)
        if (out->drops[i].day >= from_day &&
            (outlet_id == 0 || out->drops[i].outlet_id == outlet_id))
            out->drops[kept++] = out->drops[i];
    out->drops_count = kept;
    kept = 0;
    for (size_t i = 0; i < out->owes_count; i++)
        if (outlet_id == 0 || out->owes[i].outlet_id == outlet_id)
            out->owes[kept++] = out->owes[i];
    out->owes_count = kept;
}

dw_status dw_drops_read(dw_call *call, int64_t from_day, int64_t days,
                        int64_t outlet_id, dw_drops *out)
{
    desk d = {.call = call, .out = out};
    int64_t today;
    DW_TRY(dw_today(call, &today));
    if (from_day == 0)
        from_day = today;
    /* what goes out today is not there tomorrow */
    int64_t first = from_day > today ? today : from_day;
    int64_t last = from_day + days - 1;
    *out = (dw_drops){.from_day = from_day, .today = today};
    DW_TRY(open_desk(&d, first, last));
    out->short_rule = d.service.short_rule;
    d.room = (size_t)(last - first + 1) * (d.outlets_count + 1);
    out->drops = DW_NEW_ARRAY(call->arena, dw_drop, d.room);
    if (!out->drops)
        return no_room(call);
    for (int64_t day = first; day <= last; day++)
        DW_TRY(add_day(&d, day));
    DW_TRY(dw_store_outlets_owe(call->store, call->arena, &out->owes,
                                &out->owes_count, call->err));
    keep_one(out, from_day, outlet_id);
    return DW_OK;
}

dw_status dw_drop_find(dw_call *call, int64_t day, int64_t outlet_id,
                       dw_drop *out)
{
    dw_drops all;
    char text[24];
    DW_TRY(dw_drops_read(call, day, 1, outlet_id, &all));
    if (all.drops_count > 0) {
        *out = all.drops[0];
        return DW_OK;
    }
    dw_text_number(text, sizeof text, (double)day, 9);
    return dw_fail_says(call->err, DW_E_NOT_FOUND, "day", text,
                        DW_MSG("has no drop to this shop"));
}
