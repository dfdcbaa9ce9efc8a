#include "app/stack_air.h"

#include <math.h>

#define HOUR_MS 3600000.0
#define KEPT_MS (18 * 3600000LL)
#define LEAST_MS 60000 /* a leg shorter than that is none */
#define FELT_K 0.05
/* a leg must be left within the longest life */
#define LAST_MS ((DW_LIFE_LONGEST_H - 2) * 3600000LL)

typedef struct maker {
    const dw_stack_times *times;
    const dw_leg *whole;
    dw_stack_legs *made;
    int64_t from_ms; /* the leg that is being made */
} maker;

static void add(maker *m, int64_t to_ms, double h_w_per_m2_k)
{
    double hours = (double)(to_ms - m->from_ms) / HOUR_MS;
    m->made->legs[m->made->count++] =
        (dw_leg){hours, m->made->air_c, h_w_per_m2_k};
    m->from_ms = to_ms;
}

/* Up to then the air was what it is. */
static void add_until(maker *m, int64_t to_ms)
{
    int64_t closing_ms = m->times->closing_ms;
    if (closing_ms - m->from_ms >= LEAST_MS && to_ms - closing_ms >= LEAST_MS)
        add(m, closing_ms, m->whole[1].h_w_per_m2_k);
    bool open = to_ms - closing_ms < LEAST_MS;
    add(m, to_ms, m->whole[open ? 1 : 2].h_w_per_m2_k);
}

static void change(maker *m, int64_t at_ms, double air_c, bool read)
{
    const dw_stack_times *t = m->times;
    bool felt = fabs(air_c - m->made->air_c) >= FELT_K;
    if (felt && at_ms - m->from_ms >= LEAST_MS && at_ms <= t->now_ms &&
        at_ms - t->stopped_ms < LAST_MS)
        add_until(m, at_ms);
    if (felt)
        m->made->air_c = air_c;
    m->made->air_read = read;
}

static void follow(maker *m, const dw_stack_air *air)
{
    int64_t old_ms = INT64_MAX; /* when the last one is too old */
    int64_t now_ms = m->times->now_ms;
    for (size_t i = 0; i < air->readings_count; i++) {
        const dw_reading_row *next = &air->readings[i];
        if (next->occurred_ms > now_ms ||
            (next->batch_id != 0 && next->batch_id != air->batch_id))
            continue;
        if (next->occurred_ms > old_ms)
            change(m, old_ms, air->usual_c, false);
        change(m, next->occurred_ms, next->celsius, true);
        old_ms = next->occurred_ms + KEPT_MS;
    }
    if (now_ms > old_ms)
        change(m, old_ms, air->usual_c, false);
}

/* The rest of the open time and what goes on for ever. */
static void finish(maker *m)
{
    const dw_stack_times *t = m->times;
    bool open = t->closing_ms - m->from_ms >= LEAST_MS;
    if (open)
        add(m, t->closing_ms, m->whole[1].h_w_per_m2_k);
    m->made->over = m->made->count - (open && !t->closed);
    m->made->legs[m->made->count++] =
        (dw_leg){1, m->made->air_c, m->whole[2].h_w_per_m2_k};
}

bool dw_stack_air_legs(const dw_stack_air *air, const dw_stack_times *times,
                       const dw_leg whole[3], dw_arena *arena,
                       dw_stack_legs *legs)
{
    /* a change cuts one leg, closing another; a reading is two when it grows
     * old */
    size_t most = 2 * air->readings_count + 4;
    dw_stack_legs made = {.legs = DW_NEW_ARRAY(arena, dw_leg, most),
                          .air_c = air->usual_c};
    if (!made.legs)
        return false;
    maker m = {times, whole, &made, times->opened_ms};
    made.legs[made.count++] = whole[0];
    follow(&m, air);
    finish(&m);
    *legs = made;
    return true;
}
