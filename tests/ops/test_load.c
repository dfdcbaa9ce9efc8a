#include "business.h"
#include "dw_test.h"

static const char small_shop[] =
    "{'shop':{'name':'Lime Street','zone':'Europe/Rome','currency':'EUR'},"
    "'people':[{'name':'Amina'}],"
    "'mixers':[{'mixer':{'name':'m','plate_note':'plate'},"
    "'limits':[{'rating':{'absorption_percent':60,'dough_kg':20}}]}],"
    "'scales':[{'name':'s','capacity_kg':10,'division_kg':0.005}],"
    "'boxes':[{'name':'b','length_m':0.6,'width_m':0.4}],"
    "'openings':[{'weekday':'friday','opens_minute':600,"
    "'leaves_minute':1380}],"
    "'outlets':[{'name':'Lime Street'}],"
    "'formulas':[{'name':'White','formula':{'lines':["
    "{'material':'flour','kind':'flour','percent':100},"
    "{'material':'water','kind':'water','percent':60}]},"
    "'procedure':'straight'}],"
    "'products':[{'product':{'name':'Round','ball_kg':0.25},"
    "'formula':'White','box':'b','build_to':[1,2,3,4,5,6,7]}]}";

TEST(a_shop_is_loaded_by_names_in_one_go, DERIVED,
     "what the file says, row by row")
{
    business b;
    business_start(&b);
    business_do(&b, "shop.load", "%s", small_shop);
    SAME_TEXT(business_text(&b, "products.0.formula"), "White");
    SAME_TEXT(business_text(&b, "formulas.0.procedure"), "straight");
    business_do(&b, "shop.get", "{}");
    SAME_TEXT(business_text(&b, "shop.name"), "Lime Street");
    SAME(business_number(&b, "products.0.formula_id"), 1);
    SAME(business_number(&b, "products.0.box_type_id"), 1);
    SAME(business_size(&b, "build_tos"), 7);
    SAME(business_number(&b, "openings.0.weekday"), 4);
    NEAR(business_number(&b, "mixer_limits.0.rating.dough_kg"), 20, 0);
    business_stop(&b);
}

TEST(loading_again_changes_nothing_and_what_is_not_named_stays, LIMIT,
     "rows are found by their names")
{
    business b;
    business_start(&b);
    business_do(&b, "shop.load", "%s", small_shop);
    business_do(&b, "person.save", "{'name':'Bo'}");
    business_do(&b, "shop.show", "{}");
    char *before = json_dumps(b.reply, JSON_SORT_KEYS);
    business_do(&b, "shop.load", "%s", small_shop);
    business_do(&b, "shop.show", "{}");
    char *after = json_dumps(b.reply, JSON_SORT_KEYS);
    SAME_TEXT(after, before);
    SAME(business_size(&b, "people"), 2);
    free(before);
    free(after);
    business_do(&b, "recipe.versions", "{'id':1}");
    SAME(business_size(&b, "versions"), 1);
    business_stop(&b);
}

/* The last list of the file is wrong: the rows before it must not stay. */
static void refused_whole(const char *from, const char *to, dw_status status,
                          const char *field)
{
    business b;
    char text[4096];
    const char *at = strstr(small_shop, from);
    NEED(at != NULL);
    snprintf(text, sizeof text, "%.*s%s%s", (int)(at - small_shop), small_shop,
             to, at + strlen(from));
    business_start(&b);
    SAME(business_ask(&b, "shop.load", "%s", text), status);
    SAME_TEXT(b.err.field, field);
    business_do(&b, "shop.get", "{}");
    CHECK(json_is_null(business_at(&b, "shop")));
    SAME(business_size(&b, "persons"), 0);
    business_stop(&b);
}

TEST(a_shop_with_one_slip_is_refused_whole, LIMIT, "one transaction")
{
    refused_whole("'formula':'White'", "'formula':'Whit'", DW_E_NOT_FOUND,
                  "products[0].formula");
    refused_whole("'box':'b'", "'box':'c'", DW_E_NOT_FOUND, "products[0].box");
    refused_whole("[1,2,3,4,5,6,7]", "[1,2,3]", DW_E_RANGE,
                  "products[0].build_to");
    refused_whole("'kind':'flour','percent':100", "'kind':'salt','percent':2",
                  DW_E_NO_FLOUR, "formulas[0].formula.lines");
    refused_whole("{'name':'Amina'}", "{'name':'Amina'},{'name':'Amina'}",
                  DW_E_CONFLICT, "people.name");
    refused_whole("'leaves_minute':1380", "'leaves_minute':60", DW_E_RANGE,
                  "openings[0].leaves_minute");
}

TEST(a_formula_is_loaded_and_shown_by_its_name, LIMIT, "round trip")
{
    business b;
    business_start(&b);
    business_do(&b, "shop.load", "%s", small_shop);
    business_do(&b, "formula.show", "{'name':'White'}");
    SAME_TEXT(business_text(&b, "procedure"), "straight");
    char *file = json_dumps(b.reply, 0);
    business_do(&b, "formula.load", "%s", file);
    char *again = json_dumps(b.reply, 0);
    SAME_TEXT(again, file);
    free(file);
    free(again);
    SAME(business_ask(&b, "formula.show", "{'name':'No such'}"),
         DW_E_NOT_FOUND);
    business_do(&b, "recipe.list", "{}");
    SAME(business_size(&b, "formulas"), 1);
    business_stop(&b);
}

TEST(a_template_and_steps_together_are_refused, DERIVED, "only one can be")
{
    business b;
    business_start(&b);
    SAME(business_ask(&b, "formula.load",
                      "{'name':'x','procedure':'straight',"
                      "'steps':[{'kind':'mix'}],'formula':{'lines':["
                      "{'material':'f','kind':'flour','percent':100}]}}"),
         DW_E_CONFLICT);
    SAME_TEXT(b.err.field, "procedure");
    business_stop(&b);
}
