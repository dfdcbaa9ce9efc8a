/* The cold room as it answers to its dough: its log as legs of a life, and what
 * happens when more balls go in than its machine can cool.
 *
 * Times in h, temperatures in degC, SI else. The room is one lump: air, walls,
 * racks and what stands in them have one temperature. docs/models/answers.md.
 */
#ifndef DOUGHWRIGHT_ROOM_H
#define DOUGHWRIGHT_ROOM_H

#include "doughwright/life.h"

/* ---- a log ---- */

typedef struct dw_room_reading {
    double at_h, air_c;
} dw_room_reading;

typedef struct dw_room_log {
    dw_room_reading *readings;
    size_t readings_count;
    double h_w_per_m2_k; /* of the stacks in it: preset 3 */
    double gap_most_h;   /* preset 1 */
    double leg_h;        /* legs at least so long: preset 0.25 */
} dw_room_log;

typedef struct dw_room_history {
    dw_leg *legs;
    size_t legs_count;
    double hours, mean_c, coldest_c, warmest_c;
} dw_room_history;
extern const dw_shape dw_room_log_shape, dw_room_history_shape;

/* The log as legs: between readings the air goes straight, and each leg has its
 * mean. A log is refused, not mended: DW_E_RANGE on readings[i].at_h when time
 * stands still or runs back (low: the reading before) and when it leaves a gap
 * (high: the latest it might have been), on readings[i].air_c when a sensor
 * says what no cold room has (below -30 or above 50 degC) or the whole log is
 * above 28 degC, which is how degrees Fahrenheit look. DW_E_ROOM. Legs in the
 * arena. */
dw_status dw_room_legs(const dw_room_log *log, dw_arena *arena,
                       dw_room_history *history, dw_err *err);

/* ---- balls put in ---- */

typedef struct dw_room_load {
    /* One ball. Its last leg is the cold room: its air_c the set point, its
     * hours (at most 48) how long to look; legs before it come before. */
    dw_life_request life;
    int64_t balls;
    double capacity_w;            /* of the machine, at the set point */
    double outside_c;             /* around the room */
    double time_constant_h;       /* machine off, door shut: preset 10 */
    double heat_capacity_j_per_k; /* of air, walls, racks, what is in it */
    double other_w;               /* people, doors, fans: preset 0 */
} dw_room_load;

typedef struct dw_room_carry {
    double now_w;  /* to take out just loaded, walls and other included */
    double peak_w; /* the most while the room is held at its set point */
    double heat_j; /* out of the dough, held so */
    bool is_short; /* the machine cannot hold it */
    double warmest_c;
    double warm_h; /* more than 1 K above the set point */
    double *time_h, *room_c, *balls_w, *machine_w; /* every 10 minutes */
    size_t time_h_count, room_c_count, balls_w_count, machine_w_count;
    dw_window held;  /* the window if the room were held */
    dw_window found; /* the window in the room as it warms */
} dw_room_carry;
extern const dw_shape dw_room_load_shape, dw_room_carry_shape;

/* C dT/dt = (C/tau) (outside - T) + other + balls (T) - machine; the machine
 * gives what holds the set point, at most its capacity. The balls' heat is that
 * of their life, fermentation included, in the air so found, two minutes at a
 * time, and closes: what a ball loses the room gets.
 * As dw_life_run; DW_E_MISSING when the last leg is not in the cold; DW_E_RANGE
 * on life.legs.hours above 48, on capacity_w when it does not even hold the
 * empty room, on heat_capacity_j_per_k too small for so many balls to be
 * followed two minutes at a time. Memory: 400 kB from the arena. */
dw_status dw_room_carry_load(const dw_room_load *load, dw_arena *arena,
                             dw_room_carry *carry, dw_err *err);

#endif
