/* Balls sold, by outlet, product and day. */
#ifndef DW_STORE_SALES_H
#define DW_STORE_SALES_H

#include "store/nouns.h"
#include "store/store.h"

/* Days from..to, by day, outlet and product. */
dw_status dw_store_sales_of_days(dw_store *store, int64_t from_day,
                                 int64_t to_day, dw_arena *arena,
                                 dw_sale **rows, size_t *count, dw_err *err);

#endif
