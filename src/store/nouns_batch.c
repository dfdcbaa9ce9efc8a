#include "store/nouns.h"

#define DAY_LAST 84000
#define MOST_KG 2000

const char *const dw_batch_state_words[] = {
    "planned", "mixing", "mixed", "boxed", "closed", "abandoned", NULL};
const char *const dw_reading_kind_words[] = {
    "flour_c", "room_c", "tap_c",  "water_c",       "bowl_c",
    "dough_c", "cold_c", "core_c", "yeast_water_c", NULL};
const char *const dw_change_kind_words[] = {
    "water",   "yeast_type", "lot",   "forgotten", "doubled",
    "sliding", "abandoned",  "other", NULL};
const char *const dw_move_kind_words[] = {
    "put_by",     "pull", "put_back",         "use",
    "throw_away", "send", "count_difference", NULL};
const char *const dw_verdict_words[] = {
    "good", "tight", "bubbles", "sticky", "blown", "not_looked", NULL};

#define NOUN(table, type, about)                                               \
    const dw_shape dw_##table##_noun =                                         \
        DW_SHAPE(#table, type, table##_fields, about)

static const dw_field batch_fields[] = {
    DW_F_ID(dw_batch_row, id, "which batch"),
    DW_F_WHOLE_PRESET(dw_batch_row, number, "", 0, 1e9, 0, "for people"),
    DW_F_ID(dw_batch_row, version_id, "formula version"),
    DW_F_ID(dw_batch_row, mixer_id, "on which mixer"),
    DW_F_ID(dw_batch_row, person_id, "who mixes"),
    DW_F_WHOLE_PRESET(dw_batch_row, day, "d", 0, DAY_LAST, 0,
                      "day it is mixed: day 0 of its balls"),
    DW_F_CHOICE_PRESET(dw_batch_row, state, dw_batch_state_words, 0,
                       "how far it is"),
    DW_F_MOMENT(dw_batch_row, planned_ms, "planned start of the mixer"),
    DW_F_REAL(dw_batch_row, flour_kg, "kg", 0, MOST_KG, "planned flour"),
    DW_F_REAL(dw_batch_row, dough_kg, "kg", 0, MOST_KG, "planned dough"),
    DW_F_REAL_PRESET(dw_batch_row, absorption_percent, "percent", 0, 300, 0,
                     "water in percent of flour, changes included"),
    DW_F_REAL_PRESET(dw_batch_row, dough_goal_c, "degC", 5, 45, 25,
                     "wanted dough temperature"),
    DW_F_REAL_OPT(dw_batch_row, water_c, "degC", -60, 100,
                  "liquid water as the card asked when it began"),
    DW_F_REAL_OPT(dw_batch_row, ice_kg, "kg", 0, MOST_KG,
                  "ice as the card asked when it began"),
    DW_F_ID(dw_batch_row, flour_lot_id, "whose water correction is in it"),
    DW_F_REAL_PRESET(dw_batch_row, lot_water_percent, "percent", -15, 15, 0,
                     "that correction, of flour"),
    DW_F_YES(dw_batch_row, bag_of_minors, false, "minors come as one bag"),
    DW_F_ID(dw_batch_row, minors_lot_id, "whose bag it took"),
    DW_F_MOMENT(dw_batch_row, started_ms, "first step"),
    DW_F_MOMENT(dw_batch_row, stopped_ms, "mixer stopped for the last time"),
    DW_F_MOMENT(dw_batch_row, first_box_ms, "first box in the cold room"),
    DW_F_MOMENT(dw_batch_row, last_box_ms, "last box in the cold room"),
    DW_F_MOMENT(dw_batch_row, close_due_ms, "close the stack, rule of thumb"),
    DW_F_MOMENT(dw_batch_row, closed_ms, "stack closed"),
    DW_F_REAL_PRESET(dw_batch_row, mixer_minutes, "min", 0, 10000, 0,
                     "mixing of the card"),
    DW_F_REAL_OPT(dw_batch_row, scrap_kg, "kg", 0, MOST_KG, "scrap left over"),
    DW_F_REAL_OPT(dw_batch_row, residue_kg, "kg", 0, MOST_KG,
                  "dough left in the bowl"),
    DW_F_REAL_OPT(dw_batch_row, work_j_per_kg_dough, "J/kg", -50000, 200000,
                  "mixing work it showed"),
    DW_F_REAL_OPT(dw_batch_row, sd_j_per_kg, "J/kg", 0, 200000,
                  "how well that is known"),
    DW_F_YES(dw_batch_row, on_paper, false, "entered from a sheet"),
    DW_F_MOMENT(dw_batch_row, entered_ms, "when it was entered"),
    DW_F_TEXT_OPT(dw_batch_row, note, 400, "what people wrote"),
};
NOUN(batch, dw_batch_row, "a batch, planned beside what came");

static const dw_field batch_piece_fields[] = {
    DW_F_ID(dw_batch_piece, id, "row"),
    DW_F_ID(dw_batch_piece, batch_id, "of which batch"),
    DW_F_ID(dw_batch_piece, product_id, "which product"),
    DW_F_WHOLE_PRESET(dw_batch_piece, position, "", 0, 100, 0, "order"),
    DW_F_REAL(dw_batch_piece, ball_kg, "kg", 0.02, 5, "weight of a ball"),
    DW_F_WHOLE(dw_batch_piece, balls_planned, "", 0, 100000, "how many"),
    DW_F_WHOLE_PRESET(dw_batch_piece, to_stock, "", 0, 100000, 0,
                      "of these, beyond what was asked"),
    DW_F_WHOLE_OPT(dw_batch_piece, balls_made, "", 0, 100000, "how many came"),
};
NOUN(batch_piece, dw_batch_piece, "what a batch is cut into");

static const dw_field batch_weighing_fields[] = {
    DW_F_ID(dw_batch_weighing, id, "row"),
    DW_F_ID(dw_batch_weighing, batch_id, "of which batch"),
    DW_F_WHOLE_PRESET(dw_batch_weighing, position, "", 0, 500, 0, "order"),
    DW_F_WHOLE_PRESET(dw_batch_weighing, stage_position, "", 0, 20, 0,
                      "0: the final mix"),
    DW_F_TEXT(dw_batch_weighing, material, 80, "what"),
    DW_F_CHOICE(dw_batch_weighing, kind, dw_line_kind_words, "what it does"),
    DW_F_ID(dw_batch_weighing, scale_id, "on which scale"),
    DW_F_WHOLE_PRESET(dw_batch_weighing, whole_bags, "", 0, 1000, 0,
                      "bags that are not weighed"),
    DW_F_REAL_PRESET(dw_batch_weighing, bag_kg, "kg", 0, MOST_KG, 0, "a bag"),
    DW_F_REAL(dw_batch_weighing, exact_kg, "kg", 0, MOST_KG, "by the formula"),
    DW_F_REAL(dw_batch_weighing, planned_kg, "kg", 0, MOST_KG,
              "what the scale can show, bags included"),
    DW_F_REAL_OPT(dw_batch_weighing, weighed_kg, "kg", 0, MOST_KG, "what came"),
    DW_F_ID(dw_batch_weighing, lot_id, "from which lot"),
    DW_F_MOMENT(dw_batch_weighing, at_ms, "when"),
    DW_F_ID(dw_batch_weighing, person_id, "by whom"),
};
NOUN(batch_weighing, dw_batch_weighing, "one weighing of the batch sheet");

static const dw_field batch_step_fields[] = {
    DW_F_ID(dw_batch_step, id, "row"),
    DW_F_ID(dw_batch_step, batch_id, "of which batch"),
    DW_F_WHOLE_PRESET(dw_batch_step, position, "", 0, 500, 0, "order"),
    DW_F_ONE(dw_batch_step, step, &dw_card_step_shape, "what is done"),
    DW_F_MOMENT(dw_batch_step, started_ms, "begun"),
    DW_F_MOMENT(dw_batch_step, done_ms, "done"),
    DW_F_ID(dw_batch_step, person_id, "by whom"),
    DW_F_YES(dw_batch_step, skipped, false, "passed over"),
    DW_F_TEXT_OPT(dw_batch_step, answer, 60, "to the step's question"),
};
NOUN(batch_step, dw_batch_step, "a step of the mix card");

static const dw_field reading_fields[] = {
    DW_F_ID(dw_reading_row, id, "row"),
    DW_F_ID(dw_reading_row, batch_id,
            "of which batch; 0: the shop's of the day"),
    DW_F_CHOICE(dw_reading_row, kind, dw_reading_kind_words, "what was read"),
    DW_F_REAL(dw_reading_row, celsius, "degC", -30, 110, "what it showed"),
    DW_F_MOMENT(dw_reading_row, occurred_ms, "when it was read"),
    DW_F_MOMENT(dw_reading_row, received_ms, "when it arrived"),
    DW_F_ID(dw_reading_row, person_id, "by whom"),
    DW_F_TEXT_OPT(dw_reading_row, device, 80, "on which tablet"),
    DW_F_ID(dw_reading_row, product_id, "of core_c: whose stack"),
};
/* Its shape's name is not its table's: what a batch says of the mixing work is
 * a "reading" as well (engine/learn.h), and the OpenAPI page names each once.
 */
const dw_shape dw_reading_noun =
    DW_SHAPE("temperature", dw_reading_row, reading_fields,
             "a temperature somebody read");

static const dw_field batch_change_fields[] = {
    DW_F_ID(dw_batch_change, id, "row"),
    DW_F_ID(dw_batch_change, batch_id, "of which batch"),
    DW_F_CHOICE(dw_batch_change, kind, dw_change_kind_words, "what was off"),
    DW_F_TEXT_OPT(dw_batch_change, material, 80, "with what"),
    DW_F_REAL_PRESET(dw_batch_change, kg, "kg", -MOST_KG, MOST_KG, 0,
                     "put in beside the plan; below 0 left out"),
    DW_F_CHOICE_OPT(dw_batch_change, to_kind, dw_line_kind_words,
                    "the yeast that went in instead"),
    DW_F_ID(dw_batch_change, lot_id, "the lot that went in instead"),
    DW_F_TEXT_OPT(dw_batch_change, note, 400, "in words"),
    DW_F_MOMENT(dw_batch_change, occurred_ms, "when"),
    DW_F_ID(dw_batch_change, person_id, "by whom"),
};
NOUN(batch_change, dw_batch_change, "something that was off");

static const dw_field stack_fields[] = {
    DW_F_ID(dw_stack, id, "which stack"),
    DW_F_ID(dw_stack, batch_id, "from which batch"),
    DW_F_ID(dw_stack, product_id, "of what"),
    DW_F_ID(dw_stack, cold_room_id, "where"),
    DW_F_WHOLE(dw_stack, mixing_day, "d", 0, DAY_LAST, "day 0"),
    DW_F_WHOLE(dw_stack, boxes, "", 0, 10000, "boxes"),
    DW_F_WHOLE(dw_stack, balls, "", 0, 100000, "balls put in"),
    DW_F_MOMENT(dw_stack, opened_ms, "open in the cold room since"),
    DW_F_MOMENT(dw_stack, close_due_ms, "close it"),
    DW_F_YES(dw_stack, close_by_life, false,
             "by the life of its balls, else by the trade's clock"),
    DW_F_MOMENT(dw_stack, closed_ms, "closed"),
    DW_F_WHOLE(dw_stack, ready_day, "d", 0, DAY_LAST, "first day of use"),
    DW_F_WHOLE(dw_stack, best_day, "d", 0, DAY_LAST, "best day"),
    DW_F_WHOLE(dw_stack, use_first_day, "d", 0, DAY_LAST, "then use first"),
    DW_F_WHOLE(dw_stack, last_day, "d", 0, DAY_LAST, "last day of use"),
};
NOUN(stack, dw_stack, "boxes of one product of one batch");

static const dw_field stack_move_fields[] = {
    DW_F_ID(dw_stack_move, id, "row"),
    DW_F_ID(dw_stack_move, stack_id, "which stack"),
    DW_F_CHOICE(dw_stack_move, kind, dw_move_kind_words, "what was done"),
    DW_F_WHOLE(dw_stack_move, balls, "", -100000, 100000,
               "balls taken; below 0 put back"),
    DW_F_YES(dw_stack_move, assumed, false, "worked out, not tapped"),
    DW_F_MOMENT(dw_stack_move, occurred_ms, "when"),
    DW_F_ID(dw_stack_move, person_id, "by whom"),
};
NOUN(stack_move, dw_stack_move, "what left a stack");

static const dw_field verdict_fields[] = {
    DW_F_ID(dw_verdict, id, "row"),
    DW_F_ID(dw_verdict, batch_id, "of which batch"),
    DW_F_ID(dw_verdict, product_id, "of which product"),
    DW_F_CHOICE(dw_verdict, verdict, dw_verdict_words, "how it was"),
    DW_F_MOMENT(dw_verdict, occurred_ms, "when"),
    DW_F_ID(dw_verdict, person_id, "by whom"),
    DW_F_TEXT_OPT(dw_verdict, note, 400, "in words"),
};
NOUN(verdict, dw_verdict, "how the dough was at first use");

static const dw_field minors_lot_fields[] = {
    DW_F_ID(dw_minors_lot, id, "which"),
    DW_F_ID(dw_minors_lot, version_id, "formula version"),
    DW_F_WHOLE_PRESET(dw_minors_lot, made_day, "d", 0, DAY_LAST, 0, "made"),
    DW_F_WHOLE_PRESET(dw_minors_lot, discard_day, "d", 0, DAY_LAST, 0,
                      "not used from this day on"),
    DW_F_WHOLE(dw_minors_lot, made, "", 1, 1000, "bags made"),
    DW_F_WHOLE_PRESET(dw_minors_lot, left_count, "", 0, 1000, 0, "bags left"),
    DW_F_REAL(dw_minors_lot, flour_kg, "kg", 0.1, MOST_KG,
              "flour of the batch one bag serves"),
    DW_F_REAL_PRESET(dw_minors_lot, diluent_kg, "kg", 0, 10, 0,
                     "of that flour, in the bag"),
    DW_F_REAL(dw_minors_lot, target_kg, "kg", 0, 100, "weight of a bag"),
    DW_F_REAL(dw_minors_lot, tolerance_kg, "kg", 0, 10, "plus or minus"),
    DW_F_TEXT_OPT(dw_minors_lot, lots, 400, "the lots that went in"),
    DW_F_ID(dw_minors_lot, person_id, "by whom"),
};
NOUN(minors_lot, dw_minors_lot, "bags of minors weighed ahead");

static const dw_field minors_part_fields[] = {
    DW_F_ID(dw_minors_part, id, "row"),
    DW_F_ID(dw_minors_part, minors_lot_id, "in which bags"),
    DW_F_ID(dw_minors_part, lot_id, "of which lot"),
    DW_F_REAL(dw_minors_part, kg, "kg", 0, 100000, "in all of them"),
};
NOUN(minors_part, dw_minors_part, "what went into bags of minors");

static const dw_field recall_drill_fields[] = {
    DW_F_ID(dw_recall_drill, id, "which drill"),
    DW_F_ID(dw_recall_drill, lot_id, "of which lot"),
    DW_F_ID(dw_recall_drill, batch_id, "or of which batch"),
    DW_F_MOMENT(dw_recall_drill, started_ms, "the clock began"),
    DW_F_MOMENT(dw_recall_drill, stopped_ms, "all was found; 0: it runs"),
    DW_F_ID(dw_recall_drill, person_id, "who searched"),
    DW_F_TEXT_OPT(dw_recall_drill, note, 400, "what was learned"),
};
NOUN(recall_drill, dw_recall_drill, "a recall, drilled against the clock");
