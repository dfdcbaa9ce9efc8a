/* Orders and drops by day, boxes by outlet. */
#ifndef DW_STORE_DROPS_H
#define DW_STORE_DROPS_H

#include "store/nouns.h"
#include "store/store.h"

/* Of drops of those days, in the order they were placed or loaded. */
dw_status dw_store_orders_of_days(dw_store *store, int64_t from_day,
                                  int64_t to_day, dw_arena *arena,
                                  dw_outlet_order **rows, size_t *count,
                                  dw_err *err);
dw_status dw_store_drops_of_days(dw_store *store, int64_t from_day,
                                 int64_t to_day, dw_arena *arena,
                                 dw_drop_made **rows, size_t *count,
                                 dw_err *err);

/* What an outlet has to give back, and what was credited to it. */
typedef struct dw_outlet_owes {
    int64_t outlet_id, boxes, credited_balls;
} dw_outlet_owes;
extern const dw_shape dw_outlet_owes_shape;
dw_status dw_store_outlets_owe(dw_store *store, dw_arena *arena,
                               dw_outlet_owes **rows, size_t *count,
                               dw_err *err);

dw_status dw_store_calendar_key_find(dw_store *store, const char *key,
                                     dw_arena *arena, dw_calendar_key *row,
                                     bool *found, dw_err *err);

#endif
