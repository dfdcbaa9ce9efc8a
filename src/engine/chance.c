#include "doughwright/chance.h"

#include <math.h>

static uint64_t mix(uint64_t z)
{
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    return z ^ (z >> 31);
}

dw_chance dw_chance_of(uint64_t seed, uint64_t what, uint64_t which,
                       uint64_t when)
{
    return (dw_chance){mix(mix(mix(mix(seed) + what) + which) + when)};
}

uint64_t dw_chance_bits(dw_chance *chance)
{
    return mix(chance->state += 0x9e3779b97f4a7c15u);
}

double dw_chance_unit(dw_chance *chance)
{
    return ((double)(dw_chance_bits(chance) >> 11) + 0.5) / 9007199254740992.0;
}

double dw_chance_normal(dw_chance *chance)
{
    double r = sqrt(-2 * log(dw_chance_unit(chance)));
    return r * cos(6.283185307179586 * dw_chance_unit(chance));
}

/* Gamma of shape >= 1 and mean 1: Marsaglia & Tsang 2000. */
static double gamma_of_mean_one(dw_chance *chance, double shape)
{
    double d = shape - 1.0 / 3, c = 1 / sqrt(9 * d), v, x;
    for (;;) {
        x = dw_chance_normal(chance);
        v = 1 + c * x;
        if (v <= 0)
            continue;
        v = v * v * v;
        if (log(dw_chance_unit(chance)) < x * x / 2 + d - d * v + d * log(v))
            return d * v / shape;
    }
}

/* By inversion, in parts of a mean that exp() can hold. */
#define PART 30.0

int64_t dw_chance_poisson(dw_chance *chance, double mean)
{
    int64_t count = 0;
    int parts = (int)ceil(mean / PART);
    for (int i = 0; i < parts; i++) {
        double part = fmin(PART, mean - PART * i), u = dw_chance_unit(chance);
        double mass = exp(-part), sum = mass;
        for (int k = 1; u > sum && k < 400; k++) {
            mass *= part / k;
            sum += mass;
            count++;
        }
    }
    return count;
}

/* A Poisson count whose mean is itself a gamma: negative binomial. */
int64_t dw_chance_count(dw_chance *chance, double mean, double size)
{
    if (mean <= 0)
        return 0;
    return dw_chance_poisson(chance, mean * gamma_of_mean_one(chance, size));
}
