/* The shapes of cold.h. */
#include "doughwright/cold.h"

const char *const dw_readiness_words[] = {"not_yet",   "ready", "best",
                                          "use_first", "past",  NULL};

/* What conducts in a ball, preset to a common dough (docs/models/cooling.md).
 */
#define BALL_FIELDS(type)                                                      \
    DW_F_REAL(type, piece_g, "g", 1, 20000, "one ball"),                       \
        DW_F_REAL_PRESET(type, h_w_per_m2_k, "W/m2K", 0.1, 2000, 8,            \
                         "surface coefficient; 8 is an offset stack"),         \
        DW_F_REAL_PRESET(type, density_kg_m3, "kg/m3", 300, 10000, 1130,       \
                         "of the dough"),                                      \
        DW_F_REAL_PRESET(type, cp_j_per_kg_k, "J/kgK", 100, 10000, 2750,       \
                         "of the dough"),                                      \
        DW_F_REAL_PRESET(type, k_w_per_m_k, "W/mK", 0.01, 500, 0.37,           \
                         "of the dough")

static const dw_field stack_fields[] = {
    BALL_FIELDS(dw_cold_stack),
    DW_F_REAL(dw_cold_stack, dough_c, "degC", -10, 60, "when boxed"),
    DW_F_REAL(dw_cold_stack, air_c, "degC", -40, 60, "the cold room"),
    DW_F_REAL_PRESET(dw_cold_stack, close_from_core_c, "degC", -10, 30,
                     115 / 9., "core from which the stack may be closed"),
    DW_F_REAL_PRESET(dw_cold_stack, close_by_core_c, "degC", -10, 30, 10,
                     "core by which it should be closed"),
};
const dw_shape dw_cold_stack_shape = DW_SHAPE(
    "cold_stack", dw_cold_stack, stack_fields, "balls boxed and put into cold");

static const dw_field close_fields[] = {
    DW_F_REAL(dw_cold_close, from_h, "h", 0, 1e6,
              "after boxing, the stack may be closed"),
    DW_F_REAL(dw_cold_close, by_h, "h", 0, 1e6,
              "after boxing, it should be closed"),
    DW_F_REAL(dw_cold_close, from_skin_c, "degC", -100, 100, "the skin then"),
    DW_F_REAL(dw_cold_close, by_skin_c, "degC", -100, 100, "the skin then"),
    DW_F_REAL(dw_cold_close, from_vapour_excess_pa, "Pa", -1e5, 1e5,
              "what drives sweat under a lid put on then"),
    DW_F_REAL(dw_cold_close, by_vapour_excess_pa, "Pa", -1e5, 1e5,
              "what drives sweat under a lid put on then"),
    DW_F_YES(dw_cold_close, rule_of_thumb, true, "no log was read"),
};
const dw_shape dw_cold_close_shape =
    DW_SHAPE("cold_close", dw_cold_close, close_fields,
             "when to close the stack, by the trade's clock");

static const dw_field bench_fields[] = {
    BALL_FIELDS(dw_cold_bench),
    DW_F_REAL(dw_cold_bench, core_c, "degC", -2, 60, "when taken out"),
    DW_F_REAL(dw_cold_bench, room_c, "degC", -10, 60, "the room"),
    DW_F_REAL_PRESET(dw_cold_bench, bench_h, "h", 0.1, 48, 3,
                     "how long the shop lets balls stand"),
};
const dw_shape dw_cold_bench_shape = DW_SHAPE(
    "cold_bench", dw_cold_bench, bench_fields, "balls taken out of the cold");

static const dw_field temper_fields[] = {
    DW_F_REAL(dw_cold_temper, usable_from_h, "h", 0, 1e6,
              "after taking out, the core is at 10 degC"),
    DW_F_REAL_OPT(dw_cold_temper, warm_h, "h", 0, 1e6,
                  "after taking out, the core is at 15.6 degC"),
    DW_F_REAL(dw_cold_temper, end_h, "h", 0, 48, "after taking out, past"),
    DW_F_YES(dw_cold_temper, rule_of_thumb, true, "no log was read"),
};
const dw_shape dw_cold_temper_shape =
    DW_SHAPE("cold_temper", dw_cold_temper, temper_fields,
             "tempering and bench life, by the trade's clock");

static const dw_field days_fields[] = {
    DW_F_WHOLE_PRESET(dw_cold_days, ready_day, "", 0, 60, 1,
                      "first day of use, mixing day 0"),
    DW_F_WHOLE_PRESET(dw_cold_days, best_day, "", 0, 60, 2,
                      "first day at its best"),
    DW_F_WHOLE_PRESET(dw_cold_days, use_first_day, "", 0, 60, 3,
                      "first day on which it is used before other dough"),
    DW_F_WHOLE_PRESET(dw_cold_days, last_day, "", 0, 60, 3, "last day of use"),
};
const dw_shape dw_cold_days_shape =
    DW_SHAPE("cold_days", dw_cold_days, days_fields, "the shop's days");

static const dw_field load_fields[] = {
    DW_F_REAL(dw_cold_load, dough_kg, "kg", 0, 1e7, "dough to be cooled"),
    DW_F_REAL_PRESET(dw_cold_load, cp_j_per_kg_k, "J/kgK", 100, 10000, 2760,
                     "of the dough"),
    DW_F_REAL(dw_cold_load, start_c, "degC", -40, 60, "when loaded"),
    DW_F_REAL(dw_cold_load, end_c, "degC", -60, 60, "when cold"),
    DW_F_REAL(dw_cold_load, over_h, "h", 0.01, 1000, "time it may take"),
    DW_F_REAL_OPT(dw_cold_load, freezing_c, "degC", -20, 0,
                  "where the dough begins to freeze"),
    DW_F_REAL_PRESET(dw_cold_load, frozen_cp_j_per_kg_k, "J/kgK", 0, 10000, 0,
                     "of the frozen dough"),
    DW_F_REAL_PRESET(dw_cold_load, latent_j_per_kg, "J/kg", 0, 334000, 0,
                     "of freezing the dough"),
    DW_F_REAL_PRESET(dw_cold_load, other_w, "W", 0, 1e7, 0,
                     "walls, doors, people, fans"),
    DW_F_REAL_PRESET(dw_cold_load, piece_g, "g", 0, 20000, 0,
                     "one ball, for the first peak; 0: not asked"),
    DW_F_REAL_PRESET(dw_cold_load, air_c, "degC", -60, 60, 3, "the cold room"),
    DW_F_REAL_PRESET(dw_cold_load, h_w_per_m2_k, "W/m2K", 0.1, 2000, 8,
                     "surface coefficient"),
    DW_F_REAL_PRESET(dw_cold_load, density_kg_m3, "kg/m3", 300, 10000, 1130,
                     "of the dough"),
};
const dw_shape dw_cold_load_shape =
    DW_SHAPE("cold_load", dw_cold_load, load_fields, "dough to be cooled");

static const dw_field heat_fields[] = {
    DW_F_REAL(dw_cold_heat, heat_j, "J", 0, 1e15, "to take out of the dough"),
    DW_F_REAL(dw_cold_heat, mean_w, "W", 0, 1e12, "over the time"),
    DW_F_REAL_OPT(dw_cold_heat, peak_w, "W", -1e12, 1e12, "just loaded"),
};
const dw_shape dw_cold_heat_shape = DW_SHAPE(
    "cold_heat", dw_cold_heat, heat_fields, "what the cold room must carry");
