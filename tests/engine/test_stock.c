#include "doughwright/stock.h"
#include "dw_csv.h"
#include "dw_test.h"

#include <stdlib.h>

/* ---- the newsvendor ------------------------------------------------------ */

static dw_order_ask order_of(const dw_csv *row)
{
    dw_order_ask ask = {.over_cost = atof(row->cells[2]),
                        .short_cost = atof(row->cells[3])};
    ask.wanted =
        (dw_wanted){.kind = dw_words_find(dw_wanted_words, row->cells[1]),
                    .has_mean = true,
                    .mean = atof(row->cells[4]),
                    .has_sd = row->cells[5][0] != '\0',
                    .sd = atof(row->cells[5])};
    return ask;
}

TEST(every_newsvendor_of_the_books_is_answered, PUBLISHED,
     "Snyder & Shen, Fundamentals of Supply Chain Theory, ex. 4.1, 4.7, pr. "
     "4.8; Nahmias, newsboy; newsvendor_cases.csv")
{
    FILE *file = fopen(dw_test_data("newsvendor_cases.csv"), "r");
    dw_csv row;
    int rows = 0;
    NEED(file && dw_csv_row(file, &row));
    for (; dw_csv_row(file, &row); rows++) {
        dw_order_ask ask = order_of(&row);
        dw_order_reply got;
        SAME(dw_stock_order(&ask, &got, NULL), DW_OK);
        NEAR(got.critical_ratio, atof(row.cells[6]), 1e-9);
        NEAR(got.balls, atof(row.cells[7]), 1e-6);
        NEAR(got.expected_cost, atof(row.cells[8]), 1e-6);
        NEAR(got.expected_over - got.expected_short,
             got.balls -
                 (ask.wanted.kind == DW_WANTED_LOGNORMAL
                      ? exp(ask.wanted.mean + ask.wanted.sd * ask.wanted.sd / 2)
                      : ask.wanted.mean),
             1e-6);
    }
    fclose(file);
    SAME(rows, 6);
}

TEST(the_cost_of_another_number_is_told_too, PUBLISHED,
     "Snyder & Shen, ex. 4.3: 60 instead of 56.6")
{
    dw_order_ask ask = {.wanted = {.kind = DW_WANTED_NORMAL,
                                   .has_mean = true,
                                   .mean = 50,
                                   .has_sd = true,
                                   .sd = 8},
                        .over_cost = 0.18,
                        .short_cost = 0.70,
                        .has_balls = true,
                        .balls = 60};
    dw_order_reply got;
    SAME(dw_stock_order(&ask, &got, NULL), DW_OK);
    NEAR(got.expected_cost, 2.156131552870387, 1e-12);
}

TEST(no_other_number_costs_less, LIMIT, "optimality, by trying them all")
{
    unsigned long long seed = 5;
    for (int round = 0; round < 50; round++) {
        dw_order_ask ask = {.wanted = {.kind = DW_WANTED_POISSON,
                                       .has_mean = true,
                                       .mean = dw_test_between(&seed, 0, 90)},
                            .over_cost = dw_test_between(&seed, 0.05, 5),
                            .short_cost = dw_test_between(&seed, 0.05, 50)};
        dw_order_reply best, other;
        SAME(dw_stock_order(&ask, &best, NULL), DW_OK);
        ask.has_balls = true;
        for (ask.balls = 0; ask.balls < 200; ask.balls++) {
            SAME(dw_stock_order(&ask, &other, NULL), DW_OK);
            CHECK(other.expected_cost >= best.expected_cost - 1e-9);
        }
    }
}

TEST(demand_that_makes_no_sense_is_refused, LIMIT, "bad input")
{
    dw_err err;
    dw_order_reply got = {.balls = -7};
    dw_order_ask ask = {
        .wanted = {.kind = DW_WANTED_NORMAL}, .over_cost = 1, .short_cost = 1};
    SAME(dw_stock_order(&ask, &got, &err), DW_E_MISSING);
    SAME_TEXT(err.field, "wanted.mean");
    ask.wanted.has_mean = true;
    SAME(dw_stock_order(&ask, &got, &err), DW_E_MISSING);
    SAME_TEXT(err.field, "wanted.sd");
    ask.wanted.has_sd = true;
    SAME(dw_stock_order(&ask, &got, &err), DW_E_RANGE);
    SAME_TEXT(err.field, "wanted.sd");
    double half[] = {0.25, 0.25};
    ask.wanted = (dw_wanted){.kind = DW_WANTED_PROBABILITIES,
                             .probabilities = half,
                             .probabilities_count = 2};
    SAME(dw_stock_order(&ask, &got, &err), DW_E_SUM);
    SAME_TEXT(err.field, "wanted.probabilities");
    half[0] = 0.75;
    ask.over_cost = 0;
    SAME(dw_stock_order(&ask, &got, &err), DW_E_RANGE);
    SAME_TEXT(err.field, "over_cost");
    CHECK(got.balls == -7);
}

/* ---- balls that keep ----------------------------------------------------- */

static double chances[] = {.10, .20, .30, .25, .10, .05};

static dw_perishable_ask perishable(int64_t life, int64_t days, int64_t *stock)
{
    return (dw_perishable_ask){.probabilities = chances,
                               .probabilities_count = 6,
                               .life_days = life,
                               .days = days,
                               .stock = stock,
                               .stock_count = (size_t)life - 1,
                               .make_cost = 1,
                               .short_cost = 4,
                               .hold_cost = .05,
                               .waste_cost = 1.5};
}

TEST(every_exact_answer_for_balls_that_keep_is_reproduced, DERIVED,
     "an independent dynamic programme in exact fractions; "
     "perishable_dp_cases.csv")
{
    static unsigned char block[1 << 20];
    FILE *file = fopen(dw_test_data("perishable_dp_cases.csv"), "r");
    dw_csv row;
    int rows = 0;
    NEED(file && dw_csv_row(file, &row));
    for (; dw_csv_row(file, &row); rows++) {
        int64_t stock[4] = {0};
        char *rest = row.cells[2];
        for (size_t i = 0; *rest; i++) {
            stock[i] = strtol(rest, &rest, 10);
            rest += *rest == ';';
        }
        dw_perishable_ask ask =
            perishable(atoi(row.cells[0]), atoi(row.cells[1]), stock);
        dw_perishable_reply got;
        dw_arena arena;
        dw_arena_init(&arena, block, sizeof block);
        SAME(dw_stock_order_perishable(&ask, &arena, &got, NULL), DW_OK);
        SAME(got.order, atoi(row.cells[3]));
        NEAR(got.expected_cost, atof(row.cells[4]), 1e-9);
    }
    fclose(file);
    SAME(rows, 22);
}

TEST(a_ball_that_keeps_a_day_is_the_newsvendor, DERIVED,
     "by hand: 2 balls, 2 + 4 x 0.6 + 1.5 x 0.4 = 5")
{
    static unsigned char block[4096];
    dw_arena arena;
    dw_arena_init(&arena, block, sizeof block);
    dw_perishable_ask ask = perishable(1, 1, NULL);
    dw_perishable_reply got;
    SAME(dw_stock_order_perishable(&ask, &arena, &got, NULL), DW_OK);
    SAME(got.order, 2);
    NEAR(got.expected_cost, 5, 1e-12);
}

TEST(the_order_falls_with_the_stock_at_most_one_for_one, PUBLISHED,
     "Nahmias 1975 and Fries 1975, memory: and most for the freshest stock")
{
    static unsigned char block[1 << 20];
    for (int64_t old = 0; old < 4; old++)
        for (int64_t young = 0; young < 4; young++) {
            int64_t stocks[3][2] = {
                {old, young}, {old + 1, young}, {old, young + 1}};
            int64_t order[3];
            for (int i = 0; i < 3; i++) {
                dw_arena arena;
                dw_arena_init(&arena, block, sizeof block);
                dw_perishable_ask ask = perishable(3, 4, stocks[i]);
                dw_perishable_reply got;
                SAME(dw_stock_order_perishable(&ask, &arena, &got, NULL),
                     DW_OK);
                order[i] = got.order;
            }
            CHECK(order[1] <= order[0] && order[1] >= order[0] - 1);
            CHECK(order[2] <= order[1] && order[2] >= order[0] - 1);
        }
}

TEST(stock_of_the_wrong_length_and_too_many_balls_are_refused, LIMIT,
     "bad input")
{
    static unsigned char block[4096];
    static double many[2001];
    dw_arena arena;
    dw_arena_init(&arena, block, sizeof block);
    int64_t stock[] = {1, 2};
    dw_err err;
    dw_perishable_reply got;
    dw_perishable_ask ask = perishable(3, 2, stock);
    ask.stock_count = 1;
    SAME(dw_stock_order_perishable(&ask, &arena, &got, &err), DW_E_SUM);
    SAME_TEXT(err.field, "stock");
    ask.stock_count = 2;
    many[2000] = 1;
    ask.probabilities = many;
    ask.probabilities_count = DW_COUNT(many);
    SAME(dw_stock_order_perishable(&ask, &arena, &got, &err), DW_E_TOO_LARGE);
    ask = perishable(4, 2, NULL);
    ask.stock_count = 0;
    SAME(dw_stock_order_perishable(&ask, &arena, &got, &err), DW_E_ROOM);
    ask.life_days = 5;
    SAME(dw_stock_order_perishable(&ask, &arena, &got, &err), DW_E_RANGE);
    SAME_TEXT(err.field, "life_days");
}

/* ---- oldest first -------------------------------------------------------- */

TEST(a_day_takes_the_oldest_first_and_leaves_what_is_past, DERIVED,
     "by hand: 10 past, 6 of today, 8 of tomorrow; 9 wanted")
{
    dw_age ages[] = {{.days_left = 2, .balls = 8},
                     {.days_left = 0, .balls = 10},
                     {.days_left = 1, .balls = 6}};
    SAME(dw_stock_use(ages, 3, 9), 0);
    SAME(ages[0].used, 0);
    SAME(ages[0].wasted, 10);
    SAME(ages[1].used, 6);
    SAME(ages[1].wasted, 0);
    SAME(ages[2].used, 3);
    SAME(ages[2].left, 5);
    SAME(dw_stock_use(ages, 3, 20), 6);
}

TEST(no_ball_is_lost_or_found_on_the_way, LIMIT, "conservation")
{
    unsigned long long seed = 11;
    for (int round = 0; round < 1000; round++) {
        dw_age ages[5];
        int64_t wanted = (int64_t)dw_test_between(&seed, 0, 60), served = 0;
        for (int i = 0; i < 5; i++)
            ages[i] =
                (dw_age){.days_left = (int64_t)dw_test_between(&seed, 0, 5),
                         .balls = (int64_t)dw_test_between(&seed, 0, 20)};
        int64_t unserved = dw_stock_use(ages, 5, wanted);
        for (int i = 0; i < 5; i++) {
            SAME(ages[i].used + ages[i].wasted + ages[i].left, ages[i].balls);
            CHECK(i == 0 || ages[i].used == 0 || ages[i - 1].left == 0);
            served += ages[i].used;
        }
        SAME(served + unserved, wanted);
    }
}
