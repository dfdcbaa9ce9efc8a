/* What the shop has taught: each number before and after, the readings behind
 * it, and leaving some of them out. */
#include "app/taught.h"

#include "doughwright/say.h"

#define ID_LAST 9007199254740991.0

/* ---- learn.shop ---------------------------------------------------------- */

typedef struct told_all {
    dw_told *lessons;
    size_t lessons_count;
} told_all;
static const dw_field told_all_fields[] = {
    DW_F_MANY_OPT(told_all, lessons, &dw_told_shape, 3, "stack, yeast, room"),
};
static const dw_shape told_all_shape =
    DW_SHAPE("told_all", told_all, told_all_fields, "what the shop has taught");

static dw_status shop_run(dw_call *call, const void *request, void *reply)
{
    (void)request;
    told_all *all = reply;
    enum { LESSONS = DW_LESSON_ROOM + 1 };
    dw_shop shop;
    DW_TRY(dw_shop_get(call, &shop));
    all->lessons = DW_NEW_ARRAY(call->arena, dw_told, LESSONS);
    if (!all->lessons)
        return dw_fail(call->err, DW_E_ROOM, "lessons", NULL);
    for (int i = 0; i < LESSONS; i++)
        DW_TRY(dw_taught_tell(call, i, &all->lessons[i]));
    all->lessons_count = LESSONS;
    return DW_OK;
}

/* ---- learn.used ---------------------------------------------------------- */

typedef struct used_ask {
    bool has_yeast;
    int yeast;
    int64_t formula_id;
} used_ask;
static const dw_field used_ask_fields[] = {
    DW_F_CHOICE_OPT(used_ask, yeast, dw_line_kind_words,
                    "which yeast; not told: the usual"),
    DW_F_ID(used_ask, formula_id, "in which formula; 0: in any"),
};
static const dw_shape used_ask_shape =
    DW_SHAPE("used_ask", used_ask, used_ask_fields, "a dough to reckon with");

/* Ready to be put into piece.life and its like. */
typedef struct used {
    double open_w_per_m2_k, closed_w_per_m2_k;
    dw_ferment_model model;
    dw_life_range *ranges;
    size_t ranges_count;
    bool has_air_c, has_recover_h;
    double air_c, recover_h;
    dw_taught_row *values;
    size_t values_count;
} used;
static const dw_field used_fields[] = {
    DW_F_REAL(used, open_w_per_m2_k, "W/m2K", 0, 200, "of an open stack"),
    DW_F_REAL(used, closed_w_per_m2_k, "W/m2K", 0, 200, "of a closed stack"),
    DW_F_ONE(used, model, &dw_ferment_model_shape, "of the yeast"),
    DW_F_MANY_OPT(used, ranges, &dw_life_range_shape, DW_TAUGHT_RANGES,
                  "how well it is known, when it was learned"),
    DW_F_REAL_OPT(used, air_c, "degC", -30, 60, "of the cold room, learned"),
    DW_F_REAL_OPT(used, recover_h, "h", 0, 100,
                  "its time constant of cooling down again, learned"),
    DW_F_MANY_OPT(used, values, &dw_taught_noun, 10,
                  "what of this was learned, and from how many readings"),
};
static const dw_shape used_shape =
    DW_SHAPE("used", used, used_fields, "what to reckon with in this shop");

static void tell_row(const dw_taught_row *row, used *told)
{
    if (row)
        told->values[told->values_count++] = *row;
}

static dw_status used_run(dw_call *call, const void *request, void *reply)
{
    const used_ask *ask = request;
    used *told = reply;
    dw_shop shop;
    dw_taught taught;
    dw_taught_model model;
    DW_TRY(dw_shop_get(call, &shop));
    DW_TRY(dw_taught_read(call, &taught));
    dw_yeast_key key = {.yeast = ask->has_yeast ? ask->yeast : -1,
                        .formula_id = ask->formula_id};
    dw_taught_model_of(&taught, &key, &model);
    dw_stack_h h = dw_taught_h(&taught, &shop);
    const dw_taught_row *air = dw_taught_find(&taught, DW_TAUGHT_AIR);
    const dw_taught_row *constant =
        dw_taught_find(&taught, DW_TAUGHT_TIME_CONSTANT);
    *told = (used){.open_w_per_m2_k = h.open_w_per_m2_k,
                   .closed_w_per_m2_k = h.closed_w_per_m2_k,
                   .model = model.model,
                   .has_air_c = air != NULL,
                   .has_recover_h = constant != NULL,
                   .air_c = air ? air->mean : 0,
                   .recover_h = constant ? constant->mean : 0};
    told->ranges = DW_NEW_ARRAY(call->arena, dw_life_range, DW_TAUGHT_RANGES);
    told->values = DW_NEW_ARRAY(call->arena, dw_taught_row, 10);
    if (!told->ranges || !told->values)
        return dw_fail(call->err, DW_E_ROOM, "values", NULL);
    told->ranges_count = model.ranges_count;
    for (size_t i = 0; i < model.ranges_count; i++)
        told->ranges[i] = model.ranges[i];
    tell_row(dw_taught_find(&taught, DW_TAUGHT_OFFSET_H), told);
    tell_row(dw_taught_find(&taught, DW_TAUGHT_CLOSED_H), told);
    tell_row(model.activity, told);
    tell_row(model.f_Tmin, told);
    tell_row(dw_taught_yeast(&taught, DW_TAUGHT_COLD_RATIO, &key), told);
    tell_row(air, told);
    tell_row(constant, told);
    return DW_OK;
}

/* ---- learn.leave_out ----------------------------------------------------- */

typedef struct leave_given {
    int what;
    int64_t of_id;
    bool out;
    const char *reason;
} leave_given;
static const dw_field leave_given_fields[] = {
    DW_F_CHOICE(leave_given, what, dw_leave_words,
                "a reading, a verdict, a cup, one look at it, or a whole "
                "lesson"),
    DW_F_ID(leave_given, of_id, "its row; 0 with a whole lesson"),
    DW_F_YES(leave_given, out, true, "false: take it back in"),
    DW_F_TEXT_OPT(leave_given, reason, 200, "why it is left out"),
};
static const dw_shape leave_given_shape = DW_SHAPE(
    "leave_given", leave_given, leave_given_fields, "what not to learn from");

/* Is there such a thing? Which lesson hangs on it. */
static dw_status find_thing(dw_call *call, const leave_given *given,
                            int *lesson)
{
    dw_reading_row reading;
    dw_verdict verdict;
    dw_cup cup;
    dw_cup_reading look;
    *lesson = DW_LESSON_YEAST;
    switch (given->what) {
    case DW_LEAVE_READING:
        DW_TRY(dw_row_get(call, "reading", &dw_reading_noun, given->of_id,
                          "of_id", &reading));
        *lesson =
            reading.kind == DW_READ_COLD ? DW_LESSON_ROOM : DW_LESSON_STACK;
        return DW_OK;
    case DW_LEAVE_VERDICT:
        return dw_row_get(call, "verdict", &dw_verdict_noun, given->of_id,
                          "of_id", &verdict);
    case DW_LEAVE_CUP:
        return dw_row_get(call, "cup", &dw_cup_noun, given->of_id, "of_id",
                          &cup);
    case DW_LEAVE_CUP_READING:
        return dw_row_get(call, "cup_reading", &dw_cup_reading_noun,
                          given->of_id, "of_id", &look);
    case DW_LEAVE_STACK: *lesson = DW_LESSON_STACK; return DW_OK;
    case DW_LEAVE_ROOM: *lesson = DW_LESSON_ROOM; return DW_OK;
    default: return DW_OK;
    }
}

static dw_status leave_run(dw_call *call, const void *request, void *reply)
{
    const leave_given *given = request;
    int lesson;
    bool whole = given->what >= DW_LEAVE_STACK;
    if (whole && given->of_id != 0)
        return dw_fail_range(call->err, "of_id", (double)given->of_id, 0, 0);
    if (!whole && given->of_id == 0)
        return dw_fail(call->err, DW_E_MISSING, "of_id", NULL);
    DW_TRY(find_thing(call, given, &lesson));
    dw_left_out row = {.what = given->what,
                       .of_id = given->of_id,
                       .out = given->out,
                       .reason = given->reason,
                       .occurred_ms = call->occurred_ms,
                       .person_id = call->person_id};
    DW_TRY(dw_row_save(call, "left_out", &dw_left_out_noun, &row, &row.id));
    ((dw_made *)reply)->id = row.id;
    DW_TRY(dw_taught_learn(call, lesson));
    bool air = given->what == DW_LEAVE_READING && lesson == DW_LESSON_ROOM;
    return air ? dw_taught_learn(call, DW_LESSON_STACK) : DW_OK;
}

const dw_op dw_ops_taught[] = {
    {"learn.leave_out", DW_OP_WRITE, &leave_given_shape, &dw_made_shape,
     leave_run, "Leave a reading or a whole lesson out, or take it back in."},
    {"learn.shop", DW_OP_READ, &dw_nothing_shape, &told_all_shape, shop_run,
     "What the shop's readings have taught: before, after, and each reading."},
    {"learn.used", DW_OP_READ, &used_ask_shape, &used_shape, used_run,
     "What to reckon with here: learned where it is, else the usual."},
};
const size_t dw_ops_taught_count = DW_COUNT(dw_ops_taught);
