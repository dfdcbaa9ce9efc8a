/* What becomes of one product's balls: the distribution of R, day by day. */
#include "engine/week.h"

#include <string.h>

/* E(D - have)+ */
static double lost_with(const dw_week__chances *c, int have)
{
    if (have < c->low)
        return c->mean - have;
    return have - c->low >= c->count ? 0 : c->lost[have - c->low];
}

/* R is in low .. high; at[r - low] is its chance. */
typedef struct gone {
    int low, high;
    double *at, *next;
} gone;

/* One r of chance p, carried over the day: r + d, within low .. high. */
static void carry_one(const dw_week__chances *c, double p, int r, int low,
                      int high, double *next)
{
    int from = r + c->low - low, width = high - low;
    double all = p;
    int k = 0;
    if (from < 0)
        for (; k < c->count && from + k < 0; k++) {
            next[0] += p * c->at[k];
            all -= p * c->at[k];
        }
    int end = width - from < c->count ? width - from : c->count;
    double sum = 0;
    for (int j = k; j < end; j++)
        sum += c->at[j];
    double *to = next + from;
    for (int j = k; j < end; j++)
        to[j] += p * c->at[j];
    next[width] += all - p * sum;
}

/* The same on the fewer points; what hardly happens is left out. */
static void carry_few(const dw_week__chances *c, double p, int r, int low,
                      int high, double *next)
{
    int at = r + c->low - low, width = high - low, k = 0;
    if (p < 1e-8)
        return;
    for (; k < c->few_count && at < 0; k++, at += c->few_step)
        next[0] += p * c->few[k];
    for (; k < c->few_count && at < width; k++, at += c->few_step)
        next[at] += p * c->few[k];
    double rest = 0;
    for (; k < c->few_count; k++)
        rest += c->few[k];
    next[width] += p * rest;
}

typedef void carry(const dw_week__chances *c, double p, int r, int low,
                   int high, double *next);

static double mean_of(const gone *g)
{
    double sum = 0;
    for (int i = 0; i <= g->high - g->low; i++)
        sum += g->at[i] * (g->low + i);
    return sum;
}

/* A chance of R below this is passed over. */
#define NEVER 1e-14

static void turn(gone *g, const dw_week__chances *c, int low, int high,
                 carry *over, double *lost, double *thrown)
{
    *lost = *thrown = 0;
    memset(g->next, 0, sizeof(double) * (size_t)(high - low + 1));
    for (int i = 0; i <= g->high - g->low; i++) {
        double p = g->at[i];
        int r = g->low + i;
        if (p < NEVER)
            continue;
        *lost += p * lost_with(c, high - r);
        if (low > r)
            *thrown += p * (low - r - c->mean + lost_with(c, low - r));
        over(c, p, r, low, high, g->next);
    }
    double *spent = g->at;
    g->at = g->next;
    g->next = spent;
    g->low = low;
    g->high = high;
}

typedef struct sums {
    int usable, past, all; /* U, E, made */
} sums;

/* Up to and with day t. */
static void add_day(const dw_week__product *p, const int *made, int t, sums *s)
{
    s->usable += made[DW_WEEK__PAST + t - p->earliest];
    int k = DW_WEEK__PAST + t - p->latest;
    s->past += k >= 0 ? made[k] : 0;
    s->all += made[DW_WEEK__PAST + t];
}

static sums before_first(const dw_week__product *p, const int *made)
{
    sums s = {0, 0, 0};
    for (int k = 0; k < DW_WEEK__PAST; k++) {
        s.usable += k < DW_WEEK__PAST - p->earliest ? made[k] : 0;
        s.all += made[k];
    }
    return s;
}

static double day_costs(const dw_week__product *p, int day, int new_balls,
                        const dw_week__course *c)
{
    double make = p->make_costs ? p->make_costs[day] : 0;
    return p->lost_cost * c->lost[day] + p->thrown_cost * c->thrown[day] +
           p->holding_cost * c->left[day] + make * new_balls;
}

static bool follow(const dw_week__product *p, int days, const int *made,
                   const dw_week__room *room, carry *over,
                   dw_week__course *course)
{
    gone g = {0, 0, room->a, room->b};
    sums s = before_first(p, made);
    double mean = 0;
    g.at[0] = 1;
    course->cost = p->thrown_cost * p->past;
    for (int t = 0; t < days; t++) {
        add_day(p, made, t, &s);
        if (s.usable - s.past > DW_WEEK__SUPPORT)
            return false;
        course->ready[t] = s.usable - mean;
        turn(&g, &p->wanted[t], s.past, s.usable, over, &course->lost[t],
             &course->thrown[t]);
        mean = mean_of(&g);
        course->left[t] = s.all - mean;
        int fresh = made[DW_WEEK__PAST + t] - p->kept[DW_WEEK__PAST + t];
        course->cost += day_costs(p, t, fresh, course);
    }
    return true;
}

bool dw_week__follow(const dw_week__product *p, int days, const int *made,
                     const dw_week__room *room, dw_week__course *course)
{
    return follow(p, days, made, room, carry_one, course);
}

bool dw_week__foresee(const dw_week__product *p, int days, const int *made,
                      const dw_week__room *room, dw_week__course *course)
{
    return follow(p, days, made, room, carry_few, course);
}

/* E max(0, upto - R), capped at `balls`, for the balls up to `upto`. */
static double still_there(const gone *g, int upto, int balls)
{
    double sum = 0;
    for (int i = 0; i <= g->high - g->low; i++) {
        int left = upto - (g->low + i);
        left = left < 0 ? 0 : left > balls ? balls : left;
        sum += g->at[i] * left;
    }
    return sum;
}

void dw_week__ages(const dw_week__product *p, int day, const int *made,
                   const dw_week__room *room, double *by_age)
{
    gone g = {0, 0, room->a, room->b};
    sums s = before_first(p, made);
    double lost, thrown;
    g.at[0] = 1;
    for (int t = 0; t <= day; t++) {
        add_day(p, made, t, &s);
        turn(&g, &p->wanted[t], s.past, s.usable, carry_one, &lost, &thrown);
    }
    int upto = s.all;
    for (int age = 0; age <= p->latest; age++) {
        int k = DW_WEEK__PAST + day - age;
        by_age[age] = k < 0 ? 0 : still_there(&g, upto, made[k]);
        upto -= k < 0 ? 0 : made[k];
    }
}

void dw_week__made(const dw_week__problem *problem, const dw_week__plan *plan,
                   int product, int *made)
{
    memcpy(made, problem->products[product].kept,
           sizeof problem->products[product].kept);
    for (int t = 0; t < problem->days; t++)
        made[DW_WEEK__PAST + t] += plan->made[product][t];
}
