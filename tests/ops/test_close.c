#include "business.h"
#include "dw_test.h"

/* 2026-06-05 12:00 UTC, the clock's start. */
#define NOON_MS 1780660800000LL
#define MINUTE_MS 60000LL
#define HOUR_MS 3600000.0

/* A batch of 80 large balls off the mixer at noon, boxed 20 minutes later, not
 * closed; `dough` as "'dough_c':25.4,". */
static void box_one(business *b, const char *dough)
{
    business_start(b);
    business_set_up(b);
    business_wait(b, 60);
    business_do(b, "batch.plan", "{'pieces':[{'product_id':1,'balls':80}]}");
    business_do(b, "batch.enter",
                "{'batch_id':1,'room_c':23,%s'started_ms':%lld,"
                "'stopped_ms':%lld,'pieces':[{'id':1,'balls_made':80}],"
                "'first_box_ms':%lld,'last_box_ms':%lld}",
                dough, NOON_MS - 14 * MINUTE_MS, NOON_MS,
                NOON_MS + 20 * MINUTE_MS, NOON_MS + 20 * MINUTE_MS);
}

TEST(a_stack_is_closed_by_the_life_of_its_balls, DERIVED,
     "the legs written by hand; piece.close is held to its sources elsewhere")
{
    business b;
    box_one(&b, "'dough_c':25.4,");
    business_do(&b, "batch.get", "{'id':1}");
    double from = business_number(&b, "clock.life.from_ms");
    double by = business_number(&b, "clock.life.by_ms");
    CHECK(business_number(&b, "clock.life.by_early_ms") < by);
    CHECK(business_number(&b, "clock.life.by_late_ms") > by);
    CHECK(json_is_true(business_at(&b, "stacks.0.close_by_life")));
    SAME(business_number(&b, "stacks.0.close_due_ms"), by);
    SAME(business_number(&b, "batch.close_due_ms"), by);
    CHECK(json_is_null(business_at(&b, "clock.no_life")));
    business_do(
        &b, "piece.close",
        "{'life':{'formula':{'lines':["
        "{'material':'bread flour','kind':'flour','percent':100},"
        "{'material':'water','kind':'water','percent':60},"
        "{'material':'salt','kind':'salt','percent':2},"
        "{'material':'oil','kind':'fat','percent':2},"
        "{'material':'instant yeast','kind':'yeast_instant','percent':0.3}]},"
        "'piece_g':396.9,'dough_c':25.4,'members':0,'legs':["
        "{'hours':0.33333333333,'air_c':23,'h_w_per_m2_k':8},"
        "{'hours':1,'air_c':3,'h_w_per_m2_k':8}]}}");
    NEAR((from - (double)NOON_MS) / HOUR_MS, business_number(&b, "from_h.at_h"),
         0.02);
    NEAR((by - (double)NOON_MS) / HOUR_MS, business_number(&b, "by_h.at_h"),
         0.02);
    business_stop(&b);
}

TEST(the_trades_clock_stands_beside_the_life, DERIVED,
     "400 g at h 8 from 25 degC into 3 degC: 12.8 degC at the core after about "
     "two hours, 10 after about two and a half (docs/models/cooling.md)")
{
    business b;
    box_one(&b, "'dough_c':25.4,");
    business_do(&b, "batch.get", "{'id':1}");
    double box = business_number(&b, "batch.last_box_ms");
    double from = (business_number(&b, "clock.close_from_ms") - box) / HOUR_MS;
    double by = (business_number(&b, "clock.close_by_ms") - box) / HOUR_MS;
    CHECK(from > 1.6 && from < 2.4);
    CHECK(by > from + 0.3 && by < 3);
    /* the yeast warms what the clock takes for dead: later, not by much */
    double life = (business_number(&b, "clock.life.by_ms") - box) / HOUR_MS;
    CHECK(life > by - 0.3 && life < by + 0.6);
    business_do(&b, "today.get", "{}");
    SAME_TEXT(business_text(&b, "next.0.kind"), "close");
    SAME_TEXT(business_text(&b, "next.0.by"), "life");
    business_stop(&b);
}

TEST(without_the_doughs_temperature_the_trades_clock_closes_and_says_so, LIMIT,
     "where the model must not answer it says so")
{
    business b;
    box_one(&b, "");
    business_do(&b, "batch.get", "{'id':1}");
    CHECK(json_is_null(business_at(&b, "clock.life")));
    SAME_TEXT(business_text(&b, "clock.no_life"), "dough");
    CHECK(json_is_false(business_at(&b, "stacks.0.close_by_life")));
    SAME(business_number(&b, "stacks.0.close_due_ms"),
         business_number(&b, "clock.close_by_ms"));
    business_do(&b, "today.get", "{}");
    SAME_TEXT(business_text(&b, "next.0.by"), "clock");
    business_stop(&b);
}

TEST(in_a_room_too_warm_neither_says_when_to_close, LIMIT,
     "13 degC air never brings the core to 10")
{
    business b;
    box_one(&b, "'dough_c':25.4,");
    business_do(&b, "reading.save", "{'kind':'cold_c','celsius':13}");
    business_do(&b, "batch.get", "{'id':1}");
    CHECK(json_is_null(business_at(&b, "clock.life")));
    CHECK(json_is_false(business_at(&b, "clock.has_close")));
    SAME_TEXT(business_text(&b, "clock.no_life"), "answer");
    business_stop(&b);
}

TEST(a_panned_piece_has_no_life_to_close_by, LIMIT, "no model for panned dough")
{
    business b;
    business_start(&b);
    business_set_up(&b);
    business_do(&b, "product.save",
                "{'name':'pan','formula_id':1,'box_type_id':1,'form':'panned',"
                "'ball_kg':0.5,'balls_per_box':4}");
    business_wait(&b, 60);
    business_do(&b, "batch.plan", "{'pieces':[{'product_id':3,'balls':40}]}");
    business_do(&b, "batch.enter",
                "{'batch_id':1,'room_c':23,'dough_c':25.4,'started_ms':%lld,"
                "'stopped_ms':%lld,'pieces':[{'id':1,'balls_made':40}],"
                "'first_box_ms':%lld,'last_box_ms':%lld}",
                NOON_MS - 14 * MINUTE_MS, NOON_MS, NOON_MS + 20 * MINUTE_MS,
                NOON_MS + 20 * MINUTE_MS);
    business_do(&b, "batch.get", "{'id':1}");
    SAME_TEXT(business_text(&b, "clock.no_life"), "form");
    CHECK(json_is_true(business_at(&b, "clock.has_close")));
    business_stop(&b);
}

TEST(today_says_use_first_by_the_life_where_it_can_tell, LIMIT,
     "from the life's own moment until its end, then it dies tonight")
{
    business b;
    box_one(&b, "'dough_c':25.4,");
    business_do(&b, "batch.close", "{'id':1}");
    business_do(&b, "cold.stacks", "{'members':0}");
    double first = business_number(&b, "stacks.0.life.use_first.at_ms");
    double end = business_number(&b, "stacks.0.life.end.at_ms");
    business_wait(&b, (first - (double)b.now_ms) / 60000 - 5);
    business_do(&b, "today.get", "{}");
    SAME(business_size(&b, "next"), 1); /* the count */
    business_wait(&b, 10);
    business_do(&b, "today.get", "{}");
    bool found = false;
    for (int i = 0; i < 2; i++) {
        char kind[40], by[40], due[40];
        snprintf(kind, sizeof kind, "next.%d.kind", i);
        snprintf(by, sizeof by, "next.%d.by", i);
        snprintf(due, sizeof due, "next.%d.due_ms", i);
        if (!dw_text_is(business_text(&b, kind), "use_first"))
            continue;
        found = true;
        SAME_TEXT(business_text(&b, by), "life");
        NEAR(business_number(&b, due), end, 60000);
    }
    CHECK(found);
    business_wait(&b, (end - (double)b.now_ms) / 60000 - 1);
    business_do(&b, "today.get", "{}");
    SAME(business_size(&b, "dying"), 1);
    SAME(business_number(&b, "dying.0.number"), 1);
    SAME(business_number(&b, "dying.0.boxes"), 10);
    business_stop(&b);
}

TEST(a_stack_without_a_life_goes_by_the_shops_days_on_today, DERIVED,
     "days 1, 2, 3, 3 after Friday: used first on Monday")
{
    business b;
    box_one(&b, "");
    business_do(&b, "batch.close", "{'id':1}");
    business_wait(&b, 3 * 24 * 60);
    business_do(&b, "today.get", "{}");
    bool found = false;
    for (int i = 0; i < 2; i++) {
        char kind[40], by[40];
        snprintf(kind, sizeof kind, "next.%d.kind", i);
        snprintf(by, sizeof by, "next.%d.by", i);
        if (dw_text_is(business_text(&b, kind), "use_first")) {
            found = true;
            SAME_TEXT(business_text(&b, by), "days");
        }
    }
    CHECK(found);
    business_stop(&b);
}
