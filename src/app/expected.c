#include "app/expected.h"

#include "store/sales.h"

static const int64_t WEEKS = 4, DAYS_BACK = 14;

const char *const dw_expected_basis_words[] = {"nothing", "build_to", "sales",
                                               NULL};

dw_status dw_expected_open(dw_call *call, const dw_shop *shop,
                           dw_expected *expected)
{
    *expected = (dw_expected){.today = 0};
    DW_TRY(dw_shop_day(call, shop, call->now_ms, &expected->today));
    DW_TRY(dw_store_sales_of_days(
        call->store, expected->today - 7 * WEEKS - DAYS_BACK,
        expected->today - 1, call->arena, &expected->sales,
        &expected->sales_count, call->err));
    return dw_rows_get(call, "build_to", &dw_build_to_noun, NULL, 0, "id",
                       &expected->build_to, &expected->build_to_count);
}

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

double dw_expected_balls(const dw_expected *expected, int64_t product_id,
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

const double *dw_expected_hours(void)
{
    static const double hours[24] = {
        [11] = .06, [12] = .09, [13] = .06, [14] = .03, [15] = .03, [16] = .06,
        [17] = .14, [18] = .19, [19] = .16, [20] = .10, [21] = .05, [22] = .03};
    return hours;
}
