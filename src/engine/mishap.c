#include "doughwright/mishap.h"

#include "engine/mishap_legs.h"

#include <math.h>

static double soonest(bool has, double at_h)
{
    return has ? at_h : INFINITY;
}

/* dw_fate_verdict */
static int verdict_at(double use_first_h, double end_h, double at_h)
{
    if (end_h <= at_h)
        return DW_FATE_PAST;
    return use_first_h <= at_h ? DW_FATE_USE_FIRST : DW_FATE_SAVED;
}

/* dw_readiness */
static int readiness_at(const dw_window *w, double at_h)
{
    if (soonest(w->has_end_h, w->end_h) <= at_h)
        return DW_PAST;
    if (soonest(w->has_use_first_h, w->use_first_h) <= at_h)
        return DW_USE_FIRST;
    if (soonest(w->has_best_from_h, w->best_from_h) <= at_h)
        return DW_BEST;
    return soonest(w->has_ready_h, w->ready_h) <= at_h ? DW_READY : DW_NOT_YET;
}

static bool same_all_over(const dw_band_window *band, double at_h, int verdict)
{
    const dw_band_moment *first = &band->use_first_h, *end = &band->end_h;
    return verdict_at(soonest(first->has_p05, first->p05),
                      soonest(end->has_p05, end->p05), at_h) == verdict &&
           verdict_at(soonest(first->has_p95, first->p95),
                      soonest(end->has_p95, end->p95), at_h) == verdict;
}

static dw_life_request life_of(const dw_mishap_ask *ask,
                               const dw_mishap_stack *stack)
{
    dw_life_request life;
    dw_shape_preset(&dw_life_request_shape, &life);
    life.formula = stack->formula;
    life.piece_g = stack->piece_g;
    life.has_dough_c = true;
    life.dough_c = stack->dough_c;
    life.elevation_m = ask->elevation_m;
    life.earliest_cold_use_h = ask->earliest_cold_use_h;
    life.model = ask->model;
    life.ranges = ask->ranges;
    life.ranges_count = ask->ranges_count;
    life.report_every_h = DW_LIFE_LONGEST_H;
    life.members = 0;
    life.shells = ask->shells;
    return life;
}

static dw_status live(dw_life_request *life, dw_leg *legs, size_t count,
                      dw_arena *arena, dw_life_reply *reply, dw_err *err)
{
    life->legs = legs;
    life->legs_count = count;
    return dw_life_run(life, arena, reply, err);
}

/* As planned, as it happened up to its end, and as it happened and goes on. */
static dw_status live_thrice(const dw_mishap_ask *ask,
                             const dw_mishap_stack *stack,
                             const dw_mishap__course *course, dw_arena *arena,
                             dw_mishap_fate *fate, dw_err *err)
{
    dw_life_reply reply;
    dw_life_request life = life_of(ask, stack);
    DW_TRY(live(&life, course->planned, course->planned_count, arena, &reply,
                err));
    fate->planned = reply.window;
    DW_TRY(live(&life, course->until_over, course->until_over_count, arena,
                &reply, err));
    fate->core_c = reply.core_c[reply.core_c_count - 1];
    fate->mean_c = reply.mean_c[reply.mean_c_count - 1];
    life.members = ask->members;
    DW_TRY(live(&life, course->happened, course->happened_count, arena, &reply,
                err));
    fate->now = reply.window;
    fate->has_band = reply.has_band;
    if (reply.has_band)
        fate->band = reply.band.window;
    return DW_OK;
}

static void judge(dw_mishap_fate *fate)
{
    const dw_window *w = &fate->now;
    double end_h = soonest(w->has_end_h, w->end_h);
    fate->verdict = (int)verdict_at(soonest(w->has_use_first_h, w->use_first_h),
                                    end_h, fate->age_h);
    fate->readiness = (int)readiness_at(w, fate->age_h);
    fate->sure = fate->has_band &&
                 same_all_over(&fate->band, fate->age_h, fate->verdict);
    fate->has_left_h = w->has_end_h;
    fate->left_h = fate->has_left_h ? fmax(end_h - fate->age_h, 0) : 0;
}

static dw_status foresee_one(const dw_mishap_ask *ask,
                             const dw_mishap_stack *stack, dw_arena *arena,
                             dw_mishap_fate *fate, dw_err *err)
{
    dw_mishap__course course;
    size_t used = arena->used;
    *fate = (dw_mishap_fate){.name = stack->name};
    DW_TRY(dw_mishap__course_of(&ask->mishap, stack, arena, &course, err));
    fate->age_h = course.over_h;
    DW_TRY(live_thrice(ask, stack, &course, arena, fate, err));
    arena->used = used;
    judge(fate);
    return DW_OK;
}

dw_status dw_mishap_check(const dw_mishap *mishap, dw_err *err)
{
    const double hottest_room_c = 35;
    if (mishap->kind == DW_MISHAP_POWER_CUT)
        return mishap->has_outside_c
                   ? DW_OK
                   : dw_fail(err, DW_E_MISSING, "mishap.outside_c", NULL);
    if (!mishap->has_air_c)
        return dw_fail(err, DW_E_MISSING, "mishap.air_c", NULL);
    if (mishap->kind == DW_MISHAP_WARM_ROOM)
        return dw_check_range(err, "mishap.air_c", mishap->air_c, -3,
                              hottest_room_c);
    return DW_OK;
}

static void count_boxes(dw_mishap_reply *reply, const dw_mishap_fate *fate,
                        int64_t boxes)
{
    switch ((dw_fate_verdict)fate->verdict) {
    case DW_FATE_SAVED: reply->saved_boxes += boxes; break;
    case DW_FATE_USE_FIRST: reply->use_first_boxes += boxes; break;
    case DW_FATE_PAST: reply->past_boxes += boxes; break;
    }
}

dw_status dw_mishap_foresee(const dw_mishap_ask *ask, dw_arena *arena,
                            dw_mishap_reply *reply, dw_err *err)
{
    DW_TRY(dw_mishap_check(&ask->mishap, err));
    dw_mishap_reply made = {.fates_count = ask->stacks_count};
    made.fates = DW_NEW_ARRAY(arena, dw_mishap_fate, ask->stacks_count);
    if (!made.fates)
        return dw_fail(err, DW_E_ROOM, "stacks", NULL);
    for (size_t i = 0; i < ask->stacks_count; i++) {
        const dw_mishap_stack *stack = &ask->stacks[i];
        dw_status status = foresee_one(ask, stack, arena, &made.fates[i], err);
        if (status != DW_OK) {
            dw_err_within_item(err, "stacks", i);
            return status;
        }
        count_boxes(&made, &made.fates[i], stack->boxes);
    }
    *reply = made;
    return DW_OK;
}
