/* The shapes of mishap.h. */
#include "doughwright/mishap.h"

#include "engine/life_kernel.h"

const char *const dw_mishap_words[] = {"warm_room", "power_cut", "van",
                                       "left_out", NULL};
const char *const dw_fate_words[] = {"saved", "use_first", "past", NULL};

static const dw_field mishap_fields[] = {
    DW_F_CHOICE(dw_mishap, kind, dw_mishap_words, "what happens"),
    DW_F_REAL_PRESET(dw_mishap, from_h, "h", -DW_LIFE_LONGEST_H,
                     DW_LIFE_LONGEST_H, 0,
                     "against now; below 0 it began that long ago"),
    DW_F_REAL(dw_mishap, hours, "h", 0.01, DW_LIFE_LONGEST_H, "how long"),
    DW_F_REAL_OPT(dw_mishap, air_c, "degC", -3, 50,
                  "of the room, the van or the place"),
    DW_F_REAL_OPT(dw_mishap, outside_c, "degC", -3, 45,
                  "around the cold room, while the power is cut"),
    DW_F_REAL_PRESET(dw_mishap, time_constant_h, "h", 0.1, 500, 10,
                     "of the shut room's air toward the outside"),
    DW_F_REAL_OPT(dw_mishap, recover_h, "h", 0.05, 24,
                  "time constant with the power back; not told: 1 h"),
    DW_F_REAL_OPT(dw_mishap, h_w_per_m2_k, "W/m2K", 0.1, 2000,
                  "heat transfer meanwhile; not told: as planned"),
};
const dw_shape dw_mishap_shape =
    DW_SHAPE("mishap", dw_mishap, mishap_fields, "something goes wrong");

static const dw_field stack_fields[] = {
    DW_F_TEXT(dw_mishap_stack, name, 80, "the shop's name for it"),
    DW_F_WHOLE_PRESET(dw_mishap_stack, boxes, "", 0, 100000, 1, "in it"),
    DW_F_ONE(dw_mishap_stack, formula, &dw_formula_shape, "the total formula"),
    DW_F_REAL(dw_mishap_stack, piece_g, "g", 1, 20000, "one ball"),
    DW_F_REAL(dw_mishap_stack, dough_c, "degC", -1, 45, "off the mixer"),
    DW_F_MANY(dw_mishap_stack, legs, &dw_leg_shape, 1, 5000,
              "as planned, from the mixer's stop to now"),
    DW_F_MANY_OPT(dw_mishap_stack, coming, &dw_leg_shape, 20,
                  "as planned from now on, before `then`"),
    DW_F_ONE(dw_mishap_stack, then, &dw_leg_shape,
             "where it stands at last; its hours are not read"),
};
static const dw_shape stack_shape =
    DW_SHAPE("mishap_stack", dw_mishap_stack, stack_fields,
             "boxes of one product of one batch");

static const dw_field ask_fields[] = {
    DW_F_ONE(dw_mishap_ask, mishap, &dw_mishap_shape, "what happens"),
    DW_F_MANY(dw_mishap_ask, stacks, &stack_shape, 1, 1000, "what is there"),
    DW_F_REAL_PRESET(dw_mishap_ask, elevation_m, "m", -500, 9000, 0,
                     "above the sea"),
    DW_F_REAL_PRESET(dw_mishap_ask, earliest_cold_use_h, "h", 0, 240, 10,
                     "earliest use after it came into the cold"),
    {"model", DW_ONE, false, "", 0, 0, 0, offsetof(dw_mishap_ask, model),
     DW_NOWHERE, DW_NOWHERE, NULL, &dw_ferment_model_shape,
     "parameters that replace the usual ones"},
    DW_F_MANY_OPT(dw_mishap_ask, ranges, &dw_life_range_shape,
                  DW_FERMENT_PARAMETER_COUNT,
                  "of the band, in place of the usual ones"),
    DW_F_WHOLE_PRESET(dw_mishap_ask, members, "", 0, 1000, 21,
                      "lives in the band of each stack, 0 for none"),
    DW_F_WHOLE_PRESET(dw_mishap_ask, shells, "", 6, DW_LIFE_SHELLS_MOST, 24,
                      "each ball is cut into"),
};
const dw_shape dw_mishap_ask_shape = DW_SHAPE(
    "stack_foresee_ask", dw_mishap_ask, ask_fields, "stacks and what happens");

static const dw_field fate_fields[] = {
    DW_F_TEXT(dw_mishap_fate, name, 80, "the shop's name for it"),
    DW_F_CHOICE(dw_mishap_fate, verdict, dw_fate_words,
                "when it is over, now at the soonest"),
    DW_F_YES(dw_mishap_fate, sure, false,
             "early and late lives of the band say the same"),
    DW_F_CHOICE(dw_mishap_fate, readiness, dw_readiness_words, "then"),
    DW_F_REAL(dw_mishap_fate, age_h, "h", 0, 2 * DW_LIFE_LONGEST_H,
              "since the mixer's stop, then"),
    DW_F_REAL(dw_mishap_fate, core_c, "degC", -40, 60, "then"),
    DW_F_REAL(dw_mishap_fate, mean_c, "degC", -40, 60, "then"),
    DW_F_ONE(dw_mishap_fate, planned, &dw_window_shape,
             "the window as planned"),
    DW_F_ONE(dw_mishap_fate, now, &dw_window_shape,
             "the window as it happened"),
    DW_F_REAL_OPT(dw_mishap_fate, left_h, "h", 0, DW_LIFE_LONGEST_H,
                  "from then to the end of it"),
    DW_F_ONE_OPT(dw_mishap_fate, band, &dw_band_window_shape,
                 "how sure the new window is"),
};
static const dw_shape fate_shape = DW_SHAPE(
    "mishap_fate", dw_mishap_fate, fate_fields, "what becomes of a stack");

static const dw_field reply_fields[] = {
    DW_F_MANY(dw_mishap_reply, fates, &fate_shape, 1, 1000, "one a stack"),
    DW_F_WHOLE(dw_mishap_reply, saved_boxes, "", 0, 1e9, "boxes saved"),
    DW_F_WHOLE(dw_mishap_reply, use_first_boxes, "", 0, 1e9,
               "boxes to use first"),
    DW_F_WHOLE(dw_mishap_reply, past_boxes, "", 0, 1e9, "boxes past"),
};
const dw_shape dw_mishap_reply_shape =
    DW_SHAPE("stack_foresee", dw_mishap_reply, reply_fields,
             "what is saved, used first and past");
