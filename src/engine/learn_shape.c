/* The shapes of learn.h. */
#include "doughwright/learn.h"

const char *const dw_learn_level_words[] = {"prior", "mixer", "own", NULL};

static const dw_field reading_fields[] = {
    DW_F_REAL(dw_reading, work_j_per_kg_dough, "J/kg", -50000, 300000,
              "mixing work that one batch showed"),
    DW_F_REAL(dw_reading, sd_j_per_kg, "J/kg", 10, 100000,
              "how uncertain that reading is, one standard deviation"),
};
const dw_shape dw_reading_shape = DW_SHAPE(
    "reading", dw_reading, reading_fields, "what one batch says of the work");

static const dw_field estimate_fields[] = {
    DW_F_REAL(dw_estimate, work_j_per_kg_dough, "J/kg", -1e6, 1e6,
              "the mixing work to reckon with"),
    DW_F_REAL(dw_estimate, sd_j_per_kg, "J/kg", 0, 1e6,
              "its standard deviation"),
    DW_F_REAL(dw_estimate, low_j_per_kg, "J/kg", -1e6, 1e6,
              "one in twenty lies below"),
    DW_F_REAL(dw_estimate, high_j_per_kg, "J/kg", -1e6, 1e6,
              "one in twenty lies above"),
    DW_F_WHOLE(dw_estimate, n, "", 0, DW_LEARN_KEPT,
               "readings of this mixer, formula and time that count"),
    DW_F_WHOLE(dw_estimate, mixer_n, "", 0, DW_LEARN_KEPT,
               "readings of the mixer's other doughs that count"),
    DW_F_WHOLE(dw_estimate, doubtful, "", 0, DW_LEARN_KEPT,
               "of n, more likely gross errors than sound"),
    DW_F_CHOICE(dw_estimate, level, dw_learn_level_words,
                "where the number mostly comes from"),
};
const dw_shape dw_estimate_shape = DW_SHAPE(
    "estimate", dw_estimate, estimate_fields, "the learned mixing work");
