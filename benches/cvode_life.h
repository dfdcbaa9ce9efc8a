/* The life of a ball on a general solver, as well as one knows how: the same
 * right-hand side as the engine's, written for one life in plain doubles;
 * CVODE's backward differentiation, the states of a shell side by side, a
 * banded matrix that we fill ourselves. What the engine's own integrator is
 * measured against. */
#ifndef BENCH_CVODE_LIFE_H
#define BENCH_CVODE_LIFE_H

#include "engine/life_walk.h"

typedef struct cvode_ways {
    double relative; /* tolerance */
    double absolute; /* that times each state's usual size */
    bool restart;    /* at every leg; else only told to stop there */
} cvode_ways;

enum { CVODE_LEGS_MOST = 512 };
/* At the end of each leg. */
typedef struct cvode_finish {
    double gas_ml[CVODE_LEGS_MOST], core_c[CVODE_LEGS_MOST];
    long steps, matrices;
} cvode_finish;

/* 0 when it worked. */
int cvode_live(const dw_life_request *request, const dw_ferment_model *model,
               const cvode_ways *ways, cvode_finish *finish);

#endif
