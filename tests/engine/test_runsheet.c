#include "doughwright/runsheet.h"
#include "dw_test.h"

#include <stdlib.h>

static unsigned char room[1 << 17];

static dw_arena fresh(void)
{
    dw_arena arena;
    dw_arena_init(&arena, room, sizeof room);
    return arena;
}

static const int64_t MINUTE = 60000, HOUR = 3600000;

static dw_run_request run(dw_run_batch *batches, size_t count)
{
    dw_run_request r;
    dw_shape_preset(&dw_run_request_shape, &r);
    r.batches = batches;
    r.batches_count = count;
    r.has_start_ms = true;
    r.start_ms = 100 * HOUR;
    r.hands = 2;
    r.balls_per_minute = 3;
    return r;
}

static const dw_run_advice *advised(const dw_run_reply *reply, const char *code)
{
    for (size_t i = 0; i < reply->advice_count; i++)
        if (dw_text_is(reply->advice[i].code, code))
            return &reply->advice[i];
    return NULL;
}

static bool says(const dw_run_reply *reply, const char *code)
{
    for (size_t i = 0; i < reply->notes_count; i++)
        if (dw_text_is(reply->notes[i].code, code))
            return true;
    return false;
}

TEST(batch_two_mixes_while_batch_one_is_balled, DERIVED,
     "mix 15, turn 5, 120 balls by 2 x 3 a minute are 20 min: 0-15-35, "
     "20-35-55")
{
    dw_run_piece pieces[] = {{"14-inch", 400, 120, 120}};
    dw_run_batch batches[] = {{"1", 15, pieces, 1}, {"2", 15, pieces, 1}};
    dw_run_request r = run(batches, 2);
    dw_arena arena = fresh();
    dw_run_reply reply;
    SAME(dw_run_sheet(&r, &arena, NULL, &reply), DW_OK);
    SAME(reply.batches[0].boxed_ms - r.start_ms, 35 * MINUTE);
    SAME(reply.batches[1].mix_start_ms - r.start_ms, 20 * MINUTE);
    SAME(reply.batches[1].dough_out_ms - r.start_ms, 35 * MINUTE);
    SAME(reply.boxed_ms - r.start_ms, 55 * MINUTE);
    SAME(reply.last_close_ms - r.start_ms, 175 * MINUTE);
    CHECK(!says(&reply, "bench_over") && !reply.has_latest_start_ms);
    r.hands = 1;
    r.balls_per_minute = 6;
    arena = fresh();
    SAME(dw_run_sheet(&r, &arena, NULL, &reply), DW_OK);
    SAME(reply.batches[1].mix_start_ms - r.start_ms, 35 * MINUTE);
    r.bench_minutes = 19;
    arena = fresh();
    SAME(dw_run_sheet(&r, &arena, NULL, &reply), DW_OK);
    CHECK(says(&reply, "bench_over"));
}

TEST(a_run_to_be_boxed_by_six_starts_as_much_earlier, DERIVED,
     "55 minutes before 18:00 is 17:05")
{
    dw_run_piece pieces[] = {{"14-inch", 400, 120, 120}};
    dw_run_batch batches[] = {{"1", 15, pieces, 1}, {"2", 15, pieces, 1}};
    dw_run_request r = run(batches, 2);
    dw_arena arena = fresh();
    dw_run_reply reply;
    dw_err err;
    r.has_boxed_by_ms = true;
    r.boxed_by_ms = 18 * HOUR;
    SAME(dw_run_sheet(&r, &arena, &err, &reply), DW_E_CONFLICT);
    r.has_start_ms = false;
    SAME(dw_run_sheet(&r, &arena, &err, &reply), DW_OK);
    SAME(reply.start_ms, 17 * HOUR + 5 * MINUTE);
    SAME(reply.latest_start_ms, reply.start_ms);
    SAME(reply.boxed_ms, r.boxed_by_ms);
    r.has_boxed_by_ms = false;
    SAME(dw_run_sheet(&r, &arena, &err, &reply), DW_E_MISSING);
    SAME_TEXT(err.field, "start_ms");
}

TEST(a_stack_that_closes_at_2340_when_the_last_leaves_at_22_is_told, PRACTICE,
     "common practice, no source: start earlier, or bag one by one")
{
    dw_run_piece pieces[] = {{"14-inch", 400, 120, 145}};
    dw_run_batch batches[] = {{"1", 15, pieces, 1}};
    dw_run_request r = run(batches, 1);
    r.start_ms = 20 * HOUR + 40 * MINUTE;
    r.has_last_leaves_ms = true;
    r.last_leaves_ms = 22 * HOUR;
    dw_arena arena = fresh();
    dw_run_reply reply;
    SAME(dw_run_sheet(&r, &arena, NULL, &reply), DW_OK);
    SAME(reply.last_close_ms, 23 * HOUR + 40 * MINUTE);
    CHECK(reply.batches[0].stacks[0].late && says(&reply, "closes_late"));
    NEAR(reply.notes[0].value, 100, 1e-9);
    SAME(reply.latest_start_ms, 19 * HOUR);
    const dw_run_advice *earlier = advised(&reply, "start_earlier");
    NEED(earlier);
    SAME(earlier->start_ms, 19 * HOUR);
    const dw_run_advice *bags = advised(&reply, "bag_singly");
    NEED(bags && bags->enough);
    SAME(bags->done_ms, 21 * HOUR + 15 * MINUTE);
    CHECK(!advised(&reply, "small_first") && !advised(&reply, "large_first"));
    r.has_earliest_ms = true;
    r.earliest_ms = 20 * HOUR;
    arena = fresh();
    SAME(dw_run_sheet(&r, &arena, NULL, &reply), DW_OK);
    CHECK(!advised(&reply, "start_earlier"));
}

TEST(an_order_is_advised_when_it_closes_sooner, DERIVED,
     "60 small close in 60 min, 60 large in 120, 10 min each at the bench, mix "
     "10, turn 0: small first 20 + 60 and 30 + 120 = 150; large first 20 + 120 "
     "and 30 + 60, 140")
{
    dw_run_piece small[] = {{"small", 200, 60, 60}};
    dw_run_piece large[] = {{"large", 600, 60, 120}};
    dw_run_batch batches[] = {{"s", 10, small, 1}, {"l", 10, large, 1}};
    dw_run_request r = run(batches, 2);
    r.turn_minutes = 0;
    r.has_last_leaves_ms = true;
    r.last_leaves_ms = r.start_ms + 145 * MINUTE;
    dw_arena arena = fresh();
    dw_run_reply reply;
    SAME(dw_run_sheet(&r, &arena, NULL, &reply), DW_OK);
    SAME(reply.last_close_ms - r.start_ms, 150 * MINUTE);
    const dw_run_advice *large_first = advised(&reply, "large_first");
    NEED(large_first && large_first->enough);
    SAME(large_first->done_ms - r.start_ms, 140 * MINUTE);
    CHECK(!advised(&reply, "small_first"));
    r.order = DW_RUN_LARGE_FIRST;
    arena = fresh();
    SAME(dw_run_sheet(&r, &arena, NULL, &reply), DW_OK);
    SAME_TEXT(reply.batches[0].name, "l");
    SAME(reply.last_close_ms - r.start_ms, 140 * MINUTE);
    SAME(reply.advice_count, 0);
    /* Early in the day small balls in one batch are ready to close sooner. */
    r.order = DW_RUN_SMALL_FIRST;
    arena = fresh();
    SAME(dw_run_sheet(&r, &arena, NULL, &reply), DW_OK);
    SAME(reply.batches[0].stacks[0].close_ms - r.start_ms, 80 * MINUTE);
}

TEST(the_bowl_comes_warm_from_the_batch_before, DERIVED,
     "20 + (27 - 20) exp(-5/40) = 26.1775 after 5 minutes")
{
    dw_run_piece pieces[] = {{"14-inch", 400, 60, 120}};
    dw_run_batch batches[] = {{"1", 15, pieces, 1}, {"2", 15, pieces, 1}};
    dw_run_request r = run(batches, 2);
    r.has_room_c = r.has_dough_c = r.has_bowl_c = true;
    r.room_c = 20;
    r.dough_c = 27;
    r.bowl_c = 12;
    dw_run_person people[] = {{"Ada"}, {"Ben"}, {"Cleo"}};
    r.people = people;
    r.people_count = 3;
    dw_arena arena = fresh();
    dw_run_reply reply;
    SAME(dw_run_sheet(&r, &arena, NULL, &reply), DW_OK);
    NEAR(reply.batches[0].bowl_c, 12, 0);
    NEAR(reply.batches[1].bowl_c, 26.1775, 1e-4);
    SAME_TEXT(reply.batches[1].mixed_by, "Ada");
    SAME_TEXT(reply.batches[1].balled_by, "Ben, Cleo");
}

/* Every run: one thing at a time on mixer and bench, nothing could start
 * sooner, and the advice keeps its word. */
static void run_holds(const dw_run_request *r, const dw_run_reply *reply)
{
    for (size_t i = 1; i < reply->batches_count; i++) {
        const dw_run_line *a = &reply->batches[i - 1], *b = &reply->batches[i];
        int64_t turn = (int64_t)(r->turn_minutes * 60000);
        CHECK(b->mix_start_ms >= a->dough_out_ms + turn - 2);
        CHECK(b->dough_out_ms >= a->boxed_ms - 2);
        bool bowl = llabs(b->mix_start_ms - a->dough_out_ms - turn) <= 2;
        bool bench = llabs(b->dough_out_ms - a->boxed_ms) <= 2 ||
                     (r->hands <= 1 && b->mix_start_ms - a->boxed_ms <= 2);
        CHECK(bowl || bench);
    }
    const dw_run_advice *earlier = advised(reply, "start_earlier");
    if (!earlier)
        return;
    static unsigned char other[1 << 17];
    dw_arena arena;
    dw_arena_init(&arena, other, sizeof other);
    dw_run_request again = *r;
    again.has_start_ms = true;
    again.has_boxed_by_ms = false;
    again.start_ms = earlier->start_ms;
    dw_run_reply kept;
    SAME(dw_run_sheet(&again, &arena, NULL, &kept), DW_OK);
    SAME(kept.last_close_ms, r->last_leaves_ms);
    SAME(kept.advice_count, 0);
}

TEST(mixer_and_bench_do_one_thing_at_a_time_and_advice_keeps_its_word, LIMIT,
     "500 runs, seed 41")
{
    unsigned long long seed = 41;
    for (int i = 0; i < 500; i++) {
        dw_run_piece pieces[8][2];
        dw_run_batch batches[8];
        size_t n = 1 + dw_test_bits(&seed) % 8;
        for (size_t k = 0; k < n; k++) {
            for (int p = 0; p < 2; p++)
                pieces[k][p] = (dw_run_piece){
                    p ? "a" : "b", dw_test_between(&seed, 100, 900),
                    1 + (int64_t)(dw_test_bits(&seed) % 90),
                    dw_test_between(&seed, 30, 200)};
            batches[k] = (dw_run_batch){"x", dw_test_between(&seed, 5, 25),
                                        pieces[k], 1 + dw_test_bits(&seed) % 2};
        }
        dw_run_request r = run(batches, n);
        r.order = (int)(dw_test_bits(&seed) % 3);
        r.hands = 1 + (double)(dw_test_bits(&seed) % 3);
        r.turn_minutes = floor(dw_test_between(&seed, 0, 10));
        r.has_last_leaves_ms = true;
        r.last_leaves_ms = r.start_ms +
                           (int64_t)dw_test_between(&seed, 0, 8e6) +
                           10 * HOUR * (int64_t)(dw_test_bits(&seed) % 2);
        dw_arena arena = fresh();
        dw_run_reply reply;
        NEED(dw_run_sheet(&r, &arena, NULL, &reply) == DW_OK);
        run_holds(&r, &reply);
    }
}
