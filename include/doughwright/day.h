/* Civil days: a date as a whole number, so that days can be counted.
 *
 * Day 0 is 1970-01-01 in the Gregorian calendar, which is used for all years
 * (proleptic); day 20781 is 2026-11-24. Method: H. Hinnant, "chrono-compatible
 * low-level date algorithms". */
#ifndef DOUGHWRIGHT_DAY_H
#define DOUGHWRIGHT_DAY_H

#include "doughwright/base.h"

/* month 1..12, day 1..31 (days past the month's end run into the next); years
 * -100000..100000. */
int64_t dw_day_from_date(int64_t year, int month, int day);
void dw_day_to_date(int64_t days, int64_t *year, int *month, int *day);
/* 0 Sunday .. 6 Saturday. */
int dw_day_weekday(int64_t days);

#endif
