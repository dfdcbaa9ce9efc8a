/* The filter of forecast.h: an extended Kalman filter for the log of a mean of
 * counts. docs/models/demand.md, equations (2) to (7). */
#include "forecast_inner.h"

#include "doughwright/day.h"
#include "engine/normal.h"

#include <math.h>
#include <string.h>

enum {
    PARTS = DW_FORECAST__PARTS,
    WEEKDAY = DW_FORECAST__WEEKDAY,
    YEAR = DW_FORECAST__YEAR
};

static const double DAMPING = 0.97;       /* of the trend, a day */
static const double EFFECT_A_YEAR = 0.01; /* variance an event's effect gains */
static const double STEP_MOST = 3.5;      /* sd that one day may move */
static const double SLACK = 0.5, ALARM = 5; /* of the shift monitor */
static const double SHIFT_VARIANCE = 0.06;  /* believed possible on an alarm */
static const double SHIFT_SQUARE = 0.12;    /* mean, of shifts to come */
static const double UNBELIEVED = 1e-4;      /* chance of a day without a sale */
static const int64_t ZEROS_BELIEVED = 14;

int dw_forecast__weekday(int64_t day)
{
    return (dw_day_weekday(day) + 6) % 7;
}

void dw_forecast__start(const dw_forecast__line *line,
                        dw_forecast__state *state)
{
    *state = (dw_forecast__state){.up = 0};
    state->at[DW_FORECAST__LEVEL] = line->level.mean;
    state->cov[0][0] = line->level.variance;
    state->cov[1][1] = line->pace.slope / (1 - DAMPING * DAMPING);
    for (int i = 0; i < 7; i++) {
        state->at[WEEKDAY + i] = line->weekdays[i].mean;
        state->cov[WEEKDAY + i][WEEKDAY + i] = line->weekdays[i].variance;
    }
    for (int i = DW_FORECAST__YEAR; i < PARTS; i++)
        state->cov[i][i] = line->year_variance;
    for (size_t i = 0; i < line->ask->events_count; i++)
        state->effects[i].now = state->effects[i].prior = line->effects[i];
}

void dw_forecast__advance(const dw_forecast__pace *pace,
                          dw_forecast__state *state)
{
    double(*cov)[PARTS] = state->cov;
    state->at[1] *= DAMPING;
    state->at[0] += state->at[1];
    for (int i = 0; i < PARTS; i++)
        cov[1][i] *= DAMPING;
    for (int i = 0; i < PARTS; i++)
        cov[0][i] += cov[1][i];
    for (int i = 0; i < PARTS; i++)
        cov[i][1] *= DAMPING;
    for (int i = 0; i < PARTS; i++)
        cov[i][0] += cov[i][1];
    cov[0][0] += pace->level;
    cov[1][1] += pace->slope;
    for (int i = WEEKDAY; i < DW_FORECAST__YEAR; i++)
        cov[i][i] += pace->weekday;
}

/* How a day sees the parts: level, its weekday, and the two of the year. */
typedef struct view {
    int weekday;
    double cosine, sine;
} view;

static view view_of(int64_t day)
{
    double turn = 6.283185307179586 * (double)day / 365.2425;
    return (view){WEEKDAY + dw_forecast__weekday(day), cos(turn), sin(turn)};
}

static double seen(const view *v, const double parts[PARTS])
{
    return parts[0] + parts[v->weekday] + v->cosine * parts[YEAR] +
           v->sine * parts[YEAR + 1];
}

/* Covariance of each part with what the day sees. */
static void see_all(const view *v, const dw_forecast__state *state,
                    double gain[PARTS])
{
    const double(*cov)[PARTS] = state->cov;
    for (int i = 0; i < PARTS; i++)
        gain[i] = cov[0][i] + cov[v->weekday][i] + v->cosine * cov[YEAR][i] +
                  v->sine * cov[YEAR + 1][i];
}

double dw_forecast__year(const dw_forecast__state *state, int64_t day)
{
    view v = view_of(day);
    return v.cosine * state->at[YEAR] + v.sine * state->at[YEAR + 1];
}

static dw_forecast__belief expect(const dw_forecast__state *state,
                                  const view *v, uint64_t events)
{
    double gain[PARTS];
    see_all(v, state, gain);
    dw_forecast__belief of = {seen(v, state->at), seen(v, gain)};
    for (int i = 0; events; i++, events >>= 1)
        if (events & 1) {
            of.mean += state->effects[i].now.mean;
            of.variance += state->effects[i].now.variance;
        }
    of.mean = fmin(fmax(of.mean, -6), 13.5);
    return of;
}

dw_forecast__belief dw_forecast__expect(const dw_forecast__state *state,
                                        int64_t day, uint64_t events)
{
    view v = view_of(day);
    return expect(state, &v, events);
}

dw_forecast__pace dw_forecast__ahead(const dw_forecast__line *line,
                                     const dw_forecast__state *state)
{
    dw_forecast__pace pace = line->pace;
    if (state->days > 0)
        pace.level +=
            SHIFT_SQUARE * (double)state->shifts / (double)state->days;
    return pace;
}

dw_spread dw_forecast__spread(const dw_forecast__belief *of, double size)
{
    double unsure = expm1(fmin(of->variance, 2));
    double odds = 1 / size + unsure * (1 + 1 / size);
    return (dw_spread){fmin(exp(of->mean), 1e6),
                       fmin(fmax(1 / odds, 0.05), DW_SPREAD_SIZE_MOST)};
}

/* What a day says of its mean: a count, and how much of it is news. */
typedef struct news {
    double balls, weight;
} news;

/* "At least so many": the mean of a normal above it, and how much that
 * narrows (Tobin 1958). */
static news at_least(double balls, const dw_spread *wanted)
{
    double sd = sqrt(dw_spread_variance(wanted));
    double z = fmin((balls - wanted->mean) / sd, 6);
    double hazard = dw_normal_density(z) / dw_normal_above(z);
    return (news){wanted->mean + sd * hazard, hazard * (hazard - z)};
}

/* Far from what was expected: taken as a step of a few sd, no further. */
static news soften(double balls, const dw_spread *wanted)
{
    double sd = sqrt(dw_spread_variance(wanted));
    double most = wanted->mean + STEP_MOST * sd;
    double least = wanted->mean - STEP_MOST * sd;
    return (news){fmin(fmax(balls, least), most), 1};
}

/* A shift of the level shows as many small surprises of one sign (Page 1954).
 */
static void monitor(dw_forecast__state *state, double surprise)
{
    state->up = fmax(0, state->up + surprise - SLACK);
    state->down = fmax(0, state->down - surprise - SLACK);
    if (state->up < ALARM && state->down < ALARM)
        return;
    state->cov[0][0] += SHIFT_VARIANCE;
    state->up = state->down = 0;
    state->shifts++;
}

static void learn_effects(dw_forecast__state *state, uint64_t events,
                          double change, double gone)
{
    for (int i = 0; events; i++, events >>= 1)
        if (events & 1) {
            dw_forecast__belief *now = &state->effects[i].now;
            now->mean += now->variance * change;
            now->variance -= now->variance * now->variance * gone;
        }
}

static void learn(dw_forecast__state *state, const view *v, uint64_t events,
                  const dw_forecast__belief *of, const news *told, double size)
{
    double m = exp(of->mean), unsure = of->variance;
    double k = 1 / (1 + m / size); /* information in one ball */
    double before = 1 + unsure * k * m;
    double change = log1p(unsure * k * (told->balls - m) / before) / unsure;
    double gone = told->weight * k * m / before;
    double gain[PARTS];
    see_all(v, state, gain);
    for (int i = 0; i < PARTS; i++)
        state->at[i] += gain[i] * change;
    for (int i = 0; i < PARTS; i++)
        for (int j = 0; j < PARTS; j++)
            state->cov[i][j] -= gain[i] * gain[j] * gone;
    learn_effects(state, events, change, gone);
}

/* An event comes again: its effect may have changed since. */
static void meet_events(dw_forecast__state *state, uint64_t events, int64_t day,
                        bool zero)
{
    for (int i = 0; events; i++, events >>= 1)
        if (events & 1) {
            dw_forecast__effect *e = &state->effects[i];
            if (e->seen > 0 && day - e->last_day > 30)
                e->now.variance += EFFECT_A_YEAR;
            e->seen++;
            e->zeros += zero;
            e->last_day = day;
        }
}

static void take_day(dw_forecast__line *line, dw_forecast__state *state,
                     int64_t at, dw_forecast__day *day)
{
    view v = view_of(at);
    meet_events(state, day->events, at, day->balls == 0);
    dw_forecast__belief of = expect(state, &v, day->events);
    dw_spread wanted = dw_forecast__spread(&of, line->pace.size);
    day->passed = false;
    day->expected = of.mean;
    day->variance = of.variance;
    bool nothing = day->balls == 0 && !day->sold_out;
    if (nothing && state->zeros < ZEROS_BELIEVED &&
        dw_spread_mass(&wanted, 0) < UNBELIEVED) {
        state->zeros++;
        day->passed = true; /* nobody sold anything: shut, for once */
        return;
    }
    if (!nothing)
        state->zeros = 0;
    double balls = (double)day->balls;
    news told =
        day->sold_out ? at_least(balls, &wanted) : soften(balls, &wanted);
    if (!day->events && !day->sold_out)
        monitor(state,
                (told.balls - wanted.mean) / sqrt(dw_spread_variance(&wanted)));
    of = expect(state, &v, day->events);
    learn(state, &v, day->events, &of, &told, line->pace.size);
}

void dw_forecast__take(dw_forecast__line *line, dw_forecast__state *state,
                       size_t from, size_t to)
{
    for (size_t i = from; i < to; i++) {
        dw_forecast__day *day = &line->days[i];
        dw_forecast__advance(&line->pace, state);
        state->days++;
        if (day->known && !day->closed)
            take_day(line, state, line->start + (int64_t)i, day);
    }
}
