/* Chance in the model, closer: over days s + 1 .. u a product is lost on the
 * day its balls run out, whichever of them that is, lost over them   >= E
 * max(0, max over j of D(s+1..j) - (U(j) - M(s)))  (12) thrown over them >= E
 * max(0, max over j of (E(j) - M(s)) - D(s+1..j))  (13) for both sides are
 * convex in R(s). They are tighter than (9) and (10), but have no short form:
 * where the model stands, the line that touches (12) has the slope P(j is the
 * last day on which something was lost) for each U(j). Such lines are added
 * wherever what the solver says lies below them. */
#include "engine/week_model.h"

#include <string.h>

enum { DAYS = 6 }; /* of a window */

typedef struct window {
    int product, s, days; /* s + 1 .. s + days */
    double at[DAYS];   /* what the model says of U(j) - M(s) or E(j) - M(s) */
    int point[DAYS];   /* the same in whole balls: where the line touches */
    double mean;       /* E max(...) there */
    double last[DAYS]; /* P(j is the last day of loss) */
} window;

/* A step of the balls there, or of those that are still wanted before the next
 * are past: `more` are added, the day takes its demand, what goes below nought
 * is `short_of` on average, with chance `any`. */
typedef void step(const dw_week__chances *c, int more, int most,
                  const double *from, double *to, double *short_of,
                  double *any);

/* P(D <= k) for k at and above low. */
static double at_most(const dw_week__chances *c, int k)
{
    double sum = 0;
    for (int j = 0; j < c->count && c->low + j <= k; j++)
        sum += c->at[j];
    return sum;
}

static double lost_with(const dw_week__chances *c, int have)
{
    if (have < c->low)
        return c->mean - have;
    return have - c->low >= c->count ? 0 : c->lost[have - c->low];
}

/* y' = (y + more - D)+ */
static void sell(const dw_week__chances *c, int more, int most,
                 const double *from, double *to, double *short_of, double *any)
{
    *short_of = *any = 0;
    for (int y = 0; y <= most; y++) {
        int there = y + more;
        if (from[y] < 1e-12)
            continue;
        *short_of += from[y] * lost_with(c, there);
        *any += from[y] * (1 - at_most(c, there));
        for (int j = 0; j < c->count; j++) {
            int left = there - c->low - j;
            left = left < 0 ? 0 : left > most ? most : left;
            to[left] += from[y] * c->at[j];
        }
    }
}

/* h' = (h - more + D)+: what is sold beyond the balls that are past. */
static void age(const dw_week__chances *c, int more, int most,
                const double *from, double *to, double *short_of, double *any)
{
    *short_of = *any = 0;
    for (int h = 0; h <= most; h++) {
        int past = more - h;
        if (from[h] < 1e-12)
            continue;
        if (past > 0)
            *short_of += from[h] * (past - c->mean + lost_with(c, past));
        *any += from[h] * (past > 0 ? at_most(c, past - 1) : 0);
        for (int j = 0; j < c->count; j++) {
            int beyond = c->low + j - past;
            beyond = beyond < 0 ? 0 : beyond > most ? most : beyond;
            to[beyond] += from[h] * c->at[j];
        }
    }
}

static int more_on(const window *w, int j)
{
    return w->point[j] - (j > 0 ? w->point[j - 1] : 0);
}

/* From nothing after day `from` - 1 of the window to its end. */
typedef struct walk {
    dw_week__model *model;
    const window *w;
    step *one;
    double *now, *next;
    int most;
} walk;

static walk begin_walk(dw_week__model *m, const window *w, step *one, int from)
{
    walk k = {m, w, one, m->scratch, m->scratch_too, 0};
    for (int j = from; j < w->days; j++)
        k.most += more_on(w, j) > 0 ? more_on(w, j) : 0;
    k.most = k.most < DW_WEEK__SUPPORT ? k.most : DW_WEEK__SUPPORT;
    memset(k.now, 0, sizeof *k.now * (size_t)(k.most + 1));
    k.now[0] = 1;
    return k;
}

static void take_step(walk *k, int j, double *short_of, double *any)
{
    const dw_week__product *p = &k->model->problem->products[k->w->product];
    memset(k->next, 0, sizeof *k->next * (size_t)(k->most + 1));
    k->one(&p->wanted[k->w->s + 1 + j], more_on(k->w, j), k->most, k->now,
           k->next, short_of, any);
    double *spent = k->now;
    k->now = k->next;
    k->next = spent;
}

/* P(nothing is lost on the days after j, none being there after it). */
static double none_after(dw_week__model *m, const window *w, step *one, int j)
{
    walk k = begin_walk(m, w, one, j + 1);
    double none = 1, short_of, any;
    for (int i = j + 1; i < w->days; i++) {
        take_step(&k, i, &short_of, &any);
        k.now[0] -= any; /* those that lost something are let go */
        none -= any;
    }
    return none > 0 ? none : 0;
}

static void weigh(dw_week__model *m, window *w, step *one)
{
    walk k = begin_walk(m, w, one, 0);
    double chance[DAYS];
    w->mean = 0;
    for (int j = 0; j < w->days; j++) {
        double short_of;
        take_step(&k, j, &short_of, &chance[j]);
        w->mean += short_of;
    }
    for (int j = 0; j < w->days; j++)
        w->last[j] = chance[j] * none_after(m, w, one, j);
}

/* ---- rows ---------------------------------------------------------------- */

/* What U(j) - M(s), j of `to` = j - earliest, is where the model stands. */
static double there(const dw_week__model *m, const double *x, int i, int s,
                    int to)
{
    const dw_week__product *one = &m->problem->products[i];
    double sum = s < 0 ? one->there : x[m->at->left[i][s]];
    int from = to < s ? to : s, end = to < s ? s : to;
    double way = to < s ? -1 : 1;
    for (int day = from + 1; day <= end; day++) {
        int k = DW_WEEK__PAST + day;
        if (k < 0 || day >= m->problem->days)
            continue;
        sum += way * one->kept[k];
        if (day >= 0)
            sum += way * x[m->at->made[i][day]];
    }
    return sum;
}

/* Take the window's place; whole balls that do not fall. */
static void stand(const dw_week__model *m, const double *x, int back, window *w)
{
    for (int j = 0; j < w->days; j++) {
        w->at[j] = there(m, x, w->product, w->s, w->s + 1 + j - back);
        int point = (int)(w->at[j] + 1000.5) - 1000;
        if (j == 0 && point < 0)
            point = 0;
        if (j > 0 && point < w->point[j - 1])
            point = w->point[j - 1];
        w->point[j] = point;
    }
}

/* How far the line of that slope lies above what the model says: balls. */
static double gap_of(const window *w, double sign, double says)
{
    double line = w->mean;
    for (int j = 0; j < w->days; j++)
        line += sign * w->last[j] * (w->at[j] - w->point[j]);
    return line - says;
}

static bool cut_lost(dw_week__model *m, const double *x, window *w,
                     double least)
{
    const dw_week__product *p = &m->problem->products[w->product];
    double says = 0, right;
    stand(m, x, p->earliest, w);
    for (int j = 0; j < w->days; j++)
        says += x[m->at->lost[w->product][w->s + 1 + j]];
    weigh(m, w, sell);
    if (gap_of(w, -1, says) < least)
        return false;
    right = w->mean;
    for (int j = 0; j < w->days; j++) {
        dw_week__entry(m, m->at->lost[w->product][w->s + 1 + j], 1);
        double kept = dw_week__there(m, w->product, w->s,
                                     w->s + 1 + j - p->earliest, w->last[j]);
        right += w->last[j] * (w->point[j] - kept);
    }
    dw_week__row(m, right, DW_SOLVER_INFINITE);
    return true;
}

static bool cut_thrown(dw_week__model *m, const double *x, window *w,
                       double least)
{
    const dw_week__product *p = &m->problem->products[w->product];
    double says = 0, right;
    stand(m, x, p->latest, w);
    for (int j = 0; j < w->days; j++) {
        int k = DW_WEEK__PAST + w->s + 1 + j - p->latest;
        if (k >= 0 && m->at->thrown[w->product][k] >= 0)
            says += x[m->at->thrown[w->product][k]];
    }
    weigh(m, w, age);
    if (gap_of(w, 1, says) < least)
        return false;
    right = w->mean;
    for (int j = 0; j < w->days; j++) {
        int k = DW_WEEK__PAST + w->s + 1 + j - p->latest;
        if (k >= 0)
            dw_week__entry(m, m->at->thrown[w->product][k], 1);
        double kept = dw_week__there(m, w->product, w->s,
                                     w->s + 1 + j - p->latest, -w->last[j]);
        right -= w->last[j] * (w->point[j] - kept);
    }
    dw_week__row(m, right, DW_SOLVER_INFINITE);
    return true;
}

int dw_week__cut(dw_week__model *m, const double *x, double least_cost)
{
    const dw_week__problem *p = m->problem;
    int added = 0;
    for (int i = 0; i < p->products_count; i++) {
        const dw_week__product *one = &p->products[i];
        for (int s = -1; s < p->days - 1; s++)
            for (int days = 1; days <= DAYS && s + days < p->days; days++) {
                window w = {.product = i, .s = s, .days = days};
                if (one->lost_cost > 0)
                    added += cut_lost(m, x, &w, least_cost / one->lost_cost);
                if (one->thrown_cost > 0)
                    added +=
                        cut_thrown(m, x, &w, least_cost / one->thrown_cost);
            }
    }
    return added;
}
