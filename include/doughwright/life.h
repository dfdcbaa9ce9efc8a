/* The life of a ball: heat and fermentation from the mixer's stop to the oven.
 *
 * A ball cools or warms from outside in while it ferments; its yeast works at
 * another pace in every shell, and its gas makes it swell, insulate and warm
 * itself. This follows it through any history of surroundings (bench, cold
 * room, closed stack, van, power cut, tempering), and reads from that the
 * window in which the dough is good. Equations, accuracy and how little is
 * known about the cold: docs/models/life.md, docs/models/ferment.md.
 *
 * Time in h from the mixer's stop, temperatures in degC, gas in mL of CO2 (20
 * degC, 1 atm) per 100 g of flour, what escaped included. Means are by mass.
 *
 * There is no model for panned, frozen or par-baked dough, for opened skins,
 * for malt's enzymes, nor for what a preferment did before the mixer: use the
 * shop's date rule. The window is about quality; it is no safety clearance.
 */
#ifndef DOUGHWRIGHT_LIFE_H
#define DOUGHWRIGHT_LIFE_H

#include "doughwright/ferment.h"
#include "doughwright/hands.h"

#define DW_LIFE_LONGEST_H 336 /* 14 days */
#define DW_LIFE_COLD_C                                                         \
    10 /* air below this holds dough back; a core above                        \
          it can be used (practice, 50 degF) */

/* So long in these surroundings. h: open tray in moving air 12, offset stack
 * 8, closed stack 3 (docs/models/cooling.md). */
typedef struct dw_leg {
    double hours, air_c, h_w_per_m2_k;
} dw_leg;
extern const dw_shape dw_leg_shape;

typedef enum dw_life_event_kind {
    DW_EVENT_BALL,
    DW_EVENT_PUNCH
} dw_life_event_kind;
extern const char *const dw_life_event_words[];
typedef struct dw_life_event {
    double at_h;
    int kind; /* dw_life_event_kind */
} dw_life_event;
extern const dw_shape dw_life_event_shape;

/* What is known of a parameter of the model beyond its usual range: the band
 * spreads it evenly on either side of its value, from low to high. */
typedef struct dw_life_range {
    const char *parameter; /* a member of dw_ferment_model */
    double low, high;
} dw_life_range;
extern const dw_shape dw_life_range_shape;

typedef struct dw_life_request {
    dw_formula formula;
    double piece_g;
    bool has_dough_c;
    double dough_c; /* needed unless the temperature is held */
    dw_leg *legs;
    size_t legs_count;
    dw_life_event *events;
    size_t events_count;
    double elevation_m;
    double earliest_cold_use_h; /* after it came into the cold */
    bool has_bench_life_h;
    double bench_life_h; /* after the core passed 10 degC out of the cold */
    double report_every_h;
    bool hold_temperature; /* an experiment: the ball has the air's temperature
                              throughout and its yeast does not die */
    dw_ferment_model model;
    int64_t members;       /* of the band; 0: no band */
    dw_life_range *ranges; /* of the band, in place of the usual ones */
    size_t ranges_count;
    int64_t shells;
    double step_scale; /* of every step: 0.5 to see what halving changes */
} dw_life_request;
extern const dw_shape dw_life_request_shape;

/* Moments of the window; what is not reached within 14 days is absent. */
typedef struct dw_window {
    bool has_ready_h, has_best_from_h, has_best_to_h, has_use_first_h,
        has_end_h;
    double ready_h, best_from_h, best_to_h, use_first_h, end_h;
    const char *end_reason; /* "age", "gas", "leaking", "bench_life" or NULL */
    bool has_usable_from_h; /* core at 10 degC after the cold */
    double usable_from_h;
} dw_window;
extern const dw_shape dw_window_shape;

/* Quantiles over the ensemble: 5, 50 and 95 of 100 lives are below. A moment
 * is absent where those lives do not reach it. */
typedef struct dw_band_moment {
    bool has_p05, has_p50, has_p95;
    double p05, p50, p95;
} dw_band_moment;
typedef struct dw_band_curve {
    double *p05, *p50, *p95;
    size_t p05_count, p50_count, p95_count;
} dw_band_curve;
typedef struct dw_band_window {
    dw_band_moment ready_h, best_from_h, best_to_h, use_first_h, end_h;
} dw_band_window;
extern const dw_shape dw_band_window_shape;
typedef struct dw_life_band {
    int64_t members;
    dw_band_curve gas_ml_per_100g_flour, volume_ratio;
    dw_band_window window;
} dw_life_band;

/* Every list has one number for each time_h. */
#define DW_LIFE_COLUMNS(X)                                                     \
    X(time_h, "h", "since the mixer stopped")                                  \
    X(core_c, "degC", "at the centre")                                         \
    X(mean_c, "degC", "mean by mass")                                          \
    X(skin_c, "degC", "at the surface")                                        \
    X(gas_ml_per_100g_flour, "mL", "CO2 made, what escaped included")          \
    X(held_ml_per_100g_flour, "mL", "CO2 in bubbles")                          \
    X(lost_ml_per_100g_flour, "mL", "CO2 escaped")                             \
    X(volume_ratio, "-", "volume against that at the start")                   \
    X(sugar_g_per_100g_flour, "g", "sugars left, maltose included")            \
    X(age_h, "h", "age in hours at 25 degC")                                   \
    X(yeast_ratio, "-", "yeast against that at the start")

/* What the window goes by: numbers of the model under their own names (gas in
 * mL for 100 g of flour, age at 25 degC) and the shop's earliest cold use. */
#define DW_LIFE_LIMITS(X)                                                      \
    X(gas_ready, "mL", "gas made at which dough opens")                        \
    X(gas_best, "mL", "gas made from which it is best")                        \
    X(gas_use_first, "mL", "gas made from which it is used first")             \
    X(gas_end, "mL", "gas made at which it is past")                           \
    X(age_ready, "h", "least age")                                             \
    X(age_gas_end, "h", "least age at which gas alone ends it")                \
    X(age_end, "h", "age at which it is past")                                 \
    X(use_first_cold, "h", "before the end, in the cold")                      \
    X(use_first_bench, "h", "before the end, on the bench")
typedef struct dw_life_limits {
#define DW_LIFE_LIMIT(name, unit, about) double name;
    DW_LIFE_LIMITS(DW_LIFE_LIMIT)
#undef DW_LIFE_LIMIT
    double earliest_cold_use_h; /* after it came into the cold */
} dw_life_limits;
extern const dw_shape dw_life_limits_shape;

typedef struct dw_life_reply {
#define DW_LIFE_COLUMN(name, unit, about)                                      \
    double *name;                                                              \
    size_t name##_count;
    DW_LIFE_COLUMNS(DW_LIFE_COLUMN)
#undef DW_LIFE_COLUMN
    dw_window window;
    dw_life_limits limits;
    bool has_band;
    dw_life_band band;
    int64_t steps; /* of the integrator */
} dw_life_reply;
extern const dw_shape dw_life_reply_shape;

/* Live the life. Rows at 0, every report_every_h, and at the end of the legs.
 * Beyond the legs the last of them goes on, without rows, until the window is
 * known or 14 days are over. The reply's lists live in the arena, which needs
 * about 200 kB, and 16 bytes for each row and member.
 * DW_E_RANGE (a range that leaves its parameter's value out included),
 * DW_E_MISSING, DW_E_CHOICE on ranges[i].parameter, DW_E_NO_FLOUR,
 * DW_E_NO_MODEL (air that freezes the dough), DW_E_ROOM. */
dw_status dw_life_run(const dw_life_request *request, dw_arena *arena,
                      dw_life_reply *reply, dw_err *err);

/* The limits that this life is held to; dw_life_run writes them too. */
dw_life_limits dw_life_limits_of(const dw_life_request *request);

/* The same with more hands, or as a life that is stopped and gone on with: it
 * has the bits of the life in one go. The state that is kept is what the ball
 * is like between two legs; it serves every request that has the same formula,
 * piece, model, ranges, members, shells, step_scale and report_every_h, and the
 * same legs and events until then. A life that goes on tells the rows that come
 * after the state. */
typedef struct dw_life_going {
    const dw_hands *hands; /* borrowed; NULL: this thread alone */
    const void *from;      /* borrowed; NULL: from the mixer's stop */
    void *keep;            /* yours, may be `from`; NULL: nothing is kept */
    size_t keep_legs;      /* how it stands when so many legs are over */
} dw_life_going;
/* What `keep` needs, aligned as malloc does: for 12 shells about 5 kB without a
 * band and 14 kB for every seven members. */
size_t dw_life_state_bytes(const dw_life_request *request);
/* As dw_life_run; and DW_E_RANGE when there is no leg after the state. Each
 * hand needs 60 kB of the arena. */
dw_status dw_life_go(const dw_life_request *request, const dw_life_going *going,
                     dw_arena *arena, dw_life_reply *reply, dw_err *err);

/* The other way round: how much yeast brings a moment of the window at
 * wanted_h, everything else as it is. */
extern const char *const dw_life_mark_words[]; /* the members of dw_window */
typedef struct dw_life_yeast_ask {
    dw_life_request life;
    int mark; /* index into dw_life_mark_words */
    double wanted_h;
} dw_life_yeast_ask;
typedef struct dw_life_yeast_reply {
    double percent;
    dw_life_reply life;
} dw_life_yeast_reply;
extern const dw_shape dw_life_yeast_ask_shape, dw_life_yeast_reply_shape;

/* As dw_life_run; and DW_E_SUM when the formula has not exactly one yeast line,
 * DW_E_UNREACHABLE when no yeast from 0.005 to 10 percent brings it. */
dw_status dw_life_yeast(const dw_life_yeast_ask *ask, dw_arena *arena,
                        dw_life_yeast_reply *reply, dw_err *err);

#endif
