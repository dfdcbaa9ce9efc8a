/* The uncertainty band: which lives are lived, and what they have in common. */
#ifndef DW_ENGINE_LIFE_ENSEMBLE_H
#define DW_ENGINE_LIFE_ENSEMBLE_H

#include "engine/life_walk.h"

/* `count` models about the nominal one. Every parameter that has a range and
 * that the nominal model leaves at its value is spread over it: half of the
 * members below the value, half above, evenly (a Latin hypercube, the same for
 * every run). A parameter that was overridden counts as known. False when the
 * arena is full. */
bool dw_life__draw(const dw_ferment_model *nominal, dw_ferment_model *members,
                   size_t count, dw_arena *arena);

/* 5, 50 and 95 % of the members. gas, volume: [row][member]; they are sorted
 * in place. False when the arena is full. */
bool dw_life__band_of(const dw_life_request *request,
                      const dw_life__moments *moments, double *gas,
                      double *volume, size_t rows, dw_arena *arena,
                      dw_life_band *band);

#endif
