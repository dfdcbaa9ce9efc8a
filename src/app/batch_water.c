/* The water of a batch: today's readings, the bowl, what batches taught, put
 * into the heat balance. */
#include "app/batches.h"

#include "app/said.h"

#include "doughwright/runsheet.h"

/* A shop's reading serves its batches for this long (common practice, no
 * source); a bowl that stood longer is at the room's temperature. */
#define READING_KEPT_MS (18 * 3600000LL)
#define BOWL_WARM_MS (4 * 3600000LL)
/* What is taken when nobody read a thermometer. */
#define ROOM_USUAL_C 22
#define TAP_USUAL_C 18

dw_status dw_reading_newest(dw_call *call, int64_t batch_id, int kind,
                            double *celsius, bool *found)
{
    dw_reading_row *rows;
    size_t n;
    int64_t since_ms = batch_id ? 0 : call->now_ms - READING_KEPT_MS;
    *found = false;
    DW_TRY(dw_store_readings_newest(call->store, batch_id, kind, since_ms,
                                    call->arena, &rows, &n, call->err));
    if (n > 0) {
        *celsius = rows[0].celsius;
        *found = true;
    }
    return DW_OK;
}

dw_status dw_reading_or(dw_call *call, int64_t batch_id, int kind, double usual,
                        double *celsius, bool *found)
{
    DW_TRY(dw_reading_newest(call, batch_id, kind, celsius, found));
    if (!*found && batch_id != 0)
        DW_TRY(dw_reading_newest(call, 0, kind, celsius, found));
    if (!*found)
        *celsius = usual;
    return DW_OK;
}

/* The bowl: read, or as warm as the dough that left it just before. */
static dw_status fill_bowl(dw_call *call, const dw_batch_row *batch,
                           dw_heat_mix *mix, dw_card_water *water)
{
    dw_mixer_row mixer = {.bowl_kg = 0};
    if (batch->mixer_id)
        DW_TRY(dw_row_get(call, "mixer", &dw_mixer_noun, batch->mixer_id,
                          "mixer_id", &mixer));
    mix->bowl_kg = mixer.bowl_kg;
    mix->has_bowl_c = true;
    mix->bowl_c = mix->room_c;
    DW_TRY(dw_reading_newest(call, batch->id, DW_READ_BOWL, &mix->bowl_c,
                             &water->bowl_read));
    if (water->bowl_read || !batch->mixer_id)
        return DW_OK;
    int64_t until = batch->started_ms ? batch->started_ms : call->now_ms;
    dw_batch_row *before;
    size_t n;
    DW_TRY(dw_store_batches_stopped(call->store, batch->mixer_id,
                                    until - BOWL_WARM_MS, until, call->arena,
                                    &before, &n, call->err));
    if (n == 0 || before[0].id == batch->id)
        return DW_OK;
    double dough_c;
    DW_TRY(dw_reading_newest(call, before[0].id, DW_READ_DOUGH, &dough_c,
                             &water->warm_bowl));
    double idle = (double)(until - before[0].stopped_ms) / 60000;
    if (water->warm_bowl)
        mix->bowl_c =
            dw_run_bowl_c(mix->room_c, dough_c, idle, DW_RUN_BOWL_MINUTES);
    return DW_OK;
}

dw_status dw_work_learned(dw_call *call, const dw_batch_row *batch,
                          int64_t formula_id, dw_estimate *estimate)
{
    dw_batch_taught *rows;
    size_t n;
    DW_TRY(dw_store_batches_taught(call->store, batch->mixer_id, batch->id,
                                   call->arena, &rows, &n, call->err));
    dw_learned *own = DW_NEW(call->arena, dw_learned);
    dw_learned *others = DW_NEW(call->arena, dw_learned);
    if (!own || !others)
        return dw_fail(call->err, DW_E_ROOM, "water", NULL);
    for (size_t i = 0; i < n; i++) {
        dw_reading taught = {rows[i].work_j_per_kg_dough, rows[i].sd_j_per_kg};
        double longer = rows[i].mixer_minutes - batch->mixer_minutes;
        bool same = rows[i].formula_id == formula_id && longer > -1 &&
                    longer < 1; /* minutes of one card are exact to one */
        DW_TRY(dw_learn_update(same ? own : others, &taught, call->err));
    }
    dw_learn_estimate(own, others, estimate);
    return DW_OK;
}

/* What the shop reads before the mix. */
static dw_status fill_mix(dw_call *call, const dw_recipe *recipe,
                          const dw_batch_row *batch, dw_heat_mix *mix,
                          dw_card_water *water)
{
    dw_shape_preset(&dw_heat_mix_shape, mix);
    DW_TRY(dw_formula_watered(call, &recipe->formula, batch->lot_water_percent,
                              &mix->formula));
    mix->flour_kg = batch->flour_kg;
    mix->goal_c = batch->dough_goal_c;
    DW_TRY(dw_reading_or(call, batch->id, DW_READ_ROOM, ROOM_USUAL_C,
                         &mix->room_c, &water->room_read));
    DW_TRY(dw_reading_or(call, batch->id, DW_READ_FLOUR, mix->room_c,
                         &mix->flour_c, &water->flour_read));
    DW_TRY(dw_reading_or(call, batch->id, DW_READ_TAP, TAP_USUAL_C, &mix->tap_c,
                         &water->tap_read));
    DW_TRY(fill_bowl(call, batch, mix, water));
    DW_TRY(dw_work_learned(call, batch, recipe->formula_id, &water->work));
    mix->work_j_per_kg_dough = water->work.work_j_per_kg_dough > 0
                                   ? water->work.work_j_per_kg_dough
                                   : 0;
    return DW_OK;
}

dw_status dw_card_water_fill(dw_call *call, const dw_recipe *recipe,
                             dw_card *card)
{
    dw_card_water *water = &card->water;
    dw_heat_mix mix;
    DW_TRY(fill_mix(call, recipe, &card->batch, &mix, water));
    /* a card without an answer is still a card */
    dw_err no_answer;
    double wetting_kg;
    water->has_answer =
        dw_heat_batch_of(&mix, call->arena, &water->inputs, &wetting_kg,
                         &no_answer) == DW_OK &&
        dw_heat_water(&water->inputs, &water->answer, &no_answer) == DW_OK;
    if (!water->has_answer)
        return DW_OK;
    DW_TRY(dw_said_notes(call, water->answer.warnings,
                         water->answer.warnings_count));
    return dw_said_why(call, &water->answer.why);
}
