/* Stock and what is short, for Count, Today and the handover. */
#ifndef DW_APP_STOCK_H
#define DW_APP_STOCK_H

#include "app/rows.h"
#include "doughwright/cold.h"
#include "store/stock.h"

/* The days of use of a product: its own, or the shop's. */
dw_cold_days dw_product_days(const dw_shop *shop, const dw_product *product);

/* Those a stack was made under; balls of none have the product's of today. */
dw_cold_days dw_stack_days(const dw_shop *shop, const dw_stack *stack,
                           const dw_product *product);

/* Balls of one mixing day. */
typedef struct dw_stock_age {
    int64_t mixing_day, balls;
    int64_t assumed_gone; /* taken to be pulled by the sheet, since the count */
    int readiness;        /* on the day asked for */
    int64_t last_day;
} dw_stock_age;

/* One product: what is there, and what is short on the day it is for. */
typedef struct dw_stock_line {
    int64_t product_id, formula_id;
    const char *name;
    double ball_kg;
    int64_t balls_per_box;
    dw_stock_age *ages;
    size_t ages_count;
    int64_t balls;      /* all that is not past */
    int64_t target_day; /* first day a batch mixed on `day` can be used */
    int64_t build_to;   /* balls to have on that day */
    int64_t usable;     /* balls of now that are inside their days then */
    int64_t need;       /* max(0, build_to - usable) */
} dw_stock_line;
extern const dw_shape dw_stock_line_shape;

/* Every product still made, in the shop's order. */
dw_status dw_stock_of(dw_call *call, const dw_shop *shop, int64_t day,
                      dw_stock_line **lines, size_t *count);

/* 0 Monday .. 6 Sunday of a civil day. */
int64_t dw_weekday(int64_t day);
/* The business day of now. */
dw_status dw_today(dw_call *call, int64_t *day);
/* The business day of a moment in the shop's zone and cut-over. */
dw_status dw_shop_day(dw_call *call, const dw_shop *shop, int64_t at_ms,
                      int64_t *day);

#endif
