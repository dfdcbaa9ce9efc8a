/* The one rule of readiness, from the moments at which a life passed its marks:
 * docs/models/ferment.md, "Decisions". */
#include "engine/life_walk.h"

#include <math.h>

static double later(double a, double b)
{
    return a > b ? a : b;
}

/* Time limit of the bench after the last tempering, INFINITY without one. */
static double bench_end_h(const dw_life_request *request,
                          const dw_life__moments *moments)
{
    if (!request->has_bench_life_h)
        return INFINITY;
    return moments->at_h[DW_LIFE__CORE_WARM] + request->bench_life_h;
}

double dw_life__end_h(const dw_life_request *request,
                      const dw_life__moments *moments, const char **reason)
{
    const double *at = moments->at_h;
    const struct {
        double at_h;
        const char *reason;
    } ends[] = {
        {at[DW_LIFE__AGE_END], "age"},
        {later(at[DW_LIFE__GAS_END], at[DW_LIFE__AGE_GAS_END]), "gas"},
        {at[DW_LIFE__LEAKING], "leaking"},
        {bench_end_h(request, moments), "bench_life"},
    };
    double end = INFINITY;
    const char *why = NULL;
    for (size_t i = 0; i < DW_COUNT(ends); i++) {
        if (ends[i].at_h >= end)
            continue;
        end = ends[i].at_h;
        why = ends[i].reason;
    }
    if (reason)
        *reason = why;
    return end;
}

/* When it first came into the cold, INFINITY when it never did. */
static double cold_from_h(const dw_life_request *request)
{
    double time = 0;
    for (size_t i = 0; i < request->legs_count; i++) {
        if (request->legs[i].air_c < DW_LIFE_COLD_C)
            return time;
        time += request->legs[i].hours;
    }
    return INFINITY;
}

/* Ready by gas and age; a dough that went into the cold before that waits for
 * the shop's earliest use. */
static double ready_h(const dw_life_request *request,
                      const dw_life__moments *moments)
{
    double ready = later(moments->at_h[DW_LIFE__GAS_READY],
                         moments->at_h[DW_LIFE__AGE_READY]);
    double cold = cold_from_h(request);
    if (ready < cold)
        return ready;
    return later(ready, cold + request->earliest_cold_use_h);
}

static void tell(double time_h, double end_h, bool *has, double *out)
{
    *has = time_h <= end_h && time_h <= DW_LIFE_LONGEST_H;
    *out = *has ? time_h : 0;
}

dw_life_limits dw_life_limits_of(const dw_life_request *request)
{
    return (dw_life_limits){
#define LIMIT(name, ...) .name = request->model.name,
        DW_LIFE_LIMITS(LIMIT)
#undef LIMIT
            .earliest_cold_use_h = request->earliest_cold_use_h};
}

void dw_life__window_of(const dw_life_request *request,
                        const dw_life__moments *moments, dw_window *window)
{
    const double *at = moments->at_h;
    *window = (dw_window){0};
    double end = dw_life__end_h(request, moments, &window->end_reason);
    double ready = ready_h(request, moments);
    double best = later(ready, at[DW_LIFE__GAS_BEST]);
    double full = at[DW_LIFE__GAS_USE_FIRST];
    double best_to = full < end ? full : end;
    bool cold =
        end < INFINITY && dw_life__leg_at(request, end)->air_c < DW_LIFE_COLD_C;
    double last = end - (cold ? request->model.use_first_cold
                              : request->model.use_first_bench);
    double first = full < last ? full : last;
    tell(ready, end, &window->has_ready_h, &window->ready_h);
    tell(best, end, &window->has_best_from_h, &window->best_from_h);
    if (window->has_best_from_h)
        tell(best_to, end, &window->has_best_to_h, &window->best_to_h);
    tell(first > 0 ? first : 0, end, &window->has_use_first_h,
         &window->use_first_h);
    tell(end, end, &window->has_end_h, &window->end_h);
    if (!window->has_end_h)
        window->end_reason = NULL;
    tell(at[DW_LIFE__CORE_WARM], INFINITY, &window->has_usable_from_h,
         &window->usable_from_h);
}
