/* What left, to whom, and where each of its ingredients came from: the record
 * that 21 CFR 1.345 asks for, as rows. What came (1.337) is lot.list. */
#include "app/rows.h"
#include "app/trace.h"

#include "doughwright/say.h"
#include "store/trace.h"

#include <stdio.h>

enum { SOURCES_LONGEST = 2000, ROWS_MOST = 3000 };

typedef struct asked {
    int64_t from_day, to_day;
} asked;
static const dw_field asked_fields[] = {
    DW_F_WHOLE_PRESET(asked, from_day, "d", 0, 84000, 0, "first day"),
    DW_F_WHOLE_PRESET(asked, to_day, "d", 0, 84000, 84000, "last day"),
};
static const dw_shape asked_shape =
    DW_SHAPE("released_asked", asked, asked_fields, "some days");

typedef struct released_row {
    dw_released_row out;
    const char *sources;
} released_row;
static const dw_field released_row_fields[] = {
    DW_F_ONE(released_row, out, &dw_released_row_shape, "what left"),
    DW_F_TEXT_OPT(released_row, sources, SOURCES_LONGEST,
                  "lots in it, each with who sent it"),
};
static const dw_shape released_row_shape =
    DW_SHAPE("released_row", released_row, released_row_fields,
             "what left, and what is in it");

typedef struct released {
    released_row *rows;
    size_t rows_count;
} released;
static const dw_field released_fields[] = {
    DW_F_MANY_OPT(released, rows, &released_row_shape, ROWS_MOST,
                  "by day and shop"),
};
static const dw_shape released_shape =
    DW_SHAPE("released", released, released_fields, "what left in some days");

/* Add "name (who sent it)"; what does not fit is told by three dots. */
static void add_source(char *text, size_t *used, const char *name,
                       const char *supplier)
{
    int n = snprintf(text + *used, SOURCES_LONGEST - *used, "%s%s%s%s%s",
                     *used > 0 ? "; " : "", name, supplier ? " (" : "",
                     supplier ? supplier : "", supplier ? ")" : "");
    if (n > 0 && (size_t)n < SOURCES_LONGEST - *used - 4)
        *used += (size_t)n;
    else
        snprintf(text + *used, 4, "...");
}

static dw_status find_sources(dw_call *call, int64_t stack_id, char *text)
{
    dw_trace_found found;
    size_t used = 0;
    DW_TRY(
        dw_trace_find(call, &(dw_trace_asked){.stack_id = stack_id}, &found));
    for (size_t i = 0; i < found.backward_count; i++) {
        const dw_trace_node *node = &found.nodes[found.backward[i].node];
        dw_material_lot lot;
        if (node->kind != DW_TRACE_LOT)
            continue;
        DW_TRY(dw_row_get(call, "material_lot", &dw_material_lot_noun, node->id,
                          "lot_id", &lot));
        if (lot.source_batch_id == 0)
            add_source(text, &used, node->name, lot.supplier);
    }
    return DW_OK;
}

static dw_status released_run(dw_call *call, const void *request, void *reply)
{
    const asked *days = request;
    released *out = reply;
    dw_released_row *rows;
    DW_TRY(dw_store_released(call->store, days->from_day, days->to_day, 0,
                             ROWS_MOST + 1, call->arena, &rows,
                             &out->rows_count, call->err));
    if (out->rows_count > ROWS_MOST)
        return dw_fail_says(call->err, DW_E_RANGE, "from_day", NULL,
                            DW_MSG("has too much after it; ask for fewer "
                                   "days"));
    out->rows = DW_NEW_ARRAY(call->arena, released_row, out->rows_count + 1);
    if (!out->rows)
        return dw_fail(call->err, DW_E_ROOM, "rows", NULL);
    for (size_t i = 0; i < out->rows_count; i++) {
        out->rows[i].out = rows[i];
        if (rows[i].stack_id == 0)
            continue;
        /* the text stays, what it was found in goes */
        char *text = DW_NEW_ARRAY(call->arena, char, SOURCES_LONGEST);
        if (!text)
            return dw_fail(call->err, DW_E_ROOM, "rows", NULL);
        dw_arena scratch = *call->arena;
        dw_call inner = *call;
        inner.arena = &scratch;
        DW_TRY(find_sources(&inner, rows[i].stack_id, text));
        out->rows[i].sources = text;
    }
    return DW_OK;
}

const dw_op dw_ops_released[] = {
    {"trace.released", DW_OP_READ, &asked_shape, &released_shape, released_run,
     "What left to whom, and where each of its ingredients came from."},
};
const size_t dw_ops_released_count = DW_COUNT(dw_ops_released);
