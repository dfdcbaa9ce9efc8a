#include "app/demo.h"
#include "dw_test.h"

/* 2026-11-24 is day 20781, a Tuesday (date -u). */
enum { TODAY = 20781 };

static dw_demo_place place_of(uint64_t seed, double balls)
{
    return (dw_demo_place){
        .seed = seed, .last_day = TODAY - 1, .balls = balls, .outlets = 4};
}

TEST(a_stream_of_chance_is_that_of_splitmix64, PUBLISHED,
     "Vigna, splitmix64.c: first outputs from state 1234567")
{
    dw_chance chance = {1234567};
    CHECK(dw_chance_bits(&chance) == 6457827717110365317ULL);
    CHECK(dw_chance_bits(&chance) == 3203168211198807973ULL);
    CHECK(dw_chance_bits(&chance) == 9817491932198370423ULL);
    CHECK(dw_chance_bits(&chance) == 4593380528125082431ULL);
    CHECK(dw_chance_bits(&chance) == 16408922859458223821ULL);
}

TEST(counts_have_the_mean_and_spread_that_are_asked_for, DERIVED,
     "negative binomial: variance = mean + mean^2 / size")
{
    const double means[] = {0.7, 6, 70, 300};
    for (size_t m = 0; m < DW_COUNT(means); m++) {
        enum { N = 20000 };
        dw_chance chance = dw_chance_of(11, m, 0, 0);
        double sum = 0, squares = 0, mean = means[m];
        for (int i = 0; i < N; i++) {
            double x = (double)dw_chance_count(&chance, mean, 25);
            sum += x;
            squares += x * x;
        }
        double variance = mean + mean * mean / 25;
        double got = sum / N;
        NEAR(got, mean, 5 * sqrt(variance / N));
        NEAR((squares / N - got * got) / variance, 1, 0.06);
    }
}

TEST(the_weekday_pattern_is_found_again_in_the_sales, DERIVED,
     "ratio to the mean of the week, within its sampling error")
{
    dw_demo_place place = place_of(2, 2000);
    double sums[7] = {0}, all = 0;
    for (int64_t day = TODAY - 364; day < TODAY; day++) { /* 52 weeks */
        bool out;
        double sold = (double)dw_demo_sold(&place, day, &out);
        sums[(day + 3) % 7] += sold;
        all += sold;
    }
    for (int i = 0; i < 7; i++)
        NEAR(7 * sums[i] / all, dw_demo_weekday[i], 0.12);
    double total = 0;
    for (int i = 0; i < 7; i++)
        total += dw_demo_weekday[i];
    NEAR(total, 7, 1e-12);
}

TEST(the_outlets_share_a_products_balls, LIMIT, "shares sum to one")
{
    dw_demo_place place = place_of(1, 100);
    int64_t day = TODAY - 200; /* before the last outlet's shift */
    double sum = 0;
    for (place.outlet = 0; place.outlet < 4; place.outlet++)
        sum += dw_demo_mean(&place, day);
    dw_demo_place alone = place_of(1, 100);
    alone.outlets = 1;
    NEAR(sum, dw_demo_mean(&alone, day), 1e-9);
}

TEST(a_year_of_sales_is_plausible, DERIVED,
     "balls a day x 365, season and events average out within a tenth")
{
    double total = 0;
    int sold_out = 0;
    dw_demo_place place = place_of(4, 100);
    for (place.outlet = 0; place.outlet < 4; place.outlet++)
        for (int64_t day = TODAY - 365; day < TODAY; day++) {
            bool out;
            total += (double)dw_demo_sold(&place, day, &out);
            sold_out += out;
        }
    NEAR(total / (100 * 365), 0.98, 0.08);
    CHECK(sold_out >= 10 && sold_out <= 60); /* 2 % of 1460 is 29 */
}

TEST(christmas_is_closed_and_the_last_outlet_has_its_shift, DERIVED,
     "docs/models/demo.md")
{
    dw_demo_place place = place_of(4, 100);
    bool out;
    SAME(dw_demo_sold(&place, 20447, &out), 0); /* 2025-12-25 */
    place.outlet = 3;
    int64_t before = TODAY - 1 - 157, after = before + 7 * 8;
    double ratio = dw_demo_mean(&place, after) / dw_demo_mean(&place, before);
    place.outlet = 2;
    double other = dw_demo_mean(&place, after) / dw_demo_mean(&place, before);
    NEAR(ratio / other, 1.18, 1e-9);
}

TEST(different_seeds_give_different_days, LIMIT, "streams of their own")
{
    dw_demo_place a = place_of(1, 100), b = place_of(2, 100);
    int same = 0;
    for (int64_t day = TODAY - 100; day < TODAY; day++) {
        bool out;
        same += dw_demo_sold(&a, day, &out) == dw_demo_sold(&b, day, &out);
    }
    CHECK(same < 30);
}
