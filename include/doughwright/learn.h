/* What recorded batches teach: the mixing work of one mixer, formula and
 * minutes, and the water correction of one lot of flour.
 *
 * A reading is y with standard deviation s (dw_heat_learn gives both). Each is
 * sound with probability 0.95, else a gross error ten times as wide; sound
 * readings scatter by an unknown tau from batch to batch on top of s:
 *
 *   p(y | mu, tau) = 0.95 N(mu, R) + 0.05 N(mu, 100 R),  R = s^2 + tau^2   (1)
 *   mu ~ N(prior mean, prior sd^2),  tau in {250 ... 4000} J/kg            (2)
 *
 * The posterior of the one number mu is integrated on a grid, tau summed out,
 * so the answer is exact for (1) and (2), does not depend on the order of the
 * readings, and cannot lock on to a bad start: one wild reading moves little,
 * three that agree convince. The newest DW_LEARN_KEPT readings count, so a
 * repaired mixer is believed in time. docs/models/learn.md.
 */
#ifndef DOUGHWRIGHT_LEARN_H
#define DOUGHWRIGHT_LEARN_H

#include "doughwright/field.h"

enum { DW_LEARN_KEPT = 32 };

typedef struct dw_reading {
    double work_j_per_kg_dough; /* -50,000 to 300,000 */
    double sd_j_per_kg;         /* 10 to 100,000 */
} dw_reading;
extern const dw_shape dw_reading_shape;

/* All that has been learned under one key, oldest first. Zero it to start. */
typedef struct dw_learned {
    dw_reading kept[DW_LEARN_KEPT];
    size_t kept_count;
    int64_t seen; /* readings ever */
} dw_learned;

/* Take one more reading. DW_E_RANGE; the state is then as before. */
dw_status dw_learn_update(dw_learned *state, const dw_reading *reading,
                          dw_err *err);

/* Where the number mostly comes from. */
typedef enum dw_learn_level {
    DW_LEARN_PRIOR, /* no record: the trade's usual 13 kJ/kg, wide */
    DW_LEARN_MIXER, /* none of this formula and time: this mixer's others */
    DW_LEARN_OWN
} dw_learn_level;
extern const char *const dw_learn_level_words[]; /* prior mixer own */

typedef struct dw_estimate {
    double work_j_per_kg_dough;
    double sd_j_per_kg;
    double low_j_per_kg, high_j_per_kg; /* the middle 90 percent */
    int64_t n;                          /* readings of this key that count */
    int64_t mixer_n;                    /* and of the mixer's others */
    int64_t doubtful; /* of n, more likely gross errors than sound */
    int level;        /* dw_learn_level */
} dw_estimate;
extern const dw_shape dw_estimate_shape;

/* The work of a key from its own readings `own` and from `mixer`, the readings
 * of the same mixer under other keys (either may be NULL). The mixer's
 * estimate, widened by what formulas differ in, is the prior of the key; the
 * trade's is the prior of the mixer. */
void dw_learn_estimate(const dw_learned *own, const dw_learned *mixer,
                       dw_estimate *estimate);

/* The water correction to carry forward for a lot of flour, percent of flour,
 * from what was added or held back in its batches, oldest first: the mean of
 * those of the last eight within one point of their median. 0 of 0 readings. */
double dw_learn_lot_water(const double *percent, size_t count);

#endif
