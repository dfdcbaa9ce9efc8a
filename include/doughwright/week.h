/* The plan of the next days: which batches of which formula on which day and
 * mixer, cut into which balls, at the least expected cost.
 *
 * Balls of product p made on day k are good for use on days k + earliest_days
 * to k + latest_days. Demand D of a day is uncertain, independent from day to
 * day; balls leave oldest first. Because a plan fixes what is made, one number
 * tells the whole stock of a product: R, how many balls, in the order they were
 * made, have left by sale or age. With U(t) the balls made that may be used on
 * day t or earlier, and E(t) those that are past after day t,
 *     R(t) = max( min( R(t-1) + D(t), U(t) ), E(t) )                    (1)
 *     lost(t)   = max( 0, R(t-1) + D(t) - U(t) )
 *     thrown(t) = max( 0, E(t) - min( R(t-1) + D(t), U(t) ) )
 *     left(t)   = balls made up to t - R(t)
 * so that expected lost, thrown and left balls are computed exactly by carrying
 * the distribution of R from day to day. The cost of a plan is
 *     sum  lost_cost E lost + thrown_cost E thrown + holding_cost E left
 *        + make_cost made + start_cost (and odd_cost) of each batch
 *        + spare_cost of dough nobody needs + labour + overtime + changes  (2)
 * in minor units of money; fractions mean something, they are expectations.
 *
 * Limits. A batch's dough is within least_kg and most_kg of its mixer (the
 * caller derates, doughwright/mixer.h) and its balls within bench_balls.
 * Minutes of each mixer on each day; on each mixer the formulas whose stacks
 * take longest to close come first and
 *     minutes of batches that take at least c to close <= window - c      (3)
 * Minutes of hands: batches * hands_minutes + balls / balls_per_minute, beyond
 * hands_minutes of the day at the price of overtime. Boxes and cold-room slots
 * hold the EXPECTED stock: boxes those left over from the day before and those
 * made (a box that was emptied is washed by the next day), slots the stock of
 * the night, today's balls open and offset (1.44 times the floor).
 *
 * Method. Our own search (week_search.c): a first plan by dynamic programming
 * over days of making for each formula (Wagner and Whitin 1958, with shelf
 * life), then exchanges, each judged by (2) exactly. With a solver
 * (doughwright/solver.h) a mixed-integer model whose cost is never above (2)
 * gives a bound and another plan to start the exchanges from. `bound_cost` is
 * never above the cost of any plan within the limits; docs/models/plan.md.
 *
 * Note codes: short (subject product, value balls lost on average, limit the
 * day, from 1; it is cheaper so), and when a limit is why: short_too_late (no
 * day of the plan can make them in time), short_mixer, short_hands,
 * short_boxes, short_slots; past_stock (subject product, value balls already
 * past), no_room_boxes, no_room_slots (value needed, limit owned), stopped.
 */
#ifndef DOUGHWRIGHT_WEEK_H
#define DOUGHWRIGHT_WEEK_H

#include "doughwright/note.h"
#include "doughwright/solver.h"
#include "doughwright/spread.h"

enum {
    DW_WEEK_DAYS = 21,
    DW_WEEK_LIFE = 21, /* days a ball can be good for */
    DW_WEEK_PRODUCTS = 24,
    DW_WEEK_FORMULAS = 6,
    DW_WEEK_MIXERS = 4,
    DW_WEEK_SIZES = 6,      /* preferred batches of one formula */
    DW_WEEK_BALLS = 20000,  /* of one product in stock at once */
    DW_WEEK_COUNTS = 400,   /* of one day, when its demand is listed */
    DW_WEEK_BATCHES = 1000, /* in one plan */
    DW_WEEK_STOCK = 600
};

typedef struct dw_week_day {
    bool locked; /* nothing new is mixed */
    bool has_hands_minutes, has_window_minutes;
    double hands_minutes;    /* of all people together; absent: not limited */
    double overtime_minutes; /* most beyond it */
    double window_minutes;   /* first mix to the last person's leaving */
} dw_week_day;

typedef struct dw_week_mixer {
    const char *name;
    double *minutes; /* by day; none: not limited */
    size_t minutes_count;
} dw_week_mixer;

/* A formula in a mixer. */
typedef struct dw_week_bowl {
    const char *mixer;
    double least_kg, most_kg; /* of dough in one batch */
    double minutes;           /* of the mixer for one batch */
} dw_week_bowl;

typedef struct dw_week_formula {
    const char *name;
    dw_week_bowl *bowls;
    size_t bowls_count;
    double loss_percent; /* dough that never becomes a ball */
    double *sizes_kg;    /* dough of whole bags and the like; none: any */
    size_t sizes_kg_count;
    double start_cost;   /* start-up and cleaning, each batch */
    double *start_costs; /* by day, instead */
    size_t start_costs_count;
    double odd_cost; /* more, for a batch of none of sizes_kg */
    double
        spare_cost_per_kg; /* dough of a size in sizes_kg not made to balls */
    double hands_minutes;  /* of people for one batch, balls not counted */
    double close_minutes;  /* last box to closed stack */
    int64_t bench_balls;   /* most from one batch; 0: not limited */
} dw_week_formula;

/* How many are wanted on one day: a spread, or the chances of counts. */
typedef struct dw_week_wanted {
    bool has_spread;
    dw_spread spread;
    int64_t *counts; /* one count alone: exactly so many */
    double *chances; /* as many, summing to 1; none for one count */
    size_t counts_count, chances_count;
} dw_week_wanted;

typedef struct dw_week_product {
    const char *name, *formula;
    double ball_kg;
    int64_t earliest_days, latest_days;
    double per_box; /* balls in a box; 0: takes none */
    double lost_cost, thrown_cost;
    double holding_cost; /* of a ball for a night */
    double *make_costs;  /* of a ball, by day; none: 0 */
    size_t make_costs_count;
    dw_week_wanted *wanted; /* one for each day */
    size_t wanted_count;
} dw_week_product;

typedef struct dw_week_stock {
    const char *product;
    int64_t age_days; /* 1: made yesterday */
    int64_t balls;
} dw_week_stock;

typedef struct dw_week_piece {
    const char *product;
    int64_t balls;
} dw_week_piece;

typedef struct dw_week_batch {
    int64_t day; /* from 0 */
    const char *formula, *mixer;
    double dough_kg, spare_kg; /* spare: mixed but not made to balls */
    bool fixed;                /* was mixed or started already */
    dw_week_piece *pieces;
    size_t pieces_count;
} dw_week_batch;

typedef struct dw_week_request {
    int64_t days;
    dw_week_day *each_day; /* one for each, or none */
    size_t each_day_count;
    dw_week_mixer *mixers;
    size_t mixers_count;
    dw_week_formula *formulas;
    size_t formulas_count;
    dw_week_product *products;
    size_t products_count;
    dw_week_stock *stock;
    size_t stock_count;
    dw_week_batch *fixed; /* mixed or started: kept as they are */
    size_t fixed_count;
    dw_week_batch *before; /* the plan as it was; each batch of a formula,
                              mixer and day more or less costs change_cost */
    size_t before_count;
    bool has_boxes, has_slots;
    double boxes, slots;
    double open_factor;
    double balls_per_minute; /* of one pair of hands */
    double labour_cost_per_h, overtime_cost_per_h;
    double change_cost;
    int64_t effort;     /* exchanges tried by our own search */
    double seconds;     /* of the solver at most; 0: without it */
    double gap_percent; /* good enough for the solver */
    bool worths;        /* also say what one more of each limit is worth */
} dw_week_request;

/* ---- what is answered ---------------------------------------------------- */

typedef struct dw_week_product_day {
    int64_t day;
    double wanted;                   /* mean */
    int64_t wanted_low, wanted_high; /* 10 and 90 % */
    int64_t made;
    double ready;              /* usable this day, on average */
    double lost, thrown, left; /* on average; left: in stock for the night */
    double *by_age;            /* left, by age from 0 */
    size_t by_age_count;
} dw_week_product_day;

typedef struct dw_week_product_plan {
    const char *name;
    double lost_to_thrown;  /* lost_cost / thrown_cost; 0 when none is thrown */
    double service_percent; /* of what is wanted */
    dw_week_product_day *days;
    size_t days_count;
} dw_week_product_plan;

typedef struct dw_week_mixer_day {
    const char *mixer;
    double minutes;
    bool has_limit;
    double limit;
} dw_week_mixer_day;

typedef struct dw_week_day_plan {
    int64_t day;
    double lost_cost, thrown_cost, holding_cost, make_cost;
    double start_cost; /* odd sizes and spare dough included */
    double labour_cost, overtime_cost;
    double hands_minutes, overtime_minutes;
    double boxes, slots;
    dw_week_mixer_day *mixers;
    size_t mixers_count;
} dw_week_day_plan;

/* A limit that binds, and what a little more of it would save. */
typedef struct dw_week_limit {
    const char *limit; /* boxes slots hands mixer */
    const char *mixer;
    int64_t *days; /* on which it binds */
    size_t days_count;
    double more;  /* so much more of it (box, slot, minutes each day)... */
    double saves; /* ...saves so much: the same search again, from this plan */
} dw_week_limit;

typedef enum dw_week_change_kind {
    DW_WEEK_ADDED,
    DW_WEEK_DROPPED,
    DW_WEEK_MORE,
    DW_WEEK_FEWER
} dw_week_change_kind;
extern const char *const dw_week_change_words[]; /* added dropped more fewer */
/* Against `before`: a batch, or balls of one product on a day. */
typedef struct dw_week_change {
    int kind; /* dw_week_change_kind */
    int64_t day;
    const char *formula, *mixer, *product;
    int64_t count;       /* batches, or balls */
    const char *message; /* the app's; NULL here */
} dw_week_change;

typedef enum dw_week_bound { DW_WEEK_SIMPLE, DW_WEEK_SOLVER } dw_week_bound;
extern const char *const dw_week_bound_words[]; /* simple solver */

typedef struct dw_week_reply {
    dw_week_batch *batches; /* fixed ones first, then by day */
    size_t batches_count;
    dw_week_product_plan *products;
    size_t products_count;
    dw_week_day_plan *days;
    size_t days_count;
    double cost, bound_cost;
    double gap_percent; /* of cost */
    int bound_by;       /* dw_week_bound */
    double change_cost; /* part of cost */
    dw_week_limit *limits;
    size_t limits_count;
    dw_week_change *changes;
    size_t changes_count;
    dw_note *notes;
    size_t notes_count;
} dw_week_reply;

extern const dw_shape dw_week_batch_shape, dw_week_request_shape,
    dw_week_reply_shape;

/* Told now and then while planning; false stops it with the best so far. */
typedef struct dw_week_watch {
    bool (*go_on)(void *owner, double cost, double bound_cost);
    void *owner;
} dw_week_watch;

/* Bytes of arena that are enough for any request that passes its checks. */
#define DW_WEEK_BYTES ((size_t)30 << 20)

/* `solver` and `watch` may be NULL; borrowed. Fails with DW_E_NOT_FOUND
 * (products[i].formula and the like name nothing), DW_E_CONFLICT (a name
 * twice), DW_E_SUM (chances), DW_E_RANGE (counts of lists that go by day,
 * last use before first), DW_E_ROOM. The reply lives in the arena; names are
 * borrowed from the request. */
dw_status dw_week_plan(const dw_week_request *request, const dw_solver *solver,
                       const dw_week_watch *watch, dw_arena *arena, dw_err *err,
                       dw_week_reply *reply);

#endif
