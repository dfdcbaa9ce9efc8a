#include "store/nouns.h"

/* Bounds that several rows share. Days reach from 1970 to the year 2200. */
#define DAY_LAST 84000
#define MINUTE_LAST 2880

const char *const dw_unit_words[] = {"us", "metric", NULL};
const char *const dw_lang_words[] = {"en", "es", NULL};
const char *const dw_role_words[] = {"dough_maker",  "shift_lead", "manager",
                                     "technologist", "reader",     NULL};
const char *const dw_form_words[] = {
    "ball", "panned", "sheet", "opened_skin", "par_baked", "frozen", NULL};
const char *const dw_holding_words[] = {"offset_boxes", "bagged_pan",
                                        "single_bags", "covered_rack", NULL};

#define NOUN(table, type, about)                                               \
    const dw_shape dw_##table##_noun =                                         \
        DW_SHAPE(#table, type, table##_fields, about)

static const dw_field shop_fields[] = {
    DW_F_ID(dw_shop, id, "always 1"),
    DW_F_TEXT(dw_shop, name, 80, "what people call the place"),
    DW_F_TEXT(dw_shop, zone, 60, "IANA time zone"),
    DW_F_WHOLE_PRESET(dw_shop, cutover_minutes, "min", 0, 720, 240,
                      "the business day ends this long after midnight"),
    DW_F_CHOICE_PRESET(dw_shop, units, dw_unit_words, 0, "units people see"),
    DW_F_CHOICE_PRESET(dw_shop, lang, dw_lang_words, 0, "language"),
    DW_F_TEXT(dw_shop, currency, 3, "ISO 4217 code"),
    DW_F_REAL_PRESET(dw_shop, dough_goal_c, "degC", 5, 45, 25,
                     "wanted dough temperature when a formula names none"),
    DW_F_WHOLE_PRESET(dw_shop, hands, "", 1, 40, 2, "people at the bench"),
    DW_F_REAL_PRESET(dw_shop, balls_per_minute, "1/min", 0.2, 60, 4,
                     "balls one pair of hands makes in a minute"),
    DW_F_REAL_PRESET(dw_shop, bench_minutes, "min", 5, 120, 20,
                     "longest time from mixer to the last box"),
    DW_F_REAL_PRESET(dw_shop, ball_loss_percent, "percent", 0, 20, 1,
                     "dough that never becomes a ball"),
    DW_F_REAL_PRESET(dw_shop, bowl_residue_kg, "kg", 0, 10, 0.1,
                     "dough that stays in the bowl"),
    DW_F_REAL_PRESET(dw_shop, release_oil_kg, "kg", 0, 1, 0.03,
                     "oil down the bowl side, outside the percentages"),
    DW_F_REAL_PRESET(dw_shop, close_core_low_c, "degC", 2, 25, 10,
                     "close the stack when the core is between this"),
    DW_F_REAL_PRESET(dw_shop, close_core_high_c, "degC", 2, 25, 12.8,
                     "and this"),
    DW_F_REAL_PRESET(dw_shop, open_h_w_per_m2_k, "W/m2K", 1, 60, 8,
                     "heat transfer of an open offset stack"),
    DW_F_WHOLE_PRESET(dw_shop, ready_day, "d", 0, 30, 1, "first day of use"),
    DW_F_WHOLE_PRESET(dw_shop, best_day, "d", 0, 30, 2, "best day"),
    DW_F_WHOLE_PRESET(dw_shop, use_first_day, "d", 0, 60, 3,
                      "day from which it is used before all other"),
    DW_F_WHOLE_PRESET(dw_shop, last_day, "d", 0, 60, 3, "last day of use"),
    DW_F_REAL_PRESET(dw_shop, bench_life_h, "h", 0.25, 24, 3,
                     "how long a ball lasts out of the cold"),
    DW_F_REAL_PRESET(dw_shop, yeast_active_dry_ratio, "", 0.2, 1, 0.45,
                     "active dry yeast for one part of fresh"),
    DW_F_REAL_PRESET(dw_shop, yeast_instant_ratio, "", 0.1, 1, 0.35,
                     "instant yeast for one part of fresh"),
};
NOUN(shop, dw_shop, "what is the same for every batch");

static const dw_field person_fields[] = {
    DW_F_ID(dw_person, id, "who"),
    DW_F_TEXT(dw_person, name, 60, "as called in the kitchen"),
    DW_F_CHOICE_PRESET(dw_person, role, dw_role_words, 0, "what they do"),
    DW_F_CHOICE_PRESET(dw_person, lang, dw_lang_words, 0, "their language"),
    DW_F_CHOICE_PRESET(dw_person, units, dw_unit_words, 0, "their units"),
    DW_F_YES(dw_person, here, true, "still works here"),
};
NOUN(person, dw_person, "somebody who makes dough");

static const dw_field mixer_fields[] = {
    DW_F_ID(dw_mixer_row, id, "which mixer"),
    DW_F_TEXT(dw_mixer_row, name, 60, "what people call it"),
    DW_F_CHOICE_PRESET(dw_mixer_row, kind, dw_mixer_kind_words, 0, "its kind"),
    DW_F_CHOICE_PRESET(dw_mixer_row, duty, dw_mixer_duty_words, 0,
                       "light or heavy duty"),
    DW_F_REAL_PRESET(dw_mixer_row, bowl_litres, "L", 0, 1000, 0,
                     "bowl size; 0 when unknown"),
    DW_F_REAL_PRESET(dw_mixer_row, bowl_kg, "kg", 0, 500, 15, "empty bowl"),
    DW_F_YES(dw_mixer_row, second_speed, true, "has a second speed"),
    DW_F_REAL_OPT(dw_mixer_row, min_dough_kg, "kg", 0, 1000,
                  "least dough it mixes well"),
    DW_F_TEXT_OPT(dw_mixer_row, plate_note, 200,
                  "where its own limits were read"),
    DW_F_REAL_PRESET(dw_mixer_row, minutes_run, "min", 0, 1e9, 0,
                     "counted by the mix cards"),
    DW_F_YES(dw_mixer_row, here, true, "still in use"),
};
NOUN(mixer, dw_mixer_row, "a mixer");

static const dw_field mixer_limit_fields[] = {
    DW_F_ID(dw_mixer_limit_row, id, "row"),
    DW_F_ID(dw_mixer_limit_row, mixer_id, "which mixer"),
    DW_F_ONE(dw_mixer_limit_row, rating, &dw_mixer_rating_shape,
             "most dough at an absorption"),
};
NOUN(mixer_limit, dw_mixer_limit_row, "a limit from the plate or manual");

static const dw_field scale_fields[] = {
    DW_F_ID(dw_scale_row, id, "which scale"),
    DW_F_TEXT(dw_scale_row, name, 60, "where it stands"),
    DW_F_REAL(dw_scale_row, capacity_kg, "kg", 0.01, 2000, "most it weighs"),
    DW_F_REAL(dw_scale_row, division_kg, "kg", 0.00001, 5,
              "smallest step it shows"),
    DW_F_YES(dw_scale_row, here, true, "still in use"),
};
NOUN(scale, dw_scale_row, "a scale");

static const dw_field box_type_fields[] = {
    DW_F_ID(dw_box_type, id, "which box"),
    DW_F_TEXT(dw_box_type, name, 60, "what people call it"),
    DW_F_REAL(dw_box_type, length_m, "m", 0.1, 2, "outer length"),
    DW_F_REAL(dw_box_type, width_m, "m", 0.1, 2, "outer width"),
    DW_F_WHOLE_PRESET(dw_box_type, owned, "", 0, 100000, 0, "how many"),
};
NOUN(box_type, dw_box_type, "a kind of dough box");

static const dw_field cold_room_fields[] = {
    DW_F_ID(dw_cold_room, id, "which room"),
    DW_F_TEXT(dw_cold_room, name, 60, "what people call it"),
    DW_F_REAL_PRESET(dw_cold_room, air_c, "degC", -30, 20, 3, "usual air"),
    DW_F_WHOLE_PRESET(dw_cold_room, box_slots, "", 0, 100000, 0,
                      "boxes it holds closed"),
    DW_F_REAL_PRESET(dw_cold_room, capacity_w, "W", 0, 1e6, 0,
                     "cooling capacity; 0 when unknown"),
};
NOUN(cold_room, dw_cold_room, "a cold room");

static const dw_field opening_fields[] = {
    DW_F_ID(dw_opening, id, "row"),
    DW_F_WHOLE(dw_opening, weekday, "", 0, 6, "0 Monday to 6 Sunday"),
    DW_F_WHOLE(dw_opening, opens_minute, "min", 0, MINUTE_LAST, "first in"),
    DW_F_WHOLE(dw_opening, leaves_minute, "min", 0, MINUTE_LAST, "last out"),
};
NOUN(opening, dw_opening, "when somebody is in the shop");

static const dw_field standard_batch_fields[] = {
    DW_F_ID(dw_standard_batch, id, "row"),
    DW_F_WHOLE_PRESET(dw_standard_batch, position, "", 0, 100, 0, "order"),
    DW_F_TEXT(dw_standard_batch, name, 60, "what people call it"),
    DW_F_REAL(dw_standard_batch, flour_kg, "kg", 0.1, 1000, "its flour"),
};
NOUN(standard_batch, dw_standard_batch, "a batch size the shop likes");

static const dw_field outlet_fields[] = {
    DW_F_ID(dw_outlet, id, "which shop"),
    DW_F_TEXT(dw_outlet, name, 60, "what people call it"),
    DW_F_WHOLE_OPT(dw_outlet, promised_days, "d", 0, 60,
                   "its balls have left at least, when they come"),
};
NOUN(outlet, dw_outlet, "a shop that gets dough");

static const dw_field material_fields[] = {
    DW_F_ID(dw_material, id, "which material"),
    DW_F_TEXT(dw_material, name, 60, "what people call it"),
    DW_F_CHOICE(dw_material, kind, dw_line_kind_words, "what it does"),
    DW_F_REAL_OPT(dw_material, water_percent, "percent", 0, 100,
                  "water in it, of its weight"),
    DW_F_REAL_OPT(dw_material, protein_percent, "percent", 0, 100,
                  "protein in it, of its weight as it is"),
    DW_F_REAL_OPT(dw_material, pack_kg, "kg", 0.001, 2000, "one bag or pack"),
    DW_F_WHOLE_PRESET(dw_material, pack_price, "minor units", 0, 1e9, 0,
                      "price of a pack"),
    DW_F_TEXT_OPT(dw_material, allergens, 120, "as they stand on the label"),
    DW_F_WHOLE_OPT(dw_material, lead_days, "d", 0, 60,
                   "from the order to the shelf"),
    DW_F_WHOLE_OPT(dw_material, keep_days, "d", 1, 1000,
                   "it is used within, once here"),
    DW_F_YES(dw_material, here, true, "still in use"),
};
NOUN(material, dw_material, "something that goes into dough");

static const dw_field material_lot_fields[] = {
    DW_F_ID(dw_material_lot, id, "which lot"),
    DW_F_ID(dw_material_lot, material_id, "of what"),
    DW_F_TEXT(dw_material_lot, code, 40, "as printed on the bag"),
    DW_F_TEXT_OPT(dw_material_lot, supplier, 80, "who sent it"),
    DW_F_MOMENT(dw_material_lot, received_ms, "when it came"),
    DW_F_WHOLE_PRESET(dw_material_lot, best_before_day, "d", 0, DAY_LAST, 0,
                      "0 when not printed"),
    DW_F_REAL_PRESET(dw_material_lot, water_correction_percent, "percent", -15,
                     15, 0, "water this lot wants beside the formula's"),
    DW_F_REAL_OPT(dw_material_lot, kg, "kg", 0, 100000, "received"),
    DW_F_WHOLE_OPT(dw_material_lot, packs, "", 0, 100000, "bags or packs"),
    DW_F_REAL_OPT(dw_material_lot, received_c, "degC", -40, 60, "at the door"),
    DW_F_REAL_PRESET(dw_material_lot, wasted_kg, "kg", 0, 100000, 0,
                     "thrown away or sent back"),
    DW_F_ID(dw_material_lot, source_batch_id,
            "scrap or preferment of that batch; 0: it was bought"),
    DW_F_TEXT_OPT(dw_material_lot, carrier, 80, "who brought it"),
    DW_F_TEXT_OPT(dw_material_lot, note, 400, "what was seen"),
    DW_F_YES(dw_material_lot, open, true, "in use"),
};
NOUN(material_lot, dw_material_lot, "a lot of a material");

static const dw_field formula_fields[] = {
    DW_F_ID(dw_formula_row, id, "which formula"),
    DW_F_TEXT(dw_formula_row, name, 80, "what the shop calls it"),
    DW_F_CHOICE_PRESET(dw_formula_row, style, dw_style_words, 0,
                       "decides what is usual"),
    DW_F_CHOICE_PRESET(dw_formula_row, process, dw_process_words, 0,
                       "decides what is usual"),
    DW_F_YES(dw_formula_row, here, true, "still in use"),
};
NOUN(formula, dw_formula_row, "a formula of the shop");

static const dw_field formula_version_fields[] = {
    DW_F_ID(dw_formula_version, id, "which version"),
    DW_F_ID(dw_formula_version, formula_id, "of which formula"),
    DW_F_WHOLE_PRESET(dw_formula_version, number, "", 1, 100000, 1, "1, 2..."),
    DW_F_TEXT_OPT(dw_formula_version, note, 400, "why it changed"),
    DW_F_MOMENT(dw_formula_version, made_ms, "when"),
    DW_F_ID(dw_formula_version, person_id, "by whom"),
    DW_F_REAL_PRESET(dw_formula_version, dough_goal_c, "degC", 5, 45, 25,
                     "wanted dough temperature"),
    DW_F_YES(dw_formula_version, used, false, "a batch was made from it"),
    DW_F_YES(dw_formula_version, slips_accepted, false,
             "somebody saw its slips and kept it"),
};
NOUN(formula_version, dw_formula_version, "a version, fixed once used");

static const dw_field formula_line_fields[] = {
    DW_F_ID(dw_formula_line_row, id, "row"),
    DW_F_ID(dw_formula_line_row, version_id, "of which version"),
    DW_F_WHOLE_PRESET(dw_formula_line_row, stage_position, "", 0, 20, 0,
                      "0: the total formula"),
    DW_F_WHOLE_PRESET(dw_formula_line_row, position, "", 0, 200, 0, "order"),
    DW_F_ONE(dw_formula_line_row, line, &dw_line_shape, "the ingredient"),
};
NOUN(formula_line, dw_formula_line_row, "an ingredient of a version");

static const dw_field formula_stage_fields[] = {
    DW_F_ID(dw_formula_stage_row, id, "row"),
    DW_F_ID(dw_formula_stage_row, version_id, "of which version"),
    DW_F_WHOLE_PRESET(dw_formula_stage_row, position, "", 1, 20, 1, "1, 2..."),
    DW_F_TEXT(dw_formula_stage_row, name, 60, "what people call it"),
    DW_F_CHOICE(dw_formula_stage_row, kind, dw_stage_kind_words, "its kind"),
    DW_F_REAL(dw_formula_stage_row, flour_percent, "percent", 0, 100,
              "of the total flour"),
};
NOUN(formula_stage, dw_formula_stage_row, "a preferment of a version");

static const dw_field procedure_step_fields[] = {
    DW_F_ID(dw_procedure_step_row, id, "row"),
    DW_F_ID(dw_procedure_step_row, version_id, "of which version"),
    DW_F_WHOLE_PRESET(dw_procedure_step_row, position, "", 0, 500, 0, "order"),
    DW_F_ONE(dw_procedure_step_row, step, &dw_step_shape, "what is done"),
};
NOUN(procedure_step, dw_procedure_step_row, "a step of a version");

static const dw_field product_fields[] = {
    DW_F_ID(dw_product, id, "which product"),
    DW_F_WHOLE_PRESET(dw_product, position, "", 0, 1000, 0, "order on lists"),
    DW_F_TEXT(dw_product, name, 60, "what people call it"),
    DW_F_ID(dw_product, formula_id, "made from"),
    DW_F_ID(dw_product, box_type_id, "kept in"),
    DW_F_REAL(dw_product, ball_kg, "kg", 0.02, 5, "weight of a piece"),
    DW_F_WHOLE_PRESET(dw_product, balls_per_box, "", 1, 200, 6, "in a box"),
    DW_F_CHOICE_PRESET(dw_product, form, dw_form_words, 0, "what it is"),
    DW_F_CHOICE_PRESET(dw_product, holding, dw_holding_words, 0,
                       "how it is held"),
    DW_F_WHOLE_OPT(dw_product, ready_day, "d", 0, 30, "first day of use"),
    DW_F_WHOLE_OPT(dw_product, best_day, "d", 0, 30, "best day"),
    DW_F_WHOLE_OPT(dw_product, use_first_day, "d", 0, 60,
                   "day from which it is used first"),
    DW_F_WHOLE_OPT(dw_product, last_day, "d", 0, 60, "last day of use"),
    DW_F_YES(dw_product, here, true, "still made"),
};
NOUN(product, dw_product, "a piece the shop makes");

static const dw_field build_to_fields[] = {
    DW_F_ID(dw_build_to, id, "row"),
    DW_F_ID(dw_build_to, product_id, "of what"),
    DW_F_WHOLE(dw_build_to, weekday, "", 0, 6, "0 Monday to 6 Sunday"),
    DW_F_WHOLE(dw_build_to, balls, "", 0, 100000, "to have that morning"),
};
NOUN(build_to, dw_build_to, "how many to have on a weekday");

static const dw_field sale_fields[] = {
    DW_F_ID(dw_sale, id, "row"),
    DW_F_ID(dw_sale, outlet_id, "where"),
    DW_F_ID(dw_sale, product_id, "of what"),
    DW_F_WHOLE(dw_sale, day, "d", 0, DAY_LAST, "when"),
    DW_F_WHOLE(dw_sale, balls, "", 0, 100000, "how many"),
    DW_F_YES(dw_sale, sold_out, false, "then the number is at least"),
};
NOUN(sale, dw_sale, "balls used on a day");

static const dw_field count_taken_fields[] = {
    DW_F_ID(dw_count_row, id, "which count"),
    DW_F_WHOLE(dw_count_row, day, "d", 0, DAY_LAST, "business day"),
    DW_F_MOMENT(dw_count_row, at_ms, "when"),
    DW_F_ID(dw_count_row, person_id, "by whom"),
};
NOUN(count_taken, dw_count_row, "a count of the balls left");

static const dw_field count_line_fields[] = {
    DW_F_ID(dw_count_line, id, "row"),
    DW_F_ID(dw_count_line, count_id, "of which count"),
    DW_F_ID(dw_count_line, product_id, "of what"),
    DW_F_WHOLE(dw_count_line, mixing_day, "d", 0, DAY_LAST, "made when"),
    DW_F_WHOLE(dw_count_line, balls, "", 0, 100000, "how many"),
};
NOUN(count_line, dw_count_line, "balls of one product and mixing day");
