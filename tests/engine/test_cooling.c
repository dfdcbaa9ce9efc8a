#include "doughwright/constants.h"
#include "doughwright/piece.h"
#include "dw_test.h"

static const dw_ball reference = {450, 1130, 2750, 0.37, 27, 3, 8};

TEST(egg_in_boiling_water, PUBLISHED,
     "Cengel & Ghajar, Heat and Mass Transfer, ex. 4-3")
{
    /* R 0.025 m, 70 degC at the centre after 14.4 min (one term; exact 14.36).
     */
    double fourier = 0.151e-6 * 14.4 * 60 / (0.025 * 0.025);
    dw_left left;
    SAME(dw_piece_left(DW_SPHERE, 1200 * 0.025 / 0.627, fourier, &left, NULL),
         DW_OK);
    NEAR(95 - 90 * left.centre, 70, 0.25);
    dw_ball egg = {65.0, 1000, 0.627 / 0.151e-6 / 1000, 0.627, 5, 95, 1200};
    egg.piece_g = 4000 * 3.14159265358979 / 3 * 0.025 * 0.025 * 0.025 * 1000;
    double hours;
    SAME(dw_ball_time_to_core(&egg, 70, &hours, NULL), DW_OK);
    NEAR(hours * 60, 14.36, 0.006);
}

TEST(steel_ball_in_air, PUBLISHED,
     "Geankoplis, Transport Processes, ex. 5.2-1 (lumped)")
{
    /* Bi 0.0067: the body is all but lumped. */
    double k = 43.3, r = 0.0254;
    double fourier = k / (7849 * 460.6) * 3600 / (r * r);
    dw_left left;
    SAME(dw_piece_left(DW_SPHERE, 11.36 * r / k, fourier, &left, NULL), DW_OK);
    NEAR(394.3 + (699.9 - 394.3) * left.mean, 474.6, 0.5);
}

TEST(copper_ball_in_a_stream_of_air, PUBLISHED,
     "Tosun, Modelling in Transport Phenomena, ex. 7.5 (Whitaker): 71 W/m2K")
{
    /* 15 mm at 40 degC in air of 25 degC, Re 4826: 5 m/s. */
    dw_ball_air ball = {15.77, 8924, 25, 40, true, 5};
    dw_ball_surface surface;
    dw_ball_surface_in_air(&ball, &surface);
    CHECK(surface.has_forced_w_per_m2_k);
    NEAR(surface.forced_w_per_m2_k, 71, 1);
}

TEST(still_air_without_a_difference_only_conducts, LIMIT,
     "Churchill 1983: Nu 2 at Ra 0, k of air 0.0241 at 0 degC")
{
    dw_ball_air ball = {450, 1130, 0, 0, false, 0};
    dw_ball_surface surface;
    dw_ball_surface_in_air(&ball, &surface);
    double radius = dw_ball_radius_m(450, 1130);
    NEAR(surface.free_w_per_m2_k, 0.0241 / radius, 1e-12);
    CHECK(!surface.has_forced_w_per_m2_k);
    ball.skin_c = 24;
    double still = surface.free_w_per_m2_k;
    dw_ball_surface_in_air(&ball, &surface);
    CHECK(surface.free_w_per_m2_k > still);
}

TEST(core_minutes_by_weight_and_surface_coefficient, DERIVED,
     "exact series by an independent program, 27 degC dough in 3 degC air")
{
    static const struct {
        double piece_g, h, to_12_8, to_10;
    } rows[] = {
        {250, 3, 225, 302}, {250, 8, 104, 136}, {250, 12, 80, 103},
        {450, 3, 282, 377}, {450, 8, 136, 176}, {450, 12, 106, 136},
        {800, 3, 354, 471}, {800, 8, 176, 227}, {800, 12, 141, 179},
    };
    for (size_t i = 0; i < DW_COUNT(rows); i++) {
        dw_ball ball = reference;
        ball.piece_g = rows[i].piece_g;
        ball.h_w_per_m2_k = rows[i].h;
        double hours;
        SAME(dw_ball_time_to_core(&ball, 12.8, &hours, NULL), DW_OK);
        NEAR(hours * 60, rows[i].to_12_8, 1);
        SAME(dw_ball_time_to_core(&ball, 10, &hours, NULL), DW_OK);
        NEAR(hours * 60, rows[i].to_10, 1);
    }
}

TEST(core_skin_and_mean_of_the_reference_ball, DERIVED,
     "exact series by an independent program, R 0.0456 m, h 8")
{
    dw_ball ball = reference;
    ball.piece_g =
        4000 * 3.14159265358979 / 3 * 0.0456 * 0.0456 * 0.0456 * 1130;
    NEAR(dw_ball_radius_m(ball.piece_g, 1130), 0.0456, 1e-12);
    dw_ball_temps t;
    SAME(dw_ball_temps_at(&ball, 0.5, &t, NULL), DW_OK);
    NEAR(t.core_c, 25.6895, 6e-5);
    NEAR(t.skin_c, 18.3936, 6e-5);
    NEAR(t.mean_c, 21.4307, 6e-5);
    SAME(dw_ball_temps_at(&ball, 4, &t, NULL), DW_OK);
    NEAR(t.core_c, 7.0782, 6e-5);
    NEAR(t.skin_c, 5.6111, 6e-5);
    NEAR(t.mean_c, 6.1663, 6e-5);
}

TEST(very_short_times_join_the_series, LIMIT,
     "half-space with curvature below Fo 1e-6, series above")
{
    static const double biots[] = {1e-3, 0.5, 1, 2, 50, 1e4};
    for (int body = DW_SLAB; body <= DW_SPHERE; body++)
        for (size_t i = 0; i < DW_COUNT(biots); i++) {
            dw_left before, after;
            double at_before, at_after;
            double low = 1e-6 * (1 - 1e-9), high = 1e-6 * (1 + 1e-9);
            dw_piece_left((dw_body)body, biots[i], low, &before, NULL);
            dw_piece_left((dw_body)body, biots[i], high, &after, NULL);
            NEAR(before.centre, after.centre, 1e-9);
            NEAR(before.surface, after.surface, 1e-6);
            NEAR(before.mean, after.mean, 1e-6);
            dw_piece_left_at((dw_body)body, biots[i], low, 0.999, &at_before,
                             NULL);
            dw_piece_left_at((dw_body)body, biots[i], high, 0.999, &at_after,
                             NULL);
            NEAR(at_before, at_after, 1e-6);
        }
}

TEST(a_thick_slab_starts_as_a_half_space, DERIVED,
     "erfcx(1e-4) = 1 - 2e-4/sqrt(pi) + 1e-8 - ..., by hand")
{
    dw_left left;
    SAME(dw_piece_left(DW_SLAB, 1, 1e-8, &left, NULL), DW_OK);
    NEAR(left.surface, 0.99988717208257, 1e-12);
    SAME(dw_piece_left(DW_SPHERE, 3, 0, &left, NULL), DW_OK);
    CHECK(left.centre == 1 && left.surface == 1 && left.mean == 1);
}

/* d(mean)/dFo = -s Bi surface: what leaves through the skin is missed inside.
 */
TEST(heat_that_leaves_through_the_skin_is_missed_inside, LIMIT,
     "energy balance, five-point derivative over random bodies")
{
    unsigned long long seed = 3;
    for (int i = 0; i < 300; i++) {
        dw_body body = (dw_body)(1 + (int)(dw_test_bits(&seed) % 3));
        double biot = pow(10, dw_test_between(&seed, -2, 2));
        double fourier = pow(10, dw_test_between(&seed, -3, 0));
        double step = 1e-3 * fourier;
        dw_left at[5];
        for (int k = 0; k < 5; k++)
            dw_piece_left(body, biot, fourier + (k - 2) * step, &at[k], NULL);
        double slope =
            (at[0].mean - 8 * at[1].mean + 8 * at[3].mean - at[4].mean) /
            (12 * step);
        NEAR(slope, -(double)body * biot * at[2].surface, 1e-9 + 1e-8 * biot);
        CHECK(at[2].surface <= at[2].mean && at[2].mean <= at[2].centre);
        double centre, skin;
        dw_piece_left_at(body, biot, fourier, 0, &centre, NULL);
        dw_piece_left_at(body, biot, fourier, 1, &skin, NULL);
        NEAR(centre, at[2].centre, 1e-13);
        NEAR(skin, at[2].surface, 1e-13);
    }
}

TEST(roots_lie_one_in_each_interval_and_satisfy_the_condition, LIMIT,
     "slab z tan z = Bi, cylinder z J1/J0 = Bi, sphere 1 - z cot z = Bi")
{
    static const double biots[] = {1e-6, 1e-3, 0.3, 1, 7, 300, 1e6};
    for (int n = 1; n <= 40; n += 3)
        for (size_t i = 0; i < DW_COUNT(biots); i++) {
            double z, b = biots[i];
            SAME(dw_piece_root(DW_SPHERE, b, n, &z, NULL), DW_OK);
            CHECK(z > (n - 1) * 3.141592 && z < n * 3.141593);
            NEAR(sin(z) - z * cos(z), b * sin(z), 1e-12 * (b + z + 1));
            SAME(dw_piece_root(DW_SLAB, b, n, &z, NULL), DW_OK);
            NEAR(z * sin(z), b * cos(z), 1e-12 * (b + z + 1));
            SAME(dw_piece_root(DW_CYLINDER, b, n, &z, NULL), DW_OK);
            NEAR(z * j1(z), b * j0(z), 1e-12 * (b + z + 1));
        }
}

TEST(a_poor_surface_makes_the_body_lumped, LIMIT,
     "Bi 1e-6: left = exp(-3 Bi Fo)")
{
    dw_left left;
    SAME(dw_piece_left(DW_SPHERE, 1e-6, 3e5, &left, NULL), DW_OK);
    NEAR(left.centre, exp(-0.9), 1e-6);
    NEAR(left.mean, exp(-0.9), 1e-6);
}

TEST(absurd_balls_are_refused_by_name, LIMIT, "piece.h")
{
    dw_err err;
    dw_ball_temps t = {-1, -1, -1};
    dw_ball ball = reference;
    ball.piece_g = -450;
    SAME(dw_ball_temps_at(&ball, 1, &t, &err), DW_E_RANGE);
    SAME_TEXT(err.field, "piece_g");
    SAME_TEXT(err.value, "-450");
    ball = reference;
    ball.h_w_per_m2_k = NAN;
    SAME(dw_ball_temps_at(&ball, 1, &t, &err), DW_E_RANGE);
    SAME_TEXT(err.field, "h_w_per_m2_k");
    SAME(dw_ball_temps_at(&reference, -1, &t, &err), DW_E_RANGE);
    SAME_TEXT(err.field, "time_h");
    CHECK(t.core_c == -1 && t.skin_c == -1 && t.mean_c == -1);
    dw_left left;
    SAME(dw_piece_left(DW_SPHERE, 0, 1, &left, &err), DW_E_RANGE);
    SAME_TEXT(err.field, "biot");
}

TEST(a_core_the_air_cannot_give_is_said_to_be_out_of_reach, LIMIT, "piece.h")
{
    dw_err err;
    double hours = -1;
    SAME(dw_ball_time_to_core(&reference, 3, &hours, &err), DW_E_UNREACHABLE);
    SAME(dw_ball_time_to_core(&reference, 1, &hours, &err), DW_E_UNREACHABLE);
    CHECK(hours == -1);
    SAME(dw_ball_time_to_core(&reference, 30, &hours, &err), DW_OK);
    CHECK(hours == 0);
}

TEST(vapour_pressure_of_dough_and_wall, DERIVED,
     "dough at 27 and 10 degC 3388 and 1166 Pa, wall at 3 degC 758 Pa")
{
    NEAR(DW_DOUGH_WATER_ACTIVITY * dw_vapour_pressure_pa(27), 3388, 1);
    NEAR(DW_DOUGH_WATER_ACTIVITY * dw_vapour_pressure_pa(10), 1166, 1);
    NEAR(dw_vapour_pressure_pa(3), 758, 0.5);
}

TEST(composition_that_does_not_add_up_is_refused, LIMIT, "piece.h")
{
    dw_err err;
    dw_thermal t;
    dw_composition half = {{[DW_LIQUID_WATER] = 0.5}};
    SAME(dw_piece_thermal(&half, 0, 20, &t, &err), DW_E_SUM);
    SAME_TEXT(err.field, "composition");
    SAME_TEXT(err.value, "0.5");
}
