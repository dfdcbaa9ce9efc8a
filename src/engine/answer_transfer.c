/* The same dough in another shop. */
#include "doughwright/answers.h"

#include "doughwright/heat.h"
#include "doughwright/say.h"
#include "engine/answer.h"

#include <math.h>

#define LEAST_PERCENT 0.005
#define MOST_PERCENT 10.0
#define WITHIN_PART 1e-6 /* of the percent */
#define COOLEST_C 10
#define WARMEST_C 38
#define WITHIN_C 1e-5
#define MORE 1.02      /* yeast, or the difference in degC, ... */
#define DECIDES_H 1e-3 /* ... that must move the mark by more than this */

static dw_life_request life_in(const dw_transfer_ask *ask,
                               const dw_shop_ways *shop)
{
    dw_life_request life;
    dw_shape_preset(&dw_life_request_shape, &life);
    life.formula = ask->formula;
    life.piece_g = ask->piece_g;
    life.has_dough_c = true;
    life.dough_c = ask->dough_c;
    life.legs = shop->legs;
    life.legs_count = shop->legs_count;
    life.elevation_m = shop->elevation_m;
    life.earliest_cold_use_h = ask->earliest_cold_use_h;
    life.model = ask->model;
    life.ranges = ask->ranges;
    life.ranges_count = ask->ranges_count;
    life.members = ask->members;
    return life;
}

static dw_status find_water(const dw_shop_ways *shop, const dw_formula *formula,
                            double dough_c, dw_arena *arena,
                            dw_transfer_water *water, dw_err *err)
{
    dw_heat_mix mix;
    dw_heat_batch batch;
    dw_heat_answer answer;
    double wetting_kg;
    dw_shape_preset(&dw_heat_mix_shape, &mix);
    mix.formula = *formula;
    mix.flour_kg = shop->flour_kg;
    mix.goal_c = dough_c;
    mix.flour_c = shop->flour_c;
    mix.room_c = shop->room_c;
    mix.tap_c = shop->tap_c;
    mix.ice_c = shop->ice_c;
    mix.bowl_kg = shop->bowl_kg;
    mix.work_j_per_kg_dough = shop->work_j_per_kg_dough;
    DW_TRY(dw_heat_batch_of(&mix, arena, &batch, &wetting_kg, err));
    DW_TRY(dw_heat_water(&batch, &answer, err));
    *water =
        (dw_transfer_water){answer.water_c, answer.ice_kg, answer.liquid_c};
    return DW_OK;
}

/* What is said of the water is said of one of the shops. */
static dw_status water_of(const char *name, const dw_shop_ways *shop,
                          const dw_life_request *life, dw_arena *arena,
                          dw_transfer_water *water, dw_err *err)
{
    dw_status status =
        find_water(shop, &life->formula, life->dough_c, arena, water, err);
    if (status != DW_OK)
        dw_err_within(err, name);
    return status;
}

static dw_status not_decided(dw_err *err)
{
    return dw_fail_says(err, DW_E_UNREACHABLE, "mark", NULL,
                        DW_MSG("does not come here, or does not follow what "
                               "is changed; choose another moment"));
}

/* The mark here, and that the number turned decides it: on the shop's earliest
 * use, or on an age that ends it, many doughs meet. */
static dw_status mark_here(const dw_answer__turn *turn, double *mark_h,
                           dw_err *err)
{
    dw_window window;
    double was = *turn->number, moved_h;
    DW_TRY(dw_answer__window(turn->life, turn->arena, &window, err));
    *mark_h = dw_answer__mark_h(&window, turn->mark);
    if (turn->scale == DW_ANSWER__LOG)
        *turn->number = was * MORE;
    else
        *turn->number = was + (MORE - 1);
    dw_status status = dw_answer__window(turn->life, turn->arena, &window, err);
    *turn->number = was;
    if (status != DW_OK)
        return status;
    moved_h = dw_answer__mark_h(&window, turn->mark);
    bool decides = isfinite(*mark_h) && fabs(moved_h - *mark_h) > DECIDES_H;
    return decides ? DW_OK : not_decided(err);
}

static void choose_turn(dw_answer__turn *turn, int which, dw_line *yeast)
{
    bool by_yeast = which == DW_TRANSFER_YEAST;
    turn->number = by_yeast ? &yeast->percent : &turn->life->dough_c;
    turn->scale = by_yeast ? DW_ANSWER__LOG : DW_ANSWER__STRAIGHT;
    turn->least = by_yeast ? LEAST_PERCENT : COOLEST_C;
    turn->most = by_yeast ? MOST_PERCENT : WARMEST_C;
    turn->within = by_yeast ? WITHIN_PART : WITHIN_C;
}

dw_status dw_answer_transfer(const dw_transfer_ask *ask, dw_arena *arena,
                             dw_transfer_reply *reply, dw_err *err)
{
    dw_transfer_reply found = {0};
    dw_line *yeast = NULL;
    dw_transfer_ask own = *ask;
    DW_TRY(dw_answer__open_yeast(&own.formula, "formula.lines", arena, &yeast,
                                 err));
    dw_life_request life = life_in(&own, &ask->here);
    dw_answer__turn turn = {.life = &life, .mark = ask->mark, .arena = arena};
    choose_turn(&turn, ask->turn, yeast);
    DW_TRY(mark_here(&turn, &found.mark_h, err));
    DW_TRY(dw_answer__window(&life, arena, &found.here, err));
    DW_TRY(water_of("here", &ask->here, &life, arena, &found.here_water, err));
    life = life_in(&own, &ask->there);
    turn.wanted_h = found.mark_h;
    DW_TRY(dw_answer__bring(&turn, err));
    DW_TRY(dw_life_run(&life, arena, &found.there, err));
    found.percent = yeast->percent;
    found.dough_c = life.dough_c;
    DW_TRY(
        water_of("there", &ask->there, &life, arena, &found.there_water, err));
    *reply = found;
    return DW_OK;
}
