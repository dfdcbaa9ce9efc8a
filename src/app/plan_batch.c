/* One batch of the plan: what is weighed on which scale, and the steps of its
 * card. */
#include "app/plan.h"

#include "doughwright/procedure.h"

#include <math.h>

static dw_status no_room(dw_call *call)
{
    return dw_fail(call->err, DW_E_ROOM, "plan", NULL);
}

typedef struct scales {
    dw_scale_row *rows;
    dw_scale *at; /* the engine's */
    size_t count;
} scales;

static dw_status read_scales(dw_call *call, scales *list)
{
    dw_scale_row *rows;
    size_t n;
    DW_TRY(
        dw_rows_get(call, "scale", &dw_scale_noun, NULL, 0, "id", &rows, &n));
    list->rows = DW_NEW_ARRAY(call->arena, dw_scale_row, n);
    list->at = DW_NEW_ARRAY(call->arena, dw_scale, n);
    list->count = 0;
    if (!list->rows || !list->at)
        return no_room(call);
    for (size_t i = 0; i < n && list->count < DW_WEIGH_SCALES; i++) {
        if (!rows[i].here)
            continue;
        list->rows[list->count] = rows[i];
        list->at[list->count++] =
            (dw_scale){rows[i].name, rows[i].capacity_kg, rows[i].division_kg};
    }
    return DW_OK;
}

/* The bag a material comes in, by its name; 0 when it is not known. */
static double pack_of(const dw_material *materials, size_t count,
                      const char *name)
{
    for (size_t i = 0; i < count; i++)
        if (materials[i].here && materials[i].has_pack_kg &&
            dw_text_is(materials[i].name, name))
            return materials[i].pack_kg;
    return 0;
}

/* What one bowl gets of each line. */
typedef struct portion {
    int64_t stage_position;
    const dw_line *lines;
    double *kg;
    size_t count;
} portion;

/* The stages first, for they are made first; then the final mix. */
static dw_status portions_of(dw_call *call, const dw_formula *formula,
                             double flour_kg, portion **list, size_t *count)
{
    size_t n = formula->stages_count + 1;
    portion *out = DW_NEW_ARRAY(call->arena, portion, n);
    if (!out)
        return no_room(call);
    for (size_t i = 0; i < formula->stages_count; i++) {
        const dw_stage *stage = &formula->stages[i];
        double flour = flour_kg * stage->flour_percent / 100;
        out[i] =
            (portion){(int64_t)i + 1, stage->lines,
                      DW_NEW_ARRAY(call->arena, double, stage->lines_count),
                      stage->lines_count};
        if (!out[i].kg)
            return no_room(call);
        for (size_t j = 0; j < stage->lines_count; j++)
            out[i].kg[j] = flour * stage->lines[j].percent / 100;
    }
    portion *last = &out[n - 1];
    *last = (portion){0, formula->lines,
                      DW_NEW_ARRAY(call->arena, double, formula->lines_count),
                      formula->lines_count};
    if (!last->kg)
        return no_room(call);
    DW_TRY(dw_formula_split(formula, last->kg, call->err));
    for (size_t j = 0; j < last->count; j++)
        last->kg[j] *= flour_kg / 100;
    *list = out;
    *count = n;
    return DW_OK;
}

/* A bag of minors that serves this flour and is not too old. */
static dw_status find_bag(dw_call *call, const dw_plan_batch *batch,
                          dw_minors_lot *bag, bool *found)
{
    dw_minors_lot *lots;
    size_t n;
    *found = false;
    DW_TRY(dw_rows_get(call, "minors_lot", &dw_minors_lot_noun, "version_id",
                       batch->batch.version_id, "made_day, id", &lots, &n));
    for (size_t i = 0; i < n && !*found; i++) {
        double off = lots[i].flour_kg - batch->batch.flour_kg;
        *found = lots[i].left_count > 0 &&
                 lots[i].discard_day > batch->batch.day && off < 1e-6 &&
                 off > -1e-6;
        if (*found)
            *bag = lots[i];
    }
    return DW_OK;
}

/* The bag stands for the minors it holds and for its diluent flour. */
static void take_into_bag(const dw_minors_lot *bag, portion *final_mix)
{
    bool diluent_taken = false;
    for (size_t j = 0; j < final_mix->count; j++) {
        const dw_line *line = &final_mix->lines[j];
        if (dw_minors_takes(line)) {
            final_mix->kg[j] = 0;
        } else if (line->kind == DW_FLOUR && !diluent_taken) {
            final_mix->kg[j] -= bag->diluent_kg;
            diluent_taken = true;
        }
    }
}

/* Weigh one portion and append its rows. */
static dw_status weigh_portion(dw_call *call, const portion *one,
                               const scales *on, dw_plan_batch *batch,
                               dw_notes *notes)
{
    dw_material *materials;
    size_t materials_count;
    DW_TRY(dw_rows_get(call, "material", &dw_material_noun, NULL, 0, "id",
                       &materials, &materials_count));
    dw_weigh_request request = {.scales = on->at, .scales_count = on->count};
    request.tolerance_percent = 1;
    request.lines = DW_NEW_ARRAY(call->arena, dw_weigh_line, one->count);
    if (!request.lines)
        return no_room(call);
    for (size_t j = 0; j < one->count; j++) {
        if (one->kg[j] <= 0)
            continue;
        double pack =
            pack_of(materials, materials_count, one->lines[j].material);
        request.lines[request.lines_count++] =
            (dw_weigh_line){one->lines[j].material, one->lines[j].kind,
                            one->kg[j], pack > 0, pack};
    }
    dw_weigh_reply weighed;
    DW_TRY(dw_weigh_split(&request, call->arena, call->err, &weighed));
    for (size_t j = 0; j < weighed.rows_count; j++) {
        const dw_weigh_row *row = &weighed.rows[j];
        int64_t scale_id = 0;
        for (size_t k = 0; k < on->count; k++)
            if (row->scale == on->at[k].name)
                scale_id = on->rows[k].id;
        size_t n = batch->weighings_count++;
        batch->weighings[n] =
            (dw_batch_weighing){.position = (int64_t)n + 1,
                                .stage_position = one->stage_position,
                                .material = row->material,
                                .kind = row->kind,
                                .scale_id = scale_id,
                                .whole_bags = row->bags,
                                .bag_kg = row->bag_kg,
                                .exact_kg = row->wanted_kg,
                                .planned_kg = row->weighed_kg};
    }
    for (size_t j = 0; j < weighed.notes_count; j++)
        if (notes->count < notes->room)
            notes->at[notes->count++] = weighed.notes[j];
    return DW_OK;
}

static dw_status weigh(dw_call *call, const dw_formula *formula,
                       const dw_minors_lot *bag, dw_plan_batch *batch,
                       dw_notes *notes)
{
    scales on;
    portion *portions = NULL;
    size_t n = 0, most = 1;
    DW_TRY(read_scales(call, &on));
    if (on.count == 0)
        return dw_fail(call->err, DW_E_MISSING, "scales", NULL);
    DW_TRY(portions_of(call, formula, batch->batch.flour_kg, &portions, &n));
    for (size_t i = 0; i < n; i++)
        most += portions[i].count;
    batch->weighings = DW_NEW_ARRAY(call->arena, dw_batch_weighing, most);
    if (!batch->weighings)
        return no_room(call);
    if (bag)
        take_into_bag(bag, &portions[n - 1]);
    for (size_t i = 0; i < n; i++)
        DW_TRY(weigh_portion(call, &portions[i], &on, batch, notes));
    if (!bag)
        return DW_OK;
    size_t at = batch->weighings_count++;
    batch->weighings[at] = (dw_batch_weighing){.position = (int64_t)at + 1,
                                               .material = "minors bag",
                                               .kind = DW_OTHER,
                                               .whole_bags = 1,
                                               .bag_kg = bag->target_kg,
                                               .exact_kg = bag->target_kg,
                                               .planned_kg = bag->target_kg};
    return DW_OK;
}

static dw_status make_card(dw_call *call, const dw_shop *shop,
                           const dw_recipe *recipe, const dw_mixer_row *mixer,
                           const dw_minors_lot *bag, dw_plan_batch *batch,
                           dw_card_reply *card)
{
    dw_card_request request;
    dw_shape_preset(&dw_card_request_shape, &request);
    request.formula = recipe->formula;
    request.flour_kg = batch->batch.flour_kg;
    request.procedure.name = recipe->name;
    request.procedure.steps = recipe->steps;
    request.procedure.steps_count = recipe->steps_count;
    if (recipe->steps_count == 0)
        DW_TRY(dw_procedure_template(DW_TEMPLATE_DELAYED_OIL, call->arena,
                                     call->err, &request.procedure));
    request.mixer_second_speed = mixer->second_speed;
    request.has_dough_goal_c = true;
    request.dough_goal_c = recipe->dough_goal_c;
    request.release_oil_kg = shop->release_oil_kg;
    request.has_minors_bag = bag != NULL;
    if (bag)
        request.minors_bag.diluent_kg = bag->diluent_kg;
    request.pieces =
        DW_NEW_ARRAY(call->arena, dw_card_piece, batch->pieces_count);
    if (!request.pieces)
        return no_room(call);
    for (size_t i = 0; i < batch->pieces_count; i++)
        if (batch->pieces[i].piece.balls_planned > 0)
            request.pieces[request.pieces_count++] = (dw_card_piece){
                batch->pieces[i].name, batch->pieces[i].piece.ball_kg * 1000,
                batch->pieces[i].piece.balls_planned};
    return dw_procedure_card(&request, call->arena, call->err, card);
}

/* What the flour's open lot was seen to want beside the formula's water. */
static dw_status take_lot(dw_call *call, const dw_recipe *recipe,
                          dw_plan_batch *batch, dw_notes *notes)
{
    dw_material_lot lot;
    bool found;
    DW_TRY(dw_flour_lot(call, &recipe->formula, &lot, &found));
    if (!found)
        return DW_OK;
    batch->batch.flour_lot_id = lot.id;
    batch->batch.lot_water_percent = lot.water_correction_percent;
    batch->batch.dough_kg +=
        batch->batch.flour_kg * lot.water_correction_percent / 100;
    if (lot.water_correction_percent != 0 && notes->count < notes->room)
        dw_note_value(notes, DW_NOTE_INFO,
                      lot.water_correction_percent > 0 ? "lot_wants_water"
                                                       : "lot_wants_less_water",
                      lot.code, fabs(lot.water_correction_percent));
    return DW_OK;
}

dw_status dw_plan__fill(dw_call *call, const dw_shop *shop,
                        const dw_recipe *recipe, const dw_mixer_row *mixer,
                        bool bag_of_minors, dw_plan_batch *batch,
                        dw_notes *notes)
{
    dw_recipe watered = *recipe;
    DW_TRY(take_lot(call, recipe, batch, notes));
    DW_TRY(dw_formula_watered(call, &recipe->formula,
                              batch->batch.lot_water_percent,
                              &watered.formula));
    dw_minors_lot lot;
    bool found = false;
    if (bag_of_minors)
        DW_TRY(find_bag(call, batch, &lot, &found));
    const dw_minors_lot *bag = found ? &lot : NULL;
    batch->batch.bag_of_minors = found;
    batch->batch.minors_lot_id = found ? lot.id : 0;
    DW_TRY(weigh(call, &watered.formula, bag, batch, notes));
    dw_card_reply card;
    DW_TRY(make_card(call, shop, &watered, mixer, bag, batch, &card));
    batch->steps = DW_NEW_ARRAY(call->arena, dw_batch_step, card.steps_count);
    if (!batch->steps)
        return no_room(call);
    batch->steps_count = card.steps_count;
    for (size_t i = 0; i < card.steps_count; i++)
        batch->steps[i] =
            (dw_batch_step){.position = (int64_t)i + 1, .step = card.steps[i]};
    batch->batch.mixer_minutes = card.mixer_minutes;
    batch->batch.absorption_percent = card.absorption_percent;
    batch->dough_out_min = card.dough_out_min;
    for (size_t i = 0; i < card.notes_count; i++)
        if (notes->count < notes->room)
            notes->at[notes->count++] = card.notes[i];
    return DW_OK;
}
