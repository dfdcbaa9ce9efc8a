#include "business.h"
#include "dw_csv.h"
#include "dw_test.h"

#include "doughwright/day.h"

#include <stdlib.h>

#define FRIDAY 20609
#define NOW_MS 1780660800000LL
#define DAY_MS 86400000LL
#define HOUR_MS 3600000LL
#define MINUTE_MS 60000LL

static void drops_on(business *b, int weekday, int minute)
{
    business_do(b, "outlet.save", "{'name':'Mill'}");
    business_do(b, "outlet.save", "{'name':'Pond'}");
    business_do(b, "drop_day.replace",
                "{'rows':[{'outlet_id':1,'weekday':%d,'at_minute':%d},"
                "{'outlet_id':2,'weekday':%d,'at_minute':%d}]}",
                weekday, minute, weekday, minute);
}

/* The weekly row of the table: dates of ten Tuesdays from 2 September 1997. */
static int weekly_days(int64_t days[16])
{
    FILE *file = fopen(dw_test_data("ical_rrule_vectors.csv"), "r");
    dw_csv row;
    int count = 0;
    while (file && dw_csv_row(file, &row)) {
        if (strcmp(row.cells[1], "FREQ=WEEKLY;COUNT=10") != 0)
            continue;
        for (const char *at = row.cells[2]; *at; at += strcspn(at, " ")) {
            at += *at == ' ';
            int year = atoi(at), month = atoi(at + 5), date = atoi(at + 8);
            days[count++] = dw_day_from_date(year, month, date);
        }
    }
    if (file)
        fclose(file);
    return count;
}

TEST(a_weekly_drop_is_at_nine_on_the_wall_clock_either_side_of_the_night,
     PUBLISHED,
     "RFC 5545, 3.8.5.3, weekly for ten occurrences in New York; clocks went "
     "back on 26 October 1997: 13:00 UTC before, 14:00 after")
{
    int64_t days[16];
    business b;
    NEED(weekly_days(days) == 10);
    business_start(&b);
    business_set_up(&b);
    business_wait(&b, -(double)(FRIDAY - days[0] + 1) * 24 * 60);
    drops_on(&b, 1, 540);
    for (int i = 0; i < 10; i++) {
        business_do(&b, "drop.list", "{'from_day':%lld,'days':7}",
                    (long long)days[i]);
        SAME(business_size(&b, "drops"), 2);
        SAME(business_number(&b, "drops.0.day"), days[i]);
        int hour = days[i] < dw_day_from_date(1997, 10, 26) ? 13 : 14;
        SAME(business_number(&b, "drops.0.at_ms"),
             days[i] * DAY_MS + hour * HOUR_MS);
    }
    business_stop(&b);
}

TEST(the_calendar_has_batches_closings_drops_and_cut_offs, DERIVED,
     "by hand: a batch of today, drops next Friday, orders close 18 h before")
{
    business b;
    business_start(&b);
    business_set_up(&b);
    drops_on(&b, 4, 840);
    business_do(&b, "batch.plan",
                "{'day':%d,'pieces':[{'product_id':1,'balls':80}]}", FRIDAY);
    business_do(&b, "calendar.list", "{'days':8}");
    int kinds[4] = {0};
    for (size_t i = 0; i < business_size(&b, "events"); i++) {
        static const char *const words[] = {"mix", "close", "drop", "cutoff"};
        char path[64];
        snprintf(path, sizeof path, "events.%zu.kind", i);
        for (int k = 0; k < 4; k++)
            kinds[k] += strcmp(business_text(&b, path), words[k]) == 0;
    }
    SAME(kinds[0], 1);
    SAME(kinds[1], 1);
    SAME(kinds[2], 4); /* two shops, today and in a week */
    SAME(kinds[3], 2); /* today's cut-off has passed */
    SAME_TEXT(business_text(&b, "events.0.summary"),
              "Mix batch 1: White dough");
    SAME_TEXT(business_text(&b, "events.0.uid"), "mix-1");
    business_stop(&b);
}

/* A stack boxed at 22:00 in New York on that day: ms until it is to be closed,
 * as the calendar has it. */
static double cold_hours(int64_t day, int64_t utc_hour)
{
    business b;
    business_start(&b);
    business_set_up(&b);
    long long boxed = (day + 1) * DAY_MS + (utc_hour - 24) * HOUR_MS;
    business_wait(&b, (double)(boxed + HOUR_MS - NOW_MS) / MINUTE_MS);
    business_do(&b, "batch.plan", "{'pieces':[{'product_id':1,'balls':80}]}");
    business_do(&b, "batch.enter",
                "{'batch_id':1,'room_c':23,'dough_c':25,'started_ms':%lld,"
                "'stopped_ms':%lld,'pieces':[{'id':1,'balls_made':80}],"
                "'first_box_ms':%lld,'last_box_ms':%lld}",
                boxed - 34 * MINUTE_MS, boxed - 20 * MINUTE_MS, boxed, boxed);
    business_do(&b, "calendar.list", "{'days':2}");
    SAME(business_size(&b, "events"), 1);
    SAME_TEXT(business_text(&b, "events.0.kind"), "close");
    double ms = business_number(&b, "events.0.start_ms") - (double)boxed;
    business_stop(&b);
    return ms;
}

TEST(hours_of_cold_are_hours_and_not_clock, LIMIT,
     "a stack boxed at 22:00 cools as long on 7 March 2026, when clocks go "
     "forward at 02:00, as a week before; 22:00 is 03:00 UTC")
{
    double before = cold_hours(20512, 27), night = cold_hours(20519, 27);
    CHECK(before > 1.5 * HOUR_MS && before < 4 * HOUR_MS);
    SAME(night, before);
}

TEST(a_subscription_is_a_key_that_can_be_taken_back, LIMIT, "calendar.h")
{
    char key[80], other[80];
    business b;
    business_start(&b);
    business_set_up(&b);
    drops_on(&b, 4, 840);
    business_do(&b, "calendar.share", "{'outlet_id':2}");
    snprintf(key, sizeof key, "%s", business_text(&b, "key"));
    SAME(strlen(key), 32);
    business_do(&b, "calendar.share", "{}");
    snprintf(other, sizeof other, "%s", business_text(&b, "key"));
    CHECK(strcmp(key, other) != 0);
    business_do(&b, "calendar.feed", "{'secret':'%s'}", key);
    SAME_TEXT(business_text(&b, "name"), "Alder Street, Pond");
    for (size_t i = 0; i < business_size(&b, "events"); i++) {
        char path[64];
        snprintf(path, sizeof path, "events.%zu.summary", i);
        CHECK(strstr(business_text(&b, path), "Mill") == NULL);
    }
    business_do(&b, "calendar.shares", "{}");
    SAME(business_size(&b, "keys"), 2);
    business_do(&b, "calendar.unshare", "{'id':1}");
    SAME(business_ask(&b, "calendar.feed", "{'secret':'%s'}", key),
         DW_E_NOT_FOUND);
    SAME(business_ask(&b, "calendar.unshare", "{'id':1}"), DW_E_NOT_FOUND);
    SAME(business_ask(&b, "calendar.share", "{'outlet_id':9}"), DW_E_NOT_FOUND);
    SAME(business_ask(&b, "calendar.list", "{'days':29}"), DW_E_RANGE);
    business_stop(&b);
}
