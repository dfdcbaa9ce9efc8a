#include "business.h"
#include "dw_test.h"

/* 2026-06-05 is day 20609 (date -u -d 2026-06-05 +%s / 86400), a Friday. */
#define FRIDAY 20609

TEST(a_count_says_what_is_short_for_tomorrow, DERIVED,
     "worked by hand: Saturday's build-to less what is then in date")
{
    business b;
    business_start(&b);
    business_set_up(&b);
    business_do(&b, "build_to.replace",
                "{'rows':[{'product_id':1,'weekday':5,'balls':120},"
                "{'product_id':2,'weekday':5,'balls':40}]}");
    /* days 1..3: Tuesday's are past by Saturday, today's are ready then */
    business_do(&b, "count.save",
                "{'lines':[{'product_id':1,'mixing_day':%d,'balls':10},"
                "{'product_id':1,'mixing_day':%d,'balls':20},"
                "{'product_id':1,'mixing_day':%d,'balls':30},"
                "{'product_id':2,'mixing_day':%d,'balls':0}]}",
                FRIDAY - 3, FRIDAY - 1, FRIDAY, FRIDAY);
    SAME(business_number(&b, "day"), FRIDAY);
    SAME(business_number(&b, "products.0.target_day"), FRIDAY + 1);
    SAME(business_number(&b, "products.0.balls"), 60);
    SAME(business_number(&b, "products.0.usable"), 50);
    SAME(business_number(&b, "products.0.need"), 70);
    SAME(business_number(&b, "products.1.need"), 40);
    SAME_TEXT(business_text(&b, "products.0.ages.0.readiness"), "use_first");
    SAME_TEXT(business_text(&b, "products.0.ages.2.readiness"), "not_yet");
    business_do(&b, "count.get", "{}");
    SAME(business_number(&b, "products.0.need"), 70);
    business_stop(&b);
}

TEST(a_newer_count_replaces_the_older_one, LIMIT, "the newest count is true")
{
    business b;
    business_start(&b);
    business_set_up(&b);
    business_do(&b, "count.save",
                "{'lines':[{'product_id':1,'mixing_day':%d,'balls':50},"
                "{'product_id':2,'mixing_day':%d,'balls':9}]}",
                FRIDAY - 1, FRIDAY - 1);
    business_wait(&b, 60);
    business_do(&b, "count.save",
                "{'lines':[{'product_id':1,'mixing_day':%d,'balls':41}]}",
                FRIDAY - 1);
    SAME(business_number(&b, "products.0.balls"), 41);
    SAME(business_number(&b, "products.1.balls"), 9);
    business_stop(&b);
}

TEST(balls_of_tomorrow_or_counted_twice_are_refused, LIMIT,
     "bad input changes nothing")
{
    business b;
    business_start(&b);
    business_set_up(&b);
    SAME(business_ask(&b, "count.save",
                      "{'lines':[{'product_id':1,'mixing_day':%d,'balls':5}]}",
                      FRIDAY + 1),
         DW_E_RANGE);
    SAME(business_ask(&b, "count.save",
                      "{'lines':[{'product_id':1,'mixing_day':%d,'balls':5},"
                      "{'product_id':1,'mixing_day':%d,'balls':6}]}",
                      FRIDAY, FRIDAY),
         DW_E_CONFLICT);
    SAME(business_ask(&b, "count.save",
                      "{'lines':[{'product_id':7,'mixing_day':%d,'balls':5}]}",
                      FRIDAY),
         DW_E_NOT_FOUND);
    business_do(&b, "count.get", "{}");
    SAME(business_number(&b, "counted_ms"), 0);
    business_stop(&b);
}
