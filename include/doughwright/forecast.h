/* Demand: how many balls will be wanted, by product and day.
 *
 * The log of a day's mean is a level with a damped trend, the weekday's part
 * and the parts of the events that fall on it:
 *
 *   ln m = level + weekday + sum of events,  wanted ~ spread(m, size)      (1)
 *
 * All parts are learned together by a filter that takes each day in turn and
 * knows how unsure it is of each part (docs/models/demand.md), so that the
 * spread of a forecast holds both the chance of the day and what is not known.
 * A day that sold out says "at least". A level that has shifted is believed
 * after a few days of the same sign. From 400 days on the year has a part of
 * its own. Products teach each other about events. A product with no history
 * starts from one that is like it, or from the balls the shop wants to have
 * (par).
 *
 * Days are civil days (doughwright/day.h); lists by weekday begin on Monday.
 */
#ifndef DOUGHWRIGHT_FORECAST_H
#define DOUGHWRIGHT_FORECAST_H

#include "doughwright/spread.h"

enum {
    DW_FORECAST_DAYS_MOST = 28,
    DW_FORECAST_SERIES_MOST = 400,
    DW_FORECAST_HISTORY_MOST = 4000,
    DW_FORECAST_EVENTS_MOST = 60,
    DW_FORECAST_CHECK_WEEKS_MOST = 52
};

/* ---- events ---------------------------------------------------------------
 */

typedef enum dw_event_rule {
    DW_EVENT_ONCE,        /* on `day` */
    DW_EVENT_YEARLY,      /* on `date` of `month` */
    DW_EVENT_NTH_WEEKDAY, /* the nth weekday of `month`; nth -1: the last */
    DW_EVENT_EASTER       /* `offset_days` from Easter Sunday (Gregorian) */
} dw_event_rule;
extern const char *const dw_event_rule_words[]; /* once yearly nth_weekday
                                                   easter */
/* A day that is unlike its weekday: a holiday, a fair, a match, a road closed.
 * `days` in a row are alike. */
typedef struct dw_event {
    const char *name;
    int rule;
    bool has_day, has_month, has_date, has_nth, has_weekday, has_offset_days;
    int64_t day, month, date, nth, weekday, offset_days;
    int64_t days;
    bool closed; /* nothing is sold */
    /* what somebody expects of it, against a day without: 45 is 45 % more */
    bool has_expected_percent;
    double expected_percent;
} dw_event;
extern const dw_shape dw_event_shape;

/* DW_E_MISSING for a member the rule needs; DW_E_RANGE for a date that no year
 * has (30 February). 29 February falls on itself, in years that have it. */
dw_status dw_event_check(const dw_event *event, dw_err *err);
/* Is `day` one of the event's? The event is checked. */
bool dw_event_on(const dw_event *event, int64_t day);

/* ---- what is asked --------------------------------------------------------
 */

typedef struct dw_forecast_sale {
    int64_t day, balls;
    bool sold_out; /* then balls is "at least" */
} dw_forecast_sale;

/* Somebody knows better, for a reason, until a day. */
typedef struct dw_override {
    int64_t from_day, to_day;
    bool has_balls, has_percent; /* one of them */
    int64_t balls;               /* instead of the forecast's mean */
    double percent;              /* against it: 45 is 45 % more */
    const char *reason;
    int64_t expires_day; /* from this day on it no longer counts */
} dw_override;
extern const dw_shape dw_override_shape;

/* DW_E_RANGE when it ends before it begins, DW_E_MISSING or DW_E_CONFLICT
 * unless it has balls or percent. */
dw_status dw_override_check(const dw_override *change, dw_err *err);

typedef struct dw_forecast_series {
    const char *name;
    dw_forecast_sale *history; /* any order; days not named are not known */
    size_t history_count;
    double *par; /* balls to have by weekday: none or 7 */
    size_t par_count;
    const char *like; /* another series, for as long as the history is short */
    dw_override *overrides;
    size_t overrides_count;
} dw_forecast_series;

typedef struct dw_forecast_ask {
    int64_t first_day, days; /* history on or after first_day is passed over */
    dw_forecast_series *series;
    size_t series_count;
    dw_event *events;
    size_t events_count;
    int64_t *closed_weekdays;
    size_t closed_weekdays_count;
    int64_t check_weeks; /* forecasts made again for that many last weeks, each
                            from what was known before it */
} dw_forecast_ask;
extern const dw_shape dw_forecast_ask_shape;

/* ---- what is answered -----------------------------------------------------
 */

typedef struct dw_forecast_day {
    int64_t day;
    dw_spread wanted; /* the whole distribution, overrides included */
    int64_t low_95, low_80, middle, high_80, high_95; /* its quantiles 2.5, 10,
                                                         50, 90, 97.5 % */
    /* why: their product is the mean */
    double level, weekday_factor, event_factor;
    const char *event;           /* NULL: none */
    bool has_forecast_mean;      /* there is an override */
    double forecast_mean;        /* without it */
    const char *override_reason; /* NULL: none */
} dw_forecast_day;
extern const dw_shape dw_forecast_day_shape;

typedef struct dw_forecast_effect {
    const char *event;
    double factor, low, high; /* with the middle 80 % */
    int64_t seen;             /* days of it in the history */
} dw_forecast_effect;

/* One past day, forecast from what was known before its week. */
typedef struct dw_forecast_checked {
    int64_t day;
    int64_t low_80, middle, high_80, came;
    bool at_least; /* it sold out */
} dw_forecast_checked;

/* Over the checked days that did not sell out. Errors are of `middle`; scaled
 * by the mean difference of one week to the next in the history before (MASE,
 * Hyndman and Koehler 2006). */
typedef struct dw_forecast_record {
    int64_t days;
    double covered_80_percent, covered_95_percent;
    double scaled_error, scaled_error_last_week; /* same weekday, week before */
} dw_forecast_record;

typedef enum dw_forecast_basis {
    DW_FORECAST_OWN,    /* own history */
    DW_FORECAST_LIKE,   /* mostly that of the product it is like */
    DW_FORECAST_PAR,    /* mostly the balls to have */
    DW_FORECAST_NOTHING /* nothing is known: no days are answered */
} dw_forecast_basis;
extern const char *const dw_forecast_basis_words[]; /* own like par nothing */

typedef struct dw_forecast {
    const char *name;
    int basis; /* dw_forecast_basis */
    int64_t history_days;
    dw_forecast_day *days;
    size_t days_count;
    double *weekday_factors; /* 7, their mean is 1; empty: nothing is known */
    size_t weekday_factors_count;
    double trend_percent_per_week;
    dw_forecast_effect *effects; /* of events */
    size_t effects_count;
    bool has_record; /* check_weeks were asked for, and there was history */
    dw_forecast_record record;
    dw_forecast_checked *checked; /* oldest first */
    size_t checked_count;
} dw_forecast;

typedef struct dw_forecast_reply {
    dw_forecast *series; /* in the order of the ask */
    size_t series_count;
} dw_forecast_reply;
extern const dw_shape dw_forecast_shape, dw_forecast_reply_shape;

/* The arena needs 64 bytes for each day between the first sale and first_day of
 * each series and 8 kB for each series, both twice when weeks are checked, and
 * 200 bytes for each day forecast or checked. DW_E_CONFLICT:
 * a day twice in one history, a name twice; DW_E_NOT_FOUND: nobody has the name
 * in `like`; DW_E_MISSING, DW_E_RANGE: an event or override that makes no
 * sense; DW_E_ROOM. */
dw_status dw_forecast_run(const dw_forecast_ask *ask, dw_arena *arena,
                          dw_forecast_reply *reply, dw_err *err);

/* ---- the hours of a day ---------------------------------------------------
 */

typedef struct dw_hour_sale {
    int64_t day, hour, balls; /* hour 0 to 23, by the shop's clock */
} dw_hour_sale;
typedef struct dw_hours_ask {
    dw_hour_sale *sales;
    size_t sales_count;
} dw_hours_ask;
/* Shares of a day's balls by hour; they sum to 1. */
typedef struct dw_hours_day {
    int64_t weekday;
    double *shares; /* 24 */
    size_t shares_count;
    int64_t days; /* of that weekday that were heard of */
} dw_hours_day;
typedef struct dw_hours_reply {
    dw_hours_day *weekdays; /* 7; none when nothing is known */
    size_t weekdays_count;
} dw_hours_reply;
extern const dw_shape dw_hours_ask_shape, dw_hours_day_shape,
    dw_hours_reply_shape;

/* A weekday's own shares, drawn towards those of all days by as much as 100
 * balls weigh; newer days count more, half as much every 8 weeks back. The
 * arena needs 90 kB. DW_E_ROOM. */
dw_status dw_hours_run(const dw_hours_ask *ask, dw_arena *arena,
                       dw_hours_reply *reply, dw_err *err);

#endif
