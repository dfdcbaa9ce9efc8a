/* The air of a cold room from its log: a filter of Kalman's for a temperature
 * that door openings throw up and that comes back to where it settles. */
#include "engine/teach_grid.h"
#include "engine/normal.h"

#include <math.h>
#include <string.h>

enum { POINTS = DW_TEACH__POINTS, RESTLESS = 5, SENSORS = 2, KINDS = 3 };
enum { CELLS = POINTS * RESTLESS * SENSORS };
#define LOW_C (-10) /* of a room for dough, doors open or not */
#define HIGH_C 35
#define GAP_H 2.0 /* longer than this between readings is told */
#define SETTLES_C 3.5
#define SETTLES_SD 2.0
#define USUAL_H 0.4 /* of coming back, and its spread in logarithms */
#define USUAL_SPREAD 0.8
#define OPENINGS_PER_H 1.0
#define OPENING_MOST 0.3 /* probability between two readings */
#define OPENING_K 3.0
#define OPENING_SD 2.5
#define SPIKE 0.01 /* of readings: a sensor's slip */
#define SPIKE_SD 5.0
#define DAY_H 24.0

/* K, about where it settles, doors shut; K, of the thermometer. */
static const double restless_k[RESTLESS] = {0.05, 0.1, 0.2, 0.4, 0.8};
static const double sensor_k[SENSORS] = {0.08, 0.25};

/* Air and what it settles to: means and covariances. */
typedef struct state {
    double air, rest, air2, both, rest2;
} state;

/* What may have happened between two readings. */
enum { CALM, OPENED, SPIKED };

typedef struct log_of {
    const dw_teach_room_ask *ask;
    dw_teach_mark *marks;
    size_t *good; /* indexes of readings that count */
    size_t good_count;
    dw_teach__axis axis; /* ln of the time constant */
} log_of;

typedef struct cell {
    double log, rest, rest2;
} cell;

static dw_teach__axis time_axis(void)
{
    double at = log(USUAL_H), half = 2.5 * USUAL_SPREAD;
    return (dw_teach__axis){at - half, at + half, at, USUAL_SPREAD, true};
}

static state predict(const state *s, double keeps, double restless)
{
    double k = keeps, r = 1 - keeps;
    return (state){
        .air = k * s->air + r * s->rest,
        .rest = s->rest,
        .air2 = k * k * s->air2 + 2 * k * r * s->both + r * r * s->rest2 +
                restless * restless * (1 - k * k),
        .both = k * s->both + r * s->rest2,
        .rest2 = s->rest2,
    };
}

/* Kalman's update by one reading; returns the reading's probability density,
 * constants left out. */
static double update(state *s, double reading, double noise2)
{
    double spread = s->air2 + noise2, gap = reading - s->air;
    double gain = s->air2 / spread, rest_gain = s->both / spread;
    *s = (state){
        .air = s->air + gain * gap,
        .rest = s->rest + rest_gain * gap,
        .air2 = s->air2 * (1 - gain),
        .both = s->both * (1 - gain),
        .rest2 = s->rest2 - rest_gain * s->both,
    };
    return exp(-0.5 * gap * gap / spread) / sqrt(spread);
}

/* Three states by their shares to one with the same mean and spread. */
static state merge(const state s[KINDS], const double share[KINDS])
{
    state m = {0};
    for (int i = 0; i < KINDS; i++) {
        m.air += share[i] * s[i].air;
        m.rest += share[i] * s[i].rest;
    }
    for (int i = 0; i < KINDS; i++) {
        double air = s[i].air - m.air, rest = s[i].rest - m.rest;
        m.air2 += share[i] * (s[i].air2 + air * air);
        m.both += share[i] * (s[i].both + air * rest);
        m.rest2 += share[i] * (s[i].rest2 + rest * rest);
    }
    return m;
}

/* One reading `hours` after the last; share: what probably happened. */
static double follow(state *s, double hours, double reading, double tau_h,
                     double restless, double sensor, double share[KINDS])
{
    double opened = fmin(OPENING_MOST, OPENINGS_PER_H * hours);
    const double chance[KINDS] = {(1 - opened) * (1 - SPIKE),
                                  opened * (1 - SPIKE), SPIKE};
    state next[KINDS];
    double sum = 0;
    for (int i = 0; i < KINDS; i++) {
        next[i] = predict(s, exp(-hours / tau_h), restless);
        next[i].air += i == OPENED ? OPENING_K : 0;
        next[i].air2 += i == OPENED ? OPENING_SD * OPENING_SD : 0;
        double slip = i == SPIKED ? SPIKE_SD : 0;
        share[i] = chance[i] *
                   update(&next[i], reading, sensor * sensor + slip * slip);
        sum += share[i];
    }
    sum = fmax(sum, 1e-300);
    for (int i = 0; i < KINDS; i++)
        share[i] /= sum;
    *s = merge(next, share);
    return log(sum);
}

/* The log under one time constant, restlessness and thermometer; kinds, when
 * not NULL, gets the shares of each reading. */
static cell filter(const log_of *l, size_t count, double tau_h, double restless,
                   double sensor, double (*kinds)[KINDS])
{
    const double *at = l->ask->at_h, *air = l->ask->air_c;
    state s = {air[l->good[0]], SETTLES_C, sensor * sensor, 0,
               SETTLES_SD * SETTLES_SD};
    double log_sum = 0;
    for (size_t i = 1; i < count; i++) {
        size_t here = l->good[i], before = l->good[i - 1];
        double share[KINDS];
        log_sum += follow(&s, at[here] - at[before], air[here], tau_h, restless,
                          sensor, share);
        if (kinds)
            memcpy(kinds[i], share, sizeof share);
    }
    return (cell){log_sum, s.rest, s.rest2};
}

static double share_below(const cell *cells, const double *shares, double air_c)
{
    double sum = 0;
    for (int i = 0; i < CELLS; i++)
        sum += shares[i] *
               dw_normal_below((air_c - cells[i].rest) / sqrt(cells[i].rest2));
    return sum;
}

static double air_quantile(const cell *cells, const double *shares,
                           double share)
{
    double low = SETTLES_C - 10 * SETTLES_SD,
           high = SETTLES_C + 10 * SETTLES_SD;
    for (int i = 0; i < 60; i++) {
        double middle = 0.5 * (low + high);
        if (share_below(cells, shares, middle) < share)
            low = middle;
        else
            high = middle;
    }
    return 0.5 * (low + high);
}

static void believe_air(const cell *cells, const double *shares,
                        dw_belief *belief)
{
    double mean = 0, square = 0;
    for (int i = 0; i < CELLS; i++)
        mean += shares[i] * cells[i].rest;
    for (int i = 0; i < CELLS; i++) {
        double gap = cells[i].rest - mean;
        square += shares[i] * (cells[i].rest2 + gap * gap);
    }
    *belief = (dw_belief){mean, sqrt(square), air_quantile(cells, shares, 0.05),
                          air_quantile(cells, shares, 0.95)};
}

/* The first `count` good readings; best: the likeliest cell. */
static void learn(const log_of *l, size_t count, cell cells[CELLS],
                  dw_belief *air, dw_belief *tau, int *best)
{
    double shares[CELLS], on_axis[POINTS] = {0};
    *best = 0;
    for (int i = 0; i < CELLS; i++) {
        int point = i / (RESTLESS * SENSORS);
        double x = dw_teach__at(&l->axis, point);
        double z = (x - l->axis.prior_mean) / l->axis.prior_sd;
        cells[i] = (cell){0, SETTLES_C, SETTLES_SD * SETTLES_SD};
        if (count > 0)
            cells[i] =
                filter(l, count, exp(x), restless_k[i / SENSORS % RESTLESS],
                       sensor_k[i % SENSORS], NULL);
        shares[i] = cells[i].log - 0.5 * z * z;
        *best = shares[i] > shares[*best] ? i : *best;
    }
    dw_teach__to_shares(shares, CELLS);
    for (int i = 0; i < CELLS; i++)
        on_axis[i / (RESTLESS * SENSORS)] += shares[i];
    dw_teach__believe(&l->axis, on_axis, tau);
    believe_air(cells, shares, air);
}

static bool is_left_out(const dw_teach_room_ask *ask, size_t index)
{
    for (size_t i = 0; i < ask->left_out_count; i++)
        if (ask->left_out[i] == (int64_t)index)
            return true;
    return false;
}

/* Which readings count, and what is told of each. */
static void sift(log_of *l)
{
    const dw_teach_room_ask *ask = l->ask;
    for (size_t i = 0; i < ask->at_h_count; i++) {
        dw_teach_mark *mark = &l->marks[i];
        mark->index = (int64_t)i;
        if (is_left_out(ask, i)) {
            mark->use = DW_TEACH_LEFT_OUT;
            continue;
        }
        double since =
            l->good_count > 0
                ? ask->at_h[i] - ask->at_h[l->good[l->good_count - 1]]
                : 1;
        mark->why = since > 0
                        ? (int)dw_teach__temp(ask->air_c[i], LOW_C, HIGH_C)
                        : DW_TEACH_BACKWARDS;
        mark->use =
            mark->why == DW_TEACH_FINE ? DW_TEACH_USED : DW_TEACH_REFUSED;
        if (mark->use != DW_TEACH_USED)
            continue;
        if (since > GAP_H)
            mark->why = DW_TEACH_GAP;
        l->good[l->good_count++] = i;
    }
}

static size_t before_last_day(const log_of *l)
{
    size_t count = l->good_count;
    double last = count > 0 ? l->ask->at_h[l->good[count - 1]] : 0;
    while (count > 0 && l->ask->at_h[l->good[count - 1]] > last - DAY_H)
        count--;
    return count;
}

/* By the trapezoid rule over the readings that are no slips. */
static void mean_over(const log_of *l, dw_teach_room *reply)
{
    double area = 0, hours = 0;
    size_t before = SIZE_MAX;
    for (size_t i = 0; i < l->good_count; i++) {
        size_t here = l->good[i];
        if (l->marks[here].use != DW_TEACH_USED)
            continue;
        double width =
            before == SIZE_MAX ? 0 : l->ask->at_h[here] - l->ask->at_h[before];
        if (width > 0 && width <= GAP_H) {
            area += 0.5 * width * (l->ask->air_c[here] + l->ask->air_c[before]);
            hours += width;
        }
        before = here;
    }
    reply->has_log_mean_c = hours > 0;
    reply->log_mean_c = hours > 0 ? area / hours : 0;
}

static void tell_kinds(const log_of *l, int best, double (*kinds)[KINDS],
                       dw_teach_room *reply)
{
    if (l->good_count == 0)
        return;
    int point = best / (RESTLESS * SENSORS);
    filter(l, l->good_count, exp(dw_teach__at(&l->axis, point)),
           restless_k[best / SENSORS % RESTLESS], sensor_k[best % SENSORS],
           kinds);
    for (size_t i = 1; i < l->good_count; i++) {
        reply->openings += kinds[i][OPENED] > 0.5;
        if (kinds[i][SPIKED] <= 0.5)
            continue;
        l->marks[l->good[i]].use = DW_TEACH_DOUBTED;
        l->marks[l->good[i]].why = DW_TEACH_UNLIKE;
    }
}

/* Only marks that say something are given. */
static void keep_marks(const log_of *l, dw_teach_room *reply)
{
    reply->marks = l->marks;
    for (size_t i = 0; i < l->ask->at_h_count; i++) {
        dw_teach_mark mark = l->marks[i];
        dw_teach__count(&reply->counts, &mark);
        if (mark.use != DW_TEACH_USED || mark.why != DW_TEACH_FINE)
            reply->marks[reply->marks_count++] = mark;
    }
}

dw_status dw_teach_room_run(const dw_teach_room_ask *ask, dw_arena *arena,
                            dw_teach_room *reply, dw_err *err)
{
    if (ask->at_h_count != ask->air_c_count)
        return dw_fail_says(err, DW_E_SUM, "air_c", NULL,
                            "needs one number for each time in at_h");
    dw_teach_room answer = {0};
    log_of l = {.ask = ask, .axis = time_axis()};
    size_t count = ask->at_h_count;
    double(*kinds)[KINDS] = dw_arena_take(arena, count * sizeof *kinds);
    cell *cells = DW_NEW_ARRAY(arena, cell, CELLS);
    l.marks = DW_NEW_ARRAY(arena, dw_teach_mark, count);
    l.good = DW_NEW_ARRAY(arena, size_t, count);
    if (!kinds || !cells || !l.marks || !l.good)
        return dw_fail(err, DW_E_ROOM, "at_h", NULL);
    sift(&l);
    int best;
    dw_lesson *air = &answer.air_c, *tau = &answer.time_constant_h;
    learn(&l, 0, cells, &air->prior, &tau->prior, &best);
    learn(&l, before_last_day(&l), cells, &air->before, &tau->before, &best);
    learn(&l, l.good_count, cells, &air->after, &tau->after, &best);
    tell_kinds(&l, best, kinds, &answer);
    mean_over(&l, &answer);
    keep_marks(&l, &answer);
    *reply = answer;
    return DW_OK;
}
