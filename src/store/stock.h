/* What is in the cold room: counts, stacks and moves as one account. */
#ifndef DW_STORE_STOCK_H
#define DW_STORE_STOCK_H

#include "store/nouns.h"
#include "store/store.h"

typedef struct dw_stock_row {
    int64_t product_id, mixing_day, balls;
} dw_stock_row;
extern const dw_shape dw_stock_row_shape;

/* Balls by product and mixing day. A product's newest count is the truth;
 * stacks put in and balls moved after it are added and taken off. Rows of no
 * balls are left out; what would be below zero is zero. */
dw_status dw_store_stock(dw_store *store, dw_arena *arena, dw_stock_row **rows,
                         size_t *count, dw_err *err);

/* A stack and how many of its balls were moved out of it; of these, how many by
 * no tap. */
typedef struct dw_stack_moved {
    int64_t stack_id, balls, assumed;
} dw_stack_moved;

/* Stacks of that mixing day or later, by product, mixing day and the time they
 * came, and what left each. */
dw_status dw_store_stacks_since(dw_store *store, int64_t mixing_day,
                                dw_arena *arena, dw_stack **rows, size_t *count,
                                dw_err *err);
dw_status dw_store_stacks_moved(dw_store *store, int64_t mixing_day,
                                dw_arena *arena, dw_stack_moved **rows,
                                size_t *count, dw_err *err);

/* When each product that was ever counted was counted last. */
typedef struct dw_stock_counted {
    int64_t product_id, at_ms;
} dw_stock_counted;
dw_status dw_store_stock_counted(dw_store *store, dw_arena *arena,
                                 dw_stock_counted **rows, size_t *count,
                                 dw_err *err);

/* What left a stack since a moment; service: somebody pulled, used or put it
 * back. */
typedef struct dw_stack_went {
    int64_t stack_id, product_id, balls, occurred_ms;
    bool service;
} dw_stack_went;
dw_status dw_store_stacks_went(dw_store *store, int64_t since_ms,
                               dw_arena *arena, dw_stack_went **rows,
                               size_t *count, dw_err *err);

#endif
