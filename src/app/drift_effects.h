/* Whose doing is it: parts of person, flour lot, mixer and hour of day in a row
 * of values, those that are clear. */
#ifndef DW_APP_DRIFT_EFFECTS_H
#define DW_APP_DRIFT_EFFECTS_H

#include "app/op.h"
#include "store/quality.h"

/* Clear: the part is so many of its own errors. */
#define DW_DRIFT_CLEAR 3.0

enum { DW_DRIFT_EFFECTS = 40 };

typedef struct dw_drift_effect {
    int factor, together_factor;   /* dw_drift_factor_words */
    int64_t level, together_level; /* id; hours: the first of six */
    const char *name, *together_name;
    int64_t values_count;
    double part, sd, strength; /* of both, when it has a together */
    bool has_together;
} dw_drift_effect;
extern const dw_shape dw_drift_effect_shape;

/* The clear parts, the clearest first; two that cannot be told apart are one.
 * values[i] came of batches[i]. None when there are too few values. */
dw_status dw_drift_effects(dw_call *call, const double *values,
                           const dw_quality_row **batches, size_t count,
                           dw_drift_effect **effects, size_t *effects_count);

#endif
