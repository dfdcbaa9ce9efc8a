/* Chance that comes out the same again: one row of numbers for each state, for
 * sampled days, shuffled lives, searches and the demo's past.
 *
 * Bits: splitmix64 (Steele, Lea & Flood 2014). Normal: Box & Muller 1958, the
 * second of the pair is not kept. Nothing here fails. */
#ifndef DOUGHWRIGHT_CHANCE_H
#define DOUGHWRIGHT_CHANCE_H

#include "doughwright/base.h"

typedef struct dw_chance {
    uint64_t state; /* any number is a good start */
} dw_chance;

/* A stream of its own for each use: what is drawn in one place changes nothing
 * in another. */
dw_chance dw_chance_of(uint64_t seed, uint64_t what, uint64_t which,
                       uint64_t when);
uint64_t dw_chance_bits(dw_chance *chance);
double dw_chance_unit(dw_chance *chance); /* in (0, 1) */
double dw_chance_normal(dw_chance *chance);
/* Counts of that mean; 0 for a mean of 0 or less. The second is a negative
 * binomial of variance mean + mean^2 / size, size 1 or more: a Poisson count
 * whose mean is a gamma (Marsaglia & Tsang 2000). */
int64_t dw_chance_poisson(dw_chance *chance, double mean);
int64_t dw_chance_count(dw_chance *chance, double mean, double size);

#endif
