/* The shapes of teach.h. Temperatures and times of readings have wide ranges
 * here, because a lesson refuses nonsense reading by reading and says why. */
#include "doughwright/teach.h"

#define ANY 1e6

const char *const dw_teach_use_words[] = {"used", "doubted", "refused",
                                          "left_out", NULL};
const char *const dw_teach_why_words[] = {
    "fine",       "unlike",    "fahrenheit", "no_sensor",
    "impossible", "backwards", "gap",        NULL};
const char *const dw_teach_state_words[] = {"open", "offset", "closed", NULL};

static const dw_field belief_fields[] = {
    DW_F_REAL(dw_belief, mean, "", -ANY, ANY, "to reckon with"),
    DW_F_REAL(dw_belief, sd, "", 0, ANY, "its standard deviation"),
    DW_F_REAL(dw_belief, low, "", -ANY, ANY, "one in twenty lies below"),
    DW_F_REAL(dw_belief, high, "", -ANY, ANY, "one in twenty lies above"),
};
static const dw_shape belief_shape =
    DW_SHAPE("belief", dw_belief, belief_fields, "a number and how sure it is");

static const dw_field lesson_fields[] = {
    DW_F_ONE(dw_lesson, prior, &belief_shape, "without any reading"),
    DW_F_ONE(dw_lesson, before, &belief_shape,
             "without the newest reading (of the room: the last 24 h)"),
    DW_F_ONE(dw_lesson, after, &belief_shape, "with all that count"),
};
const dw_shape dw_lesson_shape =
    DW_SHAPE("lesson", dw_lesson, lesson_fields, "what readings changed");

static const dw_field mark_fields[] = {
    DW_F_WHOLE(dw_teach_mark, index, "", 0, 1e9, "of the reading in its list"),
    DW_F_CHOICE(dw_teach_mark, use, dw_teach_use_words,
                "what became of the reading"),
    DW_F_CHOICE(dw_teach_mark, why, dw_teach_why_words, "and why"),
    DW_F_REAL_OPT(dw_teach_mark, expected, "", -ANY, ANY,
                  "what the lesson would have it read"),
};
const dw_shape dw_teach_mark_shape =
    DW_SHAPE("teach_mark", dw_teach_mark, mark_fields, "of one reading");

static const dw_field counts_fields[] = {
    DW_F_WHOLE(dw_teach_counts, used, "", 0, 1e9, "taken as sound"),
    DW_F_WHOLE(dw_teach_counts, doubted, "", 0, 1e9,
               "unlike the others: they move little"),
    DW_F_WHOLE(dw_teach_counts, refused, "", 0, 1e9, "cannot be true"),
    DW_F_WHOLE(dw_teach_counts, left_out, "", 0, 1e9, "by the caller"),
};
const dw_shape dw_teach_counts_shape = DW_SHAPE(
    "teach_counts", dw_teach_counts, counts_fields, "readings by their use");

static const dw_field leg_fields[] = {
    DW_F_REAL(dw_teach_leg, hours, "h", 1e-6, DW_LIFE_LONGEST_H, "how long"),
    DW_F_REAL(dw_teach_leg, air_c, "degC", -ANY, ANY, "temperature of the air"),
    DW_F_CHOICE(dw_teach_leg, state, dw_teach_state_words,
                "how the stack stood"),
};
static const dw_shape leg_shape =
    DW_SHAPE("teach_leg", dw_teach_leg, leg_fields, "so long a stack stood so");

static const dw_field probe_fields[] = {
    DW_F_ONE_OPT(dw_teach_probe, formula, &dw_formula_shape,
                 "when it is not that of all"),
    DW_F_REAL(dw_teach_probe, piece_g, "g", 1, 20000, "weight of the ball"),
    DW_F_REAL(dw_teach_probe, dough_c, "degC", -ANY, ANY,
              "dough temperature off the mixer"),
    DW_F_MANY(dw_teach_probe, legs, &leg_shape, 1, 20,
              "from the mixer to the reading"),
    DW_F_REAL(dw_teach_probe, core_c, "degC", -ANY, ANY,
              "read in the middle of the ball"),
    DW_F_YES(dw_teach_probe, left_out, false, "undo: learn without it"),
};
static const dw_shape probe_shape = DW_SHAPE(
    "teach_probe", dw_teach_probe, probe_fields, "one core temperature");

static const dw_field stack_ask_fields[] = {
    DW_F_ONE(dw_teach_stack_ask, formula, &dw_formula_shape,
             "the total formula"),
    DW_F_REAL_OPT(dw_teach_stack_ask, open_usual_w_per_m2_k, "W/m2K", 1, 60,
                  "what open trays are taken to have before any reading"),
    DW_F_REAL_OPT(dw_teach_stack_ask, offset_usual_w_per_m2_k, "W/m2K", 1, 60,
                  "an offset stack"),
    DW_F_REAL_OPT(dw_teach_stack_ask, closed_usual_w_per_m2_k, "W/m2K", 1, 60,
                  "a closed stack"),
    DW_F_MANY_OPT(dw_teach_stack_ask, readings, &probe_shape,
                  DW_TEACH_READINGS_MOST, "oldest first"),
};
const dw_shape dw_teach_stack_ask_shape =
    DW_SHAPE("learn_stack_ask", dw_teach_stack_ask, stack_ask_fields,
             "core temperatures of balls in stacks");

static const dw_field stack_fields[] = {
    DW_F_ONE(dw_teach_stack, open_w_per_m2_k, &dw_lesson_shape,
             "heat transfer of open trays, W/m2K"),
    DW_F_ONE(dw_teach_stack, offset_w_per_m2_k, &dw_lesson_shape,
             "of an offset stack"),
    DW_F_ONE(dw_teach_stack, closed_w_per_m2_k, &dw_lesson_shape,
             "of a closed stack"),
    DW_F_ONE(dw_teach_stack, counts, &dw_teach_counts_shape,
             "readings by their use"),
    DW_F_MANY(dw_teach_stack, marks, &dw_teach_mark_shape, 0,
              DW_TEACH_READINGS_MOST, "of every reading, degC"),
};
const dw_shape dw_teach_stack_shape =
    DW_SHAPE("learn_stack", dw_teach_stack, stack_fields,
             "how fast the shop's stacks give heat away");

static const dw_field room_ask_fields[] = {
    DW_F_REALS(dw_teach_room_ask, at_h, "h", -ANY, ANY, "when, rising"),
    DW_F_REALS(dw_teach_room_ask, air_c, "degC", -ANY, ANY,
               "temperature of the air then"),
    DW_F_WHOLES_OPT(dw_teach_room_ask, left_out, "", 0, DW_TEACH_LOG_MOST,
                    "indexes of readings to learn without"),
};
const dw_shape dw_teach_room_ask_shape =
    DW_SHAPE("learn_room_ask", dw_teach_room_ask, room_ask_fields,
             "the log of a cold room");

static const dw_field room_fields[] = {
    DW_F_ONE(dw_teach_room, air_c, &dw_lesson_shape,
             "what the air settles to between openings, degC"),
    DW_F_ONE(dw_teach_room, time_constant_h, &dw_lesson_shape,
             "of coming back after an opening, h"),
    DW_F_REAL_OPT(dw_teach_room, log_mean_c, "degC", -ANY, ANY,
                  "over the log, openings included"),
    DW_F_WHOLE(dw_teach_room, openings, "", 0, DW_TEACH_LOG_MOST,
               "of the door, more likely than not"),
    DW_F_ONE(dw_teach_room, counts, &dw_teach_counts_shape,
             "readings by their use"),
    DW_F_MANY(dw_teach_room, marks, &dw_teach_mark_shape, 0, DW_TEACH_LOG_MOST,
              "of readings that are not simply used"),
};
const dw_shape dw_teach_room_shape = DW_SHAPE(
    "learn_room", dw_teach_room, room_fields, "how the cold room behaves");

static const dw_field cup_leg_fields[] = {
    DW_F_REAL(dw_teach_cup_leg, hours, "h", 1e-6, DW_LIFE_LONGEST_H,
              "how long"),
    DW_F_REAL(dw_teach_cup_leg, temp_c, "degC", -ANY, ANY,
              "temperature of the cup"),
};
static const dw_shape cup_leg_shape =
    DW_SHAPE("teach_cup_leg", dw_teach_cup_leg, cup_leg_fields,
             "so long the cup was so warm");
static const dw_field cup_reading_fields[] = {
    DW_F_REAL(dw_teach_cup_reading, at_h, "h", -ANY, ANY, "since the mixer"),
    DW_F_REAL(dw_teach_cup_reading, volume_ratio, "-", -ANY, ANY,
              "volume against that at the start"),
    DW_F_YES(dw_teach_cup_reading, left_out, false, "undo: learn without it"),
};
static const dw_shape cup_reading_shape =
    DW_SHAPE("teach_cup_reading", dw_teach_cup_reading, cup_reading_fields,
             "one look at the cup's mark");
static const dw_field cup_fields[] = {
    DW_F_ONE(dw_teach_cup, formula, &dw_formula_shape, "the total formula"),
    DW_F_MANY(dw_teach_cup, legs, &cup_leg_shape, 1, 20, "where the cup stood"),
    DW_F_MANY(dw_teach_cup, readings, &cup_reading_shape, 1, 20,
              "in order of time"),
};
static const dw_shape cup_shape = DW_SHAPE(
    "teach_cup", dw_teach_cup, cup_fields, "a marked cup of a batch's dough");
static const dw_field taste_fields[] = {
    DW_F_ONE(dw_teach_taste, formula, &dw_formula_shape, "the total formula"),
    DW_F_REAL(dw_teach_taste, piece_g, "g", 1, 20000, "weight of the ball"),
    DW_F_REAL(dw_teach_taste, dough_c, "degC", -ANY, ANY,
              "dough temperature off the mixer"),
    DW_F_MANY(dw_teach_taste, legs, &dw_leg_shape, 1, 20,
              "from the mixer to its use"),
    DW_F_CHOICE(dw_teach_taste, verdict, dw_teach_verdict_words, "how it was"),
    DW_F_YES(dw_teach_taste, left_out, false, "undo: learn without it"),
};
static const dw_shape taste_shape = DW_SHAPE(
    "teach_taste", dw_teach_taste, taste_fields, "one verdict at first use");
static const dw_field yeast_ask_fields[] = {
    DW_F_MANY_OPT(dw_teach_yeast_ask, cups, &cup_shape, DW_TEACH_READINGS_MOST,
                  "oldest first"),
    DW_F_MANY_OPT(dw_teach_yeast_ask, verdicts, &taste_shape,
                  DW_TEACH_READINGS_MOST, "oldest first"),
    DW_F_REAL_PRESET(dw_teach_yeast_ask, elevation_m, "m", -500, 9000, 0,
                     "above the sea; decides the air pressure"),
};
const dw_shape dw_teach_yeast_ask_shape =
    DW_SHAPE("learn_yeast_ask", dw_teach_yeast_ask, yeast_ask_fields,
             "marked cups and verdicts");

static const dw_field found_fields[] = {
    DW_F_REAL(dw_teach_cup_found, no_yeast_probability, "-", 0, 1,
              "that yeast was forgotten or is dead"),
    DW_F_MANY(dw_teach_cup_found, marks, &dw_teach_mark_shape, 0, 20,
              "of every reading, volume ratio"),
};
static const dw_shape found_shape =
    DW_SHAPE("teach_cup_found", dw_teach_cup_found, found_fields, "of one cup");
static const dw_field yeast_fields[] = {
    DW_F_ONE(dw_teach_yeast, activity, &dw_lesson_shape,
             "of yeast against the usual: multiply q30 by it"),
    DW_F_ONE(dw_teach_yeast, f_Tmin, &dw_lesson_shape,
             "the model's f_Tmin, degC: gas stops at this cold"),
    DW_F_ONE(dw_teach_yeast, cold_ratio, &belief_shape,
             "gas rate at 4 degC against the usual"),
    DW_F_MANY(dw_teach_yeast, cups, &found_shape, 0, DW_TEACH_READINGS_MOST,
              "of every cup"),
    DW_F_MANY(dw_teach_yeast, verdicts, &dw_teach_mark_shape, 0,
              DW_TEACH_READINGS_MOST, "of every verdict, mL of gas"),
    DW_F_ONE(dw_teach_yeast, counts, &dw_teach_counts_shape,
             "readings by their use"),
};
const dw_shape dw_teach_yeast_shape = DW_SHAPE(
    "learn_yeast", dw_teach_yeast, yeast_fields, "how the shop's yeast works");
