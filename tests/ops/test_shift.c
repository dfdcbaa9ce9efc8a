#include "business.h"
#include "dw_test.h"

#define FRIDAY 20609
#define FRIDAY_MS 1780617600000LL /* 2026-06-05 00:00 UTC */
#define HOUR_MS 3600000LL

/* Ana works Fridays 07:00 to 15:00, Luis 14:00 to 22:00. */
static void start(business *b)
{
    business_start(b);
    business_set_up(b);
    business_do(b, "person.save", "{'name':'Ana'}");
    business_do(b, "person.save", "{'name':'Luis'}");
    business_do(b, "shift.replace",
                "{'rows':[{'person_id':1,'weekday':4,'from_minute':420,"
                "'to_minute':900},{'person_id':2,'weekday':4,"
                "'from_minute':840,'to_minute':1320},{'person_id':1,"
                "'weekday':5,'from_minute':360,'to_minute':840}]}");
}

TEST(who_is_there_comes_from_the_weeks_shifts, DERIVED,
     "by hand: New York is four hours behind UTC in June")
{
    business b;
    start(&b);
    business_do(&b, "shift.day", "{}");
    SAME(business_size(&b, "people.people"), 2);
    SAME_TEXT(business_text(&b, "people.people.0.name"), "Ana");
    SAME(business_number(&b, "people.first_ms"), FRIDAY_MS + 11 * HOUR_MS);
    SAME(business_number(&b, "people.leaves_ms"), FRIDAY_MS + 26 * HOUR_MS);
    business_do(&b, "today.get", "{}");
    SAME(business_number(&b, "leaves_ms"), FRIDAY_MS + 26 * HOUR_MS);
    /* Luis is ill: the last one leaves at 15:00, and the run says so */
    business_do(&b, "shift_change.save",
                "{'day':%d,'person_id':2,'note':'ill'}", FRIDAY);
    business_do(&b, "shift.day", "{}");
    SAME(business_size(&b, "people.people"), 1);
    SAME(business_number(&b, "people.leaves_ms"), FRIDAY_MS + 19 * HOUR_MS);
    /* Ana stays on */
    business_do(&b, "shift_change.save",
                "{'day':%d,'person_id':1,'here':true,'from_minute':420,"
                "'to_minute':1200}",
                FRIDAY);
    business_do(&b, "shift.day", "{}");
    SAME(business_number(&b, "people.leaves_ms"), FRIDAY_MS + 24 * HOUR_MS);
    business_stop(&b);
}

TEST(a_stack_is_left_to_who_is_there_when_it_closes, DERIVED,
     "by hand: boxed at 11:30, closed at 14:00 and 14:30 UTC-4; nobody after "
     "22:00 until Ana at 06:00")
{
    business b;
    start(&b);
    business_wait(&b, 5 * 60); /* 13:00 in New York */
    business_do(&b, "batch.plan", "{'pieces':[{'product_id':1,'balls':80}]}");
    business_do(&b, "shift.day", "{}");
    NEED(business_size(&b, "closings") == 1);
    SAME(business_number(&b, "closings.0.number"), 1);
    SAME(business_number(&b, "closings.0.stack_id"), 0);
    SAME(business_number(&b, "closings.0.balls"), 92); /* a whole bag */
    CHECK(json_is_false(business_at(&b, "closings.0.nobody")));
    double close = business_number(&b, "closings.0.close_ms");
    CHECK(close > FRIDAY_MS + 19 * HOUR_MS); /* after Ana left */
    SAME_TEXT(business_text(&b, "closings.0.who"), "Luis");
    /* without Luis it is left to Ana, tomorrow */
    business_do(&b, "shift_change.save", "{'day':%d,'person_id':2}", FRIDAY);
    business_do(&b, "shift.day", "{}");
    CHECK(json_is_true(business_at(&b, "closings.0.nobody")));
    SAME_TEXT(business_text(&b, "closings.0.next"), "Ana");
    SAME(business_number(&b, "closings.0.next_ms"), FRIDAY_MS + 34 * HOUR_MS);
    business_do(&b, "run.get", "{}");
    CHECK(
        json_is_true(business_at(&b, "mixers.0.run.batches.0.stacks.0.late")));
    business_stop(&b);
}

TEST(one_person_short_is_a_pair_of_hands_less, DERIVED,
     "92 balls at 4 a minute: 11.5 min with two pairs of hands, 23 with one")
{
    business b;
    start(&b);
    business_do(&b, "batch.plan", "{'pieces':[{'product_id':1,'balls':80}]}");
    business_do(&b, "run.get", "{}");
    NEAR(business_number(&b, "mixers.0.run.batches.0.bench_minutes"), 11.5,
         1e-9);
    business_do(&b, "shift_change.save", "{'day':%d,'person_id':2}", FRIDAY);
    business_do(&b, "run.get", "{}");
    NEAR(business_number(&b, "mixers.0.run.batches.0.bench_minutes"), 23, 1e-9);
    business_stop(&b);
}

TEST(a_holiday_has_nobody_and_a_shop_without_shifts_its_hours, DERIVED,
     "opening hours of the business: 07:00 to 22:00")
{
    business b;
    business_start(&b);
    business_set_up(&b);
    business_do(&b, "shift.day", "{}");
    CHECK(json_is_false(business_at(&b, "people.by_shifts")));
    SAME(business_number(&b, "people.leaves_ms"), FRIDAY_MS + 26 * HOUR_MS);
    business_do(&b, "shift_change.save", "{'day':%d,'note':'fair day'}",
                FRIDAY);
    business_do(&b, "shift.day", "{}");
    CHECK(json_is_true(business_at(&b, "people.closed")));
    SAME_TEXT(business_text(&b, "people.note"), "fair day");
    SAME(business_number(&b, "people.leaves_ms"), 0);
    business_do(&b, "shift.list", "{}");
    SAME(business_size(&b, "changes"), 1);
    business_do(&b, "shift_change.remove", "{'id':1}");
    business_do(&b, "shift.day", "{}");
    CHECK(json_is_false(business_at(&b, "people.closed")));
    business_stop(&b);
}

TEST(a_night_shift_has_as_many_hours_as_the_night, DERIVED,
     "New York, 7 to 8 March 2026: clocks go from 02:00 to 03:00, so 22:00 to "
     "06:00 is seven hours; day 20519 is a Saturday")
{
    business b;
    business_start(&b);
    business_set_up(&b);
    business_do(&b, "person.save", "{'name':'Ana'}");
    business_do(&b, "shift.replace",
                "{'rows':[{'person_id':1,'weekday':5,'from_minute':1320,"
                "'to_minute':1800}]}");
    business_do(&b, "shift.day", "{'day':20519}");
    SAME(business_number(&b, "people.leaves_ms") -
             business_number(&b, "people.first_ms"),
         7 * HOUR_MS);
    business_do(&b, "shift.day", "{'day':20526}");
    SAME(business_number(&b, "people.leaves_ms") -
             business_number(&b, "people.first_ms"),
         8 * HOUR_MS);
    business_stop(&b);
}

TEST(shifts_that_make_no_sense_change_nothing, LIMIT, "bad input")
{
    business b;
    start(&b);
    SAME(business_ask(&b, "shift.replace",
                      "{'rows':[{'person_id':1,'weekday':4,'from_minute':900,"
                      "'to_minute':420}]}"),
         DW_E_RANGE);
    SAME_TEXT(b.err.field, "rows.to_minute");
    SAME(business_ask(&b, "shift.replace",
                      "{'rows':[{'person_id':9,'weekday':4,'from_minute':420,"
                      "'to_minute':900}]}"),
         DW_E_NOT_FOUND);
    SAME(business_ask(&b, "shift.replace",
                      "{'rows':[{'person_id':1,'weekday':7,'from_minute':420,"
                      "'to_minute':900}]}"),
         DW_E_RANGE);
    SAME(business_ask(&b, "shift_change.save",
                      "{'day':%d,'person_id':1,'here':true,"
                      "'from_minute':600,'to_minute':600}",
                      FRIDAY),
         DW_E_RANGE);
    SAME(business_ask(&b, "shift_change.remove", "{'id':3}"), DW_E_NOT_FOUND);
    SAME(business_ask(&b, "service.save", "{'run_down':'guess'}"), DW_E_CHOICE);
    business_do(&b, "service.get", "{}");
    SAME_TEXT(business_text(&b, "run_down"), "pull_sheet");
    business_do(&b, "shift.list", "{}");
    SAME(business_size(&b, "rows"), 3);
    business_stop(&b);
}
