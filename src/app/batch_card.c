/* A batch read whole, for the card, the book and the paper. */
#include "app/batches.h"

#include "app/said.h"
#include "app/stack_life.h"
#include "app/stock.h"
#include "app/taught.h"

/* ---- shapes -------------------------------------------------------------- */

static const dw_field cut_fields[] = {
    DW_F_ONE(dw_card_cut, piece, &dw_batch_piece_noun, "the piece"),
    DW_F_TEXT(dw_card_cut, name, 60, "its product"),
    DW_F_WHOLE(dw_card_cut, balls_per_box, "", 0, 200, "in a full box"),
    DW_F_WHOLE(dw_card_cut, boxes, "", 0, 100000, "for the planned balls"),
    DW_F_WHOLE(dw_card_cut, in_part_box, "", 0, 200,
               "balls in the box that is not full; 0: all are"),
};
const dw_shape dw_card_cut_shape =
    DW_SHAPE("card_cut", dw_card_cut, cut_fields, "what a batch is cut into");

static const dw_field weighing_fields[] = {
    DW_F_ONE(dw_card_weighing, weighing, &dw_batch_weighing_noun, "the row"),
    DW_F_TEXT_OPT(dw_card_weighing, stage, 60, "for which preferment"),
    DW_F_TEXT_OPT(dw_card_weighing, scale, 60, "on which scale"),
    DW_F_TEXT_OPT(dw_card_weighing, lot, 40, "from which lot"),
    DW_F_REAL(dw_card_weighing, division_kg, "kg", 0, 5,
              "the scale's smallest step"),
    DW_F_MANY_OPT(dw_card_weighing, loads, &dw_weigh_load_shape, 2,
                  "what the scale shows, load by load; whole bags are not"),
};
static const dw_shape weighing_shape = DW_SHAPE(
    "card_weighing", dw_card_weighing, weighing_fields, "one weighing");

static const dw_field water_fields[] = {
    {"inputs", DW_ONE, false, "", 0, 0, 0, offsetof(dw_card_water, inputs),
     offsetof(dw_card_water, has_answer), DW_NOWHERE, NULL,
     &dw_heat_water_shape, "what was put in"},
    DW_F_ONE_OPT(dw_card_water, answer, &dw_heat_answer_shape,
                 "null when the goal cannot be reached"),
    DW_F_ONE(dw_card_water, work, &dw_estimate_shape, "what batches taught"),
    DW_F_YES(dw_card_water, flour_read, false, "else the room's was taken"),
    DW_F_YES(dw_card_water, room_read, false, "else 22 degC was taken"),
    DW_F_YES(dw_card_water, tap_read, false, "else 18 degC was taken"),
    DW_F_YES(dw_card_water, bowl_read, false, "else worked out"),
    DW_F_YES(dw_card_water, warm_bowl, false, "warm from the batch before"),
};
static const dw_shape water_shape =
    DW_SHAPE("card_water", dw_card_water, water_fields, "today's water");

static const dw_field clock_fields[] = {
    DW_F_WHOLE_OPT(dw_card_clock, box_by_ms, "ms", 0, 9007199254740991.0,
                   "last box in the cold room by then"),
    DW_F_YES(dw_card_clock, has_close, false, "are the close times known"),
    DW_F_MOMENT(dw_card_clock, close_from_ms, "core cold enough to close"),
    DW_F_MOMENT(dw_card_clock, close_by_ms, "close it by then"),
    DW_F_REAL(dw_card_clock, open_w_per_m2_k, "W/m2K", 0, 200,
              "of the open stack, by which that is reckoned"),
    DW_F_WHOLE(dw_card_clock, open_readings, "", 0, 1e9,
               "core probes it was learned from; 0: the shop's setting"),
    DW_F_ONE_OPT(dw_card_clock, life, &dw_stack_close_shape,
                 "when to close, by the life of the balls"),
    DW_F_CHOICE_OPT(dw_card_clock, no_life, dw_no_life_words,
                    "why their life cannot tell"),
    DW_F_WHOLE(dw_card_clock, ready_day, "d", 0, 84100, "first day of use"),
    DW_F_WHOLE(dw_card_clock, best_day, "d", 0, 84100, "best day"),
    DW_F_WHOLE(dw_card_clock, use_first_day, "d", 0, 84100, "then use first"),
    DW_F_WHOLE(dw_card_clock, last_day, "d", 0, 84100, "last day of use"),
};
static const dw_shape clock_shape =
    DW_SHAPE("card_clock", dw_card_clock, clock_fields,
             "the trade's clock, a rule of thumb, and that of the life");

static const dw_field totals_fields[] = {
    DW_F_REAL(dw_card_totals, flour_kg, "kg", 0, 1e5, "flour in the bowl"),
    DW_F_REAL(dw_card_totals, dough_kg, "kg", 0, 1e5, "dough in the bowl"),
    DW_F_REAL(dw_card_totals, total_percent, "percent", 0, 1e4, "of flour"),
    DW_F_REAL(dw_card_totals, hydration_percent, "percent", 0, 1e4,
              "water in everything, of flour"),
    DW_F_REAL(dw_card_totals, minors_kg, "kg", 0, 1e5,
              "the minors of the dough together, before they go in"),
    DW_F_REAL(dw_card_totals, release_oil_kg, "kg", 0, 10,
              "oil down the bowl side, outside the percentages"),
    DW_F_WHOLE(dw_card_totals, cost_minor, "minor units", 0, 1e12,
               "planned materials, release oil included"),
    DW_F_YES(dw_card_totals, cost_complete, false,
             "the price of every material is known"),
    DW_F_TEXT_OPT(dw_card_totals, allergens, 500,
                  "of its materials, as on the label"),
};
static const dw_shape totals_shape =
    DW_SHAPE("card_totals", dw_card_totals, totals_fields,
             "what is in the bowl, with all that was off");

static const dw_field window_fields[] = {
    DW_F_ONE(dw_card_window, planned, &dw_window_shape, "as planned"),
    DW_F_ONE(dw_card_window, in_bowl, &dw_window_shape,
             "of the dough as it is in the bowl"),
};
static const dw_shape window_shape =
    DW_SHAPE("card_window", dw_card_window, window_fields,
             "the heaviest ball's, hours from the mixer's stop");

static const dw_field card_fields[] = {
    DW_F_ONE(dw_card, batch, &dw_batch_noun, "the batch"),
    DW_F_TEXT(dw_card, formula_name, 80, "its formula"),
    DW_F_WHOLE(dw_card, version_number, "", 0, 100000, "its version"),
    DW_F_TEXT_OPT(dw_card, mixer_name, 60, "its mixer"),
    DW_F_TEXT_OPT(dw_card, person_name, 60, "who mixes"),
    DW_F_MANY_OPT(dw_card, pieces, &dw_card_cut_shape, 40,
                  "what it is cut into"),
    DW_F_MANY_OPT(dw_card, weighings, &weighing_shape, 400, "what is weighed"),
    DW_F_MANY_OPT(dw_card, steps, &dw_batch_step_noun, 400, "what is done"),
    DW_F_MANY_OPT(dw_card, sayings, &dw_card_saying_shape, 400,
                  "each step in words"),
    DW_F_MANY_OPT(dw_card, readings, &dw_reading_noun, 10000, "what was read"),
    DW_F_MANY_OPT(dw_card, changes, &dw_batch_change_noun, 10000,
                  "what was off"),
    DW_F_MANY_OPT(dw_card, stacks, &dw_stack_noun, 1000, "where it went"),
    DW_F_MANY_OPT(dw_card, verdicts, &dw_verdict_noun, 1000, "how it was"),
    DW_F_ONE(dw_card, water, &water_shape, "today's water"),
    DW_F_ONE(dw_card, clock, &clock_shape, "what is due when"),
    DW_F_ONE(dw_card, totals, &totals_shape, "what is in the bowl"),
    DW_F_ONE_OPT(dw_card, window, &window_shape,
                 "when the dough is otherwise than planned"),
    DW_F_TEXT_OPT(dw_card, new_flour_lot, 40,
                  "its code, when no batch of it is on record yet"),
    DW_F_TEXT_OPT(dw_card, message, 1000, "something to look at, or null"),
};
const dw_shape dw_card_shape =
    DW_SHAPE("card", dw_card, card_fields, "a batch, whole");

/* ---- rows ---------------------------------------------------------------- */

static dw_status no_room(dw_call *call)
{
    return dw_fail(call->err, DW_E_ROOM, "batch", NULL);
}

static dw_status read_pieces(dw_call *call, int64_t batch_id, dw_card *card)
{
    dw_batch_piece *rows;
    DW_TRY(dw_rows_get(call, "batch_piece", &dw_batch_piece_noun, "batch_id",
                       batch_id, "position", &rows, &card->pieces_count));
    card->pieces = DW_NEW_ARRAY(call->arena, dw_card_cut, card->pieces_count);
    if (!card->pieces)
        return no_room(call);
    for (size_t i = 0; i < card->pieces_count; i++) {
        dw_product product;
        DW_TRY(dw_row_get(call, "product", &dw_product_noun, rows[i].product_id,
                          "product_id", &product));
        dw_card_cut *cut = &card->pieces[i];
        cut->piece = rows[i];
        cut->name = product.name;
        cut->balls_per_box = product.balls_per_box;
        cut->in_part_box = rows[i].balls_planned % product.balls_per_box;
        cut->boxes = rows[i].balls_planned / product.balls_per_box +
                     (cut->in_part_box > 0);
    }
    return DW_OK;
}

/* What is not whole bags, in loads that the scale takes. */
static dw_status split_loads(dw_call *call, const dw_scale_row *row,
                             dw_card_weighing *one)
{
    const dw_batch_weighing *given = &one->weighing;
    double rest = given->planned_kg - (double)given->whole_bags * given->bag_kg;
    dw_scale scale = {row->name, row->capacity_kg, row->division_kg};
    dw_weigh_line line = {
        .material = given->material, .kind = given->kind, .kg = rest};
    dw_weigh_request request = {.lines = &line,
                                .lines_count = 1,
                                .scales = &scale,
                                .scales_count = 1,
                                .tolerance_percent = 1};
    dw_weigh_reply reply;
    if (!row->name || rest < row->division_kg / 2)
        return DW_OK;
    DW_TRY(dw_weigh_split(&request, call->arena, call->err, &reply));
    one->loads = reply.rows[0].loads;
    one->loads_count = reply.rows[0].loads_count;
    return DW_OK;
}

static dw_status read_weighings(dw_call *call, const dw_recipe *recipe,
                                int64_t batch_id, dw_card *card)
{
    dw_batch_weighing *rows;
    DW_TRY(dw_rows_get(call, "batch_weighing", &dw_batch_weighing_noun,
                       "batch_id", batch_id, "position", &rows,
                       &card->weighings_count));
    card->weighings =
        DW_NEW_ARRAY(call->arena, dw_card_weighing, card->weighings_count);
    if (!card->weighings)
        return no_room(call);
    for (size_t i = 0; i < card->weighings_count; i++) {
        dw_card_weighing *one = &card->weighings[i];
        dw_scale_row scale = {.division_kg = 0};
        dw_material_lot lot = {.code = NULL};
        if (rows[i].scale_id)
            DW_TRY(dw_row_get(call, "scale", &dw_scale_noun, rows[i].scale_id,
                              "scale_id", &scale));
        if (rows[i].lot_id)
            DW_TRY(dw_row_get(call, "material_lot", &dw_material_lot_noun,
                              rows[i].lot_id, "lot_id", &lot));
        int64_t stage = rows[i].stage_position;
        one->weighing = rows[i];
        one->scale = scale.name;
        one->division_kg = scale.division_kg;
        one->lot = lot.code;
        DW_TRY(split_loads(call, &scale, one));
        if (stage > 0 && (size_t)stage <= recipe->formula.stages_count)
            one->stage = recipe->formula.stages[stage - 1].name;
    }
    return DW_OK;
}

static dw_status say_steps(dw_call *call, dw_card *card)
{
    dw_card_step *steps =
        DW_NEW_ARRAY(call->arena, dw_card_step, card->steps_count);
    if (!steps)
        return no_room(call);
    for (size_t i = 0; i < card->steps_count; i++)
        steps[i] = card->steps[i].step;
    card->sayings_count = card->steps_count;
    return dw_said_card(call, steps, card->steps_count, &card->sayings);
}

static dw_status read_rest(dw_call *call, int64_t id, dw_card *card)
{
    DW_TRY(dw_rows_get(call, "batch_step", &dw_batch_step_noun, "batch_id", id,
                       "position", &card->steps, &card->steps_count));
    DW_TRY(say_steps(call, card));
    DW_TRY(dw_rows_get(call, "reading", &dw_reading_noun, "batch_id", id, "id",
                       &card->readings, &card->readings_count));
    DW_TRY(dw_rows_get(call, "batch_change", &dw_batch_change_noun, "batch_id",
                       id, "id", &card->changes, &card->changes_count));
    DW_TRY(dw_rows_get(call, "stack", &dw_stack_noun, "batch_id", id, "id",
                       &card->stacks, &card->stacks_count));
    return dw_rows_get(call, "verdict", &dw_verdict_noun, "batch_id", id, "id",
                       &card->verdicts, &card->verdicts_count);
}

static dw_status read_names(dw_call *call, dw_card *card)
{
    dw_mixer_row mixer = {.name = NULL};
    dw_person person = {.name = NULL};
    if (card->batch.mixer_id)
        DW_TRY(dw_row_get(call, "mixer", &dw_mixer_noun, card->batch.mixer_id,
                          "mixer_id", &mixer));
    if (card->batch.person_id)
        DW_TRY(dw_row_get(call, "person", &dw_person_noun,
                          card->batch.person_id, "person_id", &person));
    card->mixer_name = mixer.name;
    card->person_name = person.name;
    return DW_OK;
}

/* ---- what is in the bowl ------------------------------------------------- */

static dw_status fill_bowl(dw_call *call, const dw_shop *shop,
                           const dw_recipe *recipe, dw_card *card)
{
    dw_bowl bowl;
    DW_TRY(dw_bowl_read(call, shop, &card->batch, &recipe->formula, &bowl));
    card->totals =
        (dw_card_totals){.flour_kg = bowl.sum.flour_kg,
                         .dough_kg = bowl.sum.dough_kg,
                         .total_percent = bowl.sum.total_percent,
                         .hydration_percent = bowl.sum.hydration_percent};
    for (size_t i = 0; i < card->weighings_count; i++)
        if (dw_weigh_is_minor(card->weighings[i].weighing.kind) &&
            card->weighings[i].weighing.stage_position == 0)
            card->totals.minors_kg += card->weighings[i].weighing.planned_kg;
    if (bowl.off)
        DW_TRY(dw_card_window_fill(call, shop, &bowl, card));
    return dw_card_declare(call, &recipe->formula, card);
}

/* ---- the clock ----------------------------------------------------------- */

/* The heaviest ball decides when the stack may be closed. */
static double heaviest_kg(const dw_card *card)
{
    double kg = 0;
    for (size_t i = 0; i < card->pieces_count; i++)
        if (card->pieces[i].piece.ball_kg > kg)
            kg = card->pieces[i].piece.ball_kg;
    return kg;
}

static dw_status cold_air(dw_call *call, double *air_c)
{
    bool found;
    dw_cold_room *rooms;
    size_t n;
    *air_c = 3;
    DW_TRY(dw_rows_get(call, "cold_room", &dw_cold_room_noun, NULL, 0, "id",
                       &rooms, &n));
    if (n > 0)
        *air_c = rooms[0].air_c;
    double read_c;
    DW_TRY(dw_reading_newest(call, 0, DW_READ_COLD, &read_c, &found));
    if (found)
        *air_c = read_c;
    return DW_OK;
}

dw_status dw_close_hours(dw_call *call, const dw_shop *shop, double ball_kg,
                         double dough_c, dw_cold_close *close, bool *known)
{
    double air_c;
    dw_taught taught;
    DW_TRY(cold_air(call, &air_c));
    DW_TRY(dw_taught_read(call, &taught));
    dw_cold_stack stack;
    dw_shape_preset(&dw_cold_stack_shape, &stack);
    stack.piece_g = ball_kg * 1000;
    stack.dough_c = dough_c;
    stack.air_c = air_c;
    stack.h_w_per_m2_k = dw_taught_h(&taught, shop).open_w_per_m2_k;
    stack.close_from_core_c = shop->close_core_high_c;
    stack.close_by_core_c = shop->close_core_low_c;
    dw_err unreachable; /* a room too warm for it: no time to tell */
    *known = dw_cold_close_time(&stack, close, &unreachable) == DW_OK;
    return DW_OK;
}

/* By which the stack cools, and how that is known. */
static dw_status fill_cooling(dw_call *call, const dw_shop *shop,
                              dw_card_clock *clock)
{
    dw_taught taught;
    DW_TRY(dw_taught_read(call, &taught));
    const dw_taught_row *open = dw_taught_find(&taught, DW_TAUGHT_OFFSET_H);
    clock->open_w_per_m2_k = dw_taught_h(&taught, shop).open_w_per_m2_k;
    clock->open_readings = open ? open->used + open->doubted : 0;
    return DW_OK;
}

static dw_status fill_clock(dw_call *call, const dw_shop *shop, dw_card *card)
{
    const dw_batch_row *batch = &card->batch;
    dw_card_clock *clock = &card->clock;
    clock->ready_day = batch->day + shop->ready_day;
    clock->best_day = batch->day + shop->best_day;
    clock->use_first_day = batch->day + shop->use_first_day;
    clock->last_day = batch->day + shop->last_day;
    clock->has_box_by_ms = batch->stopped_ms > 0;
    clock->box_by_ms =
        batch->stopped_ms + (int64_t)(shop->bench_minutes * 60000);
    DW_TRY(fill_cooling(call, shop, clock));
    double ball_kg = heaviest_kg(card), dough_c = batch->dough_goal_c;
    bool found;
    DW_TRY(dw_reading_newest(call, batch->id, DW_READ_DOUGH, &dough_c, &found));
    if (ball_kg == 0 || batch->last_box_ms == 0)
        return DW_OK;
    dw_cold_close close;
    DW_TRY(dw_close_hours(call, shop, ball_kg,
                          found ? dough_c : batch->dough_goal_c, &close,
                          &clock->has_close));
    if (clock->has_close) {
        clock->close_from_ms =
            batch->last_box_ms + (int64_t)(close.from_h * 3600000);
        clock->close_by_ms =
            batch->last_box_ms + (int64_t)(close.by_h * 3600000);
    }
    return DW_OK;
}

static dw_status read_rows(dw_call *call, int64_t batch_id, dw_recipe *recipe,
                           dw_card *card)
{
    *card = (dw_card){.formula_name = NULL};
    DW_TRY(dw_row_get(call, "batch", &dw_batch_noun, batch_id, "batch_id",
                      &card->batch));
    DW_TRY(dw_recipe_read(call, card->batch.version_id, recipe));
    card->formula_name = recipe->name;
    card->version_number = recipe->number;
    DW_TRY(read_names(call, card));
    DW_TRY(read_pieces(call, batch_id, card));
    DW_TRY(read_weighings(call, recipe, batch_id, card));
    return read_rest(call, batch_id, card);
}

dw_status dw_card_outline(dw_call *call, int64_t batch_id, dw_card *card)
{
    dw_recipe recipe;
    return read_rows(call, batch_id, &recipe, card);
}

dw_status dw_card_read(dw_call *call, int64_t batch_id, dw_card *card)
{
    dw_shop shop;
    dw_recipe recipe;
    DW_TRY(dw_shop_get(call, &shop));
    DW_TRY(read_rows(call, batch_id, &recipe, card));
    DW_TRY(fill_bowl(call, &shop, &recipe, card));
    DW_TRY(fill_clock(call, &shop, card));
    DW_TRY(dw_card_close_fill(call, &shop, card));
    DW_TRY(dw_lot_unknown(call, &card->batch, &card->new_flour_lot));
    return dw_card_water_fill(call, &recipe, card);
}
