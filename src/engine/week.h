/* Inside the planning of days: the problem in numbers, a plan being worked on,
 * and the parts that judge and better it. See doughwright/week.h. */
#ifndef DW_ENGINE_WEEK_H
#define DW_ENGINE_WEEK_H

#include "doughwright/week.h"

enum {
    DW_WEEK__PAST = DW_WEEK_LIFE, /* days before day 0 that still matter */
    DW_WEEK__MADE = DW_WEEK__PAST + DW_WEEK_DAYS,
    DW_WEEK__OPTIONS = DW_WEEK_MIXERS * (DW_WEEK_SIZES + 1),
    DW_WEEK__COVERS = 10,  /* ways kept to make a formula's dough of a day */
    DW_WEEK__BATCHES = 24, /* most of one formula on one day */
    DW_WEEK__FEW = 24,
    DW_WEEK__SUPPORT = 4096
};

/* The chances of one day's demand: of `low`, low + 1, ... */
typedef struct dw_week__chances {
    int low, count;
    double *at;
    double mean;
    double *lost; /* [k]: E(D - (low + k))+, count + 1 long */
    /* the same on fewer points, low + k * few_step, of the same mean */
    int few_step, few_count;
    double few[DW_WEEK__FEW];
} dw_week__chances;

typedef struct dw_week__product {
    int formula, earliest, latest;
    double kg; /* dough of a ball, loss included */
    double per_box, lost_cost, thrown_cost, holding_cost;
    const double *make_costs; /* by day, or NULL */
    double ball_cost;         /* labour of a ball, within the hours */
    dw_week__chances wanted[DW_WEEK_DAYS];
    int kept[DW_WEEK__MADE]; /* made on day k - PAST, fixed */
    int past;                /* balls past before the first day */
    int there;               /* balls on the eve of the first day */
} dw_week__product;

/* A way to mix one batch: whole sizes hold any dough up to most_kg and cost
 * their spare; odd ones lie within. */
typedef struct dw_week__option {
    int mixer;
    bool whole_size;
    double least_kg, most_kg, minutes;
    double cost; /* beside start cost of the day and labour */
} dw_week__option;

typedef struct dw_week__formula {
    dw_week__option options[DW_WEEK__OPTIONS];
    int options_count;
    const double *start_costs;
    double start_cost, spare_cost_per_kg, hands_minutes, close_minutes;
    int bench_balls; /* 0: not limited */
    int products[DW_WEEK_PRODUCTS], products_count;
} dw_week__formula;

/* A way to make so much dough of a formula on one day. */
typedef struct dw_week__cover {
    short count[DW_WEEK__OPTIONS];
    double cost, spare_kg, kg; /* kg: room */
    int batches;
    double minutes[DW_WEEK_MIXERS];
} dw_week__cover;

typedef struct dw_week__problem {
    const dw_week_request *ask;
    int days, products_count, formulas_count, mixers_count;
    dw_week__product products[DW_WEEK_PRODUCTS];
    dw_week__formula formulas[DW_WEEK_FORMULAS];
    int by_close[DW_WEEK_FORMULAS]; /* formulas, longest to close first */
    bool locked[DW_WEEK_DAYS];
    double hands[DW_WEEK_DAYS], overtime[DW_WEEK_DAYS], window[DW_WEEK_DAYS];
    double minutes[DW_WEEK_MIXERS][DW_WEEK_DAYS]; /* less those of fixed */
    double fixed_minutes[DW_WEEK_MIXERS][DW_WEEK_DAYS];
    double fixed_hands[DW_WEEK_DAYS];
    bool limited[DW_WEEK_MIXERS];
    double boxes, slots; /* INFINITE when not limited */
    bool has_before;
    int before[DW_WEEK_DAYS][DW_WEEK_FORMULAS][DW_WEEK_MIXERS];
    double over_cost; /* of a box or slot beyond the limit */
} dw_week__problem;

#define DW_WEEK__INFINITE 1e30

/* What becomes of one product under a plan, on average. */
typedef struct dw_week__course {
    double cost;
    double lost[DW_WEEK_DAYS], thrown[DW_WEEK_DAYS], left[DW_WEEK_DAYS];
    double ready[DW_WEEK_DAYS];
} dw_week__course;

/* Room for the distribution of R. */
typedef struct dw_week__room {
    double *a, *b; /* SUPPORT + 1 each */
} dw_week__room;

/* A plan and its judgement. */
typedef struct dw_week__plan {
    int made[DW_WEEK_PRODUCTS][DW_WEEK_DAYS]; /* new balls */
    dw_week__course courses[DW_WEEK_PRODUCTS];
    dw_week__cover covers[DW_WEEK_DAYS][DW_WEEK_FORMULAS];
    double day_cost[DW_WEEK_DAYS]; /* batches, labour, changes */
    double over; /* cost of boxes and slots beyond their limits */
    double cost; /* of all; INFINITE when a day cannot be made */
} dw_week__plan;

/* week_problem.c */
dw_status dw_week__pose(const dw_week_request *ask, dw_arena *arena,
                        dw_week__problem *problem, dw_err *err);

/* week_flow.c: (1) and (2) for one product; made is by day from -PAST. False
 * when the stock would be more than SUPPORT balls. */
bool dw_week__follow(const dw_week__product *product, int days, const int *made,
                     const dw_week__room *room, dw_week__course *course);
/* The same, R carried on the fewer points: for trying. */
bool dw_week__foresee(const dw_week__product *product, int days,
                      const int *made, const dw_week__room *room,
                      dw_week__course *course);
/* Left in stock by age after `day`, on average: by_age[0..latest]. */
void dw_week__ages(const dw_week__product *product, int day, const int *made,
                   const dw_week__room *room, double *by_age);
/* All that was and is made of a product: kept and new. */
void dw_week__made(const dw_week__problem *problem, const dw_week__plan *plan,
                   int product, int *made);

/* week_day.c: the ways to make a formula's dough of a day; none: it cannot be
 * made. */
typedef struct dw_week__menu {
    int count, balls;
    dw_week__cover at[DW_WEEK__COVERS]; /* cheapest first */
} dw_week__menu;
void dw_week__menu_of(const dw_week__problem *problem,
                      const dw_week__plan *plan, int day, int formula,
                      dw_week__menu *menu);
/* The cheapest of them together, one of each formula's. Returns the cost of the
 * day, INFINITE when they do not go together. */
double dw_week__choose(const dw_week__problem *problem, int day,
                       const dw_week__menu *const menus[DW_WEEK_FORMULAS],
                       dw_week__cover covers[DW_WEEK_FORMULAS]);
/* Both. */
double dw_week__day(const dw_week__problem *problem, const dw_week__plan *plan,
                    int day, dw_week__cover covers[DW_WEEK_FORMULAS]);

/* week_plan.c: boxes and slots in use on average, the price of those beyond the
 * limits (courses by product), and the whole. */
double dw_week__boxes(const dw_week__problem *problem,
                      const dw_week__plan *plan,
                      const dw_week__course *const *courses, int day);
double dw_week__slots(const dw_week__problem *problem,
                      const dw_week__plan *plan,
                      const dw_week__course *const *courses, int day);
double dw_week__over(const dw_week__problem *problem, const dw_week__plan *plan,
                     const dw_week__course *const *courses);
void dw_week__judge(const dw_week__problem *problem, const dw_week__room *room,
                    dw_week__plan *plan);
/* Its products by dw_week__foresee. */
void dw_week__guess(const dw_week__problem *problem, const dw_week__room *room,
                    dw_week__plan *plan);

/* week_start.c: a first plan. */
void dw_week__start(const dw_week__problem *problem, const dw_week__room *room,
                    dw_week__plan *plan);

/* week_search.c: better it by at most `effort` exchanges. False: stopped. */
bool dw_week__better(const dw_week__problem *problem, const dw_week__room *room,
                     int64_t effort, const dw_week_watch *watch,
                     double bound_cost, dw_arena *arena, dw_week__plan *plan);

/* week_split.c: the balls of a formula's dough of a day into the batches of a
 * cover. Returns SPLIT, a product one of whose balls finds no place, or
 * TOO_LITTLE when a batch stays below its mixer's least. */
enum { DW_WEEK__SPLIT = -1, DW_WEEK__TOO_LITTLE = -2 };
typedef struct dw_week__split {
    int count;
    const dw_week__option *options[DW_WEEK__BATCHES];
    int balls[DW_WEEK__BATCHES][DW_WEEK_PRODUCTS];
    double kg[DW_WEEK__BATCHES]; /* of the balls, loss included */
} dw_week__split;
int dw_week__split_day(const dw_week__problem *problem,
                       const dw_week__plan *plan, int day, int formula,
                       const dw_week__cover *cover, dw_week__split *split);

/* week_bound.c: no plan costs less. */
double dw_week__bound(const dw_week__problem *problem);

/* week_model.c: ask the solver; a plan it found is judged and bettered. */
dw_status dw_week__solve(const dw_week__problem *problem,
                         const dw_week__room *room, const dw_solver *solver,
                         const dw_week_watch *watch, dw_arena *arena,
                         dw_week__plan *plan, double *bound_cost);

/* week_reply.c */
dw_status dw_week__tell(const dw_week__problem *problem,
                        const dw_week__room *room, const dw_week__plan *plan,
                        dw_arena *arena, dw_notes *notes, dw_week_reply *reply);

/* week_limits.c: the note code that tells why balls are short on a day. */
const char *dw_week__why_short(const dw_week__problem *problem,
                               const dw_week_reply *reply, int product,
                               int day);
/* Limits that bind, and what more of each would save. */
dw_status dw_week__limits(const dw_week__problem *problem,
                          const dw_week__room *room, int64_t effort,
                          const dw_week_watch *watch, dw_arena *arena,
                          dw_week__plan *plan, dw_week_reply *reply);

#endif
