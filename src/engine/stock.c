#include "doughwright/stock.h"

#include "doughwright/say.h"
#include "engine/normal.h"

#include <math.h>
#include <stdlib.h>

/* ---- what is wanted ------------------------------------------------------ */

static dw_status check_probabilities(const double *list, size_t count,
                                     dw_err *err)
{
    double sum = 0;
    if (count == 0)
        return dw_fail(err, DW_E_MISSING, "probabilities", NULL);
    for (size_t i = 0; i < count; i++) {
        if (!(list[i] >= 0 && list[i] <= 1))
            return dw_fail_range(err, "probabilities", list[i], 0, 1);
        sum += list[i];
    }
    if (fabs(sum - 1) <= 1e-9)
        return DW_OK;
    char text[40];
    dw_text_number(text, sizeof text, sum, 12);
    return dw_fail_says(err, DW_E_SUM, "probabilities", text,
                        DW_MSG("must sum to 1"));
}

static dw_status check_wanted(const dw_wanted *wanted, dw_err *err)
{
    int kind = wanted->kind;
    if (kind == DW_WANTED_PROBABILITIES)
        return check_probabilities(wanted->probabilities,
                                   wanted->probabilities_count, err);
    if (!wanted->has_mean)
        return dw_fail(err, DW_E_MISSING, "mean", NULL);
    bool log_mean = kind == DW_WANTED_LOGNORMAL;
    DW_TRY(dw_check_range(err, "mean", wanted->mean, log_mean ? -12 : 0,
                          log_mean ? 12 : 1e5));
    if (kind == DW_WANTED_POISSON)
        return DW_OK;
    if (!wanted->has_sd)
        return dw_fail(err, DW_E_MISSING, "sd", NULL);
    return dw_check_range(err, "sd", wanted->sd, 1e-9, log_mean ? 5 : 1e5);
}

/* ---- cost of having so many ---------------------------------------------- */

static void expect_normal(const dw_wanted *wanted, dw_order_reply *out)
{
    double z = (out->balls - wanted->mean) / wanted->sd;
    out->enough = dw_normal_below(z);
    out->expected_short =
        wanted->sd * (dw_normal_density(z) - z * dw_normal_above(z));
    out->expected_over =
        wanted->sd * (dw_normal_density(z) + z * dw_normal_below(z));
}

static void expect_lognormal(const dw_wanted *wanted, dw_order_reply *out)
{
    double sd = wanted->sd;
    double z =
        out->balls > 0 ? (log(out->balls) - wanted->mean) / sd : -HUGE_VAL;
    double mean = exp(wanted->mean + sd * sd / 2);
    out->enough = dw_normal_below(z);
    out->expected_short =
        mean * dw_normal_above(z - sd) - out->balls * dw_normal_above(z);
    out->expected_over =
        out->balls * dw_normal_below(z) - mean * dw_normal_below(z - sd);
}

/* P(D = n), walked from n = 0; by logarithms, for a large mean's P(0) is none.
 */
static double mass(const dw_wanted *wanted, size_t n)
{
    if (wanted->kind == DW_WANTED_PROBABILITIES)
        return n < wanted->probabilities_count ? wanted->probabilities[n] : 0;
    double mean = wanted->mean, balls = (double)n;
    if (mean <= 0)
        return n == 0;
    return exp(balls * log(mean) - mean - lgamma(balls + 1));
}

static double mean_of(const dw_wanted *wanted)
{
    if (wanted->kind == DW_WANTED_POISSON)
        return wanted->mean;
    double mean = 0;
    for (size_t n = 0; n < wanted->probabilities_count; n++)
        mean += (double)n * wanted->probabilities[n];
    return mean;
}

static void expect_counts(const dw_wanted *wanted, dw_order_reply *out)
{
    double over = 0, enough = 0;
    for (size_t n = 0; (double)n <= out->balls; n++) {
        double share = mass(wanted, n);
        enough += share;
        over += share * (out->balls - (double)n);
    }
    out->enough = fmin(enough, 1);
    out->expected_over = over;
    out->expected_short = fmax(0, mean_of(wanted) - out->balls + over);
}

static double fewest_enough(const dw_wanted *wanted, double ratio)
{
    size_t most = wanted->kind == DW_WANTED_PROBABILITIES
                      ? wanted->probabilities_count - 1
                      : (size_t)(wanted->mean + 40 * sqrt(wanted->mean) + 60);
    double enough = 0;
    for (size_t n = 0; n < most; n++) {
        enough += mass(wanted, n);
        /* A sum of rounded parts is not let to miss an exact ratio. */
        if (enough >= ratio - 1e-12)
            return (double)n;
    }
    return (double)most;
}

static double best(const dw_wanted *wanted, double ratio)
{
    switch (wanted->kind) {
    case DW_WANTED_NORMAL:
        return wanted->mean + wanted->sd * dw_normal_quantile(ratio);
    case DW_WANTED_LOGNORMAL:
        return exp(wanted->mean + wanted->sd * dw_normal_quantile(ratio));
    default: return fewest_enough(wanted, ratio);
    }
}

dw_status dw_stock_order(const dw_order_ask *ask, dw_order_reply *reply,
                         dw_err *err)
{
    const dw_wanted *wanted = &ask->wanted;
    if (check_wanted(wanted, err) != DW_OK)
        return dw_err_within(err, "wanted");
    DW_TRY(dw_check_range(err, "over_cost", ask->over_cost, 1e-9, 1e12));
    DW_TRY(dw_check_range(err, "short_cost", ask->short_cost, 1e-9, 1e12));
    dw_order_reply out = {.critical_ratio = ask->short_cost /
                                            (ask->short_cost + ask->over_cost)};
    out.balls = ask->has_balls ? ask->balls : best(wanted, out.critical_ratio);
    if (wanted->kind == DW_WANTED_NORMAL)
        expect_normal(wanted, &out);
    else if (wanted->kind == DW_WANTED_LOGNORMAL)
        expect_lognormal(wanted, &out);
    else
        expect_counts(wanted, &out);
    out.expected_cost = ask->over_cost * out.expected_over +
                        ask->short_cost * out.expected_short;
    *reply = out;
    return DW_OK;
}

/* ---- balls that keep ----------------------------------------------------- */

/* The costs to go by state. A state is the balls with 1 .. life - 1 days left,
 * its index written to the base `top` + 1, the oldest last. */
typedef struct perishable {
    const dw_perishable_ask *ask;
    int64_t top; /* most balls of one age that a table knows */
    size_t ages, states;
    const double *after; /* cost to go of the day after; NULL: none follows */
} perishable;

static size_t state_of(const perishable *p, const int64_t *stock)
{
    size_t at = 0;
    for (size_t i = p->ages; i > 0; i--)
        at = at * (size_t)(p->top + 1) + (size_t)stock[i - 1];
    return at;
}

static void stock_of(const perishable *p, size_t at, int64_t *stock)
{
    for (size_t i = 0; i < p->ages; i++) {
        stock[i] = (int64_t)(at % (size_t)(p->top + 1));
        at /= (size_t)(p->top + 1);
    }
}

/* The day's cost and what follows it, `wanted` balls taken oldest first from
 * `stock` and `order` fresh ones. */
static double day_cost(const perishable *p, const int64_t *stock, int64_t order,
                       int64_t wanted)
{
    const dw_perishable_ask *ask = p->ask;
    int64_t next[DW_PERISHABLE_LIFE_MOST] = {0}, kept = 0, wasted = 0;
    for (size_t i = 0; i <= p->ages; i++) {
        int64_t have = i < p->ages ? stock[i] : order;
        int64_t taken = wanted < have ? wanted : have;
        wanted -= taken;
        if (i == 0) {
            wasted = have - taken;
        } else {
            next[i - 1] = have - taken;
            kept += have - taken;
        }
    }
    double cost = ask->short_cost * (double)wanted +
                  ask->waste_cost * (double)wasted +
                  ask->hold_cost * (double)kept;
    return p->after ? cost + p->after[state_of(p, next)] : cost;
}

/* More than every day of a ball's life could take is never made. */
static double best_order(const perishable *p, const int64_t *stock,
                         int64_t *order)
{
    const dw_perishable_ask *ask = p->ask;
    int64_t wanted_most = (int64_t)ask->probabilities_count - 1;
    double least = HUGE_VAL;
    for (int64_t q = 0; q <= wanted_most * ask->life_days; q++) {
        double cost = ask->make_cost * (double)q;
        for (int64_t d = 0; d <= wanted_most; d++)
            if (ask->probabilities[d] > 0)
                cost += ask->probabilities[d] * day_cost(p, stock, q, d);
        /* A tie of rounded sums goes to the smaller order. */
        if (cost < least - 1e-12 * fabs(cost)) {
            least = cost;
            *order = q;
        }
    }
    return least;
}

static dw_status check_perishable(const dw_perishable_ask *ask, dw_err *err)
{
    DW_TRY(
        check_probabilities(ask->probabilities, ask->probabilities_count, err));
    DW_TRY(dw_check_range(err, "life_days", (double)ask->life_days, 1,
                          DW_PERISHABLE_LIFE_MOST));
    DW_TRY(dw_check_range(err, "days", (double)ask->days, 1,
                          DW_PERISHABLE_DAYS_MOST));
    if (ask->stock_count != 0 &&
        (int64_t)ask->stock_count != ask->life_days - 1)
        return dw_fail_says(
            err, DW_E_SUM, "stock", NULL,
            DW_MSG("must have one number for each age, one less than the days "
                   "a ball keeps"));
    for (size_t i = 0; i < ask->stock_count; i++)
        DW_TRY(dw_check_range(err, "stock", (double)ask->stock[i], 0, 1e4));
    return DW_OK;
}

static dw_status size_table(perishable *p, dw_err *err)
{
    const dw_perishable_ask *ask = p->ask;
    double wanted = (double)ask->probabilities_count;
    double states = pow((double)p->top + 1, (double)p->ages);
    double steps = states * wanted * wanted * (double)ask->life_days *
                   (double)(ask->days - 1);
    if (states > 2e6 || steps > 4e9)
        return dw_fail_says(err, DW_E_TOO_LARGE, "probabilities", NULL,
                            DW_MSG("has too many balls for an exact answer; "
                                   "ask in boxes"));
    p->states = (size_t)states;
    return DW_OK;
}

dw_status dw_stock_order_perishable(const dw_perishable_ask *ask,
                                    dw_arena *arena, dw_perishable_reply *reply,
                                    dw_err *err)
{
    DW_TRY(check_perishable(ask, err));
    perishable p = {.ask = ask, .ages = (size_t)(ask->life_days - 1)};
    int64_t stock[DW_PERISHABLE_LIFE_MOST] = {0}, order = 0;
    p.top = ask->life_days * ((int64_t)ask->probabilities_count - 1);
    for (size_t i = 0; i < ask->stock_count; i++) {
        stock[i] = ask->stock[i];
        p.top = stock[i] > p.top ? stock[i] : p.top;
    }
    DW_TRY(size_table(&p, err));
    double *tables[2] = {DW_NEW_ARRAY(arena, double, p.states),
                         DW_NEW_ARRAY(arena, double, p.states)};
    if (!tables[0] || !tables[1])
        return dw_fail(err, DW_E_ROOM, "stock", NULL);
    for (int64_t day = 1; day < ask->days; day++) {
        double *now = tables[day % 2];
        for (size_t at = 0; at < p.states; at++) {
            int64_t from[DW_PERISHABLE_LIFE_MOST] = {0};
            stock_of(&p, at, from);
            now[at] = best_order(&p, from, &order);
        }
        p.after = now;
    }
    double cost = best_order(&p, stock, &order);
    *reply = (dw_perishable_reply){order, cost};
    return DW_OK;
}

/* ---- oldest first -------------------------------------------------------- */

static int by_days_left(const void *a, const void *b)
{
    int64_t left = ((const dw_age *)a)->days_left;
    int64_t right = ((const dw_age *)b)->days_left;
    return (left > right) - (left < right);
}

int64_t dw_stock_use(dw_age *ages, size_t n, int64_t wanted)
{
    qsort(ages, n, sizeof *ages, by_days_left);
    for (size_t i = 0; i < n; i++) {
        dw_age *age = &ages[i];
        age->used = age->days_left < 1    ? 0
                    : wanted < age->balls ? wanted
                                          : age->balls;
        wanted -= age->used;
        int64_t rest = age->balls - age->used;
        age->wasted = age->days_left <= 1 ? rest : 0;
        age->left = rest - age->wasted;
    }
    return wanted;
}
