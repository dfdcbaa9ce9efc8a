#include "store/nouns.h"

const char *const dw_check_words[] = {"thermometer", "scale", "cold_room",
                                      "cleaning",    "other", NULL};

static const dw_field check_due_fields[] = {
    DW_F_ID(dw_check_due, id, "which check"),
    DW_F_CHOICE(dw_check_due, what, dw_check_words, "what is checked"),
    DW_F_TEXT(dw_check_due, name, 80, "in the shop's words"),
    DW_F_WHOLE(dw_check_due, every_days, "d", 1, 400, "how often"),
    DW_F_REAL_OPT(dw_check_due, lowest, "", -60, 1000,
                  "allowed; degC of thermometer and cold room, kg of a scale"),
    DW_F_REAL_OPT(dw_check_due, highest, "", -60, 1000, "allowed"),
    DW_F_MOMENT(dw_check_due, since_ms, "asked for since"),
    DW_F_YES(dw_check_due, stopped, false, "not asked for any more"),
};
const dw_shape dw_check_due_noun = DW_SHAPE(
    "check_due", dw_check_due, check_due_fields, "a check to do again");

static const dw_field check_done_fields[] = {
    DW_F_ID(dw_check_done, id, "row"),
    DW_F_ID(dw_check_done, check_id, "which check"),
    DW_F_REAL_OPT(dw_check_done, value, "", -60, 1000,
                  "as read; degC of thermometer and cold room, kg of a scale"),
    DW_F_YES(dw_check_done, within, true, "within its limits, or clean"),
    DW_F_TEXT_OPT(dw_check_done, action, 400, "what was done about it"),
    DW_F_MOMENT(dw_check_done, occurred_ms, "when"),
    DW_F_MOMENT(dw_check_done, received_ms, "when that arrived"),
    DW_F_ID(dw_check_done, person_id, "by whom"),
};
const dw_shape dw_check_done_noun = DW_SHAPE(
    "check_done", dw_check_done, check_done_fields, "a check that was done");
