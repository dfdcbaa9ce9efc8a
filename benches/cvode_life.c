#include "cvode_life.h"

#include "doughwright/piece.h"

#include <cvode/cvode.h>
#include <math.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_band.h>
#include <sunmatrix/sunmatrix_band.h>

/* Of each shell, in the order of DW_FERMENT__STATE, and its temperature. */
enum { X, N, LF, LG, S, MAL, D, C, LOST, A, Q, T, STATES };
/* What each is like, for the absolute tolerance. */
static const double usual[STATES] = {.3, .2, 1, 2, 8, 5, 28, 20, 5, 1, 5, 20};

typedef struct ball {
    dw_ferment__one set;
    dw_life__shape shape[DW_LIFE_SHELLS_MOST];
    int shells;
    double flour_100g, heat_capacity_j_per_k, k, radius_m;
    double air_c, h;
} ball;

/* ---- what one shell does ------------------------------------------------- */

typedef struct warmth {
    double gas, wake, adapt, grow, lag, ka, age, leak, capacity, swell;
} warmth;

static double ctmi(double t, double tmin, double topt, double tmax)
{
    if (t <= tmin || t >= tmax)
        return 0;
    double above = t - tmin, span = topt - tmin;
    return (t - tmax) * above * above /
           (span * (span * (t - topt) - (topt - tmax) * (topt + tmin - 2 * t)));
}

static double solubility(double t)
{
    static const double ln[] = {
        0.2904282981198061,   0.11600367575630613, -0.05129329438755058,
        -0.20579491297959682, -0.3509769228240947, -0.4877603508349946,
        -0.6143360001356555,  -0.731888008876376,  -0.8416471888783893};
    int i = t < 5 ? 0 : t >= 35 ? 7 : (int)(t / 5);
    return exp(ln[i] + (ln[i + 1] - ln[i]) * (t / 5 - i));
}

static warmth warm(const dw_ferment__one *set, double t)
{
    double kelvin = t + DW_FERMENT_KELVIN, per = 1 / kelvin;
    double f = ctmi(t, set->f_Tmin, set->f_Topt, set->f_Tmax) * set->per_gas_30;
    double g = ctmi(t, set->g_Tmin, set->g_Topt, set->g_Tmax);
    return (warmth){
        .gas = set->gas_scale * f,
        .wake = set->per_gas_lag * f,
        .adapt = set->per_adapt_time * f,
        .grow = set->growth_scale * g,
        .lag = set->per_g27 * g,
        .ka = set->ka30 * exp(set->ka_K * (1 / 303.15 - per)),
        .age = exp(set->age_K * (1 / 298.15 - per)),
        .leak = set->k_loss * sqrt(f),
        .capacity = set->capacity_scale * solubility(t),
        .swell = set->swell * kelvin,
    };
}

static double bubbles(const dw_ferment__one *set, const warmth *w,
                      const double y[])
{
    double total = y[C] - y[LOST], b = total - set->air_mmol - w->capacity;
    return 0.5 * (b + sqrt(b * b + 4 * total * set->air_mmol));
}

static double swelling_of(const dw_ferment__one *set, const warmth *w,
                          const double y[])
{
    return set->solid + (bubbles(set, w, y) + set->air_mmol) * w->swell;
}

/* Rates of all but the temperature; gives that of gas. */
static double react(const dw_ferment__one *set, const warmth *w,
                    const double y[], double d[])
{
    double ethanol = fmax(1 - set->ethanol_slope * y[C], 0);
    double q = w->gas * y[LF] * y[X] * ethanol;
    double s = y[S] / (y[S] + set->sugar_half);
    double on_sugar = q * s;
    double on_maltose = set->maltose_rate * q * (1 - s) * y[A] * y[MAL] /
                        (y[MAL] + set->maltose_half);
    double growth = y[LG] >= set->growth_lag ? w->grow * y[X] * y[N] : 0;
    double gas = bubbles(set, w, y);
    double beyond =
        fmax(set->solid + (gas + set->air_mmol) * w->swell - set->v_crit, 0);
    double broken = w->ka * y[D];
    d[X] = growth - set->kd * y[X];
    d[N] = -growth;
    d[LF] = w->wake * (1 - y[LF]);
    d[LG] = w->lag;
    d[S] = -set->hexose_per_co2 * on_sugar;
    d[MAL] = broken - set->hexose_per_co2 * on_maltose;
    d[D] = -broken;
    d[C] = on_sugar + on_maltose;
    d[LOST] = w->leak * beyond * gas;
    d[A] = w->adapt * (1 - y[A]);
    d[Q] = w->age;
    return d[C];
}

/* ---- the ball ------------------------------------------------------------ */

static double capacity_of(const ball *b, int shell)
{
    return b->heat_capacity_j_per_k * b->shape[shell].part / 3600;
}

/* W/K outwards from each shell, as the engine's kernel has it. */
static void conduct(const ball *b, const double swelling[], double out_w[])
{
    const double gas_k = 0.025, k = b->k;
    double inside = 0, radius = 0, area = 0, half = 0;
    for (int i = 0; i < b->shells; i++) {
        inside += b->shape[i].part * swelling[i];
        double out = b->radius_m * b->shape[i].radius *
                     cbrt(inside * b->shape[i].per_inside);
        double e = 1 - b->set.solid / swelling[i];
        double own = 0.5 * (out - radius) * (2 * k + gas_k + (k - gas_k) * e) /
                     (k * (2 * k + gas_k - 2 * (k - gas_k) * e));
        if (i > 0)
            out_w[i - 1] = area / (b->shape[i - 1].stretch * (half + own));
        half = own;
        area = 4 * 3.14159265358979323846 * out * out;
        radius = out;
    }
    out_w[b->shells - 1] =
        area / (1 / b->h + 2 * b->shape[b->shells - 1].stretch * half);
}

static int rates(realtype at, N_Vector state, N_Vector rate, void *owner)
{
    const ball *b = owner;
    const double *y = N_VGetArrayPointer(state);
    double *d = N_VGetArrayPointer(rate);
    double swelling[DW_LIFE_SHELLS_MOST] = {0}, out[DW_LIFE_SHELLS_MOST];
    double in = 0;
    for (int i = 0; i < b->shells; i++) {
        const double *own = y + i * STATES;
        warmth w = warm(&b->set, own[T]);
        d[i * STATES + T] = b->set.heat * b->flour_100g / 3600 *
                            b->shape[i].part *
                            react(&b->set, &w, own, d + i * STATES);
        swelling[i] = swelling_of(&b->set, &w, own);
    }
    conduct(b, swelling, out);
    for (int i = 0; i < b->shells; i++) {
        double next = i + 1 < b->shells ? y[(i + 1) * STATES + T] : b->air_c;
        double gone = out[i] * (y[i * STATES + T] - next);
        d[i * STATES + T] = (d[i * STATES + T] + in - gone) / capacity_of(b, i);
        in = gone;
    }
    return 0;
}

/* Columns of one shell by differences, its rates at one temperature being cheap
 * without their exponentials. What swelling does to conduction is left out:
 * Newton's steps are as good without it. */
static void shell_columns(const ball *b, int shell, const double y[],
                          SUNMatrix matrix)
{
    double base[STATES], moved[STATES], own[STATES];
    int first = shell * STATES;
    double warming = b->set.heat * b->flour_100g / 3600 * b->shape[shell].part /
                     capacity_of(b, shell);
    memcpy(own, y + first, sizeof own);
    warmth w = warm(&b->set, own[T]);
    react(&b->set, &w, own, base);
    for (int j = 0; j < STATES; j++) {
        double step = 1e-7 * (fabs(own[j]) + usual[j]), kept = own[j];
        own[j] += step;
        warmth other = j == T ? warm(&b->set, own[T]) : w;
        react(&b->set, &other, own, moved);
        own[j] = kept;
        for (int i = 0; i < T; i++)
            SM_ELEMENT_B(matrix, first + i, first + j) =
                (moved[i] - base[i]) / step;
        SM_ELEMENT_B(matrix, first + T, first + j) =
            warming * (moved[C] - base[C]) / step;
    }
}

static int fill_matrix(realtype at, N_Vector state, N_Vector rate,
                       SUNMatrix matrix, void *owner, N_Vector a, N_Vector c,
                       N_Vector d)
{
    const ball *b = owner;
    const double *y = N_VGetArrayPointer(state);
    double swelling[DW_LIFE_SHELLS_MOST] = {0}, out[DW_LIFE_SHELLS_MOST];
    for (int i = 0; i < b->shells; i++) {
        warmth w = warm(&b->set, y[i * STATES + T]);
        swelling[i] = swelling_of(&b->set, &w, y + i * STATES);
        shell_columns(b, i, y, matrix);
    }
    conduct(b, swelling, out);
    for (int i = 0; i < b->shells; i++) {
        int here = i * STATES + T, next = here + STATES;
        SM_ELEMENT_B(matrix, here, here) -= out[i] / capacity_of(b, i);
        if (i + 1 == b->shells)
            break;
        SM_ELEMENT_B(matrix, here, next) = out[i] / capacity_of(b, i);
        SM_ELEMENT_B(matrix, next, here) = out[i] / capacity_of(b, i + 1);
        SM_ELEMENT_B(matrix, next, next) -= out[i] / capacity_of(b, i + 1);
    }
    return 0;
}

/* ---- a life -------------------------------------------------------------- */

static void make_ball(const dw_life_request *request,
                      const dw_ferment_model *model, ball *b, double y[])
{
    static dw_life__block block;
    dw_ferment_dough dough;
    dw_composition composition;
    dw_thermal thermal;
    dw_ferment__start start;
    double mixed_c = request->dough_c, kpa = dw_ferment_pressure_kpa(0);
    dw_ferment_dough_of(&request->formula, &dough, NULL);
    dw_piece_composition(&request->formula, &composition, NULL);
    dw_piece_thermal(&composition, 0, 15, &thermal, NULL);
    dw_life__shape_shells(&block, (int)request->shells);
    dw_ferment__set_one(model, &dough, mixed_c, kpa, &b->set);
    dw_ferment__start_one(model, &dough, &start);
    memcpy(b->shape, block.shape, sizeof b->shape);
    b->shells = block.shells;
    b->flour_100g = request->piece_g / dough.mass_g;
    b->heat_capacity_j_per_k = request->piece_g / 1000 * thermal.cp_j_per_kg_k;
    b->k = thermal.k_w_per_m_k;
    double start_ml =
        dw_ferment_volume_ml(model, &dough, b->set.air_mmol, mixed_c, kpa);
    b->radius_m =
        cbrt(0.75 / 3.14159265358979323846 * b->flour_100g * start_ml * 1e-6);
    for (int i = 0; i < b->shells; i++) {
        memcpy(y + i * STATES, &start, sizeof start);
        y[i * STATES + T] = mixed_c;
    }
}

static void tell(const ball *b, const double y[], size_t leg,
                 cvode_finish *finish)
{
    double gas = 0;
    for (int i = 0; i < b->shells; i++)
        gas += b->shape[i].part * y[i * STATES + C];
    finish->gas_ml[leg] = gas * DW_ML_PER_MMOL;
    finish->core_c[leg] = y[T] - 7.0 / 24 * (y[STATES + T] - y[T]);
}

static int live(void *solver, const dw_life_request *request,
                const cvode_ways *ways, ball *b, N_Vector state,
                cvode_finish *finish)
{
    realtype at = 0;
    double end = 0;
    for (size_t leg = 0; leg < request->legs_count; leg++) {
        b->air_c = request->legs[leg].air_c;
        b->h = request->legs[leg].h_w_per_m2_k;
        end += request->legs[leg].hours;
        if (leg > 0 && ways->restart)
            CVodeReInit(solver, at, state);
        if (CVodeSetStopTime(solver, end) != 0 ||
            CVode(solver, end, state, &at, CV_NORMAL) < 0)
            return -1;
        tell(b, N_VGetArrayPointer(state), leg, finish);
        long steps, matrices;
        CVodeGetNumSteps(solver, &steps);
        CVodeGetNumJacEvals(solver, &matrices);
        if (ways->restart || leg + 1 == request->legs_count) {
            finish->steps += steps;
            finish->matrices += matrices;
        }
    }
    return 0;
}

int cvode_live(const dw_life_request *request, const dw_ferment_model *model,
               const cvode_ways *ways, cvode_finish *finish)
{
    SUNContext context;
    ball b;
    double y[DW_LIFE_SHELLS_MOST * STATES];
    if (SUNContext_Create(NULL, &context) != 0)
        return -1;
    make_ball(request, model, &b, y);
    sunindextype count = b.shells * STATES;
    N_Vector state = N_VMake_Serial(count, y, context);
    N_Vector least = N_VNew_Serial(count, context);
    for (int i = 0; i < count; i++)
        N_VGetArrayPointer(least)[i] =
            ways->relative * ways->absolute * usual[i % STATES];
    SUNMatrix matrix = SUNBandMatrix(count, STATES, STATES, context);
    SUNLinearSolver linear = SUNLinSol_Band(state, matrix, context);
    void *solver = CVodeCreate(CV_BDF, context);
    b.air_c = request->legs[0].air_c;
    b.h = request->legs[0].h_w_per_m2_k;
    int status = CVodeInit(solver, rates, 0, state);
    status |= CVodeSVtolerances(solver, ways->relative, least);
    status |= CVodeSetUserData(solver, &b);
    status |= CVodeSetLinearSolver(solver, linear, matrix);
    status |= CVodeSetJacFn(solver, fill_matrix);
    status |= CVodeSetMaxNumSteps(solver, 100000);
    finish->steps = finish->matrices = 0;
    status = status ? status : live(solver, request, ways, &b, state, finish);
    CVodeFree(&solver);
    SUNLinSolFree(linear);
    SUNMatDestroy(matrix);
    N_VDestroy(least);
    N_VDestroy(state);
    SUNContext_Free(&context);
    return status;
}
