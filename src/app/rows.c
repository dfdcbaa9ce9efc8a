#include "app/rows.h"

#include "doughwright/say.h"

static const dw_field made_fields[] = {
    DW_F_ID(dw_made, id, "the row that was made or changed"),
};
const dw_shape dw_made_shape =
    DW_SHAPE("made", dw_made, made_fields, "which row it is now");

static const dw_field request_fields[] = {
    DW_F_WHOLE(dw_made, id, "", 1, 9007199254740991.0, "which"),
};
const dw_shape dw_made_request_shape =
    DW_SHAPE("one", dw_made, request_fields, "names one row");

static const dw_field day_fields[] = {
    DW_F_WHOLE_PRESET(dw_day_asked, day, "d", 0, 84000, 0,
                      "business day; 0: today"),
};
const dw_shape dw_day_asked_shape =
    DW_SHAPE("day_asked", dw_day_asked, day_fields, "which day");

dw_status dw_row_save(dw_call *call, const char *table, const dw_shape *shape,
                      const void *row, int64_t *id)
{
    int64_t given = *(const int64_t *)row; /* every noun begins with its id */
    if (given == 0)
        return dw_store_insert(call->store, table, shape, row, id, call->err);
    DW_TRY(dw_store_update(call->store, table, shape, row, call->err));
    if (id)
        *id = given;
    return DW_OK;
}

dw_status dw_row_get(dw_call *call, const char *table, const dw_shape *shape,
                     int64_t id, const char *field, void *row)
{
    dw_status status = dw_store_get(call->store, table, shape, id, call->arena,
                                    row, call->err);
    if (status == DW_E_NOT_FOUND) {
        char text[24];
        dw_text_number(text, sizeof text, (double)id, 15);
        return dw_fail(call->err, status, field, text);
    }
    return status;
}

dw_status dw_rows_get(dw_call *call, const char *table, const dw_shape *shape,
                      const char *column, int64_t value, const char *order,
                      void *rows, size_t *count)
{
    return dw_store_list(call->store, table, shape, column, value, order,
                         call->arena, rows, count, call->err);
}

dw_status dw_shop_get(dw_call *call, dw_shop *shop)
{
    dw_status status = dw_store_get(call->store, "shop", &dw_shop_noun, 1,
                                    call->arena, shop, call->err);
    if (status == DW_E_NOT_FOUND)
        return dw_fail_says(call->err, status, "shop", NULL,
                            DW_MSG("is not set up yet: save it first"));
    return status;
}
