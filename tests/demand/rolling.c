#include "rolling.h"

#include "dw_test.h"
#include "scores.h"

#include <stdlib.h>

enum { ARENA = 64 << 20 };

/* What the shop would tell: its sales and its calendar, not what was wanted. */
static void tell(const made_business *b, dw_forecast_ask *ask,
                 dw_forecast_series *series, dw_event *events, int64_t *closed)
{
    static const char *const names[] = {"a", "b", "c", "d", "e", "f", "g", "h"};
    for (int i = 0; i < b->series; i++) {
        dw_forecast_sale *sales = calloc(BUSINESS_DAYS, sizeof *sales);
        for (int d = b->begins; d < BUSINESS_DAYS; d++)
            sales[d - b->begins] = (dw_forecast_sale){
                b->first_day + d, b->sold[i][d], b->sold_out[i][d]};
        series[i] = (dw_forecast_series){
            .name = names[i],
            .history = sales,
            .history_count = (size_t)(BUSINESS_DAYS - b->begins)};
    }
    for (int i = 0; i < b->events_count; i++)
        events[i] = (dw_event){.name = b->events[i].name,
                               .rule = DW_EVENT_YEARLY,
                               .has_month = true,
                               .has_date = true,
                               .month = b->events[i].month,
                               .date = b->events[i].date,
                               .days = 1,
                               .closed = b->events[i].closed};
    *ask = (dw_forecast_ask){.days = ROLLING_DAYS,
                             .series = series,
                             .series_count = (size_t)b->series,
                             .events = events,
                             .events_count = (size_t)b->events_count,
                             .closed_weekdays = closed};
    if (b->closed_weekday >= 0)
        closed[ask->closed_weekdays_count++] = b->closed_weekday;
}

static double usual_difference(const made_business *b, int series, int to)
{
    double sum = 0;
    for (int d = b->begins + 7; d < to; d++)
        sum += fabs((double)(b->sold[series][d] - b->sold[series][d - 7]));
    return sum / (to - b->begins - 7);
}

/* Days that are closed, or of which nobody knows what was wanted, do not count.
 */
static bool counts(const made_business *b, int series, int day,
                   const dw_forecast_day *forecast)
{
    bool hidden = b->sold_out[series][day] &&
                  b->wanted[series][day] == b->sold[series][day];
    return forecast->wanted.mean > 0 && !hidden;
}

enum { MEMBERS = 8 };

/* What a shop without a forecast goes by: the last same weekdays. */
static void score_weekdays(const made_business *b, int series, int origin,
                           int ahead, double scale, rolled *sum)
{
    double members[MEMBERS], least = INFINITY, most = 0;
    double came = (double)b->wanted[series][origin + ahead];
    for (int i = 0; i < MEMBERS; i++) {
        members[i] = (double)b->sold[series][origin + ahead % 7 - 7 * (i + 1)];
        least = fmin(least, members[i]);
        most = fmax(most, members[i]);
    }
    sum->crps_naive += score_members(members, MEMBERS, came) / scale;
    sum->band_naive += score_interval(least, most, 0.2, came) / scale;
    sum->service_naive += score_pinball(0.9, most, came) / scale;
}

static void score(const made_business *b, int series, int origin, int ahead,
                  const dw_forecast_day *forecast, double given, rolled *sum)
{
    int day = origin + ahead;
    double scale = usual_difference(b, series, origin);
    int64_t came = b->wanted[series][day];
    int64_t before = b->sold[series][origin + ahead % 7 - 7];
    if (!counts(b, series, day, forecast))
        return;
    sum->forecasts++;
    sum->scaled += fabs((double)(came - forecast->middle)) / scale;
    sum->scaled_naive += fabs((double)(came - before)) / scale;
    sum->scaled_given += fabs((double)came - given) / scale;
    sum->in_80 += dw_spread_covers(&forecast->wanted, 0.8, came);
    sum->in_95 += dw_spread_covers(&forecast->wanted, 0.95, came);
    sum->crps += dw_spread_crps(&forecast->wanted, came) / scale;
    sum->band += score_interval((double)forecast->low_80,
                                (double)forecast->high_80, 0.2, (double)came) /
                 scale;
    sum->service +=
        score_pinball(0.9, (double)forecast->high_80, (double)came) / scale;
    score_weekdays(b, series, origin, ahead, scale, sum);
}

void rolling_origin(const made_business *b, int weeks, const double *given,
                    rolled *out)
{
    dw_forecast_series series[8];
    dw_event events[BUSINESS_EVENTS_MOST];
    int64_t closed[1];
    dw_forecast_ask ask;
    void *block = malloc(ARENA);
    tell(b, &ask, series, events, closed);
    *out = (rolled){0};
    for (int week = 0; week < weeks; week++) {
        int origin = BUSINESS_DAYS - ROLLING_DAYS - 7 * (weeks - 1 - week);
        dw_arena arena;
        dw_forecast_reply reply;
        dw_err err;
        dw_arena_init(&arena, block, ARENA);
        ask.first_day = b->first_day + origin;
        NEED(dw_forecast_run(&ask, &arena, &reply, &err) == DW_OK);
        for (int i = 0; i < b->series; i++)
            for (int k = 0; k < ROLLING_DAYS; k++) {
                int at = (week * b->series + i) * ROLLING_DAYS + k;
                score(b, i, origin, k, &reply.series[i].days[k],
                      given ? given[at] : 0, out);
            }
    }
    double n = out->forecasts;
    out->scaled /= n;
    out->scaled_naive /= n;
    out->scaled_given /= n;
    out->in_80 /= n;
    out->in_95 /= n;
    out->crps /= n;
    out->crps_naive /= n;
    out->band /= n;
    out->band_naive /= n;
    out->service /= n;
    out->service_naive /= n;
    free(block);
    for (int i = 0; i < b->series; i++)
        free(series[i].history);
}
