#include "engine/find.h"

#include <math.h>

#define GROWTH 2        /* of the stride that looks for the other side */
#define FIRST_MOST 0.25 /* of the whole range, the first stride */
#define FIRST_LEAST 1e-3
/* Where there is no number: what has none may have none on both sides. */
#define FIRST_BLIND 0.05

typedef struct place {
    double x, gap;
} place;

static dw_status look(const dw_find__search *s, double x, place *at,
                      dw_err *err)
{
    at->x = x;
    return s->gap(s->owner, x, &at->gap, err);
}

static double first_stride(const dw_find__search *s, double gap)
{
    double range = s->most - s->least;
    if (!isfinite(gap))
        return FIRST_BLIND * range;
    double stride = fabs(gap) * s->per_gap;
    return fmin(fmax(stride, FIRST_LEAST * range), FIRST_MOST * range);
}

/* From *a on to a *b on the other side. */
static dw_status pass(const dw_find__search *s, place *a, place *b, dw_err *err)
{
    double way = a->gap > 0 ? 1 : -1;
    double last = a->gap > 0 ? s->most : s->least;
    double stride = first_stride(s, a->gap);
    for (;;) {
        if (a->x == last)
            return DW_E_UNREACHABLE;
        double x = a->x + way * stride;
        x = fmin(fmax(x, s->least), s->most);
        DW_TRY(look(s, x, b, err));
        if (fabs(b->gap) <= s->gap_within || (b->gap > 0) != (a->gap > 0))
            return DW_OK;
        *a = *b;
        stride *= GROWTH;
    }
}

/* How far from a to b to look next: by the parabola through three places where
 * that is safe, else half way. */
static double next_part(const place *a, const place *b, const place *c)
{
    double xi = (a->x - b->x) / (c->x - b->x);
    double phi = (a->gap - b->gap) / (c->gap - b->gap);
    if (!(phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi))
        return 0.5;
    double direct = a->gap / (b->gap - a->gap) * c->gap / (b->gap - c->gap);
    double bent = (c->x - a->x) / (b->x - a->x) * a->gap / (c->gap - a->gap) *
                  b->gap / (c->gap - b->gap);
    return direct + bent;
}

static dw_status close_in(const dw_find__search *s, place a, place b, double *x,
                          dw_err *err)
{
    double part =
        isfinite(a.gap) && isfinite(b.gap) ? a.gap / (a.gap - b.gap) : 0.5;
    for (;;) {
        place best = fabs(a.gap) < fabs(b.gap) ? a : b, c, now;
        double edge = s->within / fabs(b.x - a.x);
        *x = best.x;
        if (edge > 0.5 || fabs(best.gap) <= s->gap_within)
            return DW_OK;
        part = fmin(fmax(part, edge), 1 - edge);
        DW_TRY(look(s, a.x + part * (b.x - a.x), &now, err));
        if ((now.gap > 0) == (a.gap > 0)) {
            c = a;
        } else {
            c = b;
            b = a;
        }
        a = now;
        part = next_part(&a, &b, &c);
    }
}

dw_status dw_find__nought(const dw_find__search *search, double *x, dw_err *err)
{
    place a, b;
    DW_TRY(look(search, search->guess, &a, err));
    if (fabs(a.gap) <= search->gap_within) {
        *x = a.x;
        return DW_OK;
    }
    DW_TRY(pass(search, &a, &b, err));
    return close_in(search, a, b, x, err);
}
