#include "doughwright/piece.h"

#include <math.h>

typedef struct air {
    double viscosity, k, density, prandtl;
} air;

/* Sutherland's law (White, Viscous Fluid Flow), 1 atm. */
static air air_at(double temp_c)
{
    double t = temp_c + 273.15, ratio = t / 273.15;
    double power = ratio * sqrt(ratio);
    air a = {.viscosity = 1.716e-5 * power * (273.15 + 110.4) / (t + 110.4),
             .k = 0.0241 * power * (273.15 + 194) / (t + 194),
             .density = 101325 / (287.05 * t)};
    a.prandtl = a.viscosity * 1006 / a.k;
    return a;
}

static double free_h(const dw_ball_air *ball, double diameter)
{
    double film_c = 0.5 * (ball->air_c + ball->skin_c);
    air a = air_at(film_c);
    double viscous = a.viscosity / a.density;
    double rayleigh = 9.80665 / (film_c + 273.15) *
                      fabs(ball->skin_c - ball->air_c) * pow(diameter, 3) /
                      (viscous * viscous) * a.prandtl;
    double bracket = 1 + pow(0.469 / a.prandtl, 9.0 / 16);
    double nusselt = 2 + 0.589 * pow(rayleigh, 0.25) / pow(bracket, 4.0 / 9);
    return nusselt * a.k / diameter;
}

static double forced_h(const dw_ball_air *ball, double diameter)
{
    air a = air_at(ball->air_c);
    double at_skin = air_at(ball->skin_c).viscosity;
    double reynolds = a.density * ball->air_m_s * diameter / a.viscosity;
    double flow = 0.4 * sqrt(reynolds) + 0.06 * pow(reynolds, 2.0 / 3);
    double nusselt =
        2 + flow * pow(a.prandtl, 0.4) * pow(a.viscosity / at_skin, 0.25);
    return nusselt * a.k / diameter;
}

void dw_ball_surface_in_air(const dw_ball_air *ball, dw_ball_surface *surface)
{
    double diameter = 2 * dw_ball_radius_m(ball->piece_g, ball->density_kg_m3);
    *surface = (dw_ball_surface){
        .free_w_per_m2_k = free_h(ball, diameter),
        .has_forced_w_per_m2_k = ball->has_air_m_s,
    };
    if (ball->has_air_m_s)
        surface->forced_w_per_m2_k = forced_h(ball, diameter);
}
