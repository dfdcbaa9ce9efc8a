#include "business.h"
#include "dw_test.h"

#include <stdlib.h>
#include <time.h>

/* The clock starts at 2026-06-05 12:00 UTC (date -u -d @1780660800), 08:00 in
 * New York on Friday, day 20609. Its business day turns at 04:00 there, 08:00
 * UTC. */
#define NOON_MS 1780660800000LL
#define FRIDAY 20609
#define DAY_MS 86400000LL
#define TURN_MS (8 * 3600000LL)
#define MINUTE_MS 60000LL

/* The next batch of 14 oz balls, off paper: the mixer stopped at that moment,
 * boxed 20 minutes later and closed after 150 more. */
static void enter_batch(business *b, int number, long long stop_ms, int balls,
                        const char *dough_c)
{
    business_do(b, "batch.plan", "{'pieces':[{'product_id':1,'balls':80}]}");
    business_do(b, "batch.enter",
                "{'batch_id':%d,'room_c':23,%s'started_ms':%lld,"
                "'stopped_ms':%lld,'pieces':[{'id':%d,'balls_made':%d}],"
                "'first_box_ms':%lld,'last_box_ms':%lld,'closed_ms':%lld}",
                number, dough_c, stop_ms - 14 * MINUTE_MS, stop_ms, number,
                balls, stop_ms + 20 * MINUTE_MS, stop_ms + 20 * MINUTE_MS,
                stop_ms + 170 * MINUTE_MS);
}

static void start_with_one(business *b)
{
    business_start(b);
    business_set_up(b);
    business_wait(b, 240);
    enter_batch(b, 1, NOON_MS, 80, "'dough_c':25.4,");
}

TEST(an_empty_cold_room_has_no_stacks, LIMIT, "0 stacks")
{
    business b;
    business_start(&b);
    business_set_up(&b);
    business_do(&b, "cold.stacks", "{}");
    SAME(business_size(&b, "stacks"), 0);
    SAME(business_number(&b, "day"), FRIDAY);
    SAME(business_number(&b, "day_ends_ms"), (FRIDAY + 1) * DAY_MS + TURN_MS);
    business_stop(&b);
}

TEST(a_stack_tells_what_is_left_and_its_days, DERIVED,
     "worked by hand: days 1, 2, 3, 3 after Friday turn at 08:00 UTC")
{
    business b;
    start_with_one(&b);
    business_do(&b, "cold.stacks", "{}");
    SAME(business_size(&b, "stacks"), 1);
    SAME_TEXT(business_text(&b, "stacks.0.name"), "14 oz ball");
    SAME(business_number(&b, "stacks.0.balls_left"), 80);
    SAME(business_number(&b, "stacks.0.boxes_left"), 10);
    SAME(business_number(&b, "stacks.0.days.ready_ms"),
         (FRIDAY + 1) * DAY_MS + TURN_MS);
    SAME(business_number(&b, "stacks.0.days.use_first_ms"),
         (FRIDAY + 3) * DAY_MS + TURN_MS);
    SAME(business_number(&b, "stacks.0.days.end_ms"),
         (FRIDAY + 4) * DAY_MS + TURN_MS);
    SAME_TEXT(business_text(&b, "stacks.0.days.readiness"), "not_yet");
    business_stop(&b);
}

TEST(a_stacks_life_is_that_of_its_readings_and_times, DERIVED,
     "the legs written by hand; piece.life is held to its sources elsewhere")
{
    business b;
    start_with_one(&b);
    business_do(&b, "cold.stacks", "{}");
    double ready = business_number(&b, "stacks.0.life.ready.at_ms");
    double end = business_number(&b, "stacks.0.life.end.at_ms");
    double early = business_number(&b, "stacks.0.life.end.early_ms");
    double late = business_number(&b, "stacks.0.life.end.late_ms");
    CHECK(early < end && end < late);
    SAME_TEXT(business_text(&b, "stacks.0.readiness"), "not_yet");
    SAME_TEXT(business_text(&b, "stacks.0.next"), "ready");
    SAME(business_number(&b, "stacks.0.next_ms"), ready);
    business_do(
        &b, "piece.life",
        "{'formula':{'lines':["
        "{'material':'bread flour','kind':'flour','percent':100},"
        "{'material':'water','kind':'water','percent':60},"
        "{'material':'salt','kind':'salt','percent':2},"
        "{'material':'oil','kind':'fat','percent':2},"
        "{'material':'instant yeast','kind':'yeast_instant','percent':0.3}]},"
        "'piece_g':396.9,'dough_c':25.4,'members':0,'legs':["
        "{'hours':0.33333333333,'air_c':23,'h_w_per_m2_k':8},"
        "{'hours':2.5,'air_c':3,'h_w_per_m2_k':8},"
        "{'hours':1,'air_c':3,'h_w_per_m2_k':3}]}");
    /* to a quarter of an hour: the strip is worked out with fewer shells */
    NEAR((ready - (double)NOON_MS) / 3600000,
         business_number(&b, "window.ready_h"), 0.25);
    NEAR((end - (double)NOON_MS) / 3600000, business_number(&b, "window.end_h"),
         0.25);
    business_stop(&b);
}

TEST(a_stack_ages_on_the_clock_from_not_yet_to_past, PRACTICE,
     "common practice, no source: cold dough is ready a day later, past in a "
     "week")
{
    business b;
    start_with_one(&b);
    business_wait(&b, 44 * 60);
    business_do(&b, "cold.stacks", "{'members':0}");
    SAME_TEXT(business_text(&b, "stacks.0.readiness"), "ready");
    SAME_TEXT(business_text(&b, "stacks.0.next"), "best");
    business_wait(&b, 7 * 24 * 60);
    business_do(&b, "cold.stacks", "{'members':0}");
    SAME_TEXT(business_text(&b, "stacks.0.readiness"), "past");
    CHECK(json_is_null(business_at(&b, "stacks.0.next")));
    business_stop(&b);
}

TEST(a_warm_cold_room_ends_a_stack_sooner, LIMIT, "monotone in temperature")
{
    business b;
    start_with_one(&b);
    business_do(&b, "cold.stacks", "{'members':0}");
    double end = business_number(&b, "stacks.0.end_ms");
    business_do(&b, "reading.save", "{'kind':'cold_c','celsius':8}");
    business_do(&b, "cold.stacks", "{'members':0}");
    CHECK(json_is_true(business_at(&b, "stacks.0.life.air_read")));
    SAME(business_number(&b, "stacks.0.life.air_c"), 8);
    CHECK(business_number(&b, "stacks.0.end_ms") < end - 24 * 3600000.0);
    business_stop(&b);
}

TEST(a_stack_whose_dough_was_not_read_goes_by_the_shops_days, LIMIT,
     "where the model must not answer it says so")
{
    business b;
    business_start(&b);
    business_set_up(&b);
    business_wait(&b, 240);
    enter_batch(&b, 1, NOON_MS, 80, "");
    business_do(&b, "cold.stacks", "{}");
    CHECK(json_is_null(business_at(&b, "stacks.0.life")));
    SAME_TEXT(business_text(&b, "stacks.0.no_life"), "dough");
    SAME(business_number(&b, "stacks.0.end_ms"),
         (FRIDAY + 4) * DAY_MS + TURN_MS);
    SAME_TEXT(business_text(&b, "stacks.0.next"), "ready");
    business_stop(&b);
}

TEST(what_ends_first_is_used_first_and_what_is_past_comes_last, LIMIT,
     "order of the room")
{
    business b;
    business_start(&b);
    business_set_up(&b);
    business_wait(&b, 240);
    enter_batch(&b, 1, NOON_MS - 6 * DAY_MS, 8, "'dough_c':25,");
    enter_batch(&b, 2, NOON_MS, 8, "'dough_c':25,");
    enter_batch(&b, 3, NOON_MS - DAY_MS, 8, "'dough_c':25,");
    business_do(&b, "cold.stacks", "{'members':0}");
    SAME(business_number(&b, "stacks.0.number"), 3);
    SAME(business_number(&b, "stacks.1.number"), 2);
    SAME(business_number(&b, "stacks.2.number"), 1);
    SAME_TEXT(business_text(&b, "stacks.2.readiness"), "past");
    business_stop(&b);
}

/* ---- if this happens ---- */

TEST(if_the_room_is_warm_a_stack_ends_sooner_and_nothing_is_stored, LIMIT,
     "monotone in temperature; the question is a question")
{
    business b;
    start_with_one(&b);
    business_do(&b, "cold.stacks", "{'members':0}");
    double end = business_number(&b, "stacks.0.end_ms");
    business_do(&b, "cold.foresee",
                "{'mishap':{'kind':'warm_room','hours':8,'air_c':8}}");
    CHECK(json_is_true(business_at(&b, "fates.0.touched")));
    SAME_TEXT(business_text(&b, "fates.0.verdict"), "saved");
    SAME(business_number(&b, "saved_boxes"), 10);
    SAME(business_number(&b, "fates.0.over_ms"),
         (double)b.now_ms + 8 * 3600000.0);
    SAME(business_number(&b, "fates.0.before.end.at_ms"), end);
    CHECK(business_number(&b, "fates.0.after.end.at_ms") < end - 4 * 3600000.0);
    business_do(&b, "cold.stacks", "{'members':0}");
    SAME(business_number(&b, "stacks.0.end_ms"), end);
    business_stop(&b);
}

/* Moment for moment, band and all. */
static void check_turns(business *b, const char *turns, double within_ms)
{
    static const char *const names[] = {"ready", "best", "use_first", "end"};
    static const char *const parts[] = {"at_ms", "early_ms", "late_ms"};
    char path[64];
    double told[4][3];
    for (int i = 0; i < 12; i++) {
        snprintf(path, sizeof path, "fates.0.%s.%s.%s", turns, names[i / 3],
                 parts[i % 3]);
        told[i / 3][i % 3] = business_number(b, path);
    }
    business_do(b, "cold.stacks", "{'members':7}");
    for (int i = 0; i < 12; i++) {
        snprintf(path, sizeof path, "stacks.0.life.%s.%s", names[i / 3],
                 parts[i % 3]);
        NEAR(told[i / 3][i % 3], business_number(b, path), within_ms);
    }
}

TEST(what_was_planned_is_the_strip_of_the_cold_room_with_all_its_readings,
     DERIVED, "nothing happens before it is past: the strip of cold.stacks")
{
    business b;
    static const double read_c[] = {2.5, 6.5, 4.2};
    static const char *const after_the_end =
        "{'members':7,'mishap':{'kind':'warm_room','from_h':%d,'hours':1,"
        "'air_c':20}}";
    start_with_one(&b);
    for (size_t i = 0; i < DW_COUNT(read_c); i++) {
        business_wait(&b, 5 * 60);
        business_do(&b, "reading.save", "{'kind':'cold_c','celsius':%g}",
                    read_c[i]);
    }
    business_wait(&b, 90);
    business_do(&b, "cold.foresee", after_the_end, 2);
    CHECK(business_number(&b, "fates.0.after.end.at_ms") <
          business_number(&b, "fates.0.before.end.at_ms"));
    check_turns(&b, "before", 0);
    business_do(&b, "cold.stacks", "{'members':7}");
    double late = business_number(&b, "stacks.0.life.end.late_ms");
    /* 48 h: one life of the band ends later than its 95 % */
    int from_h = (int)((late - (double)b.now_ms) / 3600000) + 48;
    business_do(&b, "cold.foresee", after_the_end, from_h);
    CHECK(json_is_true(business_at(&b, "fates.0.touched")));
    SAME_TEXT(business_text(&b, "fates.0.verdict"), "past");
    check_turns(&b, "before", 0);
    business_do(&b, "cold.foresee", after_the_end, from_h);
    check_turns(&b, "after", MINUTE_MS);
    business_do(&b, "cold.foresee", after_the_end, -100);
    CHECK(json_is_false(business_at(&b, "fates.0.touched")));
    check_turns(&b, "after", 0);
    business_stop(&b);
}

TEST(what_is_foreseen_of_a_stack_is_that_of_its_readings_and_times, DERIVED,
     "the legs written by hand; stack.foresee is held to its sources elsewhere")
{
    business b;
    start_with_one(&b);
    business_wait(&b, 24 * 60);
    business_do(&b, "cold.foresee",
                "{'members':21,'mishap':{'kind':'power_cut','from_h':1,"
                "'hours':10,'outside_c':24}}");
    double end =
        (business_number(&b, "fates.0.after.end.at_ms") - (double)NOON_MS) /
        3600000;
    CHECK(business_number(&b, "fates.0.after.end.early_ms") <
          business_number(&b, "fates.0.after.end.late_ms"));
    double age = (double)(b.now_ms - NOON_MS) / 3600000;
    business_do(
        &b, "stack.foresee",
        "{'members':0,'shells':12,'mishap':{'kind':'power_cut','from_h':1,"
        "'hours':10,'outside_c':24},'stacks':[{'name':'it','formula':{'lines':["
        "{'material':'bread flour','kind':'flour','percent':100},"
        "{'material':'water','kind':'water','percent':60},"
        "{'material':'salt','kind':'salt','percent':2},"
        "{'material':'oil','kind':'fat','percent':2},"
        "{'material':'instant yeast','kind':'yeast_instant','percent':0.3}]},"
        "'piece_g':396.9,'dough_c':25.4,'legs':["
        "{'hours':0.33333333333,'air_c':23,'h_w_per_m2_k':8},"
        "{'hours':2.5,'air_c':3,'h_w_per_m2_k':8},"
        "{'hours':%.9f,'air_c':3,'h_w_per_m2_k':3}],"
        "'then':{'hours':1,'air_c':3,'h_w_per_m2_k':3}}]}",
        age - 2.83333333333);
    NEAR(end, business_number(&b, "fates.0.now.end_h"), 0.02);
    business_stop(&b);
}

TEST(a_box_left_out_touches_its_own_stack_only, LIMIT,
     "the other goes on as planned")
{
    business b;
    start_with_one(&b);
    enter_batch(&b, 2, NOON_MS, 80, "'dough_c':25.4,");
    business_do(&b, "cold.foresee",
                "{'stack_id':2,'mishap':{'kind':'left_out','from_h':-3,"
                "'hours':6,'air_c':24,'h_w_per_m2_k':8}}");
    size_t two = business_number(&b, "fates.0.stack_id") == 2 ? 0 : 1;
    const char *out = two == 0 ? "fates.0" : "fates.1";
    const char *in = two == 0 ? "fates.1" : "fates.0";
    char path[64];
#define AT(row, name) (snprintf(path, sizeof path, "%s." name, row), path)
    CHECK(json_is_true(business_at(&b, AT(out, "touched"))));
    CHECK(json_is_false(business_at(&b, AT(in, "touched"))));
    NEAR(business_number(&b, AT(in, "after.end.at_ms")),
         business_number(&b, AT(in, "before.end.at_ms")), 60000);
    double before = business_number(&b, AT(out, "before.end.at_ms"));
    CHECK(business_number(&b, AT(out, "after.end.at_ms")) < before - 3600000.0);
#undef AT
    SAME(business_ask(&b, "cold.foresee",
                      "{'stack_id':9,'mishap':{'kind':'van','hours':1,"
                      "'air_c':20}}"),
         DW_E_NOT_FOUND);
    SAME(business_ask(&b, "cold.foresee",
                      "{'mishap':{'kind':'power_cut','hours':1}}"),
         DW_E_MISSING);
    SAME_TEXT(b.err.field, "mishap.outside_c");
    business_stop(&b);
}

TEST(an_open_stack_is_foreseen_closed_when_it_is_due, LIMIT,
     "nothing happens: it ends when its strip says")
{
    business b;
    business_start(&b);
    business_set_up(&b);
    business_wait(&b, 60);
    business_do(&b, "batch.plan", "{'pieces':[{'product_id':1,'balls':80}]}");
    business_do(&b, "batch.enter",
                "{'batch_id':1,'room_c':23,'dough_c':25.4,"
                "'started_ms':%lld,'stopped_ms':%lld,"
                "'pieces':[{'id':1,'balls_made':80}],"
                "'first_box_ms':%lld,'last_box_ms':%lld}",
                NOON_MS - 14 * MINUTE_MS, NOON_MS, NOON_MS + 20 * MINUTE_MS,
                NOON_MS + 20 * MINUTE_MS);
    business_do(&b, "cold.stacks", "{'members':0}");
    CHECK(business_number(&b, "stacks.0.close_due_ms") > (double)b.now_ms);
    double end = business_number(&b, "stacks.0.end_ms");
    business_do(&b, "cold.foresee",
                "{'mishap':{'kind':'warm_room','hours':1,'air_c':3}}");
    NEAR(business_number(&b, "fates.0.after.end.at_ms"), end, MINUTE_MS);
    business_stop(&b);
}

TEST(a_room_that_was_read_warm_is_foreseen_warm_from_now_on, LIMIT,
     "what was read stays read; mended soon is better than mended late")
{
    business b;
    start_with_one(&b);
    business_wait(&b, 12 * 60);
    business_do(&b, "reading.save", "{'kind':'cold_c','celsius':12}");
    business_do(&b, "cold.foresee",
                "{'mishap':{'kind':'warm_room','hours':1,'air_c':12}}");
    CHECK(json_is_null(business_at(&b, "fates.0.no_life")));
    double soon = business_number(&b, "fates.0.after.end.at_ms");
    business_do(&b, "cold.foresee",
                "{'mishap':{'kind':'warm_room','hours':6,'air_c':12}}");
    double late = business_number(&b, "fates.0.after.end.at_ms");
    CHECK(late < soon - 3600000.0);
    business_stop(&b);
}

TEST(of_a_stack_without_a_model_nothing_is_foreseen, LIMIT,
     "where the model must not answer it says so")
{
    business b;
    business_start(&b);
    business_set_up(&b);
    business_wait(&b, 240);
    enter_batch(&b, 1, NOON_MS, 80, "");
    business_do(&b, "cold.foresee",
                "{'mishap':{'kind':'warm_room','hours':3,'air_c':12}}");
    CHECK(json_is_null(business_at(&b, "fates.0.verdict")));
    SAME_TEXT(business_text(&b, "fates.0.no_life"), "dough");
    SAME(business_number(&b, "unknown_boxes"), 10);
    business_stop(&b);
}

/* ---- what is kept ---- */

/* The answer as text, of this app and of one that has nothing kept. */
static bool same_anew(business *b, int members)
{
    business_do(b, "cold.stacks", "{'members':%d}", members);
    char *kept = json_dumps(b->reply, JSON_SORT_KEYS);
    business_reopen(b);
    business_do(b, "cold.stacks", "{'members':%d}", members);
    char *anew = json_dumps(b->reply, JSON_SORT_KEYS);
    bool same = kept && anew && strcmp(kept, anew) == 0;
    free(kept);
    free(anew);
    return same;
}

TEST(stacks_that_went_on_are_told_as_if_lived_anew, LIMIT,
     "the same answer from a program that was just started: after readings of "
     "the room, of a batch, and one that is left out again")
{
    business b;
    start_with_one(&b);
    enter_batch(&b, 2, NOON_MS + 30 * MINUTE_MS, 72, "'dough_c':26,");
    business_do(&b, "cold.stacks", "{'members':7}");
    const double air_c[] = {3, 6, 4.2, 2};
    for (size_t i = 0; i < DW_COUNT(air_c); i++) {
        business_wait(&b, 200);
        business_do(&b, "reading.save", "{'kind':'cold_c','celsius':%.1f%s}",
                    air_c[i], i == 2 ? ",'batch_id':2" : "");
        business_do(&b, "cold.stacks", "{'members':7}");
        business_wait(&b, 45);
        business_do(&b, "cold.stacks", "{'members':0}");
        CHECK(same_anew(&b, i % 2 ? 7 : 0));
    }
    NEAR(business_number(&b, "stacks.0.life.air_c"), 2, 1e-9);
    business_stop(&b);
}

TEST(a_warm_afternoon_ages_dough_that_a_cold_evening_does_not_make_young, LIMIT,
     "readings hold for their own time: 9 degC for 4 h ends sooner than 3")
{
    double end_h[2];
    for (int i = 0; i < 2; i++) {
        business b;
        start_with_one(&b);
        business_do(&b, "reading.save", "{'kind':'cold_c','celsius':%d}",
                    i ? 9 : 3);
        business_wait(&b, 240);
        business_do(&b, "reading.save", "{'kind':'cold_c','celsius':3}");
        business_do(&b, "cold.stacks", "{'members':0}");
        NEAR(business_number(&b, "stacks.0.life.air_c"), 3, 1e-9);
        end_h[i] = business_number(&b, "stacks.0.life.end.at_ms") / 3600000;
        business_stop(&b);
    }
    CHECK(end_h[1] < end_h[0] - 2);
}

/* ---- moves ---- */

TEST(moves_come_off_the_stack_and_off_the_stock, DERIVED, "80 - 8 - 16 + 8")
{
    business b;
    start_with_one(&b);
    business_do(&b, "stack.move", "{'stack_id':1,'kind':'pull','balls':8}");
    SAME(business_number(&b, "balls_left"), 72);
    business_do(&b, "stack.move", "{'stack_id':1,'kind':'send','balls':16}");
    SAME(business_number(&b, "balls_left"), 56);
    business_do(&b, "stack.move", "{'stack_id':1,'kind':'put_back','balls':8}");
    SAME(business_number(&b, "balls_left"), 64);
    business_do(&b, "cold.stacks", "{}");
    SAME(business_number(&b, "stacks.0.balls_left"), 64);
    SAME(business_number(&b, "stacks.0.boxes_left"), 8);
    business_do(&b, "count.get", "{}");
    SAME(business_number(&b, "products.0.ages.0.balls"), 64);
    business_do(&b, "stack.move",
                "{'stack_id':1,'kind':'throw_away','balls':64}");
    business_do(&b, "cold.stacks", "{}");
    SAME(business_size(&b, "stacks"), 0);
    business_do(&b, "stack.move", "{'stack_id':1,'kind':'put_back','balls':8}");
    SAME(business_number(&b, "balls_left"), 8);
    business_stop(&b);
}

TEST(moves_of_what_is_not_there_change_nothing, LIMIT,
     "bad input changes nothing")
{
    business b;
    start_with_one(&b);
    SAME(business_ask(&b, "stack.move",
                      "{'stack_id':1,'kind':'use','balls':81}"),
         DW_E_RANGE);
    SAME_TEXT(b.err.field, "balls");
    SAME(b.err.high, 80);
    SAME(business_ask(&b, "stack.move",
                      "{'stack_id':1,'kind':'put_back','balls':1}"),
         DW_E_CONFLICT);
    SAME(business_ask(&b, "stack.move",
                      "{'stack_id':1,'kind':'put_by','balls':1}"),
         DW_E_CONFLICT);
    SAME(
        business_ask(&b, "stack.move", "{'stack_id':9,'kind':'use','balls':1}"),
        DW_E_NOT_FOUND);
    business_do(&b, "cold.stacks", "{}");
    SAME(business_number(&b, "stacks.0.balls_left"), 80);
    business_stop(&b);
}

TEST(a_count_that_differs_is_taken_from_the_oldest_stack, DERIVED,
     "80 and 40 of one day, counted 90: the older has 50")
{
    business b;
    start_with_one(&b);
    enter_batch(&b, 2, NOON_MS + 60 * MINUTE_MS, 40, "'dough_c':25,");
    business_do(&b, "count.save",
                "{'lines':[{'product_id':1,'mixing_day':%d,'balls':90}]}",
                FRIDAY);
    business_do(&b, "cold.stacks", "{}");
    SAME(business_number(&b, "stacks.0.number"), 1);
    SAME(business_number(&b, "stacks.0.balls_left"), 50);
    CHECK(json_is_true(business_at(&b, "stacks.0.assumed")));
    SAME(business_number(&b, "stacks.1.balls_left"), 40);
    CHECK(json_is_false(business_at(&b, "stacks.1.assumed")));
    /* more than was made of known batches: the newest has them */
    business_wait(&b, 1);
    business_do(&b, "count.save",
                "{'lines':[{'product_id':1,'mixing_day':%d,'balls':125}]}",
                FRIDAY);
    business_do(&b, "cold.stacks", "{}");
    SAME(business_number(&b, "stacks.1.balls_left"), 45);
    business_stop(&b);
}

TEST(balls_that_were_only_counted_have_a_strip_by_the_days, LIMIT,
     "1 stack of no batch")
{
    business b;
    business_start(&b);
    business_set_up(&b);
    business_do(&b, "count.save",
                "{'lines':[{'product_id':2,'mixing_day':%d,'balls':13}]}",
                FRIDAY - 1);
    business_do(&b, "cold.stacks", "{}");
    SAME(business_size(&b, "stacks"), 1);
    SAME(business_number(&b, "stacks.0.stack_id"), 0);
    SAME(business_number(&b, "stacks.0.boxes_left"), 2);
    SAME_TEXT(business_text(&b, "stacks.0.no_life"), "times");
    SAME_TEXT(business_text(&b, "stacks.0.readiness"), "ready");
    business_stop(&b);
}

static double seconds(void)
{
    struct timespec at;
    clock_gettime(CLOCK_MONOTONIC, &at);
    return (double)at.tv_sec + (double)at.tv_nsec * 1e-9;
}

TEST(long_seven_and_four_hundred_stacks_are_told_at_once, LIMIT,
     "a page that is asked for anew after each reading: 2 s with bands")
{
    business b;
    business_start(&b);
    business_set_up(&b);
    business_wait(&b, 240);
    for (int i = 1; i <= 400; i++) {
        enter_batch(&b, i, NOON_MS - i * 10 * MINUTE_MS, 80, "'dough_c':25,");
        if (i == 7) {
            business_do(&b, "cold.stacks", "{}");
            SAME(business_size(&b, "stacks"), 7);
        }
    }
    for (int members = 0; members <= 15; members += 15) {
        double from = seconds();
        business_do(&b, "cold.stacks", "{'members':%d}", members);
        double took = seconds() - from;
        printf("400 stacks, %d members: %.0f ms\n", members, took * 1000);
        CHECK(took < 2);
    }
    SAME(business_size(&b, "stacks"), 400);
    CHECK(business_number(&b, "stacks.399.life.end.late_ms") > 0);
    business_stop(&b);
}
