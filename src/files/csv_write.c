#include "files/csv.h"

#include "doughwright/day.h"
#include "doughwright/say.h"

#include <stdio.h>
#include <string.h>

/* Text grows at the arena's free end; nothing else is taken meanwhile. */
typedef struct writer {
    char *text;
    size_t room, used;
    bool full, line_begun;
} writer;

static void put(writer *out, const char *text, size_t bytes)
{
    out->full = out->full || out->used + bytes >= out->room;
    if (out->full)
        return;
    memcpy(out->text + out->used, text, bytes);
    out->used += bytes;
}

size_t dw_csv_guard(char *out, size_t room, const char *text)
{
    bool formula = *text && strchr("=+-@\t\r", *text);
    bool quoted = formula || strpbrk(text, ",;\"\r\n\t") || *text == ' ' ||
                  (*text && text[strlen(text) - 1] == ' ');
    size_t n = 0;
#define ADD(c)                                                                 \
    if (n + 1 < room)                                                          \
    out[n++] = (c)
    if (quoted)
        ADD('"');
    if (formula)
        ADD('\'');
    for (; *text; text++) {
        if (*text == '"')
            ADD('"');
        ADD(*text);
    }
    if (quoted)
        ADD('"');
#undef ADD
    if (room > 0)
        out[n] = '\0';
    return n;
}

static void put_cell(writer *out, const char *raw)
{
    if (out->line_begun)
        put(out, ",", 1);
    out->line_begun = true;
    put(out, raw, strlen(raw));
}

static void put_text(writer *out, const char *text)
{
    char cell[4096];
    dw_csv_guard(cell, sizeof cell, text ? text : "");
    put_cell(out, cell);
}

static void end_line(writer *out)
{
    put(out, "\r\n", 2);
    out->line_begun = false;
}

static const void *member_of(const void *object, size_t offset)
{
    return (const unsigned char *)object + offset;
}

/* Days that are dates reach beyond the year 2190; others count from a mixing
 * day. */
static bool is_date(const dw_field *field)
{
    return dw_text_is(field->unit, "d") && field->high >= 80000;
}

static void print_date(char *out, size_t room, int64_t day)
{
    int64_t year;
    int month, date;
    dw_day_to_date(day, &year, &month, &date);
    snprintf(out, room, "%04d-%02d-%02d", (int)year, month, date);
}

static void put_moment(writer *out, int64_t ms)
{
    char date[16], cell[40];
    int64_t second = ms / 1000;
    print_date(date, sizeof date, second / 86400);
    second %= 86400;
    snprintf(cell, sizeof cell, "%sT%02d:%02d:%02dZ", date,
             (int)(second / 3600), (int)(second / 60 % 60), (int)(second % 60));
    put_cell(out, ms ? cell : "");
}

static void put_whole(writer *out, const dw_field *field, int64_t value)
{
    char cell[40];
    if (dw_text_is(field->unit, "ms")) {
        put_moment(out, value);
        return;
    }
    if (is_date(field))
        print_date(cell, sizeof cell, value);
    else
        snprintf(cell, sizeof cell, "%lld", (long long)value);
    put_cell(out, cell);
}

static void put_scalar(writer *out, const dw_field *field, const void *object)
{
    const void *member = member_of(object, field->offset);
    char cell[40];
    if (!dw_field_has(field, object)) {
        put_cell(out, "");
        return;
    }
    switch (field->kind) {
    case DW_REAL:
        dw_text_number(cell, sizeof cell, *(const double *)member, 9);
        put_cell(out, cell);
        break;
    case DW_WHOLE: put_whole(out, field, *(const int64_t *)member); break;
    case DW_YES: put_cell(out, *(const bool *)member ? "yes" : "no"); break;
    case DW_CHOICE: put_text(out, field->words[*(const int *)member]); break;
    default: put_text(out, *(const char *const *)member); break;
    }
}

static bool is_scalar(const dw_field *field)
{
    return field->kind == DW_REAL || field->kind == DW_WHOLE ||
           field->kind == DW_YES || field->kind == DW_TEXT ||
           field->kind == DW_CHOICE;
}

/* Names or values of all scalars, those of nested objects included. */
static void put_names(writer *out, const dw_shape *shape, const char *before)
{
    char name[160];
    for (size_t i = 0; i < shape->count; i++) {
        const dw_field *field = &shape->fields[i];
        snprintf(name, sizeof name, "%s%s%s", before, *before ? "." : "",
                 field->name);
        if (is_scalar(field))
            put_text(out, name);
        else if (field->kind == DW_ONE)
            put_names(out, field->shape, name);
    }
}

static void put_values(writer *out, const dw_shape *shape, const void *object)
{
    for (size_t i = 0; i < shape->count; i++) {
        const dw_field *field = &shape->fields[i];
        if (is_scalar(field))
            put_scalar(out, field, object);
        else if (field->kind == DW_ONE)
            put_values(out, field->shape, member_of(object, field->offset));
    }
}

static void put_blanks(writer *out, const dw_shape *shape)
{
    for (size_t i = 0; i < shape->count; i++) {
        if (is_scalar(&shape->fields[i]))
            put_cell(out, "");
        else if (shape->fields[i].kind == DW_ONE)
            put_blanks(out, shape->fields[i].shape);
    }
}

static const dw_field *first_list(const dw_shape *shape)
{
    for (size_t i = 0; i < shape->count; i++)
        if (shape->fields[i].kind == DW_MANY)
            return &shape->fields[i];
    return NULL;
}

static const unsigned char *list_of(const dw_field *field, const void *object,
                                    size_t *count)
{
    const unsigned char *list;
    memcpy(&list, member_of(object, field->offset), sizeof list);
    *count = *(const size_t *)member_of(object, field->count);
    return list;
}

static void put_row(writer *out, const dw_shape *shape, const void *row)
{
    const dw_field *inner = first_list(shape);
    size_t n = 0;
    const unsigned char *list = inner ? list_of(inner, row, &n) : NULL;
    if (n == 0) {
        put_values(out, shape, row);
        if (inner)
            put_blanks(out, inner->shape);
        end_line(out);
    }
    for (size_t i = 0; i < n; i++) {
        put_values(out, shape, row);
        put_values(out, inner->shape, list + i * inner->shape->bytes);
        end_line(out);
    }
}

dw_status dw_csv_write(const dw_shape *shape, const void *object,
                       dw_arena *arena, const char **text, size_t *bytes,
                       dw_err *err)
{
    const dw_field *rows = first_list(shape);
    writer out = {.used = 0};
    size_t n;
    if (!rows)
        return dw_fail_says(err, DW_E_TYPE, "csv", shape->name,
                            DW_MSG("has no list in it to write as rows"));
    out.text = dw_arena_rest(arena, &out.room);
    put_names(&out, rows->shape, "");
    const dw_field *inner = first_list(rows->shape);
    if (inner)
        put_names(&out, inner->shape, inner->name);
    end_line(&out);
    const unsigned char *list = list_of(rows, object, &n);
    for (size_t i = 0; i < n; i++)
        put_row(&out, rows->shape, list + i * rows->shape->bytes);
    put(&out, "", 1);
    if (out.full)
        return dw_fail(err, DW_E_ROOM, shape->name, NULL);
    dw_arena_keep(arena, out.used);
    *text = out.text;
    *bytes = out.used - 1;
    return DW_OK;
}
