/* A first plan: for each formula by itself, on which days to make it, by
 * dynamic programming (Wagner and Whitin 1958) over targets that hold the risk;
 * then cut to what a day can make. */
#include "engine/week.h"

#include <math.h>
#include <string.h>

typedef struct aims {
    double mean[DW_WEEK_PRODUCTS][DW_WEEK_DAYS]; /* what stock does not serve */
    double variance[DW_WEEK_PRODUCTS][DW_WEEK_DAYS];
    double deviations[DW_WEEK_PRODUCTS]; /* above the mean to be made */
} aims;

static double variance_of(const dw_week__chances *c)
{
    double sum = 0;
    for (int k = 0; k < c->count; k++)
        sum += c->at[k] * (c->low + k - c->mean) * (c->low + k - c->mean);
    return sum;
}

static int enough_for(const dw_week__chances *c, double share)
{
    double sum = 0;
    int k = 0;
    for (; k < c->count - 1; k++) {
        sum += c->at[k];
        if (sum >= share)
            break;
    }
    return c->low + k;
}

/* The newsvendor's ratio, in standard deviations of the first day that has
 * any. */
static double deviations_of(const dw_week__product *p, int days)
{
    double share = p->lost_cost + p->thrown_cost > 0
                       ? p->lost_cost / (p->lost_cost + p->thrown_cost)
                       : 0;
    share = share > 0.98 ? 0.98 : share;
    for (int t = 0; t < days; t++) {
        double variance = variance_of(&p->wanted[t]);
        if (variance > 1e-9)
            return (enough_for(&p->wanted[t], share) - p->wanted[t].mean) /
                   sqrt(variance);
    }
    return 0;
}

/* Oldest first, at the mean: what kept balls do not serve. */
static void take_aim(const dw_week__product *p, int days, double *mean,
                     double *variance)
{
    double kept[DW_WEEK__MADE];
    for (int k = 0; k < DW_WEEK__MADE; k++)
        kept[k] = p->kept[k];
    for (int t = 0; t < days; t++) {
        double need = p->wanted[t].mean;
        int first = DW_WEEK__PAST + t - p->latest;
        for (int k = first > 0 ? first : 0;
             k <= DW_WEEK__PAST + t - p->earliest; k++) {
            double take = kept[k] < need ? kept[k] : need;
            kept[k] -= take;
            need -= take;
        }
        mean[t] = need;
        variance[t] = p->wanted[t].mean > 0 ? variance_of(&p->wanted[t]) *
                                                  need / p->wanted[t].mean
                                            : 0;
    }
}

typedef struct desk {
    const dw_week__problem *problem;
    const dw_week__formula *formula;
    const aims *aim;
    double most_kg; /* of a batch */
} desk;

/* Balls of product i made on day t to serve until the next making, day `next`.
 * What it does not reach is lost. */
static int balls_for(const desk *d, int i, int t, int next, double *cost)
{
    const dw_week__problem *p = d->problem;
    const dw_week__product *one = &p->products[i];
    double mean = 0, variance = 0;
    int end = next + one->earliest < p->days ? next + one->earliest : p->days;
    for (int u = t + one->earliest; u < end; u++) {
        double need = d->aim->mean[i][u];
        if (u - t > one->latest) {
            *cost += need * one->lost_cost;
            continue;
        }
        mean += need;
        variance += d->aim->variance[i][u];
        *cost += need * (u - t) * one->holding_cost;
    }
    if (mean < 0.5)
        return 0;
    return (int)(mean + d->aim->deviations[i] * sqrt(variance) + 0.5);
}

static double block_cost(const desk *d, int t, int next)
{
    const dw_week__problem *p = d->problem;
    const dw_week__formula *f = d->formula;
    double cost = 0, kg = 0;
    int balls = 0;
    for (int j = 0; j < f->products_count; j++) {
        int i = f->products[j];
        int n = balls_for(d, i, t, next, &cost);
        const dw_week__product *one = &p->products[i];
        kg += n * one->kg;
        balls += n;
        cost +=
            n * (one->ball_cost + (one->make_costs ? one->make_costs[t] : 0));
    }
    double batches = ceil(kg / d->most_kg - 1e-9);
    if (f->bench_balls > 0 && batches * f->bench_balls < balls)
        batches = ceil((double)balls / f->bench_balls);
    double start = f->start_costs ? f->start_costs[t] : f->start_cost;
    return cost + batches * (start +
                             f->hands_minutes * p->ask->labour_cost_per_h / 60);
}

/* Before the first making only stock serves. */
static double nothing_cost(const desk *d, int next)
{
    const dw_week__problem *p = d->problem;
    double cost = 0;
    for (int j = 0; j < d->formula->products_count; j++) {
        const dw_week__product *one = &p->products[d->formula->products[j]];
        int end =
            next + one->earliest < p->days ? next + one->earliest : p->days;
        for (int u = 0; u < end; u++)
            cost += d->aim->mean[d->formula->products[j]][u] * one->lost_cost;
    }
    return cost;
}

/* least[t]: days before t are settled, day t is one of making. */
static void choose_days(const desk *d, int *next_of, int *first)
{
    const dw_week__problem *p = d->problem;
    double least[DW_WEEK_DAYS + 1];
    least[p->days] = 0;
    for (int t = p->days - 1; t >= 0; t--) {
        least[t] = DW_WEEK__INFINITE;
        next_of[t] = p->days;
        if (p->locked[t])
            continue;
        for (int next = t + 1; next <= p->days; next++) {
            double cost = block_cost(d, t, next) + least[next];
            if (cost < least[t]) {
                least[t] = cost;
                next_of[t] = next;
            }
        }
    }
    *first = p->days;
    double best = nothing_cost(d, p->days);
    for (int t = 0; t < p->days; t++) {
        double cost = nothing_cost(d, t) + least[t];
        if (cost < best) {
            best = cost;
            *first = t;
        }
    }
}

static void start_formula(const dw_week__problem *p, int f, const aims *aim,
                          dw_week__plan *plan)
{
    desk d = {p, &p->formulas[f], aim, 0};
    int next_of[DW_WEEK_DAYS] = {0}, t;
    for (int o = 0; o < d.formula->options_count; o++)
        if (d.formula->options[o].most_kg > d.most_kg)
            d.most_kg = d.formula->options[o].most_kg;
    choose_days(&d, next_of, &t);
    for (; t < p->days; t = next_of[t])
        for (int j = 0; j < d.formula->products_count; j++) {
            double cost = 0;
            int i = d.formula->products[j];
            plan->made[i][t] = balls_for(&d, i, t, next_of[t], &cost);
        }
}

/* A little dough is less than any mixer takes: make more of it, as wanted. */
static void raise_to_least(const dw_week__problem *p, int t,
                           dw_week__plan *plan)
{
    for (int f = 0; f < p->formulas_count; f++) {
        const dw_week__formula *formula = &p->formulas[f];
        double kg = 0, least = DW_WEEK__INFINITE;
        for (int j = 0; j < formula->products_count; j++)
            kg += plan->made[formula->products[j]][t] *
                  p->products[formula->products[j]].kg;
        for (int o = 0; o < formula->options_count; o++)
            if (formula->options[o].least_kg < least)
                least = formula->options[o].least_kg;
        for (int j = 0; kg > 0 && kg < least && j < formula->products_count;
             j++) {
            int i = formula->products[j];
            plan->made[i][t] = (int)ceil(plan->made[i][t] * (least / kg));
        }
    }
}

static void cut_day(const dw_week__problem *p, int t, dw_week__plan *plan)
{
    dw_week__cover covers[DW_WEEK_FORMULAS];
    int whole[DW_WEEK_PRODUCTS];
    for (int i = 0; i < p->products_count; i++)
        whole[i] = plan->made[i][t];
    for (int part = 20; part >= 0; part--) {
        for (int i = 0; i < p->products_count; i++)
            plan->made[i][t] = whole[i] * part / 20;
        if (dw_week__day(p, plan, t, covers) < DW_WEEK__INFINITE)
            return;
    }
}

void dw_week__start(const dw_week__problem *p, const dw_week__room *room,
                    dw_week__plan *plan)
{
    aims aim;
    memset(plan->made, 0, sizeof plan->made);
    for (int i = 0; i < p->products_count; i++) {
        take_aim(&p->products[i], p->days, aim.mean[i], aim.variance[i]);
        aim.deviations[i] = deviations_of(&p->products[i], p->days);
    }
    for (int f = 0; f < p->formulas_count; f++)
        start_formula(p, f, &aim, plan);
    for (int t = 0; t < p->days; t++) {
        raise_to_least(p, t, plan);
        cut_day(p, t, plan);
    }
    dw_week__judge(p, room, plan);
}
