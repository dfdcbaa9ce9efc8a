#include "doughwright/minors.h"
#include "doughwright/weigh.h"
#include "dw_test.h"

#define LB 0.45359237
#define OZ (LB / 16)

static dw_arena fresh(void)
{
    static unsigned char room[1 << 16];
    dw_arena arena;
    dw_arena_init(&arena, room, sizeof room);
    return arena;
}

static dw_weigh_request weigh(dw_weigh_line *lines, size_t n, dw_scale *scales,
                              size_t m)
{
    dw_weigh_request r;
    dw_shape_preset(&dw_weigh_request_shape, &r);
    r.lines = lines;
    r.lines_count = n;
    r.scales = scales;
    r.scales_count = m;
    return r;
}

TEST(a_quarter_ounce_scale_is_four_percent_on_three_ounces, PRACTICE,
     "common practice, no source: 0.25 oz divisions on 3 oz of yeast, +-4 %")
{
    dw_scale scales[] = {{"bench", 20 * LB, 0.25 * OZ}};
    dw_weigh_line lines[] = {{"yeast", DW_YEAST_INSTANT, 3 * OZ, false, 0}};
    dw_weigh_request r = weigh(lines, 1, scales, 1);
    dw_arena arena = fresh();
    dw_weigh_reply reply;
    SAME(dw_weigh_split(&r, &arena, NULL, &reply), DW_OK);
    NEAR(reply.rows[0].doubt_percent, 4.1667, 0.001);
    SAME(reply.notes_count, 1);
    SAME_TEXT(reply.notes[0].code, "scale_coarse");
}

TEST(whole_bags_are_named_and_the_rest_is_weighed, DERIVED,
     "53.402 kg is 2 bags of 25 kg and 3.402 kg; by 20 g that is 3.40 kg")
{
    dw_scale scales[] = {{"floor", 30, 0.02}, {"small", 2, 0.001}};
    dw_weigh_line lines[] = {{"flour", DW_FLOUR, 53.402, true, 25},
                             {"salt", DW_SALT, 0.9349, false, 0},
                             {"flour", DW_FLOUR, 50, true, 25}};
    dw_weigh_request r = weigh(lines, 3, scales, 2);
    dw_arena arena = fresh();
    dw_weigh_reply reply;
    SAME(dw_weigh_split(&r, &arena, NULL, &reply), DW_OK);
    const dw_weigh_row *flour = &reply.rows[0];
    SAME(flour->bags, 2);
    SAME_TEXT(flour->scale, "floor");
    SAME(flour->loads_count, 1);
    SAME(flour->loads[0].times, 1);
    NEAR(flour->loads[0].kg, 3.40, 1e-12);
    NEAR(flour->rounding_kg, -0.002, 1e-9);
    SAME_TEXT(reply.rows[1].scale, "small");
    NEAR(reply.rows[1].weighed_kg, 0.935, 1e-12);
    SAME(reply.rows[2].bags, 2);
    CHECK(reply.rows[2].scale == NULL && reply.rows[2].loads_count == 0);
    NEAR(reply.minors_kg, 0.935, 1e-12);
    NEAR(reply.dough_kg, 53.40 + 0.935 + 50, 1e-9);
    SAME(reply.notes_count, 0);
}

TEST(more_than_the_capacity_goes_in_even_loads, DERIVED,
     "23 kg over a scale of 10 kg by 0.5 kg: 46 divisions in 3 loads are "
     "16 + 15 + 15")
{
    dw_scale scales[] = {{"one", 10, 0.5}};
    dw_weigh_line lines[] = {{"water", DW_WATER, 23.1, false, 0}};
    dw_weigh_request r = weigh(lines, 1, scales, 1);
    r.tolerance_percent = 5;
    dw_arena arena = fresh();
    dw_weigh_reply reply;
    SAME(dw_weigh_split(&r, &arena, NULL, &reply), DW_OK);
    const dw_weigh_row *row = &reply.rows[0];
    SAME(row->loads_count, 2);
    SAME(row->loads[0].times, 1);
    NEAR(row->loads[0].kg, 8, 1e-12);
    SAME(row->loads[1].times, 2);
    NEAR(row->loads[1].kg, 7.5, 1e-12);
    NEAR(row->doubt_percent, 100 * (0.1 + 0.75) / 23.1, 1e-9);
}

TEST(what_no_scale_can_show_is_named, LIMIT, "weigh.h")
{
    dw_scale scales[] = {{"floor", 60, 0.02}};
    dw_weigh_line lines[] = {{"yeast", DW_YEAST_INSTANT, 0.009, false, 0},
                             {"malt", DW_MALT, 0, false, 0}};
    dw_weigh_request r = weigh(lines, 2, scales, 1);
    dw_arena arena = fresh();
    dw_weigh_reply reply;
    SAME(dw_weigh_split(&r, &arena, NULL, &reply), DW_OK);
    SAME(reply.notes_count, 1);
    SAME_TEXT(reply.notes[0].code, "scale_too_coarse");
    SAME_TEXT(reply.notes[0].subject, "yeast");
    scales[0].division_kg = 61;
    dw_err err;
    arena = fresh();
    SAME(dw_weigh_split(&r, &arena, &err, &reply), DW_E_RANGE);
    SAME_TEXT(err.field, "scales[0].division_kg");
}

/* No scale does better: fewest loads within the tolerance, least doubt. */
static void no_scale_does_better(const dw_weigh_request *r,
                                 const dw_weigh_row *row)
{
    double rest = row->wanted_kg - (double)row->bags * row->bag_kg;
    double allowed = row->wanted_kg * r->tolerance_percent / 100 + 1e-12;
    int64_t loads = 0;
    for (size_t i = 0; i < row->loads_count; i++)
        loads += row->loads[i].times;
    double doubt = row->doubt_percent * row->wanted_kg / 100;
    for (size_t i = 0; i < r->scales_count; i++) {
        const dw_scale *s = &r->scales[i];
        double steps = round(rest / s->division_kg);
        if (steps < 1)
            continue;
        double k = ceil(steps / floor(s->capacity_kg / s->division_kg + 1e-9));
        double other =
            fabs(steps * s->division_kg - rest) + k * s->division_kg / 2;
        if (doubt > allowed)
            CHECK(other >= doubt - 1e-9);
        else if (other <= allowed)
            CHECK(k > (double)loads ||
                  (k == (double)loads && other >= doubt - 1e-9));
    }
}

TEST(every_weight_is_a_multiple_and_rounding_stays_within_half_a_division,
     LIMIT, "2000 lines over 1-4 scales, seed 21")
{
    unsigned long long seed = 21;
    for (int i = 0; i < 2000; i++) {
        dw_scale scales[4];
        size_t n = 1 + dw_test_bits(&seed) % 4;
        static const char *const names[] = {"a", "b", "c", "d"};
        for (size_t k = 0; k < n; k++) {
            double division =
                (double[]){0.0001, 0.001, 0.005, 0.02}[dw_test_bits(&seed) % 4];
            scales[k] = (dw_scale){
                names[k], division * (1 + (double)(dw_test_bits(&seed) % 5000)),
                division};
        }
        dw_weigh_line line = {"x", DW_SALT, dw_test_between(&seed, 0.05, 60),
                              dw_test_bits(&seed) % 2 == 0, 12.5};
        dw_weigh_request r = weigh(&line, 1, scales, n);
        dw_arena arena = fresh();
        dw_weigh_reply reply;
        NEED(dw_weigh_split(&r, &arena, NULL, &reply) == DW_OK);
        const dw_weigh_row *row = &reply.rows[0];
        if (!row->scale)
            continue;
        const dw_scale *used = NULL;
        for (size_t k = 0; k < n; k++)
            if (scales[k].name == row->scale)
                used = &scales[k];
        NEED(used);
        double sum = (double)row->bags * row->bag_kg;
        for (size_t k = 0; k < row->loads_count; k++) {
            double steps = row->loads[k].kg / used->division_kg;
            NEAR(steps, round(steps), 1e-6);
            CHECK(row->loads[k].kg <= used->capacity_kg + 1e-9);
            sum += (double)row->loads[k].times * row->loads[k].kg;
        }
        NEAR(sum, row->weighed_kg, 1e-9);
        NEAR(sum - line.kg, row->rounding_kg, 1e-9);
        CHECK(fabs(row->rounding_kg) <= used->division_kg / 2 + 1e-9);
        no_scale_does_better(&r, row);
    }
}

TEST(forgotten_salt_shows_on_the_scale, PRACTICE,
     "common practice, no source: 1.1 % light, 0.9 lb in 80 lb")
{
    dw_weigh_balance_request r = {80 * LB, 78.5 * LB, 0.3 * LB, 0.3 * LB, 1};
    dw_weigh_balance_reply reply;
    dw_weigh_balance(&r, &reply);
    NEAR(reply.missing_kg, 0.9 * LB, 1e-9);
    NEAR(reply.missing_percent, 1.125, 1e-9);
    CHECK(!reply.adds_up);
    SAME_TEXT(reply.notes[0].code, "dough_missing");
    r.balls_kg = 79.3 * LB;
    dw_weigh_balance(&r, &reply);
    CHECK(reply.adds_up);
    r.balls_kg = 82 * LB;
    dw_weigh_balance(&r, &reply);
    SAME_TEXT(reply.notes[0].code, "dough_extra");
}

/* 10 lb of flour: salt 1.75, sugar 2, oil 2, instant yeast 0.375 %. */
static dw_line ten_pounds[] = {
    {"flour", DW_FLOUR, 100, false, 0, false, 0},
    {"water", DW_WATER, 56, false, 0, false, 0},
    {"salt", DW_SALT, 1.75, false, 0, false, 0},
    {"sugar", DW_SUGAR, 2, false, 0, false, 0},
    {"instant yeast", DW_YEAST_INSTANT, 0.375, false, 0, false, 0},
    {"oil", DW_FAT, 2, false, 0, false, 0}};

static dw_minors_request bags(void)
{
    dw_minors_request r;
    dw_shape_preset(&dw_minors_request_shape, &r);
    r.formula = (dw_formula){ten_pounds, DW_COUNT(ten_pounds), NULL, 0};
    r.flour_kg = 10 * LB;
    r.diluent_kg = 1 * LB;
    r.bags = 5;
    return r;
}

TEST(a_bag_holds_the_minors_and_its_flour_leaves_the_batch, DERIVED,
     "10 lb flour: 1.75 + 2 + 0.375 % are 0.4125 lb, with 1 lb of flour "
     "1.4125 lb; 9 lb of flour stay")
{
    dw_minors_request r = bags();
    r.made_ms = 1000;
    dw_arena arena = fresh();
    dw_minors_reply reply;
    SAME(dw_minors_bag(&r, &arena, NULL, &reply), DW_OK);
    SAME(reply.lines_count, 4);
    NEAR(reply.bag_kg, 1.4125 * LB, 1e-12);
    NEAR(reply.low_kg, 1.4125 * 0.99 * LB, 1e-12);
    NEAR(reply.high_kg, 1.4125 * 1.01 * LB, 1e-12);
    NEAR(reply.flour_left_kg, 9 * LB, 1e-12);
    NEAR(reply.lines[1].all_kg, 5 * 0.175 * LB, 1e-12);
    SAME(reply.discard_ms, 1000 + 7 * 86400000LL);
}

TEST(the_yeast_of_ten_pounds_is_seventeen_grams, PRACTICE,
     "common practice, no source: 17 g, a little over half an ounce")
{
    dw_minors_request r = bags();
    dw_arena arena = fresh();
    dw_minors_reply reply;
    SAME(dw_minors_bag(&r, &arena, NULL, &reply), DW_OK);
    NEAR(reply.lines[3].bag_kg, 0.017, 0.0005);
    CHECK(reply.lines[3].bag_kg > 0.5 * OZ &&
          reply.lines[3].bag_kg < 0.65 * OZ);
}

TEST(only_instant_yeast_keeps_in_a_bag, PRACTICE, "common practice, no source")
{
    dw_line lines[DW_COUNT(ten_pounds)];
    memcpy(lines, ten_pounds, sizeof lines);
    lines[4].kind = DW_YEAST_FRESH;
    dw_minors_request r = bags();
    r.formula.lines = lines;
    dw_arena arena = fresh();
    dw_minors_reply reply;
    dw_err err;
    SAME(dw_minors_bag(&r, &arena, &err, &reply), DW_E_CHOICE);
    SAME_TEXT(err.field, "formula.lines[4].kind");
}

TEST(a_bag_takes_no_more_flour_than_there_is, LIMIT, "minors.h")
{
    dw_minors_request r = bags();
    dw_arena arena = fresh();
    dw_minors_reply reply;
    dw_err err;
    r.diluent_kg = 11 * LB;
    SAME(dw_minors_bag(&r, &arena, &err, &reply), DW_E_RANGE);
    SAME_TEXT(err.field, "diluent_kg");
    r = bags();
    r.diluent = "rye";
    SAME(dw_minors_bag(&r, &arena, &err, &reply), DW_E_NOT_FOUND);
    r = bags();
    r.formula.lines_count = 2;
    SAME(dw_minors_bag(&r, &arena, &err, &reply), DW_E_MISSING);
    dw_line poolish[] = {{"salt", DW_SALT, 1, false, 0, false, 0}};
    dw_stage stage = {"poolish", DW_POOLISH, 20, poolish, 1};
    r = bags();
    r.formula.stages = &stage;
    r.formula.stages_count = 1;
    SAME(dw_minors_bag(&r, &arena, &err, &reply), DW_E_CONFLICT);
}
