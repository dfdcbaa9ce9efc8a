/* How the shop serves, and who is there: service.*, shift.*. */
#include "app/shifts.h"
#include "app/stock.h"

/* ---- service ------------------------------------------------------------- */

static dw_status service_get(dw_call *call, const void *request, void *reply)
{
    (void)request;
    return dw_service_get(call, reply);
}

static dw_status service_save(dw_call *call, const void *request, void *reply)
{
    dw_service service = *(const dw_service *)request, before;
    service.id = 1;
    ((dw_made *)reply)->id = 1;
    dw_status status = dw_store_get(call->store, "service", &dw_service_noun, 1,
                                    call->arena, &before, call->err);
    if (status == DW_E_NOT_FOUND)
        return dw_store_insert(call->store, "service", &dw_service_noun,
                               &service, NULL, call->err);
    DW_TRY(status);
    return dw_store_update(call->store, "service", &dw_service_noun, &service,
                           call->err);
}

/* ---- the week's shifts --------------------------------------------------- */

typedef struct week {
    dw_shift *rows;
    size_t rows_count;
    dw_shift_change *changes; /* shift.list: from today on */
    size_t changes_count;
} week;
static const dw_field week_fields[] = {
    DW_F_MANY_OPT(week, rows, &dw_shift_noun, 1000, "one row a shift"),
};
static const dw_shape week_shape =
    DW_SHAPE("shift_week", week, week_fields, "the shifts of every week");
static const dw_field list_fields[] = {
    DW_F_MANY_OPT(week, rows, &dw_shift_noun, 1000, "of every week"),
    DW_F_MANY_OPT(week, changes, &dw_shift_change_noun, 10000,
                  "days that are unlike it, from today on"),
};
static const dw_shape list_shape =
    DW_SHAPE("shift_list", week, list_fields, "who works when");

static dw_status check_times(dw_call *call, const char *field,
                             int64_t from_minute, int64_t to_minute)
{
    return dw_check_range(call->err, field, (double)to_minute,
                          (double)from_minute + 1, (double)from_minute + 1440);
}

static dw_status shift_replace(dw_call *call, const void *request, void *reply)
{
    const week *given = request;
    (void)reply;
    DW_TRY(dw_store_clear(call->store, "shift", call->err));
    for (size_t i = 0; i < given->rows_count; i++) {
        dw_shift *row = &given->rows[i];
        dw_person person;
        DW_TRY(dw_row_get(call, "person", &dw_person_noun, row->person_id,
                          "rows.person_id", &person));
        DW_TRY(check_times(call, "rows.to_minute", row->from_minute,
                           row->to_minute));
        row->id = 0;
        DW_TRY(dw_row_save(call, "shift", &dw_shift_noun, row, NULL));
    }
    return DW_OK;
}

static dw_status shift_list(dw_call *call, const void *request, void *reply)
{
    week *out = reply;
    int64_t today;
    (void)request;
    DW_TRY(dw_today(call, &today));
    DW_TRY(dw_rows_get(call, "shift", &dw_shift_noun, NULL, 0,
                       "weekday, from_minute, id", &out->rows,
                       &out->rows_count));
    DW_TRY(dw_rows_get(call, "shift_change", &dw_shift_change_noun, NULL, 0,
                       "day, id", &out->changes, &out->changes_count));
    while (out->changes_count > 0 && out->changes[0].day < today) {
        out->changes++;
        out->changes_count--;
    }
    return DW_OK;
}

/* ---- days that are unlike it --------------------------------------------- */

static dw_status change_save(dw_call *call, const void *request, void *reply)
{
    const dw_shift_change *given = request;
    dw_person person;
    if (given->person_id)
        DW_TRY(dw_row_get(call, "person", &dw_person_noun, given->person_id,
                          "person_id", &person));
    if (given->here)
        DW_TRY(check_times(call, "to_minute", given->from_minute,
                           given->to_minute));
    return dw_row_save(call, "shift_change", &dw_shift_change_noun, given,
                       &((dw_made *)reply)->id);
}

static dw_status change_remove(dw_call *call, const void *request, void *reply)
{
    int64_t id = ((const dw_made *)request)->id;
    dw_shift_change row;
    ((dw_made *)reply)->id = id;
    DW_TRY(dw_row_get(call, "shift_change", &dw_shift_change_noun, id, "id",
                      &row));
    return dw_store_delete(call->store, "shift_change", "id", id, call->err);
}

/* ---- one day ------------------------------------------------------------- */

static const dw_field presence_fields[] = {
    DW_F_ID(dw_presence, person_id, "who"),
    DW_F_TEXT_OPT(dw_presence, name, 60, "as called in the kitchen"),
    DW_F_MOMENT(dw_presence, from_ms, "comes"),
    DW_F_MOMENT(dw_presence, to_ms, "leaves"),
};
const dw_shape dw_presence_shape =
    DW_SHAPE("presence", dw_presence, presence_fields, "somebody who is there");

static const dw_field people_fields[] = {
    DW_F_WHOLE(dw_day_people, day, "d", 0, 84000, "business day"),
    DW_F_MANY_OPT(dw_day_people, people, &dw_presence_shape, 1000,
                  "by the time they come"),
    DW_F_YES(dw_day_people, by_shifts, false,
             "false: by the opening hours, nobody's shifts are known"),
    DW_F_YES(dw_day_people, closed, false, "the whole shop, that day"),
    DW_F_TEXT_OPT(dw_day_people, note, 200, "of the day"),
    DW_F_MOMENT(dw_day_people, first_ms, "first in; 0: not known"),
    DW_F_MOMENT(dw_day_people, leaves_ms, "last out; 0: not known"),
};
static const dw_shape people_shape =
    DW_SHAPE("day_people", dw_day_people, people_fields, "who is there");

static const dw_field left_to_fields[] = {
    DW_F_ID(dw_left_to, batch_id, "of which batch"),
    DW_F_WHOLE(dw_left_to, number, "", 0, 1e9, "its number"),
    DW_F_ID(dw_left_to, stack_id, "0: not in boxes yet"),
    DW_F_TEXT(dw_left_to, name, 120, "the product"),
    DW_F_WHOLE(dw_left_to, balls, "", 0, 1e9, "in it"),
    DW_F_MOMENT(dw_left_to, close_ms, "to be closed"),
    DW_F_YES(dw_left_to, nobody, false, "nobody is there then"),
    DW_F_TEXT_OPT(dw_left_to, who, 500, "who is there then"),
    DW_F_TEXT_OPT(dw_left_to, next, 500, "else who comes first after it"),
    DW_F_MOMENT(dw_left_to, next_ms, "and when; 0: not known"),
};
static const dw_shape left_to_shape = DW_SHAPE(
    "left_to", dw_left_to, left_to_fields, "a stack to close, and by whom");

static const dw_field shift_day_fields[] = {
    DW_F_ONE(dw_shift_day, people, &people_shape, "who is there"),
    DW_F_MANY_OPT(dw_shift_day, closings, &left_to_shape, 1000,
                  "stacks to close, soonest first"),
};
static const dw_shape shift_day_shape =
    DW_SHAPE("shift_day", dw_shift_day, shift_day_fields,
             "who is there, and what is left to whom");

static dw_status shift_day(dw_call *call, const void *request, void *reply)
{
    return dw_shift_day_read(call, ((const dw_day_asked *)request)->day, reply);
}

const dw_op dw_ops_shift[] = {
    {"service.get", DW_OP_READ, &dw_nothing_shape, &dw_service_noun,
     service_get, "How the shop serves, sends and buys."},
    {"service.save", DW_OP_WRITE, &dw_service_noun, &dw_made_shape,
     service_save, "Save how the shop serves, sends and buys."},
    {"shift.list", DW_OP_READ, &dw_nothing_shape, &list_shape, shift_list,
     "The shifts of every week, and the days to come that are unlike it."},
    {"shift.replace", DW_OP_WRITE, &week_shape, &dw_nothing_shape,
     shift_replace, "Write the shifts of every week."},
    {"shift.day", DW_OP_READ, &dw_day_asked_shape, &shift_day_shape, shift_day,
     "Who is there on a day, and to whom its stacks are left."},
    {"shift_change.save", DW_OP_WRITE, &dw_shift_change_noun, &dw_made_shape,
     change_save, "A holiday, somebody away, somebody here who else is not."},
    {"shift_change.remove", DW_OP_WRITE, &dw_made_request_shape, &dw_made_shape,
     change_remove, "That day is as every week after all."},
};
const size_t dw_ops_shift_count = DW_COUNT(dw_ops_shift);
