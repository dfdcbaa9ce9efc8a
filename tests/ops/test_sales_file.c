#include "business.h"
#include "dw_test.h"

/* 2026-03-28 is day 20540: date -u -d 2026-03-28 +%s / 86400. */
#define DAY 20540

/* What a register writes: its own names, one line a sale, a time of day. */
#define TICKETS                                                                \
    "Fecha;Articulo;Cantidad\\n28/03/2026 18:05;14 OZ BALL;2\\n"               \
    "28/03/2026 18:40;14 OZ BALL;1\\n28/03/2026 20:10;14 OZ BALL;4\\n"         \
    "28/03/2026 20:15;Party box;1\\n28/03/2026 20:20;Cola;9\\n"                \
    "28/03/2026 20:25;14 OZ BALL;lots\\n"

#define NAMES                                                                  \
    "[{'kind':'product','written':'14 OZ BALL','product_id':1},"               \
    "{'kind':'product','written':'Party box','product_id':1,"                  \
    "'balls_each':4},"                                                         \
    "{'kind':'product','written':'Cola','passed_over':true}]"

#define MAPPING                                                                \
    "'mapping':{'separator':'semicolon','decimal':'comma','dates':'day',"      \
    "'product_column':2,'day_column':1,'hour_column':1,'balls_column':3,"      \
    "'add_up':true,'names':" NAMES "}"

static void set_up(business *b)
{
    business_start(b);
    business_set_up(b);
}

TEST(a_registers_file_is_shown_before_it_is_taken_in, DERIVED, "by hand")
{
    business b;
    set_up(&b);
    business_do(&b, "sales.read", "{'text':'" TICKETS "'}");
    SAME_TEXT(business_text(&b, "mapping.separator"), "semicolon");
    SAME_TEXT(business_text(&b, "mapping.decimal"), "comma");
    SAME_TEXT(business_text(&b, "mapping.dates"), "day");
    CHECK(json_is_true(business_at(&b, "dates_sure")));
    CHECK(json_is_true(business_at(&b, "columns_sure")));
    CHECK(json_is_true(business_at(&b, "mapping.add_up")));
    SAME(business_number(&b, "mapping.hour_column"), 1);
    SAME_TEXT(business_text(&b, "excerpt.0.text"), "Fecha;Articulo;Cantidad");
    SAME_TEXT(business_text(&b, "columns.1.example"), "14 OZ BALL");
    SAME(business_number(&b, "rows_all"), 5);
    SAME(business_number(&b, "rows.2.hour"), 20);
    SAME(business_number(&b, "rows.2.day"), DAY);
    SAME(business_size(&b, "refused"), 1);
    SAME(business_number(&b, "refused.0.line"), 7);
    SAME(business_size(&b, "names"), 3);
    SAME(business_number(&b, "names.0.name.product_id"), 1); /* alike */
    SAME(business_number(&b, "names.0.rows"), 3);
    SAME(business_number(&b, "names.2.name.product_id"), 0);
    business_do(&b, "sale.list", "{}");
    SAME(business_size(&b, "sales"), 0); /* nothing is written */
    business_stop(&b);
}

TEST(a_file_taken_in_twice_is_there_once, DERIVED,
     "2 + 1 + 4 balls and a box of 4: 11, of them 3 at six and 8 at eight")
{
    business b;
    set_up(&b);
    business_do(&b, "sales.import", "{'text':'" TICKETS "'," MAPPING "}");
    SAME(business_number(&b, "added"), 1);
    SAME(business_number(&b, "passed_over"), 1);
    SAME(business_size(&b, "refused"), 1);
    business_do(&b, "sales.import", "{'text':'" TICKETS "'," MAPPING "}");
    SAME(business_number(&b, "added"), 0);
    SAME(business_number(&b, "same"), 1);
    business_do(&b, "sale.list", "{}");
    SAME(business_size(&b, "sales"), 1);
    SAME(business_number(&b, "sales.0.balls"), 11);
    SAME_TEXT(business_text(&b, "sales.0.outlet"), "Alder Street");
    business_do(&b, "demand.get", "{'first_day':%d,'check_weeks':0}", DAY + 1);
    NEAR(business_number(&b, "products.0.hours.5.shares.18"), 3 / 11.0, 1e-9);
    NEAR(business_number(&b, "products.0.hours.5.shares.20"), 8 / 11.0, 1e-9);
    business_do(&b, "sales.read", "{'text':'" TICKETS "'}");
    CHECK(json_is_true(business_at(&b, "names.1.known"))); /* remembered */
    SAME(business_number(&b, "names.1.name.balls_each"), 4);
    business_stop(&b);
}

TEST(dates_that_may_be_either_are_asked_for, DERIVED, "3 April or 4 March")
{
    business b;
    set_up(&b);
    static const char text[] = "product,day,balls\\n14 oz ball,3/4/2026,5\\n";
    business_do(&b, "sales.read", "{'text':'%s'}", text);
    CHECK(json_is_false(business_at(&b, "dates_sure")));
    SAME(business_ask(&b, "sales.import",
                      "{'text':'%s','mapping':{'product_column':1,"
                      "'day_column':2,'balls_column':3}}",
                      text),
         DW_E_CHOICE);
    business_do(&b, "sales.import",
                "{'text':'%s','mapping':{'product_column':1,'day_column':2,"
                "'balls_column':3,'dates':'month'}}",
                text);
    business_do(&b, "sale.list", "{}");
    SAME(business_number(&b, "sales.0.day"), 20516); /* date -u: 2026-03-04 */
    business_stop(&b);
}

TEST(a_file_whose_columns_have_other_names_is_shown_all_the_same, DERIVED,
     "by hand")
{
    business b;
    set_up(&b);
    business_do(&b, "sales.read", "{'text':'what,n\\n14 oz ball,5\\n'}");
    CHECK(json_is_false(business_at(&b, "columns_sure")));
    SAME(business_size(&b, "columns"), 2);
    SAME_TEXT(business_text(&b, "columns.0.name"), "what");
    SAME(business_ask(&b, "sales.import",
                      "{'text':'what,n\\n14 oz ball,5\\n','mapping':"
                      "{'product_column':1,'balls_column':2}}"),
         DW_E_MISSING);
    SAME_TEXT(b.err.field, "day");
    business_stop(&b);
}
