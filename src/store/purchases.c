#include "store/purchases.h"

static const dw_field used_fields[] = {
    DW_F_ID(dw_material_used, lot_id, "of which lot; 0: not told"),
    DW_F_WHOLE(dw_material_used, day, "d", 0, 84000, "mixed on"),
    DW_F_MOMENT(dw_material_used, started_ms, "begun; 0: planned"),
    DW_F_TEXT(dw_material_used, material, 80, "of what"),
    DW_F_REAL(dw_material_used, kg, "kg", 0, 1e9, "how much"),
    DW_F_YES(dw_material_used, planned, false, "still to be mixed"),
};
static const dw_shape used_shape = DW_SHAPE("material_used", dw_material_used,
                                            used_fields, "what batches took");

dw_status dw_store_materials_used(dw_store *store, int64_t since_ms,
                                  int64_t from_day, dw_arena *arena,
                                  dw_material_used **rows, size_t *count,
                                  dw_err *err)
{
    static const char sql[] =
        "SELECT w.lot_id, b.day, b.started_ms, w.material,"
        " sum(coalesce(w.weighed_kg, w.planned_kg)) AS kg,"
        " b.state = 'planned' AS planned"
        " FROM batch_weighing w JOIN batch b ON b.id = w.batch_id"
        " WHERE b.state != 'abandoned' AND"
        " CASE WHEN b.state = 'planned' THEN b.day >= $b"
        " ELSE b.started_ms >= $a END"
        " GROUP BY b.id, w.lot_id, w.material";
    const dw_arg args[] = {{.name = "$a", .kind = DW_WHOLE, .whole = since_ms},
                           {.name = "$b", .kind = DW_WHOLE, .whole = from_day}};
    return dw_store_query(store, sql, args, DW_COUNT(args), &used_shape, arena,
                          rows, count, err);
}
