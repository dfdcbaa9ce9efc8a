#include "doughwright/procedure.h"

const char *const dw_step_kind_words[] = {
    "add",   "mix",    "rest",  "wet_yeast", "ask",      "oil_bowl",   "stop",
    "probe", "divide", "round", "box",       "oil_tops", "chill_open", "close",
    "hold",  "temper", "sheet", "punch",     NULL};
const char *const dw_step_what_words[] = {
    "nothing", "material", "water",  "salt_sugar", "flour", "yeast",
    "fat",     "stages",   "others", "rest",       NULL};
const char *const dw_speed_words[] = {"none", "low", "second", NULL};
const char *const dw_until_words[] = {
    "time", "no_dry_flour", "absorbed", "smooth", "risen", "core", NULL};
const char *const dw_template_words[] = {
    "delayed_oil",    "straight", "autolyse",  "poolish", "biga", "sponge",
    "bulk_then_ball", "same_day", "emergency", "cracker", NULL};

static const dw_field step_fields[] = {
    DW_F_CHOICE(dw_step, kind, dw_step_kind_words, "what is done"),
    DW_F_CHOICE_PRESET(dw_step, what, dw_step_what_words, 0, "what is added"),
    DW_F_TEXT_OPT(dw_step, material, 120, "the one material"),
    DW_F_REAL_PRESET(dw_step, share_percent, "percent", 0.1, 100, 100,
                     "part of what is added"),
    DW_F_CHOICE_PRESET(dw_step, speed, dw_speed_words, 0, "of the mixer"),
    DW_F_REAL_PRESET(dw_step, minutes, "min", 0, 10080, 0, "0 is no timer"),
    DW_F_REAL_OPT(dw_step, minutes_to, "min", 0, 10080, "longest"),
    DW_F_CHOICE_PRESET(dw_step, until, dw_until_words, 0, "when it is over"),
    DW_F_REAL_OPT(dw_step, goal_c, "degC", -30, 60, "wanted temperature"),
    DW_F_YES(dw_step, running, false, "added while the mixer runs"),
    DW_F_YES(dw_step, for_stage, false, "done for each preferment"),
    DW_F_TEXT_OPT(dw_step, question, 60, "code of the question"),
    DW_F_TEXT_OPT(dw_step, text, 500, "the shop's own words"),
};
const dw_shape dw_step_shape =
    DW_SHAPE("step", dw_step, step_fields, "one step of a procedure");

static const dw_field procedure_fields[] = {
    DW_F_TEXT(dw_procedure, name, 120, "what the shop calls it"),
    DW_F_MANY(dw_procedure, steps, &dw_step_shape, 1, 80, "in order"),
};
const dw_shape dw_procedure_shape = DW_SHAPE(
    "procedure", dw_procedure, procedure_fields, "how a formula becomes dough");

static const dw_field piece_fields[] = {
    DW_F_TEXT(dw_card_piece, product, 120, "whose ball it is"),
    DW_F_REAL(dw_card_piece, piece_g, "g", 5, 20000, "weight of a ball"),
    DW_F_WHOLE(dw_card_piece, count, "", 0, 100000, "balls"),
};
static const dw_shape piece_shape =
    DW_SHAPE("card_piece", dw_card_piece, piece_fields, "balls to be divided");

static const dw_field bag_fields[] = {
    DW_F_REAL_PRESET(dw_card_bag, diluent_kg, "kg", 0, 50, 0,
                     "flour in the bag"),
    DW_F_TEXT_OPT(dw_card_bag, diluent, 120, "which flour"),
};
static const dw_shape bag_shape =
    DW_SHAPE("card_bag", dw_card_bag, bag_fields, "a bag of minors");

static const dw_field request_fields[] = {
    DW_F_ONE(dw_card_request, formula, &dw_formula_shape, "of the batch"),
    DW_F_REAL(dw_card_request, flour_kg, "kg", 0.001, 5000, "of the batch"),
    DW_F_ONE(dw_card_request, procedure, &dw_procedure_shape, "how"),
    DW_F_YES(dw_card_request, mixer_second_speed, true,
             "has the mixer a second speed"),
    DW_F_REAL_OPT(dw_card_request, water_c, "degC", -40, 60, "of the water"),
    DW_F_REAL_PRESET(dw_card_request, ice_kg, "kg", 0, 1000, 0, "of the water"),
    DW_F_REAL_OPT(dw_card_request, dough_goal_c, "degC", 0, 45,
                  "wanted off the mixer"),
    DW_F_REAL_PRESET(dw_card_request, release_oil_kg, "kg", 0, 10, 0,
                     "down the bowl side, outside the percentages"),
    DW_F_ONE_OPT(dw_card_request, minors_bag, &bag_shape,
                 "in place of the minors"),
    DW_F_MANY_OPT(dw_card_request, pieces, &piece_shape, 12, "to be divided"),
    DW_F_REAL_PRESET(dw_card_request, flour_first_minutes, "min", 0, 15, 3.5,
                     "longer mixing when flour is in before water"),
};
const dw_shape dw_card_request_shape =
    DW_SHAPE("card_request", dw_card_request, request_fields,
             "formula and procedure of one batch");

static const dw_field card_step_fields[] = {
    DW_F_CHOICE(dw_card_step, kind, dw_step_kind_words, "what is done"),
    DW_F_TEXT(dw_card_step, code, 60, "message code"),
    DW_F_TEXT_OPT(dw_card_step, stage, 120, "the preferment it makes"),
    DW_F_TEXT_OPT(dw_card_step, material, 120, "what"),
    {"line_kind", DW_CHOICE, false, "", 0, 0, 0,
     offsetof(dw_card_step, line_kind), offsetof(dw_card_step, has_line_kind),
     DW_NOWHERE, dw_line_kind_words, NULL, "what it is"},
    DW_F_REAL_OPT(dw_card_step, kg, "kg", 0, 1e5, "how much; one ball"),
    DW_F_WHOLE_OPT(dw_card_step, count, "", 0, 1e9, "balls"),
    DW_F_CHOICE(dw_card_step, speed, dw_speed_words, "of the mixer"),
    DW_F_REAL(dw_card_step, minutes, "min", 0, 10080, "0 is no timer"),
    DW_F_REAL_OPT(dw_card_step, minutes_to, "min", 0, 10080, "longest"),
    DW_F_CHOICE(dw_card_step, until, dw_until_words, "when it is over"),
    DW_F_REAL_OPT(dw_card_step, goal_c, "degC", -30, 60, "wanted temperature"),
    DW_F_REAL_OPT(dw_card_step, low_c, "degC", -30, 60, "coldest"),
    DW_F_REAL_OPT(dw_card_step, high_c, "degC", -30, 60, "hottest"),
    DW_F_YES(dw_card_step, running, false, "while the mixer runs"),
    DW_F_TEXT_OPT(dw_card_step, question, 60, "code of the question"),
    DW_F_TEXT_OPT(dw_card_step, caution, 60, "code of the caution"),
    DW_F_TEXT_OPT(dw_card_step, text, 500, "the shop's own words"),
    DW_F_REAL(dw_card_step, at_min, "min", -1e5, 1e5,
              "from the first step of the dough"),
};
const dw_shape dw_card_step_shape = DW_SHAPE(
    "card_step", dw_card_step, card_step_fields, "one step of the mix card");

static const dw_field saying_fields[] = {
    DW_F_TEXT_OPT(dw_card_saying, step, 1000, "what is done"),
    DW_F_TEXT_OPT(dw_card_saying, caution, 1000, "what to take care of"),
};
const dw_shape dw_card_saying_shape = DW_SHAPE(
    "card_saying", dw_card_saying, saying_fields, "a step as sentences");

static const dw_field reply_fields[] = {
    DW_F_MANY(dw_card_reply, steps, &dw_card_step_shape, 0, 400, "in order"),
    DW_F_MANY_OPT(dw_card_reply, sayings, &dw_card_saying_shape, 400,
                  "each step as sentences"),
    DW_F_REAL(dw_card_reply, mixer_minutes, "min", 0, 1e5,
              "the mixer runs, preferments included"),
    DW_F_REAL(dw_card_reply, mixer_hours, "h", 0, 1e4, "for the hours run"),
    DW_F_REAL(dw_card_reply, dough_out_min, "min", 0, 1e5,
              "from the dough's first step to its stop"),
    DW_F_REAL(dw_card_reply, absorption_percent, "percent", 0, 1000,
              "water on flour"),
    DW_F_REAL(dw_card_reply, release_oil_kg, "kg", 0, 10,
              "outside the percentages"),
    DW_F_MANY_OPT(dw_card_reply, notes, &dw_note_shape, 60, "what to say"),
};
const dw_shape dw_card_reply_shape =
    DW_SHAPE("card_reply", dw_card_reply, reply_fields, "the mix card");
