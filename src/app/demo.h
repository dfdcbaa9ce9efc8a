/* The demo: an invented business with a past. The shop comes from a file; this
 * makes twelve months of sales and the last days of the batch book, from a
 * seed. The same seed, shop and moment give the same business. The model and
 * its numbers: docs/models/demo.md.
 */
#ifndef DW_APP_DEMO_H
#define DW_APP_DEMO_H

#include "app/load.h"
#include "doughwright/chance.h"

/* ---- demand (demo_sales.c) ----------------------------------------------- */

enum { DW_DEMO_DAYS = 365, DW_DEMO_BOOK_DAYS = 10 };

/* What one product sells on a mean day, all outlets together, and where. */
typedef struct dw_demo_place {
    uint64_t seed;
    int64_t last_day; /* the newest day of the twelve months */
    double balls;     /* of the product on a mean day, all outlets */
    size_t product, outlet, outlets;
} dw_demo_place;

/* Mean of the weekday (0 Monday) against the mean of the week; they sum to 7.
 */
extern const double dw_demo_weekday[7];
/* Expected balls of that day. */
double dw_demo_mean(const dw_demo_place *place, int64_t day);
/* What was sold; `sold_out`: there was more demand than balls. */
int64_t dw_demo_sold(const dw_demo_place *place, int64_t day, bool *sold_out);

/* ---- the business (demo.c, demo_book.c) ---------------------------------- */

typedef struct dw_demo_request {
    int64_t seed, now_ms; /* now_ms 0: the moment of the call */
    dw_shop_file shop;
} dw_demo_request;

typedef struct dw_demo_reply {
    const char *name;
    int64_t day, sales, batches;
} dw_demo_reply;

extern const dw_shape dw_demo_request_shape, dw_demo_reply_shape;

/* DW_E_CONFLICT unless the database is empty. */
dw_status dw_demo_make(dw_call *call, const dw_demo_request *request,
                       dw_demo_reply *reply);

/* The batch book of the last days, what is in the cold room, and what is on
 * today. *batches are counted. `call` stands at the demo's now. */
dw_status dw_demo_book(dw_call *call, uint64_t seed, int64_t *batches);

#endif
