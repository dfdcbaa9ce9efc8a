#include "app/expected.h"

#include "store/sales.h"

static const int64_t WEEKS = 4, DAYS_BACK = 14;

const char *const dw_expected_basis_words[] = {"nothing", "build_to", "sales",
                                               "forecast", NULL};

dw_status dw_expected_open(dw_call *call, const dw_shop *shop,
                           dw_expected *expected)
{
    *expected = (dw_expected){.call = call};
    DW_TRY(dw_shop_day(call, shop, call->now_ms, &expected->today));
    DW_TRY(dw_store_sales_of_days(
        call->store, expected->today - 7 * WEEKS - DAYS_BACK,
        expected->today - 1, call->arena, &expected->sales,
        &expected->sales_count, call->err));
    DW_TRY(dw_rows_get(call, "outlet", &dw_outlet_noun, NULL, 0, "id",
                       &expected->outlets, &expected->outlets_count));
    DW_TRY(dw_rows_get(call, "drop_day", &dw_drop_day_noun, NULL, 0, "id",
                       &expected->drop_days, &expected->drop_days_count));
    return dw_rows_get(call, "build_to", &dw_build_to_noun, NULL, 0, "id",
                       &expected->build_to, &expected->build_to_count);
}

/* ---- the forecast -------------------------------------------------------- */

/* Of one outlet from today on, worked out when it is first asked for. */
static dw_status forecast_of(dw_expected *expected, int64_t outlet_id,
                             const dw_demand **found)
{
    for (size_t i = 0; i < expected->forecasts_count; i++)
        if (expected->forecasts[i]->outlet_id == outlet_id) {
            *found = expected->forecasts[i];
            return DW_OK;
        }
    const dw_demand_request request = {.outlet_id = outlet_id,
                                       .days = DW_FORECAST_DAYS_MOST};
    dw_demand *demand = DW_NEW(expected->call->arena, dw_demand);
    *found = NULL;
    if (!demand)
        return dw_fail(expected->call->err, DW_E_ROOM, "expected", NULL);
    if (expected->forecasts_count == DW_EXPECTED_OUTLETS)
        return DW_OK;
    DW_TRY(dw_demand_of(expected->call, &request, demand));
    demand->outlet_id = outlet_id;
    expected->forecasts[expected->forecasts_count++] = demand;
    *found = demand;
    return DW_OK;
}

static const dw_demand_product *product_in(const dw_demand *demand,
                                           int64_t product_id)
{
    for (size_t i = 0; demand && i < demand->products_count; i++)
        if (demand->products[i].product_id == product_id)
            return &demand->products[i];
    return NULL;
}

/* Only a history of the product's own, or of one like it, is a forecast; balls
 * to have are told as such. */
static bool forecast_day(const dw_demand_product *product, int64_t day,
                         double *balls)
{
    const dw_forecast *forecast = product ? &product->forecast : NULL;
    if (!forecast || (forecast->basis != DW_FORECAST_OWN &&
                      forecast->basis != DW_FORECAST_LIKE))
        return false;
    for (size_t i = 0; i < forecast->days_count; i++)
        if (forecast->days[i].day == day) {
            *balls = forecast->days[i].wanted.mean;
            return true;
        }
    return false;
}

/* ---- without one --------------------------------------------------------- */

/* Sales of four same weekdays, the last ones before today and before the day
 * itself. */
static int64_t sold_in_weeks(const dw_expected *expected, int64_t product_id,
                             int64_t outlet_id, int64_t day, bool *any)
{
    int64_t before = day < expected->today ? day : expected->today, sum = 0;
    int64_t last = day - 7;
    while (last >= before)
        last -= 7;
    for (size_t i = 0; i < expected->sales_count; i++) {
        const dw_sale *sale = &expected->sales[i];
        bool of_weekday = sale->day <= last && sale->day > last - 7 * WEEKS &&
                          (last - sale->day) % 7 == 0;
        if (!of_weekday || sale->product_id != product_id ||
            (outlet_id && sale->outlet_id != outlet_id))
            continue;
        *any = true;
        sum += sale->balls;
    }
    return sum;
}

/* Weeks of which anything is known of the product, so that a short history is
 * not taken for bad weeks. */
static int64_t weeks_known(const dw_expected *expected, int64_t product_id,
                           int64_t day)
{
    int64_t first = day;
    for (size_t i = 0; i < expected->sales_count; i++)
        if (expected->sales[i].product_id == product_id &&
            expected->sales[i].day < first)
            first = expected->sales[i].day;
    int64_t before = day < expected->today ? day : expected->today;
    int64_t weeks = 0;
    for (int64_t at = day - 7; at >= first; at -= 7)
        weeks += at < before;
    return weeks < WEEKS ? weeks : WEEKS;
}

static double plain_balls(const dw_expected *expected, int64_t product_id,
                          int64_t outlet_id, int64_t day,
                          dw_expected_basis *basis)
{
    bool any = false;
    int64_t sold = sold_in_weeks(expected, product_id, outlet_id, day, &any);
    int64_t weeks = weeks_known(expected, product_id, day);
    *basis = DW_EXPECTED_SALES;
    if (any && weeks > 0)
        return (double)sold / (double)weeks;
    *basis = DW_EXPECTED_NOTHING;
    for (size_t i = 0; i < expected->build_to_count && !outlet_id; i++) {
        const dw_build_to *row = &expected->build_to[i];
        if (row->product_id != product_id || row->weekday != dw_weekday(day))
            continue;
        *basis = DW_EXPECTED_BUILD_TO;
        return (double)row->balls;
    }
    return 0;
}

dw_status dw_expected_balls(dw_expected *expected, int64_t product_id,
                            int64_t outlet_id, int64_t day, double *balls,
                            dw_expected_basis *basis)
{
    const dw_demand *demand = NULL;
    if (day >= expected->today && expected->sales_count > 0)
        DW_TRY(forecast_of(expected, outlet_id, &demand));
    *basis = DW_EXPECTED_FORECAST;
    if (!forecast_day(product_in(demand, product_id), day, balls))
        *balls = plain_balls(expected, product_id, outlet_id, day, basis);
    return DW_OK;
}

static bool gets_drops(const dw_expected *expected, int64_t outlet_id)
{
    for (size_t i = 0; i < expected->drop_days_count; i++)
        if (expected->drop_days[i].outlet_id == outlet_id)
            return true;
    return false;
}

dw_status dw_expected_served(dw_expected *expected, int64_t product_id,
                             int64_t day, double *balls,
                             dw_expected_basis *basis)
{
    if (expected->drop_days_count == 0)
        return dw_expected_balls(expected, product_id, 0, day, balls, basis);
    *balls = 0;
    *basis = DW_EXPECTED_NOTHING;
    for (size_t i = 0; i < expected->outlets_count; i++) {
        double one;
        if (gets_drops(expected, expected->outlets[i].id))
            continue;
        DW_TRY(dw_expected_balls(expected, product_id, expected->outlets[i].id,
                                 day, &one, basis));
        *balls += one;
    }
    return DW_OK;
}

dw_status dw_expected_hours(dw_expected *expected, int64_t product_id,
                            int64_t day, const double **hours)
{
    static const double usual[24] = {
        [11] = .06, [12] = .09, [13] = .06, [14] = .03, [15] = .03, [16] = .06,
        [17] = .14, [18] = .19, [19] = .16, [20] = .10, [21] = .05, [22] = .03};
    const dw_demand *demand = NULL;
    *hours = usual;
    if (expected->sales_count > 0)
        DW_TRY(forecast_of(expected, 0, &demand));
    const dw_demand_product *product = product_in(demand, product_id);
    for (size_t i = 0; product && i < product->hours_count; i++)
        if (product->hours[i].weekday == dw_weekday(day) &&
            product->hours[i].shares_count == 24)
            *hours = product->hours[i].shares;
    return DW_OK;
}
