#include "doughwright/piece.h"

#include "doughwright/constants.h"
#include "doughwright/say.h"

#include <math.h>

typedef struct quadratic {
    double a, b, c;
} quadratic;

/* Choi & Okos (1986) as in ASHRAE Handbook Refrigeration, thermal properties
 * of foods, tables 1 and 2: cp kJ/kgK, k W/mK, density kg/m3, t in degC. */
static const struct {
    quadratic cp, k, density;
} choi_okos[DW_COMPONENTS] = {
    [DW_PROTEIN] = {{2.0082, 1.2089e-3, -1.3129e-6},
                    {0.17881, 1.1958e-3, -2.7178e-6},
                    {1329.9, -0.5184, 0}},
    [DW_FAT_COMPONENT] = {{1.9842, 1.4733e-3, -4.8008e-6},
                          {0.18071, -2.7604e-4, -1.7749e-7},
                          {925.59, -0.41757, 0}},
    [DW_CARBOHYDRATE] = {{1.5488, 1.9625e-3, -5.9399e-6},
                         {0.20141, 1.3874e-3, -4.3312e-6},
                         {1599.1, -0.31046, 0}},
    [DW_FIBRE] = {{1.8459, 1.8306e-3, -4.6509e-6},
                  {0.18331, 1.2497e-3, -3.1683e-6},
                  {1311.5, -0.36589, 0}},
    [DW_ASH] = {{1.0926, 1.8896e-3, -3.6817e-6},
                {0.32962, 1.4011e-3, -2.9069e-6},
                {2423.8, -0.28063, 0}},
    [DW_LIQUID_WATER] = {{4.1762, -9.0864e-5, 5.4731e-6},
                         {0.57109, 1.7625e-3, -6.7036e-6},
                         {997.18, 3.1439e-3, -3.7574e-3}},
    [DW_ICE] = {{2.0623, 6.0769e-3, 0},
                {2.2196, -6.2489e-3, 1.0154e-4},
                {916.89, -0.13071, 0}},
};

static double value_at(quadratic q, double t)
{
    return q.a + t * (q.b + t * q.c);
}

dw_status dw_piece_component(dw_component component, double temp_c,
                             dw_thermal *thermal, dw_err *err)
{
    DW_ASSERT((unsigned)component < DW_COMPONENTS);
    DW_TRY(dw_check_range(err, "temp_c", temp_c, -40, 150));
    thermal->cp_j_per_kg_k = 1000 * value_at(choi_okos[component].cp, temp_c);
    thermal->k_w_per_m_k = value_at(choi_okos[component].k, temp_c);
    thermal->density_kg_m3 = value_at(choi_okos[component].density, temp_c);
    return DW_OK;
}

static dw_status check_composition(const dw_composition *composition,
                                   dw_err *err)
{
    double sum = 0;
    for (int i = 0; i < DW_COMPONENTS; i++) {
        DW_TRY(dw_check_range(err, "composition.fraction",
                              composition->fraction[i], 0, 1));
        sum += composition->fraction[i];
    }
    if (fabs(sum - 1) <= 0.001)
        return DW_OK;
    dw_fail_range(err, "composition", sum, 0.999, 1.001);
    if (err)
        err->status = DW_E_SUM;
    return DW_E_SUM;
}

dw_status dw_piece_thermal(const dw_composition *composition,
                           double gas_fraction, double temp_c,
                           dw_thermal *thermal, dw_err *err)
{
    DW_TRY(check_composition(composition, err));
    DW_TRY(dw_check_range(err, "gas_fraction", gas_fraction, 0, 0.9));
    double cp = 0, volume = 0, k_volume = 0;
    for (int i = 0; i < DW_COMPONENTS; i++) {
        dw_thermal one;
        DW_TRY(dw_piece_component((dw_component)i, temp_c, &one, err));
        double part = composition->fraction[i] / one.density_kg_m3;
        cp += composition->fraction[i] * one.cp_j_per_kg_k;
        volume += part;
        k_volume += part * one.k_w_per_m_k;
    }
    double k = k_volume / volume;
    double around = 2 * k + DW_GAS_CONDUCTIVITY;
    double step = gas_fraction * (k - DW_GAS_CONDUCTIVITY);
    thermal->cp_j_per_kg_k = cp;
    thermal->density_kg_m3 = (1 - gas_fraction) / volume;
    thermal->k_w_per_m_k = k * (around - 2 * step) / (around + step);
    return DW_OK;
}

double dw_ball_radius_m(double piece_g, double density_kg_m3)
{
    return cbrt(0.003 * piece_g / (4 * 3.14159265358979323846 * density_kg_m3));
}

dw_status dw_ball_check(const dw_ball *ball, dw_err *err)
{
    DW_TRY(dw_check_range(err, "piece_g", ball->piece_g, 1, 20000));
    DW_TRY(
        dw_check_range(err, "density_kg_m3", ball->density_kg_m3, 300, 10000));
    DW_TRY(
        dw_check_range(err, "cp_j_per_kg_k", ball->cp_j_per_kg_k, 100, 10000));
    DW_TRY(dw_check_range(err, "k_w_per_m_k", ball->k_w_per_m_k, 0.01, 500));
    DW_TRY(dw_check_range(err, "start_c", ball->start_c, -40, 150));
    DW_TRY(dw_check_range(err, "air_c", ball->air_c, -40, 150));
    return dw_check_range(err, "h_w_per_m2_k", ball->h_w_per_m2_k, 0.1, 2000);
}

/* Biot number and Fourier number per hour. */
static void numbers(const dw_ball *ball, double *biot, double *fourier_per_h)
{
    double radius = dw_ball_radius_m(ball->piece_g, ball->density_kg_m3);
    double alpha =
        ball->k_w_per_m_k / (ball->density_kg_m3 * ball->cp_j_per_kg_k);
    *biot = ball->h_w_per_m2_k * radius / ball->k_w_per_m_k;
    *fourier_per_h = 3600 * alpha / (radius * radius);
}

dw_status dw_ball_temps_at(const dw_ball *ball, double time_h,
                           dw_ball_temps *temps, dw_err *err)
{
    DW_TRY(dw_ball_check(ball, err));
    DW_TRY(dw_check_range(err, "time_h", time_h, 0, 1e5));
    double biot, fourier_per_h;
    numbers(ball, &biot, &fourier_per_h);
    dw_left left;
    DW_TRY(dw_piece_left(DW_SPHERE, biot, fourier_per_h * time_h, &left, err));
    double span = ball->start_c - ball->air_c;
    temps->core_c = ball->air_c + span * left.centre;
    temps->skin_c = ball->air_c + span * left.surface;
    temps->mean_c = ball->air_c + span * left.mean;
    return DW_OK;
}

/* Fourier number when the centre of a sphere has `want` left, 0 < want < 1.
 * The centre only falls, so a bracket from the first term and bisection in the
 * logarithm never miss. */
static double fourier_of_centre(double biot, double want)
{
    double low = 1e-4, high = 1;
    dw_left left;
    for (;;) {
        DW_ASSERT(dw_piece_left(DW_SPHERE, biot, high, &left, NULL) == DW_OK);
        if (left.centre < want || high > 1e8)
            break;
        low = high;
        high *= 4;
    }
    for (int i = 0; i < 60; i++) {
        double middle = sqrt(low * high);
        DW_ASSERT(dw_piece_left(DW_SPHERE, biot, middle, &left, NULL) == DW_OK);
        if (left.centre > want)
            low = middle;
        else
            high = middle;
    }
    return sqrt(low * high);
}

dw_status dw_ball_time_to_core(const dw_ball *ball, double core_c,
                               double *time_h, dw_err *err)
{
    DW_TRY(dw_ball_check(ball, err));
    DW_TRY(dw_check_range(err, "core_c", core_c, -40, 150));
    double span = ball->start_c - ball->air_c, gap = core_c - ball->air_c;
    double want = span != 0 ? gap / span : (gap == 0 ? 1 : 0);
    if (want >= 1) {
        *time_h = 0;
        return DW_OK;
    }
    if (want <= 1e-9) {
        char text[32];
        dw_text_number(text, sizeof text, core_c, 6);
        return dw_fail_says(
            err, DW_E_UNREACHABLE, "core_c", text,
            DW_MSG("is never reached in air of this temperature"));
    }
    double biot, fourier_per_h;
    numbers(ball, &biot, &fourier_per_h);
    *time_h = fourier_of_centre(biot, want) / fourier_per_h;
    return DW_OK;
}

double dw_vapour_pressure_pa(double temp_c)
{
    return 611.21 *
           exp((18.678 - temp_c / 234.5) * (temp_c / (257.14 + temp_c)));
}
