#include "chart.h"

#include <math.h>

static int64_t side_of(double z)
{
    return z > 0 ? 1 : z < 0 ? -1 : 0;
}

/* Of the last `of` points up to `i` so many lie beyond `far` on the side of
 * the newest, the newest among them. */
static bool most_beyond(const double *z, size_t i, size_t of, int needed,
                        double far)
{
    if (fabs(z[i]) <= far)
        return false;
    int beyond = 0;
    for (size_t j = i + 1 > of ? i + 1 - of : 0; j <= i; j++)
        beyond += (double)side_of(z[i]) * z[j] > far;
    return beyond >= needed;
}

/* How the rules see the points up to now: lengths of what runs on. */
typedef struct runs {
    int64_t one_side, side;
    int64_t rising, falling;
    int64_t alternating;
    int64_t close_in, far_out;
} runs;

static void go_on(runs *r, const double *z, size_t i)
{
    int64_t side = side_of(z[i]);
    r->one_side = side != 0 && side == r->side ? r->one_side + 1 : side != 0;
    r->side = side;
    bool close = fabs(z[i]) < 1;
    r->close_in = close ? r->close_in + 1 : 0;
    r->far_out = close ? 0 : r->far_out + 1;
    if (i == 0) {
        r->rising = r->falling = r->alternating = 1;
        return;
    }
    double step = z[i] - z[i - 1], before = i > 1 ? z[i - 1] - z[i - 2] : 0;
    r->rising = step > 0 ? r->rising + 1 : 1;
    r->falling = step < 0 ? r->falling + 1 : 1;
    if (i > 1 && step * before < 0)
        r->alternating++;
    else
        r->alternating = step != 0 ? 2 : 1;
}

typedef struct marks {
    dw_chart_signal *at;
    size_t *count;
    int64_t index;
} marks;

static void mark(const marks *m, bool found, dw_chart_rule rule, int64_t side)
{
    if (found)
        m->at[(*m->count)++] = (dw_chart_signal){m->index, (int)rule, side};
}

static bool reached(int64_t needed, int64_t length)
{
    return needed > 0 && length >= needed;
}

void dw_chart__mark(const dw_chart_rules *rules, double limit, const double *z,
                    size_t count, dw_chart_signal *signals,
                    size_t *signals_count)
{
    runs r = {0};
    for (size_t i = 0; i < count; i++) {
        marks m = {signals, signals_count, (int64_t)i};
        int64_t side = side_of(z[i]);
        go_on(&r, z, i);
        mark(&m, rules->beyond && fabs(z[i]) > limit, DW_CHART_BEYOND, side);
        mark(&m, rules->two_of_three && most_beyond(z, i, 3, 2, 2),
             DW_CHART_TWO_OF_THREE, side);
        mark(&m, rules->four_of_five && most_beyond(z, i, 5, 4, 1),
             DW_CHART_FOUR_OF_FIVE, side);
        mark(&m, reached(rules->one_side, r.one_side), DW_CHART_ONE_SIDE, side);
        mark(&m, reached(rules->rising, r.rising), DW_CHART_RISING, 1);
        mark(&m, reached(rules->rising, r.falling), DW_CHART_RISING, -1);
        mark(&m, reached(rules->alternating, r.alternating),
             DW_CHART_ALTERNATING, 0);
        mark(&m, reached(rules->close_in, r.close_in), DW_CHART_CLOSE_IN, 0);
        /* Far out on one side only is a run on one side. */
        mark(&m,
             reached(rules->far_out, r.far_out) && r.one_side < rules->far_out,
             DW_CHART_FAR_OUT, 0);
    }
}
