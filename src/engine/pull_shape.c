/* The shapes of pull.h. */
#include "doughwright/pull.h"

static const dw_field lot_fields[] = {
    DW_F_ID(dw_pull_lot, stack_id, "which stack"),
    DW_F_WHOLE(dw_pull_lot, balls, "", 0, 1e6, "in the cold"),
    DW_F_MOMENT(dw_pull_lot, ready_ms, "not opened before; 0: ready"),
    DW_F_WHOLE_OPT(dw_pull_lot, end_ms, "ms", 0, 9007199254740991.0,
                   "past from then"),
};
static const dw_shape lot_shape = DW_SHAPE("pull_lot", dw_pull_lot, lot_fields,
                                           "balls in the cold, of one age");

static const dw_field out_fields[] = {
    DW_F_WHOLE(dw_pull_out, balls, "", 0, 1e6, "out of the cold"),
    DW_F_MOMENT(dw_pull_out, usable_ms, "tempered from then"),
    DW_F_MOMENT(dw_pull_out, end_ms, "past from then"),
};
static const dw_shape out_shape =
    DW_SHAPE("pull_out", dw_pull_out, out_fields, "balls that are out already");

static const dw_field plan_fields[] = {
    DW_F_MOMENT(dw_pull_plan, start_ms, "the first slot begins"),
    DW_F_REAL_PRESET(dw_pull_plan, slot_minutes, "min", 5, 240, 60,
                     "length of a slot"),
    {"wanted", DW_REALS, true, "", 0, 1e5, 0, offsetof(dw_pull_plan, wanted),
     DW_NOWHERE, offsetof(dw_pull_plan, wanted_count), NULL, NULL,
     "mean balls in each slot"},
    DW_F_REAL_PRESET(dw_pull_plan, day_sd_percent, "percent", 0, 100, 15,
                     "how far a whole day is from its mean"),
    DW_F_WHOLE_OPT(dw_pull_plan, now_ms, "ms", 0, 9007199254740991.0,
                   "nothing is pulled before"),
    DW_F_REAL_PRESET(dw_pull_plan, step_minutes, "min", 5, 240, 30,
                     "between pulls"),
    DW_F_REAL(dw_pull_plan, temper_h, "h", 0, 24, "out of the cold to usable"),
    DW_F_REAL(dw_pull_plan, bench_h, "h", 0.1, 72, "out of the cold to past"),
    DW_F_WHOLE(dw_pull_plan, balls_per_box, "", 1, 200, "in a box"),
    DW_F_MANY(dw_pull_plan, lots, &lot_shape, 0, DW_PULL_LOTS_MOST,
              "in the order they are to be used"),
    DW_F_MANY_OPT(dw_pull_plan, out, &out_shape, 200, "out already"),
    DW_F_REAL_OPT(dw_pull_plan, enough, "", 0.5, 0.999,
                  "how sure to be between two pulls; else the cheapest"),
    DW_F_WHOLE_PRESET(dw_pull_plan, days_sampled, "", 0, 1000, 120,
                      "on which it is judged"),
    DW_F_REAL_PRESET(dw_pull_plan, short_cost, "", 0, 1e9, 13,
                     "of a ball short, against one wasted"),
    DW_F_REAL_PRESET(dw_pull_plan, over_cost, "", 0, 1e9, 1,
                     "of a ball wasted"),
};
const dw_shape dw_pull_plan_shape = DW_SHAPE(
    "pull_plan", dw_pull_plan, plan_fields, "what is wanted, and what is cold");

static const dw_field row_fields[] = {
    DW_F_MOMENT(dw_pull_row, at_ms, "take out then"),
    DW_F_WHOLE(dw_pull_row, have_out, "", 0, 1e9,
               "balls to be out then, tempering ones included"),
    DW_F_WHOLE(dw_pull_row, lot, "", 0, DW_PULL_LOTS_MOST, "from which lot"),
    DW_F_ID(dw_pull_row, stack_id, "from which stack"),
    DW_F_WHOLE(dw_pull_row, boxes, "", 0, 1e6, "on a mean day"),
    DW_F_WHOLE(dw_pull_row, balls, "", 0, 1e6, "in them"),
    DW_F_MOMENT(dw_pull_row, usable_ms, "tempered from then"),
    DW_F_MOMENT(dw_pull_row, end_ms, "past from then"),
};
static const dw_shape row_shape =
    DW_SHAPE("pull_row", dw_pull_row, row_fields, "boxes that come out");

static const dw_field sheet_fields[] = {
    DW_F_MANY(dw_pull_sheet, rows, &row_shape, 0, 1000, "by time"),
    DW_F_REAL(dw_pull_sheet, wanted, "", 0, 1e9, "mean balls to come"),
    DW_F_WHOLE(dw_pull_sheet, pulled, "", 0, 1e9, "on a mean day"),
    DW_F_WHOLE(dw_pull_sheet, lacking, "", 0, 1e9,
               "the most that a row calls for and no lot has"),
    DW_F_REAL(dw_pull_sheet, enough, "", 0, 1, "how sure it is made to be"),
    DW_F_REAL(dw_pull_sheet, most_enough, "", 0, 1,
              "how sure not to run out before all is past; limits the rows"),
    DW_F_REAL(dw_pull_sheet, unserved, "", 0, 1e9, "balls, mean of days"),
    DW_F_REAL(dw_pull_sheet, expired, "", 0, 1e9, "balls, mean of days"),
    DW_F_REAL(dw_pull_sheet, left, "", 0, 1e9, "out at the end, mean of days"),
    DW_F_YES(dw_pull_sheet, late, false,
             "wanted before a ball can be tempered"),
};
const dw_shape dw_pull_sheet_shape = DW_SHAPE(
    "pull_sheet", dw_pull_sheet, sheet_fields, "which boxes come out when");
