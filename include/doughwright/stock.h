/* How many balls to have, how many to make, and which go first.
 *
 * Three questions that a par number answers badly: how many for one day when a
 * ball short costs more than a ball over (the newsvendor); how many to make
 * today when balls keep for a few days and some are there already; and what
 * becomes of balls of several ages when a day takes some of them, oldest first.
 * Costs are in one money of the caller's, any unit. Nothing here is rounded to
 * boxes or batches; the plan does that. Equations and the tables they are held
 * against: docs/models/stock.md.
 */
#ifndef DOUGHWRIGHT_STOCK_H
#define DOUGHWRIGHT_STOCK_H

#include "doughwright/field.h"

/* ---- how many are wanted ------------------------------------------------- */

extern const char *const dw_wanted_words[]; /* normal poisson lognormal
                                               probabilities */
typedef enum dw_wanted_kind {
    DW_WANTED_NORMAL,
    DW_WANTED_POISSON,
    DW_WANTED_LOGNORMAL,
    DW_WANTED_PROBABILITIES
} dw_wanted_kind;

/* A day's demand in balls. Of the lognormal, mean and sd are those of its
 * logarithm; of probabilities, those of 0, 1, 2... balls, summing to 1. */
typedef struct dw_wanted {
    int kind; /* dw_wanted_kind */
    bool has_mean, has_sd;
    double mean, sd;
    double *probabilities; /* borrowed */
    size_t probabilities_count;
} dw_wanted;
extern const dw_shape dw_wanted_shape;

/* ---- one day: the newsvendor --------------------------------------------- */

typedef struct dw_order_ask {
    dw_wanted wanted;
    double over_cost;  /* of a ball left over, > 0 */
    double short_cost; /* of a ball short, > 0 */
    bool has_balls;
    double balls; /* cost of having so many, instead of the best */
} dw_order_ask;

typedef struct dw_order_reply {
    double critical_ratio; /* short / (short + over) */
    double balls;          /* whole for poisson and probabilities */
    double expected_cost, expected_over, expected_short;
    double enough; /* probability that they are enough */
} dw_order_reply;
extern const dw_shape dw_order_ask_shape, dw_order_reply_shape;

/* The fewest balls that are enough with the probability of the critical ratio:
 *   F(S) >= p / (p + h),  cost = h E(S - D)+ + p E(D - S)+            (1), (2)
 * (Snyder & Shen, Fundamentals of Supply Chain Theory, ch. 4). DW_E_MISSING
 * for mean or sd that the kind needs, for probabilities; DW_E_RANGE for a mean
 * below 0 or over 1e5 (poisson, or log-mean over 12), sd not above 0,
 * probabilities not in [0, 1]; DW_E_SUM when they do not sum to 1 +- 1e-9. */
dw_status dw_stock_order(const dw_order_ask *ask, dw_order_reply *reply,
                         dw_err *err);

/* ---- balls that keep for some days --------------------------------------- */

enum { DW_PERISHABLE_LIFE_MOST = 4, DW_PERISHABLE_DAYS_MOST = 28 };

typedef struct dw_perishable_ask {
    double *probabilities; /* of 0, 1, 2... wanted in a day; borrowed */
    size_t probabilities_count;
    int64_t life_days; /* days a ball can be used, 1 to 4 */
    int64_t days;      /* days to go, this one included, 1 to 28 */
    int64_t *stock;    /* balls with 1, 2... life_days - 1 days left: oldest
                          first; none or life_days - 1; borrowed */
    size_t stock_count;
    double make_cost, short_cost, hold_cost, waste_cost;
} dw_perishable_ask;

typedef struct dw_perishable_reply {
    int64_t order;
    double expected_cost; /* of all the days to go */
} dw_perishable_reply;
extern const dw_shape dw_perishable_ask_shape, dw_perishable_reply_shape;

/* The order of today that costs least over the days to go, each day's order
 * being chosen anew from what is left: the exact dynamic programme
 *   C_n(x) = min over q of make q + E[short (D - X)+ + waste w + hold r
 *            + C_(n-1)(next x)],   X = q + sum of x                        (3)
 * used oldest first, w what is left of those in their last day, r the rest;
 * what is left after the last day is worth nothing (Nahmias 1975, Fries 1975).
 * The arena needs 16 (K + 1)^(life - 1) bytes, K the greater of life x most
 * wanted and the stock. DW_E_SUM, DW_E_RANGE as above; DW_E_SUM for a stock of
 * another length; DW_E_TOO_LARGE (probabilities) beyond 2e6 states or 4e9
 * steps; DW_E_ROOM. */
dw_status dw_stock_order_perishable(const dw_perishable_ask *ask,
                                    dw_arena *arena, dw_perishable_reply *reply,
                                    dw_err *err);

/* ---- oldest first -------------------------------------------------------- */

/* Balls of one age. */
typedef struct dw_age {
    int64_t days_left; /* today is 1; 0: past, not used */
    int64_t balls;
    int64_t used, wasted, left; /* answered: left and not past tomorrow */
} dw_age;

typedef struct dw_use_ask {
    dw_age *ages;
    size_t ages_count;
    int64_t wanted;
} dw_use_ask;

typedef struct dw_use_reply {
    dw_age *ages; /* in the order they are used */
    size_t ages_count;
    int64_t used, wasted, left, unserved;
} dw_use_reply;
extern const dw_shape dw_use_ask_shape, dw_use_reply_shape;

/* One day takes `wanted` balls, those with fewest days left first. Sorts and
 * fills `ages` in place, n ages. Returns what could not be served. */
int64_t dw_stock_use(dw_age *ages, size_t n, int64_t wanted);

#endif
