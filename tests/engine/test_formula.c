#include "doughwright/adjust.h"
#include "doughwright/formula.h"
#include "doughwright/quantity.h"
#include "dw_csv.h"
#include "dw_test.h"

#include <stdlib.h>

#define LB 0.45359237
#define OZ (LB / 16)

static dw_line line(const char *material, int kind, double percent)
{
    return (dw_line){material, kind, percent, false, 0, false, 0};
}

static dw_formula formula_of(dw_line *lines, size_t count)
{
    return (dw_formula){lines, count, NULL, 0};
}

static dw_target flour_target(double kg)
{
    dw_target target = {0};
    target.has_flour_kg = true;
    target.flour_kg = kg;
    return target;
}

/* ---- published examples ---- */

static void case_b5(const dw_csv *row)
{
    static const char *const weights[] = {"5 lb 4 oz", "3 lb 8 oz", "1.75 oz",
                                          "1.25 oz"};
    dw_line lines[] = {line("flour", DW_FLOUR, 100), line("water", DW_WATER, 0),
                       line("salt", DW_SALT, 0),
                       line("yeast", DW_YEAST_FRESH, 0)};
    double kg[4], percent[4];
    for (int i = 0; i < 4; i++) {
        CHECK(strstr(row->cells[2], weights[i]) != NULL);
        SAME(dw_quantity_parse(weights[i], DW_MASS, "kg", &kg[i], NULL), DW_OK);
    }
    SAME(dw_lines_from_weights(lines, kg, 4, percent, NULL), DW_OK);
    NEAR(percent[1], strtod(row->cells[3], NULL), 0.05);
    NEAR(percent[2], 2.0833, 5e-5);
    NEAR(percent[3], 1.4881, 5e-5);
}

static void case_b7(const dw_csv *row)
{
    dw_line lines[] = {line("flour", DW_FLOUR, 100),
                       line("water", DW_WATER, 67), line("salt", DW_SALT, 2),
                       line("yeast", DW_YEAST_FRESH, 1.1)};
    dw_line poolish[] = {line("flour", DW_FLOUR, 100),
                         line("water", DW_WATER, 100),
                         line("yeast", DW_YEAST_FRESH, 100 * 0.007 / 3.3)};
    dw_stage stage = {"poolish", DW_POOLISH, 33, poolish, 3};
    dw_formula f = {lines, 4, &stage, 1};
    static const double want[] = {6.7, 3.4, 0.2, 0.103};
    double final_percent[4], kg[4];
    dw_scaled scaled;
    dw_target target = flour_target(10);
    SAME(dw_formula_scale(&f, &target, kg, &scaled, NULL), DW_OK);
    NEAR(scaled.dough_kg, 17.010, 5e-4);
    NEAR(scaled.total_percent, 170.1, 1e-9);
    SAME(dw_formula_split(&f, final_percent, NULL), DW_OK);
    for (int i = 0; i < 4; i++)
        NEAR(10 * final_percent[i] / 100, want[i], 5e-4);
    double whole = 0;
    for (int j = 0; j < 3; j++)
        whole += 10 * 0.33 * poolish[j].percent / 100;
    NEAR(whole, 6.607, 5e-4);
    CHECK(strstr(row->cells[3], "6.607") != NULL);
}

static void case_b8(const dw_csv *row)
{
    dw_line lines[] = {line("flour", DW_FLOUR, 100),
                       line("water", DW_WATER, 35), line("milk", DW_DAIRY, 35),
                       line("fresh yeast", DW_YEAST_FRESH, 4),
                       line("salt", DW_SALT, 1.8)};
    static const double oz[] = {32, 11.2, 11.2, 1.28, 0.576};
    static const double kg_wanted[] = {10, 3.5, 3.5, 0.4, 0.18};
    dw_formula f = formula_of(lines, 5);
    dw_target target = flour_target(2 * LB);
    double kg[5];
    dw_scaled scaled;
    SAME(dw_formula_scale(&f, &target, kg, &scaled, NULL), DW_OK);
    for (int i = 0; i < 5; i++)
        NEAR(kg[i] / OZ, oz[i], 1e-9);
    target = flour_target(10);
    SAME(dw_formula_scale(&f, &target, kg, &scaled, NULL), DW_OK);
    for (int i = 0; i < 5; i++)
        NEAR(kg[i], kg_wanted[i], 1e-12);
    NEAR(scaled.total_percent, 175.8, 1e-9);
    CHECK(strstr(row->cells[3], "175.8") != NULL);
}

static void case_b10(const dw_csv *row)
{
    dw_line lines[] = {line("flour", DW_FLOUR, 100), line("water", DW_WATER, 0),
                       line("yeast", DW_YEAST_FRESH, 0),
                       line("salt", DW_SALT, 0)};
    double kg[] = {1, 0.6, 0.002, 0.01}, percent[4];
    SAME(dw_lines_from_weights(lines, kg, 4, percent, NULL), DW_OK);
    NEAR(percent[1], 60, 1e-12);
    NEAR(percent[2], 0.2, 1e-12);
    NEAR(percent[3], 1, 1e-12);
    SAME_TEXT(row->cells[3], "60, 0.2, 1 %");
}

TEST(the_published_examples_of_bakers_percent_come_out, PUBLISHED,
     "vocational slides (B5), a flour miller's poolish formula (B7), "
     "encyclopedia example recomputed (B8), school glossary (B10)")
{
    FILE *file = fopen(dw_test_data("bakers_percent_examples.csv"), "r");
    NEED(file != NULL);
    dw_csv row;
    int seen = 0;
    while (dw_csv_row(file, &row)) {
        const char *id = row.cells[0];
        static const struct {
            const char *id;
            void (*run)(const dw_csv *row);
        } cases[] = {{"B5", case_b5},
                     {"B7", case_b7},
                     {"B8", case_b8},
                     {"B10", case_b10}};
        for (size_t i = 0; i < DW_COUNT(cases); i++)
            if (strcmp(cases[i].id, id) == 0) {
                cases[i].run(&row);
                seen++;
            }
    }
    fclose(file);
    SAME(seen, 4); /* B11, B12, B13 are about flour: test_flour.c */
}

/* ---- practice ---- */

TEST(ten_pounds_of_flour_make_sixteen_pounds_of_dough, PRACTICE,
     "common practice, no source")
{
    dw_line lines[] = {line("flour", DW_FLOUR, 100),
                       line("water", DW_WATER, 58),
                       line("salt", DW_SALT, 1.75),
                       line("sugar", DW_SUGAR, 2),
                       line("oil", DW_FAT, 2),
                       line("instant yeast", DW_YEAST_INSTANT, 0.375)};
    dw_formula f = formula_of(lines, 6);
    dw_target target = flour_target(10 * LB);
    double kg[6];
    dw_scaled scaled;
    SAME(dw_formula_scale(&f, &target, kg, &scaled, NULL), DW_OK);
    NEAR(scaled.dough_kg / LB, 16, 0.5);
    NEAR(kg[5] * 1000, 17, 0.5);
    CHECK(kg[5] / OZ > 0.5 && kg[5] / OZ < 0.7);
    target = (dw_target){0};
    target.has_bags = target.has_bag_kg = true;
    target.bags = 1;
    target.bag_kg = 50 * LB;
    SAME(dw_formula_scale(&f, &target, kg, &scaled, NULL), DW_OK);
    CHECK(scaled.dough_kg / LB > 80 && scaled.dough_kg / LB < 90);
    target.bag_kg = 25;
    SAME(dw_formula_scale(&f, &target, kg, &scaled, NULL), DW_OK);
    NEAR(scaled.flour_kg / LB, 55, 0.2);
}

TEST(dough_loading_carries_one_pan_over_to_another, PRACTICE,
     "common practice, no source: 10 oz on 12 in is 17.78 oz on 16 in; 13 oz "
     "on 12 in is 53.79 oz on an 18 x 26 in sheet")
{
    const double in = 0.0254, pi = acos(-1);
    dw_pan_target pan = {1, true,  16 * in, false,
                         0, false, 0,       10 * OZ / (pi * 36 * in * in)};
    double kg = 0;
    SAME(dw_pan_dough_kg(&pan, &kg, NULL), DW_OK);
    NEAR(kg / OZ, 17.78, 0.005);
    pan =
        (dw_pan_target){1,       false, 0,       true,
                        26 * in, true,  18 * in, 13 * OZ / (pi * 36 * in * in)};
    SAME(dw_pan_dough_kg(&pan, &kg, NULL), DW_OK);
    NEAR(kg / OZ, 53.79, 0.005);
    /* thin 0.0885 oz/in2 on 12 in: 10 oz */
    pan = (dw_pan_target){1, true,  12 * in, false,
                          0, false, 0,       0.0885 * OZ / (in * in)};
    SAME(dw_pan_dough_kg(&pan, &kg, NULL), DW_OK);
    NEAR(kg / OZ, 10.009, 0.001);
}

/* ---- scaling ---- */

static size_t random_formula(unsigned long long *seed, dw_line *lines)
{
    double part = dw_test_between(seed, 10, 90);
    lines[0] = line("bread flour", DW_FLOUR, part);
    lines[1] = line("high gluten", DW_FLOUR, 100 - part);
    lines[2] = line("water", DW_WATER, dw_test_between(seed, 40, 80));
    lines[3] = line("salt", DW_SALT, dw_test_between(seed, 0, 3));
    lines[4] = line("oil", DW_FAT, dw_test_between(seed, 0, 20));
    lines[5] = line("yeast", DW_YEAST_INSTANT, dw_test_between(seed, 0.05, 1));
    lines[6] = line("none", DW_OTHER, 0);
    return 7;
}

TEST(percents_to_weights_and_back_are_the_same, LIMIT, "round trip")
{
    unsigned long long seed = 11;
    for (int n = 0; n < 1000; n++) {
        dw_line lines[7];
        dw_formula f = formula_of(lines, random_formula(&seed, lines));
        dw_target target = {0};
        dw_piece_target pieces[] = {{24, dw_test_between(&seed, 50, 900)},
                                    {7, dw_test_between(&seed, 50, 900)}};
        target.pieces = pieces;
        target.pieces_count = 2;
        target.loss_percent = dw_test_between(&seed, 0, 5);
        double kg[7], percent[7], sum = 0;
        dw_scaled scaled;
        SAME(dw_formula_scale(&f, &target, kg, &scaled, NULL), DW_OK);
        SAME(dw_lines_from_weights(lines, kg, 7, percent, NULL), DW_OK);
        for (int i = 0; i < 7; i++) {
            NEAR(percent[i], lines[i].percent, 1e-10);
            sum += kg[i];
        }
        NEAR(sum, scaled.dough_kg, 1e-10 * sum);
        double balls = (24 * pieces[0].piece_g + 7 * pieces[1].piece_g) / 1000;
        NEAR(scaled.usable_kg, balls, 1e-10 * balls);
        NEAR(scaled.dough_kg * (1 - target.loss_percent / 100), balls,
             1e-10 * balls);
    }
}

TEST(pans_and_dough_scale_with_loss, DERIVED,
     "worked by hand: 2 pans of 0.5 x 0.4 m at 5 kg/m2 and 20 % loss")
{
    dw_line lines[] = {line("flour", DW_FLOUR, 100),
                       line("water", DW_WATER, 60)};
    dw_formula f = formula_of(lines, 2);
    dw_pan_target pan = {2, false, 0, true, 0.5, true, 0.4, 5};
    dw_target target = {0};
    target.pans = &pan;
    target.pans_count = 1;
    target.loss_percent = 20;
    double kg[2];
    dw_scaled scaled;
    SAME(dw_formula_scale(&f, &target, kg, &scaled, NULL), DW_OK);
    NEAR(scaled.dough_kg, 2.5, 1e-12);
    NEAR(kg[0], 1.5625, 1e-12);
    NEAR(kg[1], 0.9375, 1e-12);
    target = flour_target(10);
    target.loss_percent = 20;
    SAME(dw_formula_scale(&f, &target, kg, &scaled, NULL), DW_OK);
    NEAR(scaled.dough_kg, 16, 1e-12);
    NEAR(scaled.usable_kg, 12.8, 1e-12);
}

TEST(targets_that_make_no_sense_are_refused, LIMIT, "one clear error")
{
    dw_line lines[] = {line("flour", DW_FLOUR, 100)};
    dw_formula f = formula_of(lines, 1);
    dw_target target = {0};
    double kg[1] = {-1};
    dw_scaled scaled;
    dw_err err;
    SAME(dw_formula_scale(&f, &target, kg, &scaled, &err), DW_E_MISSING);
    SAME_TEXT(err.field, "target");
    target = flour_target(1);
    target.has_dough_kg = true;
    target.dough_kg = 2;
    SAME(dw_formula_scale(&f, &target, kg, &scaled, &err), DW_E_CONFLICT);
    target = (dw_target){0};
    target.has_bags = true;
    target.bags = 1;
    SAME(dw_formula_scale(&f, &target, kg, &scaled, &err), DW_E_MISSING);
    SAME_TEXT(err.field, "target.bag_kg");
    target = flour_target(1e7);
    SAME(dw_formula_scale(&f, &target, kg, &scaled, &err), DW_E_RANGE);
    target = flour_target(NAN);
    SAME(dw_formula_scale(&f, &target, kg, &scaled, &err), DW_E_RANGE);
    target = flour_target(1);
    target.loss_percent = 100;
    SAME(dw_formula_scale(&f, &target, kg, &scaled, &err), DW_E_RANGE);
    SAME_TEXT(err.field, "target.loss_percent");
    dw_pan_target pan = {1, true, 0.3, true, 0.3, true, 0.3, 4};
    target = (dw_target){0};
    target.pans = &pan;
    target.pans_count = 1;
    SAME(dw_formula_scale(&f, &target, kg, &scaled, &err), DW_E_CONFLICT);
    SAME_TEXT(err.field, "target.pans[0].diameter_m");
    pan.has_diameter_m = pan.has_width_m = false;
    SAME(dw_formula_scale(&f, &target, kg, &scaled, &err), DW_E_MISSING);
    SAME_TEXT(err.field, "target.pans[0].width_m");
    CHECK(kg[0] == -1);
}

TEST(formulas_that_do_not_add_up_are_refused, LIMIT, "one clear error")
{
    dw_line lines[] = {line("flour", DW_FLOUR, 99.98),
                       line("water", DW_WATER, 60)};
    dw_formula f = formula_of(lines, 2);
    dw_err err;
    SAME(dw_formula_verify(&f, &err), DW_E_SUM);
    SAME_TEXT(err.field, "lines");
    SAME_TEXT(err.value, "99.98");
    CHECK(err.ranged && err.low == 99.99 && err.high == 100.01);
    lines[0].percent = 99.995;
    SAME(dw_formula_verify(&f, &err), DW_OK);
    lines[0].kind = DW_OTHER;
    SAME(dw_formula_verify(&f, &err), DW_E_NO_FLOUR);
    lines[0].kind = DW_FLOUR;
    lines[0].percent = NAN;
    SAME(dw_formula_verify(&f, &err), DW_E_SUM);
}

/* ---- water inside ---- */

TEST(usual_waters_are_those_of_the_nutrient_database, PUBLISHED,
     "USDA National Nutrient Database SR26, usda_sr26_per100g.csv")
{
    size_t count, found = 0;
    const dw_usual_water *waters = dw_usual_waters(&count);
    FILE *file = fopen(dw_test_data("usda_sr26_per100g.csv"), "r");
    NEED(file != NULL);
    dw_csv row;
    while (dw_csv_row(file, &row))
        for (size_t i = 0; i < count; i++)
            if (strcmp(waters[i].ndb, row.cells[0]) == 0) {
                NEAR(waters[i].water_percent, strtod(row.cells[6], NULL), 1e-9);
                found++;
            }
    fclose(file);
    SAME(found, count);
}

TEST(milk_eggs_and_old_dough_count_in_hydration, DERIVED,
     "worked by hand from USDA SR26 water contents")
{
    dw_line lines[] = {line("flour", DW_FLOUR, 100),
                       line("water", DW_WATER, 40), line("milk", DW_DAIRY, 20),
                       line("egg", DW_OTHER, 10), line("salt", DW_SALT, 2)};
    dw_hydration h;
    dw_lines_hydration(lines, NULL, 5, &h);
    NEAR(h.percent, 40 + 20 * 0.8813 + 10 * 0.7615, 1e-9);
    CHECK(!h.assumed);
    lines[2].has_water_percent = true;
    lines[2].water_percent = 50;
    lines[3].material = "something";
    dw_lines_hydration(lines, NULL, 5, &h);
    NEAR(h.percent, 50, 1e-9);
    CHECK(h.assumed);

    /* 16 of scrap, 40 % water: dry part 9.6, flour in it as in the dry part of
     * the dough, 100 / 102 */
    dw_line scrap[] = {line("flour", DW_FLOUR, 100),
                       line("water", DW_WATER, 60), line("salt", DW_SALT, 2),
                       line("scrap", DW_DOUGH, 16)};
    dw_lines_hydration(scrap, NULL, 4, &h);
    NEAR(h.percent, 60, 1e-9); /* the same dough changes nothing */
    CHECK(h.assumed);
    scrap[3].has_water_percent = true;
    scrap[3].water_percent = 40;
    dw_lines_hydration(scrap, NULL, 4, &h);
    NEAR(h.percent, 100 * (60 + 6.4) / (100 + 9.6 * 100 / 102), 1e-9);
    CHECK(!h.assumed);
}

TEST(a_flours_own_moisture_is_not_hydration, LIMIT, "baker's percent")
{
    dw_line lines[] = {line("flour", DW_FLOUR, 100),
                       line("water", DW_WATER, 62)};
    lines[0].has_water_percent = true;
    lines[0].water_percent = 14;
    dw_hydration h;
    dw_lines_hydration(lines, NULL, 2, &h);
    NEAR(h.percent, 62, 1e-12);
}

/* ---- stages ---- */

TEST(stages_and_final_mix_make_the_total_both_ways, LIMIT,
     "total = stages + final, split then joined")
{
    unsigned long long seed = 5;
    for (int n = 0; n < 500; n++) {
        dw_line lines[7];
        size_t count = random_formula(&seed, lines);
        double wet = dw_test_between(&seed, 50, 100);
        dw_line poolish[] = {line("bread flour", DW_FLOUR, 100),
                             line("water", DW_WATER, wet),
                             line("yeast", DW_YEAST_INSTANT, 0.05)};
        dw_line biga[] = {line("high gluten", DW_FLOUR, 100),
                          line("water", DW_WATER, 50)};
        dw_stage stages[] = {
            {"poolish", DW_POOLISH, lines[0].percent * 0.4, poolish, 3},
            {"biga", DW_BIGA, lines[1].percent * 0.5, biga, 2}};
        dw_formula f = {lines, count, stages, 2};
        double final_percent[7], own[7], amounts[2], flour = 0;
        if (dw_formula_verify(&f, NULL) != DW_OK)
            continue; /* more water in the stages than there is */
        SAME(dw_formula_split(&f, final_percent, NULL), DW_OK);
        for (size_t i = 0; i < count; i++)
            flour += lines[i].kind == DW_FLOUR ? final_percent[i] : 0;
        dw_line mixed[7];
        for (size_t i = 0; i < count; i++) {
            own[i] = 100 * final_percent[i] / flour;
            mixed[i] = lines[i];
            mixed[i].percent = own[i];
        }
        amounts[0] = stages[0].flour_percent * (100.05 + wet) / flour;
        amounts[1] = stages[1].flour_percent * 150 / flour;
        dw_formula final_mix = {mixed, count, stages, 2}, total;
        unsigned char block[4096];
        dw_arena arena;
        dw_arena_init(&arena, block, sizeof block);
        SAME(dw_formula_join(&final_mix, amounts, &arena, &total, NULL), DW_OK);
        SAME(total.lines_count, count);
        for (size_t i = 0; i < count; i++)
            NEAR(total.lines[i].percent, lines[i].percent, 1e-9);
        NEAR(total.stages[0].flour_percent, stages[0].flour_percent, 1e-9);
        NEAR(total.stages[1].flour_percent, stages[1].flour_percent, 1e-9);
    }
}

TEST(a_stage_cannot_take_more_than_there_is, DERIVED, "worked by hand")
{
    dw_line lines[] = {line("flour", DW_FLOUR, 100),
                       line("water", DW_WATER, 60)};
    dw_line poolish[] = {line("Flour", DW_FLOUR, 100),
                         line("water", DW_WATER, 100)};
    dw_stage stages[] = {{"poolish", DW_POOLISH, 40, poolish, 2},
                         {"second", DW_SPONGE, 30, poolish, 2}};
    dw_formula f = {lines, 2, stages, 2};
    dw_err err;
    double final_percent[2] = {-1, -1};
    /* 40 + 30 of water against 60: the second may have 20 of 30 flour */
    SAME(dw_formula_split(&f, final_percent, &err), DW_E_SUM);
    SAME_TEXT(err.field, "stages[1].lines[1].percent");
    NEAR(err.high, 100 * 20.0 / 30, 1e-9);
    CHECK(final_percent[0] == -1);
    stages[0].flour_percent = 80;
    SAME(dw_formula_verify(&f, &err), DW_E_SUM);
    SAME_TEXT(err.field, "stages[0].lines[1].percent");
    lines[1].percent = 200;
    SAME(dw_formula_verify(&f, &err), DW_E_SUM);
    SAME_TEXT(err.field, "stages[1].lines[0].percent");
    poolish[0].percent = 90;
    SAME(dw_formula_verify(&f, &err), DW_E_SUM);
    SAME_TEXT(err.field, "stages[0].lines");
    poolish[0].percent = 100;
    poolish[1].material = "milk";
    SAME(dw_formula_verify(&f, &err), DW_E_SUM);
    CHECK(err.high == 0);
}

TEST(water_poured_in_two_goes_serves_a_stage_from_both, DERIVED,
     "worked by hand")
{
    dw_line lines[] = {line("flour", DW_FLOUR, 100),
                       line("water", DW_WATER, 30),
                       line("water", DW_WATER, 40)};
    dw_line sponge[] = {line("flour", DW_FLOUR, 100),
                        line("water", DW_WATER, 100)};
    dw_stage stage = {"sponge", DW_SPONGE, 50, sponge, 2};
    dw_formula f = {lines, 3, &stage, 1};
    double final_percent[3];
    SAME(dw_formula_split(&f, final_percent, NULL), DW_OK);
    NEAR(final_percent[0], 50, 1e-12);
    NEAR(final_percent[1], 0, 1e-12);
    NEAR(final_percent[2], 20, 1e-12);
}

TEST(joining_says_when_its_memory_is_short, LIMIT, "base.h")
{
    dw_line lines[] = {line("flour", DW_FLOUR, 100),
                       line("water", DW_WATER, 60)};
    dw_formula f = formula_of(lines, 2), total;
    unsigned char block[64];
    dw_arena arena;
    dw_arena_init(&arena, block, sizeof block);
    SAME(dw_formula_join(&f, NULL, &arena, &total, NULL), DW_E_ROOM);
}

/* ---- versions and batches ---- */

TEST(the_difference_of_two_versions_reads_line_by_line, DERIVED,
     "worked by hand")
{
    dw_line old[] = {line("flour", DW_FLOUR, 100), line("water", DW_WATER, 58),
                     line("sugar", DW_SUGAR, 2),
                     line("yeast", DW_YEAST_INSTANT, 0.4)};
    dw_line now[] = {line("water", DW_WATER, 60), line("Flour", DW_FLOUR, 100),
                     line("yeast", DW_YEAST_FRESH, 0.4),
                     line("whey", DW_DAIRY, 3)};
    dw_line sponge[] = {line("flour", DW_FLOUR, 100)};
    dw_stage stage = {"sponge", DW_SPONGE, 20, sponge, 1};
    dw_formula a = formula_of(old, 4), b = {now, 4, &stage, 1};
    unsigned char block[8192];
    dw_arena arena;
    dw_arena_init(&arena, block, sizeof block);
    dw_change *c = NULL;
    size_t n = 0;
    SAME(dw_formula_compare(&a, &b, &arena, &c, &n, NULL), DW_OK);
    NEED(n == 5);
    SAME_TEXT(c[0].material, "water");
    CHECK(c[0].what == DW_CHANGED && c[0].from == 58 && c[0].to == 60);
    SAME_TEXT(c[1].field, "kind");
    SAME_TEXT(c[1].from_word, "yeast_instant");
    SAME_TEXT(c[1].to_word, "yeast_fresh");
    SAME_TEXT(c[2].material, "whey");
    CHECK(c[2].what == DW_ADDED && !c[2].has_from && c[2].to == 3);
    SAME_TEXT(c[3].material, "sugar");
    CHECK(c[3].what == DW_REMOVED && c[3].from == 2 && !c[3].has_to);
    SAME_TEXT(c[4].stage, "sponge");
    CHECK(c[4].what == DW_ADDED && c[4].to == 20);
    SAME(dw_formula_compare(&b, &b, &arena, &c, &n, NULL), DW_OK);
    SAME(n, 0);
}

static dw_adjustment adjust(int what, const char *material, double kg)
{
    return (dw_adjustment){what, material, true, kg, false, 0};
}

TEST(a_batch_that_went_wrong_is_recalculated, DERIVED, "worked by hand")
{
    dw_line lines[] = {line("flour", DW_FLOUR, 100),
                       line("water", DW_WATER, 60), line("salt", DW_SALT, 2),
                       line("yeast", DW_YEAST_INSTANT, 0.35)};
    dw_formula f = formula_of(lines, 4);
    double planned[] = {10, 6, 0.2, 0.035};
    dw_adjustment changes[] = {adjust(DW_ADJUST_ADD, "water", 0.2),
                               adjust(DW_ADJUST_DOUBLED, "salt", 0),
                               adjust(DW_ADJUST_SWAP, "yeast", 0)};
    changes[2].has_kind = true;
    changes[2].kind = DW_YEAST_FRESH;
    dw_adjusted_line out[4];
    dw_adjusted sum;
    SAME(dw_batch_adjust(&f, planned, changes, 3, &dw_yeast_usual, out, &sum,
                         NULL),
         DW_OK);
    NEAR(out[1].kg, 6.2, 1e-12);
    NEAR(out[2].kg, 0.4, 1e-12);
    NEAR(out[3].kg, 0.1, 1e-12);
    SAME(out[3].kind, DW_YEAST_FRESH);
    NEAR(sum.dough_kg, 16.7, 1e-12);
    NEAR(sum.hydration_percent, 62 + 0.69, 1e-9);
    NEAR(sum.total_percent, 167, 1e-9);
    CHECK(lines[3].kind == DW_YEAST_INSTANT && planned[1] == 6);

    changes[0] = adjust(DW_ADJUST_FORGOTTEN, "salt", 0);
    changes[1] = adjust(DW_ADJUST_WEIGHED, "flour", 10.4);
    SAME(dw_batch_adjust(&f, planned, changes, 2, &dw_yeast_usual, out, &sum,
                         NULL),
         DW_OK);
    NEAR(sum.dough_kg, 16.435, 1e-12);
    NEAR(out[1].percent, 100 * 6 / 10.4, 1e-9);
}

TEST(adjustments_that_cannot_be_are_refused, LIMIT, "one clear error")
{
    dw_line lines[] = {line("flour", DW_FLOUR, 100),
                       line("water", DW_WATER, 60)};
    dw_formula f = formula_of(lines, 2);
    double planned[] = {10, 6};
    dw_adjusted_line out[2];
    dw_adjusted sum;
    dw_err err;
    dw_adjustment one = adjust(DW_ADJUST_ADD, "water", -7);
#define TRY_ONE(status, name)                                                  \
    SAME(dw_batch_adjust(&f, planned, &one, 1, &dw_yeast_usual, out, &sum,     \
                         &err),                                                \
         status);                                                              \
    SAME_TEXT(err.field, name)
    TRY_ONE(DW_E_RANGE, "adjustments[0].kg");
    one = adjust(DW_ADJUST_ADD, "milk", 1);
    TRY_ONE(DW_E_NOT_FOUND, "adjustments[0].material");
    one = adjust(DW_ADJUST_FORGOTTEN, "flour", 0);
    TRY_ONE(DW_E_NO_FLOUR, "adjustments");
    one = adjust(DW_ADJUST_SWAP, "water", 0);
    TRY_ONE(DW_E_MISSING, "adjustments[0].kind");
    one.has_kind = true;
    one.kind = DW_YEAST_FRESH;
    TRY_ONE(DW_E_CHOICE, "adjustments[0].material");
    one = adjust(DW_ADJUST_WEIGHED, "water", NAN);
    TRY_ONE(DW_E_RANGE, "adjustments[0].kg");
#undef TRY_ONE
}
