/* Flattened pieces: a disc or a sheet on a tray. */
#include "doughwright/piece.h"

#include <math.h>

static const double hour_s = 3600;

dw_status dw_flat_check(const dw_flat *flat, dw_err *err)
{
    DW_TRY(dw_ball_check(&flat->dough, err));
    if (flat->has_diameter_m)
        return dw_check_range(err, "diameter_m", flat->diameter_m, 0.01, 2);
    return dw_check_range(err, "thickness_m", flat->thickness_m, 0.001, 0.5);
}

double dw_flat_thickness_m(const dw_flat *flat)
{
    if (!flat->has_diameter_m)
        return flat->thickness_m;
    double radius_m = flat->diameter_m / 2;
    return flat->dough.piece_g / 1000 / flat->dough.density_kg_m3 /
           (acos(-1) * radius_m * radius_m);
}

/* What is left in a body whose one size is `size_m`. */
static dw_status left_in(const dw_ball *dough, dw_body body, double size_m,
                         double time_h, dw_err *err, dw_left *left)
{
    double alpha =
        dough->k_w_per_m_k / (dough->density_kg_m3 * dough->cp_j_per_kg_k);
    return dw_piece_left(
        body, dough->h_w_per_m2_k * size_m / dough->k_w_per_m_k,
        alpha * time_h * hour_s / (size_m * size_m), left, err);
}

dw_status dw_flat_temps_at(const dw_flat *flat, double time_h,
                           dw_ball_temps *temps, dw_err *err)
{
    const dw_ball *dough = &flat->dough;
    DW_TRY(dw_flat_check(flat, err));
    DW_TRY(dw_check_range(err, "time_h", time_h, 0, 1e5));
    /* a face that takes no heat is a plane of symmetry */
    double half_m = dw_flat_thickness_m(flat) / (flat->one_cold_face ? 1 : 2);
    dw_left slab, edge = {1, 1, 1};
    DW_TRY(left_in(dough, DW_SLAB, half_m, time_h, err, &slab));
    if (flat->has_diameter_m)
        DW_TRY(left_in(dough, DW_CYLINDER, flat->diameter_m / 2, time_h, err,
                       &edge));
    double span = dough->start_c - dough->air_c;
    *temps = (dw_ball_temps){
        .core_c = dough->air_c + span * slab.centre * edge.centre,
        .skin_c = dough->air_c + span * slab.surface * edge.centre,
        .mean_c = dough->air_c + span * slab.mean * edge.mean};
    return DW_OK;
}
