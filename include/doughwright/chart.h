/* Control charts: has something drifted, and since when?
 *
 * Values in the order they were read, each over the process's own spread:
 *
 *   individuals  centre +- L s,  s = mean |x_i - x_(i-1)| / d2(2)          (1)
 *   averages     of n each: centre +- L s / sqrt(n), s = mean range / d2(n);
 *                ranges within D3, D4 x mean range (L = 3)                 (2)
 *   ewma         z_i = w x_i + (1 - w) z_(i-1), z_0 = centre, within
 *                centre +- L s sqrt(w / (2 - w)), the limits it settles at (3)
 *   cusum        up_i = max(0, up_(i-1) + (x_i - centre) / s - k), down_i
 *                alike, against h, both in s                               (4)
 *
 * d2, d3 of the range of n normal values are integrated here (Tippett 1925);
 * L is 3 unless told. Rules over zones of one s each side of the centre, each
 * with its run length as a setting, because handbooks differ (8 on one side
 * by Western Electric 1956, 9 by Nelson 1984, 7 by ISO 7870-2).
 *
 * False alarms. `run_good` is the average number of points between two alarms
 * while nothing is wrong, `run_shifted` until the first one after a lasting
 * shift of `shift_sigmas`, in points plotted, for normal values of known centre
 * and spread: exact for (1) and (2) with zone rules by a Markov chain over the
 * last points (Champ and Woodall 1987); for (3) and (4) by their integral
 * equations on Gauss nodes (Crowder 1987; Page 1954), two-sided. With the
 * rules of order (rising, alternating, close_in, far_out) there is none.
 *
 * A step. T = max over i of sqrt(i (n - i) / n) |mean before - after| / s with
 * at least two values on each side; held against the 99 % point of T without a
 * step, fitted by us to 60,000 to 400,000 runs of normal values for each n
 * (docs/models/drift.md). The step lies at the maximum; earliest and latest
 * are where T^2 is within 4.6 of it, which held the true place in nine of ten
 * steps of 1.5 s and more of larger ones.
 *
 * Capability against limits: cp, cpk by s (within), pp, ppk by the standard
 * deviation of all values, which are not the same (ISO 22514-2).
 *
 * Sources: NIST/SEMATECH e-Handbook 6.3; docs/sources.md.
 */
#ifndef DOUGHWRIGHT_CHART_H
#define DOUGHWRIGHT_CHART_H

#include "doughwright/field.h"

enum { DW_CHART_VALUES = 2000, DW_CHART_GROUP_LARGEST = 25 };

typedef enum dw_chart_kind {
    DW_CHART_INDIVIDUALS,
    DW_CHART_AVERAGES,
    DW_CHART_EWMA,
    DW_CHART_CUSUM
} dw_chart_kind;

/* Of n values: mean and deviation of the range, mean of the standard deviation,
 * over sigma, and the factors for limits of averages and ranges at 3 sigma. */
typedef struct dw_chart_constants {
    double d2, d3, c4;
    double a, a2, a3;      /* limits of averages from sigma, range, deviation */
    double b3, b4, b5, b6; /* of standard deviations */
    double d_1, d_2, d_3, d_4; /* of ranges: D1, D2, D3, D4 */
    double e2;                 /* limits of single values from the range */
} dw_chart_constants;
/* n 2 to 25; within 1e-5 of the exact. */
void dw_chart_constants_of(int64_t n, dw_chart_constants *constants);

/* 0 or false: not looked at. */
typedef struct dw_chart_rules {
    bool beyond;         /* one outside the limits, preset yes */
    bool two_of_three;   /* beyond 2 sigma on one side */
    bool four_of_five;   /* beyond 1 sigma on one side */
    int64_t one_side;    /* so many in a row; 4 to 15 */
    int64_t rising;      /* or falling, so many in a row; 4 to 15 */
    int64_t alternating; /* up and down; 8 to 30 */
    int64_t close_in;    /* within 1 sigma; 8 to 30 */
    int64_t far_out;     /* none within 1 sigma, both sides; 4 to 15 */
} dw_chart_rules;

typedef struct dw_chart_request {
    int kind; /* dw_chart_kind */
    double *values;
    size_t values_count; /* 2 to DW_CHART_VALUES */
    int64_t group_size;  /* averages: 2 to 25 values each */
    bool has_centre, has_sigma;
    double centre, sigma;   /* of single values; else estimated */
    int64_t baseline_count; /* from the first so many values; 0: all */
    double limit_sigmas;    /* L */
    double weight;          /* w of (3) */
    double slack_sigmas;    /* k of (4) */
    double decision_sigmas; /* h of (4) */
    double shift_sigmas;    /* for run_shifted */
    bool has_rules;
    dw_chart_rules rules; /* else: one beyond the limits */
    bool has_lowest, has_highest; /* what is allowed, for capability */
    double lowest, highest;
} dw_chart_request;

/* Why a point is marked. */
extern const char *const dw_chart_rule_words[];
typedef enum dw_chart_rule {
    DW_CHART_BEYOND,
    DW_CHART_TWO_OF_THREE,
    DW_CHART_FOUR_OF_FIVE,
    DW_CHART_ONE_SIDE,
    DW_CHART_RISING,
    DW_CHART_ALTERNATING,
    DW_CHART_CLOSE_IN,
    DW_CHART_FAR_OUT,
    DW_CHART_RANGE /* the range of a group is outside its limits */
} dw_chart_rule;

typedef struct dw_chart_point {
    double value; /* plotted: the value, average, (3), or up of (4) */
    bool has_low;
    double low; /* down of (4), 0 or more */
    bool has_range;
    double range; /* of the group */
} dw_chart_point;

typedef struct dw_chart_signal {
    int64_t index; /* of the point, from 0 */
    int rule;      /* dw_chart_rule */
    int64_t side;  /* 1 high, -1 low, 0 neither */
} dw_chart_signal;

typedef struct dw_chart_change {
    int64_t index;            /* first value after the step, from 0 */
    int64_t earliest, latest; /* nine in ten */
    double before, after;     /* means */
    double strength;          /* T */
    double threshold;         /* T without a step reaches it once in 100 */
} dw_chart_change;

typedef struct dw_chart_capability {
    bool has_cp, has_cpl, has_cpu, has_pp;
    double cp, cpl, cpu, pp;
    double cpk, ppk; /* the worse side */
} dw_chart_capability;

typedef struct dw_chart_reply {
    double centre, sigma; /* of single values */
    double mean_range;    /* moving or of groups */
    double upper, lower;  /* of what is plotted; (4): h, -h */
    bool has_range_upper;
    double range_upper, range_lower;
    dw_chart_point *points;
    size_t points_count;
    dw_chart_signal *signals;
    size_t signals_count;
    bool has_run_good, has_run_shifted;
    double run_good, run_shifted;
    bool has_change;
    dw_chart_change change;
    bool has_capability;
    dw_chart_capability capability;
} dw_chart_reply;

extern const dw_shape dw_chart_rules_shape, dw_chart_request_shape,
    dw_chart_reply_shape;

/* Fails with DW_E_RANGE (values of which fewer than two groups can be made:
 * values; a baseline of fewer than two: baseline_count), DW_E_UNREACHABLE (all
 * values alike and no sigma told: sigma), DW_E_ROOM. The reply lives in the
 * arena; 1 MiB is enough. */
dw_status dw_chart_draw(const dw_chart_request *request, dw_arena *arena,
                        dw_err *err, dw_chart_reply *reply);

/* Average number of points to the first alarm, the values' mean lying
 * `shift_sigmas` off the centre from the first point on. */

/* Points beyond +- `limit` sigmas of what is plotted and zone rules; false when
 * a rule of order is on. Works in `arena`, 256 KiB; DW_E_ROOM. */
dw_status dw_chart_zones_run(const dw_chart_rules *rules, double limit,
                             double shift_sigmas, dw_arena *arena, dw_err *err,
                             bool *has_run, double *run);
/* weight (0.01 to 1), limit (0.5 to 6) as (3); NaN never. */
double dw_chart_ewma_run(double weight, double limit, double shift_sigmas);
/* slack (0 to 3), decision (0.5 to 15) as (4). */
double dw_chart_cusum_run(double slack, double decision, double shift_sigmas);

/* The strongest step; false when T stays below its threshold or there are
 * fewer than 8 values. */
bool dw_chart_step(const double *values, size_t count, double sigma,
                   dw_chart_change *change);

#endif
