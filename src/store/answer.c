#include "store/internal.h"

static const dw_field answer_fields[] = {
    DW_F_TEXT_OPT(dw_answer, device, 200, "who asked"),
    DW_F_TEXT(dw_answer, key, 200, "its key for the request"),
    DW_F_TEXT(dw_answer, body_hash, 64, "SHA-256 of operation and request"),
    DW_F_TEXT(dw_answer, reply, 8388608, "what was answered"),
    DW_F_MOMENT(dw_answer, received_ms, "when it was asked"),
};
const dw_shape dw_store__answer_shape =
    DW_SHAPE("answer", dw_answer, answer_fields,
             "What was answered to a request that may come again.");

dw_status dw_answer_find(dw_store *store, const char *device, const char *key,
                         dw_arena *arena, dw_answer *answer, bool *found,
                         dw_err *err)
{
    dw_arg args[] = {{.name = "$a", .kind = DW_TEXT, .text = device},
                     {.name = "$b", .kind = DW_TEXT, .text = key}};
    dw_answer *rows;
    size_t count;
    DW_TRY(dw_store_query(store,
                          "SELECT device, key, body_hash, reply,"
                          " received_ms FROM answer"
                          " WHERE device = $a AND key = $b",
                          args, DW_COUNT(args), &dw_store__answer_shape, arena,
                          &rows, &count, err));
    *found = count > 0;
    if (*found)
        *answer = rows[0];
    return DW_OK;
}

dw_status dw_answer_keep(dw_store *store, const dw_answer *answer, dw_err *err)
{
    return dw_store_insert(store, "answer", &dw_store__answer_shape, answer,
                           NULL, err);
}

dw_status dw_answer_forget(dw_store *store, int64_t before_ms, dw_err *err)
{
    dw_arg before = {.name = "$a", .kind = DW_WHOLE, .whole = before_ms};
    return dw_store_run(store, "DELETE FROM answer WHERE received_ms < $a",
                        &before, 1, err);
}
