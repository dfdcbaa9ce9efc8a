#include "doughwright/smooth.h"
#include "dw_test.h"

#include <stdlib.h>

static unsigned char block[1 << 18];

static dw_smooth_reply smooth(const dw_smooth_ask *ask)
{
    static dw_arena arena;
    dw_smooth_reply reply = {.alpha = 0};
    dw_err err;
    dw_smooth_ask filled = *ask;
    filled.season = filled.season ? filled.season : 7;
    filled.ahead = filled.ahead ? filled.ahead : 5;
    dw_arena_init(&arena, block, sizeof block);
    CHECK(dw_smooth_run(&filled, &arena, &reply, &err) == DW_OK);
    return reply;
}

/* The last cell of each line of tests/data/NAME after the first. */
static size_t read_series(const char *name, double *values, size_t most)
{
    FILE *file = fopen(dw_test_data(name), "r");
    char line[100];
    size_t n = 0;
    if (!file || !fgets(line, sizeof line, file))
        return 0;
    while (n < most && fgets(line, sizeof line, file)) {
        const char *comma = strrchr(line, ',');
        values[n++] = atof(comma ? comma + 1 : line);
    }
    fclose(file);
    return n;
}

static double oil[] = {446.6565229, 454.4733065, 455.662974,  423.6322388,
                       456.2713279, 440.5880501, 425.3325201, 485.1494479,
                       506.0481621, 526.7919833, 514.268889,  494.2110193};
static double air[] = {17.5534,   21.8601,   23.8866,   26.9293,   26.8885,
                       28.8314,   30.0751,   30.9535,   30.1857,   31.5797,
                       32.577569, 33.477398, 39.021581, 41.386432, 41.596552};

TEST(simple_smoothing_of_the_oil_series, PUBLISHED,
     "Hyndman, Forecasting: principles and practice, table 7.2, recomputed")
{
    static const double levels[] = {446.6565, 448.2199, 449.7085, 444.4932,
                                    446.8489, 445.5967, 441.5439, 450.2650,
                                    461.4216, 474.4957, 482.4503, 484.8025};
    dw_smooth_reply r = smooth(&(dw_smooth_ask){.method = DW_SMOOTH_LEVEL,
                                                .values = oil,
                                                .values_count = DW_COUNT(oil),
                                                .has_alpha = true,
                                                .alpha = 0.2,
                                                .has_level = true,
                                                .level = oil[0]});
    NEED(r.levels_count == DW_COUNT(levels));
    for (size_t i = 0; i < DW_COUNT(levels); i++)
        NEAR(r.levels[i], levels[i], 6e-5);
    NEAR(r.forecast[0], 484.802468, 5e-7);
    NEAR(r.forecast[4], 484.802468, 5e-7);
}

TEST(smoothing_and_start_of_the_oil_series_are_found, PUBLISHED,
     "the same, estimated: alpha .891998, start 447.478440")
{
    dw_smooth_reply r = smooth(&(dw_smooth_ask){.method = DW_SMOOTH_LEVEL,
                                                .values = oil,
                                                .values_count = DW_COUNT(oil),
                                                .find_level = true});
    NEAR(r.alpha, 0.891998, 2e-4);
    NEAR(r.start_level, 447.478440, 5e-3);
    NEAR(r.forecast[0], 496.493543, 5e-3);
}

TEST(trends_of_the_air_series_by_sum_and_by_factor, PUBLISHED,
     "the same, 7.2: 43.76 45.59 47.43 49.27 51.10 and 44.60 to 56.15")
{
    static const double sums[] = {43.7570, 45.5935, 47.4301, 49.2666, 51.1032};
    static const double factors[] = {44.5987, 47.2416, 50.0412, 53.0066,
                                     56.1478};
    dw_smooth_ask ask = {.method = DW_SMOOTH_TREND,
                         .values = air,
                         .values_count = DW_COUNT(air),
                         .has_alpha = true,
                         .alpha = 0.8,
                         .has_beta = true,
                         .beta = 0.2,
                         .has_level = true,
                         .level = air[0]};
    dw_smooth_reply r = smooth(&ask);
    for (int i = 0; i < 5; i++)
        NEAR(r.forecast[i], sums[i], 6e-5);
    ask.method = DW_SMOOTH_TREND_TIMES;
    r = smooth(&ask);
    for (int i = 0; i < 5; i++)
        NEAR(r.forecast[i], factors[i], 6e-5);
}

TEST(textbook_series_of_ten_and_twelve_values, PUBLISHED,
     "a time series exercise sheet (65.42 from rounded numbers); NIST "
     "e-Handbook 6.4.3.1 and 6.4.3.3, recomputed unrounded")
{
    static double ten[] = {99, 88, 50, 58, 62, 60, 55, 62, 71, 65};
    static double twelve[] = {71, 70, 69, 68, 64, 65, 72, 78, 75, 75, 75, 70};
    static double rising[] = {6.4,  5.6,  7.8,  8.8,  11.0,
                              11.6, 16.7, 15.3, 21.6, 22.4};
    static const double s[] = {70.9,  70.71, 70.44, 69.80, 69.32,
                               69.58, 70.43, 70.88, 71.29, 71.67};
    static const double next[] = {25.8, 28.7, 31.7, 34.6, 37.6};
    dw_smooth_ask ask = {.method = DW_SMOOTH_LEVEL,
                         .values = ten,
                         .values_count = 10,
                         .has_alpha = true,
                         .alpha = 0.3};
    dw_smooth_reply r = smooth(&ask);
    NEAR(r.forecast[0], 65.43, 6e-3);
    NEAR(r.squared_errors / 9, 365.80, 6e-3);
    ask = (dw_smooth_ask){.method = DW_SMOOTH_LEVEL,
                          .values = twelve,
                          .values_count = 12,
                          .has_alpha = true,
                          .alpha = 0.1};
    r = smooth(&ask);
    for (int i = 0; i < 10; i++)
        NEAR(r.levels[i], s[i], 6e-3);
    NEAR(r.squared_errors, 208.82, 6e-3);
    ask = (dw_smooth_ask){.method = DW_SMOOTH_TREND,
                          .values = rising,
                          .values_count = 10,
                          .has_alpha = true,
                          .alpha = 0.3623,
                          .has_beta = true,
                          .beta = 1,
                          .has_slope = true,
                          .slope = 0.8};
    r = smooth(&ask);
    for (int i = 0; i < 5; i++)
        NEAR(r.forecast[i], next[i], 0.06);
}

TEST(the_nile_is_smoothed_as_by_a_statistics_package, DERIVED,
     "R 4.2.2 HoltWinters and ets(A,N,N), data set Nile")
{
    static double nile[100];
    dw_smooth_ask ask = {.method = DW_SMOOTH_LEVEL, .values = nile};
    ask.values_count = read_series("series_nile.csv", nile, 100);
    dw_smooth_reply r = smooth(&ask);
    NEAR(r.alpha, 0.2465579, 2e-4);
    NEAR(r.squared_errors, 2038872, 2);
    NEAR(r.level, 805.0389, 0.05);
    ask.find_level = true;
    r = smooth(&ask);
    NEAR(r.alpha, 0.2455, 1e-3);
    NEAR(r.start_level, 1110.687, 3);
    double sigma = sqrt(r.squared_errors / 98);
    NEAR(sigma, 144.232, 0.02);
    double wide = 1.959964 * sigma * sqrt(1 + r.alpha * r.alpha);
    NEAR(r.forecast[0] - wide, 514.296, 0.6);
    NEAR(r.forecast[0] + wide, 1096.467, 0.6);
}

TEST(carbon_dioxide_and_passengers_have_their_seasons, DERIVED,
     "R 4.2.2 HoltWinters, data sets co2 and AirPassengers")
{
    static const double next[] = {447.056, 419.712, 464.867, 496.084,
                                  507.533, 575.451, 666.592, 657.914,
                                  550.309, 492.985, 420.207, 465.635};
    static double co2[468], passengers[144];
    dw_smooth_ask ask = {
        .method = DW_SMOOTH_SEASON, .values = co2, .season = 12, .ahead = 12};
    ask.values_count = read_series("series_co2.csv", co2, 468);
    dw_smooth_reply r = smooth(&ask);
    NEAR(r.alpha, 0.5126484, 2e-3);
    NEAR(r.beta, 0.009497669, 5e-4);
    NEAR(r.gamma, 0.4728868, 2e-3);
    NEAR(r.level, 364.7616237, 5e-3);
    NEAR(r.slope, 0.1247438, 1e-3);
    ask = (dw_smooth_ask){.method = DW_SMOOTH_SEASON_TIMES,
                          .values = passengers,
                          .season = 12,
                          .ahead = 12};
    ask.values_count = read_series("series_airpassengers.csv", passengers, 144);
    r = smooth(&ask);
    NEAR(r.squared_errors, 16570.778, 0.5);
    NEAR(r.alpha, 0.2755925, 2e-3);
    NEAR(r.gamma, 0.8707292, 5e-3);
    for (int i = 0; i < 12; i++)
        NEAR(r.forecast[i], next[i], 0.3);
}

TEST(daily_totals_with_a_week_are_smoothed_as_by_a_package, DERIVED,
     "R 4.2.2 HoltWinters, 70 of 84 daily totals of forecast::taylor: mean "
     "error 17599.6; of the same weekday a week before 35610.5")
{
    static double daily[84];
    NEED(read_series("taylor_daily.csv", daily, 84) == 84);
    dw_smooth_reply r = smooth(&(dw_smooth_ask){.method = DW_SMOOTH_SEASON,
                                                .values = daily,
                                                .values_count = 70,
                                                .season = 7,
                                                .ahead = 14});
    double error = 0, last_week = 0;
    for (int i = 0; i < 14; i++) {
        error += fabs(daily[70 + i] - r.forecast[i]) / 14;
        last_week += fabs(daily[70 + i] - daily[63 + i % 7]) / 14;
    }
    NEAR(last_week, 35610.5, 0.06);
    NEAR(r.alpha, 0.71911, 5e-3);
    NEAR(error, 17599.6, 100);
}

TEST(too_few_values_or_none_to_multiply_are_refused, LIMIT, "the ranges")
{
    static double few[] = {1, 2, 0, 4};
    dw_arena arena;
    dw_smooth_reply reply = {.errors = 9};
    dw_err err;
    dw_arena_init(&arena, block, sizeof block);
    dw_smooth_ask ask = {.method = DW_SMOOTH_SEASON,
                         .values = few,
                         .values_count = 4,
                         .season = 7,
                         .ahead = 1};
    SAME(dw_smooth_run(&ask, &arena, &reply, &err), DW_E_RANGE);
    SAME_TEXT(err.field, "values");
    ask.method = DW_SMOOTH_TREND_TIMES;
    SAME(dw_smooth_run(&ask, &arena, &reply, &err), DW_E_RANGE);
    SAME(reply.errors, 9);
}
