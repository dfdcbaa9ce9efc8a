/* What to buy of a material, and by when, so that it does not run out.
 *
 * Lots on the shelf are used oldest date first; what passes its date is not
 * used. A purchase arrives `lead_days` after it is ordered, and is ordered so
 * that it is there on the first day that would be short. It is whole packs, for
 * as many days as it keeps or as are looked at. Days are counted from today, 0.
 */
#ifndef DOUGHWRIGHT_BUY_H
#define DOUGHWRIGHT_BUY_H

#include "doughwright/field.h"

enum { DW_BUY_DAYS_MOST = 120 };

typedef struct dw_buy_lot {
    double kg;
    bool has_last_day;
    int64_t last_day; /* it may be used; below 0: past already */
} dw_buy_lot;

typedef struct dw_buy_ask {
    double *needs_kg; /* each day from today; borrowed */
    size_t needs_kg_count;
    dw_buy_lot *lots; /* borrowed */
    size_t lots_count;
    int64_t lead_days; /* 0: the same day */
    bool has_keep_days;
    int64_t keep_days; /* a purchase is used within, 1 or more */
    bool has_pack_kg;
    double pack_kg; /* none: by the kilogram */
} dw_buy_ask;

typedef struct dw_buy_reply {
    double on_hand_kg;  /* not past */
    double past_kg;     /* of the lots, past before it is used */
    double needed_kg;   /* in all the days */
    bool has_short_day; /* false: nothing is to be bought */
    int64_t short_day;  /* the first that is short */
    int64_t order_day;  /* the last on which an order is in time; below 0: it
                           was yesterday or before */
    bool late;          /* even ordered today it comes after short_day */
    double buy_kg;      /* wanted of the purchase */
    int64_t packs;      /* 0 without pack_kg */
    double lacking_kg;  /* before it can be here */
} dw_buy_reply;
extern const dw_shape dw_buy_ask_shape, dw_buy_reply_shape;

/* The arena needs 16 bytes a lot and day. DW_E_ROOM. */
dw_status dw_buy_plan(const dw_buy_ask *ask, dw_arena *arena,
                      dw_buy_reply *reply, dw_err *err);

#endif
