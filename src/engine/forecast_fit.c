/* How fast the parts of a series change, and how wide its days spread: those
 * under which the past was least surprising. docs/models/demand.md (8), (9). */
#include "forecast_inner.h"

#include <math.h>

enum { LEVELS = 6, SLOPES = 3, WEEKDAYS = 3, HISTORY_USED = 800 };

/* Variances of a log a day. */
static const double level_paces[LEVELS] = {1e-5, 5e-5, 2e-4, 8e-4, 3e-3, 1e-2};
static const double slope_paces[SLOPES] = {1e-9, 3e-7, 3e-6};
static const double weekday_paces[WEEKDAYS] = {3e-7, 6e-6, 1e-4};

static const double FASTER = 3;          /* a faster pace must gain so much */
static const double CLIP = 9;            /* squared surprises count so far */
static const double CLIPPED = 0.96;      /* the mean of them when all is well */
static const double SIZE_GUESS = 15;     /* of a shop that is not known yet, */
static const double SIZE_GUESS_DAYS = 8; /* which weighs as much */
static const double TAIL = 8;            /* of Student's t */

static bool counts(const dw_forecast__day *day)
{
    return day->known && !day->closed && !day->passed && !day->sold_out;
}

/* The first days teach the filter; they do not judge it. */
static size_t first_judged(size_t to)
{
    size_t lead = to < 84 ? to / 3 : 28;
    return to > HISTORY_USED ? to - HISTORY_USED + lead : lead;
}

/* Sum over the days of min(z^2, CLIP) - CLIPPED with 1 / size = `odds`. */
static double excess(const dw_forecast__line *line, size_t to, double odds)
{
    double sum = 0, mean = 0, n = 0;
    for (size_t i = first_judged(to); i < to; i++) {
        const dw_forecast__day *day = &line->days[i];
        if (!counts(day))
            continue;
        double m = exp(day->expected), gap = (double)day->balls - m;
        double unsure = expm1(fmin(day->variance, 2));
        double variance = m + m * m * (odds + unsure * (1 + odds));
        sum += fmin(gap * gap / variance, CLIP) - CLIPPED;
        mean += m;
        n += 1;
    }
    mean = n > 0 ? mean / n : 1;
    double guess =
        (mean + mean * mean / SIZE_GUESS) / (mean + mean * mean * odds);
    return sum + SIZE_GUESS_DAYS * (guess - CLIPPED);
}

/* The size under which squared surprises are as large as they should be. */
static double fit_size(const dw_forecast__line *line, size_t to)
{
    double low = 1e-6, high = 20;
    if (excess(line, to, low) < 0)
        return 1 / low;
    for (int i = 0; i < 30; i++) {
        double middle = sqrt(low * high);
        if (excess(line, to, middle) > 0)
            low = middle;
        else
            high = middle;
    }
    return 1 / sqrt(low * high);
}

static size_t first_used(size_t to)
{
    return to > HISTORY_USED ? to - HISTORY_USED : 0;
}

static void go_over(dw_forecast__line *line, size_t to)
{
    dw_forecast__state state;
    dw_forecast__start(line, &state);
    dw_forecast__take(line, &state, first_used(to), to);
}

/* Minus log likelihood of Student's t, constants left out. */
static double surprise(dw_forecast__line *line, size_t to)
{
    double sum = 0;
    go_over(line, to);
    for (size_t i = first_judged(to); i < to; i++) {
        const dw_forecast__day *day = &line->days[i];
        if (!counts(day))
            continue;
        dw_forecast__belief expected = {day->expected, day->variance};
        dw_spread wanted = dw_forecast__spread(&expected, line->pace.size);
        double variance = dw_spread_variance(&wanted);
        double gap = (double)day->balls - wanted.mean;
        sum += log(variance) + (TAIL + 1) * log1p(gap * gap / variance / TAIL);
    }
    return sum;
}

/* Turn one pace over its list, downhill from where it stands. */
static double turn(dw_forecast__line *line, size_t to, double *pace,
                   const double *list, int count, double best)
{
    int at = 0;
    while (at + 1 < count && list[at] < *pace)
        at++;
    int from = at;
    for (int step = -1; step <= 1; step += 2)
        for (int i = from + step; i >= 0 && i < count; i += step) {
            *pace = list[i];
            double found = surprise(line, to);
            if (found + (step > 0 ? FASTER : 0) >= best)
                break;
            best = found;
            at = i;
        }
    *pace = list[at];
    return best;
}

void dw_forecast__fit(dw_forecast__line *line, size_t to)
{
    dw_forecast__pace *pace = &line->pace;
    *pace = (dw_forecast__pace){level_paces[2], slope_paces[1],
                                weekday_paces[0], SIZE_GUESS};
    go_over(line, to);
    pace->size = fit_size(line, to);
    if (line->known < 42)
        return; /* too short to tell how it changes */
    double best = surprise(line, to);
    best = turn(line, to, &pace->level, level_paces, LEVELS, best);
    best = turn(line, to, &pace->slope, slope_paces, SLOPES, best);
    turn(line, to, &pace->weekday, weekday_paces, WEEKDAYS, best);
    go_over(line, to);
    pace->size = fit_size(line, to);
}
