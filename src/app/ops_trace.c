/* Lots as they come, and where everything went: lot.*, trace.*, recall.*. */
#include "app/rows.h"
#include "app/stock.h"
#include "app/trace.h"

#include "doughwright/gs1.h"
#include "doughwright/say.h"
#include "store/trace.h"

#include <string.h>

#define DAY_MS 86400000LL
#define MOMENT_LAST 9007199254740991.0

static dw_status no_room(dw_call *call)
{
    return dw_fail(call->err, DW_E_ROOM, "trace", NULL);
}

/* ---- lot.receive --------------------------------------------------------- */

typedef struct received {
    int64_t material_id, source_batch_id, packs, best_before_day;
    bool has_packs, has_kg, has_received_c, has_best_before_day;
    double kg, received_c;
    const char *code, *label, *supplier, *carrier, *note;
} received;
static const dw_field received_fields[] = {
    DW_F_ID(received, material_id, "of what"),
    DW_F_TEXT_OPT(received, code, 40,
                  "as printed on the bag; else the label's"),
    DW_F_TEXT_OPT(received, label, 512, "GS1 elements that a scanner read"),
    DW_F_TEXT_OPT(received, supplier, 80, "who sent it"),
    DW_F_TEXT_OPT(received, carrier, 80, "who brought it"),
    DW_F_WHOLE_OPT(received, packs, "", 1, 100000, "bags or packs"),
    DW_F_REAL_OPT(received, kg, "kg", 0.001, 100000,
                  "in all; else packs of the material's size"),
    DW_F_REAL_OPT(received, received_c, "degC", -40, 60, "at the door"),
    DW_F_WHOLE_OPT(received, best_before_day, "d", 1, 84100,
                   "else the label's"),
    DW_F_ID(received, source_batch_id,
            "scrap or preferment of that batch; 0: it was bought"),
    DW_F_TEXT_OPT(received, note, 400, "what was seen"),
};
static const dw_shape received_shape =
    DW_SHAPE("lot_received", received, received_fields,
             "goods at the door, or dough that is kept");

/* Lot, date, count and weight off the supplier's label, where they were not
 * told. */
static dw_status read_label(dw_call *call, const received *given,
                            dw_material_lot *lot)
{
    dw_gs1_read_request request = {.text = given->label};
    dw_gs1_read_reply scanned;
    DW_TRY(dw_today(call, &request.today));
    if (dw_gs1_read(&request, call->arena, call->err, &scanned) != DW_OK)
        return dw_err_within(call->err, "label");
    for (size_t i = 0; i < scanned.elements_count; i++) {
        const dw_gs1_element *one = &scanned.elements[i];
        bool date = dw_text_is(one->identifier, "15") ||
                    dw_text_is(one->identifier, "17");
        if (dw_text_is(one->identifier, "10") && !lot->code)
            lot->code = one->value;
        else if (date && one->has_day && lot->best_before_day == 0)
            lot->best_before_day = one->day;
        else if (dw_text_is(one->identifier, "30") && !lot->has_packs) {
            lot->has_packs = true;
            lot->packs = (int64_t)one->amount;
        } else if (one->has_amount && !lot->has_kg &&
                   strncmp(one->identifier, "310", 3) == 0) {
            lot->has_kg = true;
            lot->kg = one->amount;
        }
    }
    return DW_OK;
}

/* Dough of a batch is called after it unless it was given a code. */
static dw_status name_source(dw_call *call, dw_material_lot *lot)
{
    dw_batch_row batch;
    DW_TRY(dw_row_get(call, "batch", &dw_batch_noun, lot->source_batch_id,
                      "source_batch_id", &batch));
    if (batch.started_ms == 0)
        return dw_fail_says(call->err, DW_E_CONFLICT, "source_batch_id", NULL,
                            DW_MSG("has not been begun"));
    if (!lot->code)
        lot->code =
            dw_arena_print(call->arena, "B%lld", (long long)batch.number);
    return lot->code ? DW_OK : no_room(call);
}

static dw_status refuse_twice(dw_call *call, const dw_material_lot *lot)
{
    dw_material_lot *lots;
    size_t n;
    DW_TRY(dw_rows_get(call, "material_lot", &dw_material_lot_noun,
                       "material_id", lot->material_id, "id", &lots, &n));
    for (size_t i = 0; i < n; i++)
        if (dw_text_is(lots[i].code, lot->code) &&
            lots[i].source_batch_id == lot->source_batch_id)
            return dw_fail_says(call->err, DW_E_CONFLICT, "code", lot->code,
                                DW_MSG("is already here; change that lot"));
    return DW_OK;
}

static dw_status receive_run(dw_call *call, const void *request, void *reply)
{
    const received *given = request;
    dw_material material;
    dw_material_lot lot = {.material_id = given->material_id,
                           .code = given->code,
                           .supplier = given->supplier,
                           .carrier = given->carrier,
                           .note = given->note,
                           .received_ms = call->occurred_ms,
                           .best_before_day = given->best_before_day,
                           .has_kg = given->has_kg,
                           .kg = given->kg,
                           .has_packs = given->has_packs,
                           .packs = given->packs,
                           .has_received_c = given->has_received_c,
                           .received_c = given->received_c,
                           .source_batch_id = given->source_batch_id,
                           .open = true};
    DW_TRY(dw_row_get(call, "material", &dw_material_noun, lot.material_id,
                      "material_id", &material));
    if (given->label)
        DW_TRY(read_label(call, given, &lot));
    if (lot.source_batch_id)
        DW_TRY(name_source(call, &lot));
    if (!lot.code)
        return dw_fail(call->err, DW_E_MISSING, "code", NULL);
    if (!lot.has_kg && lot.has_packs && material.has_pack_kg) {
        lot.has_kg = true;
        lot.kg = (double)lot.packs * material.pack_kg;
    }
    DW_TRY(refuse_twice(call, &lot));
    return dw_row_save(call, "material_lot", &dw_material_lot_noun, &lot,
                       &((dw_made *)reply)->id);
}

/* ---- lot.list ------------------------------------------------------------ */

typedef struct days {
    int64_t from_day, to_day;
} days;
static const dw_field days_fields[] = {
    DW_F_WHOLE_PRESET(days, from_day, "d", 0, 84000, 0, "first day, UTC"),
    DW_F_WHOLE_PRESET(days, to_day, "d", 0, 84000, 84000, "last day, UTC"),
};
static const dw_shape days_shape =
    DW_SHAPE("trace_days", days, days_fields, "some days");

enum { LOTS_MOST = 10000 };
typedef struct lots {
    dw_lot_row *rows;
    size_t rows_count;
} lots;
static const dw_field lots_fields[] = {
    DW_F_MANY_OPT(lots, rows, &dw_lot_row_shape, LOTS_MOST, "the newest first"),
};
static const dw_shape lots_shape =
    DW_SHAPE("lots", lots, lots_fields, "lots that came");

static dw_status lots_run(dw_call *call, const void *request, void *reply)
{
    const days *asked = request;
    lots *out = reply;
    return dw_store_lots(call->store, asked->from_day * DAY_MS,
                         (asked->to_day + 1) * DAY_MS - 1, LOTS_MOST,
                         call->arena, &out->rows, &out->rows_count, call->err);
}

/* ---- trace.graph, trace.lot ---------------------------------------------- */

static dw_status graph_run(dw_call *call, const void *request, void *reply)
{
    return dw_trace_walk(request, call->arena, call->err, reply);
}

static dw_status trace_run(dw_call *call, const void *request, void *reply)
{
    return dw_trace_find(call, request, reply);
}

/* ---- recall.start, recall.stop ------------------------------------------- */

typedef struct drill_asked {
    int64_t lot_id, batch_id;
} drill_asked;
static const dw_field drill_asked_fields[] = {
    DW_F_ID(drill_asked, lot_id, "a lot"),
    DW_F_ID(drill_asked, batch_id, "or a batch"),
};
static const dw_shape drill_asked_shape = DW_SHAPE(
    "drill_asked", drill_asked, drill_asked_fields, "what is called back");

static dw_status start_run(dw_call *call, const void *request, void *reply)
{
    const drill_asked *asked = request;
    dw_trace_found found; /* it must be there */
    DW_TRY(dw_trace_find(
        call,
        &(dw_trace_asked){.lot_id = asked->lot_id, .batch_id = asked->batch_id},
        &found));
    const dw_recall_drill drill = {.lot_id = asked->lot_id,
                                   .batch_id = asked->batch_id,
                                   .started_ms = call->occurred_ms,
                                   .person_id = call->person_id};
    return dw_row_save(call, "recall_drill", &dw_recall_drill_noun, &drill,
                       &((dw_made *)reply)->id);
}

typedef struct drill_end {
    int64_t id;
    const char *note;
} drill_end;
static const dw_field drill_end_fields[] = {
    DW_F_WHOLE(drill_end, id, "", 1, MOMENT_LAST, "which drill"),
    DW_F_TEXT_OPT(drill_end, note, 400, "what was learned"),
};
static const dw_shape drill_end_shape =
    DW_SHAPE("drill_end", drill_end, drill_end_fields, "all was found");

typedef struct drill_took {
    dw_recall_drill drill;
    double minutes;
} drill_took;
static const dw_field drill_took_fields[] = {
    DW_F_ONE(drill_took, drill, &dw_recall_drill_noun, "the drill"),
    DW_F_REAL(drill_took, minutes, "min", 0, 1e9, "it took"),
};
static const dw_shape drill_took_shape =
    DW_SHAPE("drill_took", drill_took, drill_took_fields, "how long it took");

static double minutes_of(const dw_recall_drill *drill)
{
    return (double)(drill->stopped_ms - drill->started_ms) / 60000;
}

static dw_status stop_run(dw_call *call, const void *request, void *reply)
{
    const drill_end *given = request;
    drill_took *out = reply;
    dw_recall_drill drill;
    DW_TRY(dw_row_get(call, "recall_drill", &dw_recall_drill_noun, given->id,
                      "id", &drill));
    if (drill.stopped_ms != 0)
        return dw_fail_says(call->err, DW_E_CONFLICT, "id", NULL,
                            DW_MSG("was already stopped"));
    drill.stopped_ms = call->occurred_ms > drill.started_ms ? call->occurred_ms
                                                            : drill.started_ms;
    drill.note = given->note;
    DW_TRY(
        dw_row_save(call, "recall_drill", &dw_recall_drill_noun, &drill, NULL));
    *out = (drill_took){drill, minutes_of(&drill)};
    return DW_OK;
}

typedef struct drills {
    drill_took *drills;
    size_t drills_count;
} drills;
static const dw_field drills_fields[] = {
    DW_F_MANY_OPT(drills, drills, &drill_took_shape, 10000, "newest first"),
};
static const dw_shape drills_shape =
    DW_SHAPE("drills", drills, drills_fields, "recalls that were drilled");

static dw_status drills_run(dw_call *call, const void *request, void *reply)
{
    (void)request;
    drills *out = reply;
    dw_recall_drill *rows;
    DW_TRY(dw_rows_get(call, "recall_drill", &dw_recall_drill_noun, NULL, 0,
                       "started_ms DESC, id DESC", &rows, &out->drills_count));
    out->drills = DW_NEW_ARRAY(call->arena, drill_took, out->drills_count + 1);
    if (!out->drills)
        return no_room(call);
    for (size_t i = 0; i < out->drills_count; i++)
        out->drills[i] = (drill_took){
            rows[i], rows[i].stopped_ms ? minutes_of(&rows[i]) : 0};
    return DW_OK;
}

const dw_op dw_ops_trace[] = {
    {"lot.list", DW_OP_READ, &days_shape, &lots_shape, lots_run,
     "The lots that came, the newest first."},
    {"lot.receive", DW_OP_WRITE, &received_shape, &dw_made_shape, receive_run,
     "Take in goods at the door, or keep scrap or preferment of a batch."},
    {"recall.list", DW_OP_READ, &dw_nothing_shape, &drills_shape, drills_run,
     "The recalls that were drilled, and how long each took."},
    {"recall.start", DW_OP_WRITE, &drill_asked_shape, &dw_made_shape, start_run,
     "Begin a recall drill: the clock runs."},
    {"recall.stop", DW_OP_WRITE, &drill_end_shape, &drill_took_shape, stop_run,
     "All was found: stop the clock of a drill."},
    {"trace.graph", DW_OP_PURE, &dw_trace_request_shape, &dw_trace_reply_shape,
     graph_run,
     "What is in a node of a history, where it went, and do masses close."},
    {"trace.lot", DW_OP_READ, &dw_trace_asked_shape, &dw_trace_found_shape,
     trace_run,
     "Where a lot, batch, stack or shipment went, and what is in it."},
};
const size_t dw_ops_trace_count = DW_COUNT(dw_ops_trace);
