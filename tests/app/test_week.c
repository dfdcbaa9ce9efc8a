/* The plan with the solver in a program of its own. */
#include "app/app.h"
#include "doughwright/week.h"
#include "dw_test.h"
#include "solve/solve.h"
#include "week_cases.h"
#include "week_replay.h"
#include "week_shop.h"

#include <dirent.h>

static unsigned char room[DW_WEEK_BYTES];
static unsigned char shop_room[WEEK_SHOP_BYTES];

static dw_arena fresh(void)
{
    dw_arena arena;
    dw_arena_init(&arena, room, sizeof room);
    return arena;
}

static dw_week_request shop(unsigned long long seed, int64_t days)
{
    dw_arena arena;
    dw_arena_init(&arena, shop_room, sizeof shop_room);
    return week_shop(seed, days, 4, 2, 2, &arena);
}

TEST(lot_sizes_of_the_books_are_proved_by_the_solver, PUBLISHED,
     "Wagner and Whitin 1958 table 1: 864; Snyder and Shen 3.9: 1380; and "
     "recomputed by exact dynamic programs, tests/data/lot_sizing_cases.csv")
{
    static week_case cases[WEEK_CASES];
    int n = week_cases(dw_test_data("lot_sizing_cases.csv"), cases);
    SAME(n, WEEK_CASES);
    for (int i = 0; i < n; i++) {
        dw_arena arena = fresh();
        dw_week_reply reply;
        cases[i].ask.seconds = 20;
        cases[i].ask.gap_percent = 0;
        cases[i].ask.effort = 2000;
        NEED(dw_week_plan(&cases[i].ask, dw_solve_apart(), NULL, &arena, NULL,
                          &reply) == DW_OK);
        NEAR(reply.cost, cases[i].best, 1e-6);
        NEAR(reply.bound_cost, cases[i].best, 1e-4 * cases[i].best);
        SAME(reply.bound_by, DW_WEEK_SOLVER);
    }
}

TEST(long_the_solvers_bound_is_closer_and_below_every_plan, LIMIT,
     "the cost of plans of little and of much effort")
{
    for (unsigned long long seed = 1; seed <= 2; seed++) {
        dw_week_request ask = shop(seed, 5);
        dw_arena arena = fresh();
        dw_week_reply plain, solved;
        ask.effort = 500;
        NEED(dw_week_plan(&ask, NULL, NULL, &arena, NULL, &plain) == DW_OK);
        double simple = plain.bound_cost, hasty = plain.cost;
        arena = fresh();
        ask.effort = 6000;
        ask.seconds = 3;
        NEED(dw_week_plan(&ask, dw_solve_apart(), NULL, &arena, NULL,
                          &solved) == DW_OK);
        CHECK(solved.bound_cost > simple);
        CHECK(solved.bound_cost <= solved.cost && solved.cost <= hasty);
        SAME(replay_broken(&ask, &solved), 0);
    }
}

static bool refuse(void *owner, double cost, double bound)
{
    (void)cost;
    (void)bound;
    return ++*(int *)owner < 3;
}

TEST(a_plan_that_is_stopped_is_the_best_so_far_and_says_so, DERIVED, "as asked")
{
    dw_week_request ask = shop(3, 7);
    dw_arena arena = fresh();
    dw_week_reply plan;
    int looks = 0;
    const dw_week_watch watch = {refuse, &looks};
    ask.seconds = 30;
    NEED(dw_week_plan(&ask, dw_solve_apart(), &watch, &arena, NULL, &plan) ==
         DW_OK);
    SAME(looks, 3);
    SAME(replay_broken(&ask, &plan), 0);
    CHECK(plan.notes_count > 0 && dw_text_is(plan.notes[0].code, "stopped"));
}

static int open_files(void)
{
    DIR *folder = opendir("/proc/self/fd");
    int n = 0;
    while (folder && readdir(folder))
        n++;
    if (folder)
        closedir(folder);
    return n;
}

TEST(a_program_without_an_answer_is_told_as_such_and_leaves_nothing_behind,
     DERIVED, "x <= 1 and x >= 2; files that are open before and after")
{
    double cost = 1, low = 2, high = 1, value = 1, x = 0;
    double row_low = 0, row_high = 5;
    bool whole = true;
    int32_t start[] = {0, 1}, column = 0;
    const dw_program program = {.columns = 1,
                                .rows = 1,
                                .cost = &cost,
                                .low = &low,
                                .high = &high,
                                .whole = &whole,
                                .row_low = &row_low,
                                .row_high = &row_high,
                                .row_start = start,
                                .column = &column,
                                .value = &value,
                                .seconds = 5};
    dw_solved solved = {.x = &x};
    int before = open_files();
    dw_solve_apart()->solve(NULL, &program, NULL, NULL, &solved);
    CHECK(!solved.found);
    SAME(open_files(), before);
}
