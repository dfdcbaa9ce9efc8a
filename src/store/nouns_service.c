#include "store/nouns.h"

#include "doughwright/allot.h"

#define DAY_LAST 84000
#define MINUTE_LAST 2880

const char *const dw_run_down_words[] = {"pull_sheet", "taps", NULL};

#define NOUN(table, type, about)                                               \
    const dw_shape dw_##table##_noun =                                         \
        DW_SHAPE(#table, type, table##_fields, about)

static const dw_field service_fields[] = {
    DW_F_ID(dw_service, id, "always 1"),
    DW_F_CHOICE_PRESET(dw_service, run_down, dw_run_down_words, 0,
                       "what stock goes by between two counts"),
    DW_F_REAL_PRESET(dw_service, pull_step_minutes, "min", 5, 240, 30,
                     "between two pulls"),
    DW_F_REAL_PRESET(dw_service, day_sd_percent, "percent", 0, 100, 15,
                     "how far a day is from what was expected"),
    DW_F_REAL_PRESET(dw_service, short_cost_balls, "", 0.1, 1000, 13,
                     "what a ball short costs, in balls thrown away"),
    DW_F_CHOICE_PRESET(dw_service, short_rule, dw_allot_rule_words, 0,
                       "which shop is short first"),
    DW_F_WHOLE_PRESET(dw_service, promised_days, "d", 0, 60, 1,
                      "balls sent out have left at least"),
    DW_F_REAL_PRESET(dw_service, door_most_c, "degC", -20, 30, 7,
                     "dough at a shop's door, at most"),
    DW_F_WHOLE_PRESET(dw_service, buy_days, "d", 1, 60, 14,
                      "days that a purchase is to last"),
};
NOUN(service, dw_service, "how the shop serves, sends and buys");

static const dw_field shift_fields[] = {
    DW_F_ID(dw_shift, id, "row"),
    DW_F_WHOLE(dw_shift, person_id, "", 1, 9007199254740991.0, "who"),
    DW_F_WHOLE(dw_shift, weekday, "", 0, 6, "0 Monday to 6 Sunday"),
    DW_F_WHOLE(dw_shift, from_minute, "min", 0, 1439, "after midnight"),
    DW_F_WHOLE(dw_shift, to_minute, "min", 1, MINUTE_LAST,
               "after midnight; over 1440: the night after"),
};
NOUN(shift, dw_shift, "when somebody works, week after week");

static const dw_field shift_change_fields[] = {
    DW_F_ID(dw_shift_change, id, "row"),
    DW_F_WHOLE(dw_shift_change, day, "d", 1, DAY_LAST, "on which day"),
    DW_F_ID(dw_shift_change, person_id, "who; 0: the whole shop"),
    DW_F_YES(dw_shift_change, here, false, "false: not there that day"),
    DW_F_WHOLE_PRESET(dw_shift_change, from_minute, "min", 0, 1439, 0,
                      "when here: from"),
    DW_F_WHOLE_PRESET(dw_shift_change, to_minute, "min", 0, MINUTE_LAST, 0,
                      "when here: to"),
    DW_F_TEXT_OPT(dw_shift_change, note, 200, "a holiday, ill, swapped"),
};
NOUN(shift_change, dw_shift_change, "a day that is not as every week");

static const dw_field drop_day_fields[] = {
    DW_F_ID(dw_drop_day, id, "row"),
    DW_F_WHOLE(dw_drop_day, outlet_id, "", 1, 9007199254740991.0, "to whom"),
    DW_F_WHOLE(dw_drop_day, weekday, "", 0, 6, "0 Monday to 6 Sunday"),
    DW_F_WHOLE(dw_drop_day, at_minute, "min", 0, 1439, "after midnight"),
    DW_F_WHOLE_PRESET(dw_drop_day, cutoff_minutes, "min", 0, 14400, 1080,
                      "orders close this long before"),
};
NOUN(drop_day, dw_drop_day, "a drop that comes every week");

static const dw_field outlet_order_fields[] = {
    DW_F_ID(dw_outlet_order, id, "which order"),
    DW_F_ID(dw_outlet_order, outlet_id, "from whom"),
    DW_F_WHOLE(dw_outlet_order, day, "d", 0, DAY_LAST, "for the drop of"),
    DW_F_MOMENT(dw_outlet_order, placed_ms, "when"),
    DW_F_YES(dw_outlet_order, late, false, "after the cut-off"),
    DW_F_ID(dw_outlet_order, person_id, "by whom"),
    DW_F_TEXT_OPT(dw_outlet_order, note, 200, "in words"),
};
NOUN(outlet_order, dw_outlet_order, "what a shop wants of a drop");

static const dw_field outlet_order_line_fields[] = {
    DW_F_ID(dw_outlet_order_line, id, "row"),
    DW_F_ID(dw_outlet_order_line, order_id, "of which order"),
    DW_F_ID(dw_outlet_order_line, product_id, "of what"),
    DW_F_WHOLE(dw_outlet_order_line, balls, "", 0, 100000, "how many"),
};
NOUN(outlet_order_line, dw_outlet_order_line, "balls that a shop ordered");

static const dw_field drop_made_fields[] = {
    DW_F_ID(dw_drop_made, id, "which drop"),
    DW_F_WHOLE(dw_drop_made, day, "d", 0, DAY_LAST, "on which day"),
    DW_F_ID(dw_drop_made, outlet_id, "to whom"),
    DW_F_MOMENT(dw_drop_made, loaded_ms, "it left"),
    DW_F_MOMENT(dw_drop_made, arrived_ms, "it was handed over"),
    DW_F_REAL_OPT(dw_drop_made, door_c, "degC", -30, 40, "dough at the door"),
    DW_F_ID(dw_drop_made, person_id, "who loaded it"),
    DW_F_TEXT_OPT(dw_drop_made, note, 400, "in words"),
};
NOUN(drop_made, dw_drop_made, "a drop that went out");

static const dw_field drop_line_fields[] = {
    DW_F_ID(dw_drop_line, id, "row"),
    DW_F_ID(dw_drop_line, drop_id, "of which drop"),
    DW_F_ID(dw_drop_line, product_id, "of what"),
    DW_F_ID(dw_drop_line, stack_id, "from which stack; 0: not known"),
    DW_F_WHOLE(dw_drop_line, mixing_day, "d", 0, DAY_LAST, "made when"),
    DW_F_WHOLE(dw_drop_line, balls, "", 0, 100000, "sent"),
    DW_F_WHOLE(dw_drop_line, boxes, "", 0, 10000, "they are in"),
    DW_F_WHOLE_PRESET(dw_drop_line, refused, "", 0, 100000, 0,
                      "balls refused at the door"),
    DW_F_YES(dw_drop_line, credited, false, "and credited"),
    DW_F_TEXT_OPT(dw_drop_line, reason, 200, "why they were refused"),
};
NOUN(drop_line, dw_drop_line, "balls of one stack on a drop");

static const dw_field box_move_fields[] = {
    DW_F_ID(dw_box_move, id, "row"),
    DW_F_ID(dw_box_move, outlet_id, "whose"),
    DW_F_ID(dw_box_move, drop_id, "with which drop; 0: none"),
    DW_F_WHOLE_PRESET(dw_box_move, boxes_out, "", 0, 10000, 0, "went out full"),
    DW_F_WHOLE_PRESET(dw_box_move, boxes_back, "", 0, 10000, 0,
                      "came back empty"),
    DW_F_MOMENT(dw_box_move, occurred_ms, "when"),
    DW_F_ID(dw_box_move, person_id, "who counted them"),
};
NOUN(box_move, dw_box_move, "boxes between the shop and an outlet");

static const dw_field calendar_key_fields[] = {
    DW_F_ID(dw_calendar_key, id, "which subscription"),
    DW_F_TEXT(dw_calendar_key, key, 64, "in its address"),
    DW_F_ID(dw_calendar_key, outlet_id, "whose drops; 0: all of the shop"),
    DW_F_MOMENT(dw_calendar_key, made_ms, "when"),
    DW_F_ID(dw_calendar_key, person_id, "by whom"),
};
NOUN(calendar_key, dw_calendar_key, "a subscription to the calendar");
