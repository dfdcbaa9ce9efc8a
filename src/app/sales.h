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
    bool has_hour;
    int64_t hour; /* of the shop's clock */
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
    bool add_up; /* rows of one outlet, product and day are parts of it; rows
                    with an hour always are */
} dw_sales_given;

typedef struct dw_sales_taken {
    int64_t added, changed, same;
    int64_t passed_over; /* rows of what is not made of our dough */
    dw_sale_refused *refused;
    size_t refused_count;
} dw_sales_taken;

extern const dw_shape dw_sale_given_shape, dw_sales_given_shape,
    dw_sales_taken_shape;

/* Good rows are written, one for an outlet, product and day: the same row
 * again changes nothing, another number replaces. Names are the shop's own or
 * those that a register's file is known to use (sales_name). Rows with a name
 * that is not there, and rows that contradict one before, are refused one by
 * one. A shop without outlets gets one of its own name. */
dw_status dw_sales_take(dw_call *call, const dw_sales_given *given,
                        dw_sales_taken *taken);

#endif
