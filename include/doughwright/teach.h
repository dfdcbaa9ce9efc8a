/* What the shop's own readings teach about its stacks, cold room and yeast.
 *
 * A probe in a ball tells how fast its stack gives heat away, a marked cup of
 * dough how strong the yeast is and how it works in the cold, a tap on "tight"
 * or "blown" the same but softly, and the log of the room how fast its air
 * recovers. Each lesson is the posterior of one or two numbers on a fixed grid:
 * prior (the trade's range) times readings, whose errors have the wide tails of
 * Student's t, so one bad reading moves little. Nothing is kept: what is known
 * follows from the list of readings, so a reading is undone by leaving it out.
 * docs/models/teach.md.
 *
 * Readings that cannot be true are refused, those unlike the others are named
 * as doubted; both are told with the reason. Temperatures in degC, times in h.
 * The order of readings matters only to `before`. What is learned is about
 * quality; it is no safety clearance.
 */
#ifndef DOUGHWRIGHT_TEACH_H
#define DOUGHWRIGHT_TEACH_H

#include "doughwright/life.h"

enum { DW_TEACH_READINGS_MOST = 64, DW_TEACH_LOG_MOST = 2016 };

/* low to high is the middle 90 percent. */
typedef struct dw_belief {
    double mean, sd, low, high;
} dw_belief;
/* Before: without the newest reading that counts (of the room: without the
 * last 24 h of its log). */
typedef struct dw_lesson {
    dw_belief prior, before, after;
} dw_lesson;
extern const dw_shape dw_lesson_shape;

typedef enum dw_teach_use {
    DW_TEACH_USED,
    DW_TEACH_DOUBTED, /* used, with the little weight its distance leaves */
    DW_TEACH_REFUSED,
    DW_TEACH_LEFT_OUT /* by the caller */
} dw_teach_use;
extern const char *const dw_teach_use_words[];
typedef enum dw_teach_why {
    DW_TEACH_FINE,
    DW_TEACH_UNLIKE,     /* the others */
    DW_TEACH_FAHRENHEIT, /* sound when read as degF */
    DW_TEACH_NO_SENSOR,  /* -127, -40, 85, 999 and the like */
    DW_TEACH_IMPOSSIBLE, /* in this history */
    DW_TEACH_BACKWARDS,  /* its time does not follow the one before */
    DW_TEACH_GAP         /* after a gap: used, the gap teaches nothing */
} dw_teach_why;
extern const char *const dw_teach_why_words[];
typedef struct dw_teach_mark {
    int64_t index; /* of the reading in its list */
    int use, why;  /* dw_teach_use, dw_teach_why */
    bool has_expected;
    double expected; /* what the lesson would have it read */
} dw_teach_mark;
extern const dw_shape dw_teach_mark_shape;
typedef struct dw_teach_counts {
    int64_t used, doubted, refused, left_out;
} dw_teach_counts;
extern const dw_shape dw_teach_counts_shape;

/* --- Heat transfer of the three ways a stack stands ------------------- */

enum { DW_TEACH_STATES = 3 };
extern const char *const dw_teach_state_words[]; /* open offset closed */
typedef struct dw_teach_leg {
    double hours, air_c;
    int state;
} dw_teach_leg;
typedef struct dw_teach_probe {
    bool has_formula; /* false: that of the ask */
    dw_formula formula;
    double piece_g, dough_c; /* at the mixer */
    dw_teach_leg *legs;      /* from the mixer to the reading */
    size_t legs_count;
    double core_c;
    bool left_out;
} dw_teach_probe;
/* Usual: what the prior lies about when it is not the trade's 12, 8 and 3. */
typedef struct dw_teach_stack_ask {
    dw_formula formula;
    bool has_open_usual_w_per_m2_k, has_offset_usual_w_per_m2_k,
        has_closed_usual_w_per_m2_k;
    double open_usual_w_per_m2_k, offset_usual_w_per_m2_k,
        closed_usual_w_per_m2_k;
    dw_teach_probe *readings;
    size_t readings_count;
} dw_teach_stack_ask;
typedef struct dw_teach_stack {
    dw_lesson open_w_per_m2_k, offset_w_per_m2_k, closed_w_per_m2_k;
    dw_teach_counts counts;
    dw_teach_mark *marks;
    size_t marks_count;
} dw_teach_stack;
extern const dw_shape dw_teach_stack_ask_shape, dw_teach_stack_shape;

/* The arena needs 2 MB. DW_E_ROOM; what the formula is refused for. */
dw_status dw_teach_stack_run(const dw_teach_stack_ask *ask, dw_arena *arena,
                             dw_teach_stack *reply, dw_err *err);

/* --- The cold room's air ---------------------------------------------- */

typedef struct dw_teach_room_ask {
    double *at_h, *air_c; /* the log; as many of one as of the other */
    size_t at_h_count, air_c_count;
    int64_t *left_out; /* indexes, any order */
    size_t left_out_count;
} dw_teach_room_ask;
typedef struct dw_teach_room {
    dw_lesson air_c;           /* what it settles to between openings */
    dw_lesson time_constant_h; /* of coming back after an opening */
    bool has_log_mean_c;
    double log_mean_c; /* over the log, openings included, by time */
    int64_t openings;  /* more likely than not */
    dw_teach_counts counts;
    dw_teach_mark *marks; /* of readings that are not simply used */
    size_t marks_count;
} dw_teach_room;
extern const dw_shape dw_teach_room_ask_shape, dw_teach_room_shape;

/* DW_E_SUM when the lists differ in length; DW_E_ROOM. */
dw_status dw_teach_room_run(const dw_teach_room_ask *ask, dw_arena *arena,
                            dw_teach_room *reply, dw_err *err);

/* --- Yeast ------------------------------------------------------------- */

/* A marked cup of the dough, small enough to have its surroundings' warmth. */
typedef struct dw_teach_cup_leg {
    double hours, temp_c;
} dw_teach_cup_leg;
typedef struct dw_teach_cup_reading {
    double at_h; /* since the mixer; within the legs */
    double volume_ratio;
    bool left_out;
} dw_teach_cup_reading;
typedef struct dw_teach_cup {
    dw_formula formula;
    dw_teach_cup_leg *legs;
    size_t legs_count;
    dw_teach_cup_reading *readings;
    size_t readings_count;
} dw_teach_cup;

extern const char *const dw_teach_verdict_words[]; /* good tight bubbles ... */
/* A ball at its use, at the end of the legs. */
typedef struct dw_teach_taste {
    dw_formula formula;
    double piece_g, dough_c;
    dw_leg *legs;
    size_t legs_count;
    int verdict;
    bool left_out;
} dw_teach_taste;

typedef struct dw_teach_yeast_ask {
    dw_teach_cup *cups;
    size_t cups_count;
    dw_teach_taste *verdicts;
    size_t verdicts_count;
    double elevation_m;
} dw_teach_yeast_ask;
/* Of one cup. */
typedef struct dw_teach_cup_found {
    double no_yeast_probability; /* forgotten or dead */
    dw_teach_mark *marks;
    size_t marks_count;
} dw_teach_cup_found;
typedef struct dw_teach_yeast {
    dw_lesson activity;   /* against the usual: multiply q30 by it */
    dw_lesson f_Tmin;     /* degC, replaces the parameter of that name */
    dw_belief cold_ratio; /* gas rate at 4 degC against the usual, after */
    dw_teach_cup_found *cups;
    size_t cups_count;
    dw_teach_mark *verdicts; /* expected: mL of gas at use */
    size_t verdicts_count;
    dw_teach_counts counts;
} dw_teach_yeast;
extern const dw_shape dw_teach_yeast_ask_shape, dw_teach_yeast_shape;

/* Cups and verdicts in the order in which they came, cups first. The arena
 * needs 4 MB. As dw_life_run; DW_E_ROOM. */
dw_status dw_teach_yeast_run(const dw_teach_yeast_ask *ask, dw_arena *arena,
                             dw_teach_yeast *reply, dw_err *err);

#endif
