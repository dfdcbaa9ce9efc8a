#include "app/taught.h"

#include "app/batches.h"

#include <math.h>

/* A narrower subject is believed from this many readings that count. */
#define ENOUGH 3
#define CLOSED_H_W_PER_M2_K 3
/* The band draws evenly: nine parts in ten of it are the middle 90 percent. */
#define OF_RANGE 0.9

dw_status dw_taught_read(dw_call *call, dw_taught *taught)
{
    return dw_rows_get(call, "taught", &dw_taught_noun, NULL, 0, "id",
                       &taught->rows, &taught->count);
}

const dw_taught_row *dw_taught_find(const dw_taught *taught, int what)
{
    for (size_t i = 0; i < taught->count; i++)
        if (taught->rows[i].what == what && !taught->rows[i].has_yeast)
            return &taught->rows[i];
    return NULL;
}

static const dw_taught_row *find_key(const dw_taught *taught, int what,
                                     int yeast, int64_t formula_id,
                                     int64_t lot_id, int64_t least)
{
    for (size_t i = 0; i < taught->count; i++) {
        const dw_taught_row *row = &taught->rows[i];
        if (row->what == what && row->has_yeast && row->yeast == yeast &&
            row->formula_id == formula_id && row->lot_id == lot_id &&
            row->used + row->doubted >= least)
            return row;
    }
    return NULL;
}

const dw_taught_row *dw_taught_yeast(const dw_taught *taught, int what,
                                     const dw_yeast_key *key)
{
    const dw_taught_row *row = NULL;
    if (key->lot_id)
        row = find_key(taught, what, key->yeast, 0, key->lot_id, ENOUGH);
    if (!row && key->formula_id)
        row = find_key(taught, what, key->yeast, key->formula_id, 0, ENOUGH);
    return row ? row : find_key(taught, what, key->yeast, 0, 0, 1);
}

dw_stack_h dw_taught_h(const dw_taught *taught, const dw_shop *shop)
{
    const dw_taught_row *open = dw_taught_find(taught, DW_TAUGHT_OFFSET_H);
    const dw_taught_row *closed = dw_taught_find(taught, DW_TAUGHT_CLOSED_H);
    return (dw_stack_h){open ? open->mean : shop->open_h_w_per_m2_k,
                        closed ? closed->mean : CLOSED_H_W_PER_M2_K};
}

bool dw_formula_yeast(const dw_formula *formula, int *yeast)
{
    size_t found = 0;
    for (size_t i = 0; i < formula->lines_count; i++) {
        if (!dw_line_kind_is_yeast(formula->lines[i].kind) ||
            formula->lines[i].percent == 0)
            continue;
        *yeast = formula->lines[i].kind;
        found++;
    }
    return found == 1;
}

dw_status dw_batch_yeast_key(dw_call *call, const dw_batch_row *batch,
                             dw_yeast_key *key)
{
    dw_formula_version version;
    dw_batch_weighing *rows;
    size_t n;
    DW_TRY(dw_row_get(call, "formula_version", &dw_formula_version_noun,
                      batch->version_id, "version_id", &version));
    DW_TRY(dw_rows_get(call, "batch_weighing", &dw_batch_weighing_noun,
                       "batch_id", batch->id, "id", &rows, &n));
    key->formula_id = version.formula_id;
    key->lot_id = 0;
    for (size_t i = 0; i < n; i++)
        if (dw_line_kind_is_yeast(rows[i].kind) && rows[i].lot_id > key->lot_id)
            key->lot_id = rows[i].lot_id;
    return DW_OK;
}

/* `unit` of the parameter is one of the row. */
static dw_life_range range_of(const dw_taught_row *row, double unit,
                              size_t parameter, double usual)
{
    const dw_ferment_parameter *known = &dw_ferment_parameters[parameter];
    const dw_field *field = &dw_ferment_model_shape.fields[parameter];
    double value = unit * row->mean;
    double below =
        fmin(unit * (row->mean - row->low) / OF_RANGE, usual - known->low);
    double above =
        fmin(unit * (row->high - row->mean) / OF_RANGE, known->high - usual);
    return (dw_life_range){field->name, fmax(field->low, value - below),
                           fmin(field->high, value + above)};
}

static size_t parameter_of(const char *name)
{
    const dw_field *field = dw_shape_find(&dw_ferment_model_shape, name);
    DW_ASSERT(field);
    return (size_t)(field - dw_ferment_model_shape.fields);
}

void dw_taught_model_of(const dw_taught *taught, const dw_yeast_key *key,
                        dw_taught_model *model)
{
    dw_ferment_model usual;
    dw_ferment_model_preset(&usual);
    *model = (dw_taught_model){.model = usual};
    const dw_taught_row *activity =
        dw_taught_yeast(taught, DW_TAUGHT_ACTIVITY, key);
    const dw_taught_row *cold = dw_taught_yeast(taught, DW_TAUGHT_F_TMIN, key);
    if (!activity || !cold)
        return;
    model->activity = activity;
    model->f_Tmin = cold;
    model->model.q30 = usual.q30 * activity->mean;
    model->model.f_Tmin = cold->mean;
    model->ranges[0] =
        range_of(activity, usual.q30, parameter_of("q30"), usual.q30);
    model->ranges[1] = range_of(cold, 1, parameter_of("f_Tmin"), usual.f_Tmin);
    model->ranges_count = DW_TAUGHT_RANGES;
}
