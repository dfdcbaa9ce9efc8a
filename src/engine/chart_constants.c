#include "chart.h"
#include "engine/normal.h"

#include <math.h>

enum { STEPS = 480 };
/* Beyond, 25 values hold less than 1e-14. */
#define FAR 8.0

static double power(double base, int64_t n)
{
    double product = 1;
    for (int64_t i = 0; i < n; i++)
        product *= base;
    return product;
}

/* E W = integral of 1 - P^n - (1 - P)^n, by trapezoids: the integrand and all
 * its derivatives vanish at both ends, so they converge faster than any
 * power. */
static double mean_range(int64_t n)
{
    double sum = 0, step = 2 * FAR / STEPS;
    for (int i = 0; i <= STEPS; i++) {
        double p = dw_normal_below(-FAR + i * step);
        sum += 1 - power(p, n) - power(1 - p, n);
    }
    return sum * step;
}

/* P(W > w) = 1 - n integral of density(x) (P(x + w) - P(x))^(n - 1). */
static double range_above(int64_t n, double w)
{
    double sum = 0, step = 2 * FAR / STEPS;
    for (int i = 0; i <= STEPS; i++) {
        double x = -FAR + i * step;
        double within = dw_normal_below(x + w) - dw_normal_below(x);
        sum += dw_normal_density(x) * power(within, n - 1);
    }
    return 1 - (double)n * sum * step;
}

/* E W^2 = integral of 2 w P(W > w) over w above 0. Trapezoids fall short by
 * step^2 / 12 of the slope at 0, which is 2. */
static double mean_square_range(int64_t n)
{
    double sum = 0, step = 2 * FAR / STEPS;
    for (int i = 1; i <= STEPS; i++)
        sum += 2 * i * step * range_above(n, i * step);
    return sum * step + step * step / 6;
}

void dw_chart_constants_of(int64_t n, dw_chart_constants *constants)
{
    double nd = (double)n;
    dw_chart_constants c = {.d2 = mean_range(n)};
    c.d3 = sqrt(mean_square_range(n) - c.d2 * c.d2);
    c.c4 = sqrt(2 / (nd - 1)) * exp(lgamma(nd / 2) - lgamma((nd - 1) / 2));
    double of_deviation = sqrt(1 - c.c4 * c.c4);
    c.a = 3 / sqrt(nd);
    c.a2 = c.a / c.d2;
    c.a3 = c.a / c.c4;
    c.b5 = fmax(0, c.c4 - 3 * of_deviation);
    c.b6 = c.c4 + 3 * of_deviation;
    c.b3 = c.b5 / c.c4;
    c.b4 = c.b6 / c.c4;
    c.d_1 = fmax(0, c.d2 - 3 * c.d3);
    c.d_2 = c.d2 + 3 * c.d3;
    c.d_3 = c.d_1 / c.d2;
    c.d_4 = c.d_2 / c.d2;
    c.e2 = 3 / c.d2;
    *constants = c;
}
