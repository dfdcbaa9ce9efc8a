/* The mix card: steps, weighings, readings, what was off, boxes, closing. Every
 * operation answers with what is said back to the person. */
#include "app/card.h"
#include "app/doubt.h"
#include "app/taught.h"

#include "doughwright/procedure.h"
#include "doughwright/say.h"

#include <string.h>

#define MOMENT_LAST 9007199254740991.0

/* What a tap gives back: a sentence, when there is something to say. */
typedef struct tapped {
    int64_t id;
    const char *message;
} tapped;
static const dw_field tapped_fields[] = {
    DW_F_ID(tapped, id, "the batch, or 0 for the shop"),
    DW_F_TEXT_OPT(tapped, message, 1000, "something to look at, or null"),
};
static const dw_shape tapped_shape =
    DW_SHAPE("tapped", tapped, tapped_fields, "what a tap gives back");

/* ---- step.mark ----------------------------------------------------------- */

static const char *const mark_words[] = {"begin", "done", "skip", "undo", NULL};
enum { MARK_BEGIN, MARK_DONE, MARK_SKIP, MARK_UNDO };

typedef struct step_mark {
    int64_t step_id;
    int mark;
    const char *answer;
} step_mark;
static const dw_field step_mark_fields[] = {
    DW_F_WHOLE(step_mark, step_id, "", 1, MOMENT_LAST, "which step"),
    DW_F_CHOICE(step_mark, mark, mark_words, "what became of it"),
    DW_F_TEXT_OPT(step_mark, answer, 60, "to the step's question"),
};
static const dw_shape step_mark_shape =
    DW_SHAPE("step_mark", step_mark, step_mark_fields, "what became of a step");

static void mark_step(const step_mark *given, const dw_call *call,
                      dw_batch_step *step)
{
    switch (given->mark) {
    case MARK_BEGIN:
        step->started_ms = call->occurred_ms;
        step->done_ms = 0;
        step->skipped = false;
        break;
    case MARK_DONE:
        step->done_ms = call->occurred_ms;
        step->skipped = false;
        if (step->started_ms == 0)
            step->started_ms = call->occurred_ms;
        break;
    case MARK_SKIP:
        step->done_ms = call->occurred_ms;
        step->skipped = true;
        break;
    default: /* what ran goes on running; what was only ticked is not begun */
        if (step->done_ms <= step->started_ms)
            step->started_ms = 0;
        step->done_ms = 0;
        step->skipped = false;
        break;
    }
    step->answer = given->answer;
    step->person_id = given->mark == MARK_UNDO ? 0 : call->person_id;
}

static bool slides(const dw_batch_step *step)
{
    return step->answer && step->done_ms != 0 &&
           strcmp(step->answer, "sliding") == 0;
}

/* The flag goes with the answer that raised it; the journal keeps both. */
static dw_status unflag_sliding(dw_call *call, const dw_batch_step *was)
{
    dw_batch_change *changes;
    size_t n;
    DW_TRY(dw_rows_get(call, "batch_change", &dw_batch_change_noun, "batch_id",
                       was->batch_id, "id", &changes, &n));
    for (size_t i = 0; i < n; i++)
        if (changes[i].kind == DW_CHANGE_SLIDING &&
            changes[i].occurred_ms == was->done_ms)
            return dw_store_delete(call->store, "batch_change", "id",
                                   changes[i].id, call->err);
    return DW_OK;
}

/* Oil that slides is recorded and flagged by itself. */
static dw_status flag_sliding(dw_call *call, const dw_batch_step *step)
{
    dw_batch_change change = {.batch_id = step->batch_id,
                              .kind = DW_CHANGE_SLIDING,
                              .material = step->step.material,
                              .occurred_ms = call->occurred_ms,
                              .person_id = call->person_id};
    return dw_row_save(call, "batch_change", &dw_batch_change_noun, &change,
                       NULL);
}

/* What taking back a step that was done means for the batch. */
static dw_status unfollow(dw_call *call, const dw_batch_step *step,
                          dw_batch_row *batch)
{
    if (step->step.kind == DW_STEP_STOP)
        return dw_batch_unstop(call, batch);
    if (step->step.kind == DW_STEP_CLOSE)
        return dw_batch_reopen(call, batch);
    return DW_OK;
}

/* What the step means for the batch as a whole. */
static dw_status follow(dw_call *call, const step_mark *given,
                        const dw_batch_step *step, dw_batch_row *batch)
{
    if (given->mark == MARK_UNDO || given->mark == MARK_SKIP)
        return DW_OK;
    DW_TRY(dw_batch_begin(call, batch, call->occurred_ms));
    if (given->mark != MARK_DONE)
        return DW_OK;
    if (step->step.kind == DW_STEP_STOP)
        DW_TRY(dw_batch_stop(call, batch, call->occurred_ms));
    if (step->step.kind == DW_STEP_CLOSE)
        DW_TRY(dw_batch_close(call, batch, call->occurred_ms));
    return slides(step) ? flag_sliding(call, step) : DW_OK;
}

static dw_status step_mark_run(dw_call *call, const void *request, void *reply)
{
    const step_mark *given = request;
    tapped *back = reply;
    dw_batch_step step;
    dw_batch_row batch;
    DW_TRY(dw_row_get(call, "batch_step", &dw_batch_step_noun, given->step_id,
                      "step_id", &step));
    DW_TRY(dw_batch_open(call, step.batch_id, &batch));
    bool was_done = step.done_ms > 0 && !step.skipped;
    if (slides(&step))
        DW_TRY(unflag_sliding(call, &step));
    mark_step(given, call, &step);
    DW_TRY(dw_row_save(call, "batch_step", &dw_batch_step_noun, &step, NULL));
    back->id = batch.id;
    if (given->mark == MARK_UNDO && was_done)
        DW_TRY(unfollow(call, &step, &batch));
    else
        DW_TRY(follow(call, given, &step, &batch));
    bool moves =
        step.step.kind == DW_STEP_STOP || step.step.kind == DW_STEP_CLOSE;
    return moves ? dw_taught_after(call, batch.id) : DW_OK;
}

/* ---- weighing.mark ------------------------------------------------------- */

typedef struct weighing_mark {
    int64_t weighing_id, lot_id;
    bool has_weighed_kg;
    double weighed_kg;
} weighing_mark;
static const dw_field weighing_mark_fields[] = {
    DW_F_WHOLE(weighing_mark, weighing_id, "", 1, MOMENT_LAST, "which"),
    DW_F_REAL_OPT(weighing_mark, weighed_kg, "kg", 0, 2000,
                  "what came; null takes the tick away"),
    DW_F_ID(weighing_mark, lot_id, "from which lot"),
};
static const dw_shape weighing_mark_shape = DW_SHAPE(
    "weighing_mark", weighing_mark, weighing_mark_fields, "what was weighed");

static dw_status weighing_mark_run(dw_call *call, const void *request,
                                   void *reply)
{
    const weighing_mark *given = request;
    tapped *back = reply;
    dw_batch_weighing row;
    DW_TRY(dw_weighing_keep(call, given->weighing_id, given->has_weighed_kg,
                            given->weighed_kg, given->lot_id, call->occurred_ms,
                            &back->message));
    DW_TRY(dw_row_get(call, "batch_weighing", &dw_batch_weighing_noun,
                      given->weighing_id, "weighing_id", &row));
    back->id = row.batch_id;
    return DW_OK;
}

/* ---- reading.save -------------------------------------------------------- */

typedef struct reading_given {
    int64_t batch_id, product_id;
    int kind;
    double celsius;
} reading_given;
static const dw_field reading_given_fields[] = {
    DW_F_ID(reading_given, batch_id, "which batch; 0: the shop's of the day"),
    DW_F_CHOICE(reading_given, kind, dw_reading_kind_words, "what was read"),
    DW_F_REAL(reading_given, celsius, "degC", -30, 110, "what it showed"),
    DW_F_ID(reading_given, product_id, "of core_c: whose stack of the batch"),
};
static const dw_shape reading_given_shape = DW_SHAPE(
    "reading_given", reading_given, reading_given_fields, "a temperature");

static dw_status reading_save_run(dw_call *call, const void *request,
                                  void *reply)
{
    const reading_given *given = request;
    tapped *back = reply;
    dw_batch_row batch;
    if (given->batch_id != 0)
        DW_TRY(dw_batch_open(call, given->batch_id, &batch));
    dw_product product;
    if (given->product_id != 0)
        DW_TRY(dw_row_get(call, "product", &dw_product_noun, given->product_id,
                          "product_id", &product));
    back->id = given->batch_id;
    DW_TRY(dw_doubt_reading(call, given->kind, given->celsius, &back->message));
    dw_reading_row row = {.batch_id = given->batch_id,
                          .product_id = given->product_id,
                          .kind = given->kind,
                          .celsius = given->celsius,
                          .occurred_ms = call->occurred_ms};
    DW_TRY(dw_reading_keep(call, &row));
    return dw_taught_after_reading(call, &row);
}

/* ---- change.save --------------------------------------------------------- */

static bool needs_material(int kind)
{
    return kind == DW_CHANGE_WATER || kind == DW_CHANGE_YEAST_TYPE ||
           kind == DW_CHANGE_FORGOTTEN || kind == DW_CHANGE_DOUBLED;
}

static dw_status check_change(dw_call *call, const dw_batch_change *change)
{
    if (needs_material(change->kind) && !change->material)
        return dw_fail(call->err, DW_E_MISSING, "material", NULL);
    if (change->kind == DW_CHANGE_YEAST_TYPE && !change->has_to_kind)
        return dw_fail(call->err, DW_E_MISSING, "to_kind", NULL);
    if (change->kind == DW_CHANGE_LOT && change->lot_id == 0)
        return dw_fail(call->err, DW_E_MISSING, "lot_id", NULL);
    if (change->lot_id == 0)
        return DW_OK;
    dw_material_lot lot;
    return dw_row_get(call, "material_lot", &dw_material_lot_noun,
                      change->lot_id, "lot_id", &lot);
}

/* The whole card comes back; a change that cannot be (less than nothing left,
 * no such material) fails there and is undone with the rest. */
static dw_status change_save_run(dw_call *call, const void *request,
                                 void *reply)
{
    dw_batch_change change = *(const dw_batch_change *)request;
    dw_card *card = reply;
    dw_batch_row batch;
    const char *said;
    DW_TRY(dw_batch_open(call, change.batch_id, &batch));
    DW_TRY(check_change(call, &change));
    DW_TRY(dw_card_outline(call, change.batch_id, card));
    DW_TRY(dw_doubt_change(call, card, &change, &said));
    if (change.kind == DW_CHANGE_ABANDONED && batch.last_box_ms != 0)
        return dw_fail_says(call->err, DW_E_CONFLICT, "batch_id", NULL,
                            DW_MSG("has balls in the cold room"));
    change.id = 0;
    change.occurred_ms = call->occurred_ms;
    change.person_id = call->person_id;
    DW_TRY(dw_row_save(call, "batch_change", &dw_batch_change_noun, &change,
                       NULL));
    if (change.kind == DW_CHANGE_WATER && batch.flour_lot_id)
        DW_TRY(dw_lot_learn(call, batch.flour_lot_id));
    if (change.kind == DW_CHANGE_ABANDONED) {
        batch.state = DW_BATCH_ABANDONED;
        DW_TRY(dw_batch_keep(call, &batch));
    }
    DW_TRY(dw_taught_after(call, change.batch_id));
    DW_TRY(dw_card_read(call, change.batch_id, card));
    card->message = said;
    return DW_OK;
}

/* ---- batch.box, stack.close ---------------------------------------------- */

typedef struct box_given {
    int64_t batch_id, first_box_ms, last_box_ms;
    dw_batch_piece *pieces; /* id and balls_made of each */
    size_t pieces_count;
    bool has_scrap_kg, has_residue_kg;
    double scrap_kg, residue_kg;
} box_given;
static const dw_field box_given_fields[] = {
    DW_F_WHOLE(box_given, batch_id, "", 1, MOMENT_LAST, "which batch"),
    DW_F_MOMENT(box_given, first_box_ms, "0: now"),
    DW_F_MOMENT(box_given, last_box_ms, "0: now"),
    DW_F_MANY(box_given, pieces, &dw_boxed_piece_shape, 1, 40, "what came"),
    DW_F_REAL_OPT(box_given, scrap_kg, "kg", 0, 2000, "scrap left over"),
    DW_F_REAL_OPT(box_given, residue_kg, "kg", 0, 2000, "left in the bowl"),
};
static const dw_shape box_given_shape =
    DW_SHAPE("box_given", box_given, box_given_fields,
             "balls of a batch that went into the cold room");

static dw_status box_run(dw_call *call, const void *request, void *reply)
{
    const box_given *given = request;
    dw_batch_row batch;
    DW_TRY(dw_batch_open(call, given->batch_id, &batch));
    int64_t last = given->last_box_ms ? given->last_box_ms : call->occurred_ms;
    int64_t first = given->first_box_ms ? given->first_box_ms : last;
    DW_TRY(dw_batch_begin(call, &batch, first));
    if (batch.stopped_ms == 0)
        DW_TRY(dw_batch_stop(call, &batch, first));
    batch.has_scrap_kg = given->has_scrap_kg;
    batch.scrap_kg = given->scrap_kg;
    batch.has_residue_kg = given->has_residue_kg;
    batch.residue_kg = given->residue_kg;
    DW_TRY(dw_batch_box(call, &batch, given->pieces, given->pieces_count, first,
                        last));
    DW_TRY(dw_taught_after(call, batch.id));
    dw_card *card = reply;
    DW_TRY(dw_card_read(call, batch.id, card));
    return dw_doubt_boxed(call, card, &card->message);
}

static dw_status close_run(dw_call *call, const void *request, void *reply)
{
    dw_batch_row batch;
    DW_TRY(dw_batch_open(call, ((const dw_made *)request)->id, &batch));
    if (batch.last_box_ms == 0)
        return dw_fail_says(call->err, DW_E_CONFLICT, "id", NULL,
                            DW_MSG("is not in the cold room yet"));
    DW_TRY(dw_batch_close(call, &batch, call->occurred_ms));
    DW_TRY(dw_taught_after(call, batch.id));
    return dw_card_read(call, batch.id, reply);
}

/* ---- batch.begin, verdict.save ------------------------------------------- */

typedef struct begin_given {
    int64_t batch_id, mixer_id;
} begin_given;
static const dw_field begin_given_fields[] = {
    DW_F_WHOLE(begin_given, batch_id, "", 1, MOMENT_LAST, "which batch"),
    DW_F_ID(begin_given, mixer_id, "another mixer than planned"),
};
static const dw_shape begin_given_shape = DW_SHAPE(
    "begin_given", begin_given, begin_given_fields, "a batch is taken up");

static dw_status begin_run(dw_call *call, const void *request, void *reply)
{
    const begin_given *given = request;
    dw_batch_row batch;
    DW_TRY(dw_batch_open(call, given->batch_id, &batch));
    if (given->mixer_id)
        batch.mixer_id = given->mixer_id;
    DW_TRY(dw_batch_begin(call, &batch, call->occurred_ms));
    DW_TRY(dw_batch_keep(call, &batch));
    return dw_card_read(call, batch.id, reply);
}

static dw_status verdict_save_run(dw_call *call, const void *request,
                                  void *reply)
{
    dw_verdict verdict = *(const dw_verdict *)request;
    dw_made *made = reply;
    dw_batch_row batch;
    DW_TRY(dw_batch_open(call, verdict.batch_id, &batch));
    verdict.occurred_ms = call->occurred_ms;
    verdict.person_id = call->person_id;
    DW_TRY(dw_row_save(call, "verdict", &dw_verdict_noun, &verdict, &made->id));
    return dw_taught_learn(call, DW_LESSON_YEAST);
}

const dw_op dw_ops_card[] = {
    {"batch.begin", DW_OP_WRITE, &begin_given_shape, &dw_card_shape, begin_run,
     "Take a planned batch up."},
    {"step.mark", DW_OP_WRITE, &step_mark_shape, &tapped_shape, step_mark_run,
     "Begin, finish, skip or undo a step of the mix card."},
    {"weighing.mark", DW_OP_WRITE, &weighing_mark_shape, &tapped_shape,
     weighing_mark_run, "Write what was weighed; says when it looks off."},
    {"reading.save", DW_OP_WRITE, &reading_given_shape, &tapped_shape,
     reading_save_run, "Write a temperature; a dough's teaches the mixer."},
    {"change.save", DW_OP_WRITE, &dw_batch_change_noun, &dw_card_shape,
     change_save_run,
     "Write that something was off; the card is recalculated."},
    {"batch.box", DW_OP_WRITE, &box_given_shape, &dw_card_shape, box_run,
     "Write the balls that came and when they went into the cold room."},
    {"batch.close", DW_OP_WRITE, &dw_made_request_shape, &dw_card_shape,
     close_run, "Write that the stacks of a batch were closed."},
    {"verdict.save", DW_OP_WRITE, &dw_verdict_noun, &dw_made_shape,
     verdict_save_run, "Write how the dough was at first use."},
};
const size_t dw_ops_card_count = DW_COUNT(dw_ops_card);
