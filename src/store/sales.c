#include "store/sales.h"

dw_status dw_store_sales_of_days(dw_store *store, int64_t from_day,
                                 int64_t to_day, dw_arena *arena,
                                 dw_sale **rows, size_t *count, dw_err *err)
{
    const dw_arg args[] = {{.name = "$a", .kind = DW_WHOLE, .whole = from_day},
                           {.name = "$b", .kind = DW_WHOLE, .whole = to_day}};
    return dw_store_query(store,
                          "SELECT * FROM sale WHERE day BETWEEN $a AND $b"
                          " ORDER BY day, outlet_id, product_id",
                          args, DW_COUNT(args), &dw_sale_noun, arena, rows,
                          count, err);
}
