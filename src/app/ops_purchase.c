/* What to order of flour, yeast, oil and so on. */
#include "app/purchases.h"

#include "doughwright/buy.h"

static const dw_field line_fields[] = {
    DW_F_ID(dw_purchase, material_id, "which material"),
    DW_F_TEXT(dw_purchase, name, 60, "what people call it"),
    DW_F_WHOLE(dw_purchase, packs, "", 0, 1e9, "to order"),
    DW_F_REAL_OPT(dw_purchase, pack_kg, "kg", 0, 2000, "one pack"),
    DW_F_REAL(dw_purchase, buy_kg, "kg", 0, 1e9, "wanted of the order"),
    DW_F_WHOLE(dw_purchase, order_day, "d", 0, 84200,
               "the last day on which an order is in time"),
    DW_F_WHOLE_OPT(dw_purchase, short_day, "d", 0, 84200,
                   "the first day that is short; null: none"),
    DW_F_YES(dw_purchase, late, false, "even ordered today it comes too late"),
    DW_F_REAL(dw_purchase, lacking_kg, "kg", 0, 1e9,
              "before an order can be here"),
    DW_F_YES(dw_purchase, followed, false,
             "false: no lot says how much came; nothing is taken to be there"),
    DW_F_REAL(dw_purchase, on_hand_kg, "kg", 0, 1e9, "there, not past"),
    DW_F_REAL(dw_purchase, past_kg, "kg", 0, 1e9, "past before it is used"),
    DW_F_REAL(dw_purchase, needed_kg, "kg", 0, 1e9, "in all the days"),
    DW_F_WHOLE(dw_purchase, lead_days, "d", 0, 60, "from order to shelf"),
    DW_F_WHOLE(dw_purchase, cost_minor, "minor units", 0, 1e15, "of the packs"),
};
static const dw_shape line_shape =
    DW_SHAPE("purchase", dw_purchase, line_fields, "a material to order");

static const dw_field list_fields[] = {
    DW_F_MANY_OPT(dw_purchases, lines, &line_shape, 10000,
                  "what is to be ordered soonest first"),
    DW_F_WHOLE(dw_purchases, day, "d", 0, 84000, "business day"),
    DW_F_WHOLE(dw_purchases, days, "", 1, DW_BUY_DAYS_MOST, "looked at"),
    DW_F_WHOLE(dw_purchases, cost_minor, "minor units", 0, 1e15, "in all"),
    DW_F_TEXT(dw_purchases, currency, 3, "ISO 4217 code"),
};
const dw_shape dw_purchases_shape =
    DW_SHAPE("purchases", dw_purchases, list_fields, "what to order");

typedef struct asked {
    int64_t days;
} asked;
static const dw_field asked_fields[] = {
    DW_F_WHOLE_PRESET(asked, days, "", 0, 60, 0,
                      "to last for; 0: the shop's own"),
};
static const dw_shape asked_shape =
    DW_SHAPE("purchase_asked", asked, asked_fields, "for how long");

static dw_status purchase_list(dw_call *call, const void *request, void *reply)
{
    return dw_purchases_read(call, ((const asked *)request)->days, reply);
}

const dw_op dw_ops_purchase[] = {
    {"purchase.list", DW_OP_READ, &asked_shape, &dw_purchases_shape,
     purchase_list, "What to order of each material, and by when."},
};
const size_t dw_ops_purchase_count = DW_COUNT(dw_ops_purchase);
