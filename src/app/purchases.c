#include "app/purchases.h"

#include "app/expected.h"
#include "app/formulary.h"
#include "app/shifts.h"
#include "doughwright/buy.h"
#include "store/purchases.h"

#include <stdlib.h>

enum { LEAD_DAYS_USUAL = 2 }; /* of a material that says nothing */

typedef struct desk {
    dw_call *call;
    dw_shop shop;
    int64_t today, days;
    dw_expected expected;
    dw_material *materials;
    dw_material_lot *lots;
    dw_material_used *used;
    dw_stock_line *stock;
    size_t materials_count, lots_count, used_count, stock_count;
    double *needs; /* by material, then day */
    bool *planned; /* day: it has batches */
} desk;

static dw_status no_room(dw_call *call)
{
    return dw_fail(call->err, DW_E_ROOM, "purchases", NULL);
}

static bool follows(const dw_material_lot *lot)
{
    return lot->has_kg && lot->open;
}

static dw_status open_desk(desk *d)
{
    dw_call *call = d->call;
    dw_service service;
    DW_TRY(dw_shop_get(call, &d->shop));
    DW_TRY(dw_service_get(call, &service));
    d->days = d->days ? d->days : service.buy_days;
    DW_TRY(dw_expected_open(call, &d->shop, &d->expected));
    d->today = d->expected.today;
    DW_TRY(dw_rows_get(call, "material", &dw_material_noun, NULL, 0, "id",
                       &d->materials, &d->materials_count));
    DW_TRY(dw_rows_get(call, "material_lot", &dw_material_lot_noun, NULL, 0,
                       "best_before_day, received_ms, id", &d->lots,
                       &d->lots_count));
    int64_t since = call->now_ms;
    for (size_t i = 0; i < d->lots_count; i++)
        if (follows(&d->lots[i]) && d->lots[i].received_ms < since)
            since = d->lots[i].received_ms;
    DW_TRY(dw_store_materials_used(call->store, since, d->today, call->arena,
                                   &d->used, &d->used_count, call->err));
    DW_TRY(dw_stock_of(call, &d->shop, d->today, &d->stock, &d->stock_count));
    size_t days = (size_t)d->days;
    d->needs = DW_NEW_ARRAY(call->arena, double, d->materials_count *days + 1);
    d->planned = DW_NEW_ARRAY(call->arena, bool, days + 1);
    return d->needs && d->planned ? DW_OK : no_room(call);
}

/* ---- what is needed ------------------------------------------------------ */

static void need(desk *d, const char *material, int64_t day, double kg)
{
    for (size_t i = 0; i < d->materials_count; i++)
        if (dw_text_is(d->materials[i].name, material))
            d->needs[i * (size_t)d->days + (size_t)day] += kg;
}

static void need_planned(desk *d)
{
    for (size_t i = 0; i < d->used_count; i++) {
        const dw_material_used *used = &d->used[i];
        int64_t day = used->day - d->today;
        if (!used->planned || day < 0 || day >= d->days)
            continue;
        d->planned[day] = true;
        need(d, used->material, day, used->kg);
    }
}

/* The dough of a product for the days that no batch is planned for. What is
 * there serves the first of them. */
static dw_status need_product(desk *d, const dw_stock_line *line)
{
    dw_recipe recipe;
    double there = (double)line->usable;
    int64_t ready = line->target_day - d->today;
    if (line->formula_id == 0)
        return DW_OK;
    DW_TRY(dw_recipe_newest(d->call, line->formula_id, &recipe));
    const dw_formula *formula = &recipe.formula;
    double total = dw_lines_total_percent(formula->lines, formula->lines_count);
    for (int64_t day = 0; day < d->days; day++) {
        dw_expected_basis basis;
        double balls;
        DW_TRY(dw_expected_balls(&d->expected, line->product_id, 0,
                                 d->today + day + ready, &balls, &basis));
        double had = there < balls ? there : balls;
        there -= had;
        if (d->planned[day] || total <= 0)
            continue;
        double dough = (balls - had) * line->ball_kg /
                       (1 - d->shop.ball_loss_percent / 100);
        for (size_t i = 0; i < formula->lines_count; i++)
            need(d, formula->lines[i].material, day,
                 dough * formula->lines[i].percent / total);
    }
    return DW_OK;
}

/* ---- what is there ------------------------------------------------------- */

static double used_of_lot(const desk *d, int64_t lot_id)
{
    double kg = 0;
    for (size_t i = 0; i < d->used_count; i++)
        if (!d->used[i].planned && d->used[i].lot_id == lot_id)
            kg += d->used[i].kg;
    return kg;
}

/* Weighed of the material, and nobody said of which lot. */
static double used_of_none(const desk *d, const dw_material *material,
                           int64_t since_ms)
{
    double kg = 0;
    for (size_t i = 0; i < d->used_count; i++) {
        const dw_material_used *used = &d->used[i];
        if (!used->planned && used->lot_id == 0 &&
            used->started_ms >= since_ms &&
            dw_text_is(used->material, material->name))
            kg += used->kg;
    }
    return kg;
}

/* Lots come by their dates: what no lot was named for is taken from the first.
 */
static dw_status shelf_of(desk *d, const dw_material *material, dw_buy_ask *ask,
                          bool *followed)
{
    int64_t since = INT64_MAX;
    ask->lots = DW_NEW_ARRAY(d->call->arena, dw_buy_lot, d->lots_count + 1);
    if (!ask->lots)
        return no_room(d->call);
    for (size_t i = 0; i < d->lots_count; i++) {
        const dw_material_lot *lot = &d->lots[i];
        if (lot->material_id != material->id || !follows(lot))
            continue;
        since = lot->received_ms < since ? lot->received_ms : since;
        double kg = lot->kg - used_of_lot(d, lot->id);
        ask->lots[ask->lots_count++] =
            (dw_buy_lot){.kg = kg > 0 ? kg : 0,
                         .has_last_day = lot->best_before_day > 0,
                         .last_day = lot->best_before_day - d->today};
    }
    *followed = ask->lots_count > 0;
    double rest = *followed ? used_of_none(d, material, since) : 0;
    for (size_t i = 0; i < ask->lots_count && rest > 0; i++) {
        double taken = rest < ask->lots[i].kg ? rest : ask->lots[i].kg;
        ask->lots[i].kg -= taken;
        rest -= taken;
    }
    return DW_OK;
}

/* ---- the list ------------------------------------------------------------ */

static dw_status add_line(desk *d, size_t at, dw_purchases *out)
{
    const dw_material *material = &d->materials[at];
    dw_buy_ask ask = {.needs_kg = d->needs + at * (size_t)d->days,
                      .needs_kg_count = (size_t)d->days,
                      .lead_days = material->has_lead_days ? material->lead_days
                                                           : LEAD_DAYS_USUAL,
                      .has_keep_days = material->has_keep_days,
                      .keep_days = material->keep_days,
                      .has_pack_kg = material->has_pack_kg,
                      .pack_kg = material->pack_kg};
    dw_buy_reply got;
    bool followed;
    DW_TRY(shelf_of(d, material, &ask, &followed));
    DW_TRY(dw_buy_plan(&ask, d->call->arena, &got, d->call->err));
    if (got.needed_kg <= 0 && !followed)
        return DW_OK;
    dw_purchase *line = &out->lines[out->lines_count++];
    *line = (dw_purchase){.material_id = material->id,
                          .name = material->name,
                          .followed = followed,
                          .on_hand_kg = got.on_hand_kg,
                          .past_kg = got.past_kg,
                          .needed_kg = got.needed_kg,
                          .has_short_day = got.has_short_day,
                          .short_day = d->today + got.short_day,
                          .order_day = d->today + got.order_day,
                          .late = got.late,
                          .buy_kg = got.buy_kg,
                          .lacking_kg = got.lacking_kg,
                          .packs = got.packs,
                          .has_pack_kg = material->has_pack_kg,
                          .pack_kg = material->pack_kg,
                          .lead_days = ask.lead_days,
                          .cost_minor = got.packs * material->pack_price};
    out->cost_minor += line->cost_minor;
    return DW_OK;
}

static int by_order_day(const void *a, const void *b)
{
    const dw_purchase *left = a, *right = b;
    if (left->has_short_day != right->has_short_day)
        return right->has_short_day - left->has_short_day;
    if (left->order_day != right->order_day)
        return left->order_day < right->order_day ? -1 : 1;
    return (left->material_id > right->material_id) -
           (left->material_id < right->material_id);
}

dw_status dw_purchases_read(dw_call *call, int64_t days, dw_purchases *out)
{
    desk d = {.call = call, .days = days};
    DW_TRY(open_desk(&d));
    *out = (dw_purchases){
        .day = d.today, .days = d.days, .currency = d.shop.currency};
    need_planned(&d);
    for (size_t i = 0; i < d.stock_count; i++)
        DW_TRY(need_product(&d, &d.stock[i]));
    out->lines = DW_NEW_ARRAY(call->arena, dw_purchase, d.materials_count + 1);
    if (!out->lines)
        return no_room(call);
    for (size_t i = 0; i < d.materials_count; i++)
        if (d.materials[i].here && d.materials[i].kind != DW_WATER)
            DW_TRY(add_line(&d, i, out));
    qsort(out->lines, out->lines_count, sizeof(dw_purchase), by_order_day);
    return DW_OK;
}
