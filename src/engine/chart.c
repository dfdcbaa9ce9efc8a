#include "chart.h"

#include <math.h>

/* The request with what it leaves open worked out. */
typedef struct chart {
    const dw_chart_request *request;
    dw_chart_rules rules;
    bool grouped;
    size_t group, count; /* values in a point, points */
    size_t baseline;     /* points that the limits are taken from */
    double *averages;    /* of the points */
    double *ranges;      /* of groups, or of neighbours; 0 for the first */
    double *z;           /* plotted, in its own sigmas from the centre */
    double point_sigma;  /* of an average */
} chart;

static dw_chart_rules rules_of(const dw_chart_request *request)
{
    return request->has_rules ? request->rules
                              : (dw_chart_rules){.beyond = true};
}

static dw_status check(const dw_chart_request *request, dw_err *err)
{
    dw_chart_rules r = rules_of(request);
    bool smooth =
        request->kind == DW_CHART_EWMA || request->kind == DW_CHART_CUSUM;
    if (smooth &&
        (r.two_of_three || r.four_of_five || r.one_side > 0 || r.rising > 0 ||
         r.alternating > 0 || r.close_in > 0 || r.far_out > 0))
        return dw_fail_says(err, DW_E_CONFLICT, "rules", NULL,
                            "are for individuals and averages; points of this "
                            "chart depend on each other");
    if (request->values_count < 2 || request->values_count > DW_CHART_VALUES)
        return dw_fail_range(err, "values", (double)request->values_count, 2,
                             DW_CHART_VALUES);
    if (request->has_lowest && request->has_highest &&
        request->lowest >= request->highest)
        return dw_fail_range(err, "lowest", request->lowest, -1e9,
                             request->highest);
    return DW_OK;
}

static void average(const double *values, size_t count, double *mean,
                    double *range)
{
    double sum = 0, low = values[0], high = values[0];
    for (size_t i = 0; i < count; i++) {
        sum += values[i];
        low = fmin(low, values[i]);
        high = fmax(high, values[i]);
    }
    *mean = sum / (double)count;
    *range = high - low;
}

static dw_status set_points(const dw_chart_request *request, dw_arena *arena,
                            dw_err *err, chart *c)
{
    *c = (chart){.request = request, .rules = rules_of(request), .group = 1};
    c->grouped = request->kind == DW_CHART_AVERAGES;
    if (c->grouped)
        c->group = (size_t)request->group_size;
    c->count = request->values_count / c->group;
    c->averages = DW_NEW_ARRAY(arena, double, c->count + 1);
    c->ranges = DW_NEW_ARRAY(arena, double, c->count + 1);
    c->z = DW_NEW_ARRAY(arena, double, c->count + 1);
    if (!c->averages || !c->ranges || !c->z)
        return dw_fail(err, DW_E_ROOM, "chart", NULL);
    if (c->count < 2)
        return dw_fail_range(err, "values", (double)request->values_count,
                             2 * (double)c->group, DW_CHART_VALUES);
    c->baseline = request->baseline_count > 0
                      ? (size_t)request->baseline_count / c->group
                      : c->count;
    if (c->baseline < 2 || c->baseline > c->count)
        return dw_fail_range(
            err, "baseline_count", (double)request->baseline_count,
            2 * (double)c->group, (double)(c->count * c->group));
    for (size_t i = 0; i < c->count; i++) {
        average(request->values + i * c->group, c->group, &c->averages[i],
                &c->ranges[i]);
        if (!c->grouped && i > 0)
            c->ranges[i] = fabs(request->values[i] - request->values[i - 1]);
    }
    return DW_OK;
}

/* Centre and sigma of single values, told or from the baseline. */
static dw_status estimate(chart *c, dw_err *err, dw_chart_reply *out)
{
    const dw_chart_request *request = c->request;
    dw_chart_constants constants;
    dw_chart_constants_of(c->grouped ? request->group_size : 2, &constants);
    double centre = 0, range = 0;
    for (size_t i = 0; i < c->baseline; i++) {
        centre += c->averages[i];
        range += c->ranges[i];
    }
    centre /= (double)c->baseline;
    range /= (double)(c->grouped ? c->baseline : c->baseline - 1);
    out->mean_range = range;
    out->centre = request->has_centre ? request->centre : centre;
    out->sigma = request->has_sigma ? request->sigma : range / constants.d2;
    if (!(out->sigma > 0))
        return dw_fail_says(err, DW_E_UNREACHABLE, "sigma", NULL,
                            "cannot be found: all values are alike");
    c->point_sigma = out->sigma / sqrt((double)c->group);
    out->has_range_upper = request->kind == DW_CHART_INDIVIDUALS || c->grouped;
    if (out->has_range_upper) {
        out->range_upper = constants.d_2 * out->sigma;
        out->range_lower = constants.d_1 * out->sigma;
    }
    return DW_OK;
}

/* What a chart of averages or single values plots, and an ewma. */
static void plot_smoothed(chart *c, double weight, dw_chart_reply *out)
{
    const dw_chart_request *request = c->request;
    double sigma = c->point_sigma * sqrt(weight / (2 - weight));
    double at = out->centre;
    for (size_t i = 0; i < c->count; i++) {
        at += weight * (c->averages[i] - at);
        c->z[i] = (at - out->centre) / sigma;
        out->points[i] = (dw_chart_point){.value = at};
        if (out->has_range_upper && (c->grouped || i > 0)) {
            out->points[i].has_range = true;
            out->points[i].range = c->ranges[i];
        }
    }
    out->upper = out->centre + request->limit_sigmas * sigma;
    out->lower = out->centre - request->limit_sigmas * sigma;
}

static void plot_sums(chart *c, dw_chart_reply *out)
{
    const dw_chart_request *request = c->request;
    double up = 0, down = 0;
    for (size_t i = 0; i < c->count; i++) {
        double z = (c->averages[i] - out->centre) / out->sigma;
        up = fmax(0, up + z - request->slack_sigmas);
        down = fmax(0, down - z - request->slack_sigmas);
        out->points[i] =
            (dw_chart_point){.value = up, .has_low = true, .low = down};
        c->z[i] = up >= down ? up : -down;
    }
    out->upper = request->decision_sigmas;
    out->lower = -request->decision_sigmas;
}

static void mark_ranges(const chart *c, dw_chart_reply *out)
{
    if (!c->rules.beyond || !out->has_range_upper)
        return;
    for (size_t i = c->grouped ? 0 : 1; i < c->count; i++) {
        bool high = c->ranges[i] > out->range_upper;
        if (high || c->ranges[i] < out->range_lower)
            out->signals[out->signals_count++] =
                (dw_chart_signal){(int64_t)i, DW_CHART_RANGE, high ? 1 : -1};
    }
}

static dw_status set_runs(const chart *c, dw_arena *arena, dw_err *err,
                          dw_chart_reply *out)
{
    const dw_chart_request *request = c->request;
    double shift = request->shift_sigmas;
    out->has_run_good = out->has_run_shifted = c->rules.beyond;
    switch ((dw_chart_kind)request->kind) {
    case DW_CHART_EWMA:
        out->run_good =
            dw_chart_ewma_run(request->weight, request->limit_sigmas, 0);
        out->run_shifted =
            dw_chart_ewma_run(request->weight, request->limit_sigmas, shift);
        return DW_OK;
    case DW_CHART_CUSUM:
        out->run_good = dw_chart_cusum_run(request->slack_sigmas,
                                           request->decision_sigmas, 0);
        out->run_shifted = dw_chart_cusum_run(request->slack_sigmas,
                                              request->decision_sigmas, shift);
        return DW_OK;
    case DW_CHART_AVERAGES: shift *= sqrt((double)request->group_size); break;
    case DW_CHART_INDIVIDUALS: break;
    }
    DW_TRY(dw_chart_zones_run(&c->rules, request->limit_sigmas, 0, arena, err,
                              &out->has_run_good, &out->run_good));
    return dw_chart_zones_run(&c->rules, request->limit_sigmas, shift, arena,
                              err, &out->has_run_shifted, &out->run_shifted);
}

static double worse(bool has_a, double a, bool has_b, double b)
{
    return !has_a ? b : !has_b ? a : fmin(a, b);
}

static void set_capability(const dw_chart_request *request, dw_chart_reply *out)
{
    bool low = request->has_lowest, high = request->has_highest;
    if (!low && !high)
        return;
    double mean, range, squares = 0;
    average(request->values, request->values_count, &mean, &range);
    for (size_t i = 0; i < request->values_count; i++) {
        double off = request->values[i] - mean;
        squares += off * off;
    }
    double overall = sqrt(squares / (double)(request->values_count - 1));
    double width = request->highest - request->lowest;
    dw_chart_capability *c = &out->capability;
    out->has_capability = true;
    c->has_cp = c->has_pp = low && high;
    c->has_cpl = low;
    c->has_cpu = high;
    c->cp = width / (6 * out->sigma);
    c->pp = overall > 0 ? width / (6 * overall) : 0;
    c->cpl = (out->centre - request->lowest) / (3 * out->sigma);
    c->cpu = (request->highest - out->centre) / (3 * out->sigma);
    c->cpk = worse(low, c->cpl, high, c->cpu);
    if (overall > 0)
        c->ppk = worse(low, (mean - request->lowest) / (3 * overall), high,
                       (request->highest - mean) / (3 * overall));
}

dw_status dw_chart_draw(const dw_chart_request *request, dw_arena *arena,
                        dw_err *err, dw_chart_reply *reply)
{
    chart c;
    dw_chart_reply out = {0};
    DW_TRY(check(request, err));
    DW_TRY(set_points(request, arena, err, &c));
    DW_TRY(estimate(&c, err, &out));
    out.points = DW_NEW_ARRAY(arena, dw_chart_point, c.count);
    out.signals =
        DW_NEW_ARRAY(arena, dw_chart_signal, c.count * DW_CHART__RULES);
    if (!out.points || !out.signals)
        return dw_fail(err, DW_E_ROOM, "chart", NULL);
    out.points_count = c.count;
    if (request->kind == DW_CHART_CUSUM)
        plot_sums(&c, &out);
    else
        plot_smoothed(&c, request->kind == DW_CHART_EWMA ? request->weight : 1,
                      &out);
    dw_chart__mark(&c.rules,
                   request->kind == DW_CHART_CUSUM ? request->decision_sigmas
                                                   : request->limit_sigmas,
                   c.z, c.count, out.signals, &out.signals_count);
    mark_ranges(&c, &out);
    DW_TRY(set_runs(&c, arena, err, &out));
    out.has_change =
        dw_chart_step(c.averages, c.count, c.point_sigma, &out.change);
    set_capability(request, &out);
    *reply = out;
    return DW_OK;
}
