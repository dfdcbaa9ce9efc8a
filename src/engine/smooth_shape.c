/* The shapes of smooth.h. */
#include "doughwright/smooth.h"

#define ANY 1e12

const char *const dw_smooth_method_words[] = {
    "level", "trend", "trend_times", "season", "season_times", NULL};

static const dw_field ask_fields[] = {
    DW_F_CHOICE(dw_smooth_ask, method, dw_smooth_method_words,
                "what is smoothed"),
    DW_F_REALS(dw_smooth_ask, values, "", -ANY, ANY, "oldest first"),
    DW_F_WHOLE_PRESET(dw_smooth_ask, season, "", 2, 366, 7, "values in one"),
    DW_F_WHOLE_PRESET(dw_smooth_ask, ahead, "", 1, 400, 14, "to forecast"),
    DW_F_REAL_OPT(dw_smooth_ask, alpha, "-", 0, 1, "of the level"),
    DW_F_REAL_OPT(dw_smooth_ask, beta, "-", 0, 1, "of the slope"),
    DW_F_REAL_OPT(dw_smooth_ask, gamma, "-", 0, 1, "of the seasons"),
    DW_F_REAL_OPT(dw_smooth_ask, level, "", -ANY, ANY,
                  "before the first value"),
    DW_F_REAL_OPT(dw_smooth_ask, slope, "", -ANY, ANY,
                  "before the first value"),
    DW_F_YES(dw_smooth_ask, find_level, false,
             "the level before the first value is found as well"),
};
const dw_shape dw_smooth_ask_shape =
    DW_SHAPE("smooth_ask", dw_smooth_ask, ask_fields, "values to smooth");

static const dw_field reply_fields[] = {
    DW_F_REAL(dw_smooth_reply, alpha, "-", 0, 1, "of the level"),
    DW_F_REAL(dw_smooth_reply, beta, "-", 0, 1, "of the slope"),
    DW_F_REAL(dw_smooth_reply, gamma, "-", 0, 1, "of the seasons"),
    DW_F_REAL(dw_smooth_reply, level, "", -ANY, ANY, "at the end"),
    DW_F_REAL(dw_smooth_reply, slope, "", -ANY, ANY, "at the end"),
    DW_F_REAL(dw_smooth_reply, start_level, "", -ANY, ANY, "at the start"),
    DW_F_REALS(dw_smooth_reply, levels, "", -ANY, ANY,
               "after each value that was smoothed"),
    DW_F_REALS(dw_smooth_reply, seasons, "", -ANY, ANY,
               "in the order in which they come next"),
    DW_F_REALS(dw_smooth_reply, forecast, "", -ANY, ANY, "of the next values"),
    DW_F_REAL(dw_smooth_reply, squared_errors, "", 0, 1e24,
              "sum over the one-step errors"),
    DW_F_WHOLE(dw_smooth_reply, errors, "", 0, 1e9, "how many"),
};
const dw_shape dw_smooth_reply_shape =
    DW_SHAPE("smooth_reply", dw_smooth_reply, reply_fields, "values smoothed");
