/* Small help for the operations: stored rows by noun, with short calls. */
#ifndef DW_APP_ROWS_H
#define DW_APP_ROWS_H

#include "app/op.h"
#include "store/nouns.h"
#include "store/store.h"

/* The reply of an operation that made or changed one row. */
typedef struct dw_made {
    int64_t id;
} dw_made;
extern const dw_shape dw_made_shape;
/* The request of an operation on one row. */
extern const dw_shape dw_made_request_shape;
/* The request of an operation on a business day; 0: today. */
typedef struct dw_day_asked {
    int64_t day;
} dw_day_asked;
extern const dw_shape dw_day_asked_shape;

/* Add a row when its id is 0, else write over the row of that id. */
dw_status dw_row_save(dw_call *call, const char *table, const dw_shape *shape,
                      const void *row, int64_t *id);
/* One row; DW_E_NOT_FOUND with `field`. */
dw_status dw_row_get(dw_call *call, const char *table, const dw_shape *shape,
                     int64_t id, const char *field, void *row);
/* The rows whose `column` is `value`; column NULL: all. */
dw_status dw_rows_get(dw_call *call, const char *table, const dw_shape *shape,
                      const char *column, int64_t value, const char *order,
                      void *rows, size_t *count);

/* The shop's own row; DW_E_NOT_FOUND "shop" in an empty database. */
dw_status dw_shop_get(dw_call *call, dw_shop *shop);

#endif
