/* The plan of the shop's next days: what it knows put to the planner. */
#ifndef DW_APP_WEEK_H
#define DW_APP_WEEK_H

#include "app/rows.h"
#include "doughwright/week.h"

typedef struct dw_week_ask {
    int64_t first_day; /* 0: today */
    int64_t days;
    /* Of money, in minor units; the ratio of a lost sale to a ball is the
     * shop's own (service). */
    double dough_cost_per_kg, labour_cost_per_h, start_cost;
    double batch_minutes; /* of the mixer, bowl scraped */
    double close_minutes; /* last box to closed stack */
    double seconds;       /* of the solver */
    int64_t effort;
    bool worths;
    dw_week_batch *batches; /* a plan to be looked at as it is */
    size_t batches_count;
    bool only_these;       /* nothing is added to them */
    dw_week_batch *before; /* the plan that people know */
    size_t before_count;
    double change_cost;
} dw_week_ask;

typedef struct dw_week_product_row {
    int64_t product_id, formula_id;
    const char *name;
    bool known; /* there is a forecast */
} dw_week_product_row;

typedef struct dw_week_room_day {
    int64_t day; /* civil day */
    bool open;
    double hands_minutes, window_minutes;
} dw_week_room_day;

typedef struct dw_week_shop {
    int64_t first_day;
    double lost_to_thrown; /* the shop's figure */
    bool has_boxes, has_slots;
    double boxes, slots;
    dw_week_product_row *products; /* as in plan.products */
    size_t products_count;
    dw_week_room_day *days; /* as in plan.days */
    size_t days_count;
    const char *currency;
    dw_week_reply plan;
} dw_week_shop;

extern const dw_shape dw_week_ask_shape, dw_week_shop_shape;

/* Nothing is written. DW_E_RANGE "formulas", "products", "mixers" when there
 * are more than the planner takes. */
dw_status dw_week_of(dw_call *call, const dw_week_ask *ask,
                     const dw_week_watch *watch, dw_week_shop *out);

#endif
