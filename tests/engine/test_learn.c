#include "doughwright/constants.h"
#include "doughwright/learn.h"
#include "dw_test.h"

static double normal(unsigned long long *seed)
{
    double sum = -6;
    for (int i = 0; i < 12; i++)
        sum += dw_test_between(seed, 0, 1);
    return sum;
}

static void take(dw_learned *state, double work, double sd)
{
    dw_reading reading = {work, sd};
    SAME(dw_learn_update(state, &reading, NULL), DW_OK);
}

/* n readings around `truth`, one in twenty off by 10 to 40 kJ/kg. */
static void plant(dw_learned *state, int n, double truth, double scatter,
                  unsigned long long *seed)
{
    for (int i = 0; i < n; i++) {
        double sd = dw_test_between(seed, 800, 2500);
        double work = truth + normal(seed) * sd + normal(seed) * scatter;
        if (dw_test_between(seed, 0, 1) < 0.05) {
            double off = dw_test_between(seed, 10000, 40000);
            work += dw_test_bits(seed) % 2 ? off : -off;
        }
        take(state, work, sd);
    }
}

static void check_coverage(int n, double truth, double scatter,
                           unsigned long long seed, int *inside, int *all)
{
    for (int run = 0; run < 50; run++) {
        dw_learned state = {.seen = 0};
        plant(&state, n, truth, scatter, &seed);
        dw_estimate e;
        dw_learn_estimate(&state, NULL, &e);
        *inside += e.low_j_per_kg <= truth && truth <= e.high_j_per_kg;
        ++*all;
        NEAR(e.work_j_per_kg_dough, truth, 5 * e.sd_j_per_kg);
    }
}

TEST(a_planted_work_lies_in_the_90_percent_interval_nine_times_in_ten, LIMIT,
     "noisy readings with 5 percent gross errors, 600 runs")
{
    static const double truths[] = {10500, 13000, 17000};
    int inside = 0, all = 0;
    for (size_t i = 0; i < DW_COUNT(truths); i++) {
        check_coverage(8, truths[i], 800, 40 + i, &inside, &all);
        check_coverage(8, truths[i], 2000, 50 + i, &inside, &all);
        check_coverage(30, truths[i], 800, 60 + i, &inside, &all);
        check_coverage(30, truths[i], 2000, 70 + i, &inside, &all);
    }
    SAME(all, 600);
    double share = inside / (double)all;
    NEAR(share, 0.90, 0.05);
}

TEST(thirty_readings_find_the_planted_work_within_a_kilojoule, LIMIT,
     "noisy readings with 5 percent gross errors, 300 runs")
{
    unsigned long long seed = 9;
    double worst = 0, sum2 = 0;
    for (int run = 0; run < 300; run++) {
        dw_learned state = {.seen = 0};
        double truth = dw_test_between(&seed, 9000, 20000);
        plant(&state, 30, truth, 1000, &seed);
        dw_estimate e;
        dw_learn_estimate(&state, NULL, &e);
        double gap = fabs(e.work_j_per_kg_dough - truth);
        worst = fmax(worst, gap);
        sum2 += gap * gap;
        CHECK(e.level == DW_LEARN_OWN && e.n == 30);
    }
    CHECK(sqrt(sum2 / 300) < 500);
    CHECK(worst < 2000);
}

TEST(one_bad_reading_moves_little_and_is_called_doubtful, LIMIT,
     "a probe read in the wrong unit among eight readings")
{
    unsigned long long seed = 5;
    dw_learned state = {.seen = 0};
    for (int i = 0; i < 8; i++)
        take(&state, 15000 + 1000 * normal(&seed), 1500);
    dw_estimate before, after;
    dw_learn_estimate(&state, NULL, &before);
    take(&state, 60000, 1500);
    dw_learn_estimate(&state, NULL, &after);
    NEAR(after.work_j_per_kg_dough, before.work_j_per_kg_dough, 150);
    SAME(before.doubtful, 0);
    SAME(after.doubtful, 1);
    dw_learned first = {.seen = 0};
    take(&first, 60000, 1500);
    dw_learn_estimate(&first, NULL, &after);
    NEAR(after.work_j_per_kg_dough, DW_MIXING_WORK, 1500);
}

TEST(readings_that_agree_convince_against_the_prior, LIMIT,
     "a mixer that puts in 40 kJ/kg, as for bread")
{
    dw_learned state = {.seen = 0};
    for (int i = 0; i < 6; i++)
        take(&state, 40000 + 300 * (i - 2), 1500);
    dw_estimate e;
    dw_learn_estimate(&state, NULL, &e);
    NEAR(e.work_j_per_kg_dough, 40000, 2500);
    SAME(e.doubtful, 0);
}

TEST(clean_equal_readings_give_the_textbook_posterior, DERIVED,
     "normal mean with known spread, by hand")
{
    /* Scatter is at most 4000 against readings of sd 100,000: R is 1e10, and
     * the prior's 1.6e7 is all but kept: mean 13000 + 1.6e7 / (1.6e7 + 1e10 /
     * 4) * (53000 - 13000); the wide tail takes 5 percent of the weight. */
    dw_learned state = {.seen = 0};
    for (int i = 0; i < 4; i++)
        take(&state, 53000, 100000);
    dw_estimate e;
    dw_learn_estimate(&state, NULL, &e);
    NEAR(e.work_j_per_kg_dough, 13000 + 254.4, 30);
    NEAR(e.sd_j_per_kg, 4000, 20);
    NEAR(e.low_j_per_kg, e.work_j_per_kg_dough - 1.645 * 3987, 30);
}

TEST(the_order_of_readings_does_not_matter, LIMIT, "learn.h (1)")
{
    unsigned long long seed = 7;
    dw_learned one = {.seen = 0}, other = {.seen = 0};
    plant(&one, 12, 14000, 1000, &seed);
    for (size_t i = one.kept_count; i-- > 0;)
        take(&other, one.kept[i].work_j_per_kg_dough, one.kept[i].sd_j_per_kg);
    dw_estimate a, b;
    dw_learn_estimate(&one, NULL, &a);
    dw_learn_estimate(&other, NULL, &b);
    NEAR(a.work_j_per_kg_dough, b.work_j_per_kg_dough, 1e-6);
    NEAR(a.sd_j_per_kg, b.sd_j_per_kg, 1e-6);
}

TEST(without_records_the_mixers_others_speak_and_else_the_trade, LIMIT,
     "learn.h, levels")
{
    dw_learned own = {.seen = 0}, mixer = {.seen = 0};
    dw_estimate e;
    dw_learn_estimate(&own, &mixer, &e);
    SAME(e.level, DW_LEARN_PRIOR);
    NEAR(e.work_j_per_kg_dough, 13000, 1);
    NEAR(e.sd_j_per_kg, 4000, 10);
    for (int i = 0; i < 10; i++)
        take(&mixer, 18000, 1000);
    dw_learn_estimate(&own, &mixer, &e);
    SAME(e.level, DW_LEARN_MIXER);
    SAME(e.mixer_n, 10);
    NEAR(e.work_j_per_kg_dough, 18000, 150);
    CHECK(e.sd_j_per_kg > 1500 && e.sd_j_per_kg < 1700);
    for (int i = 0; i < 10; i++)
        take(&own, 14000, 1000);
    dw_learn_estimate(&own, &mixer, &e);
    SAME(e.level, DW_LEARN_OWN);
    NEAR(e.work_j_per_kg_dough, 14000, 400);
}

TEST(a_repaired_mixer_is_believed_after_its_old_records_are_gone, LIMIT,
     "the newest 32 count")
{
    dw_learned state = {.seen = 0};
    for (int i = 0; i < 100; i++)
        take(&state, 11000, 1500);
    for (int i = 0; i < DW_LEARN_KEPT; i++)
        take(&state, 19000, 1500);
    dw_estimate e;
    dw_learn_estimate(&state, NULL, &e);
    NEAR(e.work_j_per_kg_dough, 19000, 200);
    SAME(state.seen, 132);
    SAME(e.n, DW_LEARN_KEPT);
}

TEST(an_absurd_reading_changes_nothing, LIMIT, "learn.h")
{
    dw_learned state = {.seen = 0};
    dw_err err;
    take(&state, 13000, 1000);
    dw_reading bad = {NAN, 1000};
    SAME(dw_learn_update(&state, &bad, &err), DW_E_RANGE);
    SAME_TEXT(err.field, "work_j_per_kg_dough");
    bad = (dw_reading){13000, 0};
    SAME(dw_learn_update(&state, &bad, &err), DW_E_RANGE);
    SAME_TEXT(err.field, "sd_j_per_kg");
    SAME(state.seen, 1);
    SAME(state.kept_count, 1);
}

TEST(water_of_a_lot_is_carried_forward, DERIVED, "by hand")
{
    double some[] = {1, 1.5, 0.5, 12, 1};
    NEAR(dw_learn_lot_water(some, 0), 0, 0);
    NEAR(dw_learn_lot_water(some, 1), 1, 1e-12);
    NEAR(dw_learn_lot_water(some, 5), 1, 1e-12);
    double apart[] = {-3, 3};
    NEAR(dw_learn_lot_water(apart, 2), 0, 1e-12);
    double many[] = {9, 9, 2, 2, 2, 2, 2, 2, 2, 2};
    NEAR(dw_learn_lot_water(many, 10), 2, 1e-12);
}
