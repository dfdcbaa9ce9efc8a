#include "doughwright/smooth.h"

#include <math.h>
#include <string.h>

enum { FREE_MOST = 4, TURNS = 2000, SEASON_MOST = 366 };

/* One way through the values. */
typedef struct run {
    const dw_smooth_ask *ask;
    double rates[3]; /* alpha, beta, gamma */
    double start_level, level, slope;
    double seasons[SEASON_MOST];
    size_t first; /* value that is smoothed first */
    double squared;
    double *levels; /* NULL: not wanted */
} run;

static bool has_trend(int method)
{
    return method != DW_SMOOTH_LEVEL;
}

static bool has_season(int method)
{
    return method >= DW_SMOOTH_SEASON;
}

/* ---- the start ------------------------------------------------------------
 */

/* Mean over one season around `i`, half weights at both ends when it is even.
 */
static double moving(const double *values, size_t i, size_t season)
{
    size_t half = season / 2;
    double sum = 0;
    for (size_t k = i - half; k <= i + half; k++)
        sum += values[k];
    if (season % 2 == 0)
        sum -= (values[i - half] + values[i + half]) / 2;
    return sum / (double)season;
}

/* Classical decomposition of the first two seasons. */
static void start_season(run *r)
{
    const dw_smooth_ask *ask = r->ask;
    size_t season = (size_t)ask->season, half = season / 2;
    size_t n = 2 * season - 2 * half;
    bool times = ask->method == DW_SMOOTH_SEASON_TIMES;
    double x = 0, y = 0, xx = 0, xy = 0, mean = 0;
    double counts[SEASON_MOST] = {0};
    memset(r->seasons, 0, sizeof r->seasons);
    for (size_t i = half; i < half + n; i++) {
        double trend = moving(ask->values, i, season);
        double at = (double)(i - half + 1);
        x += at;
        y += trend;
        xx += at * at;
        xy += at * trend;
        r->seasons[i % season] +=
            times ? ask->values[i] / trend : ask->values[i] - trend;
        counts[i % season] += 1;
    }
    double of = (double)n;
    r->slope = (of * xy - x * y) / (of * xx - x * x);
    r->level = (y - r->slope * x) / of;
    for (size_t i = 0; i < season; i++)
        mean += (r->seasons[i] /= counts[i]) / (double)season;
    for (size_t i = 0; i < season; i++)
        r->seasons[i] = times ? r->seasons[i] / mean : r->seasons[i] - mean;
    r->first = season;
}

static void start(run *r)
{
    const dw_smooth_ask *ask = r->ask;
    const double *y = ask->values;
    if (has_season(ask->method)) {
        start_season(r);
    } else {
        r->first = ask->has_level || ask->find_level ? 0 : 1;
        r->level = y[0];
        r->slope = ask->method == DW_SMOOTH_TREND         ? y[1] - y[0]
                   : ask->method == DW_SMOOTH_TREND_TIMES ? y[1] / y[0]
                                                          : 0;
    }
    if (ask->has_level)
        r->level = ask->level;
    if (ask->has_slope)
        r->slope = ask->slope;
    if (ask->find_level)
        r->level = r->start_level;
    r->start_level = r->level;
}

/* ---- one way through ------------------------------------------------------
 */

static double expected(const run *r, double season)
{
    switch (r->ask->method) {
    case DW_SMOOTH_TREND_TIMES: return r->level * r->slope;
    case DW_SMOOTH_SEASON_TIMES: return (r->level + r->slope) * season;
    default: return r->level + r->slope + season;
    }
}

static void step(run *r, double y, double *season)
{
    int method = r->ask->method;
    double alpha = r->rates[0], beta = r->rates[1], gamma = r->rates[2];
    double before = r->level;
    double bare = method == DW_SMOOTH_SEASON_TIMES ? y / *season : y - *season;
    double ahead =
        method == DW_SMOOTH_TREND_TIMES ? before * r->slope : before + r->slope;
    double error = y - expected(r, *season);
    r->squared += error * error;
    r->level = alpha * bare + (1 - alpha) * ahead;
    if (has_trend(method)) {
        double moved = method == DW_SMOOTH_TREND_TIMES ? r->level / before
                                                       : r->level - before;
        r->slope = beta * moved + (1 - beta) * r->slope;
    }
    if (has_season(method)) {
        double shown =
            method == DW_SMOOTH_SEASON_TIMES ? y / r->level : y - r->level;
        *season = gamma * shown + (1 - gamma) * *season;
    }
}

static void go_through(run *r)
{
    const dw_smooth_ask *ask = r->ask;
    double none = 0;
    start(r);
    r->squared = 0;
    for (size_t i = r->first; i < ask->values_count; i++) {
        double *season = has_season(ask->method)
                             ? &r->seasons[i % (size_t)ask->season]
                             : &none;
        step(r, ask->values[i], season);
        if (r->levels)
            r->levels[i - r->first] = r->level;
    }
}

/* ---- what is not given ----------------------------------------------------
 */

/* Where each free number lives. */
typedef struct search {
    run *r;
    double *places[FREE_MOST];
    double low[FREE_MOST], high[FREE_MOST];
    int n;
} search;

static void free_number(search *s, double *place, double low, double high,
                        double guess)
{
    *place = guess;
    s->places[s->n] = place;
    s->low[s->n] = low;
    s->high[s->n++] = high;
}

static double cost(search *s, const double *at)
{
    for (int i = 0; i < s->n; i++) {
        if (!(at[i] >= s->low[i] && at[i] <= s->high[i]))
            return INFINITY;
        *s->places[i] = at[i];
    }
    go_through(s->r);
    return isfinite(s->r->squared) ? s->r->squared : INFINITY;
}

typedef struct corner {
    double at[FREE_MOST], cost;
} corner;

static void sort_corners(corner *c, int count)
{
    for (int i = 1; i < count; i++) {
        corner one = c[i];
        int k = i;
        for (; k > 0 && c[k - 1].cost > one.cost; k--)
            c[k] = c[k - 1];
        c[k] = one;
    }
}

/* The worst corner moved along the line through the middle of the others. */
static corner moved(search *s, const corner *c, double by)
{
    corner one = {.cost = 0};
    for (int i = 0; i < s->n; i++) {
        double middle = 0;
        for (int k = 0; k < s->n; k++)
            middle += c[k].at[i] / s->n;
        one.at[i] = middle + by * (c[s->n].at[i] - middle);
    }
    one.cost = cost(s, one.at);
    return one;
}

static void shrink(search *s, corner *c)
{
    for (int k = 1; k <= s->n; k++) {
        for (int i = 0; i < s->n; i++)
            c[k].at[i] = (c[k].at[i] + c[0].at[i]) / 2;
        c[k].cost = cost(s, c[k].at);
    }
}

static void turn(search *s, corner *c)
{
    corner one = moved(s, c, -1);
    if (one.cost < c[0].cost) {
        corner further = moved(s, c, -2);
        c[s->n] = further.cost < one.cost ? further : one;
    } else if (one.cost < c[s->n - 1].cost) {
        c[s->n] = one;
    } else {
        one = moved(s, c, one.cost < c[s->n].cost ? -0.5 : 0.5);
        if (one.cost < c[s->n].cost)
            c[s->n] = one;
        else
            shrink(s, c);
    }
}

/* Nelder and Mead, begun again from what it found until nothing is gained. */
static void find(search *s)
{
    corner c[FREE_MOST + 1], best = {.cost = INFINITY};
    for (int i = 0; i < s->n; i++)
        best.at[i] = *s->places[i];
    for (int round = 0; round < 6 && s->n > 0; round++) {
        double before = best.cost;
        for (int k = 0; k <= s->n; k++) {
            c[k] = best;
            if (k > 0) {
                double span = s->high[k - 1] - s->low[k - 1];
                double up = best.at[k - 1] + 0.2 * span;
                c[k].at[k - 1] =
                    up <= s->high[k - 1] ? up : best.at[k - 1] - 0.2 * span;
            }
            c[k].cost = cost(s, c[k].at);
        }
        for (int i = 0; i < TURNS; i++) {
            sort_corners(c, s->n + 1);
            if (c[s->n].cost - c[0].cost <= 1e-13 * c[0].cost && i > 60)
                break;
            turn(s, c);
        }
        sort_corners(c, s->n + 1);
        best = c[0];
        if (before - best.cost <= 1e-10 * best.cost)
            break;
    }
    cost(s, best.at);
}

static void set_rates(const dw_smooth_ask *ask, run *r)
{
    search s = {.r = r};
    double low = ask->values[0], high = low;
    for (size_t i = 0; i < ask->values_count; i++) {
        low = fmin(low, ask->values[i]);
        high = fmax(high, ask->values[i]);
    }
    r->rates[0] = ask->alpha;
    r->rates[1] = ask->beta;
    r->rates[2] = ask->gamma;
    if (!ask->has_alpha)
        free_number(&s, &r->rates[0], 0, 1, 0.3);
    if (!ask->has_beta && has_trend(ask->method))
        free_number(&s, &r->rates[1], 0, 1, 0.1);
    if (!ask->has_gamma && has_season(ask->method))
        free_number(&s, &r->rates[2], 0, 1, 0.1);
    if (ask->find_level)
        free_number(&s, &r->start_level, low, high, ask->values[0]);
    find(&s);
}

/* ---- the answer -----------------------------------------------------------
 */

static dw_status check(const dw_smooth_ask *ask, dw_err *err)
{
    size_t season = (size_t)ask->season;
    size_t least = has_season(ask->method) ? 2 * season + season / 2 : 3;
    if (ask->values_count < least)
        return dw_fail_range(err, "values", (double)ask->values_count,
                             (double)least, 1e6);
    bool factors = ask->method == DW_SMOOTH_TREND_TIMES ||
                   ask->method == DW_SMOOTH_SEASON_TIMES;
    for (size_t i = 0; factors && i < ask->values_count; i++)
        if (!(ask->values[i] > 0))
            return dw_fail_range(err, "values", ask->values[i], 1e-9, 1e12);
    return DW_OK;
}

static double ahead_of(const run *r, int64_t h)
{
    const dw_smooth_ask *ask = r->ask;
    if (ask->method == DW_SMOOTH_TREND_TIMES)
        return r->level * pow(r->slope, (double)h);
    double base = r->level + (double)h * r->slope;
    if (!has_season(ask->method))
        return base;
    size_t at = (ask->values_count + (size_t)h - 1) % (size_t)ask->season;
    return ask->method == DW_SMOOTH_SEASON ? base + r->seasons[at]
                                           : base * r->seasons[at];
}

dw_status dw_smooth_run(const dw_smooth_ask *ask, dw_arena *arena,
                        dw_smooth_reply *reply, dw_err *err)
{
    DW_TRY(check(ask, err));
    run r = {.ask = ask};
    set_rates(ask, &r);
    size_t season = has_season(ask->method) ? (size_t)ask->season : 0;
    double *forecast = DW_NEW_ARRAY(arena, double, (size_t)ask->ahead);
    double *seasons = DW_NEW_ARRAY(arena, double, season + 1);
    r.levels = DW_NEW_ARRAY(arena, double, ask->values_count);
    if (!forecast || !seasons || !r.levels)
        return dw_fail(err, DW_E_ROOM, "values", NULL);
    go_through(&r);
    for (int64_t h = 1; h <= ask->ahead; h++)
        forecast[h - 1] = ahead_of(&r, h);
    for (size_t i = 0; i < season; i++)
        seasons[i] = r.seasons[(ask->values_count + i) % season];
    *reply =
        (dw_smooth_reply){.alpha = r.rates[0],
                          .beta = r.rates[1],
                          .gamma = r.rates[2],
                          .level = r.level,
                          .slope = r.slope,
                          .start_level = r.start_level,
                          .levels = r.levels,
                          .levels_count = ask->values_count - r.first,
                          .seasons = seasons,
                          .seasons_count = season,
                          .forecast = forecast,
                          .forecast_count = (size_t)ask->ahead,
                          .squared_errors = r.squared,
                          .errors = (int64_t)(ask->values_count - r.first)};
    return DW_OK;
}
