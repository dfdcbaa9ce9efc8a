#include "app/card.h"

#include "app/trace.h"

#include "app/doubt.h"
#include "app/say_slip.h"
#include "app/stack_life.h"
#include "app/stock.h"
#include "doughwright/say.h"

#include <math.h>

dw_status dw_batch_open(dw_call *call, int64_t batch_id, dw_batch_row *batch)
{
    DW_TRY(
        dw_row_get(call, "batch", &dw_batch_noun, batch_id, "batch_id", batch));
    if (batch->state == DW_BATCH_ABANDONED)
        return dw_fail_says(call->err, DW_E_CONFLICT, "batch_id", NULL,
                            DW_MSG("was abandoned"));
    return DW_OK;
}

dw_status dw_batch_keep(dw_call *call, const dw_batch_row *batch)
{
    return dw_row_save(call, "batch", &dw_batch_noun, batch, NULL);
}

dw_status dw_batch_begin(dw_call *call, dw_batch_row *batch, int64_t at_ms)
{
    if (batch->started_ms != 0)
        return DW_OK;
    dw_card card;
    DW_TRY(dw_card_read(call, batch->id, &card));
    batch->has_water_c = batch->has_ice_kg = card.water.has_answer;
    batch->water_c = card.water.answer.liquid_c;
    batch->ice_kg = card.water.answer.ice_kg;
    batch->started_ms = at_ms;
    batch->state = DW_BATCH_MIXING;
    if (batch->person_id == 0)
        batch->person_id = call->person_id;
    return dw_batch_keep(call, batch);
}

/* Hours run count when the mixer stops for good. */
static dw_status count_minutes(dw_call *call, const dw_batch_row *batch,
                               double minutes)
{
    dw_mixer_row mixer;
    if (batch->mixer_id == 0)
        return DW_OK;
    DW_TRY(dw_row_get(call, "mixer", &dw_mixer_noun, batch->mixer_id,
                      "mixer_id", &mixer));
    mixer.minutes_run = fmax(0, mixer.minutes_run + minutes);
    return dw_row_save(call, "mixer", &dw_mixer_noun, &mixer, NULL);
}

dw_status dw_batch_stop(dw_call *call, dw_batch_row *batch, int64_t at_ms)
{
    DW_TRY(dw_batch_begin(call, batch, at_ms));
    bool first = batch->stopped_ms == 0;
    batch->stopped_ms = at_ms;
    if (batch->state == DW_BATCH_MIXING)
        batch->state = DW_BATCH_MIXED;
    DW_TRY(dw_batch_keep(call, batch));
    return first ? count_minutes(call, batch, batch->mixer_minutes) : DW_OK;
}

dw_status dw_batch_unstop(dw_call *call, dw_batch_row *batch)
{
    if (batch->stopped_ms == 0)
        return DW_OK;
    batch->stopped_ms = 0;
    if (batch->state == DW_BATCH_MIXED)
        batch->state = DW_BATCH_MIXING;
    DW_TRY(dw_batch_keep(call, batch));
    return count_minutes(call, batch, -batch->mixer_minutes);
}

/* ---- readings ------------------------------------------------------------ */

/* What the recorded dough temperature says of the mixing work: the balance with
 * the water that went in. Without a reading of the water, the water that the
 * card asked for is taken. */
static dw_status learn(dw_call *call, int64_t batch_id, double dough_c)
{
    dw_card card;
    bool read;
    DW_TRY(dw_card_read(call, batch_id, &card));
    if (!card.water.has_answer)
        return DW_OK;
    dw_heat_batch *inputs = &card.water.inputs;
    inputs->observed_dough_c = dough_c;
    inputs->water_c = card.batch.has_water_c ? card.batch.water_c
                                             : card.water.answer.liquid_c;
    inputs->ice_kg =
        card.batch.has_ice_kg ? card.batch.ice_kg : card.water.answer.ice_kg;
    double water_c;
    DW_TRY(dw_reading_newest(call, batch_id, DW_READ_WATER, &water_c, &read));
    if (read)
        inputs->water_c = water_c;
    dw_heat_learned taught;
    dw_err no_lesson; /* a reading that explains nothing is still a reading */
    if (dw_heat_learn(inputs, &taught, &no_lesson) != DW_OK)
        return DW_OK;
    card.batch.has_work_j_per_kg_dough = card.batch.has_sd_j_per_kg = true;
    card.batch.work_j_per_kg_dough = taught.work_j_per_kg_dough;
    card.batch.sd_j_per_kg = taught.sd_j_per_kg;
    return dw_batch_keep(call, &card.batch);
}

dw_status dw_reading_keep(dw_call *call, const dw_reading_row *read)
{
    dw_reading_row row = *read;
    row.received_ms = call->now_ms;
    row.person_id = call->person_id;
    row.device = call->device;
    DW_TRY(dw_row_save(call, "reading", &dw_reading_noun, &row, NULL));
    if (row.batch_id != 0 && row.kind == DW_READ_DOUGH)
        return learn(call, row.batch_id, row.celsius);
    return DW_OK;
}

/* ---- boxes --------------------------------------------------------------- */

static const dw_field boxed_piece_fields[] = {
    DW_F_WHOLE(dw_batch_piece, id, "", 1, 9007199254740991.0, "which piece"),
    DW_F_WHOLE(dw_batch_piece, balls_made, "", 0, 100000, "how many came"),
};
const dw_shape dw_boxed_piece_shape = DW_SHAPE(
    "boxed_piece", dw_batch_piece, boxed_piece_fields, "balls that came");

dw_status dw_first_cold_room(dw_call *call, int64_t *id)
{
    dw_cold_room *rooms;
    size_t n;
    DW_TRY(dw_rows_get(call, "cold_room", &dw_cold_room_noun, NULL, 0, "id",
                       &rooms, &n));
    *id = n > 0 ? rooms[0].id : 0;
    return DW_OK;
}

/* By the life of its balls; where that cannot tell, by the trade's clock. */
static dw_status set_close_due(dw_call *call, const dw_shop *shop,
                               const dw_batch_row *batch,
                               const dw_batch_piece *piece,
                               const dw_product *product, dw_stack *stack)
{
    dw_stack_lives lives;
    dw_stack_close by_life;
    bool read, known;
    int none;
    size_t used = call->arena->used; /* nothing of it is kept */
    DW_TRY(dw_stack_lives_begin(call, shop, 0, 1, &lives));
    DW_TRY(dw_stack_close_of(&lives, stack, batch, product, &by_life,
                             &stack->close_by_life, &none));
    call->arena->used = used;
    if (stack->close_by_life) {
        stack->close_due_ms = by_life.by_ms;
        return DW_OK;
    }
    double dough_c = batch->dough_goal_c;
    DW_TRY(dw_reading_newest(call, batch->id, DW_READ_DOUGH, &dough_c, &read));
    dw_cold_close by_clock;
    DW_TRY(
        dw_close_hours(call, shop, piece->ball_kg, dough_c, &by_clock, &known));
    if (known)
        stack->close_due_ms =
            batch->last_box_ms + (int64_t)(by_clock.by_h * 3600000);
    return DW_OK;
}

static dw_status make_stack(dw_call *call, const dw_shop *shop,
                            const dw_batch_row *batch,
                            const dw_batch_piece *piece, int64_t cold_room_id)
{
    dw_product product;
    DW_TRY(dw_row_get(call, "product", &dw_product_noun, piece->product_id,
                      "product_id", &product));
    dw_cold_days days = dw_product_days(shop, &product);
    dw_stack stack = {.batch_id = batch->id,
                      .product_id = piece->product_id,
                      .cold_room_id = cold_room_id,
                      .mixing_day = batch->day,
                      .balls = piece->balls_made,
                      .opened_ms = batch->last_box_ms,
                      .closed_ms = batch->closed_ms,
                      .ready_day = batch->day + days.ready_day,
                      .best_day = batch->day + days.best_day,
                      .use_first_day = batch->day + days.use_first_day,
                      .last_day = batch->day + days.last_day};
    stack.boxes =
        (piece->balls_made + product.balls_per_box - 1) / product.balls_per_box;
    DW_TRY(set_close_due(call, shop, batch, piece, &product, &stack));
    return dw_row_save(call, "stack", &dw_stack_noun, &stack, NULL);
}

static dw_status set_made(dw_call *call, const dw_batch_row *batch,
                          const dw_batch_piece *made)
{
    dw_batch_piece piece;
    DW_TRY(dw_row_get(call, "batch_piece", &dw_batch_piece_noun, made->id,
                      "pieces.id", &piece));
    if (piece.batch_id != batch->id)
        return dw_fail_says(call->err, DW_E_CONFLICT, "pieces.id", NULL,
                            DW_MSG("belongs to another batch"));
    DW_TRY(dw_check_balls(call, batch, &piece, made->balls_made));
    piece.has_balls_made = true;
    piece.balls_made = made->balls_made;
    return dw_row_save(call, "batch_piece", &dw_batch_piece_noun, &piece, NULL);
}

/* The stacks of a batch anew, from every piece that came, told now or before.
 */
static dw_status make_stacks(dw_call *call, const dw_batch_row *batch)
{
    dw_shop shop;
    int64_t cold_room_id;
    DW_TRY(dw_shop_get(call, &shop));
    DW_TRY(dw_first_cold_room(call, &cold_room_id));
    dw_status deleted =
        dw_store_delete(call->store, "stack", "batch_id", batch->id, call->err);
    if (deleted == DW_E_CONFLICT)
        return dw_fail_says(call->err, DW_E_CONFLICT, "batch_id", NULL,
                            DW_MSG("has balls that were moved already; "
                                   "count what is there"));
    DW_TRY(deleted);
    dw_batch_piece *pieces;
    size_t n;
    DW_TRY(dw_rows_get(call, "batch_piece", &dw_batch_piece_noun, "batch_id",
                       batch->id, "position", &pieces, &n));
    for (size_t i = 0; i < n; i++)
        if (pieces[i].has_balls_made && pieces[i].balls_made > 0)
            DW_TRY(make_stack(call, &shop, batch, &pieces[i], cold_room_id));
    return DW_OK;
}

dw_status dw_batch_box(dw_call *call, dw_batch_row *batch,
                       const dw_batch_piece *made, size_t made_count,
                       int64_t first_ms, int64_t last_ms)
{
    if (first_ms > last_ms)
        return dw_fail_says(call->err, DW_E_SUM, "last_box_ms", NULL,
                            DW_MSG("is before the first box"));
    if (first_ms < batch->started_ms)
        return dw_fail_says(call->err, DW_E_SUM, "first_box_ms", NULL,
                            DW_MSG("is before the mixer started"));
    DW_TRY(dw_check_rests(call, batch));
    batch->first_box_ms = first_ms;
    batch->last_box_ms = last_ms;
    if (batch->state < DW_BATCH_BOXED)
        batch->state = DW_BATCH_BOXED;
    for (size_t i = 0; i < made_count; i++)
        DW_TRY(set_made(call, batch, &made[i]));
    DW_TRY(make_stacks(call, batch));
    dw_stack *stacks;
    size_t n;
    DW_TRY(dw_rows_get(call, "stack", &dw_stack_noun, "batch_id", batch->id,
                       "close_due_ms DESC", &stacks, &n));
    batch->close_due_ms = n > 0 ? stacks[0].close_due_ms : 0;
    return dw_batch_keep(call, batch);
}

/* at_ms 0: they are open. */
static dw_status set_closed(dw_call *call, dw_batch_row *batch, int64_t at_ms)
{
    dw_stack *stacks;
    size_t n;
    DW_TRY(dw_rows_get(call, "stack", &dw_stack_noun, "batch_id", batch->id,
                       "id", &stacks, &n));
    for (size_t i = 0; i < n; i++) {
        stacks[i].closed_ms = at_ms;
        DW_TRY(dw_row_save(call, "stack", &dw_stack_noun, &stacks[i], NULL));
    }
    batch->closed_ms = at_ms;
    return dw_batch_keep(call, batch);
}

dw_status dw_batch_close(dw_call *call, dw_batch_row *batch, int64_t at_ms)
{
    batch->state = DW_BATCH_CLOSED;
    return set_closed(call, batch, at_ms);
}

dw_status dw_batch_reopen(dw_call *call, dw_batch_row *batch)
{
    if (batch->state == DW_BATCH_CLOSED)
        batch->state = batch->last_box_ms  ? DW_BATCH_BOXED
                       : batch->stopped_ms ? DW_BATCH_MIXED
                                           : DW_BATCH_MIXING;
    return set_closed(call, batch, 0);
}

/* ---- weighings ----------------------------------------------------------- */

/* Kept dough must not hold dough of the batch that it goes into. */
static dw_status check_source(dw_call *call, const dw_material_lot *lot,
                              int64_t batch_id)
{
    dw_trace_found found;
    DW_TRY(dw_trace_find(call, &(dw_trace_asked){.lot_id = lot->id}, &found));
    for (size_t i = 0; i < found.backward_count; i++) {
        const dw_trace_node *node = &found.nodes[found.backward[i].node];
        if (node->kind == DW_TRACE_BATCH && node->id == batch_id)
            return dw_fail_says(call->err, DW_E_CONFLICT, "lot_id", lot->code,
                                DW_MSG("was made of this batch"));
    }
    return DW_OK;
}

/* A lot must be of the material that is weighed. */
static dw_status check_lot(dw_call *call, int64_t lot_id,
                           const dw_batch_weighing *row)
{
    dw_material_lot lot;
    dw_material material;
    DW_TRY(dw_row_get(call, "material_lot", &dw_material_lot_noun, lot_id,
                      "lot_id", &lot));
    DW_TRY(dw_row_get(call, "material", &dw_material_noun, lot.material_id,
                      "lot_id", &material));
    if (!dw_text_is(material.name, row->material))
        return dw_fail_says(call->err, DW_E_CONFLICT, "lot_id", material.name,
                            DW_MSG("is a lot of another material"));
    return lot.source_batch_id ? check_source(call, &lot, row->batch_id)
                               : DW_OK;
}

static dw_status say_weighed(dw_call *call, const dw_batch_weighing *row,
                             const char **said)
{
    dw_shop shop;
    dw_scale_row scale = {.division_kg = 0};
    dw_weighing weighing;
    *said = NULL;
    DW_TRY(dw_shop_get(call, &shop));
    if (row->scale_id)
        DW_TRY(dw_row_get(call, "scale", &dw_scale_noun, row->scale_id,
                          "scale_id", &scale));
    DW_TRY(dw_slip_weighed(row->planned_kg, row->weighed_kg, scale.division_kg,
                           &weighing, call->err));
    if (weighing.code == DW_WEIGHED_FITS)
        return DW_OK;
    *said = dw_say_weighing(call->arena, call->lang, row->material,
                            row->planned_kg, row->weighed_kg, &weighing,
                            shop.units == DW_UNITS_US ? DW_US : DW_METRIC);
    return *said ? DW_OK : dw_fail(call->err, DW_E_ROOM, "weighing", NULL);
}

dw_status dw_weighing_keep(dw_call *call, int64_t weighing_id,
                           bool has_weighed_kg, double weighed_kg,
                           int64_t lot_id, int64_t at_ms, const char **said)
{
    dw_batch_weighing row;
    dw_batch_row batch;
    DW_TRY(dw_row_get(call, "batch_weighing", &dw_batch_weighing_noun,
                      weighing_id, "weighing_id", &row));
    DW_TRY(dw_batch_open(call, row.batch_id, &batch));
    if (lot_id != 0)
        DW_TRY(check_lot(call, lot_id, &row));
    row.has_weighed_kg = has_weighed_kg;
    row.weighed_kg = weighed_kg;
    row.lot_id = lot_id;
    row.at_ms = has_weighed_kg ? at_ms : 0;
    row.person_id = has_weighed_kg ? call->person_id : 0;
    DW_TRY(dw_row_save(call, "batch_weighing", &dw_batch_weighing_noun, &row,
                       NULL));
    *said = NULL;
    return has_weighed_kg ? say_weighed(call, &row, said) : DW_OK;
}
