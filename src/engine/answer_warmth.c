/* Asked for a dough temperature: alone, and where yeast is not enough. */
#include "doughwright/answers.h"

#include "engine/answer.h"

#define COOLEST_C 10
#define WARMEST_C 38 /* beyond, gas slows again */
#define GUESS_C 25
#define WITHIN_C 1e-5
#define LEAST_PERCENT 0.005
#define WITHIN_PART 1e-5 /* of the percent */
#define READY 0          /* index into dw_life_mark_words */

dw_status dw_answer_warmth(const dw_warmth_ask *ask, dw_arena *arena,
                           dw_warmth_reply *reply, dw_err *err)
{
    dw_life_request life = ask->life;
    if (life.hold_temperature)
        return dw_fail(err, DW_E_CONFLICT, "life.hold_temperature", NULL);
    life.has_dough_c = true;
    life.dough_c = GUESS_C;
    dw_answer__turn turn = {.life = &life,
                            .number = &life.dough_c,
                            .scale = DW_ANSWER__STRAIGHT,
                            .least = COOLEST_C,
                            .most = WARMEST_C,
                            .within = WITHIN_C,
                            .mark = ask->mark,
                            .wanted_h = ask->wanted_h,
                            .arena = arena};
    DW_TRY(dw_answer__bring(&turn, err));
    dw_warmth_reply found = {.dough_c = life.dough_c};
    DW_TRY(dw_life_run(&life, arena, &found.life, err));
    *reply = found;
    return DW_OK;
}

static dw_life_request hurried(const dw_hurry_ask *ask, dw_leg *room)
{
    *room = (dw_leg){ask->usable_in_h, ask->room_c, ask->h_w_per_m2_k};
    dw_life_request life;
    dw_shape_preset(&dw_life_request_shape, &life);
    life.formula = ask->formula;
    life.piece_g = ask->piece_g;
    life.has_dough_c = true;
    life.dough_c = ask->dough_c;
    life.legs = room;
    life.legs_count = 1;
    life.elevation_m = ask->elevation_m;
    life.model = ask->model;
    life.ranges = ask->ranges;
    life.ranges_count = ask->ranges_count;
    life.members = ask->members;
    life.report_every_h = ask->usable_in_h / 12;
    return life;
}

/* Neither more yeast nor a warmer dough: say how soon both together are. */
static dw_status too_soon(const dw_hurry_ask *ask, const dw_life_request *most,
                          dw_arena *arena, dw_err *err)
{
    dw_window window;
    DW_TRY(dw_answer__window(most, arena, &window, err));
    double soonest = window.has_ready_h ? window.ready_h : DW_LIFE_LONGEST_H;
    dw_fail_range(err, "usable_in_h", ask->usable_in_h, soonest,
                  DW_LIFE_LONGEST_H);
    if (err)
        err->status = DW_E_UNREACHABLE;
    return DW_E_UNREACHABLE;
}

static dw_status find_hurry(const dw_hurry_ask *ask, dw_life_request *life,
                            dw_line *yeast, dw_arena *arena, dw_err *err)
{
    dw_answer__turn turn = {.life = life,
                            .number = &yeast->percent,
                            .scale = DW_ANSWER__LOG,
                            .least = LEAST_PERCENT,
                            .most = ask->yeast_most_percent,
                            .within = WITHIN_PART,
                            .mark = READY,
                            .wanted_h = ask->usable_in_h,
                            .arena = arena};
    dw_status status = dw_answer__bring(&turn, err);
    if (status != DW_E_UNREACHABLE)
        return status;
    dw_window window;
    yeast->percent = ask->yeast_most_percent;
    DW_TRY(dw_answer__window(life, arena, &window, err));
    if (dw_answer__mark_h(&window, READY) <= ask->usable_in_h) {
        yeast->percent = LEAST_PERCENT; /* even the least is soon enough */
        return DW_OK;
    }
    turn.number = &life->dough_c;
    turn.scale = DW_ANSWER__STRAIGHT;
    turn.least = ask->dough_c;
    turn.most = ask->dough_most_c;
    turn.within = WITHIN_C;
    status = dw_answer__bring(&turn, err);
    if (status != DW_E_UNREACHABLE)
        return status;
    life->dough_c = ask->dough_most_c;
    return too_soon(ask, life, arena, err);
}

dw_status dw_answer_hurry(const dw_hurry_ask *ask, dw_arena *arena,
                          dw_hurry_reply *reply, dw_err *err)
{
    DW_TRY(dw_check_range(err, "dough_most_c", ask->dough_most_c, ask->dough_c,
                          WARMEST_C));
    dw_leg room;
    dw_line *yeast = NULL;
    dw_life_request life = hurried(ask, &room);
    DW_TRY(dw_answer__open_yeast(&life.formula, "formula.lines", arena, &yeast,
                                 err));
    DW_TRY(find_hurry(ask, &life, yeast, arena, err));
    dw_hurry_reply found = {.percent = yeast->percent,
                            .dough_c = life.dough_c,
                            .warmer = life.dough_c > ask->dough_c};
    DW_TRY(dw_life_run(&life, arena, &found.life, err));
    *reply = found;
    return DW_OK;
}
