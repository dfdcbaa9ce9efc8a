#include "doughwright/buy.h"

#include <math.h>

static const double DUST_KG = 1e-6; /* sums of weighings are not exact */

static const dw_field lot_fields[] = {
    DW_F_REAL(dw_buy_lot, kg, "kg", 0, 1e6, "on the shelf"),
    DW_F_WHOLE_OPT(dw_buy_lot, last_day, "d", -100000, 100000,
                   "it may be used, from today 0"),
};
static const dw_shape lot_shape =
    DW_SHAPE("buy_lot", dw_buy_lot, lot_fields, "a lot on the shelf");

static const dw_field ask_fields[] = {
    DW_F_REALS(dw_buy_ask, needs_kg, "kg", 0, 1e6, "each day from today"),
    DW_F_MANY(dw_buy_ask, lots, &lot_shape, 0, 1000, "on the shelf"),
    DW_F_WHOLE_PRESET(dw_buy_ask, lead_days, "d", 0, 60, 1,
                      "from the order to the shelf"),
    DW_F_WHOLE_OPT(dw_buy_ask, keep_days, "d", 1, 1000,
                   "a purchase is used within"),
    DW_F_REAL_OPT(dw_buy_ask, pack_kg, "kg", 0.001, 2000, "one pack"),
};
const dw_shape dw_buy_ask_shape =
    DW_SHAPE("buy_ask", dw_buy_ask, ask_fields, "a material and its use");

static const dw_field reply_fields[] = {
    DW_F_REAL(dw_buy_reply, on_hand_kg, "kg", 0, 1e9, "not past"),
    DW_F_REAL(dw_buy_reply, past_kg, "kg", 0, 1e9, "past before it is used"),
    DW_F_REAL(dw_buy_reply, needed_kg, "kg", 0, 1e9, "in all the days"),
    DW_F_WHOLE_OPT(dw_buy_reply, short_day, "d", 0, DW_BUY_DAYS_MOST,
                   "the first that is short"),
    DW_F_WHOLE(dw_buy_reply, order_day, "d", -100, DW_BUY_DAYS_MOST,
               "the last on which an order is in time"),
    DW_F_YES(dw_buy_reply, late, false, "even ordered today it comes too late"),
    DW_F_REAL(dw_buy_reply, buy_kg, "kg", 0, 1e9, "wanted of the purchase"),
    DW_F_WHOLE(dw_buy_reply, packs, "", 0, 1e9, "0: by the kilogram"),
    DW_F_REAL(dw_buy_reply, lacking_kg, "kg", 0, 1e9, "before it can be here"),
};
const dw_shape dw_buy_reply_shape =
    DW_SHAPE("buy_reply", dw_buy_reply, reply_fields, "what to buy");

static bool usable(const dw_buy_lot *lot, int64_t day)
{
    return !lot->has_last_day || lot->last_day >= day;
}

/* The lot with something left that is usable and ends first. */
static size_t oldest(const dw_buy_ask *ask, const double *left, int64_t day)
{
    size_t found = ask->lots_count;
    for (size_t i = 0; i < ask->lots_count; i++) {
        const dw_buy_lot *lot = &ask->lots[i];
        if (left[i] <= 0 || !usable(lot, day))
            continue;
        bool first = found == ask->lots_count;
        bool sooner = !first && lot->has_last_day &&
                      (!ask->lots[found].has_last_day ||
                       lot->last_day < ask->lots[found].last_day);
        if (first || sooner)
            found = i;
    }
    return found;
}

/* What each day is short of, the shelf used up day by day. */
static void use_shelf(const dw_buy_ask *ask, double *left, double *short_kg)
{
    for (size_t day = 0; day < ask->needs_kg_count; day++) {
        double need = ask->needs_kg[day];
        for (size_t i = oldest(ask, left, (int64_t)day);
             need > 0 && i < ask->lots_count;
             i = oldest(ask, left, (int64_t)day)) {
            double taken = fmin(left[i], need);
            left[i] -= taken;
            need -= taken;
        }
        short_kg[day] = need > DUST_KG ? need : 0;
    }
}

static void plan_purchase(const dw_buy_ask *ask, const double *short_kg,
                          dw_buy_reply *out)
{
    int64_t days = (int64_t)ask->needs_kg_count;
    int64_t here =
        out->short_day > ask->lead_days ? out->short_day : ask->lead_days;
    int64_t until = ask->has_keep_days && here + ask->keep_days < days
                        ? here + ask->keep_days
                        : days;
    out->order_day = out->short_day - ask->lead_days;
    out->late = out->order_day < 0;
    for (int64_t day = out->short_day; day < here && day < days; day++)
        out->lacking_kg += short_kg[day];
    for (int64_t day = here; day < until; day++)
        out->buy_kg += short_kg[day];
    if (ask->has_pack_kg)
        out->packs = (int64_t)ceil(out->buy_kg / ask->pack_kg - 1e-9);
}

dw_status dw_buy_plan(const dw_buy_ask *ask, dw_arena *arena,
                      dw_buy_reply *reply, dw_err *err)
{
    DW_TRY(dw_check_range(err, "needs_kg", (double)ask->needs_kg_count, 0,
                          DW_BUY_DAYS_MOST));
    double *left = DW_NEW_ARRAY(arena, double, ask->lots_count + 1);
    double *short_kg = DW_NEW_ARRAY(arena, double, ask->needs_kg_count + 1);
    dw_buy_reply out = {0};
    if (!left || !short_kg)
        return dw_fail(err, DW_E_ROOM, "lots", NULL);
    for (size_t i = 0; i < ask->lots_count; i++) {
        left[i] = ask->lots[i].kg;
        if (usable(&ask->lots[i], 0))
            out.on_hand_kg += left[i];
    }
    use_shelf(ask, left, short_kg);
    for (size_t i = 0; i < ask->lots_count; i++)
        if (!usable(&ask->lots[i], (int64_t)ask->needs_kg_count))
            out.past_kg += left[i];
    for (size_t day = 0; day < ask->needs_kg_count; day++) {
        out.needed_kg += ask->needs_kg[day];
        if (short_kg[day] > 0 && !out.has_short_day) {
            out.has_short_day = true;
            out.short_day = (int64_t)day;
        }
    }
    if (out.has_short_day)
        plan_purchase(ask, short_kg, &out);
    *reply = out;
    return DW_OK;
}
