/* How long 200 series of three years take to learn and forecast 14 days. */
#include "doughwright/forecast.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { SERIES = 200, DAYS = 1096, FIRST = 19700, ARENA = 64 << 20 };

static double seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec + (double)now.tv_nsec * 1e-9;
}

/* A week's shape, a year's swing, and some scatter. */
static int64_t sold(int series, int day)
{
    static const double week[] = {.8, .8, .9, 1, 1.3, 1.4, .8};
    double mean = (5 + series) * week[day % 7] *
                  (1 + 0.2 * sin(6.2831853 * day / 365.25));
    return (int64_t)(mean * (0.75 + 0.5 * rand() / RAND_MAX) + 0.5);
}

int main(void)
{
    static dw_forecast_series series[SERIES];
    static char names[SERIES][8];
    for (int i = 0; i < SERIES; i++) {
        dw_forecast_sale *sales = malloc(DAYS * sizeof *sales);
        snprintf(names[i], sizeof names[i], "s%d", i);
        for (int d = 0; sales && d < DAYS; d++)
            sales[d] = (dw_forecast_sale){FIRST + d, sold(i, d), d % 40 == 7};
        series[i] = (dw_forecast_series){
            .name = names[i], .history = sales, .history_count = DAYS};
    }
    dw_event event = {.name = "new year",
                      .rule = DW_EVENT_YEARLY,
                      .has_month = true,
                      .has_date = true,
                      .month = 1,
                      .date = 1,
                      .days = 1};
    const dw_forecast_ask ask = {.first_day = FIRST + DAYS,
                                 .days = 14,
                                 .series = series,
                                 .series_count = SERIES,
                                 .events = &event,
                                 .events_count = 1};
    dw_arena arena;
    dw_forecast_reply reply;
    dw_err err;
    dw_arena_init(&arena, malloc(ARENA), ARENA);
    double start = seconds();
    if (dw_forecast_run(&ask, &arena, &reply, &err) != DW_OK)
        return 1;
    printf("{\"bench\":\"forecast\",\"series\":%d,\"days\":%d,"
           "\"seconds\":%.3f,\"mebibytes\":%.1f}\n",
           SERIES, DAYS, seconds() - start, (double)arena.used / (1 << 20));
    for (int i = 0; i < SERIES; i++)
        free(series[i].history);
    return 0;
}
