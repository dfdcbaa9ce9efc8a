/* Whose doing is it? The parts of mixer, person, shift and lot in a row of
 * values, told apart.
 *
 *   value = mean + a[mixer] + a[person] + ... + noise                     (1)
 *   a ~ N(0, t^2),  noise ~ N(0, s^2)                                     (2)
 *
 * The answer is the mean and deviation of each part given all values, exactly
 * (a Gaussian posterior: one symmetric system, solved by Cholesky), each part
 * against the average of its factor's. With few values a part is pulled towards
 * none. Two parts that always come together
 * (one person, one lot) cannot be told apart: their errors are opposed, and
 * `together` says with whom when the correlation is below -0.8, and how much
 * the two make, which is known well where neither is.
 *
 * t is the deviation of all values unless told; s is told, or found from what
 * the parts leave (two steps). Method: textbook linear model with normal
 * priors (Gelman et al., Bayesian Data Analysis, ch. 14-15).
 */
#ifndef DOUGHWRIGHT_EFFECTS_H
#define DOUGHWRIGHT_EFFECTS_H

#include "doughwright/field.h"

enum {
    DW_EFFECTS_VALUES = 2000,
    DW_EFFECTS_FACTORS = 4,
    DW_EFFECTS_LEVELS = 120 /* of all factors */
};

typedef struct dw_factor {
    const char *name; /* "person" */
    int64_t *levels;  /* of each value: an id; 0: not known, no part */
    size_t levels_count;
} dw_factor;

typedef struct dw_effects_request {
    double *values;
    size_t values_count;
    dw_factor *factors;
    size_t factors_count;
    bool has_part_sd, has_noise_sd;
    double part_sd, noise_sd; /* t, s */
} dw_effects_request;

typedef struct dw_effect {
    const char *factor; /* borrowed */
    int64_t level;
    int64_t values_count;    /* with it */
    double part, sd;         /* of the mean */
    double strength;         /* |part| / sd */
    bool has_together_level; /* cannot be told apart from: */
    const char *together_factor;
    int64_t together_level;
    double together_part, together_sd; /* of both, of the mean */
} dw_effect;

typedef struct dw_effects_reply {
    double mean, mean_sd, noise_sd;
    dw_effect *effects; /* by factor, then in the order levels appear */
    size_t effects_count;
} dw_effects_reply;

extern const dw_shape dw_effects_request_shape, dw_effects_reply_shape;

/* Fails with DW_E_RANGE (values: fewer than 3 or more than DW_EFFECTS_VALUES;
 * factors[i].levels: not one for each value; factors: more levels than
 * DW_EFFECTS_LEVELS), DW_E_UNREACHABLE (all values alike: values), DW_E_ROOM.
 * 512 KiB are enough. */
dw_status dw_effects_find(const dw_effects_request *request, dw_arena *arena,
                          dw_err *err, dw_effects_reply *reply);

#endif
