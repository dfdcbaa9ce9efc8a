#include "doughwright/constants.h"
#include "doughwright/heat.h"
#include "dw_test.h"

static double c_of_f(double f)
{
    return (f - 32) / 1.8;
}

static double f_of_c(double c)
{
    return c * 1.8 + 32;
}

/* The trade's rules */

TEST(artisan_bakers_three_factor_water, PUBLISHED,
     "San Francisco Baking Institute, Artisan I handout, 2009")
{
    double temps[] = {c_of_f(65), c_of_f(65)};
    NEAR(f_of_c(dw_rule_water_c(c_of_f(75), temps, 2, 8 / 1.8)), 87, 1e-9);
}

TEST(treatise_water_for_a_warm_shop, PUBLISHED, "A Treatise on Baking")
{
    double temps[] = {c_of_f(72), c_of_f(62)};
    NEAR(f_of_c(dw_rule_water_c(c_of_f(78), temps, 2, 0)), 100, 1e-9);
}

TEST(base_temperature_of_a_pizza_base, PUBLISHED, "New Scientist, 19 July 1997")
{
    double temps[] = {25, 30};
    NEAR(dw_rule_base_water_c(80, temps, 2), 25, 1e-12);
}

TEST(friction_seen_by_an_italian_mill, PUBLISHED, "Italian mill, quoted")
{
    double temps[] = {25, 15, 15};
    NEAR(dw_rule_friction_c(27, temps, 3), 26, 1e-12);
}

TEST(professional_bakers_three_factor_water, DERIVED,
     "Gisslen, Professional Baking, from memory")
{
    double temps[] = {c_of_f(68), c_of_f(72)};
    NEAR(f_of_c(dw_rule_water_c(c_of_f(80), temps, 2, 20 / 1.8)), 80, 1e-9);
}

TEST(friction_moved_to_four_factors_asks_for_the_same_water, DERIVED,
     "FF4 = FF3 + (Td - Tpref), by hand")
{
    double three[] = {21, 23}, four[] = {21, 23, 18};
    double friction = dw_rule_friction_with(15, 25, 18);
    NEAR(friction, 22, 1e-12);
    NEAR(dw_rule_water_c(25, four, 3, friction),
         dw_rule_water_c(25, three, 2, 15), 1e-12);
}

/* Ice */

TEST(ice_table_of_the_trade, PUBLISHED,
     "published ice table, lb ice per lb total water")
{
    static const double taps[] = {32, 40, 50, 60, 70, 80};
    static const struct {
        double wanted, ice[6]; /* -1: not printed */
    } rows[] = {
        {50, {-1, -1, -1, .057, .109, .155}},
        {40, {-1, -1, .061, .115, .163, .206}},
        {30, {.014, .065, .122, .172, .217, .258}},
        {10, {.153, .195, .244, .287, .326, .361}},
    };
    int seen = 0;
    for (size_t i = 0; i < DW_COUNT(rows); i++)
        for (size_t j = 0; j < 6; j++) {
            if (rows[i].ice[j] < 0)
                continue;
            NEAR(
                dw_ice_replacing(1, c_of_f(taps[j]), c_of_f(rows[i].wanted), 0),
                rows[i].ice[j], 0.007);
            seen++;
        }
    SAME(seen, 19);
}

TEST(ice_that_replaces_and_ice_on_top_both_reach_the_wanted_water, LIMIT,
     "mixing ice and tap water, energy by hand")
{
    double x = dw_ice_replacing(15, 20, 4, -8);
    double down = (15 - x) * 4180 * (20 - 4);
    double up = x * (333550 + 2050 * 8 + 4180 * 4);
    NEAR(down, up, 1e-6);
    double y = dw_ice_on_top(15, 20, 4, -8);
    NEAR(15 * 4180.0 * (20 - 4), y * (333550 + 2050 * 8 + 4180 * 4), 1e-6);
    CHECK(y > x);
    CHECK(dw_ice_replacing(15, 10, 12, 0) == 0);
}

/* The balance */

static dw_heat_part r1_parts[3];

/* Flour 25, water 15, salt 0.5, oil 0.5 kg, everything at one temperature. */
static dw_heat_batch r1(double all_c)
{
    r1_parts[0] = (dw_heat_part){25, 1850, all_c};
    r1_parts[1] = (dw_heat_part){0.5, 880, all_c};
    r1_parts[2] = (dw_heat_part){0.5, 2000, all_c};
    return (dw_heat_batch){
        .goal_c = 26,
        .water_kg = 15,
        .flour_kg = 25,
        .parts = r1_parts,
        .parts_count = 3,
        .bowl_kg = 20,
        .bowl_cp_j_per_kg_k = 500,
        .bowl_c = all_c,
        .hydration_j_per_kg_flour = 15120,
        .work_j_per_kg_dough = 13000,
        .tap_c = 20,
        .has_room_c = true,
        .room_c = all_c,
        .has_flour_c = true,
        .flour_c = all_c,
    };
}

TEST(reference_batch_water_and_ice, DERIVED,
     "reference batch R1, two independent programs")
{
    dw_heat_batch batch = r1(22);
    dw_heat_answer answer;
    SAME(dw_shape_check(&dw_heat_water_shape, &batch, NULL), DW_OK);
    SAME(dw_heat_water(&batch, &answer, NULL), DW_OK);
    NEAR(answer.water_c, 15.1509, 6e-5);
    NEAR(answer.ice_kg, 0.7289, 6e-5);
    NEAR(answer.liquid_c, 20, 0);
    NEAR(answer.rule.friction_c * 1.8, 33.93, 0.006);
    NEAR(answer.rule.water_c, 15.1509, 6e-5);
    NEAR(answer.kept_rule.friction_c * 1.8, 33.93, 0.006);
    SAME(answer.why.code, DW_HEAT_AGREE);
    SAME(dw_shape_check(&dw_heat_answer_shape, &answer, NULL), DW_OK);
    batch.ice_c = -5;
    SAME(dw_heat_water(&batch, &answer, NULL), DW_OK);
    NEAR(answer.ice_kg, 0.7114, 6e-5);
}

TEST(a_warm_batch_teaches_more_mixing_work, DERIVED,
     "reference batch R1: 27.4 degC observed gives 17.111 kJ/kg")
{
    dw_heat_batch batch = r1(22);
    batch.water_c = 15.1509;
    batch.observed_dough_c = 27.4;
    dw_heat_learned learned;
    SAME(dw_heat_learn(&batch, &learned, NULL), DW_OK);
    NEAR(learned.work_j_per_kg_dough, 17111, 1);
    /* 120,390 J/K of batch over 41 kg, half a degree of dough probe, half of
     * water, one of flour and two of bowl. */
    NEAR(learned.sd_j_per_kg, 2050, 20);
}

TEST(a_bowl_at_26_warms_the_dough, DERIVED,
     "reference batch R1: bowl 4 degC warmer, dough +0.332 degC")
{
    dw_heat_batch batch = r1(22);
    batch.water_c = 15.1509;
    double cool = dw_heat_dough_c(&batch);
    NEAR(cool, 26, 1e-4);
    batch.bowl_c = 26;
    NEAR(dw_heat_dough_c(&batch) - cool, 0.332, 6e-4);
}

TEST(a_frozen_friction_number_errs_by_season, DERIVED,
     "reference batch R1: -4.5 degC at 30, +3.9 degC at 15")
{
    dw_heat_batch batch = r1(30);
    dw_heat_answer answer;
    SAME(dw_heat_water(&batch, &answer, NULL), DW_OK);
    NEAR(answer.why.dough_gap_c, -4.5, 0.05);
    batch.water_c = answer.kept_rule.water_c;
    NEAR(dw_heat_dough_c(&batch) - 26, answer.why.dough_gap_c, 1e-9);
    batch = r1(15);
    SAME(dw_heat_water(&batch, &answer, NULL), DW_OK);
    NEAR(answer.why.dough_gap_c, 3.9, 0.05);
    SAME(answer.why.code, DW_HEAT_ROOM);
}

TEST(textbook_dough_and_its_cold_water, DERIVED,
     "Cengel & Boles, Thermodynamics, 8e, problem 5-157, answer from memory")
{
    /* 2 kg flour, 1 kg water, 15 kJ/kg; flour and dough at 15 degC. */
    dw_heat_part flour = {2, 1800, 15};
    dw_heat_batch batch = {.goal_c = 15,
                           .water_kg = 1,
                           .flour_kg = 2,
                           .parts = &flour,
                           .parts_count = 1,
                           .work_j_per_kg_dough = 15000,
                           .tap_c = 15};
    dw_heat_answer answer;
    SAME(dw_heat_water(&batch, &answer, NULL), DW_OK);
    NEAR(answer.water_c, 4.2, 0.05);
    CHECK(!answer.has_rule && !answer.has_why);
}

/* Warnings */

static bool warns(const dw_heat_answer *answer, const char *code)
{
    for (size_t i = 0; i < answer->warnings_count; i++)
        if (strcmp(answer->warnings[i].code, code) == 0)
            return true;
    return false;
}

TEST(ice_above_half_of_the_water_is_said_not_to_melt, PRACTICE,
     "common practice, no source: 50 to 60 percent")
{
    dw_heat_batch batch = r1(22);
    dw_heat_answer answer;
    batch.tap_c = 30;
    batch.work_j_per_kg_dough = 79000; /* far too long a mix */
    SAME(dw_heat_water(&batch, &answer, NULL), DW_OK);
    NEAR(answer.ice_kg / 15, 0.53, 0.03);
    CHECK(warns(&answer, "ice_may_not_melt"));
    CHECK(!warns(&answer, "ice_will_not_melt"));
    batch.work_j_per_kg_dough = 105000;
    SAME(dw_heat_water(&batch, &answer, NULL), DW_OK);
    CHECK(answer.ice_kg > 0.6 * 15 && answer.ice_kg <= 15);
    CHECK(warns(&answer, "ice_will_not_melt"));
    CHECK(!warns(&answer, "ice_may_not_melt"));
}

TEST(water_for_yeast_is_neither_hot_nor_cold, PRACTICE,
     "common practice, no source: 60 degF, 120 degF")
{
    dw_heat_batch batch = r1(22);
    dw_heat_answer answer;
    SAME(dw_heat_water(&batch, &answer, NULL), DW_OK);
    CHECK(warns(&answer, "no_instant_yeast_in_cold_water"));
    batch.yeast = DW_HEAT_YEAST_FRESH;
    SAME(dw_heat_water(&batch, &answer, NULL), DW_OK);
    SAME(answer.warnings_count, 0);
    batch = r1(2);
    batch.goal_c = 36;
    SAME(dw_heat_water(&batch, &answer, NULL), DW_OK);
    CHECK(warns(&answer, "water_kills_yeast"));
    CHECK(warns(&answer, "tap_too_cold"));
    CHECK(!warns(&answer, "no_instant_yeast_in_cold_water"));
}

TEST(a_goal_no_water_can_reach_is_refused, LIMIT, "heat.h")
{
    dw_heat_batch batch = r1(22);
    dw_heat_answer answer = {.water_c = -1};
    dw_err err;
    batch.work_j_per_kg_dough = 170000;
    SAME(dw_heat_water(&batch, &answer, &err), DW_E_UNREACHABLE);
    SAME_TEXT(err.field, "goal_c");
    batch = r1(-30);
    batch.goal_c = 50;
    SAME(dw_heat_water(&batch, &answer, &err), DW_E_UNREACHABLE);
    CHECK(answer.water_c == -1);
}

TEST(wetting_water_of_active_dry_yeast_counts_as_a_part, PRACTICE,
     "common practice, no source: five times its mass at 100-105 degF")
{
    dw_heat_part wet;
    dw_err err;
    SAME(dw_heat_wetting(0.1, 15, &wet, &err), DW_OK);
    NEAR(wet.kg, 0.5, 1e-12);
    NEAR(f_of_c(wet.temp_c), 102.5, 2.5);
    SAME(dw_heat_wetting(4, 15, &wet, &err), DW_E_RANGE);
    SAME_TEXT(err.field, "active_dry_kg");
}

/* Properties */

static dw_heat_batch random_batch(unsigned long long *seed, dw_heat_part *parts)
{
    dw_heat_batch b = {0};
    b.flour_kg = dw_test_between(seed, 1, 100);
    b.water_kg = b.flour_kg * dw_test_between(seed, 0.4, 0.8);
    parts[0] = (dw_heat_part){b.flour_kg, 1850, dw_test_between(seed, 5, 35)};
    parts[1] = (dw_heat_part){dw_test_between(seed, 0, 3), 880,
                              dw_test_between(seed, 5, 35)};
    b.parts = parts;
    b.parts_count = 2;
    b.bowl_kg = dw_test_between(seed, 0, 60);
    b.bowl_cp_j_per_kg_k = 500;
    b.bowl_c = dw_test_between(seed, 10, 35);
    b.hydration_j_per_kg_flour = dw_test_between(seed, 5000, 18000);
    b.work_j_per_kg_dough = dw_test_between(seed, 4000, 30000);
    b.loss_j = dw_test_between(seed, 0, 20000);
    b.goal_c = dw_test_between(seed, 18, 32);
    b.tap_c = dw_test_between(seed, 3, 30);
    b.ice_c = dw_test_between(seed, -20, 0);
    b.has_room_c = b.has_flour_c = true;
    b.flour_c = parts[0].temp_c;
    b.room_c = dw_test_between(seed, 10, 35);
    b.has_kept_friction_c = dw_test_bits(seed) % 2 == 0;
    b.kept_friction_c = dw_test_between(seed, 5, 25);
    return b;
}

TEST(energy_closes_to_a_billionth, LIMIT,
     "first law over 20,000 random batches, ice included")
{
    unsigned long long seed = 20;
    int iced = 0, solved = 0;
    for (int i = 0; i < 20000; i++) {
        dw_heat_part parts[2];
        dw_heat_batch b = random_batch(&seed, parts);
        dw_heat_answer answer;
        if (dw_heat_water(&b, &answer, NULL) != DW_OK)
            continue;
        solved++;
        iced += answer.ice_kg > 0;
        b.water_c = answer.liquid_c;
        b.ice_kg = answer.ice_kg;
        double taken, given;
        dw_heat_sides(&b, b.goal_c, &taken, &given);
        double scale = fabs(given) + b.water_kg * 4180 * 30;
        NEAR((taken - given) / scale, 0, 1e-9);
        NEAR(dw_heat_dough_c(&b), b.goal_c, 1e-8);
        b.observed_dough_c = b.goal_c;
        dw_heat_learned learned;
        SAME(dw_heat_learn(&b, &learned, NULL), DW_OK);
        NEAR(learned.work_j_per_kg_dough, b.work_j_per_kg_dough, 1e-4);
    }
    CHECK(solved > 19000 && iced > 5000);
}

TEST(the_three_parts_of_the_gap_add_up, LIMIT,
     "the balance is linear, random batches")
{
    unsigned long long seed = 21;
    for (int i = 0; i < 5000; i++) {
        dw_heat_part parts[2];
        dw_heat_batch b = random_batch(&seed, parts);
        dw_heat_answer a;
        if (dw_heat_water(&b, &a, NULL) != DW_OK)
            continue;
        NEAR(a.kept_rule.water_c - a.water_c, a.why.gap_c, 1e-9);
        NEAR(a.why.flour_gap_c + a.why.room_gap_c + a.why.friction_gap_c,
             a.why.gap_c, 1e-9);
        double temps[] = {b.flour_c, b.room_c};
        NEAR(dw_rule_water_c(b.goal_c, temps, 2, a.rule.friction_c), a.water_c,
             1e-9);
    }
}

TEST(ice_in_a_batch_acts_like_colder_water, LIMIT,
     "all liquid at water_c, or tap and ice: the same dough")
{
    dw_heat_batch batch = r1(28);
    dw_heat_answer answer;
    SAME(dw_heat_water(&batch, &answer, NULL), DW_OK);
    CHECK(answer.ice_kg > 0);
    batch.water_c = answer.water_c;
    double virtual_c = dw_heat_dough_c(&batch);
    batch.water_c = answer.liquid_c;
    batch.ice_kg = answer.ice_kg;
    NEAR(dw_heat_dough_c(&batch), virtual_c, 1e-9);
}

/* A formula's batch */

static dw_heat_mix poolish_mix(void)
{
    static dw_line stage_lines[] = {
        {"flour", DW_FLOUR, 100, false, 0, false, 0},
        {"water", DW_WATER, 100, false, 0, false, 0},
    };
    static dw_stage stage = {"poolish", DW_POOLISH, 30, stage_lines, 2};
    static dw_line lines[] = {
        {"flour", DW_FLOUR, 100, false, 0, false, 0},
        {"water", DW_WATER, 60, false, 0, false, 0},
        {"salt", DW_SALT, 2, false, 0, false, 0},
        {"dry yeast", DW_YEAST_ACTIVE_DRY, 0.5, false, 0, false, 0},
    };
    return (dw_heat_mix){.formula = {lines, 4, &stage, 1},
                         .flour_kg = 20,
                         .goal_c = 25,
                         .flour_c = 21,
                         .room_c = 23,
                         .tap_c = 15,
                         .has_stage_c = true,
                         .stage_c = 18,
                         .hydration_j_per_kg_flour = 15100,
                         .work_j_per_kg_dough = 13000};
}

TEST(a_formula_with_a_preferment_and_active_dry_yeast_adds_up, DERIVED,
     "by hand: poolish 12 kg, final flour 14, water 6 less 0.5 for the yeast")
{
    unsigned char block[2048];
    dw_arena arena;
    dw_arena_init(&arena, block, sizeof block);
    dw_heat_mix mix = poolish_mix();
    dw_heat_batch batch;
    double wetting, dough = 0;
    NEED(dw_heat_batch_of(&mix, &arena, &batch, &wetting, NULL) == DW_OK);
    NEAR(wetting, 0.5, 1e-12);
    NEAR(batch.water_kg, 5.5, 1e-12);
    NEAR(batch.flour_kg, 14, 1e-12);
    SAME(batch.yeast, DW_HEAT_YEAST_ACTIVE_DRY);
    NEED(batch.parts_count == 5);
    NEAR(batch.parts[0].temp_c, 21, 0);
    NEAR(batch.parts[1].temp_c, 23, 0);
    NEAR(batch.parts[3].kg, 12, 1e-12);
    NEAR(batch.parts[3].temp_c, 18, 0);
    NEAR(batch.parts[3].cp_j_per_kg_k, (1850 + 4180) / 2.0, 1e-9);
    for (size_t i = 0; i < batch.parts_count; i++)
        dough += batch.parts[i].kg;
    NEAR(dough + batch.water_kg, 20 * 1.625, 1e-9);
    NEAR(batch.bowl_c, 23, 0);
}

TEST(a_formula_whose_stages_take_all_the_water_is_refused, LIMIT, "heat.h")
{
    unsigned char block[2048];
    dw_arena arena;
    dw_arena_init(&arena, block, sizeof block);
    dw_heat_mix mix = poolish_mix();
    dw_line lines[] = {{"flour", DW_FLOUR, 100, false, 0, false, 0},
                       {"water", DW_WATER, 30, false, 0, false, 0}};
    mix.formula.lines = lines;
    mix.formula.lines_count = 2;
    dw_heat_batch batch = {.goal_c = -1};
    double wetting = -1;
    dw_err err;
    SAME(dw_heat_batch_of(&mix, &arena, &batch, &wetting, &err), DW_E_MISSING);
    SAME_TEXT(err.field, "formula.lines");
    CHECK(batch.goal_c == -1 && wetting == -1);
    dw_arena_init(&arena, block, 64);
    SAME(dw_heat_batch_of(&mix, &arena, &batch, &wetting, &err), DW_E_ROOM);
}

/* Is "| key |" a row of docs/sources.md? */
static bool has_source(const char *key)
{
    char line[1024], row[96];
    snprintf(row, sizeof row, "| %s |", key);
    FILE *file = fopen(dw_test_data("../../docs/sources.md"), "r");
    bool found = false;
    while (file && !found && fgets(line, sizeof line, file))
        found = strncmp(line, row, strlen(row)) == 0;
    if (file)
        fclose(file);
    return found;
}

TEST(every_constant_lies_in_its_range_and_has_a_source, LIMIT,
     "constants.h, docs/sources.md")
{
    size_t count;
    const dw_constant *rows = dw_constants(&count);
    CHECK(count > 10);
    for (size_t i = 0; i < count; i++) {
        CHECK(rows[i].low <= rows[i].value && rows[i].value <= rows[i].high);
        CHECK(strlen(rows[i].meaning) > 10);
        if (!has_source(rows[i].source))
            dw_test_fail(__FILE__, __LINE__, "no source %s", rows[i].source);
    }
}
