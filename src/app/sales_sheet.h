/* Sales from a cash register's CSV file. How to read it is a mapping: found out
 * from the file (columns by their names, in English or Spanish, in any order),
 * shown, and confirmed by somebody; or taken as it was found.
 */
#ifndef DW_APP_SALES_SHEET_H
#define DW_APP_SALES_SHEET_H

#include "app/sales.h"

extern const char *const dw_date_order_words[]; /* year day month found_out */
enum {
    DW_DATES_YEAR_FIRST,  /* 2026-03-28 */
    DW_DATES_DAY_FIRST,   /* 28/3/2026 */
    DW_DATES_MONTH_FIRST, /* 3/28/2026 */
    DW_DATES_FIND_OUT
};

extern const char *const dw_separator_words[]; /* comma semicolon tab */
extern const char *const dw_decimal_words[];   /* point comma */

/* Columns count from 1; 0: there is none. */
typedef struct dw_sales_mapping {
    int separator, decimal, dates;
    int64_t product_column, outlet_column, day_column, hour_column,
        balls_column, sold_out_column;
    bool add_up;          /* several rows of a day are parts of it */
    dw_sales_name *names; /* what names in the file mean, beside the known */
    size_t names_count;
} dw_sales_mapping;
extern const dw_shape dw_sales_mapping_shape;

typedef struct dw_sales_sheet {
    dw_sales_mapping mapping; /* as it was read; without names */
    dw_sale_given *rows;
    size_t rows_count;
    dw_sale_refused *refused; /* rows that could not be read */
    size_t refused_count;
} dw_sales_sheet;

/* A mapping from the file's first line: separator, decimal mark, columns by
 * their names; `dates` is DW_DATES_FIND_OUT, columns that were not found are 0.
 * An hour may stand in the column of the day ("2026-03-28 21:40"). Fails as
 * dw_csv_next; DW_E_MISSING for an empty file, DW_E_CONFLICT for two columns of
 * one name. */
dw_status dw_sales_propose(const char *text, size_t bytes, dw_arena *arena,
                           dw_sales_mapping *mapping, dw_err *err);
/* Read it all as `mapping` says; dates may be DW_DATES_FIND_OUT. Messages of
 * refused rows are in `lang`. Fails as dw_csv_next; DW_E_MISSING for a column
 * that must be there (product, day, balls), DW_E_CONFLICT for dates in both
 * orders, DW_E_CHOICE when the order of the dates cannot be told (field "day"),
 * DW_E_TOO_LARGE for more than DW_SALES_MOST rows. */
dw_status dw_sales_read(const char *text, size_t bytes,
                        const dw_sales_mapping *mapping, const char *lang,
                        dw_arena *arena, dw_sales_sheet *sheet, dw_err *err);

#endif
