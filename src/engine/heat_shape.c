/* The shapes of heat.h. */
#include "doughwright/heat.h"

#include "doughwright/constants.h"

const char *const dw_heat_yeast_words[] = {"not_told", "fresh", "active_dry",
                                           "instant", NULL};
const char *const dw_heat_cause_words[] = {"agree", "flour", "room", "friction",
                                           NULL};

static const dw_field part_fields[] = {
    DW_F_REAL(dw_heat_part, kg, "kg", 0, 1e5, "how much of it"),
    DW_F_REAL(dw_heat_part, cp_j_per_kg_k, "J/kgK", 100, 10000,
              "its specific heat"),
    DW_F_REAL(dw_heat_part, temp_c, "degC", -40, 100, "its temperature"),
};
const dw_shape dw_heat_part_shape =
    DW_SHAPE("heat_part", dw_heat_part, part_fields,
             "an ingredient as the heat balance sees it");

#define B dw_heat_batch
/* What both questions know of a batch. */
#define BATCH_FIELDS                                                           \
    DW_F_REAL(B, water_kg, "kg", 1e-6, 1e5, "all the water, ice included"),    \
        DW_F_REAL(B, flour_kg, "kg", 0, 1e5, "all the flour"),                 \
        DW_F_MANY(B, parts, &dw_heat_part_shape, 1, 100,                       \
                  "all but water and bowl, flour included"),                   \
        DW_F_REAL(B, bowl_kg, "kg", 0, 5000, "the bowl's mass"),               \
        DW_F_REAL(B, bowl_cp_j_per_kg_k, "J/kgK", 0, 5000,                     \
                  "the bowl's specific heat"),                                 \
        DW_F_REAL(B, bowl_c, "degC", -40, 100, "the bowl's temperature"),      \
        DW_F_REAL(B, hydration_j_per_kg_flour, "J/kg", 0, 50000,               \
                  "heat of wetting the flour"),                                \
        DW_F_REAL_PRESET(B, loss_j, "J", -1e9, 1e9, 0,                         \
                         "heat lost to the room while mixing"),                \
        DW_F_REAL_PRESET(B, ice_c, "degC", -40, 0, 0,                          \
                         "the ice's temperature"),                             \
        DW_F_REAL_OPT(B, room_c, "degC", -20, 60, "the room"),                 \
        DW_F_REAL_OPT(B, flour_c, "degC", -40, 100, "the flour"),              \
        DW_F_REAL_OPT(B, kept_friction_c, "K", -100, 200,                      \
                      "the shop's friction number for three factors"),         \
        DW_F_CHOICE_PRESET(B, yeast, dw_heat_yeast_words,                      \
                           DW_HEAT_YEAST_NOT_TOLD, "which yeast goes in")

static const dw_field water_fields[] = {
    DW_F_REAL(B, goal_c, "degC", 0, 50, "the wanted dough temperature"),
    BATCH_FIELDS,
    DW_F_REAL(B, work_j_per_kg_dough, "J/kg", 0, 200000, "mixing work"),
    DW_F_REAL(B, tap_c, "degC", 0, 100, "the tap water"),
};
const dw_shape dw_heat_water_shape = DW_SHAPE(
    "heat_water", B, water_fields, "a batch whose water temperature is asked");

static const dw_field learn_fields[] = {
    BATCH_FIELDS,
    DW_F_REAL_PRESET(B, work_j_per_kg_dough, "J/kg", 0, 200000, 13000,
                     "mixing work as believed before; the answer does not "
                     "depend on it"),
    DW_F_REAL_PRESET(B, tap_c, "degC", 0, 100, 0,
                     "the tap water; the answer does not depend on it"),
    DW_F_REAL(B, observed_dough_c, "degC", -5, 60, "the dough off the mixer"),
    DW_F_REAL(B, water_c, "degC", -80, 100,
              "the water that went in, ice apart"),
    DW_F_REAL_PRESET(B, ice_kg, "kg", 0, 1e5, 0, "ice in the water"),
};
const dw_shape dw_heat_learn_shape = DW_SHAPE(
    "heat_learn", B, learn_fields, "a batch that was mixed and measured");
#undef BATCH_FIELDS
#undef B

static const dw_field rule_fields[] = {
    DW_F_REAL(dw_heat_rule, water_c, "degC", -1000, 1000,
              "the rule's water temperature"),
    DW_F_REAL(dw_heat_rule, friction_c, "K", -1000, 1000,
              "friction, a difference summed over three factors"),
};
const dw_shape dw_heat_rule_shape = DW_SHAPE(
    "heat_rule", dw_heat_rule, rule_fields, "the trade's three-factor rule");

static const dw_field why_fields[] = {
    DW_F_CHOICE(dw_heat_why, code, dw_heat_cause_words, "the largest part"),
    DW_F_REAL(dw_heat_why, gap_c, "K", -1000, 1000,
              "water by the kept rule less water by the balance"),
    DW_F_REAL(dw_heat_why, flour_gap_c, "K", -1000, 1000,
              "part of the gap that comes from the flour"),
    DW_F_REAL(dw_heat_why, room_gap_c, "K", -1000, 1000,
              "part of the gap that comes from room and bowl"),
    DW_F_REAL(dw_heat_why, friction_gap_c, "K", -1000, 1000,
              "part of the gap that comes from the kept friction number"),
    DW_F_REAL(dw_heat_why, dough_gap_c, "K", -1000, 1000,
              "how far off the dough would be by the kept rule"),
    DW_F_TEXT_OPT(dw_heat_why, message, 500, "the same as a sentence"),
};
const dw_shape dw_heat_why_shape = DW_SHAPE(
    "heat_why", dw_heat_why, why_fields, "why the rule and the balance differ");

static const dw_field answer_fields[] = {
    DW_F_REAL(dw_heat_answer, water_c, "degC", -200, 100,
              "all the water; virtual, may be below 0"),
    DW_F_REAL(dw_heat_answer, ice_kg, "kg", 0, 1e5,
              "ice that replaces as much of the water"),
    DW_F_REAL(dw_heat_answer, liquid_c, "degC", -200, 100,
              "the rest of the water"),
    DW_F_ONE_OPT(dw_heat_answer, rule, &dw_heat_rule_shape,
                 "the rule with today's friction, as the balance implies it"),
    DW_F_ONE_OPT(dw_heat_answer, kept_rule, &dw_heat_rule_shape,
                 "the rule with the shop's kept friction number, or that of a "
                 "usual day at 22 degC"),
    DW_F_ONE_OPT(dw_heat_answer, why, &dw_heat_why_shape,
                 "why the kept rule and the balance differ"),
    DW_F_MANY_OPT(dw_heat_answer, warnings, &dw_note_shape, DW_HEAT_NOTES,
                  "what to mind"),
};
const dw_shape dw_heat_answer_shape =
    DW_SHAPE("heat_answer", dw_heat_answer, answer_fields,
             "water and ice for the wanted dough temperature");

static const dw_field learned_fields[] = {
    DW_F_REAL(dw_heat_learned, work_j_per_kg_dough, "J/kg", -1e9, 1e9,
              "mixing work that explains the dough's temperature"),
    DW_F_REAL(dw_heat_learned, sd_j_per_kg, "J/kg", 0, 1e9,
              "how uncertain that is, one standard deviation"),
};
const dw_shape dw_heat_learned_shape =
    DW_SHAPE("heat_learned", dw_heat_learned, learned_fields,
             "what one batch says of the mixing work");

#define M dw_heat_mix
static const dw_field mix_fields[] = {
    DW_F_ONE(M, formula, &dw_formula_shape, "the total formula"),
    DW_F_REAL(M, flour_kg, "kg", 0.001, 1e5, "all the flour, stages included"),
    DW_F_REAL(M, goal_c, "degC", 0, 50, "the wanted dough temperature"),
    DW_F_REAL(M, flour_c, "degC", -40, 60, "the flour"),
    DW_F_REAL(M, room_c, "degC", -20, 60, "the room"),
    DW_F_REAL(M, tap_c, "degC", 0, 100, "the tap water"),
    DW_F_REAL_PRESET(M, ice_c, "degC", -40, 0, 0, "the ice"),
    DW_F_REAL_PRESET(M, bowl_kg, "kg", 0, 5000, 0, "the bowl, steel"),
    DW_F_REAL_OPT(M, bowl_c, "degC", -40, 100, "the bowl; else as the room"),
    DW_F_REAL_OPT(M, stage_c, "degC", -10, 60,
                  "preferments and old dough; else as the room"),
    DW_F_REAL_PRESET(M, hydration_j_per_kg_flour, "J/kg", 0, 50000, 15100,
                     "heat of wetting the flour"),
    DW_F_REAL_PRESET(M, work_j_per_kg_dough, "J/kg", 0, 200000, 13000,
                     "mixing work, as learned"),
    DW_F_REAL_OPT(M, kept_friction_c, "K", -100, 200,
                  "the shop's friction number for three factors"),
};
const dw_shape dw_heat_mix_shape = DW_SHAPE(
    "heat_mix", M, mix_fields, "a formula whose water temperature is asked");
#undef M
