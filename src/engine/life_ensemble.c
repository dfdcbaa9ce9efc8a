#include "engine/life_ensemble.h"
#include "doughwright/chance.h"

#include <math.h>

static void shuffle(size_t *order, size_t count, uint64_t seed)
{
    dw_chance chance = {seed};
    for (size_t i = 0; i < count; i++)
        order[i] = i;
    for (size_t i = count; i > 1; i--) {
        size_t j = (size_t)(dw_chance_bits(&chance) % i);
        size_t kept = order[i - 1];
        order[i - 1] = order[j];
        order[j] = kept;
    }
}

/* The value at rank u in (0, 1) of a spread whose middle is `value`. */
static double spread(double u, double low, double value, double high)
{
    if (u < 0.5)
        return low + (value - low) * 2 * u;
    return value + (high - value) * (2 * u - 1);
}

static double value_of(const dw_ferment_model *model, const dw_field *field)
{
    double value;
    memcpy(&value, (const char *)model + field->offset, sizeof value);
    return value;
}

/* Between what a parameter is spread; low = high: it is known. */
static void edges_of(const dw_life_request *request, size_t parameter,
                     double *low, double *high)
{
    const dw_ferment_parameter *usual = &dw_ferment_parameters[parameter];
    const dw_field *field = &dw_ferment_model_shape.fields[parameter];
    double value = value_of(&request->model, field);
    *low = value == field->preset ? usual->low : value;
    *high = value == field->preset ? usual->high : value;
    for (size_t i = 0; i < request->ranges_count; i++) {
        if (!dw_text_is(request->ranges[i].parameter, field->name))
            continue;
        *low = request->ranges[i].low;
        *high = request->ranges[i].high;
    }
}

static void draw_one(const dw_life_request *request, size_t parameter,
                     const size_t *order, dw_ferment_model *members)
{
    const dw_field *field = &dw_ferment_model_shape.fields[parameter];
    double value = value_of(&request->model, field), low, high;
    edges_of(request, parameter, &low, &high);
    size_t count = (size_t)request->members;
    for (size_t i = 0; i < count && high > low; i++) {
        double u = ((double)order[i] + 0.5) / (double)count;
        double drawn = spread(u, low, value, high);
        memcpy((char *)&members[i] + field->offset, &drawn, sizeof drawn);
    }
}

bool dw_life__draw(const dw_life_request *request, dw_ferment_model *members,
                   dw_arena *arena)
{
    size_t count = (size_t)request->members;
    size_t *order = DW_NEW_ARRAY(arena, size_t, count);
    if (!order)
        return false;
    for (size_t i = 0; i < count; i++)
        members[i] = request->model;
    for (size_t p = 0; p < DW_FERMENT_PARAMETER_COUNT; p++) {
        shuffle(order, count, p + 1);
        draw_one(request, p, order, members);
    }
    return true;
}

dw_status dw_life__check_ranges(const dw_life_request *request, dw_err *err)
{
    for (size_t i = 0; i < request->ranges_count; i++) {
        const dw_life_range *range = &request->ranges[i];
        const dw_field *field =
            dw_shape_find(&dw_ferment_model_shape, range->parameter);
        if (!field) {
            dw_fail(err, DW_E_CHOICE, "parameter", range->parameter);
            return dw_err_within_item(err, "ranges", i);
        }
        double value = value_of(&request->model, field);
        if (dw_check_range(err, "low", range->low, field->low, value) !=
                DW_OK ||
            dw_check_range(err, "high", range->high, value, field->high) !=
                DW_OK)
            return dw_err_within_item(err, "ranges", i);
    }
    return DW_OK;
}

/* Shell sort: short lists, no recursion, nothing allocated. */
static void sort(double *list, size_t count)
{
    for (size_t gap = count / 2; gap > 0; gap /= 2)
        for (size_t i = gap; i < count; i++) {
            double value = list[i];
            size_t j = i;
            for (; j >= gap && list[j - gap] > value; j -= gap)
                list[j] = list[j - gap];
            list[j] = value;
        }
}

/* Of a sorted list, straight between ranks; INFINITY when that lies between
 * lives that do not come to it. */
static double quantile(const double *sorted, size_t count, double part)
{
    double rank = part * (double)(count - 1);
    size_t below = (size_t)rank;
    size_t above = below + 1 < count ? below + 1 : below;
    double rest = rank - (double)below;
    if (rest <= 0)
        return sorted[below];
    return sorted[below] + rest * (sorted[above] - sorted[below]);
}

static bool band_curve(double *values, size_t members, size_t rows,
                       dw_arena *arena, dw_band_curve *curve)
{
    curve->p05 = DW_NEW_ARRAY(arena, double, rows);
    curve->p50 = DW_NEW_ARRAY(arena, double, rows);
    curve->p95 = DW_NEW_ARRAY(arena, double, rows);
    if (!curve->p05 || !curve->p50 || !curve->p95)
        return false;
    curve->p05_count = curve->p50_count = curve->p95_count = rows;
    for (size_t row = 0; row < rows; row++) {
        double *list = values + row * members;
        sort(list, members);
        curve->p05[row] = quantile(list, members, 0.05);
        curve->p50[row] = quantile(list, members, 0.50);
        curve->p95[row] = quantile(list, members, 0.95);
    }
    return true;
}

static double tell(double time_h, bool *has)
{
    *has = isfinite(time_h);
    return *has ? time_h : 0;
}

static dw_band_moment band_moment(double *times, size_t members)
{
    dw_band_moment moment;
    sort(times, members);
    moment.p05 = tell(quantile(times, members, 0.05), &moment.has_p05);
    moment.p50 = tell(quantile(times, members, 0.50), &moment.has_p50);
    moment.p95 = tell(quantile(times, members, 0.95), &moment.has_p95);
    return moment;
}

static void band_window(const dw_life_request *request,
                        const dw_life__moments *moments, size_t members,
                        double *times, dw_band_window *band)
{
    for (size_t i = 0; i < members; i++) {
        dw_window w;
        dw_life__window_of(request, &moments[i], &w);
        times[i] = w.has_ready_h ? w.ready_h : INFINITY;
        times[members + i] = w.has_best_from_h ? w.best_from_h : INFINITY;
        times[2 * members + i] = w.has_best_to_h ? w.best_to_h : INFINITY;
        times[3 * members + i] = w.has_use_first_h ? w.use_first_h : INFINITY;
        times[4 * members + i] = w.has_end_h ? w.end_h : INFINITY;
    }
    band->ready_h = band_moment(times, members);
    band->best_from_h = band_moment(times + members, members);
    band->best_to_h = band_moment(times + 2 * members, members);
    band->use_first_h = band_moment(times + 3 * members, members);
    band->end_h = band_moment(times + 4 * members, members);
}

bool dw_life__band_of(const dw_life_request *request,
                      const dw_life__moments *moments, double *gas,
                      double *volume, size_t rows, dw_arena *arena,
                      dw_life_band *band)
{
    size_t members = (size_t)request->members;
    double *times = DW_NEW_ARRAY(arena, double, 5 * members);
    if (!times ||
        !band_curve(gas, members, rows, arena, &band->gas_ml_per_100g_flour) ||
        !band_curve(volume, members, rows, arena, &band->volume_ratio))
        return false;
    band->members = request->members;
    band_window(request, moments, members, times, &band->window);
    return true;
}
