/* A series laid out day by day, and what is believed before any day is seen. */
#include "forecast_inner.h"

#include "doughwright/say.h"

#include <math.h>

enum { SHUT_RUN = 4, OPENING_DAYS = 28, SHORT_HISTORY = 14, YEAR_KNOWN = 400 };

/* Judgements of ours, for a start without a history (docs/models/demand.md). */
static const double PAR_SOLD = 0.8; /* of the balls to have */
static const double PAR_VARIANCE = 0.12, PAR_WEEKDAY_VARIANCE = 0.04;
static const double OPEN_VARIANCE = 0.3, WEEKDAY_VARIANCE = 0.25;
static const double LIKE_LEVEL_VARIANCE = 1, LIKE_VARIANCE = 0.02;
static const double YEAR_VARIANCE = 0.02;
static const double EFFECT_VARIANCE = 0.16, EXPECTED_VARIANCE = 0.02;

static int64_t first_sale(const dw_forecast_series *s, int64_t first_day)
{
    int64_t first = first_day;
    for (size_t i = 0; i < s->history_count; i++)
        if (s->history[i].day < first)
            first = s->history[i].day;
    int64_t oldest = first_day - DW_FORECAST_HISTORY_MOST;
    return first > oldest ? first : oldest;
}

static bool closed_weekday(const dw_forecast_ask *ask, int weekday)
{
    for (size_t i = 0; i < ask->closed_weekdays_count; i++)
        if (ask->closed_weekdays[i] == weekday)
            return true;
    return false;
}

uint64_t dw_forecast__events(const dw_forecast_ask *ask, int64_t day,
                             bool *closed)
{
    uint64_t events = 0;
    *closed = closed_weekday(ask, dw_forecast__weekday(day));
    for (size_t i = 0; i < ask->events_count; i++)
        if (dw_event_on(&ask->events[i], day)) {
            *closed = *closed || ask->events[i].closed;
            if (!ask->events[i].closed)
                events |= (uint64_t)1 << i;
        }
    return events;
}

static dw_status lay_sales(dw_forecast__line *line, dw_err *err)
{
    const dw_forecast_series *s = line->series;
    for (size_t i = 0; i < s->history_count; i++) {
        const dw_forecast_sale *sale = &s->history[i];
        int64_t at = sale->day - line->start;
        if (at < 0 || at >= (int64_t)line->count)
            continue;
        dw_forecast__day *day = &line->days[at];
        if (day->known) {
            dw_fail_says(err, DW_E_CONFLICT, "day", NULL,
                         DW_MSG("is there twice"));
            return dw_err_within_item(err, "history", i);
        }
        day->known = true;
        day->balls = sale->balls;
        day->sold_out = sale->sold_out;
        line->known++;
    }
    return DW_OK;
}

static double mean_sale(const dw_forecast__line *line, size_t from, size_t most)
{
    double sum = 0, n = 0;
    for (size_t i = from; i < line->count && n < (double)most; i++) {
        const dw_forecast__day *day = &line->days[i];
        if (!day->known || day->closed)
            continue;
        sum += (double)day->balls;
        n += 1;
    }
    return n > 0 ? sum / n : 0;
}

/* Four zeros in a row on one weekday, of something that sells: shut then. */
static void find_shut_weekdays(dw_forecast__line *line)
{
    double usual = mean_sale(line, 0, line->count);
    if (usual < 2)
        return;
    for (size_t first = 0; first < 7 && first < line->count; first++) {
        size_t run = 0;
        for (size_t i = first; i < line->count; i += 7) {
            dw_forecast__day *day = &line->days[i];
            if (!day->known)
                continue;
            run = day->balls == 0 && !day->sold_out ? run + 1 : 0;
            for (size_t back = 0; run >= SHUT_RUN && back < run; back++)
                if (i >= 7 * back)
                    line->days[i - 7 * back].closed = true;
        }
        line->shut[dw_forecast__weekday(line->start + (int64_t)first)] =
            run >= SHUT_RUN;
    }
}

dw_status dw_forecast__lay(dw_forecast__line *line, int64_t first_day,
                           dw_arena *arena, dw_err *err)
{
    line->start = first_sale(line->series, first_day);
    line->count = (size_t)(first_day - line->start);
    line->days = DW_NEW_ARRAY(arena, dw_forecast__day, line->count + 1);
    if (!line->days)
        return dw_fail(err, DW_E_ROOM, "history", NULL);
    for (size_t i = 0; i < line->count; i++)
        line->days[i].events = dw_forecast__events(
            line->ask, line->start + (int64_t)i, &line->days[i].closed);
    DW_TRY(lay_sales(line, err));
    find_shut_weekdays(line);
    return DW_OK;
}

/* ---- before any day is seen -----------------------------------------------
 */

static void believe_par(dw_forecast__line *line)
{
    double mean = 0;
    for (int i = 0; i < 7; i++)
        mean += line->series->par[i] / 7;
    if (mean <= 0)
        return;
    line->basis = DW_FORECAST_PAR;
    line->level = (dw_forecast__belief){log(PAR_SOLD * mean), PAR_VARIANCE};
    for (int i = 0; i < 7; i++)
        line->weekdays[i] = (dw_forecast__belief){
            log(fmax(line->series->par[i] / mean, 0.05)), PAR_WEEKDAY_VARIANCE};
}

static void believe_like(dw_forecast__line *line,
                         const dw_forecast__state *like, double size)
{
    double sum = 0;
    for (int i = 0; i < 7; i++)
        sum += like->at[DW_FORECAST__WEEKDAY + i] / 7;
    if (line->basis == DW_FORECAST_NOTHING)
        line->level = (dw_forecast__belief){like->at[DW_FORECAST__LEVEL] + sum,
                                            LIKE_LEVEL_VARIANCE};
    for (int i = 0; i < 7; i++) {
        int w = DW_FORECAST__WEEKDAY + i;
        line->weekdays[i] = (dw_forecast__belief){
            like->at[w] - sum, like->cov[w][w] + LIKE_VARIANCE};
    }
    for (size_t i = 0; i < line->ask->events_count; i++)
        line->effects[i] = (dw_forecast__belief){like->effects[i].now.mean,
                                                 like->effects[i].now.variance +
                                                     LIKE_VARIANCE};
    line->pace.size = size;
    line->basis = DW_FORECAST_LIKE;
}

static void believe_own(dw_forecast__line *line)
{
    double mean = mean_sale(line, 0, OPENING_DAYS);
    line->level = (dw_forecast__belief){log(mean + 0.1), OPEN_VARIANCE};
    line->basis = DW_FORECAST_OWN;
}

void dw_forecast__believe(dw_forecast__line *line,
                          const dw_forecast__state *like, double like_size)
{
    line->basis = DW_FORECAST_NOTHING;
    for (int i = 0; i < 7; i++)
        line->weekdays[i] = (dw_forecast__belief){0, WEEKDAY_VARIANCE};
    for (size_t i = 0; i < line->ask->events_count; i++) {
        const dw_event *event = &line->ask->events[i];
        line->effects[i] =
            event->has_expected_percent
                ? (dw_forecast__belief){log1p(event->expected_percent / 100),
                                        EXPECTED_VARIANCE}
                : (dw_forecast__belief){0, EFFECT_VARIANCE};
    }
    line->year_variance = line->count >= YEAR_KNOWN ? YEAR_VARIANCE : 0;
    bool young = line->known < SHORT_HISTORY;
    if (line->series->par_count > 0 && young)
        believe_par(line);
    if (line->known > 0 && line->basis == DW_FORECAST_NOTHING)
        believe_own(line);
    if (like && young)
        believe_like(line, like, like_size);
}
