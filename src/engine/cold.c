#include "doughwright/cold.h"

#include "doughwright/constants.h"
#include "doughwright/say.h"

#include <math.h>

static const double usable_core_c = 10;     /* 50 degF */
static const double warm_core_c = 140 / 9.; /* 60 degF */

static dw_ball stack_ball(const dw_cold_stack *s)
{
    return (dw_ball){.piece_g = s->piece_g,
                     .density_kg_m3 = s->density_kg_m3,
                     .cp_j_per_kg_k = s->cp_j_per_kg_k,
                     .k_w_per_m_k = s->k_w_per_m_k,
                     .start_c = s->dough_c,
                     .air_c = s->air_c,
                     .h_w_per_m2_k = s->h_w_per_m2_k};
}

/* When the core is there, and the skin and its vapour then. */
static dw_status close_at(const dw_ball *ball, double core_c, double *hours,
                          double *skin_c, double *excess_pa, dw_err *err)
{
    dw_ball_temps temps;
    DW_TRY(dw_ball_time_to_core(ball, core_c, hours, err));
    DW_TRY(dw_ball_temps_at(ball, *hours, &temps, err));
    *skin_c = temps.skin_c;
    /* The lid evens the ball out, so its mean temperature drives the sweat. */
    *excess_pa = DW_DOUGH_WATER_ACTIVITY * dw_vapour_pressure_pa(temps.mean_c) -
                 dw_vapour_pressure_pa(ball->air_c);
    return DW_OK;
}

static dw_status too_warm(double air_c, dw_err *err)
{
    char air[32];
    dw_text_number(air, sizeof air, air_c, 6);
    return dw_fail_says(
        err, DW_E_UNREACHABLE, "air_c", air,
        DW_MSG("is too warm: the core never gets cold enough to close "
               "the stack"));
}

dw_status dw_cold_close_time(const dw_cold_stack *stack, dw_cold_close *close,
                             dw_err *err)
{
    DW_TRY(dw_check_range(err, "close_by_core_c", stack->close_by_core_c, -40,
                          stack->close_from_core_c));
    dw_ball ball = stack_ball(stack);
    dw_cold_close got = {.rule_of_thumb = true};
    dw_status status =
        close_at(&ball, stack->close_from_core_c, &got.from_h, &got.from_skin_c,
                 &got.from_vapour_excess_pa, err);
    if (status == DW_OK)
        status = close_at(&ball, stack->close_by_core_c, &got.by_h,
                          &got.by_skin_c, &got.by_vapour_excess_pa, err);
    if (status == DW_E_UNREACHABLE)
        return too_warm(stack->air_c, err);
    if (status == DW_OK)
        *close = got;
    return status;
}

dw_status dw_cold_temper_time(const dw_cold_bench *bench,
                              dw_cold_temper *temper, dw_err *err)
{
    dw_ball ball = {.piece_g = bench->piece_g,
                    .density_kg_m3 = bench->density_kg_m3,
                    .cp_j_per_kg_k = bench->cp_j_per_kg_k,
                    .k_w_per_m_k = bench->k_w_per_m_k,
                    .start_c = bench->core_c,
                    .air_c = bench->room_c,
                    .h_w_per_m2_k = bench->h_w_per_m2_k};
    dw_cold_temper got = {.end_h = bench->bench_h, .rule_of_thumb = true};
    if (bench->core_c < usable_core_c)
        DW_TRY(dw_ball_time_to_core(&ball, usable_core_c, &got.usable_from_h,
                                    err));
    got.has_warm_h = bench->core_c >= warm_core_c;
    if (!got.has_warm_h)
        got.has_warm_h = dw_ball_time_to_core(&ball, warm_core_c, &got.warm_h,
                                              NULL) == DW_OK;
    *temper = got;
    return DW_OK;
}

dw_status dw_cold_days_check(const dw_cold_days *days, dw_err *err)
{
    const double most = 60;
    DW_TRY(dw_check_range(err, "ready_day", (double)days->ready_day, 0, most));
    DW_TRY(dw_check_range(err, "best_day", (double)days->best_day,
                          (double)days->ready_day, most));
    DW_TRY(dw_check_range(err, "use_first_day", (double)days->use_first_day,
                          (double)days->best_day, most));
    return dw_check_range(err, "last_day", (double)days->last_day,
                          (double)days->use_first_day, most);
}

dw_readiness dw_cold_readiness(const dw_cold_days *days, int64_t age)
{
    if (age > days->last_day)
        return DW_PAST;
    if (age >= days->use_first_day)
        return DW_USE_FIRST;
    if (age >= days->best_day)
        return DW_BEST;
    return age >= days->ready_day ? DW_READY : DW_NOT_YET;
}

/* J per kg from start to end, freezing on the way when it is crossed. */
static double cooling_j_per_kg(const dw_cold_load *load)
{
    bool freezes = load->has_freezing_c && load->end_c < load->freezing_c;
    if (!freezes)
        return load->cp_j_per_kg_k * (load->start_c - load->end_c);
    return load->cp_j_per_kg_k * (load->start_c - load->freezing_c) +
           load->latent_j_per_kg +
           load->frozen_cp_j_per_kg_k * (load->freezing_c - load->end_c);
}

static double peak_w(const dw_cold_load *load)
{
    double radius = dw_ball_radius_m(load->piece_g, load->density_kg_m3);
    double pieces = load->dough_kg * 1000 / load->piece_g;
    double area = pieces * 4 * 3.14159265358979323846 * radius * radius;
    return load->h_w_per_m2_k * area * (load->start_c - load->air_c);
}

dw_status dw_cold_load_heat(const dw_cold_load *load, dw_cold_heat *heat,
                            dw_err *err)
{
    DW_TRY(dw_check_range(err, "end_c", load->end_c, -60, load->start_c));
    if (load->has_freezing_c) {
        DW_TRY(dw_check_range(err, "freezing_c", load->freezing_c, -20,
                              fmin(0, load->start_c)));
        if (load->latent_j_per_kg <= 0 || load->frozen_cp_j_per_kg_k <= 0)
            return dw_fail(err, DW_E_MISSING,
                           load->latent_j_per_kg <= 0 ? "latent_j_per_kg"
                                                      : "frozen_cp_j_per_kg_k",
                           NULL);
    }
    double total = load->dough_kg * cooling_j_per_kg(load);
    *heat = (dw_cold_heat){
        .heat_j = total,
        .mean_w = total / (3600 * load->over_h) + load->other_w,
        .has_peak_w = load->piece_g > 0,
    };
    if (heat->has_peak_w)
        heat->peak_w = peak_w(load) + load->other_w;
    return DW_OK;
}
