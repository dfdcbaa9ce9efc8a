#include "business.h"
#include "dw_test.h"

/* Total 164.3 %, loss 1 %: a whole bag (22.68 kg flour) gives 36.89 kg. 96
 * balls of 0.3969 kg and 60 of 0.2835 kg are 55.11 kg, so two whole bags (73.78
 * kg) hold them and one does not. */
TEST(an_order_of_two_sizes_becomes_batches_that_add_up, DERIVED,
     "worked by hand from the formula and the bags")
{
    business b;
    business_start(&b);
    business_set_up(&b);
    business_do(&b, "batch.plan",
                "{'pieces':[{'product_id':1,'balls':96},"
                "{'product_id':2,'balls':60}]}");
    size_t batches = business_size(&b, "batches");
    CHECK(batches >= 2);
    int64_t made[2] = {0, 0};
    for (size_t i = 0; i < batches; i++) {
        char path[96];
        snprintf(path, sizeof path, "batches.%zu.pieces", i);
        size_t pieces = business_size(&b, path);
        for (size_t j = 0; j < pieces; j++) {
            snprintf(path, sizeof path,
                     "batches.%zu.pieces.%zu.piece.product_id", i, j);
            int product = (int)business_number(&b, path);
            snprintf(path, sizeof path,
                     "batches.%zu.pieces.%zu.piece.balls_planned", i, j);
            made[product - 1] += (int64_t)business_number(&b, path);
        }
    }
    SAME(made[0], business_number(&b, "account.0.made"));
    SAME(made[1], business_number(&b, "account.1.made"));
    CHECK(made[0] >= 96 && made[1] >= 60);
    SAME(business_number(&b, "account.0.surplus"), made[0] - 96);
    business_do(&b, "recipe.get", "{'formula_id':1}");
    CHECK(json_is_true(business_at(&b, "used")));
    business_stop(&b);
}

TEST(a_kept_batch_reads_back_with_weighings_and_steps, LIMIT, "round trip")
{
    business b;
    business_start(&b);
    business_set_up(&b);
    business_do(&b, "batch.plan", "{'pieces':[{'product_id':1,'balls':80}]}");
    business_do(&b, "batch.get", "{'id':1}");
    SAME_TEXT(business_text(&b, "formula_name"), "White dough");
    SAME_TEXT(business_text(&b, "batch.state"), "planned");
    SAME(business_size(&b, "weighings"), 5);
    SAME(business_number(&b, "weighings.0.weighing.whole_bags"), 1);
    CHECK(business_size(&b, "steps") > 10);
    /* salt 2 % of 22.68 kg, on the bench scale */
    NEAR(business_number(&b, "weighings.2.weighing.planned_kg"), 0.4536,
         0.0005);
    SAME_TEXT(business_text(&b, "weighings.2.scale"), "bench scale");
    NEAR(business_number(&b, "totals.flour_kg"), 22.68, 1e-9);
    NEAR(business_number(&b, "totals.hydration_percent"), 60, 0.3);
    CHECK(business_number(&b, "water.answer.water_c") > 0);
    business_stop(&b);
}

TEST(a_preview_keeps_nothing, LIMIT, "round trip")
{
    business b;
    business_start(&b);
    business_set_up(&b);
    business_do(&b, "batch.preview",
                "{'pieces':[{'product_id':1,'balls':80}]}");
    SAME(business_number(&b, "batches.0.batch.id"), 0);
    SAME(business_ask(&b, "batch.get", "{'id':1}"), DW_E_NOT_FOUND);
    SAME_TEXT(b.err.field, "batch_id");
    business_stop(&b);
}

TEST(late_stacks_are_named_before_anything_is_mixed, PRACTICE,
     "common practice, no source")
{
    business b;
    business_start(&b);
    business_set_up(&b);
    /* Friday 21:00 in New York is 01:00 UTC on Saturday */
    business_wait(&b, 13 * 60);
    business_do(&b, "batch.preview",
                "{'pieces':[{'product_id':1,'balls':80}]}");
    CHECK(business_size(&b, "run.advice") > 0);
    CHECK(json_is_true(business_at(&b, "run.batches.0.stacks.0.late")));
    business_stop(&b);
}

TEST(an_order_that_makes_no_sense_changes_nothing, LIMIT,
     "bad input changes nothing")
{
    business b;
    business_start(&b);
    business_set_up(&b);
    SAME(business_ask(&b, "batch.plan",
                      "{'pieces':[{'product_id':9,'balls':80}]}"),
         DW_E_NOT_FOUND);
    SAME(business_ask(&b, "batch.plan",
                      "{'pieces':[{'product_id':1,'balls':-3}]}"),
         DW_E_RANGE);
    SAME(business_ask(&b, "batch.plan",
                      "{'pieces':[{'product_id':1,'balls':8},"
                      "{'product_id':1,'balls':8}]}"),
         DW_E_CONFLICT);
    SAME(business_ask(&b, "batch.get", "{'id':1}"), DW_E_NOT_FOUND);
    business_stop(&b);
}
