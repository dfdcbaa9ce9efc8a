/* forecast.demand: from sales to what the next days may want. */
#include "forecast_inner.h"

#include "doughwright/say.h"

#include <math.h>
#include <string.h>

enum { PAR_WEEK = 7 };

/* Variance of one event's effect from product to product, a judgement. */
static const double BETWEEN_PRODUCTS = 0.02;
static const double MIDDLE_80 = 1.2815515655446004; /* sd of a normal */
static const double SHARES[] = {0.025, 0.1, 0.5, 0.9, 0.975};

/* ---- what is asked makes sense --------------------------------------------
 */

dw_status dw_override_check(const dw_override *change, dw_err *err)
{
    if (change->to_day < change->from_day)
        return dw_fail_range(err, "to_day", (double)change->to_day,
                             (double)change->from_day, 84000);
    if (change->has_balls == change->has_percent)
        return dw_fail_says(
            err, change->has_balls ? DW_E_CONFLICT : DW_E_MISSING, "balls",
            NULL, DW_MSG("or percent: one of them, not both"));
    return DW_OK;
}

static const dw_forecast_series *series_of(const dw_forecast_ask *ask,
                                           const char *name)
{
    for (size_t i = 0; i < ask->series_count; i++)
        if (dw_text_is(ask->series[i].name, name))
            return &ask->series[i];
    return NULL;
}

static dw_status check_series(const dw_forecast_ask *ask,
                              const dw_forecast_series *s, dw_err *err)
{
    if (series_of(ask, s->name) != s)
        return dw_fail_says(err, DW_E_CONFLICT, "name", s->name,
                            DW_MSG("is the name of two"));
    if (s->par_count != 0 && s->par_count != PAR_WEEK)
        return dw_fail_range(err, "par", (double)s->par_count, PAR_WEEK,
                             PAR_WEEK);
    if (s->like && (!series_of(ask, s->like) || dw_text_is(s->like, s->name)))
        return dw_fail(err, DW_E_NOT_FOUND, "like", s->like);
    for (size_t i = 0; i < s->overrides_count; i++)
        if (dw_override_check(&s->overrides[i], err) != DW_OK)
            return dw_err_within_item(err, "overrides", i);
    return DW_OK;
}

static dw_status check_ask(const dw_forecast_ask *ask, dw_err *err)
{
    for (size_t i = 0; i < ask->events_count; i++)
        if (dw_event_check(&ask->events[i], err) != DW_OK)
            return dw_err_within_item(err, "events", i);
    for (size_t i = 0; i < ask->series_count; i++)
        if (check_series(ask, &ask->series[i], err) != DW_OK)
            return dw_err_within_item(err, "series", i);
    return DW_OK;
}

/* ---- one origin: nothing from its first day on is known -------------------
 */

typedef struct origin {
    const dw_forecast_ask *ask;
    int64_t first_day;
    dw_arena *arena;
    dw_err *err;
    dw_forecast__line *lines;   /* one for each series */
    dw_forecast__state *states; /* at the end of the day before */
} origin;

static dw_status learn_line(origin *o, size_t i, const dw_forecast__state *like,
                            double like_size)
{
    dw_forecast__line *line = &o->lines[i];
    line->ask = o->ask;
    line->series = &o->ask->series[i];
    DW_TRY(dw_forecast__lay(line, o->first_day, o->arena, o->err));
    dw_forecast__believe(line, like, like_size);
    if (line->basis == DW_FORECAST_NOTHING)
        return DW_OK;
    dw_forecast__fit(line, line->count);
    dw_forecast__start(line, &o->states[i]);
    dw_forecast__take(line, &o->states[i], 0, line->count);
    return DW_OK;
}

static size_t index_of(const dw_forecast_ask *ask, const char *name)
{
    return (size_t)(series_of(ask, name) - ask->series);
}

/* First those that stand alone, then those that may lean on one. */
static dw_status learn_lines(origin *o)
{
    const dw_forecast_ask *ask = o->ask;
    o->lines = DW_NEW_ARRAY(o->arena, dw_forecast__line, ask->series_count);
    o->states = DW_NEW_ARRAY(o->arena, dw_forecast__state, ask->series_count);
    if (!o->lines || !o->states)
        return dw_fail(o->err, DW_E_ROOM, "series", NULL);
    for (int leaning = 0; leaning < 2; leaning++)
        for (size_t i = 0; i < ask->series_count; i++) {
            const char *name = ask->series[i].like;
            if ((name != NULL) != leaning)
                continue;
            size_t like = name ? index_of(ask, name) : 0;
            bool taught = name && !ask->series[like].like &&
                          o->lines[like].basis == DW_FORECAST_OWN;
            if (learn_line(o, i, taught ? &o->states[like] : NULL,
                           taught ? o->lines[like].pace.size : 0) != DW_OK)
                return dw_err_within_item(o->err, "series", i);
        }
    return DW_OK;
}

/* What the days of an event said by themselves, its start taken out. */
static dw_forecast__belief said_of(const dw_forecast__effect *e)
{
    double weight = 1 / e->now.variance - 1 / e->prior.variance;
    if (e->seen == 0 || weight <= 0)
        return (dw_forecast__belief){0, INFINITY};
    double sum =
        e->now.mean / e->now.variance - e->prior.mean / e->prior.variance;
    return (dw_forecast__belief){sum / weight, 1 / weight};
}

/* How much the days of one product tell about another. */
static double told_by(const dw_forecast__belief *said)
{
    return 1 / (said->variance + BETWEEN_PRODUCTS);
}

/* What several products say together. */
typedef struct told {
    double weight, sum;
} told;

/* One product's effect of an event starts from what the days of the others
 * said. */
static void borrow_effect(dw_forecast__effect *e,
                          const dw_forecast__belief *said, const told *others)
{
    double weight = 1 / e->prior.variance + others->weight;
    double start = 1 / weight + BETWEEN_PRODUCTS;
    double mean = (e->prior.mean / e->prior.variance + others->sum) / weight;
    double all = 1 / start + 1 / said->variance;
    e->now.mean = (mean / start + said->mean / said->variance) / all;
    e->now.variance = 1 / all;
}

static void borrow_event(origin *o, size_t event, dw_forecast__belief *said)
{
    size_t n = o->ask->series_count;
    told all = {0, 0};
    for (size_t i = 0; i < n; i++) {
        said[i] = o->lines[i].basis == DW_FORECAST_NOTHING
                      ? (dw_forecast__belief){0, INFINITY}
                      : said_of(&o->states[i].effects[event]);
        all.weight += told_by(&said[i]);
        all.sum += told_by(&said[i]) * said[i].mean;
    }
    for (size_t i = 0; i < n; i++) {
        double own = told_by(&said[i]);
        const told others = {all.weight - own, all.sum - own * said[i].mean};
        if (o->lines[i].basis != DW_FORECAST_NOTHING)
            borrow_effect(&o->states[i].effects[event], &said[i], &others);
    }
}

static dw_status learn_all(origin *o)
{
    DW_TRY(learn_lines(o));
    size_t mark = o->arena->used;
    dw_forecast__belief *said =
        DW_NEW_ARRAY(o->arena, dw_forecast__belief, o->ask->series_count);
    if (!said)
        return dw_fail(o->err, DW_E_ROOM, "events", NULL);
    for (size_t event = 0; event < o->ask->events_count; event++)
        borrow_event(o, event, said);
    o->arena->used = mark;
    return DW_OK;
}

/* ---- the days to come -----------------------------------------------------
 */

static double mean_weekday(const dw_forecast__line *line,
                           const dw_forecast__state *state)
{
    double sum = 0, n = 0;
    for (int i = 0; i < 7; i++)
        if (!line->shut[i]) {
            sum += exp(state->at[DW_FORECAST__WEEKDAY + i]);
            n += 1;
        }
    return n > 0 ? sum / n : 1;
}

/* An event on which nothing ever sold. */
static bool always_shut(const dw_forecast__state *state, uint64_t events)
{
    for (int i = 0; events; i++, events >>= 1)
        if ((events & 1) && state->effects[i].seen > 0 &&
            state->effects[i].zeros == state->effects[i].seen &&
            state->at[DW_FORECAST__LEVEL] > 1)
            return true;
    return false;
}

static const char *event_name(const dw_forecast_ask *ask, int64_t day)
{
    for (size_t i = 0; i < ask->events_count; i++)
        if (dw_event_on(&ask->events[i], day))
            return ask->events[i].name;
    return NULL;
}

static void override_day(const dw_forecast_series *s, int64_t today,
                         dw_forecast_day *day)
{
    for (size_t i = 0; i < s->overrides_count; i++) {
        const dw_override *o = &s->overrides[i];
        if (day->day < o->from_day || day->day > o->to_day ||
            today >= o->expires_day)
            continue;
        if (!day->has_forecast_mean)
            day->forecast_mean = day->wanted.mean;
        day->has_forecast_mean = true;
        day->override_reason = o->reason;
        day->wanted.mean =
            o->has_balls
                ? (double)o->balls
                : fmin(day->forecast_mean * (1 + o->percent / 100), 1e6);
    }
}

static void fill_quantiles(dw_forecast_day *day)
{
    int64_t *to[] = {&day->low_95, &day->low_80, &day->middle, &day->high_80,
                     &day->high_95};
    for (size_t i = 0; i < DW_COUNT(SHARES); i++)
        *to[i] = dw_spread_quantile(&day->wanted, SHARES[i]);
}

static void foresee_day(const dw_forecast__line *line,
                        const dw_forecast__state *state, double mean_factor,
                        dw_forecast_day *day)
{
    bool closed;
    int weekday = dw_forecast__weekday(day->day);
    uint64_t events = dw_forecast__events(line->ask, day->day, &closed);
    dw_forecast__belief of = dw_forecast__expect(state, day->day, events);
    day->wanted = dw_forecast__spread(&of, line->pace.size);
    day->event = event_name(line->ask, day->day);
    day->level = exp(state->at[DW_FORECAST__LEVEL] +
                     dw_forecast__year(state, day->day)) *
                 mean_factor;
    day->weekday_factor =
        exp(state->at[DW_FORECAST__WEEKDAY + weekday]) / mean_factor;
    day->event_factor = 1;
    for (int i = 0; events >> i; i++)
        if (events >> i & 1)
            day->event_factor *= exp(state->effects[i].now.mean);
    if (closed || line->shut[weekday] || always_shut(state, events)) {
        day->wanted.mean = 0;
        if (line->shut[weekday])
            day->weekday_factor = 0;
        else
            day->event_factor = 0;
    }
}

static void foresee(const origin *o, size_t i, dw_forecast_day *days,
                    size_t count)
{
    const dw_forecast__line *line = &o->lines[i];
    dw_forecast__state state = o->states[i];
    double mean_factor = mean_weekday(line, &state);
    dw_forecast__pace pace = dw_forecast__ahead(line, &state);
    for (size_t k = 0; k < count; k++) {
        days[k] = (dw_forecast_day){.day = o->first_day + (int64_t)k};
        dw_forecast__advance(&pace, &state);
        foresee_day(line, &state, mean_factor, &days[k]);
    }
}

static dw_status answer_days(const origin *o, size_t i, dw_forecast *reply)
{
    size_t count = (size_t)o->ask->days;
    reply->days = DW_NEW_ARRAY(o->arena, dw_forecast_day, count);
    if (!reply->days)
        return dw_fail(o->err, DW_E_ROOM, "days", NULL);
    reply->days_count = count;
    foresee(o, i, reply->days, count);
    for (size_t k = 0; k < count; k++) {
        override_day(o->lines[i].series, o->first_day, &reply->days[k]);
        fill_quantiles(&reply->days[k]);
    }
    return DW_OK;
}

/* ---- what was learned -----------------------------------------------------
 */

static dw_status answer_weekdays(const origin *o, size_t i, dw_forecast *reply)
{
    const dw_forecast__line *line = &o->lines[i];
    const dw_forecast__state *state = &o->states[i];
    double mean_factor = mean_weekday(line, state);
    reply->weekday_factors = DW_NEW_ARRAY(o->arena, double, 7);
    if (!reply->weekday_factors)
        return dw_fail(o->err, DW_E_ROOM, "weekday_factors", NULL);
    reply->weekday_factors_count = 7;
    for (int w = 0; w < 7; w++)
        reply->weekday_factors[w] =
            line->shut[w]
                ? 0
                : exp(state->at[DW_FORECAST__WEEKDAY + w]) / mean_factor;
    reply->trend_percent_per_week =
        100 * expm1(7 * state->at[DW_FORECAST__SLOPE]);
    return DW_OK;
}

static dw_status answer_effects(const origin *o, size_t i, dw_forecast *reply)
{
    size_t n = o->ask->events_count;
    reply->effects = DW_NEW_ARRAY(o->arena, dw_forecast_effect, n);
    if (!reply->effects)
        return dw_fail(o->err, DW_E_ROOM, "effects", NULL);
    reply->effects_count = n;
    for (size_t k = 0; k < n; k++) {
        const dw_forecast__effect *e = &o->states[i].effects[k];
        double reach = MIDDLE_80 * sqrt(e->now.variance);
        bool closed = o->ask->events[k].closed;
        reply->effects[k] = (dw_forecast_effect){
            o->ask->events[k].name, closed ? 0 : exp(e->now.mean),
            closed ? 0 : exp(e->now.mean - reach),
            closed ? 0 : exp(e->now.mean + reach), e->seen};
    }
    return DW_OK;
}

static dw_status answer(const origin *o, size_t i, dw_forecast *reply)
{
    const dw_forecast__line *line = &o->lines[i];
    *reply = (dw_forecast){.name = line->series->name,
                           .basis = line->basis,
                           .history_days = (int64_t)line->known};
    if (line->basis == DW_FORECAST_NOTHING)
        return DW_OK;
    DW_TRY(answer_days(o, i, reply));
    DW_TRY(answer_weekdays(o, i, reply));
    return answer_effects(o, i, reply);
}

/* ---- past forecasts, made again -------------------------------------------
 */

typedef struct score {
    double days, in_80, in_95, error, error_last_week;
} score;

/* Mean difference of one week to the next before `to`. */
static double usual_difference(const dw_forecast__line *line, int64_t to)
{
    double sum = 0, n = 0;
    for (int64_t i = 7; i < to; i++) {
        const dw_forecast__day *a = &line->days[i - 7], *b = &line->days[i];
        if (!a->known || !b->known)
            continue;
        sum += fabs((double)(b->balls - a->balls));
        n += 1;
    }
    return n > 0 ? sum / n : 0;
}

static void score_day(const dw_forecast__line *line, int64_t at,
                      const dw_forecast_day *day, score *s)
{
    const dw_forecast__day *came = &line->days[at];
    if (came->sold_out || at < 7 || !line->days[at - 7].known)
        return;
    s->days += 1;
    s->in_80 += dw_spread_covers(&day->wanted, 0.8, came->balls);
    s->in_95 += dw_spread_covers(&day->wanted, 0.95, came->balls);
    s->error += fabs((double)(came->balls - day->middle));
    s->error_last_week +=
        fabs((double)(came->balls - line->days[at - 7].balls));
}

/* One week of one series. */
static void check_week(const origin *then, const dw_forecast__line *line,
                       size_t i, dw_forecast *reply, score *s)
{
    dw_forecast_day days[7];
    if (then->lines[i].basis == DW_FORECAST_NOTHING)
        return;
    foresee(then, i, days, 7);
    for (int k = 0; k < 7; k++) {
        int64_t at = days[k].day - line->start;
        if (at < 0 || !line->days[at].known)
            continue;
        fill_quantiles(&days[k]);
        score_day(line, at, &days[k], s);
        reply->checked[reply->checked_count++] = (dw_forecast_checked){
            days[k].day,     days[k].low_80,       days[k].middle,
            days[k].high_80, line->days[at].balls, line->days[at].sold_out};
    }
}

static void close_record(const score *s, double usual, dw_forecast *reply)
{
    if (s->days <= 0)
        return;
    double scale = s->days * (usual > 0 ? usual : 1);
    reply->has_record = true;
    reply->record = (dw_forecast_record){
        (int64_t)s->days, 100 * s->in_80 / s->days, 100 * s->in_95 / s->days,
        s->error / scale, s->error_last_week / scale};
}

static dw_status answer_checks(const origin *now, dw_forecast *replies)
{
    const dw_forecast_ask *ask = now->ask;
    size_t n = ask->series_count, most = 7 * (size_t)ask->check_weeks;
    score *scores = DW_NEW_ARRAY(now->arena, score, n);
    for (size_t i = 0; i < n; i++)
        if (!(replies[i].checked =
                  DW_NEW_ARRAY(now->arena, dw_forecast_checked, most)))
            return dw_fail(now->err, DW_E_ROOM, "checked", NULL);
    if (!scores)
        return dw_fail(now->err, DW_E_ROOM, "checked", NULL);
    for (int64_t week = ask->check_weeks; week > 0; week--) {
        origin then = *now;
        size_t mark = now->arena->used;
        then.first_day -= 7 * week;
        DW_TRY(learn_all(&then));
        for (size_t i = 0; i < n; i++)
            check_week(&then, &now->lines[i], i, &replies[i], &scores[i]);
        now->arena->used = mark;
    }
    for (size_t i = 0; i < n; i++)
        close_record(&scores[i],
                     usual_difference(&now->lines[i], now->first_day -
                                                          7 * ask->check_weeks -
                                                          now->lines[i].start),
                     &replies[i]);
    return DW_OK;
}

dw_status dw_forecast_run(const dw_forecast_ask *ask, dw_arena *arena,
                          dw_forecast_reply *reply, dw_err *err)
{
    DW_TRY(check_ask(ask, err));
    origin now = {
        .ask = ask, .first_day = ask->first_day, .arena = arena, .err = err};
    dw_forecast *series = DW_NEW_ARRAY(arena, dw_forecast, ask->series_count);
    if (!series)
        return dw_fail(err, DW_E_ROOM, "series", NULL);
    DW_TRY(learn_all(&now));
    for (size_t i = 0; i < ask->series_count; i++)
        DW_TRY(answer(&now, i, &series[i]));
    if (ask->check_weeks > 0)
        DW_TRY(answer_checks(&now, series));
    *reply = (dw_forecast_reply){series, ask->series_count};
    return DW_OK;
}
