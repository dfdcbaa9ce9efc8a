/* The water of a batch: today's readings, the bowl, what batches taught, put
 * into the heat balance. */
#include "app/batches.h"

#include "doughwright/constants.h"
#include "doughwright/runsheet.h"
#include "doughwright/yeast.h"

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
    *found = false;
    DW_TRY(dw_store_readings_newest(call->store, batch_id, kind,
                                    call->now_ms - READING_KEPT_MS, call->arena,
                                    &rows, &n, call->err));
    if (n > 0) {
        *celsius = rows[0].celsius;
        *found = true;
    }
    return DW_OK;
}

/* The batch's own reading, else the shop's, else `usual`. */
static dw_status read_or(dw_call *call, int64_t batch_id, int kind,
                         double usual, double *celsius, bool *found)
{
    DW_TRY(dw_reading_newest(call, batch_id, kind, celsius, found));
    if (!*found && batch_id != 0)
        DW_TRY(dw_reading_newest(call, 0, kind, celsius, found));
    if (!*found)
        *celsius = usual;
    return DW_OK;
}

static double cp_of(int kind, double water_percent)
{
    switch (kind) {
    case DW_FLOUR:
    case DW_GLUTEN:
    case DW_MALT: return DW_FLOUR_CP;
    case DW_SALT: return DW_SALT_CP;
    case DW_SUGAR: return DW_SUGAR_CP;
    case DW_FAT: return DW_OIL_CP;
    default: break;
    }
    double water = water_percent / 100; /* the dry rest as flour */
    return water * DW_WATER_CP + (1 - water) * DW_FLOUR_CP;
}

static int yeast_of(const dw_formula *formula)
{
    for (size_t i = 0; i < formula->lines_count; i++)
        switch (formula->lines[i].kind) {
        case DW_YEAST_FRESH: return DW_HEAT_YEAST_FRESH;
        case DW_YEAST_ACTIVE_DRY: return DW_HEAT_YEAST_ACTIVE_DRY;
        case DW_YEAST_INSTANT: return DW_HEAT_YEAST_INSTANT;
        default: break;
        }
    return DW_HEAT_YEAST_NOT_TOLD;
}

/* Every line that is not water is a part of the balance; the water that wets
 * active dry yeast leaves the water and joins the parts, warm. */
static dw_status fill_parts(dw_call *call, const dw_formula *formula,
                            double flour_kg, double flour_c, double room_c,
                            dw_heat_batch *inputs)
{
    size_t most = formula->lines_count + 1;
    inputs->parts = DW_NEW_ARRAY(call->arena, dw_heat_part, most);
    if (!inputs->parts)
        return dw_fail(call->err, DW_E_ROOM, "water", NULL);
    for (size_t i = 0; i < formula->lines_count; i++) {
        const dw_line *line = &formula->lines[i];
        double kg = flour_kg * line->percent / 100;
        if (line->kind == DW_WATER) {
            inputs->water_kg += kg;
            continue;
        }
        if (kg <= 0)
            continue;
        dw_water_from from;
        double wet =
            line->kind == DW_DOUGH ? 40 : dw_line_water_percent(line, &from);
        bool flour = line->kind == DW_FLOUR;
        inputs->parts[inputs->parts_count++] = (dw_heat_part){
            kg, cp_of(line->kind, wet), flour ? flour_c : room_c};
        if (flour)
            inputs->flour_kg += kg;
        if (line->kind == DW_YEAST_ACTIVE_DRY) {
            dw_heat_part wetting;
            DW_TRY(dw_heat_wetting(kg, inputs->water_kg, &wetting, call->err));
            inputs->parts[inputs->parts_count++] = wetting;
            inputs->water_kg -= wetting.kg;
        }
    }
    return DW_OK;
}

/* The bowl: read, or as warm as the dough that left it just before. */
static dw_status fill_bowl(dw_call *call, const dw_batch_row *batch,
                           double room_c, dw_card_water *water)
{
    dw_mixer_row mixer = {.bowl_kg = 0};
    if (batch->mixer_id)
        DW_TRY(dw_row_get(call, "mixer", &dw_mixer_noun, batch->mixer_id,
                          "mixer_id", &mixer));
    water->inputs.bowl_kg = mixer.bowl_kg;
    water->inputs.bowl_cp_j_per_kg_k = DW_STEEL_CP;
    water->inputs.bowl_c = room_c;
    DW_TRY(dw_reading_newest(call, batch->id, DW_READ_BOWL,
                             &water->inputs.bowl_c, &water->bowl_read));
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
        water->inputs.bowl_c =
            dw_run_bowl_c(room_c, dough_c, idle, DW_RUN_BOWL_MINUTES);
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

dw_status dw_card_water_fill(dw_call *call, const dw_recipe *recipe,
                             dw_card *card)
{
    const dw_batch_row *batch = &card->batch;
    dw_card_water *water = &card->water;
    dw_heat_batch *inputs = &water->inputs;
    dw_shape_preset(&dw_heat_water_shape, inputs);
    inputs->goal_c = batch->dough_goal_c;
    DW_TRY(read_or(call, batch->id, DW_READ_ROOM, ROOM_USUAL_C, &inputs->room_c,
                   &water->room_read));
    DW_TRY(read_or(call, batch->id, DW_READ_FLOUR, inputs->room_c,
                   &inputs->flour_c, &water->flour_read));
    DW_TRY(read_or(call, batch->id, DW_READ_TAP, TAP_USUAL_C, &inputs->tap_c,
                   &water->tap_read));
    inputs->has_room_c = inputs->has_flour_c = true;
    inputs->yeast = yeast_of(&recipe->formula);
    inputs->hydration_j_per_kg_flour = DW_HYDRATION;
    DW_TRY(fill_parts(call, &recipe->formula, batch->flour_kg, inputs->flour_c,
                      inputs->room_c, inputs));
    DW_TRY(fill_bowl(call, batch, inputs->room_c, water));
    DW_TRY(dw_work_learned(call, batch, recipe->formula_id, &water->work));
    inputs->work_j_per_kg_dough = water->work.work_j_per_kg_dough > 0
                                      ? water->work.work_j_per_kg_dough
                                      : 0;
    dw_err unreachable; /* a card without an answer is still a card */
    water->has_answer =
        inputs->water_kg > 0 &&
        dw_heat_water(inputs, &water->answer, &unreachable) == DW_OK;
    return DW_OK;
}
