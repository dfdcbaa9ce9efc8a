/* The purchase list: what to order of each material, and by when. */
#ifndef DW_APP_PURCHASES_H
#define DW_APP_PURCHASES_H

#include "app/rows.h"

typedef struct dw_purchase {
    int64_t material_id;
    const char *name;
    bool followed; /* false: no lot says how much came, so nothing is taken
                      to be there */
    double on_hand_kg, past_kg, needed_kg;
    bool has_short_day;
    int64_t short_day, order_day; /* civil days */
    bool late;
    double buy_kg, lacking_kg;
    int64_t packs;
    bool has_pack_kg;
    double pack_kg;
    int64_t lead_days, cost_minor; /* of the packs */
} dw_purchase;

typedef struct dw_purchases {
    dw_purchase *lines; /* what is to be ordered soonest first */
    size_t lines_count;
    int64_t day, days, cost_minor;
    const char *currency;
} dw_purchases;
extern const dw_shape dw_purchases_shape;

/* For the planned batches and, on days without any, for what is expected to be
 * wanted once each day's dough is ready; days 0: the shop's own. */
dw_status dw_purchases_read(dw_call *call, int64_t days, dw_purchases *out);

#endif
