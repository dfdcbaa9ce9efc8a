/* Has something drifted, since when, and what moved with it? From what the
 * batches and the cold room were read at. */
#include "app/drift_effects.h"
#include "app/rows.h"

#include "doughwright/chart.h"
#include "store/quality.h"

#include <math.h>
#include <stdlib.h>

#define DAY_MS 86400000LL
#define HOUR_MS 3600000LL
/* A shift of half a sigma is seen after 42 points, of one after 10 or 11; a
 * false alarm every 500 (engine/chart.h). */
#define WEIGHT 0.2
#define LIMIT_SIGMAS 2.962
/* Fewer values than this are no row to look at. */
enum { FEWEST = 8 };
/* What moved with it: so many values on each side. */
enum { FEWEST_EACH_SIDE = 4 };

static const char *const what_words[] = {"dough_c", "work_j_per_kg_dough",
                                         "yield_percent", "cold_c", NULL};
enum { OF_DOUGH, OF_WORK, OF_YIELD, OF_COLD };

static const char *const with_words[] = {
    "tap_c", "room_c", "flour_c", "water_off_c", "work_j_per_kg_dough", NULL};
enum { WITH_TAP, WITH_ROOM, WITH_FLOUR, WITH_WATER_OFF, WITH_WORK, WITHS };

/* ---- shapes -------------------------------------------------------------- */

typedef struct asked {
    int what;
    int64_t days;
} asked;
static const dw_field asked_fields[] = {
    DW_F_CHOICE_PRESET(asked, what, what_words, OF_DOUGH, "what to look at"),
    DW_F_WHOLE_PRESET(asked, days, "d", 7, 730, 90, "how far back"),
};
static const dw_shape asked_shape =
    DW_SHAPE("drift_asked", asked, asked_fields, "what to look at");

typedef struct point {
    int64_t batch_id, number, at_ms;
    double value, smoothed;
    bool alarm;
} point;
static const dw_field point_fields[] = {
    DW_F_ID(point, batch_id, "which batch; 0: a reading"),
    DW_F_WHOLE(point, number, "", 0, 1e9, "its number"),
    DW_F_MOMENT(point, at_ms, "when"),
    DW_F_REAL(point, value, "", -1e9, 1e9, "as read; dough_c: off its goal"),
    DW_F_REAL(point, smoothed, "", -1e9, 1e9, "the row up to here"),
    DW_F_YES(point, alarm, false, "smoothed is outside its limits"),
};
static const dw_shape point_shape =
    DW_SHAPE("drift_point", point, point_fields, "one value");

typedef struct companion {
    int what;
    double before, after, strength;
} companion;
static const dw_field companion_fields[] = {
    DW_F_CHOICE(companion, what, with_words, "what moved too"),
    DW_F_REAL(companion, before, "", -1e9, 1e9, "mean"),
    DW_F_REAL(companion, after, "", -1e9, 1e9, "mean"),
    DW_F_REAL(companion, strength, "", 0, 1e9, "in its own errors"),
};
static const dw_shape companion_shape = DW_SHAPE(
    "drift_companion", companion, companion_fields, "what moved with it");

typedef struct step {
    int64_t since_ms, earliest_ms, latest_ms;
    double before, after;
    companion *companions; /* the clearest first */
    size_t companions_count;
} step;
static const dw_field step_fields[] = {
    DW_F_MOMENT(step, since_ms, "the first value after it"),
    DW_F_MOMENT(step, earliest_ms, "nine in ten, from"),
    DW_F_MOMENT(step, latest_ms, "to"),
    DW_F_REAL(step, before, "", -1e9, 1e9, "mean"),
    DW_F_REAL(step, after, "", -1e9, 1e9, "mean"),
    DW_F_MANY_OPT(step, companions, &companion_shape, WITHS,
                  "what moved with it, the clearest first"),
};
static const dw_shape step_shape =
    DW_SHAPE("drift_step", step, step_fields, "since when");

typedef struct series {
    int64_t mixer_id;
    const char *mixer_name;
    double centre, sigma, upper, lower;
    double run_good, run_shifted;
    point *points;
    size_t points_count;
    bool has_step;
    step step;
} series;
static const dw_field series_fields[] = {
    DW_F_ID(series, mixer_id, "0: all"),
    DW_F_TEXT_OPT(series, mixer_name, 60, "its name"),
    DW_F_REAL(series, centre, "", -1e9, 1e9, "before any step"),
    DW_F_REAL(series, sigma, "", 0, 1e9, "of single values"),
    DW_F_REAL(series, upper, "", -1e9, 1e9, "of the smoothed row"),
    DW_F_REAL(series, lower, "", -1e9, 1e9, "of the smoothed row"),
    DW_F_REAL(series, run_good, "", 0, 1e9,
              "values between two false alarms, on average"),
    DW_F_REAL(series, run_shifted, "", 0, 1e9,
              "values until a shift of one sigma is seen"),
    DW_F_MANY(series, points, &point_shape, 0, DW_CHART_VALUES, "in order"),
    DW_F_ONE_OPT(series, step, &step_shape, "a step, if any"),
};
static const dw_shape series_shape =
    DW_SHAPE("drift_series", series, series_fields, "one row of values");

typedef struct drift {
    int what;
    int64_t from_ms, to_ms;
    series *series;
    size_t series_count;
    dw_drift_effect *effects; /* the clearest first */
    size_t effects_count;
} drift;
static const dw_field drift_fields[] = {
    DW_F_CHOICE(drift, what, what_words, "what was looked at"),
    DW_F_MOMENT(drift, from_ms, "from"),
    DW_F_MOMENT(drift, to_ms, "to"),
    DW_F_MANY_OPT(drift, series, &series_shape, 100,
                  "all, then each mixer; none when there are too few values"),
    DW_F_MANY_OPT(drift, effects, &dw_drift_effect_shape, DW_DRIFT_EFFECTS,
                  "whose doing: what is clear, the clearest first"),
};
static const dw_shape drift_shape =
    DW_SHAPE("drift", drift, drift_fields, "what drifted");

/* ---- rows of values ------------------------------------------------------ */

/* Values in order, each with the batch behind it (NULL: a reading). */
typedef struct row {
    point *points;
    const dw_quality_row **batches;
    size_t count, room;
} row;

static dw_status no_room(dw_call *call)
{
    return dw_fail(call->err, DW_E_ROOM, "drift", NULL);
}

static dw_status row_new(dw_call *call, size_t room, row *out)
{
    *out = (row){
        .points = DW_NEW_ARRAY(call->arena, point, room + 1),
        .batches = DW_NEW_ARRAY(call->arena, const dw_quality_row *, room + 1),
        .room = room};
    return out->points && out->batches ? DW_OK : no_room(call);
}

static bool value_of(int what, const dw_quality_row *batch, double *value)
{
    switch (what) {
    case OF_DOUGH:
        *value = batch->dough_c - batch->dough_goal_c;
        return batch->has_dough_c;
    case OF_WORK:
        *value = batch->work_j_per_kg_dough;
        return batch->has_work_j_per_kg_dough;
    case OF_YIELD:
        *value = 100 * (batch->balls_kg + batch->scrap_kg) / batch->dough_kg;
        return batch->has_balls_kg && batch->dough_kg > 0;
    default: return false;
    }
}

static bool companion_of(int with, const dw_quality_row *batch, double *value)
{
    switch (with) {
    case WITH_TAP: *value = batch->tap_c; return batch->has_tap_c;
    case WITH_ROOM: *value = batch->room_c; return batch->has_room_c;
    case WITH_FLOUR: *value = batch->flour_c; return batch->has_flour_c;
    case WITH_WATER_OFF:
        *value = batch->water_c - batch->asked_water_c;
        return batch->has_water_c && batch->has_asked_water_c;
    case WITH_WORK: return value_of(OF_WORK, batch, value);
    default: return false;
    }
}

/* The newest that fit a chart. */
static void add(row *out, const dw_quality_row *batch, point p)
{
    if (out->count == out->room)
        return;
    out->batches[out->count] = batch;
    out->points[out->count++] = p;
}

static dw_status row_of_batches(dw_call *call, int what, int64_t mixer_id,
                                const dw_quality_row *batches, size_t count,
                                row *out)
{
    size_t from = count > DW_CHART_VALUES ? count - DW_CHART_VALUES : 0;
    DW_TRY(row_new(call, count - from, out));
    for (size_t i = from; i < count; i++) {
        double value;
        if ((mixer_id == 0 || batches[i].mixer_id == mixer_id) &&
            value_of(what, &batches[i], &value))
            add(out, &batches[i],
                (point){.batch_id = batches[i].batch_id,
                        .number = batches[i].number,
                        .at_ms = batches[i].stopped_ms,
                        .value = value});
    }
    return DW_OK;
}

/* One an hour at most: closer ones lean on each other. */
static dw_status row_of_readings(dw_call *call, const dw_reading_row *readings,
                                 size_t count, row *out)
{
    size_t kept = 0;
    for (size_t i = 0; i < count; i++)
        if (i == 0 || readings[i].occurred_ms / HOUR_MS !=
                          readings[i - 1].occurred_ms / HOUR_MS)
            kept++;
    size_t skip = kept > DW_CHART_VALUES ? kept - DW_CHART_VALUES : 0;
    DW_TRY(row_new(call, kept - skip, out));
    for (size_t i = 0; i < count; i++) {
        bool first = i == 0 || readings[i].occurred_ms / HOUR_MS !=
                                   readings[i - 1].occurred_ms / HOUR_MS;
        if (first && skip > 0)
            skip--;
        else if (first)
            add(out, NULL,
                (point){.at_ms = readings[i].occurred_ms,
                        .value = readings[i].celsius});
    }
    return DW_OK;
}

/* ---- looking at one ------------------------------------------------------ */

/* Mean and square of its error of the values before or after. */
typedef struct side {
    double count, sum, squares;
} side;

static void side_add(side *s, double value)
{
    s->count++;
    s->sum += value;
    s->squares += value * value;
}

static double side_mean(const side *s)
{
    return s->sum / s->count;
}

/* A thermometer is not read better than a tenth: a row of one value alike is
 * not without error. */
static double side_error2(const side *s, double least)
{
    double mean = side_mean(s);
    double variance = (s->squares - s->count * mean * mean) / (s->count - 1);
    return fmax(variance, least * least) / s->count;
}

static bool look_at_companion(const row *values, int with, size_t split,
                              companion *out)
{
    double value, least = with == WITH_WORK ? 100 : 0.1;
    side before = {0}, after = {0};
    for (size_t i = 0; i < values->count; i++)
        if (values->batches[i] &&
            companion_of(with, values->batches[i], &value))
            side_add(i < split ? &before : &after, value);
    if (before.count < FEWEST_EACH_SIDE || after.count < FEWEST_EACH_SIDE)
        return false;
    double shift = side_mean(&after) - side_mean(&before);
    double error =
        sqrt(side_error2(&before, least) + side_error2(&after, least));
    *out = (companion){with, side_mean(&before), side_mean(&after),
                       fabs(shift) / error};
    return out->strength >= DW_DRIFT_CLEAR;
}

static int clearest_first(const void *a, const void *b)
{
    double x = ((const companion *)a)->strength;
    double y = ((const companion *)b)->strength;
    return (x < y) - (x > y);
}

static dw_status set_step(dw_call *call, int what, const row *values,
                          const dw_chart_change *change, series *out)
{
    step *s = &out->step;
    out->has_step = true;
    *s = (step){.since_ms = values->points[change->index].at_ms,
                .earliest_ms = values->points[change->earliest].at_ms,
                .latest_ms = values->points[change->latest].at_ms,
                .before = change->before,
                .after = change->after,
                .companions = DW_NEW_ARRAY(call->arena, companion, WITHS)};
    if (!s->companions)
        return no_room(call);
    for (int with = 0; with < WITHS; with++)
        if (!(what == OF_WORK && with == WITH_WORK) &&
            look_at_companion(values, with, (size_t)change->index,
                              &s->companions[s->companions_count]))
            s->companions_count++;
    qsort(s->companions, s->companions_count, sizeof(companion),
          clearest_first);
    return DW_OK;
}

static void take_chart(const dw_chart_reply *chart, row *values, series *out)
{
    out->centre = chart->centre;
    out->sigma = chart->sigma;
    out->upper = chart->upper;
    out->lower = chart->lower;
    out->run_good = chart->run_good;
    out->run_shifted = chart->run_shifted;
    out->points = values->points;
    out->points_count = values->count;
    for (size_t i = 0; i < values->count; i++)
        values->points[i].smoothed = chart->points[i].value;
    for (size_t i = 0; i < chart->signals_count; i++)
        values->points[chart->signals[i].index].alarm = true;
}

/* The limits are those of the values before the step. *looked false: too few
 * values, or all alike. */
static dw_status look(dw_call *call, int what, row *values, series *out,
                      bool *looked)
{
    *looked = false;
    if (values->count < FEWEST)
        return DW_OK;
    dw_chart_request request;
    dw_shape_preset(&dw_chart_request_shape, &request);
    request.kind = DW_CHART_EWMA;
    request.weight = WEIGHT;
    request.limit_sigmas = LIMIT_SIGMAS;
    request.values_count = values->count;
    request.values = DW_NEW_ARRAY(call->arena, double, values->count);
    if (!request.values)
        return no_room(call);
    for (size_t i = 0; i < values->count; i++)
        request.values[i] = values->points[i].value;
    dw_chart_reply chart;
    dw_status status = dw_chart_draw(&request, call->arena, call->err, &chart);
    if (status == DW_E_UNREACHABLE)
        return DW_OK;
    DW_TRY(status);
    if (chart.has_change) {
        request.baseline_count = chart.change.index;
        request.has_sigma = true;
        request.sigma = chart.sigma;
        DW_TRY(set_step(call, what, values, &chart.change, out));
        DW_TRY(dw_chart_draw(&request, call->arena, call->err, &chart));
    }
    take_chart(&chart, values, out);
    *looked = true;
    return DW_OK;
}

/* ---- quality.drift ------------------------------------------------------- */

static dw_status find_effects(dw_call *call, const row *of, drift *out)
{
    double *values = DW_NEW_ARRAY(call->arena, double, of->count + 1);
    if (!values)
        return no_room(call);
    for (size_t i = 0; i < of->count; i++)
        values[i] = of->points[i].value;
    return dw_drift_effects(call, values, of->batches, of->count, &out->effects,
                            &out->effects_count);
}

static dw_status look_at_batches(dw_call *call, drift *out)
{
    dw_quality_row *batches;
    dw_mixer_row *mixers;
    size_t count, mixers_count;
    DW_TRY(dw_store_quality_rows(call->store, out->from_ms, out->to_ms,
                                 call->arena, &batches, &count, call->err));
    DW_TRY(dw_rows_get(call, "mixer", &dw_mixer_noun, NULL, 0, "id", &mixers,
                       &mixers_count));
    out->series = DW_NEW_ARRAY(call->arena, series, mixers_count + 1);
    if (!out->series)
        return no_room(call);
    for (size_t i = 0; i <= mixers_count; i++) {
        series *next = &out->series[out->series_count];
        row values;
        bool looked;
        if (i > 0) {
            next->mixer_id = mixers[i - 1].id;
            next->mixer_name = mixers[i - 1].name;
        }
        DW_TRY(row_of_batches(call, out->what, next->mixer_id, batches, count,
                              &values));
        if (i == 0)
            DW_TRY(find_effects(call, &values, out));
        DW_TRY(look(call, out->what, &values, next, &looked));
        out->series_count += looked;
    }
    return DW_OK;
}

static dw_status look_at_cold(dw_call *call, drift *out)
{
    dw_reading_row *readings;
    size_t count;
    row values;
    bool looked;
    DW_TRY(dw_store_quality_cold(call->store, out->from_ms, out->to_ms,
                                 call->arena, &readings, &count, call->err));
    DW_TRY(row_of_readings(call, readings, count, &values));
    out->series = DW_NEW(call->arena, series);
    if (!out->series)
        return no_room(call);
    DW_TRY(look(call, OF_COLD, &values, out->series, &looked));
    out->series_count = looked;
    return DW_OK;
}

static dw_status run_drift(dw_call *call, const void *request, void *reply)
{
    const asked *ask = request;
    drift *out = reply;
    *out = (drift){.what = ask->what,
                   .from_ms = call->now_ms - ask->days * DAY_MS,
                   .to_ms = call->now_ms};
    return ask->what == OF_COLD ? look_at_cold(call, out)
                                : look_at_batches(call, out);
}

const dw_op dw_ops_drift[] = {
    {"quality.drift", DW_OP_READ, &asked_shape, &drift_shape, run_drift,
     "What drifted in the batches of the last weeks, since when, and what "
     "moved with it."},
};
const size_t dw_ops_drift_count = DW_COUNT(dw_ops_drift);
