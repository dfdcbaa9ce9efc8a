#include "app/week.h"

#include "app/card.h"
#include "app/demand.h"
#include "app/plan.h"
#include "app/shifts.h"
#include "app/stock.h"
#include "store/batches.h"

#include <math.h>

/* Everything that is read once. */
typedef struct desk {
    dw_call *call;
    const dw_week_ask *ask;
    dw_shop shop;
    dw_product *products;
    dw_mixer_row *mixers;
    dw_opening *openings;
    dw_standard_batch *standards;
    size_t products_count, mixers_count, openings_count, standards_count;
    double short_balls; /* a lost sale costs so many balls */
    dw_week_request plan;
    int64_t formula_ids[DW_WEEK_FORMULAS];
    dw_week_shop *out;
} desk;

static dw_status no_room(const desk *d)
{
    return dw_fail(d->call->err, DW_E_ROOM, "plan", NULL);
}

#define LIST(d, type, count)                                                   \
    DW_NEW_ARRAY((d)->call->arena, type, (size_t)(count) + 1)

static dw_status read_shop(desk *d)
{
    dw_service service;
    DW_TRY(dw_shop_get(d->call, &d->shop));
    DW_TRY(dw_service_get(d->call, &service));
    DW_TRY(dw_rows_get(d->call, "product", &dw_product_noun, "here", 1,
                       "position", &d->products, &d->products_count));
    DW_TRY(dw_rows_get(d->call, "mixer", &dw_mixer_noun, "here", 1, "id",
                       &d->mixers, &d->mixers_count));
    DW_TRY(dw_rows_get(d->call, "opening", &dw_opening_noun, NULL, 0, "weekday",
                       &d->openings, &d->openings_count));
    DW_TRY(dw_rows_get(d->call, "standard_batch", &dw_standard_batch_noun, NULL,
                       0, "flour_kg DESC", &d->standards, &d->standards_count));
    d->short_balls = service.short_cost_balls;
    d->out->lost_to_thrown = d->short_balls;
    d->out->currency = d->shop.currency;
    d->out->first_day = d->ask->first_day;
    return d->out->first_day ? DW_OK : dw_today(d->call, &d->out->first_day);
}

/* ---- days ---------------------------------------------------------------- */

static const dw_opening *opening_on(const desk *d, int64_t day)
{
    for (size_t i = 0; i < d->openings_count; i++)
        if (d->openings[i].weekday == dw_weekday(day))
            return &d->openings[i];
    return NULL;
}

/* Of today only what is left until the last one leaves. */
static dw_status minutes_of(const desk *d, int64_t day, const dw_opening *open,
                            double *minutes)
{
    int64_t today;
    dw_day_people people;
    *minutes = open ? (double)(open->leaves_minute - open->opens_minute) : 0;
    DW_TRY(dw_today(d->call, &today));
    if (!open || day != today)
        return DW_OK;
    DW_TRY(dw_day_people_read(d->call, &d->shop, day, &people));
    if (people.leaves_ms == 0)
        return DW_OK;
    double left = (double)(people.leaves_ms - d->call->now_ms) / 60000;
    *minutes = fmax(0, fmin(*minutes, left));
    return DW_OK;
}

/* Nobody there: nothing is mixed. Without any opening hours nothing limits. */
static dw_status put_days(desk *d)
{
    dw_week_request *p = &d->plan;
    p->days = d->ask->days;
    p->each_day = LIST(d, dw_week_day, p->days);
    d->out->days = LIST(d, dw_week_room_day, p->days);
    if (!p->each_day || !d->out->days)
        return no_room(d);
    p->each_day_count = d->out->days_count = (size_t)p->days;
    for (int64_t t = 0; t < p->days; t++) {
        int64_t day = d->out->first_day + t;
        const dw_opening *open = opening_on(d, day);
        bool known = d->openings_count > 0;
        double minutes;
        DW_TRY(minutes_of(d, day, open, &minutes));
        bool nobody = known && minutes == 0;
        p->each_day[t] =
            (dw_week_day){.locked = d->ask->only_these || nobody,
                          .has_hands_minutes = known,
                          .hands_minutes = minutes * (double)d->shop.hands,
                          .has_window_minutes = known,
                          .window_minutes = minutes};
        d->out->days[t] = (dw_week_room_day){
            day, open || !known, p->each_day[t].hands_minutes, minutes};
    }
    return DW_OK;
}

/* ---- room ---------------------------------------------------------------- */

static dw_status put_room(desk *d)
{
    dw_box_type *boxes;
    dw_cold_room *rooms;
    size_t n;
    double owned = 0, slots = 0;
    DW_TRY(dw_rows_get(d->call, "box_type", &dw_box_type_noun, NULL, 0, "id",
                       &boxes, &n));
    for (size_t i = 0; i < n; i++)
        owned += (double)boxes[i].owned;
    DW_TRY(dw_rows_get(d->call, "cold_room", &dw_cold_room_noun, NULL, 0, "id",
                       &rooms, &n));
    for (size_t i = 0; i < n; i++)
        slots += (double)rooms[i].box_slots;
    d->plan.has_boxes = d->out->has_boxes = owned > 0;
    d->plan.has_slots = d->out->has_slots = slots > 0;
    d->plan.boxes = d->out->boxes = owned;
    d->plan.slots = d->out->slots = slots;
    return DW_OK;
}

/* ---- formulas ------------------------------------------------------------ */

static dw_status put_mixers(desk *d)
{
    d->plan.mixers = LIST(d, dw_week_mixer, d->mixers_count);
    if (!d->plan.mixers)
        return no_room(d);
    for (size_t i = 0; i < d->mixers_count; i++)
        d->plan.mixers[d->plan.mixers_count++].name = d->mixers[i].name;
    return DW_OK;
}

static dw_status put_bowls(desk *d, const dw_recipe *recipe,
                           dw_week_formula *out)
{
    out->bowls = LIST(d, dw_week_bowl, d->mixers_count);
    if (!out->bowls)
        return no_room(d);
    for (size_t i = 0; i < d->mixers_count; i++) {
        dw_mixer_answer *takes = DW_NEW(d->call->arena, dw_mixer_answer);
        if (!takes)
            return no_room(d);
        dw_plan_takes told;
        DW_TRY(
            dw_plan__mixer_takes(d->call, &d->mixers[i], recipe, takes, &told));
        if (!takes->has_max_dough_kg)
            continue;
        out->bowls[out->bowls_count++] =
            (dw_week_bowl){d->mixers[i].name,
                           takes->has_min_dough_kg ? takes->min_dough_kg : 0,
                           takes->max_dough_kg, d->ask->batch_minutes};
    }
    return DW_OK;
}

static dw_status put_formula(desk *d, int64_t formula_id)
{
    dw_recipe recipe;
    dw_week_formula *out = &d->plan.formulas[d->plan.formulas_count];
    DW_TRY(dw_recipe_newest(d->call, formula_id, &recipe));
    *out = (dw_week_formula){
        .name = recipe.name,
        .loss_percent = d->shop.ball_loss_percent,
        .start_cost = d->ask->start_cost,
        .odd_cost = d->ask->start_cost / 4,
        .spare_cost_per_kg = d->ask->dough_cost_per_kg,
        .hands_minutes = d->ask->batch_minutes,
        .close_minutes = d->ask->close_minutes + d->shop.bench_minutes,
        .bench_balls =
            (int64_t)((double)d->shop.hands * d->shop.balls_per_minute *
                      d->shop.bench_minutes)};
    DW_TRY(put_bowls(d, &recipe, out));
    if (out->bowls_count == 0)
        return DW_OK; /* no mixer that is known takes it */
    double percent = dw_lines_total_percent(recipe.formula.lines,
                                            recipe.formula.lines_count);
    out->sizes_kg = LIST(d, double, d->standards_count);
    if (!out->sizes_kg)
        return no_room(d);
    for (size_t i = 0; i < d->standards_count && i < DW_WEEK_SIZES; i++)
        out->sizes_kg[out->sizes_kg_count++] =
            d->standards[i].flour_kg * percent / 100;
    d->formula_ids[d->plan.formulas_count++] = formula_id;
    return DW_OK;
}

static const char *formula_named(const desk *d, int64_t formula_id)
{
    for (size_t i = 0; i < d->plan.formulas_count; i++)
        if (d->formula_ids[i] == formula_id)
            return d->plan.formulas[i].name;
    return NULL;
}

static dw_status put_formulas(desk *d)
{
    d->plan.formulas = LIST(d, dw_week_formula, DW_WEEK_FORMULAS);
    if (!d->plan.formulas)
        return no_room(d);
    for (size_t i = 0; i < d->products_count; i++) {
        if (formula_named(d, d->products[i].formula_id))
            continue;
        if (d->plan.formulas_count == DW_WEEK_FORMULAS)
            return dw_fail_range(d->call->err, "formulas", DW_WEEK_FORMULAS + 1,
                                 1, DW_WEEK_FORMULAS);
        DW_TRY(put_formula(d, d->products[i].formula_id));
    }
    return DW_OK;
}

/* ---- products ------------------------------------------------------------ */

static const dw_forecast *forecast_of(const dw_demand *demand, int64_t product)
{
    for (size_t i = 0; i < demand->products_count; i++)
        if (demand->products[i].product_id == product)
            return &demand->products[i].forecast;
    return NULL;
}

static dw_status put_wanted(desk *d, const dw_forecast *forecast,
                            dw_week_product *out)
{
    static int64_t none[] = {0};
    out->wanted = LIST(d, dw_week_wanted, d->plan.days);
    if (!out->wanted)
        return no_room(d);
    out->wanted_count = (size_t)d->plan.days;
    for (size_t t = 0; t < out->wanted_count; t++)
        if (forecast && t < forecast->days_count)
            out->wanted[t] = (dw_week_wanted){
                .has_spread = true, .spread = forecast->days[t].wanted};
        else
            out->wanted[t] =
                (dw_week_wanted){.counts = none, .counts_count = 1};
    return DW_OK;
}

static dw_status put_product(desk *d, const dw_product *product,
                             const dw_demand *demand)
{
    const char *formula = formula_named(d, product->formula_id);
    if (!formula)
        return DW_OK;
    const dw_forecast *forecast = forecast_of(demand, product->id);
    dw_cold_days days = dw_product_days(&d->shop, product);
    double ball_cost = d->ask->dough_cost_per_kg * product->ball_kg;
    size_t n = d->plan.products_count++;
    int64_t most = DW_WEEK_LIFE - 1;
    d->out->products[n] =
        (dw_week_product_row){product->id, product->formula_id, product->name,
                              forecast && forecast->days_count > 0};
    d->plan.products[n] = (dw_week_product){
        .name = product->name,
        .formula = formula,
        .ball_kg = product->ball_kg,
        .earliest_days = days.ready_day < most ? days.ready_day : most,
        .latest_days = days.last_day < most ? days.last_day : most,
        .per_box = (double)product->balls_per_box,
        .lost_cost = ball_cost * d->short_balls,
        .thrown_cost = ball_cost};
    return put_wanted(d, forecast, &d->plan.products[n]);
}

static dw_status put_products(desk *d)
{
    const dw_demand_request request = {.first_day = d->out->first_day,
                                       .days = d->ask->days};
    dw_demand demand;
    DW_TRY(dw_demand_of(d->call, &request, &demand));
    d->plan.products = LIST(d, dw_week_product, d->products_count);
    d->out->products = LIST(d, dw_week_product_row, d->products_count);
    if (!d->plan.products || !d->out->products)
        return no_room(d);
    for (size_t i = 0; i < d->products_count; i++)
        DW_TRY(put_product(d, &d->products[i], &demand));
    d->out->products_count = d->plan.products_count;
    return DW_OK;
}

static bool is_planned(const desk *d, int64_t product_id)
{
    for (size_t i = 0; i < d->out->products_count; i++)
        if (d->out->products[i].product_id == product_id)
            return true;
    return false;
}

/* ---- what is there ------------------------------------------------------- */

static dw_status put_stock(desk *d)
{
    dw_stock_line *lines;
    size_t n, rows = 0;
    DW_TRY(dw_stock_of(d->call, &d->shop, d->out->first_day, &lines, &n));
    for (size_t i = 0; i < n; i++)
        rows += lines[i].ages_count;
    d->plan.stock = LIST(d, dw_week_stock, rows);
    if (!d->plan.stock)
        return no_room(d);
    for (size_t i = 0; i < n; i++)
        for (size_t k = 0; k < lines[i].ages_count; k++) {
            int64_t age = d->out->first_day - lines[i].ages[k].mixing_day;
            if (age < 1 || !is_planned(d, lines[i].product_id) ||
                d->plan.stock_count == DW_WEEK_STOCK)
                continue;
            d->plan.stock[d->plan.stock_count++] = (dw_week_stock){
                lines[i].name, age < 365 ? age : 365, lines[i].ages[k].balls};
        }
    return DW_OK;
}

static const char *mixer_named(const desk *d, int64_t id)
{
    for (size_t i = 0; i < d->mixers_count; i++)
        if (d->mixers[i].id == id)
            return d->mixers[i].name;
    return d->mixers_count > 0 ? d->mixers[0].name : NULL;
}

static dw_status put_batch(desk *d, const dw_batch_row *row)
{
    dw_card card;
    DW_TRY(dw_card_read(d->call, row->id, &card));
    dw_week_batch *out = &d->plan.fixed[d->plan.fixed_count];
    *out = (dw_week_batch){.day = row->day - d->out->first_day,
                           .formula = card.formula_name,
                           .mixer = mixer_named(d, row->mixer_id),
                           .dough_kg = row->dough_kg,
                           .fixed = true};
    out->pieces = LIST(d, dw_week_piece, card.pieces_count);
    if (!out->pieces)
        return no_room(d);
    bool known = false;
    for (size_t i = 0; i < d->plan.formulas_count; i++)
        known = known || dw_text_is(d->plan.formulas[i].name, out->formula);
    for (size_t i = 0; i < card.pieces_count; i++) {
        const dw_batch_piece *piece = &card.pieces[i].piece;
        if (is_planned(d, piece->product_id))
            out->pieces[out->pieces_count++] =
                (dw_week_piece){card.pieces[i].name,
                                piece->has_balls_made ? piece->balls_made
                                                      : piece->balls_planned};
    }
    d->plan.fixed_count += known && out->mixer;
    return DW_OK;
}

/* Batches that are kept for these days already, mixed or not; and those that
 * somebody only wants to look at. */
static dw_status put_batches(desk *d)
{
    dw_batch_row *rows;
    size_t n;
    DW_TRY(dw_store_batches_of_days(d->call->store, d->out->first_day,
                                    d->out->first_day + d->ask->days - 1,
                                    d->call->arena, &rows, &n, d->call->err));
    d->plan.fixed = LIST(d, dw_week_batch, n + d->ask->batches_count);
    if (!d->plan.fixed)
        return no_room(d);
    for (size_t i = 0; i < n; i++)
        if (rows[i].state != DW_BATCH_ABANDONED)
            DW_TRY(put_batch(d, &rows[i]));
    for (size_t i = 0; i < d->ask->batches_count; i++)
        if (!d->ask->batches[i].fixed)
            d->plan.fixed[d->plan.fixed_count++] = d->ask->batches[i];
    return DW_OK;
}

static void put_wishes(desk *d)
{
    const dw_week_ask *ask = d->ask;
    d->plan.balls_per_minute = d->shop.balls_per_minute;
    d->plan.labour_cost_per_h = ask->labour_cost_per_h;
    d->plan.change_cost = ask->change_cost;
    d->plan.before = ask->before;
    d->plan.before_count = ask->before_count;
    d->plan.effort = ask->only_these ? 0 : ask->effort;
    d->plan.seconds = ask->only_these ? 0 : ask->seconds;
    d->plan.worths = ask->worths;
}

dw_status dw_week_of(dw_call *call, const dw_week_ask *ask,
                     const dw_week_watch *watch, dw_week_shop *out)
{
    desk d = {.call = call, .ask = ask, .out = out};
    dw_shape_preset(&dw_week_request_shape, &d.plan);
    *out = (dw_week_shop){.first_day = 0};
    DW_TRY(read_shop(&d));
    DW_TRY(put_days(&d));
    DW_TRY(put_room(&d));
    DW_TRY(put_mixers(&d));
    DW_TRY(put_formulas(&d));
    DW_TRY(put_products(&d));
    DW_TRY(put_stock(&d));
    DW_TRY(put_batches(&d));
    put_wishes(&d);
    DW_TRY(dw_shape_check(&dw_week_request_shape, &d.plan, call->err));
    return dw_week_plan(&d.plan, call->solver, watch, call->arena, call->err,
                        &out->plan);
}
