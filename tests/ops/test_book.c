#include "business.h"
#include "dw_test.h"

static void plan_one(business *b)
{
    business_start(b);
    business_set_up(b);
    business_do(b, "batch.plan", "{'pieces':[{'product_id':1,'balls':80}]}");
}

TEST(a_paper_sheet_is_entered_in_one_go, LIMIT, "paper and catch up")
{
    business b;
    plan_one(&b);
    long long noon = 1780660800000;
    business_wait(&b, 300);
    business_do(&b, "batch.enter",
                "{'batch_id':1,'flour_c':21,'room_c':23,'tap_c':14,"
                "'water_c':14,'dough_c':25.4,"
                "'weighings':[{'weighing_id':2,'weighed_kg':13.6}],"
                "'started_ms':%lld,'stopped_ms':%lld,"
                "'pieces':[{'id':1,'balls_made':88}],"
                "'first_box_ms':%lld,'last_box_ms':%lld,'closed_ms':%lld}",
                noon, noon + 840000, noon + 1200000, noon + 2400000,
                noon + 9600000);
    SAME_TEXT(business_text(&b, "batch.state"), "closed");
    CHECK(json_is_true(business_at(&b, "batch.on_paper")));
    SAME(business_number(&b, "batch.started_ms"), noon);
    SAME(business_number(&b, "batch.entered_ms"), noon + 300 * 60000);
    SAME(business_number(&b, "stacks.0.balls"), 88);
    CHECK(business_number(&b, "batch.work_j_per_kg_dough") > 0);
    business_stop(&b);
}

TEST(a_sheet_whose_times_run_backwards_changes_nothing, LIMIT,
     "bad input changes nothing")
{
    business b;
    plan_one(&b);
    SAME(business_ask(&b, "batch.enter",
                      "{'batch_id':1,'started_ms':1780660000000,"
                      "'stopped_ms':1780650000000}"),
         DW_E_RANGE);
    SAME_TEXT(b.err.field, "stopped_ms");
    SAME(business_ask(&b, "batch.enter",
                      "{'batch_id':1,'started_ms':1880660000000}"),
         DW_E_RANGE);
    business_do(&b, "batch.get", "{'id':1}");
    SAME_TEXT(business_text(&b, "batch.state"), "planned");
    SAME(business_size(&b, "readings"), 0);
    business_stop(&b);
}

TEST(a_sheet_writes_no_weight_of_another_batch, LIMIT,
     "bad input changes nothing")
{
    business b;
    plan_one(&b);
    business_do(&b, "batch.plan", "{'pieces':[{'product_id':1,'balls':80}]}");
    SAME(business_ask(&b, "batch.enter",
                      "{'batch_id':2,'started_ms':1780660800000,"
                      "'weighings':[{'weighing_id':1,'weighed_kg':3}]}"),
         DW_E_CONFLICT);
    business_do(&b, "batch.get", "{'id':1}");
    CHECK(json_is_null(business_at(&b, "weighings.0.weighing.weighed_kg")));
    business_stop(&b);
}

TEST(blanks_on_a_sheet_stay_as_planned, LIMIT, "paper and catch up")
{
    business b;
    plan_one(&b);
    business_do(&b, "batch.enter", "{'batch_id':1,'started_ms':1780660800000}");
    SAME_TEXT(business_text(&b, "batch.state"), "mixing");
    SAME(business_size(&b, "stacks"), 0);
    SAME(business_ask(&b, "batch.enter",
                      "{'batch_id':1,'started_ms':1780660800000}"),
         DW_E_CONFLICT);
    business_stop(&b);
}

TEST(the_book_lists_batches_by_day, LIMIT, "batch book")
{
    business b;
    plan_one(&b);
    business_do(&b, "batch.list", "{'from_day':20609,'to_day':20609}");
    SAME(business_size(&b, "batches"), 1);
    SAME_TEXT(business_text(&b, "batches.0.formula_name"), "White dough");
    SAME_TEXT(business_text(&b, "batches.0.pieces.0.name"), "14 oz ball");
    business_do(&b, "batch.list", "{'from_day':20610,'to_day':20700}");
    SAME(business_size(&b, "batches"), 0);
    business_stop(&b);
}

TEST(the_book_finds_batches_the_newest_first, LIMIT,
     "three batches of two days; by hand")
{
    static const struct {
        const char *asked;
        size_t count;
        int64_t first; /* number */
    } rows[] = {
        {"{}", 3, 3},
        {"{'limit':2}", 2, 3},
        {"{'limit':2,'offset':2}", 1, 1},
        {"{'to_day':20609}", 2, 2},
        {"{'text':'2'}", 1, 2},
        {"{'text':'white'}", 3, 3},
        {"{'text':'Oz WHITE'}", 3, 3},
        {"{'text':'wh%te'}", 0, 0},
        {"{'text':'rye'}", 0, 0},
        {"{'off':true}", 1, 1},
        {"{'verdict':'tight'}", 1, 2},
        {"{'verdict':'good'}", 0, 0}, /* taken back by the newer word */
    };
    business b;
    plan_one(&b);
    business_do(&b, "batch.plan", "{'pieces':[{'product_id':1,'balls':80}]}");
    business_wait(&b, 24 * 60);
    business_do(&b, "batch.plan", "{'pieces':[{'product_id':1,'balls':80}]}");
    business_do(&b, "batch.begin", "{'batch_id':1}");
    business_do(&b, "change.save",
                "{'batch_id':1,'kind':'forgotten','material':'salt'}");
    business_do(&b, "verdict.save",
                "{'batch_id':2,'product_id':1,'verdict':'good'}");
    business_do(&b, "verdict.save",
                "{'batch_id':2,'product_id':1,'verdict':'tight'}");
    for (size_t i = 0; i < DW_COUNT(rows); i++) {
        business_do(&b, "batch.find", "%s", rows[i].asked);
        SAME(business_size(&b, "batches"), rows[i].count);
        if (rows[i].count > 0)
            SAME(business_number(&b, "batches.0.batch.number"), rows[i].first);
    }
    business_do(&b, "batch.find", "{'limit':2}");
    CHECK(json_is_true(business_at(&b, "more")));
    business_do(&b, "batch.find", "{'limit':3}");
    CHECK(!json_is_true(business_at(&b, "more")));
    business_stop(&b);
}

TEST(a_sheet_entered_days_later_tells_the_same_as_on_the_day, LIMIT,
     "what happened does not depend on when it is entered")
{
    double taught[2];
    for (int late = 0; late < 2; late++) {
        business b;
        plan_one(&b);
        long long noon = 1780660800000;
        business_wait(&b, late ? 3 * 24 * 60 : 60);
        business_do(&b, "batch.enter",
                    "{'batch_id':1,'flour_c':21,'room_c':23,'tap_c':14,"
                    "'water_c':12,'dough_c':25.4,'started_ms':%lld,"
                    "'stopped_ms':%lld}",
                    noon, noon + 840000);
        taught[late] = business_number(&b, "batch.work_j_per_kg_dough");
        business_do(&b, "batch.list", "{}");
        NEAR(business_number(&b, "batches.0.dough_c"), 25.4, 1e-9);
        business_stop(&b);
    }
    CHECK(taught[0] > 0);
    NEAR(taught[1], taught[0], 1e-6);
}

TEST(today_says_mix_then_box_then_close, LIMIT, "today")
{
    business b;
    plan_one(&b);
    business_do(&b, "today.get", "{}");
    SAME_TEXT(business_text(&b, "next.0.kind"), "mix");
    SAME_TEXT(business_text(&b, "next.0.name"), "White dough");
    SAME_TEXT(business_text(&b, "next.1.kind"), "count");
    business_do(&b, "batch.get", "{'id':1}");
    business_do(&b, "batch.box",
                "{'batch_id':1,'pieces':[{'id':1,'balls_made':80}]}");
    business_do(&b, "today.get", "{}");
    SAME_TEXT(business_text(&b, "next.0.kind"), "close");
    SAME(business_number(&b, "next.0.boxes"), 10);
    business_do(&b, "batch.close", "{'id':1}");
    business_do(&b, "today.get", "{}");
    SAME_TEXT(business_text(&b, "next.0.kind"), "count");
    SAME(business_number(&b, "stock.0.balls"), 80);
    business_stop(&b);
}

TEST(running_timers_of_every_batch_are_told, LIMIT, "today")
{
    business b;
    plan_one(&b);
    business_do(&b, "batch.get", "{'id':1}");
    for (size_t i = 0; i < business_size(&b, "steps"); i++) {
        char path[64];
        snprintf(path, sizeof path, "steps.%zu.step.minutes", i);
        if (business_number(&b, path) <= 0)
            continue;
        snprintf(path, sizeof path, "steps.%zu.id", i);
        int id = (int)business_number(&b, path);
        business_do(&b, "step.mark", "{'step_id':%d,'mark':'begin'}", id);
        break;
    }
    business_do(&b, "today.get", "{}");
    SAME(business_size(&b, "timers"), 1);
    CHECK(business_number(&b, "timers.0.minutes") > 0);
    CHECK(business_text(&b, "timers.0.says") != NULL);
    business_stop(&b);
}

TEST(a_batch_takes_one_bag_of_minors_where_it_fits, DERIVED, "worked by hand")
{
    business b;
    business_start(&b);
    business_set_up(&b);
    /* salt 2 % and yeast 0.3 % of 22.68 kg, with half a kilo of flour; looking
     * beforehand weighs nothing */
    business_do(&b, "minors.preview",
                "{'formula_id':1,'flour_kg':22.68,'bags':3,'diluent_kg':0.5}");
    NEAR(business_number(&b, "bag.bag_kg"), 0.5 + 22.68 * 0.023, 1e-6);
    business_do(&b, "minors.list", "{}");
    SAME(business_size(&b, "lots"), 0);
    business_do(&b, "minors.make",
                "{'formula_id':1,'flour_kg':22.68,'bags':3,'diluent_kg':0.5}");
    NEAR(business_number(&b, "lot.target_kg"), 0.5 + 22.68 * 0.023, 1e-6);
    SAME(business_number(&b, "lot.discard_day"), 20609 + 7);
    business_do(&b, "batch.plan", "{'pieces':[{'product_id':1,'balls':80}]}");
    CHECK(json_is_true(business_at(&b, "batches.0.batch.bag_of_minors")));
    /* flour, water, oil and the bag: no salt, no yeast */
    SAME(business_size(&b, "batches.0.weighings"), 4);
    business_do(&b, "minors.list", "{}");
    SAME(business_number(&b, "lots.0.lot.left_count"), 2);
    SAME_TEXT(business_text(&b, "lots.0.formula_name"), "White dough");
    business_stop(&b);
}

/* The to-do of bags of minors on Today; "" when there is none. */
static const char *bags_to_discard(business *b, char path[40])
{
    business_do(b, "today.get", "{}");
    for (size_t i = 0; i < business_size(b, "next"); i++) {
        snprintf(path, 40, "next.%zu.kind", i);
        if (strcmp(business_text(b, path), "discard_minors") == 0) {
            snprintf(path, 40, "next.%zu.minors_lot_id", i);
            return path;
        }
    }
    return "";
}

TEST(bags_of_minors_past_their_day_go_with_one_tap, DERIVED,
     "3 bags made, 1 of them thrown away by hand, then the rest")
{
    business b;
    char path[40];
    business_start(&b);
    business_set_up(&b);
    business_do(&b, "minors.make",
                "{'formula_id':1,'flour_kg':22.68,'bags':3,'days':2}");
    SAME_TEXT(bags_to_discard(&b, path), "");
    business_wait(&b, 2 * 24 * 60);
    SAME(business_number(&b, bags_to_discard(&b, path)), 1);
    SAME(business_ask(&b, "minors.discard", "{'minors_lot_id':1,'bags':4}"),
         DW_E_RANGE);
    SAME(b.err.high, 3);
    business_do(&b, "minors.discard", "{'minors_lot_id':1,'bags':1}");
    SAME(business_number(&b, "left_count"), 2);
    business_do(&b, "minors.discard", "{'minors_lot_id':1}");
    SAME(business_number(&b, "left_count"), 0);
    SAME_TEXT(bags_to_discard(&b, path), "");
    SAME(business_ask(&b, "minors.discard", "{'minors_lot_id':1}"),
         DW_E_CONFLICT);
    business_stop(&b);
}
