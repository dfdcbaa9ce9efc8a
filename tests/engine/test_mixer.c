#include "doughwright/mixer.h"
#include "dw_test.h"

#define LB 0.45359237

static dw_mixer_limits bowl(double quarts, int duty)
{
    dw_mixer_limits mixer;
    dw_shape_preset(&dw_mixer_limits_shape, &mixer);
    mixer.duty = duty;
    mixer.has_bowl_litres = true;
    mixer.bowl_litres = quarts * DW_LITRES_PER_QUART;
    return mixer;
}

static dw_mixer_dough dough(double absorption_percent)
{
    dw_mixer_dough d;
    dw_shape_preset(&dw_mixer_dough_shape, &d);
    d.absorption_percent = absorption_percent;
    return d;
}

static double most_lb(double quarts, int duty, double absorption_percent)
{
    dw_mixer_limits mixer = bowl(quarts, duty);
    dw_mixer_dough d = dough(absorption_percent);
    dw_mixer_answer a;
    if (dw_mixer_limit(&mixer, &d, NULL, &a) != DW_OK || !a.has_max_dough_kg)
        return NAN;
    return a.max_dough_kg / LB;
}

static bool says(const dw_mixer_answer *a, const char *code)
{
    for (size_t i = 0; i < a->notes_count; i++)
        if (dw_text_is(a->notes[i].code, code))
            return true;
    return false;
}

TEST(the_charts_of_the_makers_at_their_own_absorptions, PUBLISHED,
     "mixer makers' capacity charts, dough per batch by absorption (read)")
{
    static const double quarts[] = {20, 30, 40, 60};
    static const double light[4][3] = {
        {8, 9, 18}, {14, 23, 36}, {21, 31, 32}, {36, 63, 63}};
    static const double heavy40_50[4][2] = {
        {9, 10}, {14, 23}, {21, 31}, {40, 70}};
    for (int i = 0; i < 4; i++) {
        for (int k = 0; k < 3; k++)
            NEAR(most_lb(quarts[i], DW_MIXER_LIGHT, 40 + 10 * k), light[i][k],
                 1e-9);
        for (int k = 0; k < 2; k++)
            NEAR(most_lb(quarts[i], DW_MIXER_HEAVY, 40 + 10 * k),
                 heavy40_50[i][k], 1e-9);
    }
    NEAR(most_lb(80 / DW_LITRES_PER_QUART, DW_MIXER_LIGHT, 50), 110, 1e-9);
    NEAR(most_lb(80 / DW_LITRES_PER_QUART, DW_MIXER_LIGHT, 60), 132, 1e-9);
}

TEST(below_the_rated_absorption_the_rating_shrinks_with_it, PUBLISHED,
     "makers' charts: 60 qt at 30 % on a 40 lb rating takes 30 lb (read)")
{
    NEAR(most_lb(60, DW_MIXER_HEAVY, 30), 30, 1e-9);
}

TEST(a_bag_of_flour_goes_into_a_heavy_60_quart_and_not_into_a_light_one,
     PUBLISHED, "makers' charts: a 50 lb bag is 82 lb of dough (read)")
{
    CHECK(most_lb(60, DW_MIXER_HEAVY, 60) >= 82 - 1e-9);
    CHECK(most_lb(60, DW_MIXER_LIGHT, 60) < 82);
}

TEST(between_absorptions_the_rating_is_interpolated, DERIVED,
     "30 qt: half way between 23 and 36 lb is 29.5 lb")
{
    NEAR(most_lb(30, DW_MIXER_LIGHT, 55), 29.5, 1e-9);
    NEAR(most_lb(30, DW_MIXER_LIGHT, 75), 36, 1e-9);
}

TEST(strong_flour_and_cold_each_take_a_tenth, PUBLISHED,
     "makers' charts: high-gluten -10 %, chilled flour, ice or water below "
     "65-70 F -10 % (read)")
{
    dw_mixer_limits mixer = bowl(40, DW_MIXER_LIGHT);
    dw_mixer_dough d = dough(50);
    dw_mixer_answer a;
    d.high_gluten = true;
    SAME(dw_mixer_limit(&mixer, &d, NULL, &a), DW_OK);
    NEAR(a.max_dough_kg, 27.9 * LB, 1e-9);
    d.ice_kg = 0.5;
    SAME(dw_mixer_limit(&mixer, &d, NULL, &a), DW_OK);
    NEAR(a.max_dough_kg, 31 * 0.81 * LB, 1e-9);
    d = dough(50);
    d.has_water_c = true;
    d.water_c = (64 - 32) / 1.8;
    SAME(dw_mixer_limit(&mixer, &d, NULL, &a), DW_OK);
    NEAR(a.max_dough_kg, 27.9 * LB, 1e-9);
    d.water_c = (71 - 32) / 1.8;
    SAME(dw_mixer_limit(&mixer, &d, NULL, &a), DW_OK);
    NEAR(a.max_dough_kg, 31 * LB, 1e-9);
}

TEST(no_second_speed_at_half_absorption_and_five_minutes_at_forty, PUBLISHED,
     "makers' charts: no second speed at <= 50 %, at 40 % at most 5 min (read)")
{
    dw_mixer_limits mixer = bowl(60, DW_MIXER_HEAVY);
    dw_mixer_answer a;
    dw_mixer_dough d = dough(50);
    SAME(dw_mixer_limit(&mixer, &d, NULL, &a), DW_OK);
    CHECK(!a.second_speed && !a.has_max_minutes);
    d = dough(50.1);
    SAME(dw_mixer_limit(&mixer, &d, NULL, &a), DW_OK);
    CHECK(a.second_speed);
    d = dough(40);
    SAME(dw_mixer_limit(&mixer, &d, NULL, &a), DW_OK);
    CHECK(!a.second_speed && a.has_max_minutes);
    NEAR(a.max_minutes, 5, 0);
}

TEST(the_plate_replaces_the_table_and_needs_a_note, LIMIT, "mixer.h")
{
    dw_mixer_limits mixer = bowl(60, DW_MIXER_HEAVY);
    dw_mixer_rating plate[] = {{50, 20}, {60, 30}};
    mixer.ratings = plate;
    mixer.ratings_count = 2;
    dw_mixer_dough d = dough(55);
    dw_mixer_answer a;
    dw_err err;
    SAME(dw_mixer_limit(&mixer, &d, &err, &a), DW_E_MISSING);
    SAME_TEXT(err.field, "note");
    mixer.note = "plate on the column";
    SAME(dw_mixer_limit(&mixer, &d, &err, &a), DW_OK);
    SAME(a.origin, DW_MIXER_FROM_PLATE);
    NEAR(a.max_dough_kg, 25, 1e-12);
    plate[1].absorption_percent = 50;
    SAME(dw_mixer_limit(&mixer, &d, &err, &a), DW_E_RANGE);
    SAME_TEXT(err.field, "ratings[1].absorption_percent");
}

TEST(an_unknown_mixer_is_warned_about_and_never_blocked, LIMIT, "mixer.h")
{
    dw_mixer_limits mixer = bowl(50, DW_MIXER_HEAVY);
    dw_mixer_dough d = dough(60);
    d.has_dough_kg = true;
    d.dough_kg = 500;
    dw_mixer_answer a;
    SAME(dw_mixer_limit(&mixer, &d, NULL, &a), DW_OK);
    SAME(a.origin, DW_MIXER_FROM_NOTHING);
    CHECK(!a.has_max_dough_kg && says(&a, "mixer_unknown"));
    CHECK(!says(&a, "mixer_over"));
    mixer = bowl(60, DW_MIXER_HEAVY);
    mixer.kind = DW_MIXER_FORK;
    SAME(dw_mixer_limit(&mixer, &d, NULL, &a), DW_OK);
    SAME(a.origin, DW_MIXER_FROM_NOTHING);
}

TEST(too_little_dough_is_named, PRACTICE, "common practice, no source")
{
    dw_mixer_limits mixer = bowl(60, DW_MIXER_LIGHT);
    dw_mixer_dough d = dough(60);
    d.has_dough_kg = true;
    d.dough_kg = 5 * LB;
    dw_mixer_answer a;
    SAME(dw_mixer_limit(&mixer, &d, NULL, &a), DW_OK);
    CHECK(says(&a, "mixer_under"));
    CHECK(a.min_dough_kg / LB > 15 && a.min_dough_kg / LB < 21.1);
    mixer.kind = DW_MIXER_SPIRAL;
    dw_mixer_rating plate[] = {{60, 50}};
    mixer.ratings = plate;
    mixer.ratings_count = 1;
    mixer.note = "manual";
    SAME(dw_mixer_limit(&mixer, &d, NULL, &a), DW_OK);
    NEAR(a.min_dough_kg, 5, 1e-12);
}

TEST(the_limit_never_falls_when_the_dough_gets_softer, LIMIT, "seed 11")
{
    unsigned long long seed = 11;
    for (int i = 0; i < 2000; i++) {
        double quarts = (double[]){20, 30, 40, 60}[dw_test_bits(&seed) % 4];
        int duty = (int)(dw_test_bits(&seed) % 2);
        double a = dw_test_between(&seed, 20, 90);
        double b = dw_test_between(&seed, 20, 90);
        double low = most_lb(quarts, duty, fmin(a, b));
        double high = most_lb(quarts, duty, fmax(a, b));
        CHECK(low <= high + 1e-9);
    }
}
