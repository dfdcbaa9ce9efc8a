/* The shapes of forecast.h. */
#include "doughwright/forecast.h"

enum { DAY_LAST = 84000, BALLS_MOST = 1000000 };

const char *const dw_event_rule_words[] = {"once", "yearly", "nth_weekday",
                                           "easter", NULL};
const char *const dw_forecast_basis_words[] = {"own", "like", "par", "nothing",
                                               NULL};

static const dw_field event_fields[] = {
    DW_F_TEXT(dw_event, name, 60, "what people call it"),
    DW_F_CHOICE(dw_event, rule, dw_event_rule_words, "when it comes"),
    DW_F_WHOLE_OPT(dw_event, day, "d", 0, DAY_LAST, "of once"),
    DW_F_WHOLE_OPT(dw_event, month, "", 1, 12, "of yearly and nth_weekday"),
    DW_F_WHOLE_OPT(dw_event, date, "", 1, 31, "of yearly: day of the month"),
    DW_F_WHOLE_OPT(dw_event, nth, "", -1, 4, "of nth_weekday; -1: the last"),
    DW_F_WHOLE_OPT(dw_event, weekday, "", 0, 6,
                   "of nth_weekday: 0 Monday to 6 Sunday"),
    DW_F_WHOLE_OPT(dw_event, offset_days, "d", -60, 60,
                   "of easter: after its Sunday, below 0 before it"),
    DW_F_WHOLE_PRESET(dw_event, days, "d", 1, 14, 1, "so many in a row"),
    DW_F_YES(dw_event, closed, false, "nothing is sold"),
    DW_F_REAL_OPT(dw_event, expected_percent, "percent", -95, 900,
                  "what somebody expects, against a day without it"),
};
const dw_shape dw_event_shape = DW_SHAPE("event", dw_event, event_fields,
                                         "a day that is unlike its weekday");

static const dw_field sale_fields[] = {
    DW_F_WHOLE(dw_forecast_sale, day, "d", 0, DAY_LAST, "when"),
    DW_F_WHOLE(dw_forecast_sale, balls, "", 0, BALLS_MOST, "how many"),
    DW_F_YES(dw_forecast_sale, sold_out, false, "then the number is at least"),
};
static const dw_shape sale_shape = DW_SHAPE("forecast_sale", dw_forecast_sale,
                                            sale_fields, "balls used on a day");

static const dw_field override_fields[] = {
    DW_F_WHOLE(dw_override, from_day, "d", 0, DAY_LAST, "first day"),
    DW_F_WHOLE(dw_override, to_day, "d", 0, DAY_LAST, "last day"),
    DW_F_WHOLE_OPT(dw_override, balls, "", 0, BALLS_MOST,
                   "instead of the forecast's mean"),
    DW_F_REAL_OPT(dw_override, percent, "percent", -100, 900,
                  "against the forecast's mean"),
    DW_F_TEXT(dw_override, reason, 120, "why somebody knows better"),
    DW_F_WHOLE(dw_override, expires_day, "d", 0, DAY_LAST + 60,
               "from this day on it no longer counts"),
};
const dw_shape dw_override_shape =
    DW_SHAPE("override", dw_override, override_fields, "somebody knows better");

static const dw_field series_fields[] = {
    DW_F_TEXT(dw_forecast_series, name, 130, "what is sold"),
    DW_F_MANY_OPT(dw_forecast_series, history, &sale_shape,
                  DW_FORECAST_HISTORY_MOST, "days not named are not known"),
    DW_F_REALS_OPT(dw_forecast_series, par, "", 0, BALLS_MOST,
                   "balls to have by weekday from Monday: none or 7"),
    DW_F_TEXT_OPT(dw_forecast_series, like, 130,
                  "another series that it is like, while it is new"),
    DW_F_MANY_OPT(dw_forecast_series, overrides, &dw_override_shape, 400,
                  "the last one that holds counts"),
};
static const dw_shape series_shape =
    DW_SHAPE("forecast_series", dw_forecast_series, series_fields,
             "the sales of one product");

static const dw_field ask_fields[] = {
    DW_F_WHOLE(dw_forecast_ask, first_day, "d", 0, DAY_LAST,
               "first day to forecast"),
    DW_F_WHOLE_PRESET(dw_forecast_ask, days, "d", 1, DW_FORECAST_DAYS_MOST, 14,
                      "how many"),
    DW_F_MANY(dw_forecast_ask, series, &series_shape, 1,
              DW_FORECAST_SERIES_MOST, "one for each product"),
    DW_F_MANY_OPT(dw_forecast_ask, events, &dw_event_shape,
                  DW_FORECAST_EVENTS_MOST, "in the history and to come"),
    DW_F_WHOLES_OPT(dw_forecast_ask, closed_weekdays, "", 0, 6,
                    "0 Monday to 6 Sunday"),
    DW_F_WHOLE_PRESET(dw_forecast_ask, check_weeks, "", 0,
                      DW_FORECAST_CHECK_WEEKS_MOST, 0,
                      "weeks to hold past forecasts against what came"),
};
const dw_shape dw_forecast_ask_shape = DW_SHAPE(
    "forecast_ask", dw_forecast_ask, ask_fields, "sales, and days to foresee");

static const dw_field day_fields[] = {
    DW_F_WHOLE(dw_forecast_day, day, "d", 0, DAY_LAST + 60, "when"),
    DW_F_ONE(dw_forecast_day, wanted, &dw_spread_shape,
             "the whole distribution"),
    DW_F_WHOLE(dw_forecast_day, low_95, "", 0, 1e7, "one day in 40 is below"),
    DW_F_WHOLE(dw_forecast_day, low_80, "", 0, 1e7, "one day in 10 is below"),
    DW_F_WHOLE(dw_forecast_day, middle, "", 0, 1e7, "as often more as less"),
    DW_F_WHOLE(dw_forecast_day, high_80, "", 0, 1e7, "one day in 10 is above"),
    DW_F_WHOLE(dw_forecast_day, high_95, "", 0, 1e7, "one day in 40 is above"),
    DW_F_REAL(dw_forecast_day, level, "", 0, 1e7, "balls of a mean day"),
    DW_F_REAL(dw_forecast_day, weekday_factor, "-", 0, 1e4,
              "of the weekday against a mean day"),
    DW_F_REAL(dw_forecast_day, event_factor, "-", 0, 1e4,
              "of the events of that day"),
    DW_F_TEXT_OPT(dw_forecast_day, event, 60, "null: none"),
    DW_F_REAL_OPT(dw_forecast_day, forecast_mean, "", 0, 1e7,
                  "without the override"),
    DW_F_TEXT_OPT(dw_forecast_day, override_reason, 120, "null: none"),
};
const dw_shape dw_forecast_day_shape = DW_SHAPE(
    "forecast_day", dw_forecast_day, day_fields, "what one day may want");

static const dw_field effect_fields[] = {
    DW_F_TEXT(dw_forecast_effect, event, 60, "its name"),
    DW_F_REAL(dw_forecast_effect, factor, "-", 0, 1e4,
              "against a day without it"),
    DW_F_REAL(dw_forecast_effect, low, "-", 0, 1e4, "one in ten is below"),
    DW_F_REAL(dw_forecast_effect, high, "-", 0, 1e4, "one in ten is above"),
    DW_F_WHOLE(dw_forecast_effect, seen, "d", 0, 1e6, "in the history"),
};
static const dw_shape effect_shape = DW_SHAPE(
    "forecast_effect", dw_forecast_effect, effect_fields, "of one event");

static const dw_field checked_fields[] = {
    DW_F_WHOLE(dw_forecast_checked, day, "d", 0, DAY_LAST, "when"),
    DW_F_WHOLE(dw_forecast_checked, low_80, "", 0, 1e7,
               "one day in 10 is below"),
    DW_F_WHOLE(dw_forecast_checked, middle, "", 0, 1e7,
               "as often more as less"),
    DW_F_WHOLE(dw_forecast_checked, high_80, "", 0, 1e7,
               "one day in 10 is above"),
    DW_F_WHOLE(dw_forecast_checked, came, "", 0, BALLS_MOST, "what came"),
    DW_F_YES(dw_forecast_checked, at_least, false, "it sold out"),
};
static const dw_shape checked_shape =
    DW_SHAPE("forecast_checked", dw_forecast_checked, checked_fields,
             "a past day and its forecast");

static const dw_field record_fields[] = {
    DW_F_WHOLE(dw_forecast_record, days, "d", 0, 1e6, "that were checked"),
    DW_F_REAL(dw_forecast_record, covered_80_percent, "percent", 0, 100,
              "of them inside the 80 % band"),
    DW_F_REAL(dw_forecast_record, covered_95_percent, "percent", 0, 100,
              "of them inside the 95 % band"),
    DW_F_REAL(dw_forecast_record, scaled_error, "-", 0, 1e6,
              "mean error against the usual difference of one week"),
    DW_F_REAL(dw_forecast_record, scaled_error_last_week, "-", 0, 1e6,
              "of taking the same weekday of the week before"),
};
static const dw_shape record_shape =
    DW_SHAPE("forecast_record", dw_forecast_record, record_fields,
             "how past forecasts did");

static const dw_field forecast_fields[] = {
    DW_F_TEXT(dw_forecast, name, 130, "what is sold"),
    DW_F_CHOICE(dw_forecast, basis, dw_forecast_basis_words,
                "where it mostly comes from"),
    DW_F_WHOLE(dw_forecast, history_days, "d", 0, DW_FORECAST_HISTORY_MOST,
               "days of history"),
    DW_F_MANY_OPT(dw_forecast, days, &dw_forecast_day_shape,
                  DW_FORECAST_DAYS_MOST, "none when nothing is known"),
    DW_F_REALS_OPT(dw_forecast, weekday_factors, "-", 0, 1e4,
                   "from Monday; their mean is 1"),
    DW_F_REAL(dw_forecast, trend_percent_per_week, "percent", -100, 1e4,
              "of the level, now"),
    DW_F_MANY_OPT(dw_forecast, effects, &effect_shape, DW_FORECAST_EVENTS_MOST,
                  "learned of events"),
    DW_F_ONE_OPT(dw_forecast, record, &record_shape, "of past forecasts"),
    DW_F_MANY_OPT(dw_forecast, checked, &checked_shape,
                  7 * DW_FORECAST_CHECK_WEEKS_MOST, "oldest first"),
};
const dw_shape dw_forecast_shape = DW_SHAPE(
    "forecast", dw_forecast, forecast_fields, "the demand of one product");

static const dw_field reply_fields[] = {
    DW_F_MANY(dw_forecast_reply, series, &dw_forecast_shape, 1,
              DW_FORECAST_SERIES_MOST, "in the order of the request"),
};
const dw_shape dw_forecast_reply_shape =
    DW_SHAPE("forecast_reply", dw_forecast_reply, reply_fields,
             "demand by product and day");

static const dw_field hour_sale_fields[] = {
    DW_F_WHOLE(dw_hour_sale, day, "d", 0, DAY_LAST, "business day"),
    DW_F_WHOLE(dw_hour_sale, hour, "h", 0, 23, "of the shop's clock"),
    DW_F_WHOLE(dw_hour_sale, balls, "", 0, BALLS_MOST, "how many"),
};
static const dw_shape hour_sale_shape = DW_SHAPE(
    "hour_sale", dw_hour_sale, hour_sale_fields, "balls used in an hour");
static const dw_field hours_ask_fields[] = {
    DW_F_MANY_OPT(dw_hours_ask, sales, &hour_sale_shape, 1000000, "any order"),
};
const dw_shape dw_hours_ask_shape =
    DW_SHAPE("hours_ask", dw_hours_ask, hours_ask_fields, "sales by hour");
static const dw_field hours_day_fields[] = {
    DW_F_WHOLE(dw_hours_day, weekday, "", 0, 6, "0 Monday to 6 Sunday"),
    DW_F_REALS(dw_hours_day, shares, "-", 0, 1, "by hour from midnight"),
    DW_F_WHOLE(dw_hours_day, days, "d", 0, 1e6, "that were heard of"),
};
const dw_shape dw_hours_day_shape = DW_SHAPE(
    "hours_day", dw_hours_day, hours_day_fields, "the hours of a weekday");
static const dw_field hours_reply_fields[] = {
    DW_F_MANY_OPT(dw_hours_reply, weekdays, &dw_hours_day_shape, 7,
                  "from Monday; none when nothing is known"),
};
const dw_shape dw_hours_reply_shape =
    DW_SHAPE("hours_reply", dw_hours_reply, hours_reply_fields,
             "which share of a day each hour has");
