#include "doughwright/forecast.h"

#include "doughwright/day.h"
#include "dw_test.h"

#include <stdlib.h>

/* 2026-11-23 is day 20780, a Monday (date -u). */
enum { MONDAY = 20780, WEEKS = 20, DAYS = 7 * WEEKS };

static unsigned char block[4 << 20];

static dw_status run(const dw_forecast_ask *ask, dw_forecast_reply *reply,
                     dw_err *err)
{
    static dw_arena arena;
    dw_arena_init(&arena, block, sizeof block);
    return dw_forecast_run(ask, &arena, reply, err);
}

/* Twenty weeks up to a Sunday; Friday and Saturday sell twice as much. */
typedef struct shop {
    dw_forecast_sale sales[DAYS];
    dw_forecast_series series[2];
    dw_event event;
    dw_forecast_ask ask;
} shop;

static int64_t usual(int64_t weekday)
{
    return weekday == 4 || weekday == 5 ? 80 : 40;
}

static void open_shop(shop *s)
{
    *s = (shop){.ask = {.first_day = MONDAY, .days = 14}};
    for (int i = 0; i < DAYS; i++)
        s->sales[i] =
            (dw_forecast_sale){MONDAY - DAYS + i, usual(i % 7), false};
    s->series[0] = (dw_forecast_series){
        .name = "large", .history = s->sales, .history_count = DAYS};
    s->ask.series = s->series;
    s->ask.series_count = 1;
    s->ask.events = &s->event;
}

TEST(a_weekday_pattern_that_never_changes_is_forecast, DERIVED,
     "the same week twenty times: its means are those of the next")
{
    static shop s;
    dw_forecast_reply reply;
    dw_err err;
    open_shop(&s);
    NEED(run(&s.ask, &reply, &err) == DW_OK);
    const dw_forecast *f = reply.series;
    SAME(f->basis, DW_FORECAST_OWN);
    SAME(f->history_days, DAYS);
    NEED(f->days_count == 14 && f->weekday_factors_count == 7);
    for (int i = 0; i < 14; i++) {
        double want = (double)usual(i % 7);
        SAME(f->days[i].day, MONDAY + i);
        NEAR(f->days[i].wanted.mean, want, 0.02 * want);
        NEAR(f->days[i].level * f->days[i].weekday_factor *
                 f->days[i].event_factor,
             f->days[i].wanted.mean, 1e-9);
        CHECK(f->days[i].low_95 <= f->days[i].low_80);
        CHECK(f->days[i].low_80 <= f->days[i].middle);
        CHECK(f->days[i].middle <= f->days[i].high_80);
        CHECK(f->days[i].high_80 <= f->days[i].high_95);
    }
    NEAR(f->weekday_factors[4], 80 / (360 / 7.0), 0.03);
    NEAR(f->trend_percent_per_week, 0, 0.2);
}

TEST(a_day_that_sold_out_counts_as_at_least, LIMIT,
     "the same numbers, sold out or not")
{
    static shop s;
    dw_forecast_reply reply;
    dw_err err;
    open_shop(&s);
    for (int i = DAYS - 28; i < DAYS; i++)
        if (i % 7 == 4)
            s.sales[i].balls = 60;
    NEED(run(&s.ask, &reply, &err) == DW_OK);
    double as_sold = reply.series->days[4].wanted.mean;
    for (int i = DAYS - 28; i < DAYS; i++)
        s.sales[i].sold_out = i % 7 == 4;
    NEED(run(&s.ask, &reply, &err) == DW_OK);
    double at_least = reply.series->days[4].wanted.mean;
    CHECK(as_sold < 78);
    CHECK(at_least > as_sold + 2);
    NEAR(at_least, 80, 3);
}

TEST(a_level_that_has_shifted_is_believed_within_two_weeks, DERIVED,
     "half as much again from one day on")
{
    static shop s;
    dw_forecast_reply reply;
    dw_err err;
    open_shop(&s);
    for (int i = DAYS - 14; i < DAYS; i++)
        s.sales[i].balls = s.sales[i].balls * 3 / 2;
    NEED(run(&s.ask, &reply, &err) == DW_OK);
    NEAR(reply.series->days[0].wanted.mean, 60, 4);
}

TEST(an_events_effect_is_learned_and_one_that_closes_sells_nothing, DERIVED,
     "three times the usual on the one day of it that was seen")
{
    static shop s;
    dw_forecast_reply reply;
    dw_err err;
    open_shop(&s);
    s.event = (dw_event){.name = "market",
                         .rule = DW_EVENT_NTH_WEEKDAY,
                         .has_month = true,
                         .has_nth = true,
                         .has_weekday = true,
                         .days = 1,
                         .nth = 1,
                         .weekday = 2};
    s.ask.events_count = 1;
    int64_t year;
    int month, date;
    dw_day_to_date(MONDAY + 9, &year, &month, &date); /* Wednesday 2 December */
    SAME(date, 2);
    s.event.month = month;
    SAME(dw_event_on(&s.event, MONDAY + 9), true);
    NEED(run(&s.ask, &reply, &err) == DW_OK);
    NEAR(reply.series->days[9].wanted.mean, 40, 2); /* not seen yet */
    CHECK(reply.series->days[9].high_80 > reply.series->days[2].high_80);
    s.event.has_expected_percent = true;
    s.event.expected_percent = 200;
    NEED(run(&s.ask, &reply, &err) == DW_OK);
    NEAR(reply.series->days[9].wanted.mean, 120, 5);
    SAME_TEXT(reply.series->days[9].event, "market");
    s.event.has_expected_percent = false;
    s.event.month = 11; /* 4 November is in the history */
    s.sales[DAYS - 19].balls = 120;
    SAME(dw_event_on(&s.event, s.sales[DAYS - 19].day), true);
    NEED(run(&s.ask, &reply, &err) == DW_OK);
    double factor = reply.series->effects[0].factor; /* once may be chance */
    CHECK(factor > 2 && factor < 3);
    SAME(reply.series->effects[0].seen, 1);
    s.event.month = 12;
    s.event.closed = true;
    NEED(run(&s.ask, &reply, &err) == DW_OK);
    NEAR(reply.series->days[9].wanted.mean, 0, 0);
    SAME(reply.series->days[9].high_95, 0);
}

TEST(easter_and_other_moving_days_fall_where_the_calendar_says, PUBLISHED,
     "Easter Sunday 2024-03-31, 2025-04-20, 2026-04-05 (almanac); fourth "
     "Thursday of November 2026 is the 26th; last Monday of May 2026 the 25th")
{
    dw_event easter = {.name = "easter",
                       .rule = DW_EVENT_EASTER,
                       .has_offset_days = true,
                       .days = 1};
    CHECK(dw_event_on(&easter, dw_day_from_date(2024, 3, 31)));
    CHECK(dw_event_on(&easter, dw_day_from_date(2025, 4, 20)));
    CHECK(dw_event_on(&easter, dw_day_from_date(2026, 4, 5)));
    CHECK(!dw_event_on(&easter, dw_day_from_date(2026, 4, 6)));
    dw_event nth = {.name = "nth",
                    .rule = DW_EVENT_NTH_WEEKDAY,
                    .has_month = true,
                    .has_nth = true,
                    .has_weekday = true,
                    .month = 11,
                    .nth = 4,
                    .weekday = 3,
                    .days = 2};
    CHECK(dw_event_on(&nth, dw_day_from_date(2026, 11, 26)));
    CHECK(dw_event_on(&nth, dw_day_from_date(2026, 11, 27)));
    CHECK(!dw_event_on(&nth, dw_day_from_date(2026, 11, 28)));
    nth.month = 5;
    nth.nth = -1;
    nth.weekday = 0;
    CHECK(dw_event_on(&nth, dw_day_from_date(2026, 5, 25)));
    CHECK(!dw_event_on(&nth, dw_day_from_date(2026, 5, 18)));
    dw_event leap = {.name = "leap",
                     .rule = DW_EVENT_YEARLY,
                     .has_month = true,
                     .has_date = true,
                     .month = 2,
                     .date = 29,
                     .days = 1};
    CHECK(dw_event_on(&leap, dw_day_from_date(2028, 2, 29)));
    CHECK(!dw_event_on(&leap, dw_day_from_date(2026, 3, 1)));
}

TEST(a_new_product_borrows_the_week_of_one_it_is_like, DERIVED,
     "level from its own three days, weekdays from the other")
{
    static shop s;
    dw_forecast_reply reply;
    dw_err err;
    open_shop(&s);
    static dw_forecast_sale few[] = {{MONDAY - 3, 16, false},
                                     {MONDAY - 2, 17, false},
                                     {MONDAY - 1, 8, false}};
    s.series[1] = (dw_forecast_series){.name = "small",
                                       .history = few,
                                       .history_count = DW_COUNT(few),
                                       .like = "large"};
    s.ask.series_count = 2;
    NEED(run(&s.ask, &reply, &err) == DW_OK);
    const dw_forecast *small = &reply.series[1];
    SAME(small->basis, DW_FORECAST_LIKE);
    NEAR(small->days[0].wanted.mean, 8, 1.5);
    NEAR(small->days[4].wanted.mean / small->days[0].wanted.mean, 2, 0.2);
    CHECK(small->days[0].high_80 > small->days[0].low_80);
}

TEST(without_a_history_the_balls_to_have_say_something, PRACTICE,
     "a shop has more than it sells on a usual day")
{
    static shop s;
    static double par[] = {50, 50, 50, 50, 100, 100, 50};
    dw_forecast_reply reply;
    dw_err err;
    open_shop(&s);
    s.series[0].history_count = 0;
    NEED(run(&s.ask, &reply, &err) == DW_OK);
    SAME(reply.series->basis, DW_FORECAST_NOTHING);
    SAME(reply.series->days_count, 0);
    s.series[0].par = par;
    s.series[0].par_count = 7;
    NEED(run(&s.ask, &reply, &err) == DW_OK);
    const dw_forecast_day *days = reply.series->days;
    SAME(reply.series->basis, DW_FORECAST_PAR);
    CHECK(days[0].wanted.mean > 25 && days[0].wanted.mean < 50);
    NEAR(days[4].wanted.mean / days[0].wanted.mean, 2, 0.01);
    CHECK(days[0].high_80 >= 50); /* unsure enough to hold it */
}

TEST(an_override_counts_until_it_expires_and_shows_both_numbers, LIMIT,
     "its own words")
{
    static shop s;
    static dw_override fair = {.from_day = MONDAY + 4,
                               .to_day = MONDAY + 5,
                               .has_percent = true,
                               .percent = 50,
                               .reason = "street fair",
                               .expires_day = MONDAY + 1};
    dw_forecast_reply reply;
    dw_err err;
    open_shop(&s);
    s.series[0].overrides = &fair;
    s.series[0].overrides_count = 1;
    NEED(run(&s.ask, &reply, &err) == DW_OK);
    const dw_forecast_day *days = reply.series->days;
    NEAR(days[4].wanted.mean, 1.5 * days[4].forecast_mean, 1e-9);
    SAME_TEXT(days[4].override_reason, "street fair");
    CHECK(days[4].middle > 110 && days[5].has_forecast_mean);
    CHECK(!days[3].has_forecast_mean && !days[6].has_forecast_mean);
    fair.expires_day = MONDAY;
    NEED(run(&s.ask, &reply, &err) == DW_OK);
    CHECK(!reply.series->days[4].has_forecast_mean);
}

TEST(past_forecasts_are_made_again_from_what_was_known_then, LIMIT,
     "a week that never changes is met exactly")
{
    static shop s;
    dw_forecast_reply reply;
    dw_err err;
    open_shop(&s);
    s.ask.check_weeks = 4;
    NEED(run(&s.ask, &reply, &err) == DW_OK);
    const dw_forecast *f = reply.series;
    NEED(f->checked_count == 28 && f->has_record);
    SAME(f->checked[0].day, MONDAY - 28);
    SAME(f->checked[27].day, MONDAY - 1);
    for (int i = 0; i < 28; i++) {
        SAME(f->checked[i].came, usual(i % 7));
        NEAR((double)f->checked[i].middle, (double)usual(i % 7), 2);
    }
    NEAR(f->record.covered_80_percent, 100, 1e-9);
    NEAR(f->record.scaled_error_last_week, 0, 1e-9);
}

TEST(a_year_of_zeros_is_forecast_as_nothing, LIMIT, "nothing sold")
{
    static shop s;
    dw_forecast_reply reply;
    dw_err err;
    open_shop(&s);
    for (int i = 0; i < DAYS; i++)
        s.sales[i].balls = 0;
    s.ask.check_weeks = 4;
    NEED(run(&s.ask, &reply, &err) == DW_OK);
    for (int i = 0; i < 14; i++) {
        SAME(reply.series->days[i].high_80, 0);
        CHECK(reply.series->days[i].wanted.mean < 0.1);
    }
}

TEST(days_on_which_a_shop_is_shut_are_noticed, DERIVED,
     "zeros on four Mondays in a row; one day without a sale is passed over")
{
    static shop s;
    dw_forecast_reply reply;
    dw_err err;
    open_shop(&s);
    for (int i = DAYS - 28; i < DAYS; i += 7)
        s.sales[i].balls = 0;
    s.sales[DAYS - 9].balls = 0; /* a Friday */
    NEED(run(&s.ask, &reply, &err) == DW_OK);
    NEAR(reply.series->days[0].wanted.mean, 0, 0);
    NEAR(reply.series->weekday_factors[0], 0, 0);
    NEAR(reply.series->days[4].wanted.mean, 80, 2);
}

TEST(what_makes_no_sense_is_refused_by_name, LIMIT, "each failure once")
{
    static shop s;
    dw_forecast_reply reply = {NULL, 7};
    dw_err err;
    open_shop(&s);
    s.sales[3].day = s.sales[2].day;
    SAME(run(&s.ask, &reply, &err), DW_E_CONFLICT);
    SAME_TEXT(err.field, "series[0].history[3].day");
    open_shop(&s);
    s.event = (dw_event){.name = "no such day",
                         .rule = DW_EVENT_YEARLY,
                         .has_month = true,
                         .has_date = true,
                         .month = 2,
                         .date = 30,
                         .days = 1};
    s.ask.events_count = 1;
    SAME(run(&s.ask, &reply, &err), DW_E_RANGE);
    SAME_TEXT(err.field, "events[0].date");
    NEAR(err.high, 29, 0);
    s.event.has_date = false;
    SAME(run(&s.ask, &reply, &err), DW_E_MISSING);
    open_shop(&s);
    s.series[0].like = "nobody";
    SAME(run(&s.ask, &reply, &err), DW_E_NOT_FOUND);
    SAME_TEXT(err.field, "series[0].like");
    SAME(reply.series_count, 7);
}

TEST(more_history_is_never_needed_to_use_less_memory_than_said, LIMIT,
     "the arena of the header")
{
    static shop s;
    dw_forecast_reply reply;
    dw_err err;
    dw_arena small;
    open_shop(&s);
    dw_arena_init(&small, block, 1000);
    SAME(dw_forecast_run(&s.ask, &small, &reply, &err), DW_E_ROOM);
    dw_arena_init(&small, block, 64 * DAYS + 8000 + 200 * 14);
    SAME(dw_forecast_run(&s.ask, &small, &reply, &err), DW_OK);
}
