/* Sales by names, as a cash register's file has them. */
#ifndef DW_APP_SALES_H
#define DW_APP_SALES_H

#include "app/rows.h"

typedef struct dw_sale_given {
    int64_t line;       /* where it stands in its file, for what is refused */
    const char *outlet; /* NULL: the only outlet there is */
    const char *product;
    int64_t day, balls;
    bool sold_out;
} dw_sale_given;

/* A row that was kept aside, and why. */
typedef struct dw_sale_refused {
    int64_t line;
    const char *field, *value, *message;
} dw_sale_refused;
extern const dw_shape dw_sale_refused_shape;

enum { DW_SALES_MOST = 60000 };

typedef struct dw_sales_given {
    dw_sale_given *rows;
    size_t rows_count;
} dw_sales_given;

typedef struct dw_sales_taken {
    int64_t added, changed, same;
    dw_sale_refused *refused;
    size_t refused_count;
} dw_sales_taken;

extern const dw_shape dw_sales_given_shape, dw_sales_taken_shape;

/* Good rows are written, one for an outlet, product and day: the same row
 * again changes nothing, another number replaces. Rows with a name that is not
 * there, and rows that contradict one before, are refused one by one. */
dw_status dw_sales_take(dw_call *call, const dw_sales_given *given,
                        dw_sales_taken *taken);

#endif
