/* A piece of dough in cold or warm air: what it is made of, how it conducts,
 * and the exact temperatures inside it at any time after a change of air.
 *
 * Temperatures in degC, times in h, everything else SI. Nothing allocates.
 * Equations and ranges: docs/models/cooling.md; source keys: docs/sources.md.
 *
 * The exact series hold for one constant air temperature and one constant
 * surface coefficient, and no heat made inside. Closing a stack or a dough that
 * ferments changes both; that is the work of the life model (life.h), which is
 * held against these series.
 */
#ifndef DOUGHWRIGHT_PIECE_H
#define DOUGHWRIGHT_PIECE_H

#include "doughwright/base.h"
#include "doughwright/formula.h"

/* What food is made of, for its thermal properties. */
typedef enum dw_component {
    DW_PROTEIN,
    DW_FAT_COMPONENT,
    DW_CARBOHYDRATE, /* without fibre */
    DW_FIBRE,
    DW_ASH, /* salt counts here */
    DW_LIQUID_WATER,
    DW_ICE,
    DW_COMPONENTS
} dw_component;

/* Mass fractions that sum to 1 +- 0.001. */
typedef struct dw_composition {
    double fraction[DW_COMPONENTS];
} dw_composition;

typedef struct dw_thermal {
    double cp_j_per_kg_k;
    double density_kg_m3;
    double k_w_per_m_k;
} dw_thermal;

/* One component at temp_c in [-40, 150] (Choi & Okos 1986). Liquid water uses
 * its above-freezing polynomial at every temperature. DW_E_RANGE. */
dw_status dw_piece_component(dw_component component, double temp_c,
                             dw_thermal *thermal, dw_err *err);

/* A mixture with gas_fraction of its volume in bubbles, 0 to 0.9: cp by mass,
 * density by volume, k parallel, then Maxwell-Eucken for the bubbles with the
 * dough continuous. DW_E_RANGE; DW_E_SUM when the fractions do not sum to 1. */
dw_status dw_piece_thermal(const dw_composition *composition,
                           double gas_fraction, double temp_c,
                           dw_thermal *thermal, dw_err *err);

/* The mixed dough of a total formula. Lines whose water or protein is not told
 * use what is usual for their kind (USDA SR26, see piece_composition.c).
 * DW_E_SUM when the lines weigh nothing. */
dw_status dw_piece_composition(const dw_formula *formula,
                               dw_composition *composition, dw_err *err);

/* The three bodies with a one-number size: radius, or half thickness. The
 * value is the number of the term (dimension) in their equations. */
typedef enum dw_body { DW_SLAB = 1, DW_CYLINDER = 2, DW_SPHERE = 3 } dw_body;

/* n-th root (n >= 1) of the body's surface condition at Biot number h L / k,
 * 1e-6 to 1e6. DW_E_RANGE. */
dw_status dw_piece_root(dw_body body, double biot, int n, double *zeta,
                        dw_err *err);

/* What is left of the first temperature difference, 1 at the start and 0 when
 * the body has the air's temperature. */
typedef struct dw_left {
    double centre, surface, mean;
} dw_left;

/* At Fourier number alpha t / L^2 >= 0: the full series, and for very short
 * times (Fourier below 1e-6) the half-space with the body's curvature, to
 * 1e-6 or better for slab and sphere. DW_E_RANGE. */
dw_status dw_piece_left(dw_body body, double biot, double fourier,
                        dw_left *left, dw_err *err);
/* The same at one depth, place 0 (centre) to 1 (surface). */
dw_status dw_piece_left_at(dw_body body, double biot, double fourier,
                           double place, double *left, dw_err *err);

/* A ball of dough put into other air. */
typedef struct dw_ball {
    double piece_g;       /* 1 to 20,000 */
    double density_kg_m3; /* 300 to 10,000 */
    double cp_j_per_kg_k; /* 100 to 10,000 */
    double k_w_per_m_k;   /* 0.01 to 500 */
    double start_c;       /* -40 to 150 */
    double air_c;         /* -40 to 150 */
    double h_w_per_m2_k;  /* 0.1 to 2,000 */
} dw_ball;

typedef struct dw_ball_temps {
    double core_c, skin_c, mean_c;
} dw_ball_temps;

dw_status dw_ball_check(const dw_ball *ball, dw_err *err);
double dw_ball_radius_m(double piece_g, double density_kg_m3);
/* Temperatures time_h after the change, 0 to 1e5 h. DW_E_RANGE names the
 * member that is outside. */
dw_status dw_ball_temps_at(const dw_ball *ball, double time_h,
                           dw_ball_temps *temps, dw_err *err);
/* When the core comes to core_c. DW_E_UNREACHABLE when the air never brings it
 * there; 0 when it starts there or beyond. */
dw_status dw_ball_time_to_core(const dw_ball *ball, double core_c,
                               double *time_h, dw_err *err);

/* A flattened piece: a disc of that diameter (a short cylinder), or without one
 * a sheet of that thickness whose edges do not count. On a tray one face takes
 * no heat. What is left is the product of slab and cylinder (Newman 1936),
 * exact for a constant air. core: the middle of the face on the tray, or
 * between two open faces; skin: the middle of an open face. */
typedef struct dw_flat {
    dw_ball dough;
    bool has_diameter_m;
    double diameter_m;  /* 0.01 to 2; the thickness follows from the weight */
    double thickness_m; /* 0.001 to 0.5, of a sheet */
    bool one_cold_face;
} dw_flat;

/* DW_E_RANGE names the member that is outside; of a disc whose thickness comes
 * out absurd, biot or fourier. */
dw_status dw_flat_check(const dw_flat *flat, dw_err *err);
double dw_flat_thickness_m(const dw_flat *flat);
dw_status dw_flat_temps_at(const dw_flat *flat, double time_h,
                           dw_ball_temps *temps, dw_err *err);

/* A ball in air: how its surface coefficient follows from size and fan. */
typedef struct dw_ball_air {
    double piece_g;       /* 1 to 20,000 */
    double density_kg_m3; /* 300 to 10,000 */
    double air_c, skin_c; /* -40 to 100 */
    bool has_air_m_s;
    double air_m_s; /* 0.05 to 20 past the ball */
} dw_ball_air;

typedef struct dw_ball_surface {
    double free_w_per_m2_k;
    bool has_forced_w_per_m2_k;
    double forced_w_per_m2_k;
} dw_ball_surface;

/* Of one ball alone in free air; boxes and neighbours shelter it, so a probe
 * log of the shop is better. Members within range (dw_shape_check).
 * Free: Nu = 2 + 0.589 Ra^1/4 / [1 + (0.469/Pr)^9/16]^4/9 (Churchill 1983), Ra
 * to 1e11, air at the mean of skin and air. Forced: Nu = 2 + (0.4 Re^1/2 + 0.06
 * Re^2/3) Pr^0.4 (mu/mu_s)^1/4 (Whitaker 1972), Re 3.5 to 7.6e4. Air by
 * Sutherland's law at 1 atm. */
void dw_ball_surface_in_air(const dw_ball_air *ball, dw_ball_surface *surface);

/* Vapour pressure of water over a wet wall, Pa, 0 to 60 degC
 * (Buck 1996). Dough holds 0.95 of it; water condenses on a wall
 * whose own pressure is lower. */
double dw_vapour_pressure_pa(double temp_c);

#endif
