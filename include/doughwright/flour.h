/* Flour: protein and moisture on a basis, blends, gluten, absorption.
 *
 * All percents are of weight. "On a basis of b" means: the figure the same
 * flour would have if its moisture were b percent (United States 14, much of
 * Europe 0). Equations and their sources: docs/models/formula.md section 5.
 */
#ifndef DOUGHWRIGHT_FLOUR_H
#define DOUGHWRIGHT_FLOUR_H

#include "doughwright/field.h"

/* P_b = P (100 - b) / (100 - M): protein or ash `percent` known at moisture
 * `from_percent`, told at `to_percent`. Moistures 0..99 (asserted). */
double dw_flour_on_basis(double percent, double from_percent,
                         double to_percent);

/* Absorption A (water per 100 flour) of a flour at moisture `from_percent`,
 * told for the same flour at `to_percent`: (A + 100)(100 - to)/(100 - from) -
 * 100. */
double dw_flour_absorption_on_basis(double absorption_percent,
                                    double from_percent, double to_percent);

/* Farinograph: flour for a bowl of 50 or 300 g at 14 % moisture, the water for
 * an absorption at 14 %, and the absorption found from that water. */
double dw_farinograph_flour_g(double bowl_g, double moisture_percent);
double dw_farinograph_water_ml(double bowl_g, double flour_g,
                               double absorption_percent);
double dw_farinograph_absorption(double bowl_g, double flour_g,
                                 double water_ml);

/* One flour of a blend. `protein_percent` is at moisture
 * `protein_basis_percent` when told, else as the flour is. */
typedef struct dw_flour {
    const char *material;
    bool has_share_percent;
    double share_percent; /* of the blend's weight; the shares sum to 100 */
    double protein_percent;
    bool has_moisture_percent;
    double moisture_percent;
    bool has_protein_basis_percent;
    double protein_basis_percent;
} dw_flour;

extern const dw_shape dw_flour_shape;

/* The moisture a flour is taken to have when it is not told. */
#define DW_FLOUR_USUAL_MOISTURE 14.0

/* The protein a flour has as it is, and its moisture. */
double dw_flour_as_is(const dw_flour *flour);
double dw_flour_moisture(const dw_flour *flour);

/* What a blend is: exact balances of protein and of water by weight. */
typedef struct dw_blend {
    double protein_as_is_percent, moisture_percent, protein_percent;
} dw_blend;

/* `protein_percent` of the answer is on `basis_percent`. DW_E_SUM when the
 * shares do not sum to 100 +- 0.01, DW_E_MISSING when one is not told. */
dw_status dw_flour_blend(const dw_flour *flours, size_t count,
                         double basis_percent, dw_blend *blend, dw_err *err);

/* Shares of two flours for a wanted protein on a basis (Pearson's square; with
 * unequal moistures each excess p(100 - b) - T(100 - M) takes the place of
 * p - T). DW_E_UNREACHABLE when the target lies outside both. */
dw_status dw_flour_pearson(const dw_flour pair[2], double target_percent,
                           double basis_percent, double share_percent[2],
                           dw_err *err);

/* Vital gluten for a wanted protein of flour + gluten. */
typedef struct dw_gluten_need {
    double gluten_percent; /* of the flour's weight, exact balance */
    double share_percent;  /* the same, of flour + gluten */
    double rule_percent;   /* the trade's rule: points / 0.6 */
    double water_percent;  /* more water it binds: 1.5 x gluten */
} dw_gluten_need;

/* x = 100 (T - p) / (g - T), all three on one basis. DW_E_UNREACHABLE when T is
 * below p or not below g. */
dw_status dw_gluten_for(double flour_protein_percent,
                        double gluten_protein_percent, double target_percent,
                        dw_gluten_need *need, dw_err *err);

#endif
