#include "doughwright/life.h"

#include "engine/life_kernel.h"

#define MEMBERS_MOST 1000

const char *const dw_life_event_words[] = {"ball", "punch", NULL};

static const dw_field leg_fields[] = {
    DW_F_REAL(dw_leg, hours, "h", 1e-6, DW_LIFE_LONGEST_H, "how long"),
    DW_F_REAL(dw_leg, air_c, "degC", -40, 60, "temperature of the air"),
    DW_F_REAL_PRESET(dw_leg, h_w_per_m2_k, "W/m2K", 0.1, 2000, 8,
                     "heat transfer: open tray in moving air 12, offset stack "
                     "8, closed stack 3"),
};
const dw_shape dw_leg_shape =
    DW_SHAPE("leg", dw_leg, leg_fields, "so long in these surroundings");

static const dw_field event_fields[] = {
    DW_F_REAL(dw_life_event, at_h, "h", 0, DW_LIFE_LONGEST_H, "when"),
    DW_F_CHOICE(dw_life_event, kind, dw_life_event_words, "what was done"),
};
const dw_shape dw_life_event_shape = DW_SHAPE(
    "life_event", dw_life_event, event_fields, "a part of the gas was let out");

static const dw_field range_fields[] = {
    DW_F_TEXT(dw_life_range, parameter, 40, "of the model"),
    DW_F_REAL(dw_life_range, low, "", -1e6, 1e6, "at least"),
    DW_F_REAL(dw_life_range, high, "", -1e6, 1e6, "at most"),
};
const dw_shape dw_life_range_shape = DW_SHAPE(
    "life_range", dw_life_range, range_fields, "how well a parameter is known");

static const dw_field request_fields[] = {
    DW_F_ONE(dw_life_request, formula, &dw_formula_shape, "the total formula"),
    DW_F_REAL(dw_life_request, piece_g, "g", 1, 20000, "weight of the ball"),
    DW_F_REAL_OPT(dw_life_request, dough_c, "degC", -1, 50,
                  "dough temperature off the mixer"),
    DW_F_MANY(dw_life_request, legs, &dw_leg_shape, 1, 5000,
              "what surrounds it, one after the other"),
    DW_F_MANY_OPT(dw_life_request, events, &dw_life_event_shape, 100,
                  "balling and punching, in order of time"),
    DW_F_REAL_PRESET(dw_life_request, elevation_m, "m", -500, 9000, 0,
                     "above the sea; decides the air pressure"),
    DW_F_REAL_PRESET(dw_life_request, earliest_cold_use_h, "h", 0, 240, 10,
                     "the shop's earliest use after it came into the cold"),
    DW_F_REAL_OPT(dw_life_request, bench_life_h, "h", 0.1, 48,
                  "the shop's limit on the bench after tempering"),
    DW_F_REAL_PRESET(dw_life_request, report_every_h, "h", 0.01, 336, 1,
                     "between rows"),
    DW_F_YES(dw_life_request, hold_temperature, false,
             "the ball has the air's temperature throughout"),
    /* not required: its own presets stand when it is not given */
    {"model", DW_ONE, false, "", 0, 0, 0, offsetof(dw_life_request, model),
     DW_NOWHERE, DW_NOWHERE, NULL, &dw_ferment_model_shape,
     "parameters that replace the usual ones"},
    DW_F_WHOLE_PRESET(dw_life_request, members, "", 0, MEMBERS_MOST, 63,
                      "lives in the uncertainty band, 0 for none"),
    DW_F_MANY_OPT(dw_life_request, ranges, &dw_life_range_shape,
                  DW_FERMENT_PARAMETER_COUNT,
                  "of the band, in place of the usual ones"),
    DW_F_WHOLE_PRESET(dw_life_request, shells, "", 6, DW_LIFE_SHELLS_MOST, 24,
                      "the ball is cut into"),
    DW_F_REAL_PRESET(dw_life_request, step_scale, "", 0.02, 2, 1,
                     "of every step: 0.5 shows what halving changes"),
};

static const dw_field moment_fields[] = {
    DW_F_REAL_OPT(dw_band_moment, p05, "h", 0, DW_LIFE_LONGEST_H,
                  "5 of 100 lives come to it earlier"),
    DW_F_REAL_OPT(dw_band_moment, p50, "h", 0, DW_LIFE_LONGEST_H,
                  "half of them"),
    DW_F_REAL_OPT(dw_band_moment, p95, "h", 0, DW_LIFE_LONGEST_H, "95 of 100"),
};
static const dw_shape moment_shape = DW_SHAPE(
    "band_moment", dw_band_moment, moment_fields, "when, over the ensemble");

static const dw_field curve_fields[] = {
    DW_F_REALS(dw_band_curve, p05, "", 0, 1e6, "5 of 100 lives are below"),
    DW_F_REALS(dw_band_curve, p50, "", 0, 1e6, "half of them"),
    DW_F_REALS(dw_band_curve, p95, "", 0, 1e6, "95 of 100"),
};
static const dw_shape curve_shape =
    DW_SHAPE("band_curve", dw_band_curve, curve_fields,
             "at each time_h, over the ensemble");

static const dw_field band_window_fields[] = {
    DW_F_ONE(dw_band_window, ready_h, &moment_shape, "opens without tearing"),
    DW_F_ONE(dw_band_window, best_from_h, &moment_shape, "best from"),
    DW_F_ONE(dw_band_window, best_to_h, &moment_shape, "best to"),
    DW_F_ONE(dw_band_window, use_first_h, &moment_shape, "use first from"),
    DW_F_ONE(dw_band_window, end_h, &moment_shape, "past"),
};
const dw_shape dw_band_window_shape =
    DW_SHAPE("band_window", dw_band_window, band_window_fields,
             "the window, over the ensemble");

static const dw_field band_fields[] = {
    DW_F_WHOLE(dw_life_band, members, "", 1, MEMBERS_MOST, "lives in it"),
    DW_F_ONE(dw_life_band, gas_ml_per_100g_flour, &curve_shape, "CO2 made, mL"),
    DW_F_ONE(dw_life_band, volume_ratio, &curve_shape,
             "volume against that at the start"),
    DW_F_ONE(dw_life_band, window, &dw_band_window_shape, "the window"),
};
static const dw_shape band_shape =
    DW_SHAPE("life_band", dw_life_band, band_fields,
             "how far the parameters' uncertainty spreads the answer");

static const dw_field window_fields[] = {
    DW_F_REAL_OPT(dw_window, ready_h, "h", 0, DW_LIFE_LONGEST_H,
                  "opens without tearing"),
    DW_F_REAL_OPT(dw_window, best_from_h, "h", 0, DW_LIFE_LONGEST_H,
                  "best from"),
    DW_F_REAL_OPT(dw_window, best_to_h, "h", 0, DW_LIFE_LONGEST_H, "best to"),
    DW_F_REAL_OPT(dw_window, use_first_h, "h", 0, DW_LIFE_LONGEST_H,
                  "use first from"),
    DW_F_REAL_OPT(dw_window, end_h, "h", 0, DW_LIFE_LONGEST_H, "past"),
    DW_F_TEXT_OPT(dw_window, end_reason, 20,
                  "what ends it: age, gas, leaking, bench_life"),
    DW_F_REAL_OPT(dw_window, usable_from_h, "h", 0, DW_LIFE_LONGEST_H,
                  "core at 10 degC after the cold"),
};
const dw_shape dw_window_shape =
    DW_SHAPE("window", dw_window, window_fields, "when the dough is good");

static const dw_field limits_fields[] = {
#define FIELD(name, unit, about)                                               \
    DW_F_REAL(dw_life_limits, name, unit, 0, 1e9, about),
    DW_LIFE_LIMITS(FIELD)
#undef FIELD
        DW_F_REAL(dw_life_limits, earliest_cold_use_h, "h", 0, 1e9,
                  "after it came into the cold"),
};
const dw_shape dw_life_limits_shape =
    DW_SHAPE("life_limits", dw_life_limits, limits_fields,
             "what the window goes by: common practice, no source");

static const dw_field reply_fields[] = {
#define FIELD(name, unit, about)                                               \
    DW_F_REALS(dw_life_reply, name, unit, -1e9, 1e9, about),
    DW_LIFE_COLUMNS(FIELD)
#undef FIELD
        DW_F_ONE(dw_life_reply, window, &dw_window_shape,
                 "when the dough is good"),
    DW_F_ONE(dw_life_reply, limits, &dw_life_limits_shape,
             "what the window goes by"),
    DW_F_ONE_OPT(dw_life_reply, band, &band_shape, "how sure that is"),
    DW_F_WHOLE(dw_life_reply, steps, "", 0, 1e9, "of the integrator"),
};
const dw_shape dw_life_request_shape = DW_SHAPE(
    "life_request", dw_life_request, request_fields, "a ball and its history");
const dw_shape dw_life_reply_shape =
    DW_SHAPE("life_reply", dw_life_reply, reply_fields, "the life of a ball");

const char *const dw_life_mark_words[] = {
    "ready_h", "best_from_h", "best_to_h", "use_first_h", "end_h", NULL};

static const dw_field yeast_ask_fields[] = {
    DW_F_ONE(dw_life_yeast_ask, life, &dw_life_request_shape,
             "the ball and its history; the percent of its one yeast line is "
             "what is looked for"),
    DW_F_CHOICE_PRESET(dw_life_yeast_ask, mark, dw_life_mark_words, 1,
                       "which moment of the window"),
    DW_F_REAL(dw_life_yeast_ask, wanted_h, "h", 0.1, DW_LIFE_LONGEST_H,
              "when it should come"),
};
static const dw_field yeast_reply_fields[] = {
    DW_F_REAL(dw_life_yeast_reply, percent, "percent", 0, 20,
              "of flour, of the yeast in the formula"),
    DW_F_ONE(dw_life_yeast_reply, life, &dw_life_reply_shape,
             "the life with that yeast"),
};
const dw_shape dw_life_yeast_ask_shape =
    DW_SHAPE("life_yeast_ask", dw_life_yeast_ask, yeast_ask_fields,
             "a ball whose yeast is looked for");
const dw_shape dw_life_yeast_reply_shape =
    DW_SHAPE("life_yeast", dw_life_yeast_reply, yeast_reply_fields,
             "the yeast that brings the wanted moment");
