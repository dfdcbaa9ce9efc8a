#include "app/sales_sheet.h"

#include "doughwright/csv.h"
#include "doughwright/day.h"
#include "doughwright/say.h"

#include <stdlib.h>
#include <string.h>

const char *const dw_date_order_words[] = {"year", "day", "month", "found_out",
                                           NULL};

const char *const dw_separator_words[] = {"comma", "semicolon", "tab", NULL};
const char *const dw_decimal_words[] = {"point", "comma", NULL};
static const char separators[] = ",;\t", decimals[] = ".,";

#define COLUMN(member, about)                                                  \
    DW_F_WHOLE_PRESET(dw_sales_mapping, member, "", 0, DW_CSV_FIELDS, 0, about)
static const dw_field mapping_fields[] = {
    DW_F_CHOICE_PRESET(dw_sales_mapping, separator, dw_separator_words, 0,
                       "between columns"),
    DW_F_CHOICE_PRESET(dw_sales_mapping, decimal, dw_decimal_words, 0,
                       "mark in numbers"),
    DW_F_CHOICE_PRESET(dw_sales_mapping, dates, dw_date_order_words,
                       DW_DATES_FIND_OUT, "what comes first in a date"),
    COLUMN(product_column, "counted from 1"),
    COLUMN(outlet_column, "0: all of the only outlet"),
    COLUMN(day_column, "counted from 1"),
    COLUMN(hour_column, "0: not told; may be that of the day"),
    COLUMN(balls_column, "counted from 1"),
    COLUMN(sold_out_column, "0: not told"),
    DW_F_YES(dw_sales_mapping, add_up, false,
             "several rows of a day are parts of it"),
    DW_F_MANY_OPT(dw_sales_mapping, names, &dw_sales_name_noun, 2000,
                  "what names in the file mean, beside the known"),
};
const dw_shape dw_sales_mapping_shape = DW_SHAPE(
    "sales_mapping", dw_sales_mapping, mapping_fields, "how to read a file");

enum { PRODUCT, OUTLET, DAY, HOUR, BALLS, SOLD_OUT, COLUMNS };
static const char *const column_words[COLUMNS] = {
    "product", "outlet", "day", "hour", "balls", "sold_out"};
static const char *const synonyms[COLUMNS][8] = {
    [PRODUCT] = {"product", "item", "size", "producto", "articulo"},
    [OUTLET] = {"outlet", "shop", "store", "branch", "local", "tienda"},
    [DAY] = {"day", "date", "business_day", "fecha", "dia", "d\u00eda"},
    [HOUR] = {"hour", "time", "hora"},
    [BALLS] = {"balls", "sold", "quantity", "qty", "count", "bolas", "cantidad",
               "vendidas"},
    [SOLD_OUT] = {"sold_out", "soldout", "stockout", "agotado"},
};

typedef struct reader {
    dw_csv csv;
    dw_csv_record record;
    int columns[COLUMNS]; /* index in a record, -1: none */
    const char *lang;
    dw_arena *arena;
    dw_err *err;
    dw_sales_sheet *sheet;
    const char **dates; /* of the rows, until their order is known */
    size_t room;
} reader;

/* ---- columns ------------------------------------------------------------- */

/* "Sold Out" and "sold_out" are one name. */
static bool same_name(const char *a, const char *b)
{
    for (; *a && *b; a++, b++) {
        char c = *a == ' ' || *a == '-' ? '_' : *a;
        if (c >= 'A' && c <= 'Z')
            c = (char)(c + 32);
        if (c != *b)
            return false;
    }
    return !*a && !*b;
}

static int column_of(const char *name)
{
    for (int column = 0; column < COLUMNS; column++)
        for (size_t i = 0; i < 8 && synonyms[column][i]; i++)
            if (same_name(name, synonyms[column][i]))
                return column;
    return -1;
}

static int64_t *place_of(dw_sales_mapping *mapping, int column)
{
    int64_t *const places[COLUMNS] = {[PRODUCT] = &mapping->product_column,
                                      [OUTLET] = &mapping->outlet_column,
                                      [DAY] = &mapping->day_column,
                                      [HOUR] = &mapping->hour_column,
                                      [BALLS] = &mapping->balls_column,
                                      [SOLD_OUT] = &mapping->sold_out_column};
    return places[column];
}

static dw_status next_line(dw_csv *csv, dw_csv_record *record, dw_err *err)
{
    bool more;
    DW_TRY(dw_csv_next(csv, record, &more, err));
    return more ? DW_OK
                : dw_fail_says(err, DW_E_MISSING, "file", NULL,
                               DW_MSG("has nothing in it"));
}

/* "2026-03-28 21:40" or "...T21:40": where the hour stands, or NULL. */
static const char *time_in(const char *date)
{
    const char *mark = strpbrk(date, " T");
    return mark && strchr(mark, ':') ? mark + 1 : NULL;
}

dw_status dw_sales_propose(const char *text, size_t bytes, dw_arena *arena,
                           dw_sales_mapping *mapping, dw_err *err)
{
    dw_csv csv;
    dw_csv_record record;
    bool more;
    *mapping = (dw_sales_mapping){.dates = DW_DATES_FIND_OUT};
    DW_TRY(dw_csv_open(text, bytes, arena, &csv, err));
    DW_TRY(next_line(&csv, &record, err));
    mapping->separator = (int)(strchr(separators, csv.separator) - separators);
    mapping->decimal = csv.separator == ',' ? 0 : 1;
    for (size_t i = 0; i < record.count; i++) {
        int column = column_of(record.fields[i]);
        if (column < 0)
            continue;
        int64_t *place = place_of(mapping, column);
        if (*place)
            return dw_fail_says(err, DW_E_CONFLICT, column_words[column],
                                record.fields[i],
                                DW_MSG("is the name of two columns"));
        *place = (int64_t)i + 1;
    }
    DW_TRY(dw_csv_next(&csv, &record, &more, err));
    size_t day = (size_t)mapping->day_column;
    if (more && day > 0 && day <= record.count && !mapping->hour_column &&
        time_in(record.fields[day - 1]))
        mapping->hour_column = mapping->day_column;
    mapping->add_up = mapping->hour_column > 0;
    return DW_OK;
}

static dw_status take_columns(reader *in)
{
    static const int needed[] = {PRODUCT, DAY, BALLS};
    for (int i = 0; i < COLUMNS; i++)
        in->columns[i] = (int)*place_of(&in->sheet->mapping, i) - 1;
    for (size_t i = 0; i < DW_COUNT(needed); i++)
        if (in->columns[needed[i]] < 0)
            return dw_fail_says(in->err, DW_E_MISSING, column_words[needed[i]],
                                NULL,
                                DW_MSG("is not among the names of the first "
                                       "line"));
    return DW_OK;
}

static const char *cell(const reader *in, int column)
{
    int i = in->columns[column];
    return i >= 0 && (size_t)i < in->record.count ? in->record.fields[i] : "";
}

/* ---- cells --------------------------------------------------------------- */

static dw_status refuse(reader *in, size_t line, int column, const char *value,
                        const char *message)
{
    dw_sales_sheet *sheet = in->sheet;
    dw_sale_refused *row = &sheet->refused[sheet->refused_count++];
    char cut[200];
    size_t n = strlen(value) < sizeof cut - 4 ? strlen(value) : sizeof cut - 4;
    while (n > 0 && ((unsigned char)value[n] & 0xc0) == 0x80)
        n--; /* not in the middle of a letter */
    memcpy(cut, value, n);
    cut[n] = '\0';
    *row = (dw_sale_refused){
        (int64_t)line, column_words[column], dw_arena_text(in->arena, cut),
        dw_arena_text(in->arena, dw_say_sentence(in->lang, message))};
    return row->value && row->message
               ? DW_OK
               : dw_fail(in->err, DW_E_ROOM, "file", NULL);
}

/* "12", "12.0" or, with a decimal comma, "12,0": balls are whole. */
static bool read_balls(char decimal, const char *text, int64_t *balls)
{
    size_t digits = strspn(text, "0123456789");
    const char *rest = text + digits;
    if (digits == 0 || digits > 6)
        return false;
    if (*rest == decimal)
        rest += 1 + strspn(rest + 1, "0");
    *balls = atoll(text);
    return *rest == '\0' && *balls <= 100000;
}

static bool read_yes(const char *text, bool *yes)
{
    static const char *const nos[] = {"", "no", "n", "0", "false", "-", NULL};
    static const char *const yeses[] = {"yes", "y",  "1",         "true",
                                        "x",   "si", "s\xc3\xad", NULL};
    for (int i = 0; nos[i]; i++)
        if (strcmp(text, nos[i]) == 0 || same_name(text, nos[i])) {
            *yes = false;
            return true;
        }
    for (int i = 0; yeses[i]; i++)
        if (same_name(text, yeses[i])) {
            *yes = true;
            return true;
        }
    return false;
}

/* Three numbers with the same mark between them. */
static bool split_date(const char *text, long parts[3], size_t lengths[3])
{
    char mark = '\0';
    for (int i = 0; i < 3; i++) {
        lengths[i] = strspn(text, "0123456789");
        if (lengths[i] == 0 || lengths[i] > 4)
            return false;
        parts[i] = strtol(text, NULL, 10);
        text += lengths[i];
        if (i == 2)
            break;
        if (!*text || !strchr("-/.", *text) || (i == 1 && *text != mark))
            return false;
        mark = *text++;
    }
    /* a time of day behind the date is passed over */
    return *text == '\0' || *text == ' ' || *text == 'T';
}

static bool read_date(const char *text, int order, int64_t *day)
{
    static const int places[3][3] = {{0, 1, 2}, {2, 1, 0}, {2, 0, 1}};
    long parts[3];
    size_t lengths[3];
    if (!split_date(text, parts, lengths))
        return false;
    if (lengths[0] == 4)
        order = DW_DATES_YEAR_FIRST;
    const int *place = places[order];
    long year = parts[place[0]], month = parts[place[1]];
    long date = parts[place[2]];
    if (lengths[place[0]] == 2)
        year += 2000;
    if (year < 1970 || year > 2190 || month < 1 || month > 12 || date < 1 ||
        date > 31)
        return false;
    int64_t back_year;
    int back_month, back_date;
    *day = dw_day_from_date(year, (int)month, (int)date);
    dw_day_to_date(*day, &back_year, &back_month, &back_date);
    return back_date == (int)date;
}

/* ---- the order of the dates ---------------------------------------------- */

/* A number above 12 is a day. Dates with points are written day first. */
static dw_status find_order(reader *in)
{
    bool day_first = false, month_first = false, points = false, open = false;
    for (size_t i = 0; i < in->sheet->rows_count; i++) {
        long parts[3];
        size_t lengths[3];
        if (!split_date(in->dates[i], parts, lengths) || lengths[0] == 4)
            continue;
        open = true;
        day_first |= parts[0] > 12;
        month_first |= parts[1] > 12;
        points |= strchr(in->dates[i], '.') != NULL;
    }
    if (day_first && month_first)
        return dw_fail_says(in->err, DW_E_CONFLICT, "day", NULL,
                            DW_MSG("has dates in two orders; say --dates day "
                                   "or --dates month"));
    if (open && !day_first && !month_first && !points)
        return dw_fail_says(in->err, DW_E_CHOICE, "day", in->dates[0],
                            DW_MSG("may be day or month first; say --dates day "
                                   "or --dates month"));
    in->sheet->mapping.dates = !open         ? DW_DATES_YEAR_FIRST
                               : month_first ? DW_DATES_MONTH_FIRST
                                             : DW_DATES_DAY_FIRST;
    return DW_OK;
}

static dw_status read_dates(reader *in)
{
    dw_sales_sheet *sheet = in->sheet;
    size_t kept = 0;
    for (size_t i = 0; i < sheet->rows_count; i++) {
        dw_sale_given row = sheet->rows[i];
        if (read_date(in->dates[i], sheet->mapping.dates, &row.day))
            sheet->rows[kept++] = row;
        else
            DW_TRY(refuse(in, (size_t)row.line, DAY, in->dates[i],
                          DW_MSG("is not a date")));
    }
    sheet->rows_count = kept;
    return DW_OK;
}

/* ---- rows ---------------------------------------------------------------- */

/* Room for one more row, the dates beside it. */
static dw_status grow(reader *in)
{
    dw_sales_sheet *sheet = in->sheet;
    size_t n = sheet->rows_count + sheet->refused_count;
    if (n < in->room)
        return DW_OK;
    if (n >= DW_SALES_MOST) {
        dw_fail_range(in->err, "file", (double)n + 1, 1, DW_SALES_MOST);
        in->err->unit = "entries";
        in->err->status = DW_E_TOO_LARGE;
        return DW_E_TOO_LARGE;
    }
    size_t room = in->room ? 2 * in->room : 256;
    dw_sale_given *rows = DW_NEW_ARRAY(in->arena, dw_sale_given, room);
    dw_sale_refused *refused = DW_NEW_ARRAY(in->arena, dw_sale_refused, room);
    const char **dates = DW_NEW_ARRAY(in->arena, const char *, room);
    if (!rows || !refused || !dates)
        return dw_fail(in->err, DW_E_ROOM, "file", NULL);
    if (in->room) {
        memcpy(rows, sheet->rows, sheet->rows_count * sizeof *rows);
        memcpy(dates, in->dates, sheet->rows_count * sizeof *dates);
        memcpy(refused, sheet->refused, sheet->refused_count * sizeof *refused);
    }
    sheet->rows = rows;
    sheet->refused = refused;
    in->dates = dates;
    in->room = room;
    return DW_OK;
}

/* "21", "21:40" or, in the column of the day, what stands behind the date. */
static bool read_hour(const reader *in, dw_sale_given *row)
{
    const char *text = cell(in, HOUR);
    if (in->columns[HOUR] < 0)
        return true;
    if (in->columns[HOUR] == in->columns[DAY]) {
        text = time_in(text);
        if (!text)
            return true; /* a day without a time: no hour is told */
    }
    size_t digits = strspn(text, "0123456789");
    row->hour = strtol(text, NULL, 10);
    row->has_hour = true;
    return digits > 0 && digits <= 2 && row->hour <= 23 &&
           (text[digits] == '\0' || text[digits] == ':');
}

static dw_status read_row(reader *in)
{
    dw_sales_sheet *sheet = in->sheet;
    const char *product = cell(in, PRODUCT), *outlet = cell(in, OUTLET);
    dw_sale_given row = {.line = (int64_t)in->record.line,
                         .product = product,
                         .outlet = *outlet ? outlet : NULL};
    size_t line = in->record.line;
    if (!*product || strlen(product) > 60)
        return refuse(in, line, PRODUCT, product,
                      DW_MSG("must be a name of 1 to 60 bytes"));
    if (strlen(outlet) > 60)
        return refuse(in, line, OUTLET, outlet,
                      DW_MSG("must be a name of 1 to 60 bytes"));
    if (!read_balls(decimals[sheet->mapping.decimal], cell(in, BALLS),
                    &row.balls))
        return refuse(in, line, BALLS, cell(in, BALLS),
                      DW_MSG("must be a whole number from 0 to 100000"));
    if (!read_yes(cell(in, SOLD_OUT), &row.sold_out))
        return refuse(in, line, SOLD_OUT, cell(in, SOLD_OUT),
                      DW_MSG("must be yes or no"));
    if (!read_hour(in, &row))
        return refuse(in, line, HOUR, cell(in, HOUR),
                      DW_MSG("must be an hour from 0 to 23"));
    in->dates[sheet->rows_count] = cell(in, DAY);
    sheet->rows[sheet->rows_count++] = row;
    return DW_OK;
}

dw_status dw_sales_read(const char *text, size_t bytes,
                        const dw_sales_mapping *mapping, const char *lang,
                        dw_arena *arena, dw_sales_sheet *sheet, dw_err *err)
{
    dw_err own = {.status = DW_OK};
    reader in = {
        .lang = lang, .arena = arena, .err = err ? err : &own, .sheet = sheet};
    bool more = true;
    *sheet = (dw_sales_sheet){.mapping = *mapping};
    sheet->mapping.names = NULL;
    sheet->mapping.names_count = 0;
    DW_TRY(dw_csv_open(text, bytes, arena, &in.csv, in.err));
    in.csv.separator = separators[mapping->separator];
    DW_TRY(take_columns(&in));
    DW_TRY(next_line(&in.csv, &in.record, in.err)); /* the names */
    for (;;) {
        DW_TRY(dw_csv_next(&in.csv, &in.record, &more, in.err));
        if (!more)
            break;
        DW_TRY(grow(&in));
        DW_TRY(read_row(&in));
    }
    if (mapping->dates == DW_DATES_FIND_OUT)
        DW_TRY(find_order(&in));
    return read_dates(&in);
}
