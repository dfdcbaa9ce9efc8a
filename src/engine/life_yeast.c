#include "doughwright/life.h"
#include "doughwright/yeast.h"

#include <math.h>

#define LEAST_PERCENT 0.005
#define MOST_PERCENT 10.0
#define HALVINGS 18 /* of the logarithm's range: to 3 parts in 100,000 */

static double mark_h(const dw_window *w, int mark)
{
    switch (mark) {
    case 0: return w->has_ready_h ? w->ready_h : INFINITY;
    case 1: return w->has_best_from_h ? w->best_from_h : INFINITY;
    case 2: return w->has_best_to_h ? w->best_to_h : INFINITY;
    case 3: return w->has_use_first_h ? w->use_first_h : INFINITY;
    default: return w->has_end_h ? w->end_h : INFINITY;
    }
}

/* Give the request lines of its own; *yeast is the one of them to change. */
static dw_status open_yeast(dw_life_request *request, dw_arena *arena,
                            size_t *yeast, dw_err *err)
{
    size_t count = request->formula.lines_count;
    dw_line *lines = DW_NEW_ARRAY(arena, dw_line, count);
    if (!lines)
        return dw_fail(err, DW_E_ROOM, "life.formula.lines", NULL);
    size_t found = 0;
    for (size_t i = 0; i < count; i++) {
        lines[i] = request->formula.lines[i];
        if (!dw_line_kind_is_yeast(lines[i].kind))
            continue;
        *yeast = i;
        found++;
    }
    if (found != 1)
        return dw_fail_says(err, DW_E_SUM, "life.formula.lines", NULL,
                            "needs exactly one line of yeast");
    request->formula.lines = lines;
    return DW_OK;
}

static dw_status try_yeast(const dw_life_request *request, dw_arena *arena,
                           int mark, double *at_h, dw_err *err)
{
    size_t used = arena->used;
    dw_life_reply reply;
    DW_TRY(dw_life_run(request, arena, &reply, err));
    *at_h = mark_h(&reply.window, mark);
    arena->used = used;
    return DW_OK;
}

/* Halve the range of percent, evenly in its logarithm: more yeast is earlier.
 */
static dw_status search(dw_life_request *request, dw_line *yeast,
                        const dw_life_yeast_ask *ask, dw_arena *arena,
                        dw_err *err)
{
    double low = LEAST_PERCENT, high = MOST_PERCENT, at_h;
    yeast->percent = high;
    DW_TRY(try_yeast(request, arena, ask->mark, &at_h, err));
    bool too_late = at_h > ask->wanted_h;
    yeast->percent = low;
    DW_TRY(try_yeast(request, arena, ask->mark, &at_h, err));
    if (too_late || at_h < ask->wanted_h)
        return dw_fail(err, DW_E_UNREACHABLE, "wanted_h", NULL);
    for (int i = 0; i < HALVINGS; i++) {
        yeast->percent = __builtin_sqrt(low * high);
        DW_TRY(try_yeast(request, arena, ask->mark, &at_h, err));
        if (at_h > ask->wanted_h)
            low = yeast->percent;
        else
            high = yeast->percent;
    }
    return DW_OK;
}

dw_status dw_life_yeast(const dw_life_yeast_ask *ask, dw_arena *arena,
                        dw_life_yeast_reply *reply, dw_err *err)
{
    dw_life_request request = ask->life;
    size_t line = 0;
    DW_TRY(open_yeast(&request, arena, &line, err));
    dw_line *yeast = &request.formula.lines[line];
    request.members = 0;
    dw_status status = search(&request, yeast, ask, arena, err);
    request.members = ask->life.members;
    dw_life_yeast_reply found = {.percent = yeast->percent};
    if (status == DW_OK)
        status = dw_life_run(&request, arena, &found.life, err);
    if (status == DW_OK)
        *reply = found;
    return status;
}
