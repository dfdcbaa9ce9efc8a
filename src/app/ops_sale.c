#include "app/sales.h"

#include "app/load.h"
#include "app/stock.h"
#include "doughwright/say.h"
#include "store/demand.h"
#include "store/sales.h"

#include <stdlib.h>
#include <string.h>

enum { DAY_LAST = 84000, BALLS_MOST = 100000 };

static const dw_field given_fields[] = {
    DW_F_WHOLE_PRESET(dw_sale_given, line, "", 0, 1e9, 0,
                      "where it stands in its file"),
    DW_F_TEXT_OPT(dw_sale_given, outlet, 60, "null: the only outlet there is"),
    DW_F_TEXT(dw_sale_given, product, 60, "of what"),
    DW_F_WHOLE(dw_sale_given, day, "d", 0, DAY_LAST, "when"),
    DW_F_WHOLE(dw_sale_given, balls, "", 0, 100000, "how many"),
    DW_F_YES(dw_sale_given, sold_out, false, "then the number is at least"),
    DW_F_WHOLE_OPT(dw_sale_given, hour, "h", 0, 23, "of the shop's clock"),
};
const dw_shape dw_sale_given_shape = DW_SHAPE(
    "sale_given", dw_sale_given, given_fields, "balls used on a day, by names");

static const dw_field sales_fields[] = {
    DW_F_MANY(dw_sales_given, rows, &dw_sale_given_shape, 1, DW_SALES_MOST,
              "the rows"),
    DW_F_YES(dw_sales_given, add_up, false,
             "rows of one outlet, product and day are parts of it"),
};
const dw_shape dw_sales_given_shape =
    DW_SHAPE("sales_given", dw_sales_given, sales_fields, "rows of sales");

static const dw_field refused_fields[] = {
    DW_F_WHOLE(dw_sale_refused, line, "", 0, 1e9, "where it stands"),
    DW_F_TEXT(dw_sale_refused, field, 60, "what is wrong with it"),
    DW_F_TEXT_OPT(dw_sale_refused, value, 200, "what it says"),
    DW_F_TEXT(dw_sale_refused, message, 400, "why it was kept aside"),
};
const dw_shape dw_sale_refused_shape =
    DW_SHAPE("sale_refused", dw_sale_refused, refused_fields,
             "a row that was kept aside");

static const dw_field taken_fields[] = {
    DW_F_WHOLE(dw_sales_taken, added, "", 0, 1e9, "new rows"),
    DW_F_WHOLE(dw_sales_taken, changed, "", 0, 1e9, "with another number"),
    DW_F_WHOLE(dw_sales_taken, same, "", 0, 1e9, "as they were"),
    DW_F_WHOLE(dw_sales_taken, passed_over, "", 0, 1e9,
               "of what is not made of our dough"),
    DW_F_MANY_OPT(dw_sales_taken, refused, &dw_sale_refused_shape,
                  DW_SALES_MOST, "kept aside"),
};
const dw_shape dw_sales_taken_shape = DW_SHAPE(
    "sales_taken", dw_sales_taken, taken_fields, "what became of the rows");

/* ---- sale.load ----------------------------------------------------------- */

/* A sale and where it came from. */
typedef struct entry {
    dw_sale sale;
    int64_t line;
    size_t order; /* in the request; what is stored comes first */
    bool stored, has_hour;
    int64_t hour;
} entry;

typedef struct desk {
    dw_call *call;
    dw_outlet *outlets;
    dw_product *products;
    dw_sales_name *names;
    size_t outlets_count, products_count, names_count;
    int64_t today;
    bool add_up;
    entry *entries;
    size_t entries_count;
    dw_sales_taken *taken;
} desk;

static dw_status refuse(desk *d, int64_t line, const char *field,
                        const char *value, const char *message)
{
    dw_sale_refused *row = &d->taken->refused[d->taken->refused_count++];
    *row = (dw_sale_refused){line, field, value, NULL};
    row->message =
        dw_arena_text(d->call->arena, dw_say_sentence(d->call->lang, message));
    return row->message ? DW_OK
                        : dw_fail(d->call->err, DW_E_ROOM, "rows", NULL);
}

static const dw_sales_name *known_name(const desk *d, int kind,
                                       const char *written)
{
    for (size_t i = 0; i < d->names_count; i++)
        if (d->names[i].kind == kind &&
            dw_text_is(d->names[i].written, written))
            return &d->names[i];
    return NULL;
}

static int64_t outlet_of(const desk *d, const char *name)
{
    if (!name)
        return d->outlets_count == 1 ? d->outlets[0].id : 0;
    for (size_t i = 0; i < d->outlets_count; i++)
        if (dw_text_is(d->outlets[i].name, name))
            return d->outlets[i].id;
    const dw_sales_name *known = known_name(d, DW_SALES_NAME_OUTLET, name);
    return known ? known->outlet_id : 0;
}

/* What a name stands for: one of the shop's, or one of a register's. */
static dw_sales_name product_of(const desk *d, const char *name)
{
    for (size_t i = 0; i < d->products_count; i++)
        if (dw_text_is(d->products[i].name, name))
            return (dw_sales_name){.product_id = d->products[i].id,
                                   .balls_each = 1};
    const dw_sales_name *known = known_name(d, DW_SALES_NAME_PRODUCT, name);
    return known ? *known : (dw_sales_name){.product_id = 0};
}

static dw_status take_row(desk *d, const dw_sale_given *row, size_t order)
{
    dw_sales_name product = product_of(d, row->product);
    dw_sale sale = {.outlet_id = outlet_of(d, row->outlet),
                    .product_id = product.product_id,
                    .day = row->day,
                    .balls = row->balls * product.balls_each,
                    .sold_out = row->sold_out};
    if (product.passed_over) {
        d->taken->passed_over++;
        return DW_OK;
    }
    if (!sale.outlet_id)
        return refuse(d, row->line, "outlet", row->outlet,
                      DW_MSG("is not one of the shop's outlets"));
    if (!sale.product_id)
        return refuse(d, row->line, "product", row->product,
                      DW_MSG("is not one of the shop's products"));
    if (row->day > d->today)
        return refuse(d, row->line, "day", NULL, DW_MSG("has not come yet"));
    if (sale.balls > BALLS_MOST)
        return refuse(d, row->line, "balls", NULL,
                      DW_MSG("are more than a day can have"));
    d->entries[d->entries_count++] =
        (entry){sale, row->line, order + 1, false, row->has_hour, row->hour};
    return DW_OK;
}

static int compare(int64_t a, int64_t b)
{
    return a < b ? -1 : a > b;
}

static int by_key(const entry *a, const entry *b)
{
    int outlet = compare(a->sale.outlet_id, b->sale.outlet_id);
    int product = compare(a->sale.product_id, b->sale.product_id);
    return outlet    ? outlet
           : product ? product
                     : compare(a->sale.day, b->sale.day);
}

static int by_key_and_order(const void *a, const void *b)
{
    int key = by_key(a, b);
    return key ? key
               : compare((int64_t)((const entry *)a)->order,
                         (int64_t)((const entry *)b)->order);
}

static bool same_number(const dw_sale *a, const dw_sale *b)
{
    return a->balls == b->balls && a->sold_out == b->sold_out;
}

/* The parts of one outlet, product and day become one. */
static void add_up(entry *parts, size_t count)
{
    for (size_t i = 1; i < count; i++) {
        parts[0].sale.balls += parts[i].sale.balls;
        parts[0].sale.sold_out |= parts[i].sale.sold_out;
    }
}

/* What the parts say of the hours replaces what was known of them. */
static dw_status write_hours(desk *d, const entry *parts, size_t count)
{
    dw_call *call = d->call;
    const dw_sale *sale = &parts[0].sale;
    int64_t balls[24] = {0};
    DW_TRY(dw_store_forget_hours(call->store, sale->outlet_id, sale->product_id,
                                 sale->day, call->err));
    for (size_t i = 0; i < count; i++)
        if (parts[i].has_hour)
            balls[parts[i].hour] += parts[i].sale.balls;
    for (int64_t hour = 0; hour < 24; hour++) {
        const dw_sale_hour row = {
            0, sale->outlet_id, sale->product_id, sale->day, hour, balls[hour]};
        if (row.balls > 0)
            DW_TRY(
                dw_row_save(call, "sale_hour", &dw_sale_hour_noun, &row, NULL));
    }
    return DW_OK;
}

static dw_status refuse_others(desk *d, const entry *run, size_t count)
{
    for (size_t i = 1; i < count; i++)
        if (!same_number(&run[i].sale, &run[0].sale))
            DW_TRY(refuse(d, run[i].line, "balls", NULL,
                          DW_MSG("says another number than a row before")));
    return DW_OK;
}

/* One outlet, product and day: the stored row, if any, then the given ones. */
static dw_status write_run(desk *d, entry *run, size_t count)
{
    size_t first = run[0].stored ? 1 : 0;
    if (first == count)
        return DW_OK;
    entry *given = &run[first];
    if (given->has_hour)
        DW_TRY(write_hours(d, given, count - first));
    if (d->add_up || given->has_hour)
        add_up(given, count - first);
    else
        DW_TRY(refuse_others(d, given, count - first));
    dw_sale *sale = &given->sale;
    if (first == 1 && same_number(sale, &run[0].sale)) {
        d->taken->same++;
        return DW_OK;
    }
    if (first == 1)
        sale->id = run[0].sale.id;
    *(first ? &d->taken->changed : &d->taken->added) += 1;
    return dw_row_save(d->call, "sale", &dw_sale_noun, sale, NULL);
}

/* A shop that sells where it makes is its own outlet. */
static dw_status make_outlet(desk *d, const dw_shop *shop)
{
    dw_outlet own = {.name = shop->name};
    if (strlen(own.name) > 60)
        return DW_OK;
    DW_TRY(dw_row_save(d->call, "outlet", &dw_outlet_noun, &own, NULL));
    return dw_rows_get(d->call, "outlet", &dw_outlet_noun, NULL, 0, "id",
                       &d->outlets, &d->outlets_count);
}

static dw_status open_desk(desk *d, size_t rows)
{
    dw_call *call = d->call;
    dw_shop shop;
    dw_sale *stored;
    size_t n;
    DW_TRY(dw_shop_get(call, &shop));
    DW_TRY(dw_shop_day(call, &shop, call->now_ms, &d->today));
    DW_TRY(dw_rows_get(call, "outlet", &dw_outlet_noun, NULL, 0, "id",
                       &d->outlets, &d->outlets_count));
    DW_TRY(dw_rows_get(call, "product", &dw_product_noun, NULL, 0, "id",
                       &d->products, &d->products_count));
    DW_TRY(dw_rows_get(call, "sales_name", &dw_sales_name_noun, NULL, 0, "id",
                       &d->names, &d->names_count));
    if (d->outlets_count == 0)
        DW_TRY(make_outlet(d, &shop));
    DW_TRY(dw_store_sales_of_days(call->store, 0, DAY_LAST, call->arena,
                                  &stored, &n, call->err));
    d->entries = DW_NEW_ARRAY(call->arena, entry, n + rows);
    d->taken->refused = DW_NEW_ARRAY(call->arena, dw_sale_refused, 2 * rows);
    if (!d->entries || !d->taken->refused)
        return dw_fail(call->err, DW_E_ROOM, "rows", NULL);
    for (size_t i = 0; i < n; i++)
        d->entries[i] = (entry){.sale = stored[i], .stored = true};
    d->entries_count = n;
    return DW_OK;
}

dw_status dw_sales_take(dw_call *call, const dw_sales_given *given,
                        dw_sales_taken *taken)
{
    desk d = {.call = call, .taken = taken, .add_up = given->add_up};
    *taken = (dw_sales_taken){.added = 0};
    DW_TRY(open_desk(&d, given->rows_count));
    for (size_t i = 0; i < given->rows_count; i++)
        DW_TRY(take_row(&d, &given->rows[i], i));
    qsort(d.entries, d.entries_count, sizeof(entry), by_key_and_order);
    for (size_t i = 0, n; i < d.entries_count; i += n) {
        for (n = 1; i + n < d.entries_count &&
                    by_key(&d.entries[i], &d.entries[i + n]) == 0;)
            n++;
        DW_TRY(write_run(&d, &d.entries[i], n));
    }
    return DW_OK;
}

static dw_status sale_load(dw_call *call, const void *request, void *reply)
{
    return dw_sales_take(call, request, reply);
}

/* ---- sale.list ----------------------------------------------------------- */

typedef struct days {
    int64_t from_day, to_day;
} days;
static const dw_field days_fields[] = {
    DW_F_WHOLE_PRESET(days, from_day, "d", 0, DAY_LAST, 0, "first day"),
    DW_F_WHOLE_PRESET(days, to_day, "d", 0, DAY_LAST, DAY_LAST, "last day"),
};
static const dw_shape days_shape =
    DW_SHAPE("days", days, days_fields, "from one day to another");

typedef struct sale_told {
    int64_t day;
    const char *outlet, *product;
    int64_t outlet_id, product_id, balls;
    bool sold_out;
} sale_told;
static const dw_field told_fields[] = {
    DW_F_WHOLE(sale_told, day, "d", 0, DAY_LAST, "when"),
    DW_F_TEXT(sale_told, outlet, 60, "where"),
    DW_F_TEXT(sale_told, product, 60, "of what"),
    DW_F_WHOLE(sale_told, balls, "", 0, 100000, "how many"),
    DW_F_YES(sale_told, sold_out, false, "then the number is at least"),
    DW_F_ID(sale_told, outlet_id, "where"),
    DW_F_ID(sale_told, product_id, "of what"),
};
static const dw_shape told_shape =
    DW_SHAPE("sale_told", sale_told, told_fields, "balls used on a day");

typedef struct sale_list {
    sale_told *sales;
    size_t sales_count;
} sale_list;
static const dw_field sale_list_fields[] = {
    DW_F_MANY_OPT(sale_list, sales, &told_shape, 1000000,
                  "by day, outlet and product"),
};
static const dw_shape sale_list_shape =
    DW_SHAPE("sale_list", sale_list, sale_list_fields, "sales of some days");

static const char *outlet_name(const desk *d, int64_t id)
{
    for (size_t i = 0; i < d->outlets_count; i++)
        if (d->outlets[i].id == id)
            return d->outlets[i].name;
    return NULL;
}

static const char *product_name(const desk *d, int64_t id)
{
    for (size_t i = 0; i < d->products_count; i++)
        if (d->products[i].id == id)
            return d->products[i].name;
    return NULL;
}

static dw_status sale_list_run(dw_call *call, const void *request, void *reply)
{
    const days *asked = request;
    sale_list *list = reply;
    desk d = {.call = call};
    dw_sale *rows;
    size_t n;
    DW_TRY(dw_rows_get(call, "outlet", &dw_outlet_noun, NULL, 0, "id",
                       &d.outlets, &d.outlets_count));
    DW_TRY(dw_rows_get(call, "product", &dw_product_noun, NULL, 0, "id",
                       &d.products, &d.products_count));
    DW_TRY(dw_store_sales_of_days(call->store, asked->from_day, asked->to_day,
                                  call->arena, &rows, &n, call->err));
    list->sales = DW_NEW_ARRAY(call->arena, sale_told, n);
    if (!list->sales)
        return dw_fail(call->err, DW_E_ROOM, "sales", NULL);
    list->sales_count = n;
    for (size_t i = 0; i < n; i++)
        list->sales[i] = (sale_told){rows[i].day,
                                     outlet_name(&d, rows[i].outlet_id),
                                     product_name(&d, rows[i].product_id),
                                     rows[i].outlet_id,
                                     rows[i].product_id,
                                     rows[i].balls,
                                     rows[i].sold_out};
    return DW_OK;
}

const dw_op dw_ops_sale[] = {
    {"sale.load", DW_OP_WRITE, &dw_sales_given_shape, &dw_sales_taken_shape,
     sale_load,
     "Write sales by outlet, product and day; bad rows are told and left out."},
    {"sale.list", DW_OP_READ, &days_shape, &sale_list_shape, sale_list_run,
     "The sales of some days, by outlet and product."},
};
const size_t dw_ops_sale_count = DW_COUNT(dw_ops_sale);
