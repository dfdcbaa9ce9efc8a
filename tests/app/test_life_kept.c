#include "app/life_kept.h"
#include "dw_test.h"

#include <string.h>

typedef struct stack {
    dw_line lines[4];
    dw_leg legs[4];
    dw_life_request request;
} stack;

/* Bench, open, closed; the last leg goes on. */
static void start(stack *s, int64_t members)
{
    const dw_line lines[] = {
        {"flour", DW_FLOUR, 100, false, 0, false, 0},
        {"water", DW_WATER, 60, false, 0, false, 0},
        {"salt", DW_SALT, 2, false, 0, false, 0},
        {"yeast", DW_YEAST_INSTANT, 0.4, false, 0, false, 0}};
    const dw_leg legs[] = {{0.5, 22, 8}, {2.5, 3, 8}, {20, 3, 3}, {1, 3, 3}};
    memcpy(s->lines, lines, sizeof lines);
    memcpy(s->legs, legs, sizeof legs);
    dw_life_request *r = &s->request;
    dw_shape_preset(&dw_life_request_shape, r);
    r->formula = (dw_formula){s->lines, 4, NULL, 0};
    r->piece_g = 400;
    r->has_dough_c = true;
    r->dough_c = 26;
    r->legs = s->legs;
    r->legs_count = 4;
    r->members = members;
    r->shells = 12;
    r->report_every_h = DW_LIFE_LONGEST_H;
}

static dw_window run(dw_life_kept *kept, int64_t id, const stack *s,
                     size_t over)
{
    static unsigned char block[2][1 << 21];
    dw_arena arena;
    dw_life_reply reply = {0};
    dw_arena_init(&arena, block[0], sizeof block[0]);
    CHECK(dw_life_kept_run(kept, id, &s->request, over, &arena, &reply, NULL) ==
          DW_OK);
    return reply.window;
}

static bool same(const dw_window *a, const dw_window *b)
{
    return memcmp(&a->ready_h, &b->ready_h, 5 * sizeof(double)) == 0;
}

TEST(what_was_kept_goes_on_as_what_is_lived_anew, LIMIT,
     "the same bits: asked again, a leg later, another future")
{
    for (int64_t members = 0; members <= 20; members += 20) {
        dw_life_kept *kept = dw_life_kept_new(1 << 20);
        stack s;
        start(&s, members);
        dw_window anew = run(NULL, 7, &s, 2), got = run(kept, 7, &s, 2);
        CHECK(same(&anew, &got));
        got = run(kept, 7, &s, 2);
        CHECK(same(&anew, &got));
        s.legs[3].air_c = 6;
        anew = run(NULL, 7, &s, 3);
        got = run(kept, 7, &s, 3);
        CHECK(same(&anew, &got));
        s.legs[3].air_c = 2;
        anew = run(NULL, 7, &s, 3);
        got = run(kept, 7, &s, 3);
        CHECK(same(&anew, &got));
        dw_life_kept_tally tally = dw_life_kept_count(kept);
        SAME(tally.begun, 1);
        SAME(tally.gone_on, 3);
        SAME(tally.lives, 1);
        dw_life_kept_free(kept);
    }
}

TEST(another_past_is_lived_anew, LIMIT,
     "a leg, the dough, the yeast, a range, the piece: each begins again")
{
    dw_life_kept *kept = dw_life_kept_new(1 << 20);
    stack s;
    dw_life_range range = {"q30", 15, 17};
    start(&s, 7);
    run(kept, 7, &s, 3);
    uint64_t begun = 1;
    for (int i = 0; i < 6; i++) {
        switch (i) {
        case 0: s.legs[2].air_c = 4; break;
        case 1: s.legs[0].hours = 0.6; break;
        case 2: s.request.dough_c = 25; break;
        case 3: s.lines[3].percent = 0.41; break;
        case 4:
            s.request.ranges = &range;
            s.request.ranges_count = 1;
            break;
        default: s.request.piece_g = 399; break;
        }
        dw_window anew = run(NULL, 7, &s, 3), got = run(kept, 7, &s, 3);
        CHECK(same(&anew, &got));
        SAME(dw_life_kept_count(kept).begun, ++begun);
    }
    SAME(dw_life_kept_count(kept).gone_on, 0);
    SAME(dw_life_kept_count(kept).lives, 1);
    dw_life_kept_free(kept);
}

TEST(what_is_kept_is_bounded_and_the_longest_unasked_goes_first, LIMIT,
     "room for a few lives")
{
    stack s;
    start(&s, 0);
    dw_life_kept *kept = dw_life_kept_new(1 << 20);
    run(kept, 1, &s, 3);
    size_t each = dw_life_kept_count(kept).bytes;
    dw_life_kept_free(kept);
    CHECK(each > dw_life_state_bytes(&s.request));
    kept = dw_life_kept_new(3 * each);
    for (int64_t id = 1; id <= 3; id++)
        run(kept, id, &s, 3);
    run(kept, 1, &s, 3);
    run(kept, 4, &s, 3); /* 2 goes */
    SAME(dw_life_kept_count(kept).lives, 3);
    CHECK(dw_life_kept_count(kept).bytes <= 3 * each);
    SAME(dw_life_kept_count(kept).begun, 4);
    run(kept, 1, &s, 3);
    SAME(dw_life_kept_count(kept).gone_on, 2);
    run(kept, 2, &s, 3);
    SAME(dw_life_kept_count(kept).begun, 5);
    dw_life_kept_free(kept);
    kept = dw_life_kept_new(each / 2);
    run(kept, 1, &s, 3);
    SAME(dw_life_kept_count(kept).lives, 0);
    dw_life_kept_free(kept);
}
