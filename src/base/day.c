#include "doughwright/day.h"

/* Years begin in March here, so that the leap day is the last of its year;
 * 400 years are an era of 146097 days. */
enum { ERA_DAYS = 146097, DAYS_TO_1970 = 719468 };

static int64_t floor_div(int64_t a, int64_t b)
{
    return a / b - (a % b < 0);
}

int64_t dw_day_from_date(int64_t year, int month, int day)
{
    int64_t y = month <= 2 ? year - 1 : year;
    int64_t era = floor_div(y, 400);
    int64_t year_of_era = y - era * 400;
    int64_t month_from_march = (month + 9) % 12;
    int64_t day_of_year = (153 * month_from_march + 2) / 5 + day - 1;
    int64_t day_of_era =
        year_of_era * 365 + year_of_era / 4 - year_of_era / 100 + day_of_year;
    return era * ERA_DAYS + day_of_era - DAYS_TO_1970;
}

void dw_day_to_date(int64_t days, int64_t *year, int *month, int *day)
{
    int64_t from_march = days + DAYS_TO_1970;
    int64_t era = floor_div(from_march, ERA_DAYS);
    int64_t day_of_era = from_march - era * ERA_DAYS;
    int64_t year_of_era = (day_of_era - day_of_era / 1460 + day_of_era / 36524 -
                           day_of_era / (ERA_DAYS - 1)) /
                          365;
    int64_t day_of_year =
        day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
    int64_t month_from_march = (5 * day_of_year + 2) / 153;
    *day = (int)(day_of_year - (153 * month_from_march + 2) / 5 + 1);
    *month = (int)(month_from_march < 10 ? month_from_march + 3
                                         : month_from_march - 9);
    *year = year_of_era + era * 400 + (*month <= 2);
}

int dw_day_weekday(int64_t days)
{
    int64_t from_sunday = days + 4; /* day 0 was a Thursday */
    return (int)(from_sunday - 7 * floor_div(from_sunday, 7));
}
