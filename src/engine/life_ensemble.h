/* The uncertainty band: which lives are lived, and what they have in common. */
#ifndef DW_ENGINE_LIFE_ENSEMBLE_H
#define DW_ENGINE_LIFE_ENSEMBLE_H

#include "engine/life_walk.h"

/* The request's members as models about its own. Every parameter that has a
 * range and that the model leaves at its value is spread over it: half of the
 * members below the value, half above, evenly (a Latin hypercube, the same for
 * every run). One that was overridden counts as known, unless the request
 * tells its range. False when the arena is full. */
bool dw_life__draw(const dw_life_request *request, dw_ferment_model *members,
                   dw_arena *arena);
/* DW_E_CHOICE, DW_E_RANGE on ranges[i]. */
dw_status dw_life__check_ranges(const dw_life_request *request, dw_err *err);

/* 5, 50 and 95 % of the members. gas, volume: [row][member]; they are sorted
 * in place. False when the arena is full. */
bool dw_life__band_of(const dw_life_request *request,
                      const dw_life__moments *moments, double *gas,
                      double *volume, size_t rows, dw_arena *arena,
                      dw_life_band *band);

#endif
