/* The plan of the next days: 14 days, 8 ball sizes, 3 formulas, 2 mixers, with
 * the risk of demand. The first plan of our own search against the best known
 * (the best of a long search and of the solver), the solver's bound and gap at
 * 20 s, 7 days at 10 s, replanning after a mixer's death, and many shops. */
#include "doughwright/week.h"

#include "solve/solve.h"
#include "week_shop.h"

#include <stdio.h>
#include <time.h>

enum { SEEDS = 3, SHOPS = 1000 };

static unsigned char room[DW_WEEK_BYTES], shop_room[WEEK_SHOP_BYTES];

static double seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + (double)now.tv_nsec * 1e-9;
}

static dw_week_request shop(unsigned long long seed, int64_t days,
                            size_t products)
{
    dw_arena arena;
    dw_arena_init(&arena, shop_room, sizeof shop_room);
    return week_shop(seed, days, products, 3, 2, &arena);
}

typedef struct told {
    double took, cost, bound, gap_percent;
    size_t changes;
} told;

static told plan(const dw_week_request *ask)
{
    dw_arena arena;
    dw_week_reply reply;
    double start = seconds();
    dw_arena_init(&arena, room, sizeof room);
    if (dw_week_plan(ask, dw_solve_apart(), NULL, &arena, NULL, &reply) !=
        DW_OK)
        return (told){0};
    return (told){seconds() - start, reply.cost, reply.bound_cost,
                  reply.gap_percent, reply.changes_count};
}

static void fortnight(unsigned long long seed)
{
    dw_week_request ask = shop(seed, 14, 8);
    told first = plan(&ask);
    ask.effort = 100000;
    told longer = plan(&ask);
    ask.effort = 20000;
    ask.seconds = 18;
    told solved = plan(&ask);
    double best = longer.cost < solved.cost ? longer.cost : solved.cost;
    best = best < first.cost ? best : first.cost;
    printf("{\"bench\":\"week\",\"what\":\"14 days\",\"seed\":%llu,"
           "\"first_s\":%.2f,\"first_over_best_percent\":%.2f,"
           "\"solver_s\":%.1f,\"solver_over_best_percent\":%.2f,"
           "\"proved_gap_percent\":%.2f}\n",
           seed, first.took, 100 * (first.cost / best - 1), solved.took,
           100 * (solved.cost / best - 1), 100 * (best - solved.bound) / best);
}

static void week_proved(unsigned long long seed)
{
    dw_week_request ask = shop(seed, 7, 8);
    ask.seconds = 9;
    ask.effort = 10000;
    told t = plan(&ask);
    printf("{\"bench\":\"week\",\"what\":\"7 days\",\"seed\":%llu,\"s\":%.1f,"
           "\"proved_gap_percent\":%.2f}\n",
           seed, t.took, t.gap_percent);
}

/* The larger mixer is dead for three days. */
static void replan(unsigned long long seed)
{
    dw_week_request ask = shop(seed, 14, 8);
    static unsigned char kept[DW_WEEK_BYTES];
    dw_arena arena;
    dw_week_reply before;
    dw_arena_init(&arena, kept, sizeof kept);
    if (dw_week_plan(&ask, NULL, NULL, &arena, NULL, &before) != DW_OK)
        return;
    ask.before = before.batches;
    ask.before_count = before.batches_count;
    ask.change_cost = 500;
    for (int t = 0; t < 3; t++)
        ask.mixers[0].minutes[t] = 0;
    told t = plan(&ask);
    printf("{\"bench\":\"week\",\"what\":\"replan\",\"seed\":%llu,\"s\":%.2f,"
           "\"changes\":%zu}\n",
           seed, t.took, t.changes);
}

/* As large as the demo's: seven sizes. */
static void many(int shops)
{
    double start = seconds();
    for (int i = 0; i < shops; i++) {
        dw_week_request ask = shop((unsigned long long)i + 1, 14, 7);
        ask.effort = 1000;
        plan(&ask);
    }
    printf("{\"bench\":\"week\",\"what\":\"shops\",\"shops\":%d,"
           "\"per_second\":%.1f}\n",
           shops, shops / (seconds() - start));
}

int main(void)
{
    for (unsigned long long seed = 1; seed <= SEEDS; seed++) {
        fortnight(seed);
        week_proved(seed);
        replan(seed);
    }
    many(SHOPS / 10);
    many(SHOPS);
    return 0;
}
