#include "doughwright/spread.h"
#include "dw_csv.h"
#include "dw_test.h"

#include <stdlib.h>

TEST(counts_have_the_mass_and_share_of_a_statistics_package, DERIVED,
     "R 4.2.2 dnbinom and pnbinom, tests/data/spread_vectors.csv")
{
    FILE *file = fopen(dw_test_data("spread_vectors.csv"), "r");
    dw_csv row;
    int rows = 0;
    NEED(file && dw_csv_row(file, &row));
    for (; dw_csv_row(file, &row); rows++) {
        dw_spread spread = {atof(row.cells[0]), atof(row.cells[1])};
        int64_t balls = atoll(row.cells[2]);
        double mass = atof(row.cells[3]), share = atof(row.cells[4]);
        NEAR(dw_spread_mass(&spread, balls), mass, 1e-7 * mass + 1e-15);
        NEAR(dw_spread_share(&spread, balls), share, 1e-7);
        NEAR(dw_spread_share(&spread, balls) -
                 dw_spread_share(&spread, balls - 1),
             mass, 1e-7);
    }
    fclose(file);
    SAME(rows, 42);
}

TEST(quantiles_are_the_fewest_balls_that_are_enough, DERIVED,
     "R 4.2.2 qnbinom, qpois")
{
    const double shares[] = {.025, .1, .5, .9, .975};
    const int wide[] = {58, 69, 95, 124, 142}, few[] = {0, 0, 1, 7, 11},
              poisson[] = {37, 41, 50, 59, 64};
    const dw_spread a = {96, 25}, b = {2.5, 0.8}, c = {50, 1e9};
    for (size_t i = 0; i < DW_COUNT(shares); i++) {
        SAME(dw_spread_quantile(&a, shares[i]), wide[i]);
        SAME(dw_spread_quantile(&b, shares[i]), few[i]);
        SAME(dw_spread_quantile(&c, shares[i]), poisson[i]);
    }
}

TEST(balls_short_are_the_tail_beyond_what_is_there, DERIVED,
     "R 4.2.2: sums of (k - n) dnbinom(k)")
{
    const dw_spread a = {96, 25}, b = {2.5, 0.8};
    NEAR(dw_spread_short(&a, 100), 6.82178105344, 1e-8);
    NEAR(dw_spread_short(&b, 2), 1.33877475159, 1e-8);
    NEAR(dw_spread_short(&a, 0), 96, 1e-9);
    NEAR(dw_spread_short(&a, -4), 100, 1e-9);
    NEAR(dw_spread_short(&a, 2000), 0, 1e-9);
}

TEST(masses_sum_to_one_and_a_day_without_sales_is_certain, LIMIT,
     "a distribution")
{
    double masses[1000], sum = 0, mean = 0;
    const dw_spread spread = {96, 25}, none = {0, 1};
    dw_spread_masses(&spread, masses, DW_COUNT(masses));
    for (size_t i = 0; i < DW_COUNT(masses); i++) {
        sum += masses[i];
        mean += masses[i] * (double)i;
    }
    NEAR(sum, 1, 1e-9);
    NEAR(mean, 96, 1e-7);
    NEAR(dw_spread_mass(&none, 0), 1, 0);
    NEAR(dw_spread_mass(&none, 1), 0, 0);
    NEAR(dw_spread_share(&none, 0), 1, 0);
    NEAR(dw_spread_short(&none, 0), 0, 0);
    SAME(dw_spread_quantile(&none, 0.975), 0);
}

TEST(the_score_of_a_forecast_of_counts_is_the_published_one, DERIVED,
     "closed form of the Poisson score, tests/data/forecast_score_vectors.csv; "
     "R 4.2.2 sums for the negative binomial")
{
    FILE *file = fopen(dw_test_data("forecast_score_vectors.csv"), "r");
    dw_csv row;
    int rows = 0;
    NEED(file && dw_csv_row(file, &row));
    while (dw_csv_row(file, &row)) {
        if (strcmp(row.cells[0], "poisson") != 0)
            continue;
        dw_spread spread = {atof(row.cells[1]), DW_SPREAD_SIZE_MOST};
        NEAR(dw_spread_crps(&spread, atoll(row.cells[3])), atof(row.cells[4]),
             1e-6);
        rows++;
    }
    fclose(file);
    SAME(rows, 3);
    const dw_spread a = {96, 25};
    NEAR(dw_spread_crps(&a, 110), 9.14900645532, 1e-7);
    NEAR(dw_spread_crps(&a, 20), 63.9009190649, 1e-6);
}

TEST(a_band_covers_its_own_share_of_what_it_forecasts, LIMIT,
     "the mean of the coverage over its own distribution is its level")
{
    const dw_spread spreads[] = {{0.4, 2}, {3, 1}, {96, 25}};
    for (size_t i = 0; i < DW_COUNT(spreads); i++) {
        double in_80 = 0, in_95 = 0;
        for (int64_t k = 0; k < 1000; k++) {
            double mass = dw_spread_mass(&spreads[i], k);
            in_80 += mass * dw_spread_covers(&spreads[i], 0.8, k);
            in_95 += mass * dw_spread_covers(&spreads[i], 0.95, k);
        }
        NEAR(in_80, 0.8, 1e-6);
        NEAR(in_95, 0.95, 1e-6);
    }
}
