/* A lot of flour and the water it wants: what was added or held back in its
 * batches carries forward to the next. */
#include "app/batches.h"

dw_status dw_formula_watered(dw_call *call, const dw_formula *formula,
                             double water_percent, dw_formula *watered)
{
    *watered = *formula;
    watered->lines = DW_NEW_ARRAY(call->arena, dw_line, formula->lines_count);
    if (!watered->lines)
        return dw_fail(call->err, DW_E_ROOM, "formula", NULL);
    bool poured = water_percent == 0;
    for (size_t i = 0; i < formula->lines_count; i++) {
        watered->lines[i] = formula->lines[i];
        if (poured || formula->lines[i].kind != DW_WATER)
            continue;
        watered->lines[i].percent += water_percent;
        poured = true;
    }
    return DW_OK;
}

static const char *first_flour(const dw_formula *formula)
{
    for (size_t i = 0; i < formula->lines_count; i++)
        if (formula->lines[i].kind == DW_FLOUR)
            return formula->lines[i].material;
    return NULL;
}

dw_status dw_flour_lot(dw_call *call, const dw_formula *formula,
                       dw_material_lot *lot, bool *found)
{
    dw_material *materials;
    dw_material_lot *lots;
    size_t materials_count, lots_count;
    *found = false;
    DW_TRY(dw_rows_get(call, "material", &dw_material_noun, NULL, 0, "id",
                       &materials, &materials_count));
    for (size_t i = 0; i < materials_count && !*found; i++) {
        if (!dw_text_is(materials[i].name, first_flour(formula)))
            continue;
        DW_TRY(dw_rows_get(call, "material_lot", &dw_material_lot_noun,
                           "material_id", materials[i].id,
                           "received_ms DESC, id DESC", &lots, &lots_count));
        for (size_t j = 0; j < lots_count && !*found; j++) {
            *found = lots[j].open;
            *lot = lots[j];
        }
    }
    return DW_OK;
}

dw_status dw_lot_unknown(dw_call *call, const dw_batch_row *batch,
                         const char **code)
{
    dw_material_lot lot;
    dw_batch_row *batches;
    size_t n;
    *code = NULL;
    if (batch->flour_lot_id == 0)
        return DW_OK;
    DW_TRY(dw_row_get(call, "material_lot", &dw_material_lot_noun,
                      batch->flour_lot_id, "flour_lot_id", &lot));
    DW_TRY(dw_rows_get(call, "batch", &dw_batch_noun, "flour_lot_id", lot.id,
                       "id", &batches, &n));
    for (size_t i = 0; i < n; i++)
        if (batches[i].id != batch->id && batches[i].started_ms != 0)
            return DW_OK;
    *code = lot.code;
    return DW_OK;
}

/* What one batch of the lot wanted: what was planned in and what was poured
 * beside it, percent of its flour. */
static dw_status batch_wanted(dw_call *call, const dw_batch_row *batch,
                              double *percent)
{
    dw_batch_change *changes;
    size_t n;
    DW_TRY(dw_rows_get(call, "batch_change", &dw_batch_change_noun, "batch_id",
                       batch->id, "id", &changes, &n));
    double kg = 0;
    for (size_t i = 0; i < n; i++)
        if (changes[i].kind == DW_CHANGE_WATER)
            kg += changes[i].kg;
    *percent = batch->lot_water_percent + 100 * kg / batch->flour_kg;
    return DW_OK;
}

dw_status dw_lot_learn(dw_call *call, int64_t lot_id)
{
    dw_material_lot lot;
    dw_batch_row *batches;
    size_t n, used = 0;
    DW_TRY(dw_row_get(call, "material_lot", &dw_material_lot_noun, lot_id,
                      "lot_id", &lot));
    DW_TRY(dw_rows_get(call, "batch", &dw_batch_noun, "flour_lot_id", lot_id,
                       "id", &batches, &n));
    double *wanted = DW_NEW_ARRAY(call->arena, double, n);
    if (!wanted)
        return dw_fail(call->err, DW_E_ROOM, "lot", NULL);
    for (size_t i = 0; i < n; i++)
        if (batches[i].started_ms != 0 && batches[i].flour_kg > 0)
            DW_TRY(batch_wanted(call, &batches[i], &wanted[used++]));
    lot.water_correction_percent = dw_learn_lot_water(wanted, used);
    return dw_row_save(call, "material_lot", &dw_material_lot_noun, &lot, NULL);
}
