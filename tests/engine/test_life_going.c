#include "dw_test.h"
#include "life_cases.h"

#include <stdlib.h>

static unsigned char room[3][4 << 20];

/* A stack's week: bench, open, closed, the cold room warmer, balls punched, out
 * to temper; with a band of three blocks. */
static void week(life_case *c)
{
    case_start(c, 0.4);
    c->request.shells = 12;
    c->request.members = 20;
    c->request.report_every_h = 5;
    case_leg(c, 0.5, 22, 8);
    case_leg(c, 2.5, 3, 8);
    case_leg(c, 21.3, 3, 3);
    case_leg(c, 17, 5, 3);
    case_leg(c, 30, 4, 3);
    case_leg(c, 3, 22, 8);
    case_event(c, 20, DW_EVENT_PUNCH);
    case_event(c, 41.3, DW_EVENT_BALL);
}

static dw_status go(const life_case *c, const dw_life_going *going, int block,
                    dw_life_reply *reply)
{
    dw_arena arena;
    dw_arena_init(&arena, room[block], sizeof room[block]);
    return dw_life_go(&c->request, going, &arena, reply, NULL);
}

static bool same_bits(const double *a, const double *b, size_t count)
{
    return memcmp(a, b, count * sizeof *a) == 0;
}

static bool same_bands(const dw_life_band *whole, const dw_life_band *rest,
                       size_t told, size_t rows)
{
    const dw_band_curve *gas = &whole->gas_ml_per_100g_flour;
    const dw_band_curve *volume = &whole->volume_ratio;
    return same_bits(gas->p05 + told, rest->gas_ml_per_100g_flour.p05, rows) &&
           same_bits(gas->p95 + told, rest->gas_ml_per_100g_flour.p95, rows) &&
           same_bits(volume->p50 + told, rest->volume_ratio.p50, rows) &&
           same_bits(&whole->window.ready_h.p05, &rest->window.ready_h.p05,
                     3) &&
           same_bits(&whole->window.end_h.p05, &rest->window.end_h.p05, 3);
}

/* The rows of `rest` are the last of `whole`, and all else is the same. */
static bool same_life(const dw_life_reply *whole, const dw_life_reply *rest)
{
    size_t rows = rest->time_h_count, told = whole->time_h_count - rows;
    const dw_window *w = &whole->window, *v = &rest->window;
    bool same = whole->steps == rest->steps && rows > 0 &&
                same_bits(&w->ready_h, &v->ready_h, 5) &&
                same_bits(&w->usable_from_h, &v->usable_from_h, 1);
#define COLUMN(name, unit, about)                                              \
    same = same && same_bits(whole->name + told, rest->name, rows);
    DW_LIFE_COLUMNS(COLUMN)
#undef COLUMN
    if (!same || whole->has_band != rest->has_band)
        return false;
    return !whole->has_band ||
           same_bands(&whole->band, &rest->band, told, rows);
}

TEST(a_life_stopped_and_gone_on_with_is_the_life_in_one_go, LIMIT,
     "the same bits, after each of five legs, with a band and without")
{
    for (int64_t members = 0; members <= 20; members += 20) {
        life_case c;
        week(&c);
        c.request.members = members;
        void *state = malloc(dw_life_state_bytes(&c.request));
        dw_life_reply whole, first, rest;
        dw_life_going alone = {0};
        NEED(state && go(&c, &alone, 0, &whole) == DW_OK);
        for (size_t legs = 1; legs < 6; legs++) {
            dw_life_going keeping = {.keep = state, .keep_legs = legs};
            dw_life_going going = {.from = state};
            CHECK(go(&c, &keeping, 1, &first) == DW_OK);
            CHECK(same_life(&whole, &first));
            CHECK(go(&c, &going, 2, &rest) == DW_OK);
            CHECK(same_life(&whole, &rest));
        }
        free(state);
    }
}

TEST(a_kept_life_goes_on_into_another_future, LIMIT,
     "state of two legs, other legs after them, kept again in its own place")
{
    life_case c, other;
    week(&c);
    week(&other);
    other.legs[4] = (dw_leg){12, 9, 3};
    void *state = malloc(dw_life_state_bytes(&c.request));
    dw_life_reply whole, reply;
    dw_life_going alone = {0};
    dw_life_going keeping = {.keep = state, .keep_legs = 2};
    dw_life_going again = {.from = state, .keep = state, .keep_legs = 4};
    dw_life_going going = {.from = state};
    NEED(state && go(&other, &alone, 0, &whole) == DW_OK);
    CHECK(go(&c, &keeping, 1, &reply) == DW_OK);
    CHECK(go(&other, &again, 1, &reply) == DW_OK);
    CHECK(same_life(&whole, &reply));
    CHECK(go(&other, &going, 2, &reply) == DW_OK);
    CHECK(same_life(&whole, &reply));
    free(state);
}

TEST(a_state_with_no_leg_after_it_is_refused, LIMIT,
     "bad input: field, value, range")
{
    life_case c;
    week(&c);
    void *state = malloc(dw_life_state_bytes(&c.request));
    dw_life_reply reply;
    dw_life_going keeping = {.keep = state, .keep_legs = 6};
    NEED(state);
    CHECK(go(&c, &keeping, 0, &reply) == DW_E_RANGE);
    keeping.keep_legs = 0;
    CHECK(go(&c, &keeping, 0, &reply) == DW_E_RANGE);
    keeping.keep_legs = 3;
    CHECK(go(&c, &keeping, 0, &reply) == DW_OK);
    dw_life_going going = {.from = state};
    c.request.legs_count = 3;
    CHECK(go(&c, &going, 0, &reply) == DW_E_RANGE);
    free(state);
}

/* Three hands that take the jobs from the last to the first. */
static void share_backwards(void *crew, size_t jobs, dw_hands_job *job,
                            void *owner)
{
    size_t *shared = crew;
    for (size_t i = jobs; i > 0; i--)
        job(owner, i % 3, i - 1);
    *shared += jobs;
}

TEST(more_hands_give_the_same_bits, LIMIT,
     "blocks of lives in another order, each by another hand")
{
    life_case c;
    week(&c);
    size_t shared = 0;
    const dw_hands hands = {3, share_backwards, &shared};
    dw_life_going alone = {0}, together = {.hands = &hands};
    dw_life_reply one, many;
    NEED(go(&c, &alone, 0, &one) == DW_OK);
    NEED(go(&c, &together, 1, &many) == DW_OK);
    CHECK(same_life(&one, &many));
    SAME(shared, 3);
}
