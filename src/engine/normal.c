#include "engine/normal.h"

#include <math.h>

static const double ROOT_2 = 1.4142135623730951;
static const double ROOT_2_PI = 2.5066282746310002;

double dw_normal_below(double z)
{
    return 0.5 * erfc(-z / ROOT_2);
}

double dw_normal_above(double z)
{
    return 0.5 * erfc(z / ROOT_2);
}

double dw_normal_density(double z)
{
    return exp(-0.5 * z * z) / ROOT_2_PI;
}

/* Bisection, then Newton to the last digit. */
double dw_normal_quantile(double share)
{
    double low = -40, high = 40;
    for (int i = 0; i < 60; i++) {
        double middle = (low + high) / 2;
        *(dw_normal_below(middle) < share ? &low : &high) = middle;
    }
    double z = (low + high) / 2;
    double slope = dw_normal_density(z);
    return slope > 0 ? z - (dw_normal_below(z) - share) / slope : z;
}
