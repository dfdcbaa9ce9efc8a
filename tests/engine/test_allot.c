#include "doughwright/allot.h"
#include "dw_test.h"

/* ---- the search that knows nothing of greed ------------------------------ */

/* Every way to send units of small lots to small outlets: the most units, then
 * by the rule who gets them, then the oldest. */
typedef struct search {
    const dw_allot_ask *ask;
    int64_t left[4], got[4];
    int64_t days; /* days left that were sent away, summed */
    bool found;
    int64_t best_sent, best_got[4], best_days;
} search;

static int64_t sum(const int64_t *list, size_t n)
{
    int64_t total = 0;
    for (size_t i = 0; i < n; i++)
        total += list[i];
    return total;
}

/* last_first: more to the first on the list is better. late_first: more to all
 * that were in time. */
static bool better(const search *s)
{
    size_t n = s->ask->outlets_count;
    int64_t sent = sum(s->got, n);
    if (sent != s->best_sent)
        return sent > s->best_sent;
    if (s->ask->rule == DW_ALLOT_LAST_FIRST)
        for (size_t i = 0; i < n; i++)
            if (s->got[i] != s->best_got[i])
                return s->got[i] > s->best_got[i];
    if (s->ask->rule == DW_ALLOT_LATE_FIRST) {
        int64_t now = 0, best = 0;
        for (size_t i = 0; i < n; i++) {
            now += s->ask->outlets[i].late ? 0 : s->got[i];
            best += s->ask->outlets[i].late ? 0 : s->best_got[i];
        }
        if (now != best)
            return now > best;
    }
    return s->days < s->best_days;
}

static void try_pair(search *s, size_t lot, size_t outlet)
{
    const dw_allot_ask *ask = s->ask;
    if (outlet == ask->outlets_count) {
        if (!s->found || better(s)) {
            s->found = true;
            s->best_sent = sum(s->got, ask->outlets_count);
            s->best_days = s->days;
            memcpy(s->best_got, s->got, sizeof s->got);
        }
        return;
    }
    if (lot == ask->lots_count) {
        try_pair(s, 0, outlet + 1);
        return;
    }
    bool may = ask->lots[lot].days_left >= ask->outlets[outlet].promised_days;
    for (int64_t n = 0; n == 0 || may; n++) {
        if (n > s->left[lot] || s->got[outlet] + n > ask->outlets[outlet].units)
            break;
        s->left[lot] -= n;
        s->got[outlet] += n;
        s->days += n * ask->lots[lot].days_left;
        try_pair(s, lot + 1, outlet);
        s->left[lot] += n;
        s->got[outlet] -= n;
        s->days -= n * ask->lots[lot].days_left;
    }
}

static void search_all(const dw_allot_ask *ask, search *s)
{
    *s = (search){.ask = ask, .best_sent = -1};
    for (size_t i = 0; i < ask->lots_count; i++)
        s->left[i] = ask->lots[i].units;
    try_pair(s, 0, 0);
}

/* ---- nets ---------------------------------------------------------------- */

static int64_t up_to(unsigned long long *seed, int64_t most)
{
    return (int64_t)dw_test_between(seed, 0, (double)most + 0.999);
}

static void draw(unsigned long long *seed, int rule, dw_allot_lot *lots,
                 dw_allot_outlet *outlets, dw_allot_ask *ask)
{
    *ask = (dw_allot_ask){.rule = rule,
                          .lots = lots,
                          .lots_count = (size_t)up_to(seed, 3),
                          .outlets = outlets,
                          .outlets_count = (size_t)up_to(seed, 3)};
    for (size_t i = 0; i < ask->lots_count; i++)
        lots[i] = (dw_allot_lot){up_to(seed, 4), up_to(seed, 4)};
    for (size_t i = 0; i < ask->outlets_count; i++)
        outlets[i] = (dw_allot_outlet){.promised_days = up_to(seed, 4),
                                       .units = up_to(seed, 4),
                                       .late = up_to(seed, 1) == 1};
}

/* What an answer claims is held against its own parts. */
static int64_t days_sent(const dw_allot_ask *ask, const dw_allot_reply *got)
{
    int64_t days = 0, from[4] = {0}, to[4] = {0};
    for (size_t i = 0; i < got->parts_count; i++) {
        const dw_allot_part *part = &got->parts[i];
        CHECK(ask->lots[part->lot].days_left >=
              ask->outlets[part->outlet].promised_days);
        days += part->units * ask->lots[part->lot].days_left;
        from[part->lot] += part->units;
        to[part->outlet] += part->units;
    }
    for (size_t i = 0; i < ask->lots_count; i++)
        CHECK(from[i] <= ask->lots[i].units);
    for (size_t i = 0; i < ask->outlets_count; i++) {
        SAME(to[i], got->outlets[i].got);
        SAME(to[i] + got->outlets[i].short_of, ask->outlets[i].units);
    }
    return days;
}

TEST(allotting_equals_an_exhaustive_search_on_small_nets, DERIVED,
     "every way to send up to 4 units of 3 lots to 3 outlets, 600 nets")
{
    static unsigned char block[4096];
    unsigned long long seed = 9;
    for (int round = 0; round < 600; round++) {
        dw_allot_lot lots[4];
        dw_allot_outlet outlets[4];
        dw_allot_ask ask;
        dw_allot_reply got;
        dw_arena arena;
        search all;
        draw(&seed, round % 3, lots, outlets, &ask);
        dw_arena_init(&arena, block, sizeof block);
        SAME(dw_allot_units(&ask, &arena, &got, NULL), DW_OK);
        search_all(&ask, &all);
        SAME(got.sent, all.best_sent);
        int64_t days = days_sent(&ask, &got);
        if (ask.rule != DW_ALLOT_LAST_FIRST)
            continue; /* who of equals gets one is free, so days may differ */
        for (size_t i = 0; i < ask.outlets_count; i++)
            SAME(got.outlets[i].got, all.best_got[i]);
        SAME(days, all.best_days);
    }
}

static int64_t in_time(const dw_allot_ask *ask, const int64_t *got)
{
    int64_t n = 0;
    for (size_t i = 0; i < ask->outlets_count; i++)
        n += ask->outlets[i].late ? 0 : got[i];
    return n;
}

TEST(who_ordered_late_is_short_first, DERIVED, "the same search")
{
    static unsigned char block[4096];
    unsigned long long seed = 21;
    for (int round = 0; round < 300; round++) {
        dw_allot_lot lots[4];
        dw_allot_outlet outlets[4];
        dw_allot_ask ask;
        dw_allot_reply got;
        dw_arena arena;
        search all;
        draw(&seed, DW_ALLOT_LATE_FIRST, lots, outlets, &ask);
        dw_arena_init(&arena, block, sizeof block);
        SAME(dw_allot_units(&ask, &arena, &got, NULL), DW_OK);
        search_all(&ask, &all);
        int64_t mine[4] = {0};
        for (size_t i = 0; i < ask.outlets_count; i++)
            mine[i] = got.outlets[i].got;
        SAME(in_time(&ask, mine), in_time(&ask, all.best_got));
    }
}

TEST(short_balls_are_shared_in_proportion, DERIVED,
     "by hand: 30 of 60 wanted, 40 and 20: 20 and 10")
{
    static unsigned char block[4096];
    dw_arena arena;
    dw_arena_init(&arena, block, sizeof block);
    dw_allot_lot lots[] = {{3, 18}, {2, 12}};
    dw_allot_outlet outlets[] = {{.promised_days = 1, .units = 40},
                                 {.promised_days = 2, .units = 20}};
    dw_allot_ask ask = {DW_ALLOT_SHARE, lots, 2, outlets, 2};
    dw_allot_reply got;
    SAME(dw_allot_units(&ask, &arena, &got, NULL), DW_OK);
    SAME(got.outlets[0].got, 20);
    SAME(got.outlets[1].got, 10);
    SAME(got.left, 0);
    SAME(got.parts[0].lot, 1); /* the older first, to who was promised less */
    SAME(got.parts[0].units, 12);
    ask.rule = DW_ALLOT_LAST_FIRST;
    dw_arena_init(&arena, block, sizeof block);
    SAME(dw_allot_units(&ask, &arena, &got, NULL), DW_OK);
    SAME(got.outlets[0].got, 30);
    SAME(got.outlets[1].short_of, 20);
    dw_arena_init(&arena, block, 32);
    SAME(dw_allot_units(&ask, &arena, &got, NULL), DW_E_ROOM);
    SAME(got.sent, 30);
}
