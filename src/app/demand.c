#include "app/demand.h"

#include "app/stock.h"
#include "store/demand.h"

#include <string.h>

enum {
    HOURS_BACK_DAYS = 182,
    HOURS_OWN_BALLS = 500, /* below, all products together say more */
    MARKS_BACK_DAYS = 28,
    SHUT_BACK_DAYS = 56
};

const char *const dw_demand_source_words[] = {"sales", "counts", "nothing",
                                              NULL};

/* All that the forecasts are made from. */
typedef struct desk {
    dw_call *call;
    const dw_demand_request *request;
    dw_demand *demand;
    dw_product *products;
    dw_build_to *build_to;
    dw_product_like *likes;
    dw_outlet *outlets;
    dw_opening *openings;
    size_t products_count, build_to_count, likes_count, outlets_count,
        openings_count;
    dw_demand_row *sold, *counted;
    size_t sold_count, counted_count;
    int64_t oldest; /* first day of any row */
    bool *heard;    /* by day from `oldest`: a register told of it */
    dw_sale_hour *hours;
    size_t hours_count;
} desk;

static dw_status no_room(const desk *d)
{
    return dw_fail(d->call->err, DW_E_ROOM, "products", NULL);
}

/* ---- what is there --------------------------------------------------------
 */

static dw_status read_shop(desk *d)
{
    dw_call *call = d->call;
    DW_TRY(dw_rows_get(call, "product", &dw_product_noun, NULL, 0,
                       "position, id", &d->products, &d->products_count));
    DW_TRY(dw_rows_get(call, "build_to", &dw_build_to_noun, NULL, 0, "id",
                       &d->build_to, &d->build_to_count));
    DW_TRY(dw_rows_get(call, "product_like", &dw_product_like_noun, NULL, 0,
                       "id", &d->likes, &d->likes_count));
    DW_TRY(dw_rows_get(call, "outlet", &dw_outlet_noun, NULL, 0, "id",
                       &d->outlets, &d->outlets_count));
    return dw_rows_get(call, "opening", &dw_opening_noun, NULL, 0, "id",
                       &d->openings, &d->openings_count);
}

static dw_status read_known(desk *d)
{
    dw_call *call = d->call;
    dw_demand *demand = d->demand;
    dw_demand_override *overrides;
    dw_demand_mark *marks;
    size_t n;
    DW_TRY(dw_rows_get(call, "demand_event", &dw_demand_event_noun, NULL, 0,
                       "id", &demand->events, &demand->events_count));
    DW_TRY(dw_rows_get(call, "demand_override", &dw_demand_override_noun, NULL,
                       0, "id", &overrides, &n));
    demand->overrides = overrides;
    for (size_t i = 0; i < n; i++)
        if (overrides[i].change.to_day >= demand->first_day &&
            overrides[i].change.expires_day > demand->first_day &&
            overrides[i].outlet_id == d->request->outlet_id)
            overrides[demand->overrides_count++] = overrides[i];
    DW_TRY(dw_rows_get(call, "demand_mark", &dw_demand_mark_noun, NULL, 0,
                       "day DESC, id", &marks, &n));
    demand->marks = marks;
    for (size_t i = 0; i < n; i++)
        if (marks[i].day >= demand->today - MARKS_BACK_DAYS)
            marks[demand->marks_count++] = marks[i];
    return DW_OK;
}

static dw_status read_sold(desk *d)
{
    dw_call *call = d->call;
    int64_t before = d->demand->first_day, outlet = d->request->outlet_id;
    DW_TRY(dw_store_demand(call->store, outlet, before, call->arena, &d->sold,
                           &d->sold_count, call->err));
    if (outlet == 0)
        DW_TRY(dw_store_demand_counted(call->store, before, call->arena,
                                       &d->counted, &d->counted_count,
                                       call->err));
    DW_TRY(dw_store_demand_hours(call->store, outlet, before - HOURS_BACK_DAYS,
                                 before - 1, call->arena, &d->hours,
                                 &d->hours_count, call->err));
    d->oldest = before;
    for (size_t i = 0; i < d->sold_count; i++)
        if (d->sold[i].day < d->oldest)
            d->oldest = d->sold[i].day;
    d->heard =
        DW_NEW_ARRAY(call->arena, bool, (size_t)(before - d->oldest) + 1);
    if (!d->heard)
        return no_room(d);
    for (size_t i = 0; i < d->sold_count; i++) {
        d->heard[d->sold[i].day - d->oldest] = true;
        if (d->sold[i].day > d->demand->last_sale_day)
            d->demand->last_sale_day = d->sold[i].day;
    }
    return DW_OK;
}

/* ---- one product ----------------------------------------------------------
 */

/* Rows come sorted by product: find one product's run. */
static const dw_demand_row *run_of(const dw_demand_row *rows, size_t count,
                                   int64_t product_id, size_t *run)
{
    size_t i = 0, n = 0;
    while (i < count && rows[i].product_id != product_id)
        i++;
    while (i + n < count && rows[i + n].product_id == product_id)
        n++;
    *run = n;
    return rows + i;
}

static bool is_heard(const desk *d, int64_t day)
{
    return day >= d->oldest && day < d->demand->first_day &&
           d->heard[day - d->oldest];
}

/* Days of which the register told something but nothing of this product had no
 * sale of it; what the register does not tell, two counts may. */
static dw_status fill_history(const desk *d, int64_t product_id,
                              dw_forecast_series *series, int *source)
{
    size_t sold_count, counted_count, n = 0;
    const dw_demand_row *sold =
        run_of(d->sold, d->sold_count, product_id, &sold_count);
    const dw_demand_row *counted =
        run_of(d->counted, d->counted_count, product_id, &counted_count);
    int64_t first = sold_count > 0 ? sold[0].day : d->demand->first_day;
    size_t most = (size_t)(d->demand->first_day - first) + counted_count;
    series->history = DW_NEW_ARRAY(d->call->arena, dw_forecast_sale, most);
    if (!series->history)
        return no_room(d);
    size_t at = 0;
    for (int64_t day = first; day < d->demand->first_day; day++) {
        bool told = at < sold_count && sold[at].day == day;
        if (told)
            series->history[n++] =
                (dw_forecast_sale){day, sold[at].balls, sold[at].sold_out};
        else if (is_heard(d, day))
            series->history[n++] = (dw_forecast_sale){day, 0, false};
        at += told;
    }
    for (size_t i = 0; i < counted_count; i++)
        if (!is_heard(d, counted[i].day))
            series->history[n++] = (dw_forecast_sale){
                counted[i].day, counted[i].balls, counted[i].sold_out};
    size_t most_days = DW_FORECAST_HISTORY_MOST;
    if (n > most_days) { /* the newest */
        series->history += n - most_days;
        n = most_days;
    }
    series->history_count = n;
    *source = sold_count > 0      ? DW_DEMAND_SALES
              : counted_count > 0 ? DW_DEMAND_COUNTS
                                  : DW_DEMAND_NOTHING;
    return DW_OK;
}

static dw_status fill_par(const desk *d, int64_t product_id,
                          dw_forecast_series *series)
{
    double share = d->request->outlet_id && d->outlets_count > 1
                       ? 1 / (double)d->outlets_count
                       : 1;
    for (size_t i = 0; i < d->build_to_count; i++) {
        const dw_build_to *b = &d->build_to[i];
        if (b->product_id != product_id)
            continue;
        if (!series->par) {
            series->par = DW_NEW_ARRAY(d->call->arena, double, 7);
            if (!series->par)
                return no_room(d);
            series->par_count = 7;
        }
        series->par[b->weekday] = share * (double)b->balls;
    }
    return DW_OK;
}

static dw_status fill_overrides(const desk *d, int64_t product_id,
                                dw_forecast_series *series)
{
    const dw_demand *demand = d->demand;
    series->overrides =
        DW_NEW_ARRAY(d->call->arena, dw_override, demand->overrides_count);
    if (!series->overrides)
        return no_room(d);
    for (size_t i = 0; i < demand->overrides_count; i++)
        if (demand->overrides[i].product_id == product_id)
            series->overrides[series->overrides_count++] =
                demand->overrides[i].change;
    return DW_OK;
}

static int64_t like_of(const desk *d, int64_t product_id)
{
    for (size_t i = 0; i < d->likes_count; i++)
        if (d->likes[i].product_id == product_id)
            return d->likes[i].like_id;
    return 0;
}

static const char *name_of_made(const desk *d, int64_t product_id)
{
    for (size_t i = 0; i < d->products_count; i++)
        if (d->products[i].id == product_id && d->products[i].here)
            return d->products[i].name;
    return NULL;
}

static dw_status fill_series(const desk *d, const dw_product *product,
                             dw_forecast_series *series,
                             dw_demand_product *answer)
{
    *answer = (dw_demand_product){.product_id = product->id,
                                  .like_id = like_of(d, product->id)};
    *series = (dw_forecast_series){.name = product->name,
                                   .like = name_of_made(d, answer->like_id)};
    DW_TRY(fill_history(d, product->id, series, &answer->source));
    DW_TRY(fill_par(d, product->id, series));
    return fill_overrides(d, product->id, series);
}

/* ---- hours ----------------------------------------------------------------
 */

static dw_status run_hours(const desk *d, const dw_sale_hour *rows,
                           size_t count, dw_hours_reply *reply)
{
    dw_hours_ask ask = {.sales =
                            DW_NEW_ARRAY(d->call->arena, dw_hour_sale, count)};
    if (!ask.sales)
        return no_room(d);
    ask.sales_count = count;
    for (size_t i = 0; i < count; i++)
        ask.sales[i] = (dw_hour_sale){rows[i].day, rows[i].hour, rows[i].balls};
    return dw_hours_run(&ask, d->call->arena, reply, d->call->err);
}

static dw_status fill_hours(const desk *d)
{
    dw_hours_reply all;
    DW_TRY(run_hours(d, d->hours, d->hours_count, &all));
    for (size_t p = 0; p < d->demand->products_count; p++) {
        dw_demand_product *product = &d->demand->products[p];
        size_t first = 0, n = 0;
        int64_t balls = 0;
        while (first < d->hours_count &&
               d->hours[first].product_id != product->product_id)
            first++;
        for (; first + n < d->hours_count &&
               d->hours[first + n].product_id == product->product_id;
             n++)
            balls += d->hours[first + n].balls;
        dw_hours_reply own = all;
        product->hours_own = balls >= HOURS_OWN_BALLS;
        if (product->hours_own)
            DW_TRY(run_hours(d, d->hours + first, n, &own));
        product->hours = own.weekdays;
        product->hours_count = own.weekdays_count;
    }
    return DW_OK;
}

/* ---- all of it ------------------------------------------------------------
 */

static bool used_on(const desk *d, const dw_demand_row *rows, size_t count,
                    int64_t weekday)
{
    for (size_t i = 0; i < count; i++)
        if (rows[i].balls > 0 && dw_weekday(rows[i].day) == weekday &&
            rows[i].day >= d->demand->first_day - SHUT_BACK_DAYS)
            return true;
    return false;
}

static bool opens_on(const desk *d, int64_t weekday)
{
    for (size_t i = 0; i < d->openings_count; i++)
        if (d->openings[i].weekday == weekday)
            return true;
    return false;
}

/* The kitchen may rest on a day on which others sell. */
static dw_status fill_closed(const desk *d, dw_forecast_ask *ask)
{
    ask->closed_weekdays = DW_NEW_ARRAY(d->call->arena, int64_t, 7);
    if (!ask->closed_weekdays)
        return no_room(d);
    for (int64_t w = 0; d->openings_count > 0 && w < 7; w++)
        if (!opens_on(d, w) && !used_on(d, d->sold, d->sold_count, w) &&
            !used_on(d, d->counted, d->counted_count, w))
            ask->closed_weekdays[ask->closed_weekdays_count++] = w;
    return DW_OK;
}

static dw_status fill_events(const desk *d, dw_forecast_ask *ask)
{
    size_t n = d->demand->events_count;
    ask->events = DW_NEW_ARRAY(d->call->arena, dw_event, n);
    if (!ask->events)
        return no_room(d);
    for (size_t i = 0; i < n; i++)
        ask->events[ask->events_count++] = d->demand->events[i].event;
    return DW_OK;
}

static dw_status forecast_all(const desk *d, dw_forecast_ask *ask)
{
    dw_demand *demand = d->demand;
    dw_forecast_reply reply;
    ask->series =
        DW_NEW_ARRAY(d->call->arena, dw_forecast_series, d->products_count);
    demand->products =
        DW_NEW_ARRAY(d->call->arena, dw_demand_product, d->products_count);
    if (!ask->series || !demand->products)
        return no_room(d);
    for (size_t i = 0; i < d->products_count; i++) {
        size_t at = ask->series_count;
        if (!d->products[i].here)
            continue;
        DW_TRY(fill_series(d, &d->products[i], &ask->series[at],
                           &demand->products[at]));
        demand->products_count = ++ask->series_count;
    }
    if (ask->series_count == 0)
        return DW_OK;
    DW_TRY(dw_forecast_run(ask, d->call->arena, &reply, d->call->err));
    for (size_t i = 0; i < reply.series_count; i++)
        demand->products[i].forecast = reply.series[i];
    return DW_OK;
}

dw_status dw_demand_of(dw_call *call, const dw_demand_request *request,
                       dw_demand *demand)
{
    desk d = {.call = call, .request = request, .demand = demand};
    *demand = (dw_demand){.outlet_id = request->outlet_id};
    DW_TRY(dw_today(call, &demand->today));
    demand->first_day = request->first_day ? request->first_day : demand->today;
    DW_TRY(read_shop(&d));
    demand->outlets = d.outlets;
    demand->outlets_count = d.outlets_count;
    DW_TRY(read_known(&d));
    DW_TRY(read_sold(&d));
    dw_forecast_ask ask = {.first_day = demand->first_day,
                           .days = request->days,
                           .check_weeks = request->check_weeks};
    DW_TRY(fill_closed(&d, &ask));
    DW_TRY(fill_events(&d, &ask));
    DW_TRY(forecast_all(&d, &ask));
    return fill_hours(&d);
}
