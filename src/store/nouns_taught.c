#include "store/nouns.h"

const char *const dw_leave_words[] = {
    "reading", "verdict", "cup", "cup_reading", "stack", "yeast", "room", NULL};
const char *const dw_taught_words[] = {"offset_w_per_m2_k", "closed_w_per_m2_k",
                                       "activity",          "f_Tmin",
                                       "cold_ratio",        "air_c",
                                       "time_constant_h",   NULL};

#define NOUN(table, type, about)                                               \
    const dw_shape dw_##table##_noun =                                         \
        DW_SHAPE(#table, type, table##_fields, about)

static const dw_field cup_fields[] = {
    DW_F_ID(dw_cup, id, "which cup"),
    DW_F_ID(dw_cup, batch_id, "of which batch's dough"),
    DW_F_REAL(dw_cup, start_ml, "mL", 5, 5000, "dough in it at first"),
    DW_F_REAL(dw_cup, place_c, "degC", -30, 110, "where it stands"),
    DW_F_MOMENT(dw_cup, occurred_ms, "filled"),
    DW_F_MOMENT(dw_cup, received_ms, "when that arrived"),
    DW_F_ID(dw_cup, person_id, "by whom"),
    DW_F_TEXT_OPT(dw_cup, device, 80, "on which tablet"),
};
NOUN(cup, dw_cup, "a marked cup of a batch's dough");

static const dw_field cup_reading_fields[] = {
    DW_F_ID(dw_cup_reading, id, "row"),
    DW_F_ID(dw_cup_reading, cup_id, "of which cup"),
    DW_F_REAL(dw_cup_reading, volume_ml, "mL", 1, 50000, "up to which mark"),
    DW_F_REAL(dw_cup_reading, place_c, "degC", -30, 110,
              "where it stands from then on"),
    DW_F_MOMENT(dw_cup_reading, occurred_ms, "when it was looked at"),
    DW_F_MOMENT(dw_cup_reading, received_ms, "when that arrived"),
    DW_F_ID(dw_cup_reading, person_id, "by whom"),
    DW_F_TEXT_OPT(dw_cup_reading, device, 80, "on which tablet"),
};
NOUN(cup_reading, dw_cup_reading, "one look at a cup");

static const dw_field left_out_fields[] = {
    DW_F_ID(dw_left_out, id, "row"),
    DW_F_CHOICE(dw_left_out, what, dw_leave_words, "what is left out"),
    DW_F_ID(dw_left_out, of_id, "its row; 0 with a whole lesson"),
    DW_F_YES(dw_left_out, out, true, "false: taken back in"),
    DW_F_TEXT_OPT(dw_left_out, reason, 200, "in words"),
    DW_F_MOMENT(dw_left_out, occurred_ms, "when"),
    DW_F_ID(dw_left_out, person_id, "by whom"),
};
NOUN(left_out, dw_left_out, "something the shop must not learn from");

#define ANY 1e6
static const dw_field taught_fields[] = {
    DW_F_ID(dw_taught_row, id, "row"),
    DW_F_CHOICE(dw_taught_row, what, dw_taught_words, "which number"),
    DW_F_CHOICE_OPT(dw_taught_row, yeast, dw_line_kind_words, "of which yeast"),
    DW_F_ID(dw_taught_row, formula_id, "in which formula; 0: in any"),
    DW_F_ID(dw_taught_row, lot_id, "of which lot; 0: of any"),
    DW_F_REAL(dw_taught_row, prior_mean, "", -ANY, ANY, "without readings"),
    DW_F_REAL(dw_taught_row, prior_low, "", -ANY, ANY,
              "one in twenty lies below"),
    DW_F_REAL(dw_taught_row, prior_high, "", -ANY, ANY, "one above"),
    DW_F_REAL(dw_taught_row, mean, "", -ANY, ANY, "with them"),
    DW_F_REAL(dw_taught_row, low, "", -ANY, ANY, "one in twenty lies below"),
    DW_F_REAL(dw_taught_row, high, "", -ANY, ANY, "one above"),
    DW_F_WHOLE(dw_taught_row, used, "", 0, 1e9, "readings that count"),
    DW_F_WHOLE(dw_taught_row, doubted, "", 0, 1e9,
               "unlike the others, of little weight"),
    DW_F_WHOLE(dw_taught_row, refused, "", 0, 1e9, "that cannot be true"),
    DW_F_WHOLE(dw_taught_row, left_out, "", 0, 1e9, "by people"),
    DW_F_MOMENT(dw_taught_row, learned_ms, "when it was worked out"),
};
NOUN(taught, dw_taught_row, "a number that the shop's readings taught");
