/* Shared between the files of the forecast only. */
#ifndef DW_ENGINE_FORECAST_INNER_H
#define DW_ENGINE_FORECAST_INNER_H

#include "doughwright/forecast.h"

enum {
    DW_FORECAST__LEVEL,
    DW_FORECAST__SLOPE,
    DW_FORECAST__WEEKDAY,                         /* seven of them */
    DW_FORECAST__YEAR = DW_FORECAST__WEEKDAY + 7, /* its cosine and sine */
    DW_FORECAST__PARTS = DW_FORECAST__YEAR + 2
};

/* What is known of one past or coming day. */
typedef struct dw_forecast__day {
    uint64_t events; /* bit i: event i falls on it */
    int64_t balls;
    bool known, sold_out, closed;
    /* by the filter: taken for a day that was shut, and what it expected */
    bool passed;
    double expected, variance;
} dw_forecast__day;

/* How fast each part may change, variance of a log a day, and the chance of a
 * day that is left over. */
typedef struct dw_forecast__pace {
    double level, slope, weekday;
    double size;
} dw_forecast__pace;

typedef struct dw_forecast__belief {
    double mean, variance; /* of a log */
} dw_forecast__belief;

/* One event's part, beside the others: an event day is too rare to teach much
 * about the level. */
typedef struct dw_forecast__effect {
    dw_forecast__belief now, prior;
    int64_t seen, zeros, last_day;
} dw_forecast__effect;

/* All that is believed at the end of one day. */
typedef struct dw_forecast__state {
    double at[DW_FORECAST__PARTS];
    double cov[DW_FORECAST__PARTS][DW_FORECAST__PARTS];
    double up, down;      /* sums that notice a shift of the level */
    int64_t shifts, days; /* shifts noticed in so many days */
    int64_t zeros;        /* unexpected ones in a row */
    dw_forecast__effect effects[DW_FORECAST_EVENTS_MOST];
} dw_forecast__state;

/* One series with its days laid out. */
typedef struct dw_forecast__line {
    const dw_forecast_ask *ask;
    const dw_forecast_series *series;
    int64_t start; /* civil day of days[0] */
    dw_forecast__day *days;
    size_t count; /* up to the day before first_day */
    size_t known; /* of them */
    bool shut[7]; /* weekdays on which, as it seems, nothing is sold now */
    dw_forecast__belief level, weekdays[7]; /* before any day is seen */
    double year_variance;                   /* 0: too short to know a year */
    dw_forecast__belief effects[DW_FORECAST_EVENTS_MOST];
    dw_forecast__pace pace;
    int basis;
} dw_forecast__line;

/* ---- a series laid out (forecast_line.c) ----------------------------------
 */

/* Events of a day, those that close left out but told. */
uint64_t dw_forecast__events(const dw_forecast_ask *ask, int64_t day,
                             bool *closed);
/* Fill start, days, count, known, shut. DW_E_CONFLICT for a day that is there
 * twice, DW_E_ROOM. */
dw_status dw_forecast__lay(dw_forecast__line *line, int64_t first_day,
                           dw_arena *arena, dw_err *err);
/* What is believed before any day is seen; `like`: the end of the series it is
 * like, or NULL. Sets basis. */
void dw_forecast__believe(dw_forecast__line *line,
                          const dw_forecast__state *like, double like_size);

/* ---- the filter (forecast_filter.c) ---------------------------------------
 */

void dw_forecast__start(const dw_forecast__line *line,
                        dw_forecast__state *state);
/* One day goes by. */
void dw_forecast__advance(const dw_forecast__pace *pace,
                          dw_forecast__state *state);
/* Log of the mean on a day with those events, and how unsure it is. */
dw_forecast__belief dw_forecast__expect(const dw_forecast__state *state,
                                        int64_t day, uint64_t events);
/* The part of the year in it. */
double dw_forecast__year(const dw_forecast__state *state, int64_t day);
/* The pace of days to come: the level also shifts as often as it has. */
dw_forecast__pace dw_forecast__ahead(const dw_forecast__line *line,
                                     const dw_forecast__state *state);
/* The distribution that follows from it. */
dw_spread dw_forecast__spread(const dw_forecast__belief *of, double size);
/* Take the days from `from` to before `to`, noting what was expected. */
void dw_forecast__take(dw_forecast__line *line, dw_forecast__state *state,
                       size_t from, size_t to);

/* ---- the fit (forecast_fit.c) ---------------------------------------------
 */

/* The pace under which the days before `to` were least surprising. */
void dw_forecast__fit(dw_forecast__line *line, size_t to);

int dw_forecast__weekday(int64_t day); /* 0 Monday */

#endif
