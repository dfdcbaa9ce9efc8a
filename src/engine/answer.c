#include "engine/answer.h"

#include "doughwright/say.h"
#include "doughwright/yeast.h"
#include "engine/find.h"

#include <math.h>

#define CLOSE_H 1e-4 /* a moment this near to the wanted one is it */

double dw_answer__mark_h(const dw_window *w, int mark)
{
    switch (mark) {
    case 0: return w->has_ready_h ? w->ready_h : INFINITY;
    case 1: return w->has_best_from_h ? w->best_from_h : INFINITY;
    case 2: return w->has_best_to_h ? w->best_to_h : INFINITY;
    case 3: return w->has_use_first_h ? w->use_first_h : INFINITY;
    default: return w->has_end_h ? w->end_h : INFINITY;
    }
}

dw_status dw_answer__window(const dw_life_request *life, dw_arena *arena,
                            dw_window *window, dw_err *err)
{
    size_t used = arena->used;
    dw_life_request plain = *life;
    dw_life_reply reply;
    plain.members = 0;
    plain.report_every_h = DW_LIFE_LONGEST_H;
    dw_status status = dw_life_run(&plain, arena, &reply, err);
    arena->used = used;
    if (status == DW_OK)
        *window = reply.window;
    return status;
}

static double to_number(const dw_answer__turn *turn, double x)
{
    return turn->scale == DW_ANSWER__LOG ? exp(x) : x;
}

static double to_x(const dw_answer__turn *turn, double number)
{
    return turn->scale == DW_ANSWER__LOG ? log(number) : number;
}

static dw_status mark_at(const dw_answer__turn *turn, double number,
                         double *at_h, dw_err *err)
{
    dw_window window;
    *turn->number = number;
    DW_TRY(dw_answer__window(turn->life, turn->arena, &window, err));
    *at_h = dw_answer__mark_h(&window, turn->mark);
    return DW_OK;
}

static dw_status gap_at(void *owner, double x, double *gap, dw_err *err)
{
    const dw_answer__turn *turn = owner;
    double at_h;
    DW_TRY(mark_at(turn, to_number(turn, x), &at_h, err));
    *gap = at_h - turn->wanted_h;
    return DW_OK;
}

static dw_status out_of_reach(const dw_answer__turn *turn, dw_err *err)
{
    double soonest_h, latest_h;
    DW_TRY(mark_at(turn, turn->most, &soonest_h, err));
    DW_TRY(mark_at(turn, turn->least, &latest_h, err));
    if (isinf(soonest_h))
        return dw_fail(err, DW_E_UNREACHABLE, "wanted_h", NULL);
    dw_fail_range(err, "wanted_h", turn->wanted_h, soonest_h,
                  fmin(latest_h, DW_LIFE_LONGEST_H));
    if (err)
        err->status = DW_E_UNREACHABLE;
    return DW_E_UNREACHABLE;
}

dw_status dw_answer__bring(const dw_answer__turn *turn, dw_err *err)
{
    dw_answer__turn own = *turn;
    double guess = fmin(fmax(*turn->number, turn->least), turn->most);
    bool log_scale = turn->scale == DW_ANSWER__LOG;
    dw_find__search search = {.gap = gap_at,
                              .owner = &own,
                              .least = to_x(turn, turn->least),
                              .most = to_x(turn, turn->most),
                              .guess = to_x(turn, guess),
                              .within = turn->within,
                              .gap_within = CLOSE_H};
    /* A moment goes roughly with one over the yeast, and a degree is worth a
     * tenth of it. */
    search.per_gap = (log_scale ? 1 : 10) / turn->wanted_h;
    double x = search.guess;
    dw_status status = dw_find__nought(&search, &x, err);
    if (status == DW_E_UNREACHABLE)
        return out_of_reach(turn, err);
    *turn->number = to_number(turn, x);
    return status;
}

dw_status dw_answer__open_yeast(dw_formula *formula, const char *field,
                                dw_arena *arena, dw_line **yeast, dw_err *err)
{
    size_t count = formula->lines_count, found = 0;
    dw_line *lines = DW_NEW_ARRAY(arena, dw_line, count);
    if (!lines)
        return dw_fail(err, DW_E_ROOM, field, NULL);
    for (size_t i = 0; i < count; i++) {
        lines[i] = formula->lines[i];
        if (!dw_line_kind_is_yeast(lines[i].kind))
            continue;
        *yeast = &lines[i];
        found++;
    }
    if (found != 1)
        return dw_fail_says(err, DW_E_SUM, field, NULL,
                            "needs exactly one line of yeast");
    formula->lines = lines;
    return DW_OK;
}
