#include "doughwright/day.h"
#include "dw_test.h"

TEST(days_are_counted_from_1970, DERIVED, "Python's datetime.date")
{
    SAME(dw_day_from_date(1970, 1, 1), 0);
    SAME(dw_day_from_date(1969, 12, 31), -1);
    SAME(dw_day_from_date(1900, 2, 28), -25509);
    SAME(dw_day_from_date(2000, 2, 29), 11016);
    SAME(dw_day_from_date(2026, 11, 24), 20781);
    SAME(dw_day_from_date(2100, 3, 1), 47541);
    SAME(dw_day_from_date(2400, 2, 29), 157113);
}

TEST(weekdays_follow_the_calendar, PUBLISHED,
     "calendar: 2026-11-24 is a Tuesday, 1970-01-01 a Thursday")
{
    SAME(dw_day_weekday(20781), 2);
    SAME(dw_day_weekday(0), 4);
    SAME(dw_day_weekday(-1), 3);
    SAME(dw_day_weekday(-8), 3);
}

TEST(every_day_of_a_thousand_years_comes_back, LIMIT, "round trip")
{
    int64_t last_year = 0;
    int last_month = 0, wrong = 0;
    for (int64_t days = -182621; days < 182622; days++) {
        int64_t year;
        int month, day;
        dw_day_to_date(days, &year, &month, &day);
        wrong += dw_day_from_date(year, month, day) != days;
        wrong += month < 1 || month > 12 || day < 1 || day > 31;
        wrong += day == 1 && month == last_month;
        last_year = year;
        last_month = month;
    }
    SAME(wrong, 0);
    SAME(last_year, 2469); /* 1470-01-01 to 2469-12-31, by Python */
}
