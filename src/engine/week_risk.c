/* Chance in the model. With M(s) = E R(s), what was sold or thrown up to day s
 * on average, which the model knows, and D the demand of days s + 1 .. u
 * together, independent of R(s), lost over them   >= E( D - (U(u) - R(s)) )+ >=
 * G( U(u) - M(s) )    (9) thrown over them >= E( (E(u) - R(s)) - D )+ >= H(
 * E(u) - M(s) )   (10) G(z) = E( D - z )+,  H(z) = E( z - D )+ the second step
 * by Jensen's inequality, for both are convex. Lines that touch them from below
 * stand for them (11). */
#include "engine/week_model.h"

#include <string.h>

enum { REACH = 4 }; /* days looked at together */

/* D of days together: chances of 0 .. count - 1 above low. */
typedef struct together {
    int low, count;
    double *at;
} together;

/* Add a day; nothing more is carried when it grows too long. */
static bool add_day(dw_week__model *m, const dw_week__chances *c, together *d)
{
    int count = d->count + c->count - 1;
    if (count > 2 * DW_WEEK__SUPPORT)
        return false;
    double *sum = d->at == m->scratch ? m->scratch_too : m->scratch;
    memset(sum, 0, sizeof *sum * (size_t)count);
    for (int i = 0; i < d->count; i++)
        for (int k = 0; d->at[i] > 1e-14 && k < c->count; k++)
            sum[i + k] += d->at[i] * c->at[k];
    *d = (together){d->low + c->low, count, sum};
    return true;
}

double dw_week__there(dw_week__model *m, int i, int s, int to, double sign)
{
    const dw_week__product *one = &m->problem->products[i];
    double kept = s < 0 ? one->there : 0;
    if (s >= 0)
        dw_week__entry(m, m->at->left[i][s], sign);
    int from = to < s ? to : s, end = to < s ? s : to;
    double way = to < s ? -1 : 1;
    for (int day = from + 1; day <= end; day++) {
        int k = DW_WEEK__PAST + day;
        if (k < 0 || day >= m->problem->days)
            continue;
        kept += way * one->kept[k];
        if (day >= 0)
            dw_week__entry(m, m->at->made[i][day], way * sign);
    }
    return kept;
}

static void add_lost(dw_week__model *m, int i, int s, int u)
{
    for (int t = s + 1; t <= u; t++)
        dw_week__entry(m, m->at->lost[i][t], 1);
}

static void add_thrown(dw_week__model *m, int i, int s, int u)
{
    int latest = m->problem->products[i].latest;
    for (int t = s + 1; t <= u; t++)
        if (DW_WEEK__PAST + t - latest >= 0)
            dw_week__entry(m, m->at->thrown[i][DW_WEEK__PAST + t - latest], 1);
}

typedef struct window {
    int product, s, u;
    const together *d;
    double mean;
} window;

/* (9) by the line of slope -above through z, lost. */
static void touch_lost(dw_week__model *m, const window *w, double z,
                       double lost, double above)
{
    const dw_week__product *one = &m->problem->products[w->product];
    add_lost(m, w->product, w->s, w->u);
    double kept =
        dw_week__there(m, w->product, w->s, w->u - one->earliest, above);
    dw_week__row(m, lost + above * (z - kept), DW_SOLVER_INFINITE);
}

/* (10) */
static void touch_thrown(dw_week__model *m, const window *w, double z,
                         double lost, double above)
{
    const dw_week__product *one = &m->problem->products[w->product];
    double thrown = z - w->mean + lost;
    if (one->thrown_cost == 0)
        return;
    add_thrown(m, w->product, w->s, w->u);
    double kept =
        dw_week__there(m, w->product, w->s, w->u - one->latest, -(1 - above));
    dw_week__row(m, thrown - (1 - above) * (z - kept), DW_SOLVER_INFINITE);
}

static void touch(dw_week__model *m, window *w)
{
    static const double shares[] = {0.97, 0.9,  0.75,  0.55, 0.35,  0.2,
                                    0.1,  0.05, 0.025, 0.01, 0.004, 0.001};
    const together *d = w->d;
    double above = 0, lost = 0;
    size_t next = DW_COUNT(shares);
    w->mean = 0;
    for (int k = 0; k < d->count; k++)
        w->mean += d->at[k] * (d->low + k);
    /* from the most wanted down: lost with low + k balls, chance of more */
    for (int k = d->count - 1; k >= 0 && next > 0; k--) {
        if (above >= shares[next - 1]) {
            touch_lost(m, w, d->low + k, lost, above);
            touch_thrown(m, w, d->low + k, lost, above);
            while (next > 0 && above >= shares[next - 1])
                next--;
        }
        above += d->at[k];
        lost += above;
    }
    if (d->count == 1) {
        touch_lost(m, w, d->low, 0, 1);
        touch_thrown(m, w, d->low, 0, 0);
    }
}

void dw_week__risk(dw_week__model *m, int product)
{
    const dw_week__product *one = &m->problem->products[product];
    for (int s = -1; s < m->problem->days - 1; s++) {
        together d = {0, 1, m->scratch};
        int reach = one->latest - one->earliest + 2;
        reach = reach > REACH ? reach : REACH;
        m->scratch[0] = 1;
        for (int u = s + 1; u <= s + reach && u < m->problem->days; u++) {
            window w = {product, s, u, &d, 0};
            if (!add_day(m, &one->wanted[u], &d))
                break;
            touch(m, &w);
        }
    }
}
