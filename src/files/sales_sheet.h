/* Sales from a cash register's CSV file: columns by their names, in English or
 * Spanish, in any order; what the file leaves open (separator, decimal mark,
 * order of a date) is found out and told.
 */
#ifndef DW_FILES_SALES_SHEET_H
#define DW_FILES_SALES_SHEET_H

#include "app/sales.h"

extern const char *const dw_date_order_words[]; /* year day month found_out */
enum {
    DW_DATES_YEAR_FIRST,  /* 2026-03-28 */
    DW_DATES_DAY_FIRST,   /* 28/3/2026 */
    DW_DATES_MONTH_FIRST, /* 3/28/2026 */
    DW_DATES_FIND_OUT
};

typedef struct dw_sales_sheet {
    char separator; /* , ; or tab */
    char decimal;   /* . or , */
    int dates;      /* which order was read */
    dw_sale_given *rows;
    size_t rows_count;
    dw_sale_refused *refused; /* rows that could not be read */
    size_t refused_count;
} dw_sales_sheet;

/* Read it all. `dates` is DW_DATES_FIND_OUT or what somebody knows. Messages of
 * refused rows are in `lang`. Fails as dw_csv_next; DW_E_MISSING for a column
 * that is not there (product, day, balls), DW_E_CONFLICT for one that comes
 * twice or dates in both orders, DW_E_CHOICE when the order of the dates cannot
 * be told (field "day"), DW_E_TOO_LARGE for more than DW_SALES_MOST rows. */
dw_status dw_sales_read(const char *text, size_t bytes, int dates,
                        const char *lang, dw_arena *arena,
                        dw_sales_sheet *sheet, dw_err *err);

#endif
