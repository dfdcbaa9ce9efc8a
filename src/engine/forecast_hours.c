/* The hours of a day: which share of a day's balls each hour has. */
#include "doughwright/forecast.h"

#include "forecast_inner.h"

#include <math.h>

enum { HOURS = 24, WEEKDAYS = 7 };

static const double DRAWN_BALLS = 100; /* of all days, into each weekday */
static const double HALF_LIFE_DAYS = 56;

typedef struct tally {
    double balls[WEEKDAYS][HOURS], all[HOURS], sum;
    int64_t days[WEEKDAYS];
} tally;

static int64_t newest(const dw_hours_ask *ask)
{
    int64_t day = 0;
    for (size_t i = 0; i < ask->sales_count; i++)
        if (ask->sales[i].day > day)
            day = ask->sales[i].day;
    return day;
}

static dw_status count_days(const dw_hours_ask *ask, int64_t last,
                            dw_arena *arena, tally *t, dw_err *err)
{
    size_t span = (size_t)last + 1, mark = arena->used;
    bool *heard = DW_NEW_ARRAY(arena, bool, span);
    if (!heard)
        return dw_fail(err, DW_E_ROOM, "sales", NULL);
    for (size_t i = 0; i < ask->sales_count; i++)
        heard[ask->sales[i].day] = true;
    for (size_t day = 0; day < span; day++)
        t->days[dw_forecast__weekday((int64_t)day)] += heard[day];
    arena->used = mark;
    return DW_OK;
}

static void add_up(const dw_hours_ask *ask, int64_t last, tally *t)
{
    for (size_t i = 0; i < ask->sales_count; i++) {
        const dw_hour_sale *sale = &ask->sales[i];
        double weight = exp2(-(double)(last - sale->day) / HALF_LIFE_DAYS) *
                        (double)sale->balls;
        t->balls[dw_forecast__weekday(sale->day)][sale->hour] += weight;
        t->all[sale->hour] += weight;
        t->sum += weight;
    }
}

static dw_status fill(const tally *t, int weekday, dw_arena *arena,
                      dw_hours_day *day, dw_err *err)
{
    double sum = DRAWN_BALLS;
    *day = (dw_hours_day){.weekday = weekday, .days = t->days[weekday]};
    day->shares = DW_NEW_ARRAY(arena, double, HOURS);
    if (!day->shares)
        return dw_fail(err, DW_E_ROOM, "weekdays", NULL);
    day->shares_count = HOURS;
    for (int h = 0; h < HOURS; h++)
        sum += t->balls[weekday][h];
    for (int h = 0; h < HOURS; h++)
        day->shares[h] =
            (t->balls[weekday][h] + DRAWN_BALLS * t->all[h] / t->sum) / sum;
    return DW_OK;
}

dw_status dw_hours_run(const dw_hours_ask *ask, dw_arena *arena,
                       dw_hours_reply *reply, dw_err *err)
{
    int64_t last = newest(ask);
    tally t = {.sum = 0};
    add_up(ask, last, &t);
    if (t.sum <= 0) {
        *reply = (dw_hours_reply){NULL, 0};
        return DW_OK;
    }
    DW_TRY(count_days(ask, last, arena, &t, err));
    dw_hours_day *days = DW_NEW_ARRAY(arena, dw_hours_day, WEEKDAYS);
    if (!days)
        return dw_fail(err, DW_E_ROOM, "weekdays", NULL);
    for (int i = 0; i < WEEKDAYS; i++)
        DW_TRY(fill(&t, i, arena, &days[i], err));
    *reply = (dw_hours_reply){days, WEEKDAYS};
    return DW_OK;
}
