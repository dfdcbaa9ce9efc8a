/* How many balls will be wanted: the whole distribution, not one number.
 *
 * Counts of independent wishes whose rate is itself uncertain follow the
 * negative binomial; with mean m and size r
 *
 *   P(k) = G(k + r) / (G(r) k!) (r / (r + m))^r (m / (r + m))^k          (1)
 *   variance = m + m^2 / r,   G the gamma function
 *
 * A large size is the Poisson distribution. A mean of 0 is a day on which
 * nothing is sold: P(0) = 1. Means 0 to 1e6, sizes 0.05 to 1e9. Nothing here
 * fails; shares are in [0, 1]. docs/models/demand.md.
 */
#ifndef DOUGHWRIGHT_SPREAD_H
#define DOUGHWRIGHT_SPREAD_H

#include "doughwright/field.h"

#define DW_SPREAD_SIZE_MOST 1e9

typedef struct dw_spread {
    double mean; /* balls */
    double size; /* of the negative binomial */
} dw_spread;
extern const dw_shape dw_spread_shape;

double dw_spread_variance(const dw_spread *spread);
/* P(wanted = balls); 0 for less than none. */
double dw_spread_mass(const dw_spread *spread, int64_t balls);
/* P(wanted <= balls). */
double dw_spread_share(const dw_spread *spread, int64_t balls);
/* P(wanted = 0), ... P(wanted = count - 1) into the caller's array. */
void dw_spread_masses(const dw_spread *spread, double *masses, size_t count);
/* The fewest balls that are enough with probability `share` (0 to 1; cut at
 * one in 1e12 from either end). */
int64_t dw_spread_quantile(const dw_spread *spread, double share);
/* Balls short on average when there are `balls`: E max(0, wanted - balls), 0
 * or more. */
double dw_spread_short(const dw_spread *spread, int64_t balls);

/* ---- scores of a forecast against what came ------------------------------ */

/* Continuous ranked probability score (Matheson and Winkler 1976), balls:
 * sum over k of (P(wanted <= k) - [came <= k])^2. */
double dw_spread_crps(const dw_spread *spread, int64_t came);
/* How much of the middle `level` (0.8: from 10 to 90 %) holds what came, 0 to
 * 1: the share of [P(wanted < came), P(wanted <= came)] inside it. Its mean is
 * the coverage with ties broken at random (Czado, Gneiting and Held 2009),
 * without drawing. */
double dw_spread_covers(const dw_spread *spread, double level, int64_t came);

#endif
