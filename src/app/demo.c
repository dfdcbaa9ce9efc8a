#include "app/demo.h"

#include "app/stock.h"
#include "app/taught.h"
#include "doughwright/say.h"

static const dw_field request_fields[] = {
    DW_F_WHOLE_PRESET(dw_demo_request, seed, "", 0, 9007199254740991.0, 1,
                      "the same seed, the same business"),
    DW_F_MOMENT(dw_demo_request, now_ms, "0: the moment of the call"),
    DW_F_ONE(dw_demo_request, shop, &dw_shop_file_shape, "whose past it is"),
};
const dw_shape dw_demo_request_shape =
    DW_SHAPE("demo_request", dw_demo_request, request_fields,
             "a shop that is to have a past");

static const dw_field reply_fields[] = {
    DW_F_TEXT(dw_demo_reply, name, 80, "of the business"),
    DW_F_WHOLE(dw_demo_reply, day, "d", 0, 84000, "its today"),
    DW_F_WHOLE(dw_demo_reply, sales, "", 0, 1e9, "rows of sales"),
    DW_F_WHOLE(dw_demo_reply, batches, "", 0, 1e6, "in the batch book"),
};
const dw_shape dw_demo_reply_shape =
    DW_SHAPE("demo_reply", dw_demo_reply, reply_fields, "what was made");

static dw_status check_empty(dw_call *call)
{
    dw_shop shop;
    dw_status status = dw_shop_get(call, &shop);
    if (status == DW_OK)
        return dw_fail_says(call->err, DW_E_CONFLICT, "shop", shop.name,
                            DW_MSG("is there already; the demo wants an empty "
                                   "database"));
    return status == DW_E_NOT_FOUND ? DW_OK : status;
}

/* Balls of a mean day: what the shop wants to have, less its safety. */
static double mean_balls(const dw_product_file *product)
{
    double week = 0;
    for (size_t i = 0; i < product->build_to_count; i++)
        week += (double)product->build_to[i];
    return 0.62 * week / 7;
}

static dw_status make_sales(dw_call *call, const dw_demo_request *request,
                            int64_t today, int64_t *count)
{
    dw_outlet *outlets;
    size_t n;
    DW_TRY(dw_rows_get(call, "outlet", &dw_outlet_noun, NULL, 0, "id", &outlets,
                       &n));
    dw_demo_place place = {
        .seed = (uint64_t)request->seed, .last_day = today - 1, .outlets = n};
    for (size_t p = 0; p < request->shop.products_count; p++) {
        const dw_product_file *product = &request->shop.products[p];
        place.product = p;
        place.balls = mean_balls(product);
        for (place.outlet = 0; place.outlet < n; place.outlet++)
            for (int64_t day = today - DW_DEMO_DAYS; day < today; day++) {
                dw_sale sale = {.outlet_id = outlets[place.outlet].id,
                                .product_id = product->product.id,
                                .day = day};
                sale.balls = dw_demo_sold(&place, day, &sale.sold_out);
                DW_TRY(dw_row_save(call, "sale", &dw_sale_noun, &sale, NULL));
                (*count)++;
            }
    }
    return DW_OK;
}

/* The first outlet is the kitchen's own counter; the others get a drop at two
 * in the afternoon, every day but Sunday. */
static dw_status make_drops(dw_call *call)
{
    dw_outlet *outlets;
    size_t n;
    DW_TRY(dw_rows_get(call, "outlet", &dw_outlet_noun, NULL, 0, "id", &outlets,
                       &n));
    for (size_t i = 1; i < n; i++)
        for (int64_t weekday = 0; weekday < 6; weekday++) {
            dw_drop_day day = {.outlet_id = outlets[i].id,
                               .weekday = weekday,
                               .at_minute = 840 + 20 * (int64_t)(i - 1),
                               .cutoff_minutes = 1080};
            DW_TRY(
                dw_row_save(call, "drop_day", &dw_drop_day_noun, &day, NULL));
        }
    return DW_OK;
}

dw_status dw_demo_make(dw_call *call, const dw_demo_request *request,
                       dw_demo_reply *reply)
{
    DW_TRY(check_empty(call));
    dw_call then = *call;
    if (request->now_ms)
        then.now_ms = request->now_ms;
    then.occurred_ms = then.now_ms;
    *reply = (dw_demo_reply){.name = request->shop.shop.name};
    DW_TRY(dw_shop_file_put(&then, &request->shop));
    DW_TRY(dw_shop_day(&then, &request->shop.shop, then.now_ms, &reply->day));
    DW_TRY(make_sales(&then, request, reply->day, &reply->sales));
    DW_TRY(make_drops(&then));
    DW_TRY(dw_demo_book(&then, (uint64_t)request->seed, &reply->batches));
    DW_TRY(dw_taught_learn(call, DW_LESSON_ROOM));
    return dw_taught_learn(call, DW_LESSON_STACK);
}

static dw_status demo_make(dw_call *call, const void *request, void *reply)
{
    return dw_demo_make(call, request, reply);
}

const dw_op dw_ops_demo[] = {
    {"demo.make", DW_OP_WRITE, &dw_demo_request_shape, &dw_demo_reply_shape,
     demo_make,
     "Give a shop twelve months of invented sales and a batch book."},
};
const size_t dw_ops_demo_count = DW_COUNT(dw_ops_demo);
