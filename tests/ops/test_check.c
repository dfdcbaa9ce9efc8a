#include "business.h"
#include "dw_test.h"

#include <string.h>

static const char *const ICE =
    "{'what':'thermometer','name':'Probe in ice water','every_days':7,"
    "'lowest':-1,'highest':1}";

TEST(a_check_is_due_at_once_then_so_many_days_after_it_was_done, DERIVED,
     "7 days = 604,800,000 ms")
{
    business b;
    business_start(&b);
    business_set_up(&b);
    business_do(&b, "check.save", "%s", ICE);
    business_do(&b, "check.list", "{}");
    NEAR(business_number(&b, "checks.0.due_ms"), (double)b.now_ms, 1);
    CHECK(json_is_null(business_at(&b, "checks.0.last")));
    business_wait(&b, 30);
    business_do(&b, "check.do", "{'check_id':1,'value':0.4}");
    long long done = b.now_ms;
    CHECK(json_is_true(business_at(&b, "within")));
    business_do(&b, "check.list", "{}");
    NEAR(business_number(&b, "checks.0.due_ms"), (double)(done + 604800000LL),
         1);
    SAME(business_size(&b, "done"), 1);
    business_stop(&b);
}

TEST(outside_its_limits_a_check_is_kept_only_with_what_was_done, LIMIT,
     "1.5 degC in ice water, limits -1 to 1; bad input changes nothing")
{
    business b;
    business_start(&b);
    business_set_up(&b);
    business_do(&b, "check.save", "%s", ICE);
    SAME(business_ask(&b, "check.do", "{'check_id':1}"), DW_E_MISSING);
    SAME_TEXT(b.err.field, "value");
    SAME(business_ask(&b, "check.do", "{'check_id':1,'value':1.5}"),
         DW_E_MISSING);
    SAME_TEXT(b.err.field, "action");
    business_do(&b, "check.list", "{}");
    SAME(business_size(&b, "done"), 0);
    business_do(&b, "check.do",
                "{'check_id':1,'value':1.5,'action':'thrown away'}");
    CHECK(json_is_false(business_at(&b, "within")));
    business_stop(&b);
}

TEST(limits_the_wrong_way_round_and_unknown_checks_are_refused, LIMIT,
     "bad input")
{
    business b;
    business_start(&b);
    business_set_up(&b);
    SAME(business_ask(&b, "check.save",
                      "{'what':'scale','name':'Bench scale','every_days':7,"
                      "'lowest':1,'highest':0.9}"),
         DW_E_RANGE);
    SAME_TEXT(b.err.field, "highest");
    SAME(business_ask(&b, "check.do", "{'check_id':5}"), DW_E_NOT_FOUND);
    business_stop(&b);
}

TEST(a_check_that_is_due_stands_on_today_until_it_is_done, LIMIT,
     "due ones appear as things to do; a stopped one does not")
{
    business b;
    business_start(&b);
    business_set_up(&b);
    business_do(&b, "check.save",
                "{'what':'cleaning','name':'Mixer bowl','every_days':1}");
    business_do(&b, "today.get", "{}");
    size_t before = business_size(&b, "next");
    bool found = false;
    for (size_t i = 0; i < before; i++) {
        char path[32];
        snprintf(path, sizeof path, "next.%zu.kind", i);
        found = found || strcmp(business_text(&b, path), "check") == 0;
    }
    CHECK(found);
    business_do(&b, "check.do", "{'check_id':1}");
    business_do(&b, "today.get", "{}");
    SAME(business_size(&b, "next"), before - 1);
    business_wait(&b, 25 * 60);
    business_do(&b, "check.save",
                "{'id':1,'what':'cleaning','name':'Mixer bowl',"
                "'every_days':1,'stopped':true}");
    business_do(&b, "check.list", "{}");
    SAME(business_size(&b, "checks"), 0);
    SAME(business_size(&b, "done"), 1);
    business_stop(&b);
}
