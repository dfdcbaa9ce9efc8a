/* The shapes of answers.h. */
#include "doughwright/answers.h"

#include "doughwright/constants.h"

static const dw_field moment_fields[] = {
    DW_F_REAL(dw_answer_moment, at_h, "h", 0, DW_LIFE_LONGEST_H, "when"),
    DW_F_REAL(dw_answer_moment, early_h, "h", 0, DW_LIFE_LONGEST_H,
              "at the soonest, by how well the air takes heat"),
    DW_F_REAL(dw_answer_moment, late_h, "h", 0, DW_LIFE_LONGEST_H,
              "at the latest"),
};
const dw_shape dw_answer_moment_shape =
    DW_SHAPE("answer_moment", dw_answer_moment, moment_fields,
             "a moment and how sure it is");

static const dw_field air_fields[] = {
    DW_F_REAL_PRESET(dw_answer_air, least_part, "", 0.2, 1, 0.875,
                     "of the coefficient told, where air takes heat badly"),
    DW_F_REAL_PRESET(dw_answer_air, most_part, "", 1, 5, 1.25,
                     "of it, where it takes heat well"),
};
const dw_shape dw_answer_air_shape =
    DW_SHAPE("answer_air", dw_answer_air, air_fields,
             "how little is known of the surface coefficient");

/* Not required: its own presets stand when it is not given. */
#define F_PRESET_ONE(type, m, of, about)                                       \
    {                                                                          \
#m, DW_ONE, false, "", 0, 0, 0, offsetof(type, m), DW_NOWHERE,         \
            DW_NOWHERE, NULL, of, about                                        \
    }

static const dw_field warmth_ask_fields[] = {
    DW_F_ONE(dw_warmth_ask, life, &dw_life_request_shape,
             "the ball and its history; its dough_c is what is looked for"),
    DW_F_CHOICE_PRESET(dw_warmth_ask, mark, dw_life_mark_words, 1,
                       "which moment of the window"),
    DW_F_REAL(dw_warmth_ask, wanted_h, "h", 0.1, DW_LIFE_LONGEST_H,
              "when it should come"),
};
const dw_shape dw_warmth_ask_shape =
    DW_SHAPE("piece_warmth_ask", dw_warmth_ask, warmth_ask_fields,
             "a ball whose dough temperature is looked for");

static const dw_field warmth_reply_fields[] = {
    DW_F_REAL(dw_warmth_reply, dough_c, "degC", -1, 50, "off the mixer"),
    DW_F_ONE(dw_warmth_reply, life, &dw_life_reply_shape,
             "the life at that temperature"),
};
const dw_shape dw_warmth_reply_shape =
    DW_SHAPE("piece_warmth", dw_warmth_reply, warmth_reply_fields,
             "the dough temperature that brings the wanted moment");

static const dw_field close_ask_fields[] = {
    DW_F_ONE(dw_close_ask, life, &dw_life_request_shape,
             "the ball and its history; its first leg in the cold is the "
             "open stack"),
    DW_F_REAL_PRESET(dw_close_ask, close_from_core_c, "degC", 0, 30, 115 / 9.,
                     "core from which the stack may be closed"),
    DW_F_REAL_PRESET(dw_close_ask, close_by_core_c, "degC", 0, 30, 10,
                     "core by which it should be closed"),
    DW_F_REAL_PRESET(dw_close_ask, closed_h_w_per_m2_k, "W/m2K", 0.1, 2000, 3,
                     "heat transfer of the closed stack"),
    F_PRESET_ONE(dw_close_ask, air, &dw_answer_air_shape,
                 "how sure the open stack's heat transfer is"),
};
const dw_shape dw_close_ask_shape =
    DW_SHAPE("piece_close_ask", dw_close_ask, close_ask_fields,
             "an open stack in the cold");

static const dw_field close_reply_fields[] = {
    DW_F_ONE(dw_close_reply, from_h, &dw_answer_moment_shape,
             "it may be closed"),
    DW_F_ONE(dw_close_reply, by_h, &dw_answer_moment_shape,
             "it should be closed"),
    DW_F_ONE(dw_close_reply, closed_from, &dw_window_shape,
             "the window when it is closed at from_h"),
    DW_F_ONE(dw_close_reply, closed_by, &dw_window_shape,
             "the window when it is closed at by_h"),
};
const dw_shape dw_close_reply_shape =
    DW_SHAPE("piece_close", dw_close_reply, close_reply_fields,
             "when to close the stack, by the life of its balls");

static const dw_field pull_ask_fields[] = {
    DW_F_ONE(dw_pull_ask, life, &dw_life_request_shape,
             "the ball and its history; its last leg is the cold"),
    DW_F_REAL(dw_pull_ask, opening_h, "h", 0.01, DW_LIFE_LONGEST_H,
              "when the balls are opened"),
    DW_F_REAL(dw_pull_ask, room_c, "degC", -3, 50, "where they warm up"),
    DW_F_REAL_PRESET(dw_pull_ask, room_h_w_per_m2_k, "W/m2K", 0.1, 2000, 8,
                     "heat transfer there"),
    DW_F_REAL_PRESET(dw_pull_ask, core_low_c, "degC", 0, 35, 10,
                     "the coldest core that opens well"),
    DW_F_REAL_PRESET(dw_pull_ask, core_high_c, "degC", 0, 40, 140 / 9.,
                     "the warmest core that is wanted"),
    F_PRESET_ONE(dw_pull_ask, air, &dw_answer_air_shape,
                 "how sure that heat transfer is"),
};
const dw_shape dw_pull_ask_shape = DW_SHAPE(
    "piece_pull_ask", dw_pull_ask, pull_ask_fields, "balls in the cold");

static const dw_field pull_reply_fields[] = {
    DW_F_ONE(dw_pull_reply, by_h, &dw_answer_moment_shape,
             "later, and the core is still too cold"),
    DW_F_ONE_OPT(dw_pull_reply, from_h, &dw_answer_moment_shape,
                 "sooner, and the core is too warm"),
    DW_F_REAL(dw_pull_reply, pull_h, "h", 0, DW_LIFE_LONGEST_H, "amid the two"),
    DW_F_REAL(dw_pull_reply, core_c, "degC", -40, 60,
              "at opening, pulled then"),
    DW_F_REAL(dw_pull_reply, mean_c, "degC", -40, 60,
              "at opening, pulled then"),
    DW_F_ONE(dw_pull_reply, life, &dw_life_reply_shape,
             "the life, pulled then"),
};
const dw_shape dw_pull_reply_shape =
    DW_SHAPE("piece_pull", dw_pull_reply, pull_reply_fields,
             "when to pull balls so that they open well");

static const dw_field shop_fields[] = {
    DW_F_REAL(dw_shop_ways, flour_kg, "kg", 0.001, 1e5, "of one batch"),
    DW_F_REAL(dw_shop_ways, flour_c, "degC", -20, 60, "the flour"),
    DW_F_REAL(dw_shop_ways, room_c, "degC", -20, 60, "the room, and the bowl"),
    DW_F_REAL(dw_shop_ways, tap_c, "degC", 0, 60, "the tap"),
    DW_F_REAL_PRESET(dw_shop_ways, ice_c, "degC", -40, 0, 0, "the ice"),
    DW_F_REAL_PRESET(dw_shop_ways, bowl_kg, "kg", 0, 2000, 0, "steel"),
    DW_F_REAL_PRESET(dw_shop_ways, work_j_per_kg_dough, "J/kg", 0, 200000,
                     13000, "the mixer's work, learned from its batches"),
    DW_F_MANY(dw_shop_ways, legs, &dw_leg_shape, 1, 100,
              "what surrounds the balls from the mixer on"),
    DW_F_REAL_PRESET(dw_shop_ways, elevation_m, "m", -500, 9000, 0,
                     "above the sea"),
};
const dw_shape dw_shop_ways_shape = DW_SHAPE(
    "shop_ways", dw_shop_ways, shop_fields, "what a shop does to a dough");

const char *const dw_transfer_words[] = {"yeast", "dough_c", NULL};

static const dw_field transfer_ask_fields[] = {
    DW_F_ONE(dw_transfer_ask, formula, &dw_formula_shape, "the total formula"),
    DW_F_REAL(dw_transfer_ask, piece_g, "g", 1, 20000, "one ball"),
    DW_F_REAL(dw_transfer_ask, dough_c, "degC", 5, 40, "off the mixer, here"),
    DW_F_ONE(dw_transfer_ask, here, &dw_shop_ways_shape,
             "the shop where it comes out right"),
    DW_F_ONE(dw_transfer_ask, there, &dw_shop_ways_shape, "the other"),
    DW_F_CHOICE_PRESET(dw_transfer_ask, turn, dw_transfer_words, 0,
                       "what may be changed"),
    DW_F_CHOICE_PRESET(dw_transfer_ask, mark, dw_life_mark_words, 1,
                       "what must come at the same hour"),
    DW_F_REAL_PRESET(dw_transfer_ask, earliest_cold_use_h, "h", 0, 240, 10,
                     "earliest use after it came into the cold"),
    F_PRESET_ONE(dw_transfer_ask, model, &dw_ferment_model_shape,
                 "parameters that replace the usual ones"),
    DW_F_MANY_OPT(dw_transfer_ask, ranges, &dw_life_range_shape,
                  DW_FERMENT_PARAMETER_COUNT,
                  "of the band, in place of the usual ones"),
    DW_F_WHOLE_PRESET(dw_transfer_ask, members, "", 0, 1000, 63,
                      "lives in the band, 0 for none"),
};
const dw_shape dw_transfer_ask_shape =
    DW_SHAPE("formula_transfer_ask", dw_transfer_ask, transfer_ask_fields,
             "a dough that goes to another shop");

static const dw_field water_fields[] = {
    DW_F_REAL(dw_transfer_water, water_c, "degC", -1000, 1000,
              "all the water, virtual when below 0"),
    DW_F_REAL(dw_transfer_water, ice_kg, "kg", 0, 1e6, "in place of water"),
    DW_F_REAL(dw_transfer_water, liquid_c, "degC", -1000, 1000,
              "the rest of the water"),
};
static const dw_shape water_shape =
    DW_SHAPE("transfer_water", dw_transfer_water, water_fields,
             "water and ice of one batch");

static const dw_field transfer_reply_fields[] = {
    DW_F_REAL(dw_transfer_reply, percent, "percent", 0, 20,
              "of yeast, in the other shop"),
    DW_F_REAL(dw_transfer_reply, dough_c, "degC", -1, 50,
              "off the mixer, in the other shop"),
    DW_F_ONE(dw_transfer_reply, here_water, &water_shape, "for it, here"),
    DW_F_ONE(dw_transfer_reply, there_water, &water_shape,
             "for it, in the other shop"),
    DW_F_REAL(dw_transfer_reply, mark_h, "h", 0, DW_LIFE_LONGEST_H,
              "when the moment comes in both"),
    DW_F_ONE(dw_transfer_reply, here, &dw_window_shape, "the window here"),
    DW_F_ONE(dw_transfer_reply, there, &dw_life_reply_shape,
             "its life in the other shop"),
};
const dw_shape dw_transfer_reply_shape =
    DW_SHAPE("formula_transfer", dw_transfer_reply, transfer_reply_fields,
             "what the same dough needs in the other shop");

static const dw_field hurry_ask_fields[] = {
    DW_F_ONE(dw_hurry_ask, formula, &dw_formula_shape, "the total formula"),
    DW_F_REAL(dw_hurry_ask, piece_g, "g", 1, 20000, "one ball"),
    DW_F_REAL(dw_hurry_ask, usable_in_h, "h", 0.25, 24,
              "after the mixer has stopped"),
    DW_F_REAL_PRESET(dw_hurry_ask, dough_c, "degC", 10, 38, 27,
                     "dough temperature to begin with"),
    DW_F_REAL_PRESET(dw_hurry_ask, dough_most_c, "degC", 10, 38, 35,
                     "as warm as the dough may be made"),
    DW_F_REAL_PRESET(dw_hurry_ask, yeast_most_percent, "percent", 0.05, 10, 2,
                     "of the formula's own yeast"),
    DW_F_REAL_PRESET(dw_hurry_ask, room_c, "degC", -3, 50, 24,
                     "where the balls stand"),
    DW_F_REAL_PRESET(dw_hurry_ask, h_w_per_m2_k, "W/m2K", 0.1, 2000, 8,
                     "heat transfer there"),
    DW_F_REAL_PRESET(dw_hurry_ask, elevation_m, "m", -500, 9000, 0,
                     "above the sea"),
    F_PRESET_ONE(dw_hurry_ask, model, &dw_ferment_model_shape,
                 "parameters that replace the usual ones"),
    DW_F_MANY_OPT(dw_hurry_ask, ranges, &dw_life_range_shape,
                  DW_FERMENT_PARAMETER_COUNT,
                  "of the band, in place of the usual ones"),
    DW_F_WHOLE_PRESET(dw_hurry_ask, members, "", 0, 1000, 63,
                      "lives in the band, 0 for none"),
};
const dw_shape dw_hurry_ask_shape =
    DW_SHAPE("formula_hurry_ask", dw_hurry_ask, hurry_ask_fields,
             "dough that is needed today");

static const dw_field hurry_reply_fields[] = {
    DW_F_REAL(dw_hurry_reply, percent, "percent", 0, 20, "of yeast"),
    DW_F_REAL(dw_hurry_reply, dough_c, "degC", -1, 50, "off the mixer"),
    DW_F_YES(dw_hurry_reply, warmer, false,
             "than asked: yeast alone was not enough"),
    DW_F_ONE(dw_hurry_reply, life, &dw_life_reply_shape, "its life"),
};
const dw_shape dw_hurry_reply_shape =
    DW_SHAPE("formula_hurry", dw_hurry_reply, hurry_reply_fields,
             "yeast and dough temperature of an emergency dough");
