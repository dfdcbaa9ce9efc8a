#include "cli/show.h"

#include "files/measure.h"
#include "doughwright/say.h"

#include <jansson.h>
#include <string.h>
#include <time.h>

enum { CELL = 512, INDENT = 2 };

typedef struct page {
    FILE *to;
    dw_units_choice units;
    int indent;
} page;

static void show_object(page *on, const dw_shape *shape, const json_t *object);

static bool is_list(const dw_field *field)
{
    return field->kind == DW_REALS || field->kind == DW_WHOLES;
}

static bool is_plain(const dw_field *field)
{
    return !is_list(field) && field->kind != DW_ONE && field->kind != DW_MANY;
}

/* ---- one value ---- */

static void print_moment(char *out, size_t room, json_int_t ms)
{
    time_t seconds = (time_t)(ms / 1000);
    struct tm utc;
    if (ms == 0 || !gmtime_r(&seconds, &utc))
        snprintf(out, room, "-");
    else
        strftime(out, room, "%Y-%m-%d %H:%MZ", &utc);
}

static void print_number(char *out, size_t room, const dw_field *field,
                         dw_units_choice units, const json_t *value)
{
    const dw_unit *unit = dw_measure_of(field->unit);
    double real = json_number_value(value);
    if (json_is_integer(value) && dw_text_is(field->unit, "ms"))
        print_moment(out, room, json_integer_value(value));
    else if (json_is_integer(value) && field->kind != DW_REAL &&
             field->kind != DW_REALS)
        snprintf(out, room, "%" JSON_INTEGER_FORMAT, json_integer_value(value));
    else if (unit)
        dw_quantity_print(out, room, dw_unit_to_base(unit, real),
                          unit->dimension, units);
    else
        dw_text_number(out, room, real, 6);
}

static void print_value(char *out, size_t room, const dw_field *field,
                        dw_units_choice units, const json_t *value)
{
    if (json_is_string(value))
        snprintf(out, room, "%s", json_string_value(value));
    else if (json_is_boolean(value))
        snprintf(out, room, "%s", json_is_true(value) ? "yes" : "no");
    else if (json_is_number(value))
        print_number(out, room, field, units, value);
    else
        snprintf(out, room, "-");
}

/* "water_kg" whose value carries its unit is "water"; "kg" alone is "mass". */
static void print_label(char *out, size_t room, const dw_field *field)
{
    const dw_unit *measure = dw_measure_of(field->unit);
    bool bare = measure && dw_text_is(field->unit, field->name) &&
                measure->dimension != DW_PERCENT;
    snprintf(out, room, "%s",
             bare ? dw_dimension_words[measure->dimension] : field->name);
    size_t n = strlen(out);
    bool degrees =
        dw_text_is(field->unit, "degC") || dw_text_is(field->unit, "K");
    const char *unit = degrees ? "c" : field->unit;
    size_t tail = unit ? strlen(unit) : 0;
    bool named = tail > 0 && n > tail + 1 && out[n - tail - 1] == '_' &&
                 strcmp(out + n - tail, unit) == 0;
    bool moment = dw_text_is(field->unit, "ms");
    if (named && (moment || measure))
        out[n - tail - 1] = '\0';
    for (char *at = out; *at; at++)
        if (*at == '_')
            *at = ' ';
}

/* Characters, not bytes. */
static int width_of(const char *text)
{
    int n = 0;
    for (; *text; text++)
        n += ((unsigned char)*text & 0xC0) != 0x80;
    return n;
}

static void pad(page *on, int columns)
{
    fprintf(on->to, "%*s", columns > 0 ? columns : 0, "");
}

/* ---- tables ---- */

/* A table is read by row and column: from a list of objects, or from the
 * numeric lists of one object, side by side. */
typedef struct table {
    const dw_shape *shape;
    const json_t *from;
    size_t rows;
    bool side_by_side;
} table;

static bool is_column(const table *t, const dw_field *field)
{
    return t->side_by_side
               ? is_list(field) &&
                     json_array_size(json_object_get(t->from, field->name)) ==
                         t->rows
               : is_plain(field);
}

static void print_cell(char *out, size_t room, const table *t, size_t row,
                       const dw_field *field, dw_units_choice units)
{
    const json_t *value =
        t->side_by_side
            ? json_array_get(json_object_get(t->from, field->name), row)
            : json_object_get(json_array_get(t->from, row), field->name);
    print_value(out, room, field, units, value);
}

static int column_width(const page *on, const table *t, const dw_field *field)
{
    char cell[CELL];
    print_label(cell, sizeof cell, field);
    int width = width_of(cell);
    for (size_t row = 0; row < t->rows; row++) {
        print_cell(cell, sizeof cell, t, row, field, on->units);
        int wide = width_of(cell);
        width = wide > width ? wide : width;
    }
    return width;
}

/* Numbers to the right, words to the left. What is to the right of a cell is
 * written with the next one, so that no line ends in spaces. Returns it. */
static int put_cell(page *on, const dw_field *field, const char *cell,
                    int width, int before)
{
    bool word = field->kind == DW_TEXT || field->kind == DW_CHOICE;
    int space = width - width_of(cell);
    pad(on, word ? before : before + space);
    fputs(cell, on->to);
    return INDENT + (word ? space : 0);
}

static void show_row(page *on, const table *t, const int *widths, size_t row,
                     bool heading)
{
    char cell[CELL];
    int before = on->indent;
    for (size_t i = 0; i < t->shape->count; i++) {
        const dw_field *field = &t->shape->fields[i];
        if (!is_column(t, field))
            continue;
        if (heading)
            print_label(cell, sizeof cell, field);
        else
            print_cell(cell, sizeof cell, t, row, field, on->units);
        before = put_cell(on, field, cell, widths[i], before);
    }
    fputc('\n', on->to);
}

static void show_table(page *on, const table *t)
{
    enum { COLUMNS_MOST = 128 };
    int widths[COLUMNS_MOST] = {0};
    DW_ASSERT(t->shape->count <= COLUMNS_MOST);
    for (size_t i = 0; i < t->shape->count; i++)
        if (is_column(t, &t->shape->fields[i]))
            widths[i] = column_width(on, t, &t->shape->fields[i]);
    show_row(on, t, widths, 0, true);
    for (size_t row = 0; row < t->rows; row++)
        show_row(on, t, widths, row, false);
}

/* ---- objects ---- */

static void show_many(page *on, const dw_field *field, const json_t *list)
{
    bool flat = true;
    for (size_t i = 0; i < field->shape->count; i++)
        flat = flat && is_plain(&field->shape->fields[i]);
    if (flat && json_array_size(list) > 0) {
        const table t = {field->shape, list, json_array_size(list), false};
        show_table(on, &t);
        return;
    }
    for (size_t i = 0; i < json_array_size(list); i++) {
        pad(on, on->indent);
        fprintf(on->to, "%zu.\n", i + 1);
        on->indent += INDENT;
        show_object(on, field->shape, json_array_get(list, i));
        on->indent -= INDENT;
    }
}

static void show_plain(page *on, const dw_shape *shape, const json_t *object)
{
    char label[CELL], value[CELL];
    int width = 0;
    for (size_t i = 0; i < shape->count; i++) {
        print_label(label, sizeof label, &shape->fields[i]);
        int wide = is_plain(&shape->fields[i]) ? width_of(label) : 0;
        width = wide > width ? wide : width;
    }
    for (size_t i = 0; i < shape->count; i++) {
        const dw_field *field = &shape->fields[i];
        if (!is_plain(field))
            continue;
        print_label(label, sizeof label, field);
        print_value(value, sizeof value, field, on->units,
                    json_object_get(object, field->name));
        pad(on, on->indent);
        fprintf(on->to, "%s", label);
        pad(on, width - width_of(label) + INDENT);
        fprintf(on->to, "%s\n", value);
    }
}

/* Lists of one length stand side by side, under the first of them. */
static void show_lists(page *on, const dw_shape *shape, const json_t *object,
                       size_t first)
{
    size_t rows =
        json_array_size(json_object_get(object, shape->fields[first].name));
    const table t = {shape, object, rows, true};
    for (size_t i = 0; i < first; i++)
        if (is_column(&t, &shape->fields[i]))
            return; /* shown already */
    if (rows > 0)
        show_table(on, &t);
}

static void show_object(page *on, const dw_shape *shape, const json_t *object)
{
    char label[CELL];
    show_plain(on, shape, object);
    for (size_t i = 0; i < shape->count; i++) {
        const dw_field *field = &shape->fields[i];
        const json_t *value = json_object_get(object, field->name);
        if (is_list(field))
            show_lists(on, shape, object, i);
        if (is_plain(field) || is_list(field) || json_is_null(value))
            continue;
        print_label(label, sizeof label, field);
        pad(on, on->indent);
        fprintf(on->to, "%s%s\n", label,
                json_array_size(value) || json_is_object(value) ? "" : "  -");
        on->indent += INDENT;
        if (field->kind == DW_ONE)
            show_object(on, field->shape, value);
        else
            show_many(on, field, value);
        on->indent -= INDENT;
    }
}

dw_status dw_show(const dw_shape *shape, const char *reply, size_t bytes,
                  dw_units_choice units, FILE *to)
{
    json_error_t why;
    json_t *object = json_loadb(reply, bytes, 0, &why);
    if (!object)
        return DW_E_SYNTAX;
    page on = {to, units, 0};
    show_object(&on, shape, object);
    json_decref(object);
    return DW_OK;
}
