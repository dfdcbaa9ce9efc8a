#include "business.h"
#include "dw_test.h"

#include "store/nouns.h"
#include "store/store.h"

/* The clock starts at 2026-06-05 12:00 UTC, 08:00 in New York on Friday, day
 * 20609. */
#define NOW_MS 1780660800000LL
#define FRIDAY 20609
#define DAY_MS 86400000LL
#define HOUR_MS 3600000LL
#define MINUTE_MS 60000LL

/* The next batch of 14 oz balls, off paper, boxed 20 minutes after the mixer
 * stopped. */
static void enter_batch(business *b, int number, long long stop_ms, int balls)
{
    business_do(b, "batch.plan", "{'pieces':[{'product_id':1,'balls':80}]}");
    business_do(b, "batch.enter",
                "{'batch_id':%d,'room_c':23,'dough_c':25,'started_ms':%lld,"
                "'stopped_ms':%lld,'pieces':[{'id':%d,'balls_made':%d}],"
                "'first_box_ms':%lld,'last_box_ms':%lld,'closed_ms':%lld}",
                number, stop_ms - 14 * MINUTE_MS, stop_ms, number, balls,
                stop_ms + 20 * MINUTE_MS, stop_ms + 20 * MINUTE_MS,
                stop_ms + 170 * MINUTE_MS);
}

/* Batches of Thursday, 24 and three of 80 balls, and one of this morning, 80;
 * 160 balls to have on a Friday. */
static void start(business *b)
{
    business_start(b);
    business_set_up(b);
    business_wait(b, -20 * 60);
    enter_batch(b, 1, NOW_MS - DAY_MS, 24);
    for (int i = 2; i <= 4; i++)
        enter_batch(b, i, NOW_MS - DAY_MS + i * HOUR_MS / 4, 80);
    business_wait(b, 20 * 60);
    enter_batch(b, 5, NOW_MS - 3 * HOUR_MS, 80);
    business_do(b, "build_to.replace",
                "{'rows':[{'product_id':1,'weekday':4,'balls':160},"
                "{'product_id':1,'weekday':5,'balls':160}]}");
}

static double sum_of_rows(const business *b, double until_ms)
{
    json_t *lines = business_at(b, "products.0.lines"), *line;
    double balls = 0;
    size_t i;
    json_array_foreach(lines, i, line) if (json_number_value(json_object_get(
                                               line, "at_ms")) <= until_ms)
        balls += json_number_value(json_object_get(line, "balls"));
    return balls;
}

static double left_in_all(business *b)
{
    double balls = 0;
    business_do(b, "cold.stacks", "{'members':0}");
    for (size_t i = 0; i < business_size(b, "stacks"); i++) {
        char path[64];
        snprintf(path, sizeof path, "stacks.%zu.balls_left", i);
        balls += business_number(b, path);
    }
    return balls;
}

TEST(
    the_days_pull_sheet_comes_from_what_is_wanted_and_what_is_there, DERIVED,
    "by hand: 160 balls from 11:00 New York time, whole boxes of 8, Thursday's "
    "first batch first, this morning's not at all")
{
    business b;
    start(&b);
    business_do(&b, "pull.sheet", "{}");
    SAME(business_number(&b, "day"), FRIDAY);
    SAME(business_size(&b, "products"), 1);
    SAME_TEXT(business_text(&b, "products.0.basis"), "build_to");
    NEAR(business_number(&b, "products.0.wanted"), 160, 1e-9);
    double temper_h = business_number(&b, "products.0.temper_h");
    CHECK(temper_h > 0.3 && temper_h < 2.5);
    /* 11:00 is 15:00 UTC, and pulls come in half hours */
    double first = business_number(&b, "products.0.lines.0.at_ms");
    CHECK(first <= (double)(NOW_MS + 3 * HOUR_MS) - temper_h * HOUR_MS);
    CHECK(first > (double)(NOW_MS + 3 * HOUR_MS) - (temper_h + 0.5) * HOUR_MS);
    double pulled = sum_of_rows(&b, 1e15);
    SAME(pulled, business_number(&b, "products.0.pulled"));
    SAME((long long)pulled % 8, 0);
    CHECK(pulled >= 160 && pulled <= 216);
    double from_first = 0;
    for (size_t i = 0; i < business_size(&b, "products.0.lines"); i++) {
        char path[64];
        snprintf(path, sizeof path, "products.0.lines.%zu.balls", i);
        double balls = business_number(&b, path);
        snprintf(path, sizeof path, "products.0.lines.%zu.number", i);
        double number = business_number(&b, path);
        if (balls > 0)
            SAME(number,
                 from_first < 24 ? 1 : 2 + floor((from_first - 24) / 80));
        from_first += balls;
    }
    CHECK(json_is_true(business_at(&b, "runs_down")));
    business_stop(&b);
}

TEST(stock_runs_down_by_the_sheet_when_nobody_taps, DERIVED,
     "what is left is what was there less the rows whose time has come")
{
    business b;
    start(&b);
    SAME(left_in_all(&b), 344);
    business_wait(&b, 7 * 60 + 1); /* 15:01 in New York */
    business_do(&b, "pull.sheet", "{}");
    double gone = sum_of_rows(&b, (double)b.now_ms);
    CHECK(gone > 24 && gone < 104);
    SAME(left_in_all(&b), 344 - gone);
    /* the oldest batch went first */
    business_do(&b, "cold.stacks", "{'members':0}");
    SAME(business_number(&b, "stacks.0.number"), 2);
    CHECK(json_is_true(business_at(&b, "stacks.0.assumed")));
    SAME(business_number(&b, "stacks.0.assumed_gone"), gone - 24);
    business_do(&b, "today.get", "{}");
    SAME(business_number(&b, "stock.0.balls"), 344 - gone);
    SAME(business_number(&b, "stock.0.ages.0.assumed_gone"), gone);
    /* nobody is sent for balls that are taken to be gone */
    for (size_t i = 0; i < business_size(&b, "next"); i++) {
        char path[64];
        snprintf(path, sizeof path, "next.%zu.kind", i);
        bool use = strcmp(business_text(&b, path), "use_first") == 0;
        snprintf(path, sizeof path, "next.%zu.balls", i);
        CHECK(!use || business_number(&b, path) > 0);
    }
    for (size_t i = 0; i < business_size(&b, "dying"); i++) {
        char path[64];
        snprintf(path, sizeof path, "dying.%zu.balls", i);
        CHECK(business_number(&b, path) > 0);
    }
    business_stop(&b);
}

TEST(taps_take_the_place_of_what_is_assumed, DERIVED,
     "16 pulled by taps are not taken again by the sheet")
{
    business b;
    start(&b);
    business_wait(&b, 10 * 60 + 1);
    double left = left_in_all(&b);
    business_do(&b, "stack.move", "{'stack_id':1,'kind':'pull','balls':16}");
    SAME(left_in_all(&b), left);
    /* more than assumed: the taps hold */
    for (int i = 2; i <= 4; i++)
        business_do(&b, "stack.move",
                    "{'stack_id':%d,'kind':'pull','balls':80}", i);
    SAME(left_in_all(&b), 344 - 256);
    /* what was only assumed to be gone can still be tapped */
    business_do(&b, "stack.move", "{'stack_id':1,'kind':'use','balls':8}");
    SAME(left_in_all(&b), 344 - 264);
    business_stop(&b);
}

static size_t moves_of(const business *b, dw_stack_move **moves,
                       dw_arena *arena)
{
    dw_store *store;
    dw_err err;
    size_t n = 0;
    if (dw_store_open_reader(dw_temp_path((dw_temp *)&b->temp, "business.db"),
                             &store, &err) != DW_OK)
        return 0;
    dw_store_list(store, "stack_move", &dw_stack_move_noun, NULL, 0, "id",
                  arena, moves, &n, &err);
    dw_store_free(store);
    return n;
}

TEST(a_count_books_the_difference_once_and_the_sheet_goes_on_from_it, DERIVED,
     "24 + 240 of Thursday, counted 50: 24, 80, 80 and 30 are missing")
{
    static unsigned char block[1 << 20];
    dw_arena arena;
    dw_stack_move *moves;
    business b;
    dw_arena_init(&arena, block, sizeof block);
    start(&b);
    business_wait(&b, 10 * 60 + 1);
    SAME(moves_of(&b, &moves, &arena), 0); /* nothing is written by the hour */
    business_do(&b, "count.save",
                "{'lines':[{'product_id':1,'mixing_day':%d,'balls':50},"
                "{'product_id':1,'mixing_day':%d,'balls':80}]}",
                FRIDAY - 1, FRIDAY);
    SAME(left_in_all(&b), 130);
    NEED(moves_of(&b, &moves, &arena) == 4);
    SAME(moves[0].stack_id, 1);
    SAME(moves[0].balls, 24);
    SAME(moves[0].kind, DW_MOVE_COUNT_DIFFERENCE);
    CHECK(moves[0].assumed);
    SAME(moves[3].stack_id, 4);
    SAME(moves[3].balls, 30);
    business_wait(&b, 90);
    business_do(&b, "pull.sheet", "{}");
    double later = sum_of_rows(&b, (double)b.now_ms) -
                   sum_of_rows(&b, (double)b.now_ms - 90 * (double)MINUTE_MS);
    CHECK(later > 0);
    SAME(left_in_all(&b), 130 - later);
    /* what a count took is not put back by a tap */
    SAME(business_ask(&b, "stack.move",
                      "{'stack_id':1,'kind':'put_back','balls':1}"),
         DW_E_CONFLICT);
    business_stop(&b);
}

TEST(a_shop_that_taps_everything_has_no_assumptions, LIMIT, "service.save")
{
    business b;
    start(&b);
    business_do(&b, "service.save", "{'run_down':'taps'}");
    business_wait(&b, 12 * 60);
    SAME(left_in_all(&b), 344);
    business_do(&b, "pull.sheet", "{}");
    CHECK(json_is_false(business_at(&b, "runs_down")));
    business_stop(&b);
}

TEST(days_without_a_count_add_up, LIMIT,
     "a day's sheet goes before the next one's")
{
    business b;
    start(&b);
    business_wait(&b, 23 * 60); /* Saturday, 07:00 in New York */
    double saturday = left_in_all(&b);
    CHECK(saturday <= 344 - 152 && saturday >= 344 - 184);
    business_do(&b, "pull.sheet", "{'day':%d}", FRIDAY + 2);
    SAME(business_size(&b, "products"), 0); /* nothing wanted on a Sunday */
    business_wait(&b, 24 * 60);
    double sunday = left_in_all(&b);
    CHECK(sunday <= saturday - 152 && sunday >= saturday - 184);
    business_stop(&b);
}

TEST(sheets_are_told_for_a_week_and_no_day_before_today, LIMIT, "bad input")
{
    business b;
    start(&b);
    SAME(business_ask(&b, "pull.sheet", "{'day':%d}", FRIDAY - 1), DW_E_RANGE);
    SAME_TEXT(b.err.field, "day");
    SAME(business_ask(&b, "pull.sheet", "{'day':%d}", FRIDAY + 8), DW_E_RANGE);
    business_do(&b, "shift_change.save", "{'day':%d,'note':'stocktaking'}",
                FRIDAY);
    business_do(&b, "pull.sheet", "{}");
    SAME(business_size(&b, "products"), 0); /* the shop is shut */
    business_do(&b, "reading.save", "{'kind':'room_c','celsius':9}");
    business_do(&b, "shift_change.remove", "{'id':1}");
    business_do(&b, "pull.sheet", "{}");
    CHECK(json_is_false(business_at(&b, "products.0.has_temper")));
    SAME(business_size(&b, "products.0.lines"), 0);
    business_stop(&b);
}

TEST(today_names_the_next_boxes_of_the_pull_sheet, LIMIT,
     "one thing to do a product, the sheet's first row that is to come")
{
    business b;
    start(&b);
    business_do(&b, "pull.sheet", "{}");
    double at = business_number(&b, "products.0.lines.0.at_ms");
    double boxes = business_number(&b, "products.0.lines.0.boxes");
    business_do(&b, "today.get", "{}");
    size_t pulls = 0;
    for (size_t i = 0; i < business_size(&b, "next"); i++) {
        char path[64];
        snprintf(path, sizeof path, "next.%zu.kind", i);
        if (!dw_text_is(business_text(&b, path), "pull"))
            continue;
        pulls++;
        snprintf(path, sizeof path, "next.%zu.due_ms", i);
        SAME(business_number(&b, path), at);
        snprintf(path, sizeof path, "next.%zu.boxes", i);
        SAME(business_number(&b, path), boxes);
        snprintf(path, sizeof path, "next.%zu.number", i);
        SAME(business_number(&b, path), 1);
    }
    SAME(pulls, 1);
    business_stop(&b);
}
