#include "business.h"
#include "dw_test.h"

#include <math.h>
#include <string.h>

/* Normal enough, of a generator of the test's own. */
static double noise(uint64_t *state)
{
    double sum = -6;
    for (int i = 0; i < 12; i++) {
        *state = *state * 6364136223846793005u + 1442695040888963407u;
        sum += (double)(*state >> 11) / 9007199254740992.0;
    }
    return sum;
}

enum { BATCHES = 40, HOURS_APART = 6 };

/* Forty batches; from `from` on the tap is `tap_k` warmer and the dough
 * `dough_k`, over noise of 0.5 K. The goal is 25 degC. */
static void mix_all(business *b, int from, double dough_k, double tap_k)
{
    uint64_t seed = 20261125;
    business_start(b);
    business_set_up(b);
    for (int i = 0; i < BATCHES; i++) {
        bool late = i >= from;
        /* drawn one after another: arguments have no order of their own */
        double flour_c = 21 + 0.3 * noise(&seed);
        double room_c = 22 + 0.3 * noise(&seed);
        double tap_c = 12 + (late ? tap_k : 0) + 0.2 * noise(&seed);
        double dough_c = 25 + (late ? dough_k : 0) + 0.5 * noise(&seed);
        business_do(b, "batch.plan",
                    "{'pieces':[{'product_id':1,'balls':80}]}");
        long long at = b->now_ms;
        business_wait(b, HOURS_APART * 60);
        business_do(b, "batch.enter",
                    "{'batch_id':%d,'flour_c':%g,'room_c':%g,'tap_c':%g,"
                    "'dough_c':%g,'started_ms':%lld,'stopped_ms':%lld}",
                    i + 1, flour_c, room_c, tap_c, dough_c, at, at + 840000);
    }
}

TEST(warmer_dough_is_told_with_its_day_and_the_tap_that_moved_with_it, DERIVED,
     "planted: from the 25th of 40 batches the tap 4 K and the dough 1.5 K "
     "warmer, noise of a generator of the test's own")
{
    business b;
    mix_all(&b, 24, 1.5, 4);
    business_do(&b, "quality.drift", "{'days':60}");
    SAME(business_size(&b, "series"), 2); /* all, and the one mixer */
    NEAR(business_number(&b, "series.0.step.after") -
             business_number(&b, "series.0.step.before"),
         1.5, 0.45);
    double since = business_number(&b, "series.0.points.24.at_ms");
    CHECK(business_number(&b, "series.0.step.earliest_ms") <= since);
    CHECK(business_number(&b, "series.0.step.latest_ms") >= since);
    SAME_TEXT(business_text(&b, "series.0.step.companions.0.what"), "tap_c");
    NEAR(business_number(&b, "series.0.step.companions.0.after") -
             business_number(&b, "series.0.step.companions.0.before"),
         4, 0.5);
    SAME(business_number(&b, "series.1.mixer_id"), 1);
    /* 1.5 K are three sigma: seen within some batches */
    int alarms = 0;
    for (int i = 24; i < 32; i++) {
        char path[64];
        snprintf(path, sizeof path, "series.0.points.%d.alarm", i);
        alarms += json_is_true(business_at(&b, path));
    }
    CHECK(alarms > 0);
    business_stop(&b);
}

TEST(batches_that_only_scatter_show_no_step, LIMIT,
     "planted: none; one row in a hundred would show one, this is not it")
{
    business b;
    mix_all(&b, BATCHES, 0, 0);
    business_do(&b, "quality.drift", "{}");
    CHECK(json_is_null(business_at(&b, "series.0.step")));
    NEAR(business_number(&b, "series.0.centre"), 0, 0.3);
    NEAR(business_number(&b, "series.0.run_good"), 499.735, 1e-3);
    business_stop(&b);
}

TEST(a_few_batches_are_no_row_to_look_at, LIMIT, "fewer than eight")
{
    business b;
    business_start(&b);
    business_set_up(&b);
    business_do(&b, "quality.drift", "{'what':'cold_c'}");
    SAME(business_size(&b, "series"), 0);
    business_do(&b, "quality.drift", "{'what':'yield_percent'}");
    SAME(business_size(&b, "series"), 0);
    SAME(business_ask(&b, "quality.drift", "{'days':3}"), DW_E_RANGE);
    SAME_TEXT(b.err.field, "days");
    business_stop(&b);
}

/* Twenty-four batches by two people in turn; the second's dough comes out
 * `dough_k` warmer, over noise of 0.4 K. */
static void mix_by_two(business *b, double dough_k)
{
    uint64_t seed = 7;
    business_start(b);
    business_set_up(b);
    business_do(b, "person.save", "{'name':'Ida'}");
    business_do(b, "person.save", "{'name':'Noor'}");
    for (int i = 0; i < 24; i++) {
        int person = 1 + (i * 7 / 3) % 2;
        business_do(b, "batch.plan",
                    "{'pieces':[{'product_id':1,'balls':80}]}");
        long long at = b->now_ms;
        business_wait(b, HOURS_APART * 60);
        business_do(b, "batch.enter",
                    "{'batch_id':%d,'person_id':%d,'dough_c':%g,"
                    "'started_ms':%lld,'stopped_ms':%lld}",
                    i + 1, person,
                    25 + (person == 2 ? dough_k : 0) + 0.4 * noise(&seed), at,
                    at + 840000);
    }
}

TEST(a_person_whose_dough_comes_warmer_is_told_apart_from_the_hour, DERIVED,
     "planted: one of two people 2 K warmer, so 1 K beside the average")
{
    business b;
    mix_by_two(&b, 2);
    business_do(&b, "quality.drift", "{}");
    SAME_TEXT(business_text(&b, "effects.0.factor"), "person");
    CHECK(!json_is_true(business_at(&b, "effects.0.has_together")));
    double sign =
        strcmp(business_text(&b, "effects.0.name"), "Noor") == 0 ? 1 : -1;
    NEAR(sign * business_number(&b, "effects.0.part"), 1, 0.3);
    CHECK(business_number(&b, "effects.0.strength") >= 3);
    business_stop(&b);
}

TEST(people_who_mix_alike_are_not_named, LIMIT, "planted: none")
{
    business b;
    mix_by_two(&b, 0);
    business_do(&b, "quality.drift", "{}");
    SAME(business_size(&b, "effects"), 0);
    business_stop(&b);
}
