#include "business.h"
#include "dw_test.h"

TEST(the_run_of_a_day_lays_its_batches_one_after_another, LIMIT,
     "a mixer makes one batch at a time; a bench as well")
{
    business b;
    business_start(&b);
    business_set_up(&b);
    business_do(&b, "batch.plan", "{'pieces':[{'product_id':1,'balls':170}]}");
    business_do(&b, "run.get", "{}");
    size_t n = business_size(&b, "mixers.0.batches");
    SAME(business_size(&b, "mixers"), 1);
    CHECK(n >= 2);
    SAME(business_size(&b, "mixers.0.run.batches"), n);
    SAME_TEXT(business_text(&b, "mixers.0.mixer_name"), "big mixer");
    SAME(business_number(&b, "day"), 20609); /* 2026-06-05 */
    CHECK(business_number(&b, "mixers.0.run.batches.1.mix_start_ms") >=
          business_number(&b, "mixers.0.run.batches.0.dough_out_ms"));
    CHECK(business_number(&b, "mixers.0.run.batches.1.dough_out_ms") >=
          business_number(&b, "mixers.0.run.batches.0.boxed_ms"));
    business_do(&b, "run.get", "{'day':20000}");
    SAME(business_size(&b, "mixers"), 0);
    business_stop(&b);
}

TEST(an_abandoned_batch_is_not_in_the_run, LIMIT, "it is not made")
{
    business b;
    business_start(&b);
    business_set_up(&b);
    business_do(&b, "batch.plan", "{'pieces':[{'product_id':1,'balls':80}]}");
    business_do(&b, "change.save", "{'batch_id':1,'kind':'abandoned'}");
    business_do(&b, "run.get", "{}");
    SAME(business_size(&b, "mixers"), 0);
    business_stop(&b);
}
