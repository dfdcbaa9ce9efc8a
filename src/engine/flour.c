#include "doughwright/flour.h"

#include <math.h>

/* A millers' basis; farinograph bowls are named for flour at it. */
static const double FARINOGRAPH_BASIS = 14;

static const dw_field flour_fields[] = {
    DW_F_TEXT(dw_flour, material, 80, "the shop's name for the flour"),
    DW_F_REAL_OPT(dw_flour, share_percent, "percent", 0, 100,
                  "its part of the blend's weight"),
    DW_F_REAL(dw_flour, protein_percent, "percent", 0, 100, "its protein"),
    DW_F_REAL_OPT(dw_flour, moisture_percent, "percent", 0, 40,
                  "its own water; 14 when not told"),
    DW_F_REAL_OPT(dw_flour, protein_basis_percent, "percent", 0, 40,
                  "the moisture its protein is told at; as is when not told"),
};
const dw_shape dw_flour_shape =
    DW_SHAPE("flour", dw_flour, flour_fields, "one flour of a blend");

double dw_flour_on_basis(double percent, double from_percent, double to_percent)
{
    DW_ASSERT(from_percent >= 0 && from_percent <= 99);
    return percent * (100 - to_percent) / (100 - from_percent);
}

double dw_flour_absorption_on_basis(double absorption_percent,
                                    double from_percent, double to_percent)
{
    return dw_flour_on_basis(absorption_percent + 100, from_percent,
                             to_percent) -
           100;
}

double dw_farinograph_flour_g(double bowl_g, double moisture_percent)
{
    return dw_flour_on_basis(bowl_g, moisture_percent, FARINOGRAPH_BASIS);
}

double dw_farinograph_water_ml(double bowl_g, double flour_g,
                               double absorption_percent)
{
    return bowl_g * (1 + absorption_percent / 100) - flour_g;
}

double dw_farinograph_absorption(double bowl_g, double flour_g, double water_ml)
{
    return 100 * (water_ml + flour_g - bowl_g) / bowl_g;
}

double dw_flour_moisture(const dw_flour *flour)
{
    return flour->has_moisture_percent ? flour->moisture_percent
                                       : DW_FLOUR_USUAL_MOISTURE;
}

double dw_flour_as_is(const dw_flour *flour)
{
    if (!flour->has_protein_basis_percent)
        return flour->protein_percent;
    return dw_flour_on_basis(flour->protein_percent,
                             flour->protein_basis_percent,
                             dw_flour_moisture(flour));
}

dw_status dw_flour_blend(const dw_flour *flours, size_t count,
                         double basis_percent, dw_blend *blend, dw_err *err)
{
    double share = 0, protein = 0, water = 0;
    for (size_t i = 0; i < count; i++) {
        if (!flours[i].has_share_percent)
            return dw_fail(err, DW_E_MISSING, "share_percent",
                           flours[i].material);
        share += flours[i].share_percent;
        protein += flours[i].share_percent * dw_flour_as_is(&flours[i]);
        water += flours[i].share_percent * dw_flour_moisture(&flours[i]);
    }
    if (dw_check_range(err, "share_percent", share, 99.99, 100.01) != DW_OK) {
        if (err)
            err->status = DW_E_SUM;
        return DW_E_SUM;
    }
    blend->protein_as_is_percent = protein / share;
    blend->moisture_percent = water / share;
    blend->protein_percent = dw_flour_on_basis(
        blend->protein_as_is_percent, blend->moisture_percent, basis_percent);
    return DW_OK;
}

dw_status dw_flour_pearson(const dw_flour pair[2], double target_percent,
                           double basis_percent, double share_percent[2],
                           dw_err *err)
{
    double excess[2], on_basis[2];
    for (int i = 0; i < 2; i++) {
        double moisture = dw_flour_moisture(&pair[i]);
        double as_is = dw_flour_as_is(&pair[i]);
        excess[i] =
            as_is * (100 - basis_percent) - target_percent * (100 - moisture);
        on_basis[i] = dw_flour_on_basis(as_is, moisture, basis_percent);
    }
    if (!(excess[0] * excess[1] <= 0) || excess[0] == excess[1]) {
        dw_fail_range(err, "target_protein_percent", target_percent,
                      fmin(on_basis[0], on_basis[1]),
                      fmax(on_basis[0], on_basis[1]));
        if (err)
            err->status = DW_E_UNREACHABLE;
        return DW_E_UNREACHABLE;
    }
    share_percent[0] = 100 * excess[1] / (excess[1] - excess[0]);
    share_percent[1] = 100 - share_percent[0];
    return DW_OK;
}

dw_status dw_gluten_for(double flour_protein_percent,
                        double gluten_protein_percent, double target_percent,
                        dw_gluten_need *need, dw_err *err)
{
    double points = target_percent - flour_protein_percent;
    if (!(points >= 0 && target_percent < gluten_protein_percent)) {
        dw_fail_range(err, "target_protein_percent", target_percent,
                      flour_protein_percent, gluten_protein_percent);
        if (err)
            err->status = DW_E_UNREACHABLE;
        return DW_E_UNREACHABLE;
    }
    double x = 100 * points / (gluten_protein_percent - target_percent);
    need->gluten_percent = x;
    need->share_percent = 100 * x / (100 + x);
    need->rule_percent = points / 0.6;
    need->water_percent = 1.5 * x;
    return DW_OK;
}
