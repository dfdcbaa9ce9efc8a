/* Since when: the strongest step in a row of values. */
#include "chart.h"

#include <math.h>

/* T of chart.h is above this once in 100 rows without a step. Fitted by us to
 * 400,000 rows of normal values each (60,000 from 500 on), sigma from moving
 * ranges. */
static const struct {
    double count, threshold;
} threshold_table[] = {{8, 4.015},   {12, 3.976},  {20, 3.846},
                       {30, 3.782},  {50, 3.720},  {100, 3.692},
                       {200, 3.703}, {500, 3.725}, {1000, 3.788}};

enum { FEWEST = 8, EACH_SIDE = 2 };
/* Nine in ten true places lie where T^2 is within so much of its top. */
#define WITHIN 4.6

static double threshold_of(size_t count)
{
    double n = (double)count;
    for (size_t i = 1; i < DW_COUNT(threshold_table); i++) {
        if (n > threshold_table[i].count)
            continue;
        double from = threshold_table[i - 1].count;
        double part = log(n / from) / log(threshold_table[i].count / from);
        return threshold_table[i - 1].threshold +
               part * (threshold_table[i].threshold -
                       threshold_table[i - 1].threshold);
    }
    return threshold_table[DW_COUNT(threshold_table) - 1].threshold;
}

/* Steps tried one after another, the sums carried along. */
typedef struct tried {
    const double *values;
    double count, sigma, total, sum;
    size_t index; /* first value after the step */
    double before, after, strength;
} tried;

static tried try_first(const double *values, size_t count, double sigma)
{
    tried t = {.values = values, .count = (double)count, .sigma = sigma};
    for (size_t i = 0; i < count; i++)
        t.total += values[i];
    return t;
}

static void try_next(tried *t)
{
    t->sum += t->values[t->index++];
    double left = (double)t->index, right = t->count - left;
    t->before = t->sum / left;
    t->after = (t->total - t->sum) / right;
    t->strength =
        sqrt(left * right / t->count) * fabs(t->after - t->before) / t->sigma;
}

static void set_doubt(const double *values, size_t count, double sigma,
                      dw_chart_change *change)
{
    double least = change->strength * change->strength - WITHIN;
    change->earliest = -1;
    tried t = try_first(values, count, sigma);
    while (t.index + EACH_SIDE < count) {
        try_next(&t);
        if (t.index < EACH_SIDE || t.strength * t.strength < least)
            continue;
        if (change->earliest < 0)
            change->earliest = (int64_t)t.index;
        change->latest = (int64_t)t.index;
    }
}

bool dw_chart_step(const double *values, size_t count, double sigma,
                   dw_chart_change *change)
{
    if (count < FEWEST || !(sigma > 0))
        return false;
    dw_chart_change best = {.threshold = threshold_of(count)};
    tried t = try_first(values, count, sigma);
    while (t.index + EACH_SIDE < count) {
        try_next(&t);
        if (t.index < EACH_SIDE || t.strength <= best.strength)
            continue;
        best.index = (int64_t)t.index;
        best.before = t.before;
        best.after = t.after;
        best.strength = t.strength;
    }
    if (best.strength <= best.threshold)
        return false;
    set_doubt(values, count, sigma, &best);
    *change = best;
    return true;
}
