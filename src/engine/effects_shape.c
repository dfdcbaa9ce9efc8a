#include "doughwright/effects.h"

static const dw_field factor_fields[] = {
    DW_F_TEXT(dw_factor, name, 40, "what it is: person, lot, mixer"),
    DW_F_WHOLES_OPT(dw_factor, levels, "", 0, 9007199254740991.0,
                    "which one, of each value; 0: not known"),
};
static const dw_shape factor_shape =
    DW_SHAPE("factor", dw_factor, factor_fields, "something that may matter");

static const dw_field request_fields[] = {
    DW_F_REALS(dw_effects_request, values, "", -1e9, 1e9, "3 to 2000"),
    DW_F_MANY(dw_effects_request, factors, &factor_shape, 1, DW_EFFECTS_FACTORS,
              "what may matter"),
    DW_F_REAL_OPT(dw_effects_request, part_sd, "", 1e-9, 1e9,
                  "how large parts may be; else as all values scatter"),
    DW_F_REAL_OPT(dw_effects_request, noise_sd, "", 1e-9, 1e9,
                  "scatter of the same again; else from what is left"),
};
const dw_shape dw_effects_request_shape =
    DW_SHAPE("effects_request", dw_effects_request, request_fields,
             "values, and what may have made them");

static const dw_field effect_fields[] = {
    DW_F_TEXT(dw_effect, factor, 40, "what"),
    DW_F_WHOLE(dw_effect, level, "", 1, 9007199254740991.0, "which one"),
    DW_F_WHOLE(dw_effect, values_count, "", 1, DW_EFFECTS_VALUES, "with it"),
    DW_F_REAL(dw_effect, part, "", -1e9, 1e9, "beside the mean"),
    DW_F_REAL(dw_effect, sd, "", 0, 1e9, "how well it is known"),
    DW_F_REAL(dw_effect, strength, "", 0, 1e9, "part over sd"),
    DW_F_TEXT_OPT(dw_effect, together_factor, 40,
                  "cannot be told apart from this"),
    DW_F_WHOLE_OPT(dw_effect, together_level, "", 1, 9007199254740991.0,
                   "which one"),
    DW_F_REAL(dw_effect, together_part, "", -1e9, 1e9, "of both"),
    DW_F_REAL(dw_effect, together_sd, "", 0, 1e9, "how well that is known"),
};
static const dw_shape effect_shape =
    DW_SHAPE("effect", dw_effect, effect_fields, "one part");

static const dw_field reply_fields[] = {
    DW_F_REAL(dw_effects_reply, mean, "", -1e9, 1e9, "without any part"),
    DW_F_REAL(dw_effects_reply, mean_sd, "", 0, 1e9, "how well it is known"),
    DW_F_REAL(dw_effects_reply, noise_sd, "", 0, 1e9, "what no part explains"),
    DW_F_MANY(dw_effects_reply, effects, &effect_shape, 0, DW_EFFECTS_LEVELS,
              "by factor"),
};
const dw_shape dw_effects_reply_shape = DW_SHAPE(
    "effects_reply", dw_effects_reply, reply_fields, "the parts, told apart");
