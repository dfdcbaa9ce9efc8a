#include "business.h"
#include "dw_test.h"

/* The clock starts on Friday 2026-06-05, 08:00 in New York, day 20609. */
#define NOW_MS 1780660800000LL
#define FRIDAY 20609
#define DAY_MS 86400000LL
#define HOUR_MS 3600000LL
#define MINUTE_MS 60000LL

/* A batch of 40 balls, boxed and closed in the last four hours. */
static void make_batch(business *b, int number)
{
    long long stop = b->now_ms - 4 * HOUR_MS;
    business_do(b, "batch.plan", "{'pieces':[{'product_id':1,'balls':40}]}");
    business_do(b, "batch.enter",
                "{'batch_id':%d,'room_c':23,'dough_c':25,'started_ms':%lld,"
                "'stopped_ms':%lld,'pieces':[{'id':%d,'balls_made':40}],"
                "'first_box_ms':%lld,'last_box_ms':%lld,'closed_ms':%lld}",
                number, stop - 14 * MINUTE_MS, stop, number,
                stop + 20 * MINUTE_MS, stop + 20 * MINUTE_MS,
                stop + 170 * MINUTE_MS);
}

/* Mill (any age) and Pond (promised 3 days) get a drop on Fridays at 14:00,
 * orders until 10:00. 40 balls of Wednesday are good until Saturday, 40 of
 * Thursday until Sunday. */
static void start(business *b)
{
    business_start(b);
    business_set_up(b);
    business_do(b, "outlet.save", "{'name':'Mill'}");
    business_do(b, "outlet.save", "{'name':'Pond','promised_days':3}");
    business_do(b, "drop_day.replace",
                "{'rows':[{'outlet_id':1,'weekday':4,'at_minute':840,"
                "'cutoff_minutes':240},{'outlet_id':2,'weekday':4,"
                "'at_minute':840,'cutoff_minutes':240}]}");
    business_wait(b, -44 * 60); /* Wednesday, noon */
    business_do(b, "shop.get", "{}");
    make_batch(b, 1);
    business_wait(b, 24 * 60);
    business_do(b, "shop.get", "{}");
    make_batch(b, 2);
    business_wait(b, 20 * 60);
    business_do(b, "order.save",
                "{'outlet_id':1,'day':%d,'lines':[{'product_id':1,"
                "'balls':50}]}",
                FRIDAY);
    business_do(b, "order.save",
                "{'outlet_id':2,'day':%d,'lines':[{'product_id':1,"
                "'balls':30}]}",
                FRIDAY);
}

TEST(each_shop_gets_balls_that_keep_the_days_it_was_promised, DERIVED,
     "by hand: Wednesday's balls have 2 days left on Friday, Thursday's 3")
{
    business b;
    start(&b);
    business_do(&b, "drop.list", "{'days':1}");
    NEED(business_size(&b, "drops") == 2);
    SAME(business_number(&b, "drops.0.at_ms"), NOW_MS + 6 * HOUR_MS);
    SAME(business_number(&b, "drops.0.cutoff_ms"), NOW_MS + 2 * HOUR_MS);
    SAME_TEXT(business_text(&b, "drops.0.state"), "open");
    SAME(business_number(&b, "drops.0.pieces.0.balls"), 50);
    SAME(business_number(&b, "drops.0.pieces.0.parts.0.number"), 1);
    SAME(business_number(&b, "drops.0.pieces.0.parts.0.balls"), 40);
    SAME(business_number(&b, "drops.0.pieces.0.parts.1.balls"), 10);
    SAME(business_number(&b, "drops.0.pieces.0.boxes"), 7);
    SAME(business_number(&b, "drops.1.pieces.0.balls"), 30);
    SAME(business_number(&b, "drops.1.pieces.0.parts.0.number"), 2);
    SAME(business_number(&b, "drops.1.pieces.0.parts.0.days_left"), 3);
    SAME(business_number(&b, "drops.1.pieces.0.short_of"), 0);
    business_stop(&b);
}

TEST(an_order_after_the_cut_off_is_taken_and_short_first, DERIVED,
     "by hand: 90 wanted, 80 there; Pond ordered at 10:30")
{
    business b;
    start(&b);
    business_do(&b, "service.save", "{'short_rule':'late_first'}");
    business_wait(&b, 150);
    business_do(&b, "order.save",
                "{'outlet_id':2,'day':%d,'lines':[{'product_id':1,"
                "'balls':40}],'note':'party'}",
                FRIDAY);
    CHECK(json_is_true(business_at(&b, "late")));
    business_do(&b, "drop.list", "{'days':1}");
    SAME_TEXT(business_text(&b, "drops.1.state"), "closed");
    SAME(business_number(&b, "drops.0.pieces.0.balls"), 50);
    SAME(business_number(&b, "drops.1.pieces.0.balls"), 30);
    SAME(business_number(&b, "drops.1.pieces.0.short_of"), 10);
    SAME_TEXT(business_text(&b, "drops.1.order_note"), "party");
    business_stop(&b);
}

TEST(a_drop_takes_its_balls_out_and_lends_its_boxes, DERIVED,
     "by hand: 50 in 7 boxes and 30 in 4; 6 refused, 3 empties back at once")
{
    business b;
    start(&b);
    business_do(&b, "drop.load", "{'outlet_id':1}");
    SAME_TEXT(business_text(&b, "state"), "loaded");
    SAME(business_number(&b, "boxes_out"), 7);
    business_do(&b, "drop.load", "{'outlet_id':2}");
    SAME(business_number(&b, "boxes_out"), 4);
    SAME(business_number(&b, "drop_id"), 2);
    double line = business_number(&b, "pieces.0.parts.0.line_id");
    business_do(&b, "cold.stacks", "{'members':0}");
    SAME(business_size(&b, "stacks"), 0);
    SAME(business_ask(&b, "drop.load", "{'outlet_id':2}"), DW_E_CONFLICT);
    SAME(business_ask(&b, "order.save", "{'outlet_id':2,'day':%d,'lines':[]}",
                      FRIDAY),
         DW_E_CONFLICT);
    business_do(&b, "drop.arrive",
                "{'drop_id':2,'door_c':9.5,'boxes_back':3,'refused':["
                "{'line_id':%.0f,'balls':6,'reason':'warm'}]}",
                line);
    SAME_TEXT(business_text(&b, "state"), "arrived");
    CHECK(json_is_true(business_at(&b, "door_warm")));
    SAME(business_number(&b, "pieces.0.parts.0.refused"), 6);
    business_do(&b, "drop.list", "{'days':1,'outlet_id':2}");
    SAME(business_size(&b, "drops"), 1); /* a shop sees its own */
    SAME(business_size(&b, "owes"), 1);
    SAME(business_number(&b, "owes.0.boxes"), 1);
    SAME(business_number(&b, "owes.0.credited_balls"), 6);
    business_do(&b, "box.back", "{'outlet_id':2,'boxes':1}");
    SAME(business_number(&b, "boxes"), 0);
    SAME(business_ask(&b, "drop.arrive", "{'drop_id':2}"), DW_E_CONFLICT);
    business_stop(&b);
}

TEST(who_does_not_order_is_expected_to_want_what_it_sells, DERIVED,
     "by hand: 14 a day on each of four weeks, seven days until the next drop; "
     "next Friday's is told but not allotted")
{
    business b;
    start(&b);
    for (int i = 1; i <= 28; i++)
        business_do(&b, "sale.load",
                    "{'rows':[{'outlet':'Mill','product':'14 oz ball',"
                    "'day':%d,'balls':14}]}",
                    FRIDAY - i);
    business_do(&b, "drop.list", "{'from_day':%d,'days':7}", FRIDAY + 7);
    NEED(business_size(&b, "drops") == 2);
    NEAR(business_number(&b, "drops.0.pieces.0.wanted"), 98, 2);
    CHECK(json_is_false(business_at(&b, "drops.0.ordered")));
    CHECK(json_is_false(business_at(&b, "drops.0.allotted")));
    SAME(business_number(&b, "drops.0.pieces.0.balls"), 0);
    SAME(business_size(&b, "drops.1.pieces"), 0);
    business_stop(&b);
}

TEST(balls_that_were_only_counted_can_be_sent_too, DERIVED,
     "by hand: 16 counted of no batch, 12 ordered, 4 left")
{
    business b;
    start(&b);
    business_do(&b, "count.save",
                "{'lines':[{'product_id':2,'mixing_day':%d,'balls':16}]}",
                FRIDAY - 1);
    business_do(&b, "order.save",
                "{'outlet_id':1,'day':%d,'lines':[{'product_id':2,"
                "'balls':12}]}",
                FRIDAY);
    business_wait(&b, 1);
    business_do(&b, "drop.load", "{'outlet_id':1}");
    SAME(business_number(&b, "boxes_out"), 1);
    business_do(&b, "count.get", "{}");
    SAME(business_number(&b, "products.1.ages.0.balls"), 4);
    business_stop(&b);
}

TEST(what_was_loaded_can_be_told_stack_by_stack, DERIVED,
     "by hand: 8 of the 40 of Thursday's stack")
{
    business b;
    start(&b);
    business_do(&b, "drop.load",
                "{'outlet_id':2,'lines':[{'stack_id':2,'balls':8}],"
                "'note':'short of boxes'}");
    SAME(business_number(&b, "pieces.0.balls"), 8);
    SAME_TEXT(business_text(&b, "note"), "short of boxes");
    SAME(business_ask(&b, "drop.load",
                      "{'outlet_id':1,'lines':[{'stack_id':2,'balls':20},"
                      "{'stack_id':2,'balls':20}]}"),
         DW_E_RANGE);
    SAME_TEXT(b.err.field, "lines.balls");
    SAME(b.err.high, 12);
    business_stop(&b);
}

TEST(drops_and_orders_that_make_no_sense_change_nothing, LIMIT, "bad input")
{
    business b;
    start(&b);
    SAME(business_ask(&b, "order.save", "{'outlet_id':1,'day':%d,'lines':[]}",
                      FRIDAY + 1),
         DW_E_NOT_FOUND); /* no drop on a Saturday */
    SAME_TEXT(b.err.field, "day");
    SAME(business_ask(&b, "order.save", "{'outlet_id':1,'day':%d,'lines':[]}",
                      FRIDAY - 7),
         DW_E_RANGE);
    SAME(business_ask(&b, "order.save", "{'outlet_id':9,'day':%d,'lines':[]}",
                      FRIDAY),
         DW_E_NOT_FOUND);
    SAME_TEXT(b.err.field, "outlet_id");
    SAME(business_ask(&b, "order.save",
                      "{'outlet_id':1,'day':%d,'lines':[{'product_id':1,"
                      "'balls':1},{'product_id':1,'balls':2}]}",
                      FRIDAY),
         DW_E_CONFLICT);
    SAME(business_ask(&b, "drop_day.replace",
                      "{'rows':[{'outlet_id':1,'weekday':4,'at_minute':1},"
                      "{'outlet_id':1,'weekday':4,'at_minute':2}]}"),
         DW_E_CONFLICT);
    business_do(&b, "drop_day.list", "{}");
    SAME(business_size(&b, "rows"), 2);
    SAME(business_ask(&b, "drop.arrive", "{'drop_id':7}"), DW_E_NOT_FOUND);
    SAME(business_ask(&b, "drop.load", "{'outlet_id':1,'day':%d}", FRIDAY + 1),
         DW_E_NOT_FOUND);
    SAME(business_ask(&b, "box.back", "{'outlet_id':7,'boxes':1}"),
         DW_E_NOT_FOUND);
    SAME(business_ask(&b, "drop.list", "{'outlet_id':7}"), DW_E_NOT_FOUND);
    business_do(&b, "drop.load", "{'outlet_id':1}");
    SAME(business_ask(&b, "drop.arrive",
                      "{'drop_id':1,'refused':[{'line_id':1,'balls':41}]}"),
         DW_E_RANGE);
    business_do(&b, "drop.list", "{'days':1,'outlet_id':1}");
    SAME_TEXT(business_text(&b, "drops.0.state"), "loaded");
    /* nothing is left that keeps three days: nothing to load */
    business_do(&b, "stack.move",
                "{'stack_id':2,'kind':'throw_away','balls':30}");
    SAME(business_ask(&b, "drop.load", "{'outlet_id':2}"), DW_E_CONFLICT);
    business_stop(&b);
}
