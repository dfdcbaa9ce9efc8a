#include "business.h"
#include "dw_test.h"

/* 2026-06-05, the day of the tests. */
#define FRIDAY 20609

static void set_up(business *b)
{
    business_start(b);
    business_set_up(b);
    business_do(b, "outlet.save", "{'name':'Mill'}");
}

TEST(sales_are_kept_once_however_often_they_come, DERIVED, "counted by hand")
{
    business b;
    set_up(&b);
    static const char rows[] =
        "{'rows':[{'outlet':'Mill','product':'14 oz ball','day':20600,"
        "'balls':31},{'product':'10 oz ball','day':20600,'balls':8,"
        "'sold_out':true}]}";
    business_do(&b, "sale.load", "%s", rows);
    SAME(business_number(&b, "added"), 2);
    business_do(&b, "sale.load", "%s", rows);
    SAME(business_number(&b, "added"), 0);
    SAME(business_number(&b, "same"), 2);
    business_do(&b, "sale.load",
                "{'rows':[{'product':'14 oz ball','day':20600,'balls':33}]}");
    SAME(business_number(&b, "changed"), 1);
    business_do(&b, "sale.list", "{'from_day':20600,'to_day':20600}");
    SAME(business_size(&b, "sales"), 2);
    SAME(business_number(&b, "sales.0.balls"), 33);
    SAME_TEXT(business_text(&b, "sales.0.outlet"), "Mill");
    CHECK(json_is_true(business_at(&b, "sales.1.sold_out")));
    business_do(&b, "sale.list", "{'from_day':20601}");
    SAME(business_size(&b, "sales"), 0);
    business_stop(&b);
}

TEST(bad_sales_are_told_with_their_lines_and_the_rest_is_kept, DERIVED,
     "counted by hand")
{
    business b;
    set_up(&b);
    business_do(&b, "sale.load",
                "{'rows':["
                "{'line':2,'product':'14 oz ball','day':20600,'balls':1},"
                "{'line':3,'product':'15 oz ball','day':20600,'balls':1},"
                "{'line':4,'outlet':'Pond','product':'14 oz ball',"
                "'day':20600,'balls':1},"
                "{'line':5,'product':'14 oz ball','day':%d,'balls':1},"
                "{'line':6,'product':'14 oz ball','day':20600,'balls':2},"
                "{'line':7,'product':'14 oz ball','day':20600,'balls':1}]}",
                FRIDAY + 1);
    SAME(business_number(&b, "added"), 1);
    SAME(business_size(&b, "refused"), 4);
    static const int lines[] = {3, 4, 5, 6};
    static const char *const fields[] = {"product", "outlet", "day", "balls"};
    char path[40];
    for (size_t i = 0; i < DW_COUNT(lines); i++) {
        snprintf(path, sizeof path, "refused.%zu.line", i);
        SAME(business_number(&b, path), lines[i]);
        snprintf(path, sizeof path, "refused.%zu.field", i);
        SAME_TEXT(business_text(&b, path), fields[i]);
    }
    business_stop(&b);
}

TEST(an_outlet_left_out_is_the_only_one_there_is, DERIVED, "two are too many")
{
    business b;
    set_up(&b);
    business_do(&b, "outlet.save", "{'name':'Pond'}");
    business_do(&b, "sale.load",
                "{'rows':[{'product':'14 oz ball','day':20600,'balls':1}]}");
    SAME(business_number(&b, "added"), 0);
    SAME_TEXT(business_text(&b, "refused.0.field"), "outlet");
    business_stop(&b);
}
