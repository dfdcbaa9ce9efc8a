#include "dw_test.h"
#include "traced.h"

/* The clock starts on Friday 2026-06-05, 08:00 in New York, day 20609. */
#define FRIDAY 20609
#define HOUR_MS 3600000LL
#define MINUTE_MS 60000LL
#define BALL_KG 0.3969

/* Of the traced: how much is in a place's node of that name, or NAN. */
static double kg_in(business *b, const char *side, const char *name)
{
    char path[80];
    for (size_t i = 0; i < business_size(b, side); i++) {
        snprintf(path, sizeof path, "%s.%zu.node", side, i);
        int node = (int)business_number(b, path);
        snprintf(path, sizeof path, "nodes.%d.name", node);
        const char *is = business_text(b, path);
        if (!is || strcmp(is, name) != 0)
            continue;
        snprintf(path, sizeof path, "%s.%zu.kg", side, i);
        return business_number(b, path);
    }
    return (double)NAN;
}

static const char *verdict_of(business *b, const char *name)
{
    char path[80];
    for (size_t i = 0; i < business_size(b, "balances"); i++) {
        snprintf(path, sizeof path, "balances.%zu.node", i);
        int node = (int)business_number(b, path);
        snprintf(path, sizeof path, "nodes.%d.name", node);
        const char *is = business_text(b, path);
        if (!is || strcmp(is, name) != 0)
            continue;
        snprintf(path, sizeof path, "balances.%zu.verdict", i);
        return business_text(b, path);
    }
    return "";
}

TEST(a_lot_of_flour_is_found_in_every_shop_that_got_some, DERIVED,
     "by hand: A is in batch 1, its scrap, so in batch 3; Mill got 1, Pond 3")
{
    business b;
    char path[80];
    traced_start(&b);
    traced_ship(&b);
    business_do(&b, "trace.lot", "{'lot_id':1}");
    SAME(business_size(&b, "shops"), 2);
    SAME(business_size(&b, "backward"), 0);
    SAME(business_number(
             &b, traced_at(&b, "shops", "name", "Mill", "shipments", path)),
         1);
    NEAR(kg_in(&b, "forward", "White dough 1"), 10, 1e-9);
    /* 0.5 kg of the dough that went through batch 1 */
    double share = 10 / business_number(&b, "balances.1.in_kg");
    NEAR(kg_in(&b, "forward", "Old way 3"), 0.5 * share, 1e-6);
    NEAR(
        business_number(&b, traced_at(&b, "shops", "name", "Mill", "kg", path)),
        40 * BALL_KG * share, 1e-6);
    CHECK(isnan(kg_in(&b, "forward", "White dough 2")));
    SAME_TEXT(verdict_of(&b, "bread flour A"), "rest_left");
    SAME_TEXT(verdict_of(&b, "old dough B1"), "closes");
    business_stop(&b);
}

TEST(a_ball_is_followed_back_to_every_lot, DERIVED,
     "by hand: batch 3 holds lot B, and lot A by way of the scrap of batch 1")
{
    business b;
    traced_start(&b);
    traced_ship(&b);
    business_do(&b, "trace.lot", "{'drop_id':2}");
    CHECK(kg_in(&b, "backward", "bread flour A") > 0);
    CHECK(kg_in(&b, "backward", "bread flour B") > 0);
    CHECK(kg_in(&b, "backward", "White dough 1") > 0);
    CHECK(isnan(kg_in(&b, "backward", "White dough 2")));
    SAME(business_size(&b, "shops"), 1);
    business_do(&b, "trace.lot", "{'batch_id':2}");
    SAME(business_size(&b, "shops"), 0);
    CHECK(isnan(kg_in(&b, "backward", "bread flour A")));
    NEAR(kg_in(&b, "backward", "bread flour B"), 9.8, 1e-9);
    business_stop(&b);
}

TEST(what_a_batch_was_is_in_its_balls_and_scrap, LIMIT,
     "conservation of mass: in less balls, scrap kept and thrown away")
{
    business b;
    traced_start(&b);
    business_do(&b, "trace.lot", "{'batch_id':1}");
    double in = business_number(&b, "balances.0.in_kg");
    NEAR(business_number(&b, "balances.0.out_kg"), 40 * BALL_KG + 0.5, 1e-9);
    NEAR(business_number(&b, "nodes.0.wasted_kg"), 0.1, 1e-9);
    NEAR(business_number(&b, "balances.0.off_kg"),
         in - 40 * BALL_KG - 0.5 - 0.1, 1e-9);
    business_stop(&b);
}

TEST(a_label_is_read_when_goods_come, DERIVED,
     "GS1 elements written by hand: lot, best before and count")
{
    business b;
    traced_start(&b);
    business_do(&b, "lot.receive",
                "{'material_id':1,'label':"
                "'(01)06291041500213(10)X7(15)270101(30)4'}");
    business_do(&b, "lot.list", "{}");
    SAME(business_size(&b, "rows"), 4);
    char path[80];
    SAME(business_number(&b, traced_at(&b, "rows", "lot.code", "X7",
                                       "lot.best_before_day", path)),
         20819); /* 2027-01-01 */
    NEAR(business_number(
             &b, traced_at(&b, "rows", "lot.code", "X7", "lot.kg", path)),
         4 * 22.68, 1e-9);
    NEAR(business_number(
             &b, traced_at(&b, "rows", "lot.code", "A", "used_kg", path)),
         10, 1e-9);
    SAME(business_ask(&b, "lot.receive", "{'material_id':1,'code':'X7'}"),
         DW_E_CONFLICT);
    SAME(business_ask(&b, "lot.receive", "{'material_id':1}"), DW_E_MISSING);
    SAME(business_ask(&b, "lot.receive",
                      "{'material_id':1,'label':'(01)06291041500214'}"),
         DW_E_SUM);
    business_do(&b, "lot.list", "{}");
    SAME(business_size(&b, "rows"), 4);
    business_stop(&b);
}

TEST(bags_of_minors_carry_their_lots_into_a_batch, DERIVED,
     "by hand: 0.3 percent of 22.68 kg of flour in each of two bags")
{
    business b;
    business_start(&b);
    business_set_up(&b);
    business_do(&b, "material.save",
                "{'name':'instant yeast','kind':'yeast_instant'}");
    business_do(&b, "lot.receive", "{'material_id':2,'code':'Y-1','kg':0.5}");
    business_do(&b, "lot.receive", "{'material_id':2,'code':'Y-12','kg':0.5}");
    business_do(&b, "minors.make",
                "{'formula_id':1,'flour_kg':22.68,'bags':2,'days':2,"
                "'lots':'salt 7; Y-1, oil'}");
    business_do(&b, "batch.plan", "{'pieces':[{'product_id':1,'balls':89}]}");
    business_do(&b, "batch.get", "{'id':1}");
    CHECK(json_is_true(business_at(&b, "batch.bag_of_minors")));
    SAME(business_number(&b, "batch.minors_lot_id"), 1);
    business_do(&b, "batch.enter", "{'batch_id':1,'started_ms':%lld}",
                (long long)b.now_ms);
    business_do(&b, "trace.lot", "{'lot_id':1}");
    SAME_TEXT(business_text(&b, "nodes.1.kind"), "minors");
    NEAR(business_number(&b, "links.0.kg"), 2 * 0.003 * 22.68, 1e-6);
    NEAR(kg_in(&b, "forward", "White dough 1"), 0.003 * 22.68, 1e-6);
    business_do(&b, "trace.lot", "{'lot_id':2}");
    SAME(business_size(&b, "forward"), 0);
    business_stop(&b);
}

TEST(dough_is_not_mixed_into_itself, LIMIT, "nothing is made of itself")
{
    business b;
    traced_start(&b);
    business_do(&b, "lot.receive",
                "{'material_id':2,'source_batch_id':3,'kg':0.4}");
    business_do(&b, "batch.get", "{'id':3}");
    SAME(business_ask(&b, "weighing.mark",
                      "{'weighing_id':%ld,'weighed_kg':0.4,'lot_id':4}",
                      traced_weighing_of(&b, "old dough")),
         DW_E_CONFLICT);
    SAME_TEXT(b.err.field, "lot_id");
    SAME(business_ask(&b, "lot.receive",
                      "{'material_id':2,'source_batch_id':9,'kg':1}"),
         DW_E_NOT_FOUND);
    business_stop(&b);
}

TEST(one_thing_is_traced_at_a_time, LIMIT, "bad input is said once")
{
    business b;
    traced_start(&b);
    SAME(business_ask(&b, "trace.lot", "{}"), DW_E_MISSING);
    SAME(business_ask(&b, "trace.lot", "{'lot_id':1,'batch_id':1}"),
         DW_E_CONFLICT);
    SAME(business_ask(&b, "trace.lot", "{'lot_id':77}"), DW_E_NOT_FOUND);
    business_stop(&b);
}

TEST(a_recall_drill_runs_against_the_clock, DERIVED, "by hand: 12 minutes")
{
    business b;
    traced_start(&b);
    business_do(&b, "recall.start", "{'lot_id':1}");
    business_wait(&b, 12);
    business_do(&b, "recall.stop", "{'id':1,'note':'label hard to read'}");
    NEAR(business_number(&b, "minutes"), 12, 1e-9);
    SAME(business_ask(&b, "recall.stop", "{'id':1}"), DW_E_CONFLICT);
    SAME(business_ask(&b, "recall.start", "{'lot_id':99}"), DW_E_NOT_FOUND);
    business_do(&b, "recall.list", "{}");
    SAME(business_size(&b, "drills"), 1);
    NEAR(business_number(&b, "drills.0.minutes"), 12, 1e-9);
    business_stop(&b);
}

TEST(what_nobody_tapped_is_taken_from_the_planned_lot, DERIVED,
     "by hand: the sheet's flour is the open lot's unless another is tapped; "
     "a change of lot without a weight leaves the weight open")
{
    business b;
    business_start(&b);
    business_set_up(&b);
    business_do(&b, "lot.receive", "{'material_id':1,'code':'A','kg':100}");
    business_do(&b, "batch.plan", "{'pieces':[{'product_id':1,'balls':40}]}");
    business_do(&b, "trace.lot", "{'lot_id':1}");
    SAME(business_size(&b, "forward"), 0); /* planned only */
    business_do(&b, "batch.enter", "{'batch_id':1,'started_ms':%lld}",
                (long long)b.now_ms);
    double flour_kg = business_number(&b, "batch.flour_kg");
    business_do(&b, "trace.lot", "{'lot_id':1}");
    CHECK(json_is_true(business_at(&b, "links.0.assumed")));
    NEAR(kg_in(&b, "forward", "White dough 1"), flour_kg, 0.02);
    business_do(&b, "lot.receive", "{'material_id':1,'code':'B','kg':100}");
    business_do(&b, "change.save",
                "{'batch_id':1,'kind':'lot','material':'bread flour',"
                "'lot_id':2}");
    business_do(&b, "trace.lot", "{'lot_id':2}");
    SAME(business_size(&b, "forward"), 1);
    CHECK(json_is_true(business_at(&b, "forward.0.at_least")));
    SAME_TEXT(verdict_of(&b, "White dough 1"), "not_known");
    business_stop(&b);
}

TEST(what_left_is_told_with_the_source_of_each_ingredient, DERIVED,
     "by hand: Mill got 40 balls of batch 1, of flour A; Pond 40 of batch 3, "
     "of flour B and, by way of old dough, A")
{
    business b;
    traced_start(&b);
    traced_ship(&b);
    business_do(&b, "trace.released", "{'from_day':%d,'to_day':%d}", FRIDAY,
                FRIDAY);
    SAME(business_size(&b, "rows"), 2);
    SAME_TEXT(business_text(&b, "rows.0.out.recipient"), "Mill");
    SAME(business_number(&b, "rows.0.out.batch_number"), 1);
    SAME(business_number(&b, "rows.0.out.balls"), 40);
    NEAR(business_number(&b, "rows.0.out.kg"), 40 * BALL_KG, 1e-9);
    SAME_TEXT(business_text(&b, "rows.0.sources"),
              "bread flour A (Stone mill)");
    const char *sources = business_text(&b, "rows.1.sources");
    CHECK(sources && strstr(sources, "bread flour A (Stone mill)"));
    CHECK(sources && strstr(sources, "bread flour B (Stone mill)"));
    business_do(&b, "trace.released", "{'to_day':%d}", FRIDAY - 1);
    SAME(business_size(&b, "rows"), 0);
    business_stop(&b);
}
