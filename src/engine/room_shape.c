/* The shapes of room.h. */
#include "doughwright/room.h"

static const dw_field reading_fields[] = {
    DW_F_REAL(dw_room_reading, at_h, "h", 0, 100000, "when"),
    DW_F_REAL(dw_room_reading, air_c, "degC", -30, 50, "the air"),
};
static const dw_shape reading_shape = DW_SHAPE(
    "room_reading", dw_room_reading, reading_fields, "one line of a log");

static const dw_field log_fields[] = {
    DW_F_MANY(dw_room_log, readings, &reading_shape, 2, 5000,
              "in order of time"),
    DW_F_REAL_PRESET(dw_room_log, h_w_per_m2_k, "W/m2K", 0.1, 2000, 3,
                     "heat transfer of the stacks in it"),
    DW_F_REAL_PRESET(dw_room_log, gap_most_h, "h", 0.01, 24, 1,
                     "the longest time between two readings"),
    DW_F_REAL_PRESET(dw_room_log, leg_h, "h", 0.01, 24, 0.25,
                     "legs are at least so long"),
};
const dw_shape dw_room_log_shape =
    DW_SHAPE("cold_history_ask", dw_room_log, log_fields, "a cold room's log");

static const dw_field history_fields[] = {
    DW_F_MANY(dw_room_history, legs, &dw_leg_shape, 1, 5000,
              "the log as legs of a life"),
    DW_F_REAL(dw_room_history, hours, "h", 0, 100000, "from first to last"),
    DW_F_REAL(dw_room_history, mean_c, "degC", -30, 50, "over that time"),
    DW_F_REAL(dw_room_history, coldest_c, "degC", -30, 50, "reading"),
    DW_F_REAL(dw_room_history, warmest_c, "degC", -30, 50, "reading"),
};
const dw_shape dw_room_history_shape =
    DW_SHAPE("cold_history", dw_room_history, history_fields,
             "what the cold room was like");

static const dw_field load_fields[] = {
    DW_F_ONE(dw_room_load, life, &dw_life_request_shape,
             "one ball; its last leg is the cold room, at its set point, for "
             "as long as it is looked at"),
    DW_F_WHOLE(dw_room_load, balls, "", 1, 1e6, "that go in"),
    DW_F_REAL(dw_room_load, capacity_w, "W", 1, 1e7, "of the machine"),
    DW_F_REAL(dw_room_load, outside_c, "degC", -20, 50, "around the room"),
    DW_F_REAL_PRESET(dw_room_load, time_constant_h, "h", 0.1, 500, 10,
                     "of the shut room's air toward the outside, machine off"),
    DW_F_REAL(dw_room_load, heat_capacity_j_per_k, "J/K", 1e3, 1e9,
              "of air, walls, racks and what stands in it"),
    DW_F_REAL_PRESET(dw_room_load, other_w, "W", 0, 1e7, 0,
                     "people, doors, fans"),
};
const dw_shape dw_room_load_shape = DW_SHAPE(
    "cold_carry_ask", dw_room_load, load_fields, "balls put into a cold room");

static const dw_field carry_fields[] = {
    DW_F_REAL(dw_room_carry, now_w, "W", -1e12, 1e12,
              "to take out just loaded"),
    DW_F_REAL(dw_room_carry, peak_w, "W", -1e12, 1e12,
              "at the most, held at the set point"),
    DW_F_REAL(dw_room_carry, heat_j, "J", -1e15, 1e15,
              "out of the dough, held so"),
    DW_F_YES(dw_room_carry, is_short, false, "the machine cannot hold it"),
    DW_F_REAL(dw_room_carry, warmest_c, "degC", -40, 100, "the room gets"),
    DW_F_REAL(dw_room_carry, warm_h, "h", 0, 48, "more than 1 K too warm"),
    DW_F_REALS(dw_room_carry, time_h, "h", 0, 1e6, "since the mixer stopped"),
    DW_F_REALS(dw_room_carry, room_c, "degC", -40, 100, "the room"),
    DW_F_REALS(dw_room_carry, balls_w, "W", -1e12, 1e12, "the dough gives"),
    DW_F_REALS(dw_room_carry, machine_w, "W", 0, 1e12, "the machine takes"),
    DW_F_ONE(dw_room_carry, held, &dw_window_shape,
             "the window if the room were held"),
    DW_F_ONE(dw_room_carry, found, &dw_window_shape,
             "the window in the room as it warms"),
};
const dw_shape dw_room_carry_shape =
    DW_SHAPE("cold_carry", dw_room_carry, carry_fields,
             "whether the cold room carries the load");
