/* When to close a stack and when to pull it, from the core of its life. */
#include "doughwright/answers.h"

#include "doughwright/say.h"
#include "engine/answer.h"
#include "engine/find.h"
#include "engine/life_walk.h"

#include <math.h>

#define SECOND_H (1.0 / 3600)
#define GUESS_H 1.5 /* out of the cold, to core_low_c */

/* The life without a band or rows, its core watched. */
static dw_status watch(const dw_life_request *life, dw_life__watch *watch,
                       dw_arena *arena, dw_err *err)
{
    size_t used = arena->used;
    dw_life_request plain = *life;
    dw_life_reply reply;
    plain.members = 0;
    plain.report_every_h = DW_LIFE_LONGEST_H;
    dw_status status = dw_life__run_watched(&plain, watch, arena, &reply, err);
    arena->used = used;
    return status;
}

static double hours_before(const dw_life_request *life, size_t leg)
{
    double sum = 0;
    for (size_t i = 0; i < leg; i++)
        sum += life->legs[i].hours;
    return sum;
}

/* The life with legs of its own, `more` of them beyond the first `kept`. */
static dw_status own_legs(dw_life_request *life, size_t kept, size_t more,
                          dw_arena *arena, dw_err *err)
{
    dw_leg *legs = DW_NEW_ARRAY(arena, dw_leg, kept + more);
    if (!legs)
        return dw_fail(err, DW_E_ROOM, "life.legs", NULL);
    memcpy(legs, life->legs, kept * sizeof *legs);
    life->legs = legs;
    life->legs_count = kept + more;
    return DW_OK;
}

/* ---- closing ---- */

typedef struct closing {
    const dw_close_ask *ask;
    dw_life_request life; /* to the open leg, which goes on */
    dw_leg *open;
    double from_h; /* when that begins */
    dw_arena *arena;
} closing;

static dw_status cores_fall(const closing *c, double part, double at_h[2],
                            dw_err *err)
{
    double h = c->open->h_w_per_m2_k;
    dw_life__watch seen = {
        .way = DW_LIFE__FALLING,
        .from_h = c->from_h,
        .core_c = {c->ask->close_from_core_c, c->ask->close_by_core_c}};
    c->open->h_w_per_m2_k = h * part;
    dw_status status = watch(&c->life, &seen, c->arena, err);
    c->open->h_w_per_m2_k = h;
    if (status != DW_OK)
        return status;
    memcpy(at_h, seen.at_h, sizeof seen.at_h);
    if (isfinite(at_h[1]))
        return DW_OK;
    char air[32];
    dw_text_number(air, sizeof air, c->open->air_c, 6);
    return dw_fail_says(
        err, DW_E_UNREACHABLE, "life.legs.air_c", air,
        DW_MSG("is too warm: the core never gets cold enough to close "
               "the stack"));
}

static dw_status closed_at(const closing *c, double at_h, dw_window *window,
                           dw_err *err)
{
    size_t last = c->life.legs_count - 1;
    dw_life_request life = c->life;
    size_t used = c->arena->used;
    DW_TRY(own_legs(&life, last + 1, 1, c->arena, err));
    life.legs[last].hours = fmax(at_h - c->from_h, SECOND_H);
    life.legs[last + 1] =
        (dw_leg){SECOND_H, c->open->air_c, c->ask->closed_h_w_per_m2_k};
    dw_status status = dw_answer__window(&life, c->arena, window, err);
    c->arena->used = used;
    return status;
}

static dw_status start_closing(const dw_close_ask *ask, dw_arena *arena,
                               closing *c, dw_err *err)
{
    size_t cold = 0;
    DW_TRY(dw_check_range(err, "close_by_core_c", ask->close_by_core_c, -3,
                          ask->close_from_core_c));
    while (cold < ask->life.legs_count &&
           ask->life.legs[cold].air_c >= DW_LIFE_COLD_C)
        cold++;
    if (cold == ask->life.legs_count)
        return dw_fail_says(err, DW_E_MISSING, "life.legs", NULL,
                            DW_MSG("have none in air below 10 degC"));
    *c = (closing){.ask = ask, .life = ask->life, .arena = arena};
    DW_TRY(own_legs(&c->life, cold + 1, 0, arena, err));
    c->open = &c->life.legs[cold];
    c->open->hours = SECOND_H; /* and on */
    c->from_h = hours_before(&c->life, cold);
    return DW_OK;
}

dw_status dw_answer_close(const dw_close_ask *ask, dw_arena *arena,
                          dw_close_reply *reply, dw_err *err)
{
    closing c;
    double usual[2], better[2], worse[2];
    dw_close_reply found;
    DW_TRY(start_closing(ask, arena, &c, err));
    DW_TRY(cores_fall(&c, 1, usual, err));
    DW_TRY(cores_fall(&c, ask->air.most_part, better, err));
    DW_TRY(cores_fall(&c, ask->air.least_part, worse, err));
    found.from_h = (dw_answer_moment){usual[0], better[0], worse[0]};
    found.by_h = (dw_answer_moment){usual[1], better[1], worse[1]};
    DW_TRY(closed_at(&c, usual[0], &found.closed_from, err));
    DW_TRY(closed_at(&c, usual[1], &found.closed_by, err));
    *reply = found;
    return DW_OK;
}

/* ---- pulling ---- */

typedef struct pulling {
    const dw_pull_ask *ask;
    dw_life_request life; /* the cold leg is the last but one, then the room */
    double cold_from_h;
    double core_c; /* to be reached at opening */
    dw_arena *arena;
} pulling;

static void pull_at(const pulling *p, double at_h)
{
    dw_leg *room = &p->life.legs[p->life.legs_count - 1];
    room[-1].hours = at_h - p->cold_from_h;
    room->hours = fmax(p->ask->opening_h - at_h, SECOND_H);
}

/* How long before opening the core is at core_c when pulled at x: later pulled,
 * later warm. */
static dw_status gap_of_pull(void *owner, double x, double *gap, dw_err *err)
{
    pulling *p = owner;
    dw_life__watch seen = {
        .way = DW_LIFE__RISING, .from_h = x, .core_c = {p->core_c, p->core_c}};
    pull_at(p, x);
    DW_TRY(watch(&p->life, &seen, p->arena, err));
    *gap = p->ask->opening_h - seen.at_h[0];
    return DW_OK;
}

/* The pull that has the core at core_c at opening, where the room takes `part`
 * of its usual coefficient; -INFINITY when even the soonest is not warm. */
static dw_status pull_for(pulling *p, double core_c, double part, double guess,
                          double *at_h, dw_err *err)
{
    double soonest = p->cold_from_h + SECOND_H;
    double latest = p->ask->opening_h;
    p->core_c = core_c;
    p->life.legs[p->life.legs_count - 1].h_w_per_m2_k =
        p->ask->room_h_w_per_m2_k * part;
    dw_find__search search = {.gap = gap_of_pull,
                              .owner = p,
                              .least = soonest,
                              .most = latest,
                              .guess = fmin(fmax(guess, soonest), latest),
                              .per_gap = 1,
                              .within = SECOND_H,
                              .gap_within = SECOND_H};
    dw_status status = dw_find__nought(&search, at_h, err);
    if (status != DW_E_UNREACHABLE)
        return status;
    *at_h = -INFINITY;
    return DW_OK;
}

static dw_status pull_moment(pulling *p, double core_c, double guess,
                             dw_answer_moment *moment, dw_err *err)
{
    const dw_answer_air *air = &p->ask->air;
    DW_TRY(pull_for(p, core_c, 1, guess, &moment->at_h, err));
    double warm_h = p->ask->opening_h - moment->at_h;
    if (!isfinite(warm_h))
        return DW_OK;
    DW_TRY(pull_for(p, core_c, air->least_part,
                    p->ask->opening_h - warm_h / air->least_part,
                    &moment->early_h, err));
    moment->early_h = fmax(moment->early_h, p->cold_from_h);
    return pull_for(p, core_c, air->most_part,
                    p->ask->opening_h - warm_h / air->most_part,
                    &moment->late_h, err);
}

static dw_status check_pull(const dw_pull_ask *ask, double cold_from_h,
                            dw_err *err)
{
    const dw_leg *cold = &ask->life.legs[ask->life.legs_count - 1];
    DW_TRY(dw_check_range(err, "core_high_c", ask->core_high_c, ask->core_low_c,
                          40));
    DW_TRY(dw_check_range(err, "life.legs.air_c", cold->air_c, -3,
                          ask->core_low_c));
    DW_TRY(dw_check_range(err, "opening_h", ask->opening_h,
                          cold_from_h + 2 * SECOND_H, DW_LIFE_LONGEST_H));
    if (ask->room_c > ask->core_low_c)
        return DW_OK;
    dw_fail_range(err, "room_c", ask->room_c, ask->core_low_c, 60);
    if (err)
        err->status = DW_E_UNREACHABLE;
    return DW_E_UNREACHABLE;
}

static dw_status start_pulling(const dw_pull_ask *ask, dw_arena *arena,
                               pulling *p, dw_err *err)
{
    size_t count = ask->life.legs_count;
    double cold_from_h = hours_before(&ask->life, count - 1);
    DW_TRY(check_pull(ask, cold_from_h, err));
    *p = (pulling){.ask = ask,
                   .life = ask->life,
                   .cold_from_h = cold_from_h,
                   .arena = arena};
    DW_TRY(own_legs(&p->life, count, 1, arena, err));
    p->life.legs[count] =
        (dw_leg){SECOND_H, ask->room_c, ask->room_h_w_per_m2_k};
    return DW_OK;
}

static dw_status live_pulled(pulling *p, dw_pull_reply *found, dw_err *err)
{
    p->life.legs[p->life.legs_count - 1].h_w_per_m2_k =
        p->ask->room_h_w_per_m2_k;
    pull_at(p, found->pull_h);
    DW_TRY(dw_life_run(&p->life, p->arena, &found->life, err));
    size_t last = found->life.time_h_count - 1;
    found->core_c = found->life.core_c[last];
    found->mean_c = found->life.mean_c[last];
    return DW_OK;
}

dw_status dw_answer_pull(const dw_pull_ask *ask, dw_arena *arena,
                         dw_pull_reply *reply, dw_err *err)
{
    pulling p;
    dw_pull_reply found = {.has_from_h = false};
    DW_TRY(start_pulling(ask, arena, &p, err));
    DW_TRY(pull_moment(&p, ask->core_low_c, ask->opening_h - GUESS_H,
                       &found.by_h, err));
    if (!isfinite(found.by_h.at_h)) {
        dw_fail_range(err, "opening_h", ask->opening_h, p.cold_from_h,
                      DW_LIFE_LONGEST_H);
        return dw_fail_says(
            err, DW_E_UNREACHABLE, "opening_h", err ? err->value : NULL,
            DW_MSG("is too soon: pulled at once, the balls are still too "
                   "cold then"));
    }
    if (ask->room_c > ask->core_high_c) {
        double warm_h = ask->opening_h - found.by_h.at_h;
        DW_TRY(pull_moment(&p, ask->core_high_c, ask->opening_h - 2 * warm_h,
                           &found.from_h, err));
        found.has_from_h = isfinite(found.from_h.at_h);
    }
    found.pull_h = found.has_from_h
                       ? 0.5 * (found.from_h.at_h + found.by_h.at_h)
                       : found.by_h.early_h;
    DW_TRY(live_pulled(&p, &found, err));
    *reply = found;
    return DW_OK;
}
