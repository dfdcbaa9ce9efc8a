/* Count: what is left, and what is short. */
#include "app/stacks.h"

#include "doughwright/say.h"

typedef struct count_sheet {
    int64_t day, counted_ms; /* when the newest count was taken */
    dw_stock_line *products;
    size_t products_count;
} count_sheet;
static const dw_field count_sheet_fields[] = {
    DW_F_WHOLE(count_sheet, day, "d", 0, 84000, "business day"),
    DW_F_MOMENT(count_sheet, counted_ms, "newest count; 0: none yet"),
    DW_F_MANY_OPT(count_sheet, products, &dw_stock_line_shape, 1000,
                  "in the shop's order"),
};
static const dw_shape count_sheet_shape =
    DW_SHAPE("count_sheet", count_sheet, count_sheet_fields,
             "what is there by product and mixing day, and what is short");

static dw_status fill_sheet(dw_call *call, int64_t day, count_sheet *sheet)
{
    dw_shop shop;
    DW_TRY(dw_shop_get(call, &shop));
    if (day == 0)
        DW_TRY(dw_shop_day(call, &shop, call->now_ms, &day));
    dw_count_row *counts;
    size_t n;
    DW_TRY(dw_rows_get(call, "count_taken", &dw_count_taken_noun, NULL, 0,
                       "at_ms DESC", &counts, &n));
    sheet->day = day;
    sheet->counted_ms = n > 0 ? counts[0].at_ms : 0;
    return dw_stock_of(call, &shop, day, &sheet->products,
                       &sheet->products_count);
}

static dw_status count_get(dw_call *call, const void *request, void *reply)
{
    return fill_sheet(call, ((const dw_day_asked *)request)->day, reply);
}

typedef struct count_given {
    int64_t day;
    dw_count_line *lines;
    size_t lines_count;
} count_given;
static const dw_field count_given_fields[] = {
    DW_F_WHOLE_PRESET(count_given, day, "d", 0, 84000, 0,
                      "business day; 0: today"),
    DW_F_MANY(count_given, lines, &dw_count_line_noun, 1, 2000,
              "a product with none left has a line of 0 balls"),
};
static const dw_shape count_given_shape = DW_SHAPE(
    "count_given", count_given, count_given_fields, "what somebody counted");

/* A ball cannot be made after it was counted, nor counted twice. */
static dw_status check_lines(dw_call *call, const count_given *given,
                             int64_t day)
{
    for (size_t i = 0; i < given->lines_count; i++) {
        const dw_count_line *line = &given->lines[i];
        dw_product product;
        DW_TRY(dw_row_get(call, "product", &dw_product_noun, line->product_id,
                          "lines.product_id", &product));
        if (line->mixing_day > day)
            return dw_fail_range(call->err, "lines.mixing_day",
                                 (double)line->mixing_day, 0, (double)day);
        for (size_t j = 0; j < i; j++)
            if (given->lines[j].product_id == line->product_id &&
                given->lines[j].mixing_day == line->mixing_day)
                return dw_fail_says(
                    call->err, DW_E_CONFLICT, "lines", product.name,
                    DW_MSG("is counted twice for one mixing day"));
    }
    return DW_OK;
}

static dw_status count_save(dw_call *call, const void *request, void *reply)
{
    const count_given *given = request;
    dw_shop shop;
    DW_TRY(dw_shop_get(call, &shop));
    int64_t today;
    DW_TRY(dw_shop_day(call, &shop, call->now_ms, &today));
    int64_t day = given->day == 0 ? today : given->day;
    DW_TRY(dw_check_range(call->err, "day", (double)day, 0, (double)today));
    DW_TRY(check_lines(call, given, day));
    dw_count_row row = {0, day, call->occurred_ms, call->person_id};
    DW_TRY(
        dw_row_save(call, "count_taken", &dw_count_taken_noun, &row, &row.id));
    for (size_t i = 0; i < given->lines_count; i++) {
        dw_count_line *line = &given->lines[i];
        line->id = 0;
        line->count_id = row.id;
        DW_TRY(
            dw_row_save(call, "count_line", &dw_count_line_noun, line, NULL));
    }
    DW_TRY(dw_stacks_book_count(call, given->lines, given->lines_count));
    return fill_sheet(call, day, reply);
}

const dw_op dw_ops_count[] = {
    {"count.get", DW_OP_READ, &dw_day_asked_shape, &count_sheet_shape,
     count_get,
     "What is in the cold room by product and mixing day, and what is short."},
    {"count.save", DW_OP_WRITE, &count_given_shape, &count_sheet_shape,
     count_save, "Write a count of the balls left; says what is short."},
};
const size_t dw_ops_count_count = DW_COUNT(dw_ops_count);
