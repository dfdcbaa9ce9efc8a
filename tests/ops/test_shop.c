#include "business.h"
#include "dw_test.h"

TEST(a_shop_is_read_back_as_it_was_saved, LIMIT, "round trip")
{
    business b;
    business_start(&b);
    business_do(&b, "shop.get", "{}");
    CHECK(json_is_null(business_at(&b, "shop")));
    business_set_up(&b);
    business_do(&b, "shop.get", "{}");
    SAME_TEXT(business_text(&b, "shop.name"), "Alder Street");
    SAME_TEXT(business_text(&b, "mixers.0.duty"), "heavy");
    NEAR(business_number(&b, "scales.1.division_kg"), 0.001, 0);
    SAME(business_size(&b, "openings"), 3);
    SAME(business_size(&b, "products"), 2);
    business_stop(&b);
}

TEST(what_a_shop_says_must_hold_together, LIMIT, "bad input changes nothing")
{
    business b;
    business_start(&b);
    business_set_up(&b);
    SAME(business_ask(&b, "shop.save",
                      "{'name':'x','zone':'America/New_York',"
                      "'currency':'USD','ready_day':4}"),
         DW_E_RANGE);
    SAME(business_ask(&b, "shop.save",
                      "{'name':'x','zone':'Nowhere','currency':'USD'}"),
         DW_E_CHOICE);
    SAME(business_ask(&b, "mixer.save",
                      "{'mixer':{'name':'m'},'limits':["
                      "{'rating':{'absorption_percent':60,'dough_kg':40}}]}"),
         DW_E_MISSING);
    SAME_TEXT(b.err.field, "mixer.plate_note");
    SAME(business_ask(&b, "product.save",
                      "{'name':'x','formula_id':99,'ball_kg':0.3}"),
         DW_E_CONFLICT);
    business_do(&b, "shop.get", "{}");
    SAME_TEXT(business_text(&b, "shop.name"), "Alder Street");
    SAME(business_size(&b, "mixers"), 1);
    SAME(business_size(&b, "products"), 2);
    business_stop(&b);
}

TEST(a_formula_keeps_its_lines_stages_and_steps, LIMIT, "round trip")
{
    business b;
    business_start(&b);
    business_do(&b, "recipe.save",
                "{'name':'Poolish white','formula':{'lines':["
                "{'material':'flour','kind':'flour','percent':100},"
                "{'material':'water','kind':'water','percent':62},"
                "{'material':'salt','kind':'salt','percent':2},"
                "{'material':'yeast','kind':'yeast_fresh','percent':0.5}],"
                "'stages':[{'name':'poolish','kind':'poolish',"
                "'flour_percent':30,'lines':["
                "{'material':'flour','kind':'flour','percent':100},"
                "{'material':'water','kind':'water','percent':100},"
                "{'material':'yeast','kind':'yeast_fresh','percent':0.1}]}]},"
                "'steps':[{'kind':'probe'}]}");
    SAME(business_number(&b, "number"), 1);
    business_do(&b, "recipe.get", "{'formula_id':1}");
    NEAR(business_number(&b, "formula.lines.1.percent"), 62, 0);
    NEAR(business_number(&b, "formula.stages.0.flour_percent"), 30, 0);
    NEAR(business_number(&b, "formula.stages.0.lines.2.percent"), 0.1, 0);
    SAME_TEXT(business_text(&b, "steps.0.kind"), "probe");
    SAME(business_ask(&b, "recipe.save",
                      "{'name':'No flour','formula':{'lines':["
                      "{'material':'water','kind':'water','percent':60}]}}"),
         DW_E_NO_FLOUR);
    business_do(&b, "recipe.list", "{}");
    SAME(business_size(&b, "formulas"), 1);
    business_stop(&b);
}

#define WITH_WATER(percent)                                                    \
    "{'formula_id':1,'name':'Plain','formula':{'lines':["                      \
    "{'material':'flour','kind':'flour','percent':100},"                       \
    "{'material':'water','kind':'water','percent':" percent "}]}}"

TEST(an_unused_version_is_written_over_and_sameness_makes_none, LIMIT,
     "a version changes until it is used")
{
    business b;
    business_start(&b);
    business_set_up(&b);
    business_do(&b, "recipe.save", WITH_WATER("58"));
    SAME(business_number(&b, "number"), 1);
    business_do(&b, "recipe.save", WITH_WATER("59"));
    SAME(business_number(&b, "number"), 1);
    NEAR(business_number(&b, "formula.lines.1.percent"), 59, 0);
    business_do(&b, "recipe.versions", "{'id':1}");
    SAME(business_size(&b, "versions"), 1);
    business_stop(&b);
}
