#include "teach_shops.h"

#include "dw_test.h"

double shop_normal(unsigned long long *seed)
{
    double sum = -6;
    for (int i = 0; i < 12; i++)
        sum += dw_test_between(seed, 0, 1);
    return sum;
}

double shop_normal_within(unsigned long long *seed, double mean, double sd,
                          double widest_sds)
{
    double z;
    do
        z = shop_normal(seed);
    while (fabs(z) > widest_sds);
    return mean + sd * z;
}

dw_formula shop_formula(dw_line lines[4], double instant)
{
    const dw_line all[] = {
        {"flour", DW_FLOUR, 100, false, 0, false, 0},
        {"water", DW_WATER, 60, false, 0, false, 0},
        {"salt", DW_SALT, 2, false, 0, false, 0},
        {"yeast", DW_YEAST_INSTANT, instant, false, 0, false, 0},
    };
    memcpy(lines, all, sizeof all);
    return (dw_formula){lines, 4, NULL, 0};
}

ball shop_ball(double instant)
{
    return (ball){.water = 60,
                  .salt = 2,
                  .yeast_dry = instant * 0.95 * 0.90,
                  .q30 = 16,
                  .gas_tmin = -1,
                  .mass = 162 + instant,
                  .mixed_c = 26,
                  .pressure_kpa = 101.325,
                  .piece_kg = 0.45,
                  .cp = 2770, /* dough of 60 % water: the science's table */
                  .k_dense = 0.42,
                  .shells = 10};
}

void shop_follow(const ball *b, double y[], double hours, double step_h)
{
    enum { MOST = 12 * STATES };
    double k1[MOST], k2[MOST], k3[MOST], k4[MOST], at[MOST];
    size_t n = ball_states(b);
    int steps = (int)ceil(hours / step_h);
    double h = hours / steps;
    for (int step = 0; step < steps; step++) {
        ball_rates(b, y, k1);
        for (size_t i = 0; i < n; i++)
            at[i] = y[i] + h / 2 * k1[i];
        ball_rates(b, at, k2);
        for (size_t i = 0; i < n; i++)
            at[i] = y[i] + h / 2 * k2[i];
        ball_rates(b, at, k3);
        for (size_t i = 0; i < n; i++)
            at[i] = y[i] + h * k3[i];
        ball_rates(b, at, k4);
        for (size_t i = 0; i < n; i++)
            y[i] += h / 6 * (k1[i] + 2 * k2[i] + 2 * k3[i] + k4[i]);
    }
}

void shop_score_belief(shop_score *score, const dw_belief *belief,
                       double hidden)
{
    score->inside += belief->low <= hidden && hidden <= belief->high;
    score->all++;
}

void shop_score_error(shop_score *score, double before, double after)
{
    score->before2 += before * before;
    score->after2 += after * after;
}

void shop_check(const char *what, const shop_score *score, double slack)
{
    double share = (double)score->inside / score->all;
    double left = score->before2 > 0 ? sqrt(score->after2 / score->before2) : 0;
    if (slack < 0.1)
        printf("  %s: %d of %d inside (%.1f %%), error to %.2f of before\n",
               what, score->inside, score->all, 100 * share, left);
    CHECK(share >= 0.85 - slack && share <= 0.95 + slack);
    CHECK(left <= 0.5);
}
