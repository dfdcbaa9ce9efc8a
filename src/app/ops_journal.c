/* The journal: does it still hold, and what is in it? */
#include "app/op.h"
#include "store/store.h"

typedef struct verified {
    int64_t rows, received_ms;
    const char *hash;
} verified;

static const dw_field verified_fields[] = {
    DW_F_WHOLE(verified, rows, "", 0, 1e15, "rows, each fits the one before"),
    DW_F_MOMENT(verified, received_ms, "when the last was written"),
    DW_F_TEXT_OPT(verified, hash, 64,
                  "of the last; write it down to know the file again"),
};
static const dw_shape verified_shape = DW_SHAPE(
    "journal_verified", verified, verified_fields, "a journal that holds");

static dw_status verify(dw_call *call, const void *request, void *reply)
{
    verified *out = reply;
    dw_journal_head head;
    (void)request;
    DW_TRY(dw_store_check_file(call->store, call->err));
    DW_TRY(dw_journal_verify(call->store, call->arena, call->err, &head));
    const char *hash = dw_arena_text(call->arena, head.hash);
    if (!hash)
        return dw_fail(call->err, DW_E_ROOM, "journal", NULL);
    *out = (verified){head.rows, head.received_ms, *hash ? hash : NULL};
    return DW_OK;
}

const dw_op dw_ops_journal[] = {
    {"journal.verify", DW_OP_READ, &dw_nothing_shape, &verified_shape, verify,
     "Go through the whole journal: was anything edited, cut out or moved?"},
};
const size_t dw_ops_journal_count = DW_COUNT(dw_ops_journal);
