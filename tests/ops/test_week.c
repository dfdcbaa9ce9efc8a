#include "business.h"
#include "dw_test.h"

/* 2026-06-05, the day of the tests. */
#define FRIDAY 20609

/* Four weeks of sales, as many on every day. */
static void sell(business *b, int balls)
{
    business_do(b, "outlet.save", "{'name':'Mill'}");
    for (int day = FRIDAY - 28; day < FRIDAY; day++)
        business_do(b, "sale.load",
                    "{'rows':[{'outlet':'Mill','product':'14 oz ball',"
                    "'day':%d,'balls':%d}]}",
                    day, balls);
}

static double sum_of(const business *b, const char *member)
{
    double sum = 0;
    for (size_t t = 0; t < business_size(b, "plan.days"); t++) {
        char path[96];
        snprintf(path, sizeof path, "plan.days.%zu.%s", t, member);
        sum += business_number(b, path);
    }
    return sum;
}

TEST(the_shops_week_is_planned_from_its_own_sales_mixers_and_hours, DERIVED,
     "sixty balls a day from a mixer and one formula; demand is met but for "
     "days that nothing can reach any more")
{
    business b;
    business_start(&b);
    business_set_up(&b);
    sell(&b, 60);
    business_do(&b, "week.plan", "{'days':7,'effort':3000}");
    SAME(business_number(&b, "first_day"), FRIDAY);
    SAME(business_size(&b, "plan.days"), 7);
    CHECK(business_size(&b, "plan.batches") >= 2);
    NEAR(business_number(&b, "plan.products.0.days.2.wanted"), 60, 6);
    /* nothing is there, and cold dough is ready the next day */
    NEAR(business_number(&b, "plan.products.0.days.0.lost"), 60, 6);
    for (int t = 1; t < 7; t++) {
        char path[64];
        snprintf(path, sizeof path, "plan.products.0.days.%d.lost", t);
        CHECK(business_number(&b, path) < 6);
    }
    CHECK(sum_of(&b, "hands_minutes") > 0);
    CHECK(business_number(&b, "plan.bound_cost") <=
          business_number(&b, "plan.cost"));
    business_stop(&b);
}

TEST(when_the_last_one_has_left_nothing_more_is_planned_for_today, LIMIT,
     "open from seven to ten at night; asked at half past ten, and at nine")
{
    const double asked_h[] = {14.5, 13};
    for (size_t i = 0; i < DW_COUNT(asked_h); i++) {
        business b;
        business_start(&b);
        business_set_up(&b);
        sell(&b, 60);
        business_wait(&b, asked_h[i] * 60);
        business_do(&b, "week.plan", "{'days':7,'effort':1000}");
        SAME(business_number(&b, "first_day"), FRIDAY);
        NEAR(business_number(&b, "days.0.window_minutes"), i == 0 ? 0 : 60,
             1e-6);
        size_t batches = business_size(&b, "plan.batches");
        CHECK(batches > 0);
        for (size_t j = 0; i == 0 && j < batches; j++) {
            char path[64];
            snprintf(path, sizeof path, "plan.batches.%zu.day", j);
            CHECK(business_number(&b, path) > 0);
        }
        business_stop(&b);
    }
}

TEST(a_plan_that_was_kept_is_in_the_next_one_and_is_not_made_twice, DERIVED,
     "eighty balls planned for today cover most of tomorrow")
{
    business b;
    business_start(&b);
    business_set_up(&b);
    sell(&b, 60);
    business_do(&b, "batch.plan", "{'pieces':[{'product_id':1,'balls':80}]}");
    business_do(&b, "week.plan", "{'days':7,'effort':3000}");
    CHECK(json_is_true(business_at(&b, "plan.batches.0.fixed")));
    SAME(business_number(&b, "plan.batches.0.day"), 0);
    CHECK(business_number(&b, "plan.products.0.days.0.made") >= 80);
    business_stop(&b);
}

TEST(a_plan_of_ones_own_is_looked_at_and_nothing_is_added, DERIVED,
     "one batch of ninety balls on Saturday and no other")
{
    business b;
    business_start(&b);
    business_set_up(&b);
    sell(&b, 60);
    business_do(&b, "week.plan", "{'days':5,'effort':1000}");
    char formula[128], mixer[128];
    snprintf(formula, sizeof formula, "%s",
             business_text(&b, "plan.batches.0.formula"));
    snprintf(mixer, sizeof mixer, "%s",
             business_text(&b, "plan.batches.0.mixer"));
    business_do(&b, "week.plan",
                "{'days':5,'only_these':true,'batches':[{'day':1,"
                "'formula':'%s','mixer':'%s','dough_kg':36,'pieces':["
                "{'product':'14 oz ball','balls':90}]}]}",
                formula, mixer);
    SAME(business_size(&b, "plan.batches"), 1);
    SAME(business_number(&b, "plan.products.0.days.1.made"), 90);
    SAME(business_number(&b, "plan.products.0.days.2.ready"), 90);
    SAME(business_number(&b, "plan.products.0.days.3.made"), 0);
    business_stop(&b);
}

TEST(a_week_without_any_history_is_planned_empty, DERIVED, "nothing is known")
{
    business b;
    business_start(&b);
    business_set_up(&b);
    business_do(&b, "week.plan", "{'days':14,'effort':500}");
    SAME(business_size(&b, "plan.batches"), 0);
    SAME(business_number(&b, "plan.cost"), 0);
    business_stop(&b);
}
