/* The engine's lives against CVODE's, at equal or better accuracy, in one run:
 * one core, 12 shells, Biot number about 1, the same equations. Every tolerance
 * of CVODE's is tried and the quickest taken that is no further from the truth
 * than the engine in any of three errors: gas and core of the nominal life at
 * the end of any leg, gas of the members at the end. The truth is CVODE at 1e-9
 * on the same shells. */
#include "cvode_life.h"
#include "engine/life_ensemble.h"
#include "life_histories.h"

#include <math.h>
#include <stdio.h>

enum { MEMBERS = 7, TRIED = 52 };

typedef struct errors {
    double gas, core_k, members_gas; /* gas as a part of what there is */
} errors;

typedef struct outcome {
    cvode_finish nominal;
    double members_ml[MEMBERS];
} outcome;

typedef struct cost {
    errors off;
    double lives_per_second;
    long steps;
} cost;

static void most(double *of, double value)
{
    *of = value > *of ? value : *of;
}

/* ---- CVODE --------------------------------------------------------------- */

static int live_all(const dw_life_request *request,
                    const dw_ferment_model members[], const cvode_ways *ways,
                    outcome *told)
{
    cvode_finish one;
    size_t last = request->legs_count - 1;
    int status = cvode_live(request, &request->model, ways, &told->nominal);
    for (int i = 0; i < MEMBERS && status == 0; i++) {
        status = cvode_live(request, &members[i], ways, &one);
        told->members_ml[i] = one.gas_ml[last];
    }
    return status;
}

static errors errors_of(const dw_life_request *request, const outcome *truth,
                        const cvode_finish *nominal, const double members_ml[])
{
    errors off = {0, 0, 0};
    for (size_t i = 0; i < request->legs_count; i++) {
        double gas = truth->nominal.gas_ml[i];
        most(&off.gas, fabs(nominal->gas_ml[i] - gas) / gas);
        most(&off.core_k, fabs(nominal->core_c[i] - truth->nominal.core_c[i]));
    }
    for (int i = 0; i < MEMBERS; i++)
        most(&off.members_gas, fabs(members_ml[i] / truth->members_ml[i] - 1));
    return off;
}

static bool as_good(const errors *off, const errors *wanted)
{
    return off->gas <= wanted->gas && off->core_k <= wanted->core_k &&
           off->members_gas <= wanted->members_gas;
}

/* The quickest way that is as good as `wanted`. */
static bool best_ways(const dw_life_request *request,
                      const dw_ferment_model members[], const outcome *truth,
                      const errors *wanted, cvode_ways *best, cost *costs)
{
    static outcome told;
    bool found = false;
    for (int i = 0; i < TRIED; i++) {
        cvode_ways ways = {pow(10, -3 - 0.25 * (i / 4)), i % 2 ? 1 : 0.1,
                           i / 2 % 2};
        double start = life_seconds();
        if (live_all(request, members, &ways, &told) != 0)
            continue;
        double each = (life_seconds() - start) / (MEMBERS + 1);
        errors off = errors_of(request, truth, &told.nominal, told.members_ml);
        if (!as_good(&off, wanted) ||
            (found && 1 / each <= costs->lives_per_second))
            continue;
        found = true;
        *best = ways;
        *costs = (cost){off, 1 / each, told.nominal.steps};
    }
    return found;
}

/* ---- the engine ---------------------------------------------------------- */

static void at_leg_end(void *owner, size_t leg, double time_h,
                       const dw_life__look *look)
{
    cvode_finish *finish = owner;
    finish->gas_ml[leg - 1] = look->gas[0] * DW_ML_PER_MMOL;
    finish->core_c[leg - 1] = look->core_c[0];
}

static errors engine_errors(const dw_life_request *life,
                            const dw_ferment_model members[],
                            const outcome *truth, long *steps)
{
    static unsigned char block[1 << 21];
    static cvode_finish nominal;
    double gas_ml[MEMBERS], volume[MEMBERS];
    dw_arena arena;
    dw_life_reply reply;
    dw_life_request request = *life;
    dw_life__watch watch = {.gate = {at_leg_end, &nominal}};
    dw_arena_init(&arena, block, sizeof block);
    dw_life__run_watched(&request, &watch, &arena, &reply, NULL);
    nominal.gas_ml[request.legs_count - 1] = reply.gas_ml_per_100g_flour[1];
    nominal.core_c[request.legs_count - 1] = reply.core_c[1];
    *steps = (long)reply.steps;
    request.members = MEMBERS;
    dw_life__run_given(&request, members, &arena, gas_ml, volume, NULL);
    return errors_of(life, truth, &nominal, gas_ml);
}

static double engine_speed(const dw_life__kernel *kernel,
                           const dw_life_request *life)
{
    static unsigned char block[4 << 20];
    dw_life_request request = *life;
    request.members = 994;
    int rounds = 0;
    double start = life_seconds();
    for (; life_seconds() - start < 1; rounds++) {
        dw_arena arena;
        dw_life_reply reply;
        dw_arena_init(&arena, block, sizeof block);
        dw_life__run_on(kernel, &request, &arena, &reply, NULL);
    }
    return 994 * rounds / (life_seconds() - start);
}

/* ---- both ---------------------------------------------------------------- */

/* Of gas, with very small steps. */
static double fine_error(const dw_life_request *life,
                         const dw_ferment_model members[], const outcome *truth)
{
    long steps;
    dw_life_request request = *life;
    request.step_scale = 1.0 / 32;
    return engine_errors(&request, members, truth, &steps).gas;
}

static void print_errors(const char *whose, const errors *off)
{
    printf("\"%s_gas_error_percent\":%.4f,\"%s_members_gas_error_percent\":"
           "%.4f,\"%s_core_error_k\":%.4f",
           whose, 100 * off->gas, whose, 100 * off->members_gas, whose,
           off->core_k);
}

static void compare(const life_history *history)
{
    static outcome truth;
    static dw_ferment_model members[MEMBERS];
    unsigned char block[4096];
    const dw_life_request *request = &history->request;
    const dw_life__kernel *kernels[DW_LIFE_KERNELS_MOST];
    const cvode_ways tight = {1e-9, 0.1, true};
    cvode_ways ways;
    cost costs = {0};
    dw_arena arena;
    long steps;
    dw_arena_init(&arena, block, sizeof block);
    dw_life_request drawn = *request;
    drawn.members = MEMBERS;
    if (!dw_life__draw(&drawn, members, &arena) ||
        live_all(request, members, &tight, &truth) != 0)
        return;
    errors off = engine_errors(request, members, &truth, &steps);
    double fine = fine_error(request, members, &truth);
    if (!best_ways(request, members, &truth, &off, &ways, &costs))
        return;
    dw_life__kernels(kernels);
    for (int i = 0; kernels[i]; i++) {
        double speed = engine_speed(kernels[i], request);
        printf("{\"bench\":\"cvode\",\"what\":\"%s\",\"instructions\":\"%s\","
               "\"shells\":%d,\"lives_per_second\":%.0f,"
               "\"cvode_lives_per_second\":%.1f,\"ratio\":%.0f,\"steps\":%ld,"
               "\"cvode_steps\":%ld,\"cvode_tolerance\":%.1e,",
               history->what, kernels[i]->instructions, (int)request->shells,
               speed, costs.lives_per_second, speed / costs.lives_per_second,
               steps, costs.steps, ways.relative);
        print_errors("engine", &off);
        printf(",");
        print_errors("cvode", &costs.off);
        printf(",\"fine_gas_error_percent\":%.6f}\n", 100 * fine);
    }
}

int main(void)
{
    static life_history four, swinging;
    life_four_legs(&four);
    life_swinging(&swinging);
    compare(&four);
    compare(&swinging);
    return 0;
}
