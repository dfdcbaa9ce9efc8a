/* When an event falls. */
#include "doughwright/forecast.h"

#include "doughwright/day.h"
#include "doughwright/say.h"

static const int month_days[12] = {31, 29, 31, 30, 31, 30,
                                   31, 31, 30, 31, 30, 31};

static dw_status check_yearly(const dw_event *event, dw_err *err)
{
    if (!event->has_month)
        return dw_fail(err, DW_E_MISSING, "month", NULL);
    if (!event->has_date)
        return dw_fail(err, DW_E_MISSING, "date", NULL);
    return dw_check_range(err, "date", (double)event->date, 1,
                          month_days[event->month - 1]);
}

static dw_status check_nth(const dw_event *event, dw_err *err)
{
    if (!event->has_month)
        return dw_fail(err, DW_E_MISSING, "month", NULL);
    if (!event->has_weekday)
        return dw_fail(err, DW_E_MISSING, "weekday", NULL);
    if (!event->has_nth)
        return dw_fail(err, DW_E_MISSING, "nth", NULL);
    if (event->nth == 0)
        return dw_fail_says(err, DW_E_RANGE, "nth", "0",
                            DW_MSG("is 1 to 4, or -1 for the last"));
    return DW_OK;
}

dw_status dw_event_check(const dw_event *event, dw_err *err)
{
    DW_TRY(dw_shape_check(&dw_event_shape, event, err));
    switch (event->rule) {
    case DW_EVENT_ONCE:
        return event->has_day ? DW_OK : dw_fail(err, DW_E_MISSING, "day", NULL);
    case DW_EVENT_YEARLY: return check_yearly(event, err);
    case DW_EVENT_NTH_WEEKDAY: return check_nth(event, err);
    default:
        return event->has_offset_days
                   ? DW_OK
                   : dw_fail(err, DW_E_MISSING, "offset_days", NULL);
    }
}

/* The first day of the nth weekday of a month; the last for nth -1. */
static int64_t nth_weekday(int64_t year, int month, int64_t nth,
                           int64_t weekday)
{
    int64_t first =
        nth > 0 ? dw_day_from_date(year, month, 1)
                : dw_day_from_date(year + month / 12, month % 12 + 1, 1) - 7;
    int64_t ahead = (weekday + 1 - dw_day_weekday(first) + 7) % 7;
    return first + ahead + (nth > 0 ? 7 * (nth - 1) : 0);
}

/* Easter Sunday of the Gregorian calendar (Meeus/Jones/Butcher). */
static int64_t easter(int64_t year)
{
    int64_t a = year % 19, b = year / 100, c = year % 100;
    int64_t d = b / 4, e = b % 4, f = (b + 8) / 25, g = (b - f + 1) / 3;
    int64_t h = (19 * a + b - d - g + 15) % 30, i = c / 4, k = c % 4;
    int64_t l = (32 + 2 * e + 2 * i - h - k) % 7;
    int64_t m = (a + 11 * h + 22 * l) / 451, n = h + l - 7 * m + 114;
    return dw_day_from_date(year, (int)(n / 31), (int)(n % 31 + 1));
}

/* Its first day in a year; below 0: none. */
static int64_t first_day(const dw_event *event, int64_t year)
{
    int month = (int)event->month, date = (int)event->date;
    switch (event->rule) {
    case DW_EVENT_ONCE: return event->day;
    case DW_EVENT_YEARLY: {
        int64_t day = dw_day_from_date(year, month, date), back_year;
        int back_month, back_date;
        dw_day_to_date(day, &back_year, &back_month, &back_date);
        return back_month == month ? day : -1000;
    }
    case DW_EVENT_NTH_WEEKDAY:
        return nth_weekday(year, month, event->nth, event->weekday);
    default: return easter(year) + event->offset_days;
    }
}

bool dw_event_on(const dw_event *event, int64_t day)
{
    int64_t year;
    int month, date;
    dw_day_to_date(day, &year, &month, &date);
    for (int64_t y = year - 1; y <= year + 1; y++) {
        int64_t first = first_day(event, y);
        if (day >= first && day < first + event->days)
            return true;
    }
    return false;
}
