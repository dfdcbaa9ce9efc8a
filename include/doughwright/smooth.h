/* Plain exponential smoothing, as textbooks have it: the second opinion beside
 * the forecast, and what people know from a spreadsheet.
 *
 *   level:   l = a y + (1 - a) l'                       forecast l          (1)
 *   trend:   l = a y + (1 - a)(l' + b'),
 *            b = c (l - l') + (1 - c) b'                l + h b             (2)
 *   trend_times:  the same with a factor:  l' b', l / l'        l b^h       (3)
 *   season:  y - s for y in (2), s = g (y - l) + (1 - g) s'   l + h b + s   (4)
 *   season_times: y / s for y in (2), s = g y / l + (1 - g) s'  (l + h b) s (5)
 *
 * a, c and g that are not given are those of the least sum of squared one-step
 * errors (Nelder and Mead 1965). The start decides the digits. A level that is
 * given stands before the first value, as do slope and seasons; else the level
 * is the first value, the slope the first difference (or factor), and errors
 * count from the value after. With a season, the start that is not given is
 * that of a classical decomposition of the first two seasons, and errors count
 * from the second season on.
 */
#ifndef DOUGHWRIGHT_SMOOTH_H
#define DOUGHWRIGHT_SMOOTH_H

#include "doughwright/field.h"

typedef enum dw_smooth_method {
    DW_SMOOTH_LEVEL,
    DW_SMOOTH_TREND,
    DW_SMOOTH_TREND_TIMES,
    DW_SMOOTH_SEASON,
    DW_SMOOTH_SEASON_TIMES
} dw_smooth_method;
extern const char *const dw_smooth_method_words[];

typedef struct dw_smooth_ask {
    int method;
    double *values;
    size_t values_count;
    int64_t season; /* values in one, 2 to 366 */
    int64_t ahead;
    bool has_alpha, has_beta, has_gamma, has_level, has_slope;
    double alpha, beta, gamma, level, slope;
    bool find_level; /* the level before the first value is found as well */
} dw_smooth_ask;
extern const dw_shape dw_smooth_ask_shape;

typedef struct dw_smooth_reply {
    double alpha, beta, gamma; /* 0: the method has none */
    double level, slope;       /* at the end */
    double start_level;
    double *levels; /* after each value that was smoothed */
    size_t levels_count;
    double *seasons; /* in the order in which they come next */
    size_t seasons_count;
    double *forecast;
    size_t forecast_count;
    double squared_errors;
    int64_t errors; /* how many */
} dw_smooth_reply;
extern const dw_shape dw_smooth_reply_shape;

/* The arena needs 16 bytes a value and 8 kB. DW_E_RANGE: too few values for
 * the method, or values of 0 or less where factors are asked for; DW_E_ROOM. */
dw_status dw_smooth_run(const dw_smooth_ask *ask, dw_arena *arena,
                        dw_smooth_reply *reply, dw_err *err);

#endif
