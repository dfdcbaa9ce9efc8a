#include "doughwright/week.h"

#include "dw_test.h"
#include "week_cases.h"
#include "week_replay.h"
#include "week_shop.h"

#include <stdlib.h>

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
    return week_shop(seed, days, 6, 2, 2, &arena);
}

TEST(lot_sizes_of_the_books_are_found_by_our_own_search, PUBLISHED,
     "Wagner and Whitin 1958 table 1: 864; Snyder and Shen 3.9: 1380; and "
     "recomputed by exact dynamic programs, tests/data/lot_sizing_cases.csv")
{
    static week_case cases[WEEK_CASES];
    int n = week_cases(dw_test_data("lot_sizing_cases.csv"), cases);
    SAME(n, WEEK_CASES);
    for (int i = 0; i < n; i++) {
        dw_arena arena = fresh();
        dw_week_reply reply;
        NEED(dw_week_plan(&cases[i].ask, NULL, NULL, &arena, NULL, &reply) ==
             DW_OK);
        /* the tightest of them is left to the solver (tests/app) */
        double within = strcmp(cases[i].name, "capacitated C=100") ? 0 : 0.01;
        NEAR(reply.cost, cases[i].best, cases[i].best * within + 1e-6);
        CHECK(reply.bound_cost <= cases[i].best + 1e-6);
    }
}

/* ---- tiny instances, every plan looked at -------------------------------- */

enum { DAYS = 3, MOST = 6, PLANS = (MOST + 1) * (MOST + 1) * (MOST + 1) };

typedef struct tiny {
    dw_week_request ask;
    dw_week_mixer mixer;
    dw_week_bowl bowl;
    dw_week_formula formula;
    dw_week_product products[2];
    dw_week_wanted wanted[2][DAYS];
    int64_t counts[2][DAYS][3];
    double chances[3];
    double minutes[DAYS];
    dw_week_stock stock;
} tiny;

static int some(unsigned long long *seed, int low, int high)
{
    return low +
           (int)(dw_test_bits(seed) % (unsigned long long)(high - low + 1));
}

static void set_tiny(tiny *s, unsigned long long seed)
{
    static const char *const names[] = {"small", "large"};
    memset(s, 0, sizeof *s);
    dw_shape_preset(&dw_week_request_shape, &s->ask);
    s->chances[0] = 0.25;
    s->chances[1] = 0.5;
    s->chances[2] = 0.25;
    s->mixer = (dw_week_mixer){"mixer", s->minutes, DAYS};
    s->bowl = (dw_week_bowl){"mixer", some(&seed, 0, 2), some(&seed, 4, 7), 1};
    s->formula = (dw_week_formula){.name = "dough",
                                   .bowls = &s->bowl,
                                   .bowls_count = 1,
                                   .start_cost = some(&seed, 0, 9)};
    for (int i = 0; i < 2; i++) {
        int64_t earliest = some(&seed, 0, 1);
        s->products[i] =
            (dw_week_product){.name = names[i],
                              .formula = "dough",
                              .ball_kg = i + 1,
                              .earliest_days = earliest,
                              .latest_days = earliest + some(&seed, 0, 2),
                              .lost_cost = some(&seed, 5, 30),
                              .thrown_cost = some(&seed, 0, 4),
                              .holding_cost = some(&seed, 0, 2) / 2.0,
                              .wanted = s->wanted[i],
                              .wanted_count = DAYS};
        for (int t = 0; t < DAYS; t++) {
            int base = some(&seed, 0, 3 - i);
            for (int k = 0; k < 3; k++)
                s->counts[i][t][k] = base + k * some(&seed, 0, 1);
            s->wanted[i][t] = (dw_week_wanted){.counts = s->counts[i][t],
                                               .chances = s->chances,
                                               .counts_count = 3,
                                               .chances_count = 3};
        }
    }
    for (int t = 0; t < DAYS; t++)
        s->minutes[t] = some(&seed, 1, 2);
    s->stock = (dw_week_stock){names[some(&seed, 0, 1)], some(&seed, 1, 2),
                               some(&seed, 0, 3)};
    s->ask = (dw_week_request){.days = DAYS,
                               .mixers = &s->mixer,
                               .mixers_count = 1,
                               .formulas = &s->formula,
                               .formulas_count = 1,
                               .products = s->products,
                               .products_count = 2,
                               .stock = &s->stock,
                               .stock_count = 1,
                               .open_factor = 1.44,
                               .balls_per_minute = 4,
                               .effort = 30000};
}

/* Expected cost of one product for every way to make it, all demands. */
static void weigh_ways(const tiny *s, size_t i, double *costs)
{
    const dw_week_product *p = &s->products[i];
    for (int way = 0; way < PLANS; way++) {
        int64_t made[DAYS] = {way % (MOST + 1), way / (MOST + 1) % (MOST + 1),
                              way / (MOST + 1) / (MOST + 1)};
        costs[way] = 0;
        for (int d = 0; d < 27; d++) {
            int pick[DAYS] = {d % 3, d / 3 % 3, d / 9};
            int64_t demand[DAYS];
            double chance = 1;
            for (int t = 0; t < DAYS; t++) {
                demand[t] = s->counts[i][t][pick[t]];
                chance *= s->chances[pick[t]];
            }
            replay r;
            replay_product(&s->ask, i, made, demand, &r);
            costs[way] +=
                chance * (p->lost_cost * r.lost + p->thrown_cost * r.thrown +
                          p->holding_cost * r.held);
        }
    }
}

/* As few batches as hold the balls, of 1 and 2 kg, each at least least_kg. */
static double batches_cost(const tiny *s, int t, int small, int large)
{
    int kg = small + 2 * large, most = (int)s->bowl.most_kg, n = 0;
    if (kg == 0)
        return 0;
    while (n * most < kg || n * (most / 2) < large)
        n++;
    return n > s->minutes[t] || n * s->bowl.least_kg > kg
               ? INFINITY
               : n * s->formula.start_cost;
}

static double least_of_all(const tiny *s)
{
    static double costs[2][PLANS];
    double least = INFINITY;
    weigh_ways(s, 0, costs[0]);
    weigh_ways(s, 1, costs[1]);
    for (int a = 0; a < PLANS; a++)
        for (int b = 0; b < PLANS; b++) {
            double cost = costs[0][a] + costs[1][b];
            int m = MOST + 1;
            if (cost >= least)
                continue;
            cost += batches_cost(s, 0, a % m, b % m) +
                    batches_cost(s, 1, a / m % m, b / m % m) +
                    batches_cost(s, 2, a / m / m, b / m / m);
            least = cost < least ? cost : least;
        }
    return least;
}

TEST(
    two_hundred_tiny_plans_cost_as_little_as_the_best_of_all, DERIVED,
    "every plan of three days, two sizes and up to six balls a day, over every "
    "demand, by a program that ages each ball")
{
    int best = 0;
    for (unsigned long long seed = 1; seed <= 200; seed++) {
        tiny s;
        dw_arena arena = fresh();
        dw_week_reply reply;
        set_tiny(&s, seed * 7919);
        NEED(dw_week_plan(&s.ask, NULL, NULL, &arena, NULL, &reply) == DW_OK);
        double least = least_of_all(&s);
        NEAR(reply.cost, least, 1e-6);
        CHECK(reply.bound_cost <= least + 1e-6);
        best += fabs(reply.cost - least) < 1e-6;
    }
    SAME(best, 200);
}

/* ---- a plan is what it claims -------------------------------------------- */

static int64_t draw(const dw_spread *spread, unsigned long long *seed)
{
    double u = dw_test_between(seed, 0, 1);
    return dw_spread_quantile(spread, u);
}

TEST(a_plan_followed_ball_by_ball_costs_what_it_says, LIMIT,
     "4000 weeks of drawn demand through a program of its own; conservation, "
     "use within the days, no limit broken")
{
    enum { WEEKS = 4000 };
    dw_week_request ask = shop(3, 7);
    dw_arena arena = fresh();
    dw_week_reply plan;
    unsigned long long seed = 42;
    double sum = 0, squares = 0;
    ask.effort = 4000;
    NEED(dw_week_plan(&ask, NULL, NULL, &arena, NULL, &plan) == DW_OK);
    SAME(replay_broken(&ask, &plan), 0);
    int64_t made[6][DW_WEEK_DAYS];
    for (size_t i = 0; i < 6; i++)
        for (int64_t t = 0; t < 7; t++)
            made[i][t] = replay_made(&plan, ask.products[i].name, t);
    for (int w = 0; w < WEEKS; w++) {
        double cost = 0;
        for (size_t i = 0; i < 6; i++) {
            const dw_week_product *p = &ask.products[i];
            int64_t demand[DW_WEEK_DAYS];
            replay r;
            for (int64_t t = 0; t < 7; t++)
                demand[t] = draw(&p->wanted[t].spread, &seed);
            replay_product(&ask, i, made[i], demand, &r);
            SAME(r.early + r.late, 0);
            NEAR(r.made, r.sold + r.thrown + r.left, 0);
            cost += p->lost_cost * r.lost + p->thrown_cost * r.thrown +
                    p->holding_cost * r.held;
        }
        sum += cost;
        squares += cost * cost;
    }
    double mean = sum / WEEKS;
    double error = sqrt((squares / WEEKS - mean * mean) / WEEKS);
    NEAR(plan.cost, mean + replay_making_cost(&ask, &plan), 4 * error);
}

TEST(stock_by_age_and_costs_by_day_add_up, LIMIT, "conservation")
{
    dw_week_request ask = shop(5, 10);
    dw_arena arena = fresh();
    dw_week_reply plan;
    ask.effort = 3000;
    NEED(dw_week_plan(&ask, NULL, NULL, &arena, NULL, &plan) == DW_OK);
    double cost = 0;
    for (size_t t = 0; t < plan.days_count; t++) {
        const dw_week_day_plan *d = &plan.days[t];
        cost += d->lost_cost + d->thrown_cost + d->holding_cost + d->make_cost +
                d->start_cost + d->labour_cost + d->overtime_cost;
        CHECK(d->boxes <= ask.boxes + 1e-6 && d->slots <= ask.slots + 1e-6);
    }
    NEAR(cost, plan.cost, 1e-6 * plan.cost);
    for (size_t i = 0; i < plan.products_count; i++) {
        double there = (double)ask.stock[i].balls;
        for (size_t t = 0; t < plan.days_count; t++) {
            const dw_week_product_day *d = &plan.products[i].days[t];
            double ages = 0;
            for (size_t k = 0; k < d->by_age_count; k++)
                ages += d->by_age[k];
            NEAR(ages, d->left, 1e-6);
            there += (double)d->made - (d->wanted - d->lost) - d->thrown;
            NEAR(there, d->left, 1e-6);
        }
    }
}

/* ---- wishes -------------------------------------------------------------- */

static double cost_of(const dw_week_request *ask)
{
    dw_arena arena = fresh();
    dw_week_reply reply = {.cost = NAN};
    SAME(dw_week_plan(ask, NULL, NULL, &arena, NULL, &reply), DW_OK);
    return reply.cost;
}

TEST(more_room_never_costs_more_where_every_plan_was_the_best, LIMIT,
     "monotony, on tiny instances")
{
    for (unsigned long long seed = 1; seed <= 40; seed++) {
        tiny s;
        set_tiny(&s, seed * 104729);
        double before = cost_of(&s.ask);
        for (int t = 0; t < DAYS; t++)
            s.minutes[t]++;
        CHECK(cost_of(&s.ask) <= before + 1e-6);
        s.bowl.least_kg = 0;
        s.bowl.most_kg++;
        CHECK(cost_of(&s.ask) <= before + 1e-6);
    }
}

TEST(what_is_mixed_stays_and_a_locked_day_gets_nothing_new, DERIVED, "as asked")
{
    dw_week_request ask = shop(7, 7);
    dw_week_piece piece = {ask.products[0].name, 60};
    dw_week_batch mixed = {.day = 0,
                           .formula = ask.products[0].formula,
                           .mixer = ask.mixers[0].name,
                           .dough_kg = 14,
                           .pieces = &piece,
                           .pieces_count = 1};
    dw_arena arena = fresh();
    dw_week_reply plan;
    ask.fixed = &mixed;
    ask.fixed_count = 1;
    ask.each_day[0].locked = ask.each_day[2].locked = true;
    ask.effort = 3000;
    NEED(dw_week_plan(&ask, NULL, NULL, &arena, NULL, &plan) == DW_OK);
    SAME(replay_broken(&ask, &plan), 0);
    CHECK(plan.batches[0].fixed && plan.batches[0].pieces[0].balls == 60);
    SAME(plan.products[0].days[0].made, 60);
    for (size_t b = 1; b < plan.batches_count; b++)
        CHECK(plan.batches[b].day != 0 && plan.batches[b].day != 2);
}

TEST(a_new_plan_after_a_surprise_changes_little_when_changes_cost, LIMIT,
     "the same request with its own plan as before: nothing changes")
{
    dw_week_request ask = shop(11, 7);
    dw_arena arena = fresh();
    dw_week_reply plan, again;
    ask.effort = 6000;
    NEED(dw_week_plan(&ask, NULL, NULL, &arena, NULL, &plan) == DW_OK);
    ask.before = plan.batches;
    ask.before_count = plan.batches_count;
    ask.change_cost = 5000;
    NEED(dw_week_plan(&ask, NULL, NULL, &arena, NULL, &again) == DW_OK);
    for (size_t i = 0; i < again.changes_count; i++)
        CHECK(again.changes[i].kind == DW_WEEK_MORE ||
              again.changes[i].kind == DW_WEEK_FEWER);
    NEAR(again.change_cost, 0, 0);
    for (int64_t t = 1; t < 4; t++)
        ask.mixers[0].minutes[t] = 0;
    NEED(dw_week_plan(&ask, NULL, NULL, &arena, NULL, &again) == DW_OK);
    CHECK(again.changes_count > 0);
    SAME(replay_broken(&ask, &again), 0);
}

static bool says(const dw_week_reply *reply, const char *code)
{
    for (size_t i = 0; i < reply->notes_count; i++)
        if (dw_text_is(reply->notes[i].code, code))
            return true;
    return false;
}

TEST(what_cannot_be_made_is_said_with_its_reason_and_the_rest_is_planned,
     DERIVED, "one mixer of 60 minutes for demand of 300 a day")
{
    dw_week_request ask = shop(13, 7);
    dw_arena arena = fresh();
    dw_week_reply plan;
    ask.effort = 3000;
    ask.stock_count = 0;
    for (int64_t t = 0; t < 7; t++) {
        ask.mixers[0].minutes[t] = 60;
        ask.mixers[1].minutes[t] = 0;
    }
    NEED(dw_week_plan(&ask, NULL, NULL, &arena, NULL, &plan) == DW_OK);
    CHECK(says(&plan, "short_mixer") && says(&plan, "short_too_late"));
    CHECK(plan.batches_count > 0 && plan.bound_cost <= plan.cost);
    SAME(replay_broken(&ask, &plan), 0);
}

TEST(what_more_of_a_limit_is_worth_is_never_below_nought, LIMIT, "monotony")
{
    dw_week_request ask = shop(17, 7);
    dw_arena arena = fresh();
    dw_week_reply plan;
    ask.effort = 3000;
    ask.worths = true;
    ask.slots = 60;
    NEED(dw_week_plan(&ask, NULL, NULL, &arena, NULL, &plan) == DW_OK);
    bool slots = false;
    for (size_t i = 0; i < plan.limits_count; i++) {
        CHECK(plan.limits[i].saves >= 0 && plan.limits[i].days_count > 0);
        slots = slots || (dw_text_is(plan.limits[i].limit, "slots") &&
                          plan.limits[i].saves > 0);
    }
    CHECK(slots);
}

TEST(a_plan_asked_wrongly_is_refused_with_the_field, DERIVED, "as documented")
{
    dw_week_request ask = shop(19, 7);
    dw_arena arena = fresh();
    dw_week_reply plan;
    dw_err err;
    ask.products[1].formula = "nothing";
    SAME(dw_week_plan(&ask, NULL, NULL, &arena, &err, &plan), DW_E_NOT_FOUND);
    SAME_TEXT(err.field, "products[1].formula");
    ask = shop(19, 7);
    ask.products[2].wanted_count = 6;
    SAME(dw_week_plan(&ask, NULL, NULL, &arena, &err, &plan), DW_E_RANGE);
    SAME_TEXT(err.field, "products[2].wanted");
    ask = shop(19, 7);
    ask.products[3].name = ask.products[0].name;
    SAME(dw_week_plan(&ask, NULL, NULL, &arena, &err, &plan), DW_E_CONFLICT);
    SAME_TEXT(err.field, "products[3].name");
    ask = shop(19, 7);
    ask.products[0].latest_days = 0;
    SAME(dw_week_plan(&ask, NULL, NULL, &arena, &err, &plan), DW_E_RANGE);
    SAME_TEXT(err.field, "products[0].latest_days");
}
