#include "app/load.h"

const char *const dw_weekday_words[] = {"monday",   "tuesday", "wednesday",
                                        "thursday", "friday",  "saturday",
                                        "sunday",   NULL};

static const dw_field formula_fields[] = {
    DW_F_TEXT(dw_formula_file, name, 80, "what the shop calls it"),
    DW_F_CHOICE_PRESET(dw_formula_file, style, dw_style_words, 0,
                       "decides what is usual"),
    DW_F_CHOICE_PRESET(dw_formula_file, process, dw_process_words, 0,
                       "decides what is usual"),
    DW_F_YES(dw_formula_file, here, true, "still in use"),
    DW_F_TEXT_OPT(dw_formula_file, note, 400, "why it changed"),
    DW_F_REAL_PRESET(dw_formula_file, dough_goal_c, "degC", 5, 45, 25,
                     "wanted dough temperature"),
    DW_F_YES(dw_formula_file, slips_accepted, false,
             "its slips were seen and kept"),
    DW_F_ONE(dw_formula_file, formula, &dw_formula_shape, "lines and stages"),
    DW_F_CHOICE_OPT(dw_formula_file, procedure, dw_template_words,
                    "a procedure that is ready"),
    DW_F_MANY_OPT(dw_formula_file, steps, &dw_step_shape, 60,
                  "or the shop's own, step by step"),
};
const dw_shape dw_formula_file_shape =
    DW_SHAPE("formula_file", dw_formula_file, formula_fields,
             "a formula and its procedure");

static const dw_field mixer_fields[] = {
    DW_F_ONE(dw_mixer_file, mixer, &dw_mixer_noun, "the mixer"),
    DW_F_MANY_OPT(dw_mixer_file, limits, &dw_mixer_limit_noun, 12,
                  "what its plate says, by rising absorption"),
};
static const dw_shape mixer_shape =
    DW_SHAPE("mixer_file", dw_mixer_file, mixer_fields,
             "a mixer and what its plate says");

static const dw_field opening_fields[] = {
    DW_F_CHOICE(dw_opening_file, weekday, dw_weekday_words, "which day"),
    DW_F_WHOLE(dw_opening_file, opens_minute, "min", 0, 2880, "first in"),
    DW_F_WHOLE(dw_opening_file, leaves_minute, "min", 0, 2880, "last out"),
};
static const dw_shape opening_shape =
    DW_SHAPE("opening_file", dw_opening_file, opening_fields,
             "when somebody is in the shop");

static const dw_field product_fields[] = {
    DW_F_ONE(dw_product_file, product, &dw_product_noun, "the piece"),
    DW_F_TEXT(dw_product_file, formula, 80, "made from"),
    DW_F_TEXT_OPT(dw_product_file, box, 60, "kept in"),
    DW_F_WHOLES_OPT(dw_product_file, build_to, "", 0, 100000,
                    "to have in the morning, Monday to Sunday"),
};
static const dw_shape product_shape =
    DW_SHAPE("product_file", dw_product_file, product_fields,
             "a piece, what it is made from and how many to have");

static const dw_field shop_fields[] = {
    DW_F_ONE(dw_shop_file, shop, &dw_shop_noun, "the same for every batch"),
    DW_F_MANY_OPT(dw_shop_file, people, &dw_person_noun, 1000,
                  "who makes dough"),
    DW_F_MANY_OPT(dw_shop_file, mixers, &mixer_shape, 50, "mixers"),
    DW_F_MANY_OPT(dw_shop_file, scales, &dw_scale_noun, 50, "scales"),
    DW_F_MANY_OPT(dw_shop_file, boxes, &dw_box_type_noun, 50,
                  "kinds of dough box"),
    DW_F_MANY_OPT(dw_shop_file, cold_rooms, &dw_cold_room_noun, 50,
                  "cold rooms"),
    DW_F_MANY_OPT(dw_shop_file, openings, &opening_shape, 7,
                  "one row a weekday that is not closed"),
    DW_F_MANY_OPT(dw_shop_file, standard_batches, &dw_standard_batch_noun, 12,
                  "the sizes the shop likes"),
    DW_F_MANY_OPT(dw_shop_file, outlets, &dw_outlet_noun, 1000,
                  "shops that get dough"),
    DW_F_MANY_OPT(dw_shop_file, materials, &dw_material_noun, 2000,
                  "what goes into dough"),
    DW_F_MANY_OPT(dw_shop_file, formulas, &dw_formula_file_shape, 500,
                  "formulas"),
    DW_F_MANY_OPT(dw_shop_file, products, &product_shape, 1000,
                  "pieces the shop makes"),
};
const dw_shape dw_shop_file_shape =
    DW_SHAPE("shop_file", dw_shop_file, shop_fields, "a shop, whole, by names");
