/* CVODE: backward differentiation, Newton, banded matrix by differences. */
#include "life_equations.h"

#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_band.h>
#include <sunmatrix/sunmatrix_band.h>

static int rates(realtype t, N_Vector y, N_Vector dydt, void *owner)
{
    ball_rates(owner, N_VGetArrayPointer(y), N_VGetArrayPointer(dydt));
    return 0;
}

int solve(const ball *b, double y[], double from_h, double to_h)
{
    SUNContext context;
    if (SUNContext_Create(NULL, &context) != 0)
        return -1;
    ball now = *b;
    sunindextype count = (sunindextype)ball_states(b);
    sunindextype band = b->held ? STATES - 1 : 2 * STATES - 1;
    if (band >= count)
        band = count - 1;
    N_Vector state = N_VMake_Serial(count, y, context);
    SUNMatrix matrix = SUNBandMatrix(count, band, band, context);
    SUNLinearSolver linear = SUNLinSol_Band(state, matrix, context);
    void *solver = CVodeCreate(CV_BDF, context);
    realtype at = from_h;
    int status = CVodeInit(solver, rates, from_h, state);
    status |= CVodeSStolerances(solver, 1e-9, 1e-10);
    status |= CVodeSetUserData(solver, &now);
    status |= CVodeSetLinearSolver(solver, linear, matrix);
    status |= CVodeSetMaxNumSteps(solver, 1000000);
    status |= CVodeSetStopTime(solver, to_h);
    status = status ? status : CVode(solver, to_h, state, &at, CV_NORMAL);
    CVodeFree(&solver);
    SUNLinSolFree(linear);
    SUNMatDestroy(matrix);
    N_VDestroy(state);
    SUNContext_Free(&context);
    return status < 0 ? status : 0;
}
