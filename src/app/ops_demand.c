/* Demand of the shop: forecasts, and what people know that sales do not say. */
#include "app/demand.h"

#include "app/stock.h"
#include "doughwright/say.h"

#include <string.h>

enum { DAY_LAST = 84000 };

static dw_status get(dw_call *call, const void *request, void *reply)
{
    return dw_demand_of(call, request, reply);
}

/* ---- demand.mark ----------------------------------------------------------
 */

/* The only outlet need not be named. */
static dw_status find_outlet(dw_call *call, int64_t *outlet_id)
{
    dw_outlet *outlets;
    size_t n;
    DW_TRY(dw_rows_get(call, "outlet", &dw_outlet_noun, NULL, 0, "id", &outlets,
                       &n));
    if (*outlet_id == 0 && n > 1)
        return dw_fail(call->err, DW_E_MISSING, "outlet_id", NULL);
    if (*outlet_id == 0) {
        *outlet_id = n == 1 ? outlets[0].id : 0;
        return DW_OK;
    }
    dw_outlet one;
    return dw_row_get(call, "outlet", &dw_outlet_noun, *outlet_id, "outlet_id",
                      &one);
}

static dw_status mark(dw_call *call, const void *request, void *reply)
{
    dw_demand_mark row = *(const dw_demand_mark *)request, *rows;
    dw_product product;
    size_t n;
    int64_t today;
    DW_TRY(dw_row_get(call, "product", &dw_product_noun, row.product_id,
                      "product_id", &product));
    DW_TRY(find_outlet(call, &row.outlet_id));
    DW_TRY(dw_today(call, &today));
    DW_TRY(dw_check_range(call->err, "day", (double)row.day, 0, (double)today));
    DW_TRY(dw_rows_get(call, "demand_mark", &dw_demand_mark_noun, "product_id",
                       row.product_id, "id", &rows, &n));
    row.id = 0;
    for (size_t i = 0; i < n; i++)
        if (rows[i].day == row.day && rows[i].outlet_id == row.outlet_id)
            row.id = rows[i].id;
    row.person_id = call->person_id;
    return dw_row_save(call, "demand_mark", &dw_demand_mark_noun, &row,
                       &((dw_made *)reply)->id);
}

/* ---- events ---------------------------------------------------------------
 */

typedef struct event_list {
    dw_demand_event *events;
    size_t events_count;
} event_list;
static const dw_field event_list_fields[] = {
    DW_F_MANY_OPT(event_list, events, &dw_demand_event_noun,
                  DW_FORECAST_EVENTS_MOST, "in the order they were made"),
};
static const dw_shape event_list_shape =
    DW_SHAPE("event_list", event_list, event_list_fields,
             "days that are unlike their weekday");

static dw_status events_of(dw_call *call, event_list *list)
{
    return dw_rows_get(call, "demand_event", &dw_demand_event_noun, NULL, 0,
                       "id", &list->events, &list->events_count);
}

static dw_status event_list_run(dw_call *call, const void *request, void *reply)
{
    return events_of(call, reply);
}

static dw_status event_save(dw_call *call, const void *request, void *reply)
{
    const dw_demand_event *row = request;
    event_list list;
    if (dw_event_check(&row->event, call->err) != DW_OK)
        return dw_err_within(call->err, "event");
    DW_TRY(events_of(call, &list));
    for (size_t i = 0; i < list.events_count; i++)
        if (list.events[i].id != row->id &&
            dw_text_is(list.events[i].event.name, row->event.name))
            return dw_fail_says(call->err, DW_E_CONFLICT, "event.name",
                                row->event.name, DW_MSG("is there already"));
    if (row->id == 0 && list.events_count >= DW_FORECAST_EVENTS_MOST)
        return dw_fail_range(call->err, "event", (double)list.events_count + 1,
                             0, DW_FORECAST_EVENTS_MOST);
    return dw_row_save(call, "demand_event", &dw_demand_event_noun, row,
                       &((dw_made *)reply)->id);
}

static dw_status event_delete(dw_call *call, const void *request, void *reply)
{
    int64_t id = ((const dw_made *)request)->id;
    dw_demand_event row;
    DW_TRY(dw_row_get(call, "demand_event", &dw_demand_event_noun, id, "id",
                      &row));
    ((dw_made *)reply)->id = id;
    return dw_store_delete(call->store, "demand_event", "id", id, call->err);
}

/* ---- overrides ------------------------------------------------------------
 */

static dw_status override_save(dw_call *call, const void *request, void *reply)
{
    dw_demand_override row = *(const dw_demand_override *)request;
    dw_product product;
    dw_outlet outlet;
    DW_TRY(dw_row_get(call, "product", &dw_product_noun, row.product_id,
                      "product_id", &product));
    if (row.outlet_id)
        DW_TRY(dw_row_get(call, "outlet", &dw_outlet_noun, row.outlet_id,
                          "outlet_id", &outlet));
    if (dw_override_check(&row.change, call->err) != DW_OK)
        return dw_err_within(call->err, "change");
    row.person_id = call->person_id;
    row.made_ms = call->occurred_ms;
    return dw_row_save(call, "demand_override", &dw_demand_override_noun, &row,
                       &((dw_made *)reply)->id);
}

static dw_status override_delete(dw_call *call, const void *request,
                                 void *reply)
{
    int64_t id = ((const dw_made *)request)->id;
    dw_demand_override row;
    DW_TRY(dw_row_get(call, "demand_override", &dw_demand_override_noun, id,
                      "id", &row));
    ((dw_made *)reply)->id = id;
    return dw_store_delete(call->store, "demand_override", "id", id, call->err);
}

/* ---- product.like ---------------------------------------------------------
 */

static dw_status like(dw_call *call, const void *request, void *reply)
{
    dw_product_like row = *(const dw_product_like *)request, *rows;
    dw_product product;
    size_t n;
    DW_TRY(dw_row_get(call, "product", &dw_product_noun, row.product_id,
                      "product_id", &product));
    if (row.like_id)
        DW_TRY(dw_row_get(call, "product", &dw_product_noun, row.like_id,
                          "like_id", &product));
    if (row.like_id == row.product_id)
        return dw_fail_says(call->err, DW_E_CONFLICT, "like_id", product.name,
                            DW_MSG("is the product itself"));
    DW_TRY(dw_rows_get(call, "product_like", &dw_product_like_noun,
                       "product_id", row.product_id, "id", &rows, &n));
    row.id = n > 0 ? rows[0].id : 0;
    return dw_row_save(call, "product_like", &dw_product_like_noun, &row,
                       &((dw_made *)reply)->id);
}

const dw_op dw_ops_demand[] = {
    {"demand.get", DW_OP_READ, &dw_demand_request_shape, &dw_demand_shape, get,
     "What the next days may want, by product, with its band; and how the "
     "last weeks' forecasts did."},
    {"demand.mark", DW_OP_WRITE, &dw_demand_mark_noun, &dw_made_shape, mark,
     "Say that a product sold out on a day, or how many more were wanted."},
    {"event.list", DW_OP_READ, &dw_nothing_shape, &event_list_shape,
     event_list_run, "Days that are unlike their weekday."},
    {"event.save", DW_OP_WRITE, &dw_demand_event_noun, &dw_made_shape,
     event_save, "Name a holiday or an event of the shop's own."},
    {"event.delete", DW_OP_WRITE, &dw_made_request_shape, &dw_made_shape,
     event_delete, "Take an event away."},
    {"override.save", DW_OP_WRITE, &dw_demand_override_noun, &dw_made_shape,
     override_save,
     "Know better than the forecast, for a reason, until a day."},
    {"override.delete", DW_OP_WRITE, &dw_made_request_shape, &dw_made_shape,
     override_delete, "Take an override away."},
    {"product.like", DW_OP_WRITE, &dw_product_like_noun, &dw_made_shape, like,
     "Say which product a new one is like."},
};
const size_t dw_ops_demand_count = DW_COUNT(dw_ops_demand);
