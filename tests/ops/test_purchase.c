#include "business.h"
#include "dw_test.h"

/* The clock starts on Friday 2026-06-05, 08:00 in New York, day 20609. A whole
 * bag of flour is 22.68 kg, and a batch takes one. */
#define NOW_MS 1780660800000LL
#define FRIDAY 20609
#define MINUTE_MS 60000LL

static void start(business *b)
{
    business_start(b);
    business_set_up(b);
    business_do(b, "material_lot.save",
                "{'material_id':1,'code':'A1','received_ms':%lld,'kg':30,"
                "'best_before_day':%d}",
                NOW_MS - 86400000, FRIDAY + 90);
}

static void plan(business *b, int day)
{
    business_do(b, "batch.plan",
                "{'day':%d,'pieces':[{'product_id':1,'balls':80}]}", day);
}

TEST(flour_is_bought_for_the_planned_batches_in_whole_bags, DERIVED,
     "by hand: 30 kg there, 22.68 kg on Friday and on Monday: 15.36 kg short "
     "on Monday, one bag, ordered two days before")
{
    business b;
    start(&b);
    plan(&b, FRIDAY);
    business_do(&b, "purchase.list", "{}");
    NEED(business_size(&b, "lines") == 1);
    CHECK(json_is_null(business_at(&b, "lines.0.short_day")));
    NEAR(business_number(&b, "lines.0.on_hand_kg"), 30, 1e-9);
    plan(&b, FRIDAY + 3);
    business_do(&b, "purchase.list", "{}");
    SAME_TEXT(business_text(&b, "lines.0.name"), "bread flour");
    NEAR(business_number(&b, "lines.0.needed_kg"), 45.36, 0.02);
    NEAR(business_number(&b, "lines.0.buy_kg"), 15.36, 0.02);
    SAME(business_number(&b, "lines.0.packs"), 1);
    SAME(business_number(&b, "lines.0.short_day"), FRIDAY + 3);
    SAME(business_number(&b, "lines.0.order_day"), FRIDAY + 1);
    CHECK(json_is_false(business_at(&b, "lines.0.late")));
    business_do(&b, "material.save",
                "{'id':1,'name':'bread flour','kind':'flour','pack_kg':22.68,"
                "'lead_days':5}");
    business_do(&b, "purchase.list", "{}");
    CHECK(json_is_true(business_at(&b, "lines.0.late")));
    NEAR(business_number(&b, "lines.0.lacking_kg"), 15.36, 0.02);
    business_stop(&b);
}

TEST(what_was_weighed_is_off_the_shelf, DERIVED,
     "by hand: 30 kg less the 22.68 kg of a batch that named no lot")
{
    business b;
    start(&b);
    plan(&b, FRIDAY);
    business_wait(&b, 240);
    business_do(&b, "batch.enter",
                "{'batch_id':1,'started_ms':%lld,'stopped_ms':%lld,"
                "'pieces':[{'id':1,'balls_made':80}],'first_box_ms':%lld,"
                "'last_box_ms':%lld}",
                NOW_MS, NOW_MS + 14 * MINUTE_MS, NOW_MS + 20 * MINUTE_MS,
                NOW_MS + 40 * MINUTE_MS);
    business_do(&b, "purchase.list", "{}");
    NEAR(business_number(&b, "lines.0.on_hand_kg"), 7.32, 0.02);
    NEAR(business_number(&b, "lines.0.needed_kg"), 0, 1e-9);
    business_stop(&b);
}

TEST(days_without_a_plan_are_bought_for_by_what_is_wanted, DERIVED,
     "by hand: 100 balls of 0.3969 kg on Mondays, mixed the day before, 1 % "
     "lost, 100 of 164.3 is flour: 24.40 kg a week")
{
    business b;
    start(&b);
    business_do(&b, "build_to.replace",
                "{'rows':[{'product_id':1,'weekday':0,'balls':100}]}");
    business_do(&b, "purchase.list", "{'days':7}");
    NEAR(business_number(&b, "lines.0.needed_kg"), 24.40, 0.01);
    business_do(&b, "purchase.list", "{'days':14}");
    NEAR(business_number(&b, "lines.0.needed_kg"), 48.80, 0.02);
    SAME(business_number(&b, "lines.0.short_day"), FRIDAY + 9);
    SAME(business_ask(&b, "purchase.list", "{'days':61}"), DW_E_RANGE);
    SAME(business_ask(&b, "material_lot.save",
                      "{'material_id':1,'code':'B','kg':-1}"),
         DW_E_RANGE);
    business_stop(&b);
}
