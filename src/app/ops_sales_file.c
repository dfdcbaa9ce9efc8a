/* A register's file: how it would be read is shown, somebody confirms it, then
 * it is taken in. */
#include "app/sales_sheet.h"

#include "app/stock.h"
#include "doughwright/csv.h"
#include "doughwright/say.h"

#include <ctype.h>
#include <string.h>

enum { EXCERPT_LINES = 6, PREVIEW_ROWS = 8, NAMES_MOST = 2000 };

/* ---- shapes ---------------------------------------------------------------
 */

typedef struct read_request {
    const char *text;
    bool has_mapping; /* absent: found out from the file */
    dw_sales_mapping mapping;
} read_request;
static const dw_field read_request_fields[] = {
    DW_F_TEXT(read_request, text, DW_CSV_MOST, "the file"),
    DW_F_ONE_OPT(read_request, mapping, &dw_sales_mapping_shape,
                 "null: found out from the file"),
};
static const dw_shape read_request_shape = DW_SHAPE(
    "sales_read_request", read_request, read_request_fields, "a file to read");

typedef struct line {
    const char *text;
} line;
static const dw_field line_fields[] = {
    DW_F_TEXT_OPT(line, text, 2000, "as it stands"),
};
static const dw_shape line_shape =
    DW_SHAPE("sales_line", line, line_fields, "a line of the file");

typedef struct column {
    const char *name, *example;
} column;
static const dw_field column_fields[] = {
    DW_F_TEXT_OPT(column, name, DW_CSV_MOST, "in the first line"),
    DW_F_TEXT_OPT(column, example, DW_CSV_MOST, "in the second"),
};
static const dw_shape column_shape =
    DW_SHAPE("sales_column", column, column_fields, "a column of the file");

/* A name in the file that is not one of the shop's. */
typedef struct stranger {
    dw_sales_name name;
    int64_t rows;
    bool known; /* somebody has said what it means */
} stranger;
static const dw_field stranger_fields[] = {
    DW_F_ONE(stranger, name, &dw_sales_name_noun,
             "what it means, as far as anybody knows"),
    DW_F_WHOLE(stranger, rows, "", 0, DW_SALES_MOST, "that have it"),
    DW_F_YES(stranger, known, false, "somebody has said what it means"),
};
static const dw_shape stranger_shape =
    DW_SHAPE("sales_stranger", stranger, stranger_fields,
             "a name that is not one of the shop's");

typedef struct read_reply {
    dw_sales_mapping mapping;
    bool dates_sure, columns_sure;
    line *excerpt;
    size_t excerpt_count;
    column *columns;
    size_t columns_count;
    dw_sale_given *rows; /* the first, as they would be read */
    size_t rows_count;
    int64_t rows_all;
    dw_sale_refused *refused;
    size_t refused_count;
    stranger *names;
    size_t names_count;
} read_reply;
static const dw_field read_reply_fields[] = {
    DW_F_ONE(read_reply, mapping, &dw_sales_mapping_shape,
             "how it is read; to be confirmed"),
    DW_F_YES(read_reply, dates_sure, false,
             "false: day or month first cannot be told from the file"),
    DW_F_YES(read_reply, columns_sure, false,
             "false: product, day or balls was not found by its name"),
    DW_F_MANY_OPT(read_reply, excerpt, &line_shape, EXCERPT_LINES,
                  "the first lines as they stand"),
    DW_F_MANY_OPT(read_reply, columns, &column_shape, DW_CSV_FIELDS, "from 1"),
    DW_F_MANY_OPT(read_reply, rows, &dw_sale_given_shape, PREVIEW_ROWS,
                  "the first rows as they would be read"),
    DW_F_WHOLE(read_reply, rows_all, "", 0, DW_SALES_MOST, "that can be read"),
    DW_F_MANY_OPT(read_reply, refused, &dw_sale_refused_shape, DW_SALES_MOST,
                  "kept aside"),
    DW_F_MANY_OPT(read_reply, names, &stranger_shape, NAMES_MOST,
                  "in the file that are not the shop's"),
};
static const dw_shape read_reply_shape = DW_SHAPE(
    "sales_read", read_reply, read_reply_fields, "how a file would be read");

typedef struct import_request {
    const char *text;
    dw_sales_mapping mapping;
} import_request;
static const dw_field import_request_fields[] = {
    DW_F_TEXT(import_request, text, DW_CSV_MOST, "the file"),
    DW_F_ONE(import_request, mapping, &dw_sales_mapping_shape,
             "as somebody confirmed it"),
};
static const dw_shape import_request_shape =
    DW_SHAPE("sales_import", import_request, import_request_fields,
             "a file, and how to read it");

/* ---- sales.read -----------------------------------------------------------
 */

static dw_status no_room(dw_call *call)
{
    return dw_fail(call->err, DW_E_ROOM, "text", NULL);
}

/* The end of the part of `text` that a reply may show, on a UTF-8 boundary. */
static size_t shown_bytes(const char *text)
{
    size_t n = strcspn(text, "\r\n");
    if (n <= 400)
        return n;
    n = 400;
    while (n > 0 && ((unsigned char)text[n] & 0xc0) == 0x80)
        n--;
    return n;
}

static dw_status show_lines(dw_call *call, const char *text, read_reply *reply)
{
    reply->excerpt = DW_NEW_ARRAY(call->arena, line, EXCERPT_LINES);
    if (!reply->excerpt)
        return no_room(call);
    while (*text && reply->excerpt_count < EXCERPT_LINES) {
        size_t n = shown_bytes(text);
        char *copy = dw_arena_take(call->arena, n + 1);
        if (!copy)
            return no_room(call);
        memcpy(copy, text, n);
        reply->excerpt[reply->excerpt_count++].text = copy;
        text += strcspn(text, "\r\n");
        text += strspn(text, "\r\n");
    }
    return DW_OK;
}

static dw_status show_columns(dw_call *call, const read_request *asked,
                              read_reply *reply)
{
    dw_csv csv;
    dw_csv_record first = {.count = 0}, second = {.count = 0};
    bool more;
    DW_TRY(dw_csv_open(asked->text, strlen(asked->text), call->arena, &csv,
                       call->err));
    csv.separator = ",;\t"[reply->mapping.separator];
    DW_TRY(dw_csv_next(&csv, &first, &more, call->err));
    if (more)
        DW_TRY(dw_csv_next(&csv, &second, &more, call->err));
    reply->columns = DW_NEW_ARRAY(call->arena, column, first.count + 1);
    if (!reply->columns)
        return no_room(call);
    reply->columns_count = first.count;
    for (size_t i = 0; i < first.count; i++)
        reply->columns[i] =
            (column){first.fields[i],
                     more && i < second.count ? second.fields[i] : NULL};
    return DW_OK;
}

/* "Large thin 15 oz" and "LARGE THIN, 15OZ". */
static bool alike(const char *a, const char *b)
{
    for (;;) {
        while (*a && !isalnum((unsigned char)*a) && !((unsigned char)*a & 0x80))
            a++;
        while (*b && !isalnum((unsigned char)*b) && !((unsigned char)*b & 0x80))
            b++;
        if (!*a || !*b)
            return !*a && !*b;
        if (tolower((unsigned char)*a++) != tolower((unsigned char)*b++))
            return false;
    }
}

typedef struct known {
    dw_outlet *outlets;
    dw_product *products;
    dw_sales_name *names;
    size_t outlets_count, products_count, names_count;
} known;

static dw_status read_known(dw_call *call, known *all)
{
    DW_TRY(dw_rows_get(call, "outlet", &dw_outlet_noun, NULL, 0, "id",
                       &all->outlets, &all->outlets_count));
    DW_TRY(dw_rows_get(call, "product", &dw_product_noun, NULL, 0, "id",
                       &all->products, &all->products_count));
    return dw_rows_get(call, "sales_name", &dw_sales_name_noun, NULL, 0, "id",
                       &all->names, &all->names_count);
}

static bool is_ours(const known *all, int kind, const char *name)
{
    if (kind == DW_SALES_NAME_OUTLET) {
        for (size_t i = 0; i < all->outlets_count; i++)
            if (dw_text_is(all->outlets[i].name, name))
                return true;
        return false;
    }
    for (size_t i = 0; i < all->products_count; i++)
        if (dw_text_is(all->products[i].name, name))
            return true;
    return false;
}

static stranger meet(const known *all, int kind, const char *name)
{
    stranger s = {.name = {.kind = kind, .written = name, .balls_each = 1}};
    for (size_t i = 0; i < all->names_count; i++)
        if (all->names[i].kind == kind &&
            dw_text_is(all->names[i].written, name)) {
            s.name = all->names[i];
            s.known = true;
            return s;
        }
    if (kind == DW_SALES_NAME_OUTLET) {
        for (size_t i = 0; i < all->outlets_count; i++)
            if (alike(all->outlets[i].name, name))
                s.name.outlet_id = all->outlets[i].id;
        return s;
    }
    for (size_t i = 0; i < all->products_count; i++)
        if (alike(all->products[i].name, name))
            s.name.product_id = all->products[i].id;
    return s;
}

static void count_name(const known *all, int kind, const char *name,
                       read_reply *reply)
{
    if (!name || is_ours(all, kind, name))
        return;
    for (size_t i = 0; i < reply->names_count; i++)
        if (reply->names[i].name.kind == kind &&
            dw_text_is(reply->names[i].name.written, name)) {
            reply->names[i].rows++;
            return;
        }
    if (reply->names_count == NAMES_MOST)
        return;
    stranger *s = &reply->names[reply->names_count++];
    *s = meet(all, kind, name);
    s->rows = 1;
}

static dw_status show_names(dw_call *call, const dw_sales_sheet *sheet,
                            read_reply *reply)
{
    known all;
    DW_TRY(read_known(call, &all));
    reply->names = DW_NEW_ARRAY(call->arena, stranger, NAMES_MOST);
    if (!reply->names)
        return no_room(call);
    for (size_t i = 0; i < sheet->rows_count; i++) {
        count_name(&all, DW_SALES_NAME_PRODUCT, sheet->rows[i].product, reply);
        count_name(&all, DW_SALES_NAME_OUTLET, sheet->rows[i].outlet, reply);
    }
    return DW_OK;
}

/* Where the file does not say, a day comes first and somebody is asked. */
static dw_status read_sheet(dw_call *call, const read_request *asked,
                            read_reply *reply, dw_sales_sheet *sheet)
{
    size_t bytes = strlen(asked->text);
    dw_status status = dw_sales_read(asked->text, bytes, &reply->mapping,
                                     call->lang, call->arena, sheet, call->err);
    bool open = (status == DW_E_CHOICE || status == DW_E_CONFLICT) &&
                dw_text_is(call->err->field, "day") &&
                reply->mapping.dates == DW_DATES_FIND_OUT;
    reply->dates_sure = !open;
    if (!open)
        return status;
    *call->err = (dw_err){.status = DW_OK};
    reply->mapping.dates = DW_DATES_DAY_FIRST;
    return dw_sales_read(asked->text, bytes, &reply->mapping, call->lang,
                         call->arena, sheet, call->err);
}

static dw_status sales_read(dw_call *call, const void *request, void *to)
{
    const read_request *asked = request;
    read_reply *reply = to;
    dw_sales_sheet sheet;
    if (asked->has_mapping)
        reply->mapping = asked->mapping;
    else
        DW_TRY(dw_sales_propose(asked->text, strlen(asked->text), call->arena,
                                &reply->mapping, call->err));
    DW_TRY(show_lines(call, asked->text, reply));
    DW_TRY(show_columns(call, asked, reply));
    const dw_sales_mapping *m = &reply->mapping;
    reply->columns_sure = m->product_column && m->day_column && m->balls_column;
    if (!reply->columns_sure)
        return DW_OK;
    DW_TRY(read_sheet(call, asked, reply, &sheet));
    reply->mapping.dates = sheet.mapping.dates;
    reply->rows = sheet.rows;
    reply->rows_all = (int64_t)sheet.rows_count;
    reply->rows_count =
        sheet.rows_count < PREVIEW_ROWS ? sheet.rows_count : PREVIEW_ROWS;
    reply->refused = sheet.refused;
    reply->refused_count = sheet.refused_count;
    return show_names(call, &sheet, reply);
}

/* ---- sales.import ---------------------------------------------------------
 */

static dw_status keep_name(dw_call *call, const known *all, dw_sales_name name)
{
    name.id = 0;
    for (size_t i = 0; i < all->names_count; i++)
        if (all->names[i].kind == name.kind &&
            dw_text_is(all->names[i].written, name.written))
            name.id = all->names[i].id;
    if (name.product_id)
        DW_TRY(dw_row_get(call, "product", &dw_product_noun, name.product_id,
                          "mapping.names.product_id", &(dw_product){.id = 0}));
    if (name.outlet_id)
        DW_TRY(dw_row_get(call, "outlet", &dw_outlet_noun, name.outlet_id,
                          "mapping.names.outlet_id", &(dw_outlet){.id = 0}));
    return dw_row_save(call, "sales_name", &dw_sales_name_noun, &name, NULL);
}

/* Rows that could not be read stand before those that were refused. */
static dw_status join_refused(dw_call *call, const dw_sales_sheet *sheet,
                              dw_sales_taken *taken)
{
    size_t n = sheet->refused_count, m = taken->refused_count;
    dw_sale_refused *all = DW_NEW_ARRAY(call->arena, dw_sale_refused, n + m);
    if (!all)
        return no_room(call);
    if (n > 0)
        memcpy(all, sheet->refused, n * sizeof *all);
    if (m > 0)
        memcpy(all + n, taken->refused, m * sizeof *all);
    taken->refused = all;
    taken->refused_count = n + m;
    return DW_OK;
}

static dw_status sales_import(dw_call *call, const void *request, void *reply)
{
    const import_request *asked = request;
    dw_sales_sheet sheet;
    known all;
    DW_TRY(read_known(call, &all));
    for (size_t i = 0; i < asked->mapping.names_count; i++)
        DW_TRY(keep_name(call, &all, asked->mapping.names[i]));
    DW_TRY(dw_sales_read(asked->text, strlen(asked->text), &asked->mapping,
                         call->lang, call->arena, &sheet, call->err));
    const dw_sales_given given = {sheet.rows, sheet.rows_count,
                                  asked->mapping.add_up};
    DW_TRY(dw_sales_take(call, &given, reply));
    return join_refused(call, &sheet, reply);
}

const dw_op dw_ops_sales_file[] = {
    {"sales.read", DW_OP_READ, &read_request_shape, &read_reply_shape,
     sales_read,
     "How a register's CSV file would be read: separator, dates, columns, "
     "names. Changes nothing."},
    {"sales.import", DW_OP_WRITE, &import_request_shape, &dw_sales_taken_shape,
     sales_import,
     "Take a register's CSV file in, as somebody confirmed how to read it."},
};
const size_t dw_ops_sales_file_count = DW_COUNT(dw_ops_sales_file);
