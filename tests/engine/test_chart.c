#include "doughwright/chart.h"
#include "dw_csv.h"
#include "dw_test.h"

#include <stdlib.h>

enum { BLOCK = 1 << 20 };

typedef struct drawn {
    void *block;
    dw_arena arena;
    dw_err err;
    dw_status status;
    dw_chart_reply reply;
} drawn;

static dw_chart_request asked(int kind, double *values, size_t count)
{
    dw_chart_request request;
    dw_shape_preset(&dw_chart_request_shape, &request);
    request.kind = kind;
    request.values = values;
    request.values_count = count;
    return request;
}

static drawn draw(const dw_chart_request *request)
{
    drawn d = {.block = malloc(BLOCK)};
    dw_arena_init(&d.arena, d.block, BLOCK);
    d.status = dw_chart_draw(request, &d.arena, &d.err, &d.reply);
    return d;
}

/* Numbers after `mark` in a cell, as many as there are. */
static size_t numbers_after(const char *cell, const char *mark, double *out,
                            size_t room)
{
    const char *at = strstr(cell, mark);
    size_t count = 0;
    if (!at)
        return 0;
    char *end;
    for (at += strlen(mark); count < room; at = end) {
        double value = strtod(at, &end);
        if (end == at)
            break;
        out[count++] = value;
    }
    return count;
}

/* The row of that id in spc_examples.csv. */
static bool find_example(const char *id, dw_csv *row)
{
    FILE *file = fopen(dw_test_data("spc_examples.csv"), "r");
    bool found = false;
    while (file && !found && dw_csv_row(file, row))
        found = strcmp(row->cells[0], id) == 0;
    if (file)
        fclose(file);
    return found;
}

TEST(single_values_have_the_limits_of_the_handbook, PUBLISHED,
     "NIST/SEMATECH e-Handbook 6.3.2.2: spc_examples.csv S1; it uses d2 1.128")
{
    dw_csv row;
    NEED(find_example("S1", &row));
    double x[20], want[4] = {0};
    size_t n = numbers_after(row.cells[1], "x=", x, 20);
    SAME(n, 10);
    numbers_after(row.cells[2], "mean ", &want[0], 1);
    numbers_after(row.cells[2], "MRbar ", &want[1], 1);
    numbers_after(row.cells[2], "UCL ", &want[2], 1);
    numbers_after(row.cells[2], "LCL ", &want[3], 1);
    dw_chart_request request = asked(DW_CHART_INDIVIDUALS, x, n);
    drawn d = draw(&request);
    SAME(d.status, DW_OK);
    NEAR(d.reply.centre, want[0], 5e-3);
    NEAR(d.reply.mean_range, want[1], 5e-5);
    NEAR(d.reply.upper, want[2], 2e-3);
    NEAR(d.reply.lower, want[3], 2e-3);
    NEAR(d.reply.upper, 55.8024, 5e-5);
    SAME(d.reply.signals_count, 0);
    free(d.block);
}

TEST(a_smoothed_chart_is_that_of_the_handbook, PUBLISHED,
     "NIST/SEMATECH e-Handbook 6.3.2.4, from memory, recomputed: "
     "spc_examples.csv S4")
{
    dw_csv row;
    NEED(find_example("S4", &row));
    double x[30], want[30], limit[2] = {0};
    size_t n = numbers_after(row.cells[1], "x=", x, 30);
    SAME(n, 20);
    SAME(numbers_after(row.cells[2], "EWMA ", want, 30), n);
    numbers_after(row.cells[2], "UCL ", &limit[0], 1);
    numbers_after(row.cells[2], "LCL ", &limit[1], 1);
    dw_chart_request request = asked(DW_CHART_EWMA, x, n);
    request.weight = 0.3;
    request.has_centre = request.has_sigma = true;
    request.centre = 50;
    request.sigma = 2.0539;
    drawn d = draw(&request);
    NEED(d.status == DW_OK);
    NEAR(d.reply.upper, limit[0], 5e-5);
    NEAR(d.reply.lower, limit[1], 1e-4);
    for (size_t i = 0; i < n; i++)
        NEAR(d.reply.points[i].value, want[i], 5.001e-3);
    free(d.block);
}

TEST(a_summed_chart_signals_where_the_handbook_does, PUBLISHED,
     "NIST/SEMATECH e-Handbook 6.3.2.3, from memory, recomputed: "
     "spc_examples.csv S5")
{
    dw_csv row;
    NEED(find_example("S5", &row));
    double x[30], want[2] = {0};
    size_t n = numbers_after(row.cells[1], "x=", x, 30);
    SAME(n, 20);
    numbers_after(row.cells[2], "S_hi(13)=", &want[0], 1);
    numbers_after(row.cells[2], "S_hi(14)=", &want[1], 1);
    dw_chart_request request = asked(DW_CHART_CUSUM, x, n);
    request.has_centre = request.has_sigma = true;
    request.centre = 325;
    request.sigma = 1;
    request.slack_sigmas = 0.3175;
    request.decision_sigmas = 4.1959;
    drawn d = draw(&request);
    NEED(d.status == DW_OK);
    NEAR(d.reply.points[12].value, want[0], 5e-4);
    NEAR(d.reply.points[13].value, want[1], 5e-4);
    NEED(d.reply.signals_count > 0);
    SAME(d.reply.signals[0].index, 13);
    SAME(d.reply.signals[0].side, 1);
    free(d.block);
}

TEST(capability_is_that_of_the_handbook, PUBLISHED,
     "NIST/SEMATECH e-Handbook 6.1.6, from memory, recomputed: "
     "spc_examples.csv S6")
{
    double x[] = {14, 16, 18, 16};
    dw_chart_request request = asked(DW_CHART_INDIVIDUALS, x, 4);
    request.has_centre = request.has_sigma = true;
    request.centre = 16;
    request.sigma = 2;
    request.has_lowest = request.has_highest = true;
    request.lowest = 8;
    request.highest = 20;
    drawn d = draw(&request);
    NEED(d.status == DW_OK && d.reply.has_capability);
    const dw_chart_capability *c = &d.reply.capability;
    NEAR(c->cp, 1, 1e-12);
    NEAR(c->cpu, 0.6667, 5e-5);
    NEAR(c->cpl, 1.3333, 5e-5);
    NEAR(c->cpk, 0.6667, 5e-5);
    /* deviation of 14 16 18 16 is sqrt(8 / 3) */
    NEAR(c->pp, 12 / (6 * 1.632993161855452), 1e-9);
    NEAR(c->ppk, 4 / (3 * 1.632993161855452), 1e-9);
    free(d.block);
}

static void compare_constants(const dw_csv *row)
{
    dw_chart_constants c;
    dw_chart_constants_of(strtol(row->cells[0], NULL, 10), &c);
    const double got[] = {c.d2, c.d3, c.c4,  c.a,   c.a2,  c.a3,  c.b3, c.b4,
                          c.b5, c.b6, c.d_1, c.d_2, c.d_3, c.d_4, c.e2};
    for (size_t i = 0; i < DW_COUNT(got); i++)
        NEAR(got[i], strtod(row->cells[i + 1], NULL), 1.5e-5);
}

TEST(chart_constants_are_those_of_the_tables, PUBLISHED,
     "Pyzdek and Keller 2012 p. 401 to 0.001, integrated independently to "
     "1e-5: spc_constants.csv")
{
    SAME(dw_csv_each("spc_constants.csv", compare_constants), 24);
}

/* z values drawn with centre 0 and sigma 1 under one rule. */
static void expect_mark(double *z, size_t count, dw_chart_rules rules, int rule,
                        int64_t index)
{
    dw_chart_request request = asked(DW_CHART_INDIVIDUALS, z, count);
    request.has_centre = request.has_sigma = true;
    request.centre = 0;
    request.sigma = 1;
    request.has_rules = true;
    request.rules = rules;
    drawn d = draw(&request);
    NEED(d.status == DW_OK && d.reply.signals_count > 0);
    SAME(d.reply.signals[0].rule, rule);
    SAME(d.reply.signals[0].index, index);
    free(d.block);
}

#define MARK(rules_, rule, at, ...)                                            \
    do {                                                                       \
        double z_[] = {__VA_ARGS__};                                           \
        expect_mark(z_, DW_COUNT(z_), (dw_chart_rules)rules_, rule, (at)-1);   \
    } while (0)

TEST(each_rule_marks_the_point_that_completes_it, PUBLISHED,
     "definitions of Western Electric 1956 and Nelson 1984: spc_examples.csv "
     "R1 to R8")
{
    MARK({.beyond = true}, DW_CHART_BEYOND, 3, 0, 0.5, 3.1);
    MARK({.two_of_three = true}, DW_CHART_TWO_OF_THREE, 4, 0, 2.1, 0.5, 2.2);
    MARK({.four_of_five = true}, DW_CHART_FOUR_OF_FIVE, 5, 1.2, 1.1, 0.5, 1.3,
         1.4);
    MARK({.one_side = 8}, DW_CHART_ONE_SIDE, 8, .1, .2, .1, .3, .1, .2, .4, .1,
         .2);
    MARK({.one_side = 9}, DW_CHART_ONE_SIDE, 9, .1, .2, .1, .3, .1, .2, .4, .1,
         .2);
    MARK({.rising = 6}, DW_CHART_RISING, 6, -1, -.6, -.3, 0, .3, .6);
    MARK({.alternating = 14}, DW_CHART_ALTERNATING, 14, .2, -.2, .2, -.2, .2,
         -.2, .2, -.2, .2, -.2, .2, -.2, .2, -.2);
    MARK({.close_in = 15}, DW_CHART_CLOSE_IN, 15, .1, -.4, .9, .2, -.8, .3, .3,
         -.2, .5, .9, -.9, .1, 0, .6, -.3);
    MARK({.far_out = 8}, DW_CHART_FAR_OUT, 8, 1.2, -1.3, 1.4, 1.1, -1.2, 1.5,
         -1.1, 1.3);
}

static double zones_run(dw_chart_rules rules, double shift)
{
    void *block = malloc(BLOCK);
    dw_arena arena;
    dw_err err;
    bool has = false;
    double run = NAN;
    dw_arena_init(&arena, block, BLOCK);
    SAME(dw_chart_zones_run(&rules, 3, shift, &arena, &err, &has, &run), DW_OK);
    free(block);
    return has ? run : NAN;
}

TEST(false_alarms_of_the_zone_rules_are_as_published, PUBLISHED,
     "Champ and Woodall 1987, Technometrics 29(4): all four rules 91.75, one "
     "beyond three sigma 370.4, and that one shifted by 1 sigma 43.9")
{
    dw_chart_rules all = {.beyond = true,
                          .two_of_three = true,
                          .four_of_five = true,
                          .one_side = 8};
    NEAR(zones_run(all, 0), 91.75, 5e-3);
    dw_chart_rules one = {.beyond = true};
    NEAR(zones_run(one, 0), 370.398, 1e-3);
    NEAR(zones_run(one, 1), 43.9, 0.05);
    dw_chart_rules order = {.beyond = true, .rising = 6};
    CHECK(isnan(zones_run(order, 0)));
}

static void compare_runs(const dw_csv *row)
{
    double p = strtod(row->cells[1], NULL), q = strtod(row->cells[2], NULL);
    double shift = strtod(row->cells[3], NULL);
    double want = strtod(row->cells[4], NULL);
    double got = strcmp(row->cells[0], "ewma") == 0
                     ? dw_chart_ewma_run(p, q, shift)
                     : dw_chart_cusum_run(p, q, shift);
    NEAR(got, want, 1e-5 * want);
}

TEST(false_alarms_of_smoothed_and_summed_charts_are_those_of_a_library, DERIVED,
     "R package spc 0.6.7 (xewma.arl, xcusum.arl): spc_run_lengths.csv")
{
    SAME(dw_csv_each("spc_run_lengths.csv", compare_runs), 45);
}

/* Normal values of a generator of the test's own. */
static double normal(uint64_t *state)
{
    double sum = -6;
    for (int i = 0; i < 12; i++) {
        *state = *state * 6364136223846793005u + 1442695040888963407u;
        sum += (double)(*state >> 11) / 9007199254740992.0;
    }
    return sum;
}

static double moving_sigma(const double *x, size_t count)
{
    double sum = 0;
    for (size_t i = 1; i < count; i++)
        sum += fabs(x[i] - x[i - 1]);
    return sum / (double)(count - 1) / 1.12837916709551;
}

typedef struct steps_seen {
    int rows, found, held;
} steps_seen;

static steps_seen look_for_steps(size_t count, double step, uint64_t seed)
{
    steps_seen seen = {.rows = 4000};
    double x[200];
    for (int row = 0; row < seen.rows; row++) {
        for (size_t i = 0; i < count; i++)
            x[i] = normal(&seed) + (i >= count / 2 ? step : 0);
        dw_chart_change change;
        if (!dw_chart_step(x, count, moving_sigma(x, count), &change))
            continue;
        seen.found++;
        seen.held += change.earliest <= (int64_t)(count / 2) &&
                     (int64_t)(count / 2) <= change.latest;
    }
    return seen;
}

TEST(long_a_step_is_claimed_once_in_a_hundred_rows_without_one, DERIVED,
     "simulated rows of a generator of the test's own; the band of a binomial "
     "count of 4,000 at 1 %, three deviations")
{
    const size_t counts[] = {8, 16, 40, 90, 200};
    for (size_t i = 0; i < DW_COUNT(counts); i++)
        NEAR(look_for_steps(counts[i], 0, 11 + i).found, 40, 19);
}

TEST(long_a_planted_step_is_found_and_its_place_held_in_nine_of_ten, DERIVED,
     "simulated rows of a generator of the test's own, steps of 2 sigma in the "
     "middle")
{
    const size_t counts[] = {40, 90, 200};
    for (size_t i = 0; i < DW_COUNT(counts); i++) {
        steps_seen seen = look_for_steps(counts[i], 2, 5 + i);
        CHECK(seen.found > 0.98 * seen.rows);
        CHECK(seen.held > 0.9 * seen.found);
    }
}

/* One shop's week: seven days of five batches; the smoothed row as
 * quality.drift draws it, with limits of known centre and spread. */
enum { WEEKS = 10000, A_WEEK = 35, WEEKS_IN_A_ROW = 50 };

static dw_chart_request smoothed(double *values, size_t count, double sigma)
{
    dw_chart_request request = asked(DW_CHART_EWMA, values, count);
    request.weight = 0.2;
    request.limit_sigmas = 2.962;
    request.has_centre = request.has_sigma = true;
    request.centre = 0;
    request.sigma = sigma;
    return request;
}

/* Alarms of values without a shift; the row begins anew after each. */
static int false_alarms(uint64_t seed)
{
    double x[A_WEEK * WEEKS_IN_A_ROW];
    int alarms = 0;
    for (int run = 0; run < WEEKS / WEEKS_IN_A_ROW; run++) {
        for (size_t i = 0; i < DW_COUNT(x); i++)
            x[i] = normal(&seed);
        for (size_t from = 0; from + 2 <= DW_COUNT(x);) {
            dw_chart_request request =
                smoothed(x + from, DW_COUNT(x) - from, 1);
            drawn d = draw(&request);
            bool any = d.status == DW_OK && d.reply.signals_count > 0;
            from =
                any ? from + (size_t)d.reply.signals[0].index + 1 : DW_COUNT(x);
            alarms += any;
            free(d.block);
        }
    }
    return alarms;
}

TEST(long_false_alarms_come_at_the_stated_rate_over_10000_weeks, DERIVED,
     "10,000 weeks of 35 batches, one in 499.74 (R package spc 0.6.7): 700; "
     "three deviations of a count are 79")
{
    NEAR(false_alarms(3), 700, 79);
}

/* Values until a shift is seen, on average. */
static double run_until_seen(double shift, double sigma, uint64_t seed)
{
    enum { RUNS = 4000 };
    double sum = 0, x[400];
    for (int run = 0; run < RUNS; run++) {
        for (size_t i = 0; i < DW_COUNT(x); i++)
            x[i] = shift + sigma * normal(&seed);
        dw_chart_request request = smoothed(x, DW_COUNT(x), sigma);
        drawn d = draw(&request);
        if (d.status == DW_OK && d.reply.signals_count > 0)
            sum += (double)d.reply.signals[0].index + 1;
        else
            sum += (double)DW_COUNT(x);
        free(d.block);
    }
    return sum / RUNS;
}

TEST(long_planted_shifts_of_two_fahrenheit_and_0_3_oz_are_seen_in_time, DERIVED,
     "2 degF = 1.111 degC and 0.3 oz = 8.505 g, each one sigma: 10.54 values "
     "(R package spc 0.6.7); the mean of 4,000 runs to 0.4")
{
    NEAR(run_until_seen(2 / 1.8, 2 / 1.8, 17), 10.54, 0.4);
    NEAR(run_until_seen(8.505, 8.505, 19), 10.54, 0.4);
}

TEST(averages_and_ranges_have_the_limits_of_the_table, DERIVED,
     "A2 0.577, D4 2.114 of five over a mean of 10 and a mean range of 2, by "
     "hand")
{
    double x[] = {9, 10, 11, 10, 10, 11, 9, 10, 10, 10, 8, 12, 9, 10, 11};
    /* ranges 2, 2, 4: mean 8 / 3; means 10, 10, 10 */
    dw_chart_request request = asked(DW_CHART_AVERAGES, x, 15);
    drawn d = draw(&request);
    NEED(d.status == DW_OK);
    SAME(d.reply.points_count, 3);
    NEAR(d.reply.centre, 10, 1e-12);
    NEAR(d.reply.upper, 10 + 0.57682 * 8 / 3, 5e-5);
    NEAR(d.reply.range_upper, 2.1145 * 8 / 3, 5e-5);
    free(d.block);
}

TEST(a_chart_refuses_what_it_cannot_draw, LIMIT, "no chart without a spread")
{
    double alike[] = {3, 3, 3, 3, 3, 3, 3, 3};
    dw_chart_request request = asked(DW_CHART_INDIVIDUALS, alike, 8);
    drawn d = draw(&request);
    SAME(d.status, DW_E_UNREACHABLE);
    SAME_TEXT(d.err.field, "sigma");
    free(d.block);
    request = asked(DW_CHART_INDIVIDUALS, alike, 1);
    d = draw(&request);
    SAME(d.status, DW_E_RANGE);
    SAME_TEXT(d.err.field, "values");
    free(d.block);
    request = asked(DW_CHART_EWMA, alike, 8);
    request.has_rules = true;
    request.rules = (dw_chart_rules){.beyond = true, .rising = 6};
    d = draw(&request);
    SAME(d.status, DW_E_CONFLICT);
    SAME_TEXT(d.err.field, "rules");
    free(d.block);
    request = asked(DW_CHART_INDIVIDUALS, alike, 8);
    request.baseline_count = 1;
    d = draw(&request);
    SAME(d.status, DW_E_RANGE);
    SAME_TEXT(d.err.field, "baseline_count");
    free(d.block);
}
