#include "store/drops.h"

static dw_status of_days(dw_store *store, const char *sql, int64_t from_day,
                         int64_t to_day, const dw_shape *shape, dw_arena *arena,
                         void *rows, size_t *count, dw_err *err)
{
    const dw_arg args[] = {{.name = "$a", .kind = DW_WHOLE, .whole = from_day},
                           {.name = "$b", .kind = DW_WHOLE, .whole = to_day}};
    return dw_store_query(store, sql, args, DW_COUNT(args), shape, arena, rows,
                          count, err);
}

dw_status dw_store_orders_of_days(dw_store *store, int64_t from_day,
                                  int64_t to_day, dw_arena *arena,
                                  dw_outlet_order **rows, size_t *count,
                                  dw_err *err)
{
    return of_days(store,
                   "SELECT * FROM outlet_order WHERE day BETWEEN $a AND $b"
                   " ORDER BY placed_ms, id",
                   from_day, to_day, &dw_outlet_order_noun, arena, rows, count,
                   err);
}

dw_status dw_store_drops_of_days(dw_store *store, int64_t from_day,
                                 int64_t to_day, dw_arena *arena,
                                 dw_drop_made **rows, size_t *count,
                                 dw_err *err)
{
    return of_days(store,
                   "SELECT * FROM drop_made WHERE day BETWEEN $a AND $b"
                   " ORDER BY loaded_ms, id",
                   from_day, to_day, &dw_drop_made_noun, arena, rows, count,
                   err);
}

static const dw_field owes_fields[] = {
    DW_F_ID(dw_outlet_owes, outlet_id, "who"),
    DW_F_WHOLE(dw_outlet_owes, boxes, "", -1e9, 1e9,
               "boxes out, less those back"),
    DW_F_WHOLE(dw_outlet_owes, credited_balls, "", 0, 1e9,
               "refused and credited, ever"),
};
const dw_shape dw_outlet_owes_shape =
    DW_SHAPE("outlet_owes", dw_outlet_owes, owes_fields,
             "what stands between the shop and an outlet");

dw_status dw_store_outlets_owe(dw_store *store, dw_arena *arena,
                               dw_outlet_owes **rows, size_t *count,
                               dw_err *err)
{
    static const char sql[] =
        "SELECT o.id AS outlet_id,"
        " (SELECT coalesce(sum(m.boxes_out - m.boxes_back), 0)"
        " FROM box_move m WHERE m.outlet_id = o.id) AS boxes,"
        " (SELECT coalesce(sum(l.refused * l.credited), 0)"
        " FROM drop_line l JOIN drop_made d ON d.id = l.drop_id"
        " WHERE d.outlet_id = o.id) AS credited_balls"
        " FROM outlet o ORDER BY o.id";
    return dw_store_query(store, sql, NULL, 0, &dw_outlet_owes_shape, arena,
                          rows, count, err);
}

dw_status dw_store_calendar_key_find(dw_store *store, const char *key,
                                     dw_arena *arena, dw_calendar_key *row,
                                     bool *found, dw_err *err)
{
    const dw_arg args[] = {{.name = "$a", .kind = DW_TEXT, .text = key}};
    dw_calendar_key *rows;
    size_t count;
    DW_TRY(dw_store_query(store, "SELECT * FROM calendar_key WHERE key = $a",
                          args, DW_COUNT(args), &dw_calendar_key_noun, arena,
                          &rows, &count, err));
    *found = count > 0;
    if (*found)
        *row = rows[0];
    return DW_OK;
}
