#include "app/demo.h"

#include <math.h>

static uint64_t mix(uint64_t z)
{
    z = (z ^ z >> 30) * 0xbf58476d1ce4e5b9ULL;
    z = (z ^ z >> 27) * 0x94d049bb133111ebULL;
    return z ^ z >> 31;
}

dw_chance dw_chance_of(uint64_t seed, uint64_t what, uint64_t which,
                       uint64_t when)
{
    return (dw_chance){mix(mix(mix(mix(seed) + what) + which) + when)};
}

uint64_t dw_chance_bits(dw_chance *chance)
{
    return mix(chance->state += 0x9e3779b97f4a7c15ULL);
}

double dw_chance_unit(dw_chance *chance)
{
    return ((double)(dw_chance_bits(chance) >> 11) + 0.5) / 9007199254740992.0;
}

/* Box & Muller 1958; the second of the pair is not kept. */
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

/* Products of uniforms (Knuth), in pieces that exp does not drown. */
static int64_t poisson(dw_chance *chance, double mean)
{
    int64_t n = 0;
    while (mean > 0) {
        double piece = mean < 50 ? mean : 50;
        double floor_of_product = exp(-piece);
        double product = dw_chance_unit(chance);
        for (; product > floor_of_product; n++)
            product *= dw_chance_unit(chance);
        mean -= piece;
    }
    return n;
}

/* A Poisson count whose mean is itself a gamma: negative binomial. */
int64_t dw_chance_count(dw_chance *chance, double mean, double size)
{
    if (mean <= 0)
        return 0;
    return poisson(chance, mean * gamma_of_mean_one(chance, size));
}
