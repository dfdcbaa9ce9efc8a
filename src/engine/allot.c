#include "doughwright/allot.h"

const char *const dw_allot_rule_words[] = {"share", "late_first", "last_first",
                                           NULL};

static const dw_field lot_fields[] = {
    DW_F_WHOLE(dw_allot_lot, days_left, "d", 0, 1000,
               "on the day of the drop, it included"),
    DW_F_WHOLE(dw_allot_lot, units, "", 0, 100000, "balls or boxes"),
};
static const dw_shape lot_shape =
    DW_SHAPE("allot_lot", dw_allot_lot, lot_fields, "units of one age");

static const dw_field outlet_fields[] = {
    DW_F_WHOLE_PRESET(dw_allot_outlet, promised_days, "d", 0, 60, 1,
                      "that its balls have left at least"),
    DW_F_WHOLE(dw_allot_outlet, units, "", 0, 100000, "wanted"),
    DW_F_YES(dw_allot_outlet, late, false, "it ordered after the cut-off"),
    DW_F_WHOLE_PRESET(dw_allot_outlet, got, "", 0, 100000, 0, "answered"),
    DW_F_WHOLE_PRESET(dw_allot_outlet, short_of, "", 0, 100000, 0, "answered"),
};
static const dw_shape outlet_shape = DW_SHAPE(
    "allot_outlet", dw_allot_outlet, outlet_fields, "who wants how many");

static const dw_field ask_fields[] = {
    DW_F_CHOICE_PRESET(dw_allot_ask, rule, dw_allot_rule_words, 0,
                       "who is short first"),
    DW_F_MANY(dw_allot_ask, lots, &lot_shape, 0, DW_ALLOT_LOTS_MOST,
              "what is there"),
    DW_F_MANY(dw_allot_ask, outlets, &outlet_shape, 0, DW_ALLOT_OUTLETS_MOST,
              "in the order of the list"),
};
const dw_shape dw_allot_ask_shape =
    DW_SHAPE("allot_ask", dw_allot_ask, ask_fields, "balls to be sent out");

static const dw_field part_fields[] = {
    DW_F_WHOLE(dw_allot_part, lot, "", 0, DW_ALLOT_LOTS_MOST, "from which lot"),
    DW_F_WHOLE(dw_allot_part, outlet, "", 0, DW_ALLOT_OUTLETS_MOST, "to whom"),
    DW_F_WHOLE(dw_allot_part, units, "", 1, 100000, "how many"),
};
static const dw_shape part_shape =
    DW_SHAPE("allot_part", dw_allot_part, part_fields, "part of a lot");

static const dw_field reply_fields[] = {
    DW_F_MANY(dw_allot_reply, parts, &part_shape, 0, 1000,
              "by outlet, oldest first"),
    DW_F_MANY(dw_allot_reply, outlets, &outlet_shape, 0, DW_ALLOT_OUTLETS_MOST,
              "as asked, answered"),
    DW_F_WHOLE(dw_allot_reply, sent, "", 0, 1e9, "in all"),
    DW_F_WHOLE(dw_allot_reply, short_of, "", 0, 1e9, "in all"),
    DW_F_WHOLE(dw_allot_reply, left, "", 0, 1e9, "go nowhere"),
};
const dw_shape dw_allot_reply_shape =
    DW_SHAPE("allot_reply", dw_allot_reply, reply_fields, "who gets what");

enum { DAYS = 61 }; /* 0 to the most that is promised */

typedef struct desk {
    const dw_allot_ask *ask;
    dw_allot_outlet *outlets;
    bool *full; /* can have no more */
    int64_t spare[DAYS];
} desk;

/* ---- how many ------------------------------------------------------------ */

static int64_t rank_of(const desk *d, size_t i)
{
    if (d->ask->rule == DW_ALLOT_LAST_FIRST)
        return (int64_t)i;
    return d->ask->rule == DW_ALLOT_LATE_FIRST ? d->outlets[i].late : 0;
}

/* spare[days]: units with at least so many days left, less what was dealt to
 * outlets promised so many or more. Those draw on nothing else that counts
 * here, so all can be served as long as none is below 0 (Hall's condition over
 * nested sets). */
static void set_spare(desk *d)
{
    for (size_t i = 0; i < d->ask->lots_count; i++)
        for (int64_t days = 0; days <= d->ask->lots[i].days_left; days++)
            if (days < DAYS)
                d->spare[days] += d->ask->lots[i].units;
}

static bool can_have(const desk *d, int64_t promised_days)
{
    for (int64_t days = 0; days <= promised_days; days++)
        if (d->spare[days] < 1)
            return false;
    return true;
}

static void give(desk *d, dw_allot_outlet *one)
{
    one->got++;
    for (int64_t days = 0; days <= one->promised_days; days++)
        d->spare[days]--;
}

/* Does `a` get the next unit before `b`? In one rank the one that has the
 * smaller part of what it wants, half of the next unit counted. */
static bool before(const desk *d, size_t a, size_t b)
{
    int64_t rank_a = rank_of(d, a), rank_b = rank_of(d, b);
    if (rank_a != rank_b)
        return rank_a < rank_b;
    return (2 * d->outlets[a].got + 1) * d->outlets[b].units <
           (2 * d->outlets[b].got + 1) * d->outlets[a].units;
}

/* Unit by unit to who comes first and can still have one. What cannot be had
 * now cannot be had later, for the sets that can be served form a matroid: so
 * the greedy answer is the best, and as many are served as can be. */
static void deal(desk *d)
{
    for (size_t n = d->ask->outlets_count;;) {
        size_t next = n;
        for (size_t i = 0; i < n; i++)
            if (!d->full[i] && (next == n || before(d, i, next)))
                next = i;
        if (next == n)
            return;
        dw_allot_outlet *one = &d->outlets[next];
        if (can_have(d, one->promised_days))
            give(d, one);
        else
            d->full[next] = true;
        d->full[next] |= one->got == one->units;
    }
}

/* ---- which --------------------------------------------------------------- */

/* The oldest lot with units left that has the days; lots_count: none. */
static size_t oldest(const desk *d, const int64_t *left, int64_t days)
{
    const dw_allot_lot *lots = d->ask->lots;
    size_t found = d->ask->lots_count;
    for (size_t i = 0; i < d->ask->lots_count; i++)
        if (left[i] > 0 && lots[i].days_left >= days &&
            (found == d->ask->lots_count ||
             lots[i].days_left < lots[found].days_left))
            found = i;
    return found;
}

/* Outlets that were promised least choose first, each the oldest it may have:
 * what it leaves is younger, and good for those promised more. */
static void hand_out(desk *d, int64_t *left, dw_allot_reply *reply)
{
    for (int64_t days = 0; days < DAYS; days++)
        for (size_t i = 0; i < d->ask->outlets_count; i++) {
            int64_t wanted =
                d->outlets[i].promised_days == days ? d->outlets[i].got : 0;
            while (wanted > 0) {
                size_t lot = oldest(d, left, days);
                DW_ASSERT(lot < d->ask->lots_count);
                int64_t units = left[lot] < wanted ? left[lot] : wanted;
                left[lot] -= units;
                wanted -= units;
                reply->parts[reply->parts_count++] =
                    (dw_allot_part){(int64_t)lot, (int64_t)i, units};
            }
        }
}

/* By outlet; each one's parts are oldest first already. */
static void sort_parts(dw_allot_reply *reply)
{
    for (size_t i = 1; i < reply->parts_count; i++) {
        dw_allot_part one = reply->parts[i];
        size_t j = i;
        for (; j > 0 && reply->parts[j - 1].outlet > one.outlet; j--)
            reply->parts[j] = reply->parts[j - 1];
        reply->parts[j] = one;
    }
}

static dw_status open_desk(desk *d, dw_arena *arena, int64_t **left,
                           dw_allot_reply *out, dw_err *err)
{
    size_t lots = d->ask->lots_count, outlets = d->ask->outlets_count;
    d->outlets = DW_NEW_ARRAY(arena, dw_allot_outlet, outlets + 1);
    d->full = DW_NEW_ARRAY(arena, bool, outlets + 1);
    *left = DW_NEW_ARRAY(arena, int64_t, lots + 1);
    out->parts = DW_NEW_ARRAY(arena, dw_allot_part, lots + outlets + 1);
    if (!d->outlets || !d->full || !*left || !out->parts)
        return dw_fail(err, DW_E_ROOM, "outlets", NULL);
    for (size_t i = 0; i < outlets; i++) {
        d->outlets[i] = d->ask->outlets[i];
        d->outlets[i].got = 0;
        d->full[i] = d->outlets[i].units == 0;
    }
    for (size_t i = 0; i < lots; i++)
        (*left)[i] = d->ask->lots[i].units;
    return DW_OK;
}

dw_status dw_allot_units(const dw_allot_ask *ask, dw_arena *arena,
                         dw_allot_reply *reply, dw_err *err)
{
    desk d = {.ask = ask};
    dw_allot_reply out = {.outlets_count = ask->outlets_count};
    int64_t *left;
    DW_TRY(open_desk(&d, arena, &left, &out, err));
    set_spare(&d);
    deal(&d);
    hand_out(&d, left, &out);
    sort_parts(&out);
    out.outlets = d.outlets;
    for (size_t i = 0; i < ask->outlets_count; i++) {
        d.outlets[i].short_of = d.outlets[i].units - d.outlets[i].got;
        out.sent += d.outlets[i].got;
        out.short_of += d.outlets[i].short_of;
    }
    for (size_t i = 0; i < ask->lots_count; i++)
        out.left += left[i];
    *reply = out;
    return DW_OK;
}
