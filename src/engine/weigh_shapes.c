#include "doughwright/weigh.h"

static const dw_field scale_fields[] = {
    DW_F_TEXT(dw_scale, name, 60, "which scale"),
    DW_F_REAL(dw_scale, capacity_kg, "kg", 0.001, 2000, "most it weighs"),
    DW_F_REAL(dw_scale, division_kg, "kg", 1e-6, 10, "its steps"),
};
const dw_shape dw_scale_shape =
    DW_SHAPE("weigh_scale", dw_scale, scale_fields, "a scale of the shop");

static const dw_field line_fields[] = {
    DW_F_TEXT(dw_weigh_line, material, 120, "what is weighed"),
    DW_F_CHOICE(dw_weigh_line, kind, dw_line_kind_words, "what it is"),
    DW_F_REAL(dw_weigh_line, kg, "kg", 0, 10000, "how much"),
    DW_F_REAL_OPT(dw_weigh_line, bag_kg, "kg", 0.01, 2000,
                  "whole bags of so much are not weighed"),
};
static const dw_shape line_shape =
    DW_SHAPE("weigh_line", dw_weigh_line, line_fields, "a line of a batch");

static const dw_field request_fields[] = {
    DW_F_MANY(dw_weigh_request, lines, &line_shape, 1, DW_WEIGH_LINES,
              "the batch"),
    DW_F_MANY(dw_weigh_request, scales, &dw_scale_shape, 1, DW_WEIGH_SCALES,
              "the shop's scales"),
    DW_F_REAL_PRESET(dw_weigh_request, tolerance_percent, "percent", 0.01, 20,
                     1, "doubt allowed on a line"),
};
const dw_shape dw_weigh_request_shape =
    DW_SHAPE("weigh_request", dw_weigh_request, request_fields,
             "a batch to be weighed on the shop's scales");

static const dw_field load_fields[] = {
    DW_F_WHOLE(dw_weigh_load, times, "", 1, 1e9, "how often"),
    DW_F_REAL(dw_weigh_load, kg, "kg", 0, 10000, "one load"),
};
const dw_shape dw_weigh_load_shape = DW_SHAPE(
    "weigh_load", dw_weigh_load, load_fields, "loads of the same weight");

static const dw_field row_fields[] = {
    DW_F_TEXT(dw_weigh_row, material, 120, "what is weighed"),
    DW_F_CHOICE(dw_weigh_row, kind, dw_line_kind_words, "what it is"),
    DW_F_REAL(dw_weigh_row, wanted_kg, "kg", 0, 10000, "by the formula"),
    DW_F_WHOLE(dw_weigh_row, bags, "", 0, 1e6, "whole bags, not weighed"),
    DW_F_REAL(dw_weigh_row, bag_kg, "kg", 0, 2000, "one bag"),
    DW_F_TEXT_OPT(dw_weigh_row, scale, 60, "which scale"),
    DW_F_MANY_OPT(dw_weigh_row, loads, &dw_weigh_load_shape, 2, "weights to be read"),
    DW_F_REAL(dw_weigh_row, weighed_kg, "kg", 0, 20000, "bags and loads"),
    DW_F_REAL(dw_weigh_row, rounding_kg, "kg", -10, 10, "weighed less wanted"),
    DW_F_REAL(dw_weigh_row, doubt_percent, "percent", 0, 1e9,
              "rounding and half a division for each load"),
};
static const dw_shape row_shape =
    DW_SHAPE("weigh_row", dw_weigh_row, row_fields, "how a line is weighed");

static const dw_field reply_fields[] = {
    DW_F_MANY(dw_weigh_reply, rows, &row_shape, 0, DW_WEIGH_LINES,
              "in the order given"),
    DW_F_REAL(dw_weigh_reply, minors_kg, "kg", 0, 1e6, "check before the bowl"),
    DW_F_REAL(dw_weigh_reply, dough_kg, "kg", 0, 1e6, "all that is weighed"),
    DW_F_MANY_OPT(dw_weigh_reply, notes, &dw_note_shape, DW_WEIGH_LINES,
                  "what to say"),
};
const dw_shape dw_weigh_reply_shape = DW_SHAPE(
    "weigh_reply", dw_weigh_reply, reply_fields, "the weighings and sums");

static const dw_field balance_request_fields[] = {
    DW_F_REAL(dw_weigh_balance_request, dough_kg, "kg", 0.01, 10000,
              "weighed in"),
    DW_F_REAL(dw_weigh_balance_request, balls_kg, "kg", 0, 10000, "balls"),
    DW_F_REAL_PRESET(dw_weigh_balance_request, scrap_kg, "kg", 0, 10000, 0,
                     "scrap"),
    DW_F_REAL_PRESET(dw_weigh_balance_request, residue_kg, "kg", 0, 1000, 0,
                     "what the bowl usually keeps"),
    DW_F_REAL_PRESET(dw_weigh_balance_request, tolerance_percent, "percent",
                     0.01, 20, 1, "of the dough"),
};
const dw_shape dw_weigh_balance_request_shape =
    DW_SHAPE("weigh_balance_request", dw_weigh_balance_request,
             balance_request_fields, "what came out of a batch");

static const dw_field balance_reply_fields[] = {
    DW_F_REAL(dw_weigh_balance_reply, missing_kg, "kg", -1e6, 1e6,
              "below 0 more came out than went in"),
    DW_F_REAL(dw_weigh_balance_reply, missing_percent, "percent", -1e9, 1e9,
              "of the dough"),
    DW_F_YES(dw_weigh_balance_reply, adds_up, false, "within the tolerance"),
    DW_F_MANY_OPT(dw_weigh_balance_reply, notes, &dw_note_shape, 1,
                  "what to say"),
};
const dw_shape dw_weigh_balance_reply_shape =
    DW_SHAPE("weigh_balance_reply", dw_weigh_balance_reply,
             balance_reply_fields, "does the batch add up");
