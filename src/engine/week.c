#include "engine/week.h"

#include <string.h>

static dw_status no_room(dw_err *err)
{
    return dw_fail(err, DW_E_ROOM, "plan", NULL);
}

/* The plan before, where its days and names still hold. */
static void take_before(const dw_week__problem *p, dw_week__plan *plan)
{
    memset(plan->made, 0, sizeof plan->made);
    for (size_t b = 0; b < p->ask->before_count; b++) {
        const dw_week_batch *batch = &p->ask->before[b];
        if (batch->day >= p->days || p->locked[batch->day])
            continue;
        for (size_t j = 0; j < batch->pieces_count; j++)
            for (int i = 0; i < p->products_count; i++)
                if (dw_text_is(p->ask->products[i].name,
                               batch->pieces[j].product))
                    plan->made[i][batch->day] += (int)batch->pieces[j].balls;
    }
}

typedef struct work {
    dw_week__problem problem;
    dw_week__plan plan, other;
    dw_week__room room;
} work;

/* Start from the plan before too, when there is one: whichever ends cheaper. */
static bool first_plan(work *w, const dw_week_watch *watch, double bound_cost,
                       dw_arena *arena)
{
    const dw_week__problem *p = &w->problem;
    int64_t effort = p->ask->effort;
    bool all = true;
    dw_week__start(p, &w->room, &w->plan);
    if (p->has_before) {
        take_before(p, &w->other);
        dw_week__judge(p, &w->room, &w->other);
        if (w->other.cost < DW_WEEK__INFINITE) {
            effort /= 2;
            all = dw_week__better(p, &w->room, effort, watch, bound_cost, arena,
                                  &w->other);
        }
    }
    if (all)
        all = dw_week__better(p, &w->room, effort, watch, bound_cost, arena,
                              &w->plan);
    if (p->has_before && w->other.cost < w->plan.cost)
        w->plan = w->other;
    return all;
}

static dw_status set_up(const dw_week_request *ask, dw_arena *arena,
                        dw_err *err, work **out)
{
    work *w = DW_NEW(arena, work);
    size_t bytes = DW_WEEK__SUPPORT + 1;
    if (!w)
        return no_room(err);
    w->room.a = DW_NEW_ARRAY(arena, double, bytes);
    w->room.b = DW_NEW_ARRAY(arena, double, bytes);
    if (!w->room.a || !w->room.b)
        return no_room(err);
    *out = w;
    return dw_week__pose(ask, arena, &w->problem, err);
}

static void tell_gap(double bound, int by, dw_week_reply *r)
{
    r->bound_cost = bound < r->cost ? bound : r->cost;
    r->bound_by = by;
    r->gap_percent =
        r->cost > 1e-9 ? 100 * (r->cost - r->bound_cost) / r->cost : 0;
}

dw_status dw_week_plan(const dw_week_request *ask, const dw_solver *solver,
                       const dw_week_watch *watch, dw_arena *arena, dw_err *err,
                       dw_week_reply *reply)
{
    enum { NOTES = 600 };
    work *w;
    dw_week_reply r = {.cost = 0};
    dw_notes notes = {DW_NEW_ARRAY(arena, dw_note, NOTES), NOTES, 0};
    if (!notes.at)
        return no_room(err);
    DW_TRY(set_up(ask, arena, err, &w));
    double bound = dw_week__bound(&w->problem);
    int by = DW_WEEK_SIMPLE;
    bool all = first_plan(w, watch, bound, arena);
    if (all && solver && ask->seconds > 0) {
        double better = bound;
        if (dw_week__solve(&w->problem, &w->room, solver, watch, arena,
                           &w->plan, &better) != DW_OK)
            return no_room(err);
        if (better > bound) {
            bound = better;
            by = DW_WEEK_SOLVER;
        }
    }
    if (!all)
        dw_note_add(&notes, DW_NOTE_INFO, "stopped", NULL);
    if (dw_week__tell(&w->problem, &w->room, &w->plan, arena, &notes, &r) !=
        DW_OK)
        return no_room(err);
    tell_gap(bound, by, &r);
    if (ask->worths && all &&
        dw_week__limits(&w->problem, &w->room, ask->effort / 8, watch, arena,
                        &w->plan, &r) != DW_OK)
        return no_room(err);
    r.notes = notes.at;
    r.notes_count = notes.count;
    *reply = r;
    return DW_OK;
}
