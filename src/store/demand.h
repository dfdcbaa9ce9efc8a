/* What is known of past demand, put together from sales, marks and counts. */
#ifndef DW_STORE_DEMAND_H
#define DW_STORE_DEMAND_H

#include "store/nouns.h"
#include "store/store.h"

/* Balls of one product on one day, all outlets (or one of them) together. */
typedef struct dw_demand_row {
    int64_t product_id, day, balls;
    bool sold_out; /* at any of them: then balls is "at least" */
} dw_demand_row;

/* Before `before_day`, by product and day: what was sold, with lost sales that
 * were counted, and what marks say of sold-out days. outlet_id 0: all. */
dw_status dw_store_demand(dw_store *store, int64_t outlet_id,
                          int64_t before_day, dw_arena *arena,
                          dw_demand_row **rows, size_t *count, dw_err *err);
/* The same from the counts of two evenings in a row: of the balls that were
 * there on the first, those that are gone on the second and were not thrown
 * away. Sold out when none is left. */
dw_status dw_store_demand_counted(dw_store *store, int64_t before_day,
                                  dw_arena *arena, dw_demand_row **rows,
                                  size_t *count, dw_err *err);
/* Sales by hour from one day to another, by product, day and hour; outlet_id 0:
 * all outlets together. */
dw_status dw_store_demand_hours(dw_store *store, int64_t outlet_id,
                                int64_t from_day, int64_t to_day,
                                dw_arena *arena, dw_sale_hour **rows,
                                size_t *count, dw_err *err);
/* Forget the hours of one outlet, product and day. */
dw_status dw_store_forget_hours(dw_store *store, int64_t outlet_id,
                                int64_t product_id, int64_t day, dw_err *err);

#endif
