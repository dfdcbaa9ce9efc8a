/* What is in the bowl, and the window it makes. */
#include "business.h"
#include "dw_test.h"

#include "store/nouns.h"

/* The clock starts at 2026-06-05 12:00 UTC; four hours later everything here
 * is entered. */
#define NOON_MS 1780660800000LL
#define MINUTE_MS 60000LL
#define HOUR_MS 3600000.0

/* Batch `number` (80 balls of 14 oz), off paper, the mixer stopped at noon. */
static void enter(business *b, int number)
{
    business_do(b, "batch.plan", "{'pieces':[{'product_id':1,'balls':80}]}");
    business_do(b, "batch.enter",
                "{'batch_id':%d,'room_c':23,'dough_c':25.4,"
                "'started_ms':%lld,'stopped_ms':%lld,"
                "'pieces':[{'id':%d,'balls_made':80}],'first_box_ms':%lld,"
                "'last_box_ms':%lld,'closed_ms':%lld}",
                number, NOON_MS - 14 * MINUTE_MS, NOON_MS, number,
                NOON_MS + 20 * MINUTE_MS, NOON_MS + 20 * MINUTE_MS,
                NOON_MS + 170 * MINUTE_MS);
}

static void start(business *b)
{
    business_start(b);
    business_set_up(b);
    business_wait(b, 240);
}

static void start_with_two(business *b)
{
    start(b);
    enter(b, 1);
    enter(b, 2);
}

/* A moment of the stack of that batch, h from the mixer's stop; 0: never. */
static double moment(business *b, int number, const char *name)
{
    char path[80];
    business_do(b, "cold.stacks", "{'members':0}");
    for (int i = 0; i < (int)business_size(b, "stacks"); i++) {
        snprintf(path, sizeof path, "stacks.%d.number", i);
        if ((int)business_number(b, path) != number)
            continue;
        snprintf(path, sizeof path, "stacks.%d.life.%s.at_ms", i, name);
        double at_ms = business_number(b, path);
        return at_ms > 0 ? (at_ms - (double)NOON_MS) / HOUR_MS : 0;
    }
    dw_test_fail(__FILE__, __LINE__, "no stack of batch %d", number);
    return NAN;
}

TEST(a_dough_whose_yeast_was_forgotten_never_gets_ready, LIMIT,
     "no yeast, no gas: no window of fermentation")
{
    business b;
    start_with_two(&b);
    business_do(&b, "change.save",
                "{'batch_id':2,'kind':'forgotten','material':'instant yeast'}");
    CHECK(business_number(&b, "window.planned.ready_h") > 0);
    CHECK(json_is_null(business_at(&b, "window.in_bowl.ready_h")));
    CHECK(json_is_null(business_at(&b, "window.in_bowl.best_from_h")));
    CHECK(moment(&b, 1, "ready") > 0);
    SAME(moment(&b, 2, "ready"), 0);
    SAME(moment(&b, 2, "best"), 0);
    business_wait(&b, 40 * 60);
    business_do(&b, "cold.stacks", "{'members':0}");
    for (int i = 0; i < 2; i++) {
        char number[32], word[32];
        snprintf(number, sizeof number, "stacks.%d.number", i);
        snprintf(word, sizeof word, "stacks.%d.readiness", i);
        if ((int)business_number(&b, number) == 2)
            SAME_TEXT(business_text(&b, word), "not_yet");
    }
    business_stop(&b);
}

TEST(yeast_that_went_in_twice_is_ready_and_past_sooner, LIMIT,
     "monotone in yeast")
{
    business b;
    start_with_two(&b);
    business_do(&b, "change.save",
                "{'batch_id':2,'kind':'doubled','material':'instant yeast'}");
    CHECK(business_number(&b, "window.in_bowl.ready_h") <
          business_number(&b, "window.planned.ready_h") - 1);
    CHECK(business_number(&b, "window.in_bowl.end_h") <
          business_number(&b, "window.planned.end_h") - 1);
    CHECK(moment(&b, 2, "ready") < moment(&b, 1, "ready") - 1);
    CHECK(moment(&b, 2, "end") < moment(&b, 1, "end") - 1);
    business_stop(&b);
}

TEST(as_much_active_dry_as_instant_yeast_is_ready_later, PRACTICE,
     "common practice, no source: by weight active dry raises less")
{
    business b;
    start_with_two(&b);
    business_do(&b, "change.save",
                "{'batch_id':2,'kind':'yeast_type','material':'instant yeast',"
                "'to_kind':'yeast_active_dry','kg':0.06804}");
    CHECK(business_number(&b, "window.in_bowl.ready_h") >
          business_number(&b, "window.planned.ready_h") + 1);
    CHECK(moment(&b, 2, "ready") > moment(&b, 1, "ready") + 1);
    business_stop(&b);
}

TEST(yeast_exchanged_for_as_much_as_raises_alike_keeps_the_window, LIMIT,
     "round trip of the conversion: to a quarter of an hour")
{
    business b;
    start_with_two(&b);
    business_do(&b, "change.save",
                "{'batch_id':2,'kind':'yeast_type','material':'instant yeast',"
                "'to_kind':'yeast_active_dry'}");
    NEAR(moment(&b, 2, "ready"), moment(&b, 1, "ready"), 0.25);
    business_stop(&b);
}

TEST(more_water_moves_the_window, LIMIT, "the same yeast in thinner dough")
{
    business b;
    start_with_two(&b);
    business_do(&b, "change.save",
                "{'batch_id':2,'kind':'water','material':'water','kg':0.6804}");
    CHECK(fabs(moment(&b, 2, "ready") - moment(&b, 1, "ready")) > 0.01);
    business_stop(&b);
}

TEST(what_was_weighed_makes_the_window_too, LIMIT,
     "twice the yeast on the scale is twice the yeast reported")
{
    business b;
    start_with_two(&b);
    business_do(&b, "change.save",
                "{'batch_id':1,'kind':'doubled','material':'instant yeast'}");
    business_do(&b, "batch.get", "{'id':2}");
    CHECK(json_is_null(business_at(&b, "window")));
    int id = (int)business_number(&b, "weighings.4.weighing.id");
    SAME_TEXT(business_text(&b, "weighings.4.weighing.material"),
              "instant yeast");
    business_do(&b, "weighing.mark", "{'weighing_id':%d,'weighed_kg':%.9f}", id,
                2 * 22.68 * 0.003);
    /* the scale's gram, of 68: to a tenth of an hour */
    NEAR(moment(&b, 2, "ready"), moment(&b, 1, "ready"), 0.1);
    NEAR(moment(&b, 2, "end"), moment(&b, 1, "end"), 0.5);
    business_stop(&b);
}

TEST(doubled_yeast_has_the_window_of_a_version_with_twice_the_yeast, DERIVED,
     "the same dough by hand: 2 x 0.3 = 0.6 % of flour; to the millisecond")
{
    business b;
    start(&b);
    enter(&b, 1);
    business_do(&b, "change.save",
                "{'batch_id':1,'kind':'doubled','material':'instant yeast'}");
    business_do(&b, "recipe.save",
                "{'formula_id':1,'name':'White dough','dough_goal_c':25,"
                "'formula':{'lines':["
                "{'material':'bread flour','kind':'flour','percent':100},"
                "{'material':'water','kind':'water','percent':60},"
                "{'material':'salt','kind':'salt','percent':2},"
                "{'material':'oil','kind':'fat','percent':2},"
                "{'material':'instant yeast','kind':'yeast_instant',"
                "'percent':0.6}]}}");
    enter(&b, 2);
    static const char *const moments[] = {"ready", "best", "use_first", "end"};
    for (size_t i = 0; i < DW_COUNT(moments); i++)
        NEAR(moment(&b, 1, moments[i]), moment(&b, 2, moments[i]),
             1.5 / HOUR_MS);
    business_stop(&b);
}

TEST(the_card_tells_the_window_before_there_is_a_stack, LIMIT,
     "the same dough, bench and cold room: to a quarter of an hour")
{
    business b;
    start(&b);
    business_do(&b, "batch.plan", "{'pieces':[{'product_id':1,'balls':80}]}");
    business_do(&b, "change.save",
                "{'batch_id':1,'kind':'doubled','material':'instant yeast'}");
    double ready = business_number(&b, "window.in_bowl.ready_h");
    CHECK(ready < business_number(&b, "window.planned.ready_h") - 1);
    /* boxed as the shop means to, at the goal of 25 degC */
    business_do(&b, "batch.begin", "{'batch_id':1}");
    business_wait(&b, 20);
    business_do(&b, "reading.save",
                "{'batch_id':1,'kind':'dough_c','celsius':25}");
    business_do(&b, "batch.box",
                "{'batch_id':1,'first_box_ms':%lld,"
                "'pieces':[{'id':1,'balls_made':80}]}",
                NOON_MS + 240 * MINUTE_MS);
    NEAR(business_number(&b, "window.in_bowl.ready_h"), ready, 0.25);
    business_stop(&b);
}

TEST(a_bag_of_minors_weighed_otherwise_leaves_the_card_readable, LIMIT,
     "what is in a bag cannot be told apart: the dough stays as planned")
{
    business b;
    start(&b);
    business_do(&b, "minors.make",
                "{'formula_id':1,'flour_kg':22.68,'bags':3,'diluent_kg':0.5}");
    business_do(&b, "batch.plan", "{'pieces':[{'product_id':1,'balls':80}]}");
    business_do(&b, "batch.get", "{'id':1}");
    double dough_kg = business_number(&b, "totals.dough_kg");
    SAME_TEXT(business_text(&b, "weighings.3.weighing.material"), "minors bag");
    business_do(&b, "weighing.mark", "{'weighing_id':%d,'weighed_kg':1.2}",
                (int)business_number(&b, "weighings.3.weighing.id"));
    business_do(&b, "batch.get", "{'id':1}");
    NEAR(business_number(&b, "totals.dough_kg"), dough_kg, 1e-9);
    business_stop(&b);
}

TEST(an_abandoned_batch_has_no_stack, LIMIT, "0 stacks")
{
    business b;
    start(&b);
    business_do(&b, "batch.plan", "{'pieces':[{'product_id':1,'balls':80}]}");
    business_do(&b, "batch.begin", "{'batch_id':1}");
    business_do(&b, "change.save", "{'batch_id':1,'kind':'abandoned'}");
    SAME(business_size(&b, "stacks"), 0);
    business_do(&b, "cold.stacks", "{}");
    SAME(business_size(&b, "stacks"), 0);
    business_stop(&b);
}
