#include "business.h"
#include "dw_test.h"

/* 2026-06-05, a Friday, the day of the tests. */
#define TODAY 20609

/* Eight weeks up to yesterday of one outlet: 30 of the first product a day, 60
 * on Fridays and Saturdays; a third of that of the second. */
static void sell(business *b)
{
    static char rows[20000];
    size_t n = 0;
    for (int day = TODAY - 56; day < TODAY; day++) {
        int weekday = (day + 3) % 7,
            balls = weekday == 4 || weekday == 5 ? 60 : 30;
        n += (size_t)snprintf(rows + n, sizeof rows - n,
                              "%s{'product':'14 oz ball','day':%d,'balls':%d},"
                              "{'product':'10 oz ball','day':%d,'balls':%d}",
                              n ? "," : "", day, balls, day, balls / 3);
    }
    business_do(b, "sale.load", "{'rows':[%s]}", rows);
    SAME(business_number(b, "added"), 112);
}

static void set_up(business *b)
{
    business_start(b);
    business_set_up(b);
    business_do(b, "outlet.save", "{'name':'Mill'}");
    sell(b);
}

TEST(the_shops_own_sales_give_the_next_fourteen_days, DERIVED,
     "a week that repeats itself")
{
    business b;
    set_up(&b);
    business_do(&b, "demand.get", "{}");
    SAME(business_number(&b, "today"), TODAY);
    SAME(business_number(&b, "last_sale_day"), TODAY - 1);
    SAME(business_size(&b, "products"), 2);
    SAME(business_size(&b, "products.0.forecast.days"), 14);
    SAME_TEXT(business_text(&b, "products.0.source"), "sales");
    NEAR(business_number(&b, "products.0.forecast.days.0.wanted.mean"), 60, 3);
    NEAR(business_number(&b, "products.0.forecast.days.3.wanted.mean"), 30, 2);
    NEAR(business_number(&b, "products.1.forecast.days.1.wanted.mean"), 20, 2);
    SAME(business_size(&b, "products.0.forecast.checked"), 28);
    NEAR(business_number(&b, "products.0.forecast.record.days"), 28, 0);
    business_stop(&b);
}

TEST(an_event_an_override_and_a_mark_are_kept_and_count, DERIVED,
     "their own words")
{
    business b;
    set_up(&b);
    business_do(&b, "event.save",
                "{'event':{'name':'street fair','rule':'once','day':%d,"
                "'expected_percent':50}}",
                TODAY + 1);
    business_do(&b, "override.save",
                "{'product_id':1,'change':{'from_day':%d,'to_day':%d,"
                "'balls':10,'reason':'road closed','expires_day':%d}}",
                TODAY + 2, TODAY + 2, TODAY + 3);
    business_do(&b, "demand.get", "{'check_weeks':0}");
    SAME_TEXT(business_text(&b, "products.0.forecast.days.1.event"),
              "street fair");
    NEAR(business_number(&b, "products.0.forecast.days.1.wanted.mean"), 90, 5);
    NEAR(business_number(&b, "products.0.forecast.days.2.wanted.mean"), 10, 0);
    SAME_TEXT(business_text(&b, "products.0.forecast.days.2.override_reason"),
              "road closed");
    NEAR(business_number(&b, "products.0.forecast.days.2.forecast_mean"), 30,
         2);
    SAME(business_size(&b, "overrides"), 1);
    business_do(&b, "override.delete", "{'id':1}");
    business_do(&b, "event.list", "{}");
    SAME(business_size(&b, "events"), 1);
    business_do(&b, "event.delete", "{'id':1}");
    business_do(&b, "demand.get", "{'check_weeks':0}");
    NEAR(business_number(&b, "products.0.forecast.days.1.wanted.mean"), 60, 3);
    NEAR(business_number(&b, "products.0.forecast.days.2.wanted.mean"), 30, 2);
    business_stop(&b);
}

TEST(lost_sales_that_were_counted_are_demand, DERIVED,
     "20 more on each of the last four Fridays")
{
    business b;
    set_up(&b);
    for (int week = 1; week <= 4; week++)
        business_do(&b, "demand.mark",
                    "{'product_id':1,'day':%d,'lost_balls':20}",
                    TODAY - 7 * week);
    business_do(&b, "demand.get", "{'check_weeks':0}");
    double lost = business_number(&b, "products.0.forecast.days.0.wanted.mean");
    CHECK(lost > 66 && lost < 82);
    SAME(business_size(&b, "marks"), 4);
    business_do(&b, "demand.mark", "{'product_id':1,'day':%d,'sold_out':true}",
                TODAY - 7);
    business_do(&b, "demand.get", "{'check_weeks':0}");
    SAME(business_size(&b, "marks"), 4); /* one mark a day */
    CHECK(business_number(&b, "products.0.forecast.days.0.wanted.mean") < lost);
    business_stop(&b);
}

TEST(closing_counts_alone_are_a_history, DERIVED,
     "55 there in the evening, 15 of these a day later: 40 were used")
{
    business b;
    business_start(&b);
    business_set_up(&b);
    for (int day = TODAY; day < TODAY + 6; day++) {
        business_do(&b, "count.save",
                    "{'lines':[{'product_id':1,'mixing_day':%d,'balls':40},"
                    "{'product_id':1,'mixing_day':%d,'balls':15}]}",
                    day, day - 1);
        business_wait(&b, 24 * 60);
    }
    business_do(&b, "demand.get", "{'check_weeks':0}");
    SAME_TEXT(business_text(&b, "products.0.source"), "counts");
    SAME(business_number(&b, "products.0.forecast.history_days"), 5);
    NEAR(business_number(&b, "products.0.forecast.days.1.wanted.mean"), 40, 3);
    business_stop(&b);
}

TEST(a_new_product_says_which_one_it_is_like, DERIVED, "its weekdays")
{
    business b;
    set_up(&b);
    business_do(&b, "product.save",
                "{'name':'12 oz ball','formula_id':1,'ball_kg':0.34,'position':9}");
    int id = (int)business_number(&b, "id");
    business_do(&b, "product.like", "{'product_id':%d,'like_id':1}", id);
    business_do(&b, "sale.load",
                "{'rows':[{'product':'12 oz ball','day':%d,'balls':12}]}",
                TODAY - 1);
    business_do(&b, "demand.get", "{'check_weeks':0}");
    SAME(business_number(&b, "products.2.like_id"), 1);
    SAME_TEXT(business_text(&b, "products.2.forecast.basis"), "like");
    NEAR(business_number(&b, "products.2.forecast.days.0.wanted.mean") /
             business_number(&b, "products.2.forecast.days.3.wanted.mean"),
         2, 0.2);
    business_stop(&b);
}

TEST(what_makes_no_sense_about_demand_is_refused, LIMIT, "each failure once")
{
    business b;
    set_up(&b);
    SAME(business_ask(&b, "event.save",
                      "{'event':{'name':'x','rule':'yearly','month':2,"
                      "'date':30}}"),
         DW_E_RANGE);
    SAME_TEXT(b.err.field, "event.date");
    SAME(business_ask(&b, "override.save",
                      "{'product_id':1,'change':{'from_day':%d,'to_day':%d,"
                      "'balls':1,'reason':'r','expires_day':%d}}",
                      TODAY + 2, TODAY + 1, TODAY + 9),
         DW_E_RANGE);
    SAME_TEXT(b.err.field, "change.to_day");
    SAME(business_ask(&b, "override.save",
                      "{'product_id':77,'change':{'from_day':1,'to_day':1,"
                      "'balls':1,'reason':'r','expires_day':9}}"),
         DW_E_NOT_FOUND);
    SAME(business_ask(&b, "demand.mark",
                      "{'product_id':1,'day':%d,'sold_out':true}", TODAY + 1),
         DW_E_RANGE);
    SAME(business_ask(&b, "product.like", "{'product_id':1,'like_id':1}"),
         DW_E_CONFLICT);
    business_do(&b, "event.save",
                "{'event':{'name':'x','rule':'easter','offset_days':0}}");
    SAME(business_ask(&b, "event.save",
                      "{'event':{'name':'x','rule':'easter','offset_days':1}}"),
         DW_E_CONFLICT);
    business_stop(&b);
}
