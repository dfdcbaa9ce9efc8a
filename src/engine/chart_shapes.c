#include "doughwright/chart.h"

static const char *const kind_words[] = {"individuals", "averages", "ewma",
                                         "cusum", NULL};
const char *const dw_chart_rule_words[] = {
    "beyond",      "two_of_three", "four_of_five", "one_side", "rising",
    "alternating", "close_in",     "far_out",      "range",    NULL};

static const dw_field rules_fields[] = {
    DW_F_YES(dw_chart_rules, beyond, true, "one outside the limits"),
    DW_F_YES(dw_chart_rules, two_of_three, false,
             "two of three beyond 2 sigma on one side"),
    DW_F_YES(dw_chart_rules, four_of_five, false,
             "four of five beyond 1 sigma on one side"),
    DW_F_WHOLE_PRESET(dw_chart_rules, one_side, "", 0, 15, 0,
                      "so many in a row on one side; 0: not looked at"),
    DW_F_WHOLE_PRESET(dw_chart_rules, rising, "", 0, 15, 0,
                      "so many in a row rising, or falling"),
    DW_F_WHOLE_PRESET(dw_chart_rules, alternating, "", 0, 30, 0,
                      "so many in a row up and down"),
    DW_F_WHOLE_PRESET(dw_chart_rules, close_in, "", 0, 30, 0,
                      "so many in a row within 1 sigma"),
    DW_F_WHOLE_PRESET(dw_chart_rules, far_out, "", 0, 15, 0,
                      "so many in a row, none within 1 sigma"),
};
const dw_shape dw_chart_rules_shape =
    DW_SHAPE("chart_rules", dw_chart_rules, rules_fields, "what marks a point");

static const dw_field request_fields[] = {
    DW_F_CHOICE_PRESET(dw_chart_request, kind, kind_words, DW_CHART_INDIVIDUALS,
                       "what is plotted"),
    DW_F_REALS(dw_chart_request, values, "", -1e9, 1e9,
               "in the order they were read, at most 2000"),
    DW_F_WHOLE_PRESET(dw_chart_request, group_size, "", 2,
                      DW_CHART_GROUP_LARGEST, 5, "values to an average"),
    DW_F_REAL_OPT(dw_chart_request, centre, "", -1e9, 1e9,
                  "else the mean of the baseline"),
    DW_F_REAL_OPT(dw_chart_request, sigma, "", 1e-12, 1e9,
                  "of single values, else from the ranges of the baseline"),
    DW_F_WHOLE_PRESET(dw_chart_request, baseline_count, "", 0, DW_CHART_VALUES,
                      0, "limits from the first so many values; 0: all"),
    DW_F_REAL_PRESET(dw_chart_request, limit_sigmas, "", 0.5, 6, 3,
                     "limits, in sigmas of what is plotted"),
    DW_F_REAL_PRESET(dw_chart_request, weight, "", 0.01, 1, 0.2,
                     "ewma: of the newest value"),
    DW_F_REAL_PRESET(dw_chart_request, slack_sigmas, "", 0, 3, 0.5,
                     "cusum: not counted, in sigmas"),
    DW_F_REAL_PRESET(dw_chart_request, decision_sigmas, "", 0.5, 15, 5,
                     "cusum: alarm, in sigmas"),
    DW_F_REAL_PRESET(dw_chart_request, shift_sigmas, "", 0, 6, 1,
                     "how soon a lasting shift of so much is seen"),
    DW_F_ONE_OPT(dw_chart_request, rules, &dw_chart_rules_shape,
                 "what marks a point; else one beyond the limits"),
    DW_F_REAL_OPT(dw_chart_request, lowest, "", -1e9, 1e9,
                  "allowed, for capability"),
    DW_F_REAL_OPT(dw_chart_request, highest, "", -1e9, 1e9,
                  "allowed, for capability"),
};
const dw_shape dw_chart_request_shape = DW_SHAPE(
    "chart_request", dw_chart_request, request_fields, "values to be charted");

static const dw_field point_fields[] = {
    DW_F_REAL(dw_chart_point, value, "", -1e9, 1e9, "plotted; cusum: upwards"),
    DW_F_REAL_OPT(dw_chart_point, low, "", 0, 1e9, "cusum: downwards"),
    DW_F_REAL_OPT(dw_chart_point, range, "", 0, 2e9,
                  "of the group, or from the value before"),
};
static const dw_shape point_shape =
    DW_SHAPE("chart_point", dw_chart_point, point_fields, "a point");

static const dw_field signal_fields[] = {
    DW_F_WHOLE(dw_chart_signal, index, "", 0, DW_CHART_VALUES,
               "of the point, from 0"),
    DW_F_CHOICE(dw_chart_signal, rule, dw_chart_rule_words, "why"),
    DW_F_WHOLE(dw_chart_signal, side, "", -1, 1, "1 high, -1 low"),
};
static const dw_shape signal_shape =
    DW_SHAPE("chart_signal", dw_chart_signal, signal_fields, "a mark");

static const dw_field change_fields[] = {
    DW_F_WHOLE(dw_chart_change, index, "", 0, DW_CHART_VALUES,
               "first point after the step"),
    DW_F_WHOLE(dw_chart_change, earliest, "", 0, DW_CHART_VALUES,
               "nine in ten, from"),
    DW_F_WHOLE(dw_chart_change, latest, "", 0, DW_CHART_VALUES, "to"),
    DW_F_REAL(dw_chart_change, before, "", -1e9, 1e9, "mean"),
    DW_F_REAL(dw_chart_change, after, "", -1e9, 1e9, "mean"),
    DW_F_REAL(dw_chart_change, strength, "", 0, 1e9, "T"),
    DW_F_REAL(dw_chart_change, threshold, "", 0, 10,
              "T without a step, once in 100"),
};
static const dw_shape change_shape = DW_SHAPE(
    "chart_change", dw_chart_change, change_fields, "the strongest step");

static const dw_field capability_fields[] = {
    DW_F_REAL_OPT(dw_chart_capability, cp, "", -1e9, 1e9, "width by sigma"),
    DW_F_REAL_OPT(dw_chart_capability, cpl, "", -1e9, 1e9, "lower side"),
    DW_F_REAL_OPT(dw_chart_capability, cpu, "", -1e9, 1e9, "upper side"),
    DW_F_REAL(dw_chart_capability, cpk, "", -1e9, 1e9, "worse side"),
    DW_F_REAL_OPT(dw_chart_capability, pp, "", -1e9, 1e9,
                  "width by the deviation of all values"),
    DW_F_REAL(dw_chart_capability, ppk, "", -1e9, 1e9, "worse side"),
};
static const dw_shape capability_shape =
    DW_SHAPE("chart_capability", dw_chart_capability, capability_fields,
             "spread against what is allowed");

static const dw_field reply_fields[] = {
    DW_F_REAL(dw_chart_reply, centre, "", -1e9, 1e9, "of single values"),
    DW_F_REAL(dw_chart_reply, sigma, "", 0, 1e9, "of single values"),
    DW_F_REAL(dw_chart_reply, mean_range, "", 0, 2e9, "of the baseline"),
    DW_F_REAL(dw_chart_reply, upper, "", -1e10, 1e10, "of what is plotted"),
    DW_F_REAL(dw_chart_reply, lower, "", -1e10, 1e10, "of what is plotted"),
    DW_F_REAL_OPT(dw_chart_reply, range_upper, "", 0, 1e10, "of the ranges"),
    DW_F_REAL(dw_chart_reply, range_lower, "", 0, 1e10, "of the ranges"),
    DW_F_MANY(dw_chart_reply, points, &point_shape, 0, DW_CHART_VALUES,
              "in order"),
    DW_F_MANY(dw_chart_reply, signals, &signal_shape, 0, 1e5, "marks"),
    DW_F_REAL_OPT(dw_chart_reply, run_good, "", 0, 1e300,
                  "points between false alarms, on average"),
    DW_F_REAL_OPT(dw_chart_reply, run_shifted, "", 0, 1e300,
                  "points until the shift is seen, on average"),
    DW_F_ONE_OPT(dw_chart_reply, change, &change_shape, "a step, if any"),
    DW_F_ONE_OPT(dw_chart_reply, capability, &capability_shape,
                 "where limits were told"),
};
const dw_shape dw_chart_reply_shape = DW_SHAPE(
    "chart_reply", dw_chart_reply, reply_fields, "the chart and its marks");
