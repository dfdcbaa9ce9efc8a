#include "doughwright/room.h"

#include "doughwright/say.h"

#include <math.h>

#define WARMEST_LOG_C 28 /* no cold room's log is all above it */

static dw_status reading_off(size_t i, const char *member, double value,
                             double low, double high, const char *sentence,
                             dw_err *err)
{
    dw_fail_range(err, member, value, low, high);
    if (err && sentence)
        err->sentence = sentence;
    dw_err_within_item(err, "readings", i);
    return DW_E_RANGE;
}

static dw_status check_log(const dw_room_log *log, dw_err *err)
{
    const dw_room_reading *r = log->readings;
    double coldest = INFINITY;
    for (size_t i = 0; i < log->readings_count; i++) {
        coldest = fmin(coldest, r[i].air_c);
        if (i == 0)
            continue;
        double latest = r[i - 1].at_h + log->gap_most_h;
        if (!(r[i].at_h > r[i - 1].at_h))
            return reading_off(i, "at_h", r[i].at_h, r[i - 1].at_h, latest,
                               DW_MSG("is {value}, not after {low}, the "
                                      "reading before"),
                               err);
        if (r[i].at_h > latest)
            return reading_off(i, "at_h", r[i].at_h, r[i - 1].at_h, latest,
                               DW_MSG("is {value} and leaves a gap: the next "
                                      "reading was due by {high}"),
                               err);
    }
    if (coldest > WARMEST_LOG_C)
        return reading_off(0, "air_c", r[0].air_c, -30, WARMEST_LOG_C,
                           DW_MSG("is {value} and no reading is below {high} "
                                  "degC: are these degrees Fahrenheit?"),
                           err);
    return DW_OK;
}

/* Readings into legs of at least leg_h; what is left at the end is the last. */
static void cut_legs(const dw_room_log *log, dw_room_history *history)
{
    double hours = 0, degree_h = 0, all = 0;
    for (size_t i = 1; i < log->readings_count; i++) {
        const dw_room_reading *a = &log->readings[i - 1], *b = a + 1;
        double gap = b->at_h - a->at_h;
        hours += gap;
        degree_h += gap * 0.5 * (a->air_c + b->air_c);
        if (hours < log->leg_h && i + 1 < log->readings_count)
            continue;
        history->legs[history->legs_count++] =
            (dw_leg){hours, degree_h / hours, log->h_w_per_m2_k};
        history->hours += hours;
        all += degree_h;
        hours = degree_h = 0;
    }
    history->mean_c = all / history->hours;
}

dw_status dw_room_legs(const dw_room_log *log, dw_arena *arena,
                       dw_room_history *history, dw_err *err)
{
    DW_TRY(check_log(log, err));
    dw_room_history made = {.coldest_c = INFINITY, .warmest_c = -INFINITY};
    made.legs = DW_NEW_ARRAY(arena, dw_leg, log->readings_count);
    if (!made.legs)
        return dw_fail(err, DW_E_ROOM, "readings", NULL);
    for (size_t i = 0; i < log->readings_count; i++) {
        made.coldest_c = fmin(made.coldest_c, log->readings[i].air_c);
        made.warmest_c = fmax(made.warmest_c, log->readings[i].air_c);
    }
    cut_legs(log, &made);
    *history = made;
    return DW_OK;
}
