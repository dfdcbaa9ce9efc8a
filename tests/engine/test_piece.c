#include "doughwright/constants.h"
#include "doughwright/piece.h"
#include "dw_test.h"

TEST(component_properties_at_20_degrees, PUBLISHED,
     "Choi & Okos 1986; ASHRAE Handbook Refrigeration, foods, tables 1-2")
{
    static const struct {
        dw_component component;
        double cp, k, density;
    } rows[] = {
        {DW_LIQUID_WATER, 4.1766, .6037, 995.74},
        {DW_PROTEIN, 2.0319, .2016, 1319.53},
        {DW_FAT_COMPONENT, 2.0117, .1751, 917.24},
        {DW_CARBOHYDRATE, 1.5857, .2274, 1592.89},
        {DW_FIBRE, 1.8807, .2070, 1304.18},
        {DW_ASH, 1.1289, .3565, 2418.19},
    };
    for (size_t i = 0; i < DW_COUNT(rows); i++) {
        dw_thermal got;
        SAME(dw_piece_component(rows[i].component, 20, &got, NULL), DW_OK);
        NEAR(got.cp_j_per_kg_k / 1000, rows[i].cp, 6e-5);
        NEAR(got.k_w_per_m_k, rows[i].k, 6e-5);
        NEAR(got.density_kg_m3, rows[i].density, 6e-3);
    }
}

/* Bread flour, 60 percent water and the usual minors. */
static const dw_formula *common_dough(double water)
{
    static dw_line lines[4];
    static dw_formula formula = {lines, 4, NULL, 0};
    lines[0] = (dw_line){"flour", DW_FLOUR, 100, false, 0, false, 0};
    lines[1] = (dw_line){"water", DW_WATER, water, false, 0, false, 0};
    lines[2] = (dw_line){"salt", DW_SALT, 2, false, 0, false, 0};
    lines[3] = (dw_line){"oil", DW_FAT, 2, false, 0, false, 0};
    return &formula;
}

TEST(dough_of_60_percent_water_conducts_as_computed_elsewhere, DERIVED,
     "Choi & Okos by an independent program: cp 2.765, 1134, 0.368")
{
    dw_composition dough;
    dw_thermal got;
    SAME(dw_piece_composition(common_dough(60), &dough, NULL), DW_OK);
    SAME(dw_piece_thermal(&dough, 0.08, 5, &got, NULL), DW_OK);
    NEAR(got.cp_j_per_kg_k, 2765, 10);
    NEAR(got.density_kg_m3, 1134, 5);
    NEAR(got.k_w_per_m_k, 0.368, 0.003);
}

TEST(diffusivity_stays_in_its_band_over_water_and_gas, DERIVED,
     "independent program: 1.1e-7 to 1.25e-7 over 55-70 % water, 0-30 % gas")
{
    for (double water = 55; water <= 70; water += 5)
        for (double gas = 0; gas <= 0.301; gas += 0.1) {
            dw_composition dough;
            dw_thermal got;
            SAME(dw_piece_composition(common_dough(water), &dough, NULL),
                 DW_OK);
            SAME(dw_piece_thermal(&dough, gas, 5, &got, NULL), DW_OK);
            double alpha =
                got.k_w_per_m_k / (got.cp_j_per_kg_k * got.density_kg_m3);
            NEAR(alpha, 1.175e-7, 0.08e-7); /* two printed digits */
        }
}

static const struct {
    double biot, slab[2], cylinder[2], sphere[2];
} first_roots[] = {
    {0.1, {.3111, 1.0161}, {.4417, 1.0246}, {.5423, 1.0298}},
    {0.5, {.6533, 1.0701}, {.9408, 1.1143}, {1.1656, 1.1441}},
    {1, {.8603, 1.1191}, {1.2558, 1.2071}, {1.5708, 1.2732}},
    {2, {1.0769, 1.1785}, {1.5994, 1.3384}, {2.0288, 1.4793}},
    {10, {1.4289, 1.2620}, {2.1795, 1.5677}, {2.8363, 1.9249}},
};

static void check_first_root(dw_body body, double biot, const double want[2])
{
    double zeta;
    SAME(dw_piece_root(body, biot, 1, &zeta, NULL), DW_OK);
    NEAR(zeta, want[0], 6e-5);
    /* Late, only the first term is left, and it gives C1. */
    dw_left left;
    double late = 8 / (zeta * zeta);
    SAME(dw_piece_left(body, biot, late, &left, NULL), DW_OK);
    NEAR(left.centre * exp(8), want[1], 6e-5);
}

TEST(first_roots_and_weights_of_the_three_bodies, PUBLISHED,
     "Incropera, Fundamentals of Heat and Mass Transfer, table 5.1")
{
    for (size_t i = 0; i < DW_COUNT(first_roots); i++) {
        double biot = first_roots[i].biot;
        check_first_root(DW_SLAB, biot, first_roots[i].slab);
        check_first_root(DW_CYLINDER, biot, first_roots[i].cylinder);
        check_first_root(DW_SPHERE, biot, first_roots[i].sphere);
    }
}

TEST(full_series_at_biot_1_fourier_0_3, DERIVED,
     "exact series by an independent program")
{
    static const struct {
        dw_body body;
        double centre, surface, mean;
    } rows[] = {
        {DW_SPHERE, .606804, .386764, .470124},
        {DW_CYLINDER, .750132, .484332, .613365},
        {DW_SLAB, .891795, .588850, .790103},
    };
    for (size_t i = 0; i < DW_COUNT(rows); i++) {
        dw_left left;
        SAME(dw_piece_left(rows[i].body, 1, 0.3, &left, NULL), DW_OK);
        NEAR(left.centre, rows[i].centre, 6e-7);
        NEAR(left.surface, rows[i].surface, 6e-7);
        NEAR(left.mean, rows[i].mean, 6e-7);
    }
}

/* Half a kilogram of dough, h 8. */
static dw_ball plain_dough(void)
{
    return (dw_ball){.piece_g = 500,
                     .density_kg_m3 = 1130,
                     .cp_j_per_kg_k = 2750,
                     .k_w_per_m_k = 0.37,
                     .start_c = 27,
                     .air_c = 3,
                     .h_w_per_m2_k = 8};
}

TEST(a_wide_disc_cools_as_a_sheet_and_a_narrow_one_sooner, LIMIT,
     "far from its edge a disc has none")
{
    dw_flat wide = {plain_dough(), true, 2, 0, true};
    wide.dough.piece_g = 20000;
    dw_flat sheet = {plain_dough(), false, 0, dw_flat_thickness_m(&wide), true};
    dw_flat narrow = {plain_dough(), true, 0.2, 0, true};
    narrow.dough.piece_g = 200; /* as thick as the wide one */
    dw_ball_temps of_wide, of_sheet, of_narrow;
    SAME(dw_flat_temps_at(&wide, 0.1, &of_wide, NULL), DW_OK);
    SAME(dw_flat_temps_at(&sheet, 0.1, &of_sheet, NULL), DW_OK);
    SAME(dw_flat_temps_at(&narrow, 0.1, &of_narrow, NULL), DW_OK);
    NEAR(of_wide.core_c, of_sheet.core_c, 1e-6);
    NEAR(of_wide.skin_c, of_sheet.skin_c, 1e-6);
    CHECK(of_narrow.mean_c < of_sheet.mean_c);
}

TEST(on_a_tray_a_sheet_cools_as_the_half_of_one_twice_as_thick, LIMIT,
     "a face that takes no heat is a plane of symmetry")
{
    dw_flat tray = {plain_dough(), false, 0, 0.03, true};
    dw_flat open = {plain_dough(), false, 0, 0.06, false};
    dw_ball_temps a, b;
    SAME(dw_flat_temps_at(&tray, 1.5, &a, NULL), DW_OK);
    SAME(dw_flat_temps_at(&open, 1.5, &b, NULL), DW_OK);
    NEAR(a.core_c, b.core_c, 1e-12);
    NEAR(a.skin_c, b.skin_c, 1e-12);
    NEAR(a.mean_c, b.mean_c, 1e-12);
    dw_err err;
    tray.thickness_m = 0.7;
    SAME(dw_flat_temps_at(&tray, 1, &a, &err), DW_E_RANGE);
    SAME_TEXT(err.field, "thickness_m");
}
