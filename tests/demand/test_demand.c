#include "rolling.h"

#include "dw_csv.h"
#include "dw_test.h"
#include "scores.h"

#include <stdlib.h>

enum { WEEKS = 26, SEEDS = 5, SEEDS_WITH_R = 2 };
#define DEMO BUSINESSES

/* Seeds that nothing was tuned on; DW_SEED names others. */
static unsigned long long first_seed(void)
{
    const char *given = getenv("DW_SEED");
    return given ? strtoull(given, NULL, 10) : 4100;
}

static void make(made_business *b, int which, unsigned long long seed)
{
    if (which == DEMO)
        business_of_demo(b, seed);
    else
        business_make(b, which, seed);
}

static void add(rolled *sum, const rolled *one)
{
    sum->scaled += one->scaled;
    sum->scaled_naive += one->scaled_naive;
    sum->scaled_given += one->scaled_given;
    sum->in_80 += one->in_80;
    sum->in_95 += one->in_95;
    sum->forecasts++;
}

/* ---- quick --------------------------------------------------------------- */

TEST(a_forecast_errs_less_than_the_same_weekday_of_last_week, LIMIT,
     "four businesses of tests/demand, eight weeks")
{
    static made_business b;
    for (int which = 0; which <= DEMO; which++) {
        rolled r;
        make(&b, which, first_seed());
        rolling_origin(&b, 8, NULL, &r);
        CHECK(r.scaled < r.scaled_naive);
        CHECK(r.crps < r.crps_naive);
        CHECK(r.band < r.band_naive);
        CHECK(r.service < r.service_naive);
    }
}

TEST(scores_are_those_of_their_closed_forms, PUBLISHED,
     "tests/data/forecast_score_vectors.csv, checked against quadrature")
{
    FILE *file = fopen(dw_test_data("forecast_score_vectors.csv"), "r");
    dw_csv row;
    int rows = 0;
    NEED(file && dw_csv_row(file, &row));
    while (dw_csv_row(file, &row)) {
        double p2 = atof(row.cells[2]), y = atof(row.cells[3]), members[8];
        char *at = row.cells[1];
        size_t n = 0;
        for (char *end; n < 8; at = end + (*end != '\0')) {
            members[n] = strtod(at, &end);
            if (end == at)
                break;
            n++;
        }
        const char *name = row.cells[0];
        double got =
            strcmp(name, "normal") == 0    ? score_normal(members[0], p2, y)
            : strcmp(name, "pinball") == 0 ? score_pinball(members[0], p2, y)
            : strcmp(name, "interval_score_alpha") == 0
                ? score_interval(members[0], members[1], p2, y)
                : score_members(members, n, y);
        if (strcmp(name, "poisson") == 0)
            continue; /* of the engine: tests/engine/test_spread.c */
        NEAR(got, atof(row.cells[4]), 1e-8);
        rows++;
    }
    fclose(file);
    SAME(rows, 15);
}

TEST(the_score_of_many_balls_is_that_of_a_normal, LIMIT,
     "a Poisson of mean 10000 against a normal of standard deviation 100")
{
    const dw_spread many = {10000, DW_SPREAD_SIZE_MOST};
    for (int64_t came = 9700; came <= 10300; came += 150)
        NEAR(dw_spread_crps(&many, came),
             score_normal(10000, 100, (double)came), 0.4);
}

/* ---- long ---------------------------------------------------------------- */

TEST(long_bands_cover_what_they_say_on_seeds_not_seen_before, LIMIT,
     "80 % within 77 to 83, 95 % within 92 to 97, ties shared out")
{
    static made_business b;
    for (int which = 0; which <= DEMO; which++) {
        rolled sum = {0};
        for (int s = 0; s < SEEDS; s++) {
            rolled r;
            make(&b, which, first_seed() + (unsigned)s);
            rolling_origin(&b, WEEKS, NULL, &r);
            add(&sum, &r);
        }
        printf("%s: scaled error %.3f, last week's %.3f, 80 %% covers %.1f, "
               "95 %% covers %.1f\n",
               b.name, sum.scaled / SEEDS, sum.scaled_naive / SEEDS,
               100 * sum.in_80 / SEEDS, 100 * sum.in_95 / SEEDS);
        NEAR(sum.in_80 / SEEDS, 0.80, 0.03);
        NEAR(sum.in_95 / SEEDS, 0.945, 0.025);
        CHECK(sum.scaled < sum.scaled_naive);
    }
}

/* Means of R's exponential smoothing for every week, series and day. */
static bool ask_r(const made_business *b, double *means)
{
    char path[] = "/tmp/demand-XXXXXX", command[512];
    int file = mkstemp(path), week, series, read = 0;
    FILE *out = file >= 0 ? fdopen(file, "w") : NULL;
    if (!out)
        return false;
    for (int i = 0; i < b->series; i++) {
        fprintf(out, "%d", i);
        for (int d = b->begins; d < BUSINESS_DAYS; d++)
            fprintf(out, ",%lld", (long long)b->sold[i][d]);
        fprintf(out, "\n");
    }
    fclose(out);
    snprintf(command, sizeof command, "Rscript %s %d < %s 2>/dev/null",
             DW_TEST_SMOOTHING, WEEKS, path);
    FILE *in = popen(command, "r");
    while (in && fscanf(in, "%d,%d", &week, &series) == 2)
        for (int k = 0; k < ROLLING_DAYS; k++)
            read +=
                fscanf(
                    in, ",%lf",
                    &means[(week * b->series + series) * ROLLING_DAYS + k]) ==
                1;
    bool ended = in && pclose(in) == 0;
    remove(path);
    return ended && read == WEEKS * b->series * ROLLING_DAYS;
}

TEST(long_a_forecast_errs_less_than_plain_weekday_smoothing, DERIVED,
     "R 4.2.2, package forecast 8.20, ets(A,N,A) with a season of 7 days")
{
    static made_business b;
    static double means[WEEKS * BUSINESS_SERIES * ROLLING_DAYS];
    for (int which = 0; which <= DEMO; which++) {
        rolled sum = {0};
        for (int s = 0; s < SEEDS_WITH_R; s++) {
            rolled r;
            make(&b, which, first_seed() + (unsigned)s);
            NEED(ask_r(&b, means));
            rolling_origin(&b, WEEKS, means, &r);
            add(&sum, &r);
        }
        printf("%s: scaled error %.3f, of plain smoothing %.3f\n", b.name,
               sum.scaled / SEEDS_WITH_R, sum.scaled_given / SEEDS_WITH_R);
        CHECK(sum.scaled < sum.scaled_given);
    }
}
