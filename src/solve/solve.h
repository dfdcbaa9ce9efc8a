/* The solver of mixed-integer programs, in a program of its own: what fails or
 * hangs there does not take the shop's program with it, and a solve that takes
 * too long is ended from outside. */
#ifndef DW_SOLVE_SOLVE_H
#define DW_SOLVE_SOLVE_H

#include "doughwright/solver.h"

/* A solver that starts `doughwright-solve` for each program: the one beside the
 * running executable, else the one of the build. Static, borrowed; any thread
 * may use it. */
const dw_solver *dw_solve_apart(void);

#endif
