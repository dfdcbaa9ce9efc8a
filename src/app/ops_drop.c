/* Orders and drops: order.*, drop.*, drop_day.*, box.*. */
#include "app/drops.h"

#include "app/stacks.h"
#include "app/stock.h"
#include "doughwright/allot.h"
#include "doughwright/say.h"

/* ---- what is told -------------------------------------------------------- */

const char *const dw_drop_state_words[] = {"open", "closed", "loaded",
                                           "arrived", NULL};

static const dw_field part_fields[] = {
    DW_F_ID(dw_drop_part, line_id, "of the drop that went out; 0: allotted"),
    DW_F_ID(dw_drop_part, stack_id, "from which stack; 0: not known"),
    DW_F_WHOLE(dw_drop_part, number, "", 0, 1e9, "of its batch; 0: not known"),
    DW_F_WHOLE(dw_drop_part, mixing_day, "d", 0, 84100, "made when"),
    DW_F_WHOLE(dw_drop_part, days_left, "d", -84100, 84100,
               "on the day of the drop, it included"),
    DW_F_WHOLE(dw_drop_part, balls, "", 0, 1e6, "how many"),
    DW_F_WHOLE(dw_drop_part, boxes, "", 0, 1e6, "in how many boxes"),
    DW_F_WHOLE(dw_drop_part, refused, "", 0, 1e6, "balls, at the door"),
    DW_F_YES(dw_drop_part, credited, false, "and credited"),
    DW_F_TEXT_OPT(dw_drop_part, reason, 200, "why"),
};
static const dw_shape part_shape =
    DW_SHAPE("drop_part", dw_drop_part, part_fields, "balls of one stack");

static const dw_field piece_fields[] = {
    DW_F_ID(dw_drop_piece, product_id, "of what"),
    DW_F_TEXT(dw_drop_piece, name, 60, "what people call it"),
    DW_F_WHOLE(dw_drop_piece, balls_per_box, "", 1, 200, "in a box"),
    DW_F_WHOLE(dw_drop_piece, wanted, "", 0, 1e6, "balls"),
    DW_F_YES(dw_drop_piece, ordered, false, "else expected"),
    DW_F_WHOLE(dw_drop_piece, balls, "", 0, 1e6, "allotted, or sent"),
    DW_F_WHOLE(dw_drop_piece, boxes, "", 0, 1e6, "they are in"),
    DW_F_WHOLE(dw_drop_piece, short_of, "", 0, 1e6, "not to be had"),
    DW_F_MANY_OPT(dw_drop_piece, parts, &part_shape, 1000, "oldest first"),
};
static const dw_shape piece_shape =
    DW_SHAPE("drop_piece", dw_drop_piece, piece_fields, "a product of a drop");

static const dw_field drop_fields[] = {
    DW_F_WHOLE(dw_drop, day, "d", 0, 84100, "on which day"),
    DW_F_ID(dw_drop, outlet_id, "to whom"),
    DW_F_ID(dw_drop, drop_id, "0: not loaded"),
    DW_F_TEXT(dw_drop, outlet, 60, "to whom"),
    DW_F_MOMENT(dw_drop, at_ms, "planned"),
    DW_F_MOMENT(dw_drop, cutoff_ms, "orders close"),
    DW_F_CHOICE(dw_drop, state, dw_drop_state_words, "how far it is"),
    DW_F_YES(dw_drop, ordered, false, "else what it sells is expected"),
    DW_F_YES(dw_drop, late, false, "ordered after the cut-off"),
    DW_F_YES(dw_drop, allotted, false, "false: gone, or too far ahead"),
    DW_F_MOMENT(dw_drop, placed_ms, "the order came"),
    DW_F_WHOLE(dw_drop, promised_days, "d", 0, 60, "left at least"),
    DW_F_TEXT_OPT(dw_drop, order_note, 200, "of the order"),
    DW_F_TEXT_OPT(dw_drop, note, 400, "of the drop"),
    DW_F_MANY_OPT(dw_drop, pieces, &piece_shape, 1000, "in the shop's order"),
    DW_F_MOMENT(dw_drop, loaded_ms, "it left"),
    DW_F_MOMENT(dw_drop, arrived_ms, "it was handed over"),
    DW_F_WHOLE(dw_drop, boxes_out, "", 0, 1e6, "full"),
    DW_F_WHOLE(dw_drop, boxes_back, "", 0, 1e6, "empty, with it"),
    DW_F_REAL_OPT(dw_drop, door_c, "degC", -30, 40, "dough at the door"),
    DW_F_YES(dw_drop, door_warm, false, "warmer than the shop's limit"),
    DW_F_REAL(dw_drop, door_most_c, "degC", -30, 40, "that limit"),
};
const dw_shape dw_drop_shape =
    DW_SHAPE("drop", dw_drop, drop_fields, "dough that goes to a shop");

static const dw_field drops_fields[] = {
    DW_F_WHOLE(dw_drops, from_day, "d", 0, 84100, "first day"),
    DW_F_WHOLE(dw_drops, today, "d", 0, 84100, "business day"),
    DW_F_CHOICE(dw_drops, short_rule, dw_allot_rule_words,
                "who is short first"),
    DW_F_MANY_OPT(dw_drops, drops, &dw_drop_shape, 10000, "by day and time"),
    DW_F_MANY_OPT(dw_drops, owes, &dw_outlet_owes_shape, 1000, "by shop"),
};
const dw_shape dw_drops_shape =
    DW_SHAPE("drops", dw_drops, drops_fields, "the drops of some days");

/* ---- drop.list ----------------------------------------------------------- */

typedef struct list_asked {
    int64_t from_day, days, outlet_id;
} list_asked;
static const dw_field list_asked_fields[] = {
    DW_F_WHOLE_PRESET(list_asked, from_day, "d", 0, 84000, 0, "0: today"),
    DW_F_WHOLE_PRESET(list_asked, days, "", 1, 60, 7, "how many days"),
    DW_F_ID(list_asked, outlet_id, "one shop's own; 0: all"),
};
static const dw_shape list_asked_shape =
    DW_SHAPE("drops_asked", list_asked, list_asked_fields, "which drops");

static dw_status drop_list(dw_call *call, const void *request, void *reply)
{
    const list_asked *asked = request;
    dw_outlet outlet;
    if (asked->outlet_id)
        DW_TRY(dw_row_get(call, "outlet", &dw_outlet_noun, asked->outlet_id,
                          "outlet_id", &outlet));
    return dw_drops_read(call, asked->from_day, asked->days, asked->outlet_id,
                         reply);
}

/* ---- the week's drops ---------------------------------------------------- */

typedef struct week {
    dw_drop_day *rows;
    size_t rows_count;
} week;
static const dw_field week_fields[] = {
    DW_F_MANY_OPT(week, rows, &dw_drop_day_noun, 1000,
                  "one row a shop and weekday"),
};
static const dw_shape week_shape =
    DW_SHAPE("drop_week", week, week_fields, "the drops of every week");

static dw_status days_replace(dw_call *call, const void *request, void *reply)
{
    const week *given = request;
    (void)reply;
    DW_TRY(dw_store_clear(call->store, "drop_day", call->err));
    for (size_t i = 0; i < given->rows_count; i++) {
        dw_drop_day *row = &given->rows[i];
        dw_outlet outlet;
        DW_TRY(dw_row_get(call, "outlet", &dw_outlet_noun, row->outlet_id,
                          "rows.outlet_id", &outlet));
        for (size_t j = 0; j < i; j++)
            if (given->rows[j].outlet_id == row->outlet_id &&
                given->rows[j].weekday == row->weekday)
                return dw_fail_says(call->err, DW_E_CONFLICT, "rows",
                                    outlet.name,
                                    DW_MSG("has two drops on one weekday"));
        row->id = 0;
        DW_TRY(dw_row_save(call, "drop_day", &dw_drop_day_noun, row, NULL));
    }
    return DW_OK;
}

static dw_status days_list(dw_call *call, const void *request, void *reply)
{
    week *out = reply;
    (void)request;
    return dw_rows_get(call, "drop_day", &dw_drop_day_noun, NULL, 0,
                       "weekday, at_minute, outlet_id", &out->rows,
                       &out->rows_count);
}

/* ---- orders -------------------------------------------------------------- */

typedef struct order_given {
    int64_t outlet_id, day;
    dw_outlet_order_line *lines;
    size_t lines_count;
    const char *note;
} order_given;
static const dw_field order_given_fields[] = {
    DW_F_WHOLE(order_given, outlet_id, "", 1, 9007199254740991.0, "from whom"),
    DW_F_WHOLE(order_given, day, "d", 1, 84000, "for the drop of"),
    DW_F_MANY(order_given, lines, &dw_outlet_order_line_noun, 0, 200,
              "by product; none: nothing is wanted"),
    DW_F_TEXT_OPT(order_given, note, 200, "in words"),
};
static const dw_shape order_given_shape =
    DW_SHAPE("order_given", order_given, order_given_fields,
             "what a shop wants of a drop");

typedef struct order_taken {
    int64_t id, cutoff_ms;
    bool late;
} order_taken;
static const dw_field order_taken_fields[] = {
    DW_F_ID(order_taken, id, "the order"),
    DW_F_MOMENT(order_taken, cutoff_ms, "when orders close"),
    DW_F_YES(order_taken, late, false, "it came after that"),
};
static const dw_shape order_taken_shape =
    DW_SHAPE("order_taken", order_taken, order_taken_fields, "an order");

static dw_status check_order(dw_call *call, const order_given *given)
{
    for (size_t i = 0; i < given->lines_count; i++) {
        dw_product product;
        DW_TRY(dw_row_get(call, "product", &dw_product_noun,
                          given->lines[i].product_id, "lines.product_id",
                          &product));
        for (size_t j = 0; j < i; j++)
            if (given->lines[j].product_id == given->lines[i].product_id)
                return dw_fail_says(call->err, DW_E_CONFLICT, "lines",
                                    product.name, DW_MSG("stands there twice"));
    }
    return DW_OK;
}

/* The newest of a shop and day counts; a late one is taken, and said to be. */
static dw_status order_save(dw_call *call, const void *request, void *reply)
{
    const order_given *given = request;
    dw_outlet outlet;
    dw_drop drop;
    int64_t today;
    DW_TRY(dw_row_get(call, "outlet", &dw_outlet_noun, given->outlet_id,
                      "outlet_id", &outlet));
    DW_TRY(dw_today(call, &today));
    DW_TRY(dw_check_range(call->err, "day", (double)given->day, (double)today,
                          (double)today + 60));
    DW_TRY(dw_drop_find(call, given->day, given->outlet_id, &drop));
    if (drop.drop_id)
        return dw_fail_says(call->err, DW_E_CONFLICT, "day", NULL,
                            DW_MSG("has a drop that is loaded already"));
    DW_TRY(check_order(call, given));
    dw_outlet_order order = {.outlet_id = given->outlet_id,
                             .day = given->day,
                             .placed_ms = call->occurred_ms,
                             .late = call->occurred_ms > drop.cutoff_ms,
                             .person_id = call->person_id,
                             .note = given->note};
    DW_TRY(dw_row_save(call, "outlet_order", &dw_outlet_order_noun, &order,
                       &order.id));
    for (size_t i = 0; i < given->lines_count; i++) {
        given->lines[i].id = 0;
        given->lines[i].order_id = order.id;
        DW_TRY(dw_row_save(call, "outlet_order_line",
                           &dw_outlet_order_line_noun, &given->lines[i], NULL));
    }
    *(order_taken *)reply = (order_taken){order.id, drop.cutoff_ms, order.late};
    return DW_OK;
}

/* ---- loading ------------------------------------------------------------- */

typedef struct load_given {
    int64_t day, outlet_id;
    dw_drop_line *lines;
    size_t lines_count;
    const char *note;
} load_given;
static const dw_field load_line_fields[] = {
    DW_F_WHOLE(dw_drop_line, stack_id, "", 1, 9007199254740991.0,
               "from which stack"),
    DW_F_WHOLE(dw_drop_line, balls, "", 1, 100000, "how many"),
};
static const dw_shape load_line_shape =
    DW_SHAPE("load_line", dw_drop_line, load_line_fields, "balls of a stack");
static const dw_field load_given_fields[] = {
    DW_F_WHOLE_PRESET(load_given, day, "d", 0, 84000, 0, "0: today"),
    DW_F_WHOLE(load_given, outlet_id, "", 1, 9007199254740991.0, "to whom"),
    DW_F_MANY_OPT(load_given, lines, &load_line_shape, 400,
                  "what was loaded; none: what was allotted"),
    DW_F_TEXT_OPT(load_given, note, 400, "in words"),
};
static const dw_shape load_given_shape = DW_SHAPE(
    "load_given", load_given, load_given_fields, "a drop that is loaded");

/* Lines by allotment; counted balls of no known stack go too. */
static dw_status allotted_lines(dw_call *call, const dw_drop *drop,
                                dw_drop_line **lines, size_t *count)
{
    size_t n = 0;
    for (size_t i = 0; i < drop->pieces_count; i++)
        n += drop->pieces[i].parts_count;
    *lines = DW_NEW_ARRAY(call->arena, dw_drop_line, n + 1);
    *count = 0;
    if (!*lines)
        return dw_fail(call->err, DW_E_ROOM, "lines", NULL);
    for (size_t i = 0; i < drop->pieces_count; i++)
        for (size_t j = 0; j < drop->pieces[i].parts_count; j++) {
            const dw_drop_part *part = &drop->pieces[i].parts[j];
            (*lines)[(*count)++] =
                (dw_drop_line){.product_id = drop->pieces[i].product_id,
                               .stack_id = part->stack_id,
                               .mixing_day = part->mixing_day,
                               .balls = part->balls,
                               .boxes = part->boxes};
        }
    return DW_OK;
}

/* Lines that somebody told: no more than the stack has by counts and taps. */
static dw_status told_lines(dw_call *call, const load_given *given)
{
    dw_stack_left *left;
    size_t n;
    DW_TRY(dw_stacks_counted(call, &left, &n));
    for (size_t i = 0; i < given->lines_count; i++) {
        dw_drop_line *line = &given->lines[i];
        dw_stack stack;
        dw_product product;
        int64_t there = 0;
        DW_TRY(dw_row_get(call, "stack", &dw_stack_noun, line->stack_id,
                          "lines.stack_id", &stack));
        DW_TRY(dw_row_get(call, "product", &dw_product_noun, stack.product_id,
                          "product_id", &product));
        for (size_t j = 0; j < n; j++)
            if (left[j].stack.id == line->stack_id)
                there = left[j].left;
        for (size_t j = 0; j < i; j++)
            if (given->lines[j].stack_id == line->stack_id)
                there -= given->lines[j].balls;
        DW_TRY(dw_check_range(call->err, "lines.balls", (double)line->balls, 1,
                              (double)there));
        line->id = 0;
        line->product_id = stack.product_id;
        line->mixing_day = stack.mixing_day;
        line->boxes =
            (line->balls + product.balls_per_box - 1) / product.balls_per_box;
    }
    return DW_OK;
}

static dw_status write_lines(dw_call *call, const dw_drop_made *made,
                             dw_drop_line *lines, size_t count)
{
    int64_t boxes = 0;
    for (size_t i = 0; i < count; i++) {
        dw_drop_line *line = &lines[i];
        dw_stack_move move = {.stack_id = line->stack_id,
                              .kind = DW_MOVE_SEND,
                              .balls = line->balls,
                              .occurred_ms = call->occurred_ms,
                              .person_id = call->person_id};
        line->drop_id = made->id;
        boxes += line->boxes;
        DW_TRY(dw_row_save(call, "drop_line", &dw_drop_line_noun, line, NULL));
        if (line->stack_id)
            DW_TRY(dw_row_save(call, "stack_move", &dw_stack_move_noun, &move,
                               NULL));
    }
    dw_box_move move = {.outlet_id = made->outlet_id,
                        .drop_id = made->id,
                        .boxes_out = boxes,
                        .occurred_ms = call->occurred_ms,
                        .person_id = call->person_id};
    return dw_row_save(call, "box_move", &dw_box_move_noun, &move, NULL);
}

static dw_status drop_load(dw_call *call, const void *request, void *reply)
{
    const load_given *given = request;
    dw_drop_line *lines = given->lines;
    size_t count = given->lines_count;
    dw_drop drop;
    int64_t day = given->day;
    if (day == 0)
        DW_TRY(dw_today(call, &day));
    DW_TRY(dw_drop_find(call, day, given->outlet_id, &drop));
    if (drop.drop_id)
        return dw_fail_says(call->err, DW_E_CONFLICT, "day", NULL,
                            DW_MSG("has a drop that is loaded already"));
    if (count > 0)
        DW_TRY(told_lines(call, given));
    else
        DW_TRY(allotted_lines(call, &drop, &lines, &count));
    if (count == 0)
        return dw_fail_says(call->err, DW_E_CONFLICT, "lines", NULL,
                            DW_MSG("has nothing to load: no ball is there that "
                                   "keeps the days promised"));
    dw_drop_made made = {.day = day,
                         .outlet_id = given->outlet_id,
                         .loaded_ms = call->occurred_ms,
                         .person_id = call->person_id,
                         .note = given->note};
    DW_TRY(dw_row_save(call, "drop_made", &dw_drop_made_noun, &made, &made.id));
    DW_TRY(write_lines(call, &made, lines, count));
    return dw_drop_find(call, day, given->outlet_id, reply);
}

/* ---- at the door --------------------------------------------------------- */

typedef struct refusal {
    int64_t line_id, balls;
    bool credited;
    const char *reason;
} refusal;
static const dw_field refusal_fields[] = {
    DW_F_WHOLE(refusal, line_id, "", 1, 9007199254740991.0, "which line"),
    DW_F_WHOLE(refusal, balls, "", 1, 100000, "how many"),
    DW_F_YES(refusal, credited, true, "they are not paid for"),
    DW_F_TEXT_OPT(refusal, reason, 200, "why"),
};
static const dw_shape refusal_shape = DW_SHAPE(
    "drop_refusal", refusal, refusal_fields, "balls that were refused");

typedef struct arrival {
    int64_t drop_id, boxes_back;
    bool has_door_c;
    double door_c;
    refusal *refused;
    size_t refused_count;
    const char *note;
} arrival;
static const dw_field arrival_fields[] = {
    DW_F_WHOLE(arrival, drop_id, "", 1, 9007199254740991.0, "which drop"),
    DW_F_REAL_OPT(arrival, door_c, "degC", -30, 40, "dough at the door"),
    DW_F_WHOLE_PRESET(arrival, boxes_back, "", 0, 10000, 0, "empty"),
    DW_F_MANY_OPT(arrival, refused, &refusal_shape, 400, "by line"),
    DW_F_TEXT_OPT(arrival, note, 400, "in words"),
};
static const dw_shape arrival_shape = DW_SHAPE(
    "drop_arrival", arrival, arrival_fields, "what was said at the door");

static dw_status refuse(dw_call *call, int64_t drop_id, const refusal *one)
{
    dw_drop_line line;
    DW_TRY(dw_row_get(call, "drop_line", &dw_drop_line_noun, one->line_id,
                      "refused.line_id", &line));
    if (line.drop_id != drop_id)
        return dw_fail_says(call->err, DW_E_CONFLICT, "refused.line_id", NULL,
                            DW_MSG("is of another drop"));
    DW_TRY(dw_check_range(call->err, "refused.balls", (double)one->balls, 1,
                          (double)line.balls));
    line.refused = one->balls;
    line.credited = one->credited;
    line.reason = one->reason;
    return dw_row_save(call, "drop_line", &dw_drop_line_noun, &line, NULL);
}

static dw_status box_write(dw_call *call, int64_t outlet_id, int64_t drop_id,
                           int64_t boxes)
{
    dw_box_move move = {.outlet_id = outlet_id,
                        .drop_id = drop_id,
                        .boxes_back = boxes,
                        .occurred_ms = call->occurred_ms,
                        .person_id = call->person_id};
    return dw_row_save(call, "box_move", &dw_box_move_noun, &move, NULL);
}

static dw_status drop_arrive(dw_call *call, const void *request, void *reply)
{
    const arrival *given = request;
    dw_drop_made made;
    DW_TRY(dw_row_get(call, "drop_made", &dw_drop_made_noun, given->drop_id,
                      "drop_id", &made));
    if (made.arrived_ms)
        return dw_fail_says(call->err, DW_E_CONFLICT, "drop_id", NULL,
                            DW_MSG("was handed over already"));
    made.arrived_ms = call->occurred_ms;
    made.has_door_c = given->has_door_c;
    made.door_c = given->door_c;
    if (given->note)
        made.note = given->note;
    DW_TRY(dw_row_save(call, "drop_made", &dw_drop_made_noun, &made, NULL));
    for (size_t i = 0; i < given->refused_count; i++)
        DW_TRY(refuse(call, made.id, &given->refused[i]));
    if (given->boxes_back > 0)
        DW_TRY(box_write(call, made.outlet_id, made.id, given->boxes_back));
    return dw_drop_find(call, made.day, made.outlet_id, reply);
}

typedef struct boxes_given {
    int64_t outlet_id, boxes;
} boxes_given;
static const dw_field boxes_given_fields[] = {
    DW_F_WHOLE(boxes_given, outlet_id, "", 1, 9007199254740991.0, "whose"),
    DW_F_WHOLE(boxes_given, boxes, "", 1, 10000, "came back empty"),
};
static const dw_shape boxes_given_shape = DW_SHAPE(
    "boxes_back", boxes_given, boxes_given_fields, "boxes that came back");

static dw_status box_back(dw_call *call, const void *request, void *reply)
{
    const boxes_given *given = request;
    dw_outlet outlet;
    dw_outlet_owes *owes;
    size_t n;
    DW_TRY(dw_row_get(call, "outlet", &dw_outlet_noun, given->outlet_id,
                      "outlet_id", &outlet));
    DW_TRY(box_write(call, given->outlet_id, 0, given->boxes));
    DW_TRY(
        dw_store_outlets_owe(call->store, call->arena, &owes, &n, call->err));
    for (size_t i = 0; i < n; i++)
        if (owes[i].outlet_id == given->outlet_id)
            *(dw_outlet_owes *)reply = owes[i];
    return DW_OK;
}

const dw_op dw_ops_drop[] = {
    {"box.back", DW_OP_WRITE, &boxes_given_shape, &dw_outlet_owes_shape,
     box_back, "Empty boxes came back from a shop."},
    {"drop.arrive", DW_OP_WRITE, &arrival_shape, &dw_drop_shape, drop_arrive,
     "A drop was handed over: its temperature, what was refused, empties."},
    {"drop.list", DW_OP_READ, &list_asked_shape, &dw_drops_shape, drop_list,
     "The drops of some days, what each shop gets and owes; one shop's own."},
    {"drop.load", DW_OP_WRITE, &load_given_shape, &dw_drop_shape, drop_load,
     "A drop is loaded: its balls leave their stacks, its boxes are lent."},
    {"drop_day.list", DW_OP_READ, &dw_nothing_shape, &week_shape, days_list,
     "The drops of every week."},
    {"drop_day.replace", DW_OP_WRITE, &week_shape, &dw_nothing_shape,
     days_replace, "Write the drops of every week and their cut-offs."},
    {"order.save", DW_OP_WRITE, &order_given_shape, &order_taken_shape,
     order_save, "What a shop wants of a drop; says when it is late."},
};
const size_t dw_ops_drop_count = DW_COUNT(dw_ops_drop);
