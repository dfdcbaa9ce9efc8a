#include "cli/fields.h"

#include "files/measure.h"
#include "door/out.h"
#include "doughwright/say.h"

#include <jansson.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* ---- flags from fields ---- */

typedef struct flag_list {
    dw_arena *arena;
    dw_flag *flags; /* NULL while counting */
    const dw_field **fields;
    size_t count;
} flag_list;

static const char *value_word(const dw_field *field)
{
    switch (field->kind) {
    case DW_REAL: return dw_measure_of(field->unit) ? "QUANTITY" : "NUMBER";
    case DW_WHOLE: return "NUMBER";
    case DW_YES: return "yes|no";
    case DW_TEXT: return "TEXT";
    case DW_CHOICE: return "WORD";
    case DW_REALS:
    case DW_WHOLES:
    case DW_ONE:
    case DW_MANY: return "JSON|@FILE";
    }
    DW_ASSERT(false);
    return "";
}

static char *dotted(dw_arena *arena, const char *before, const char *name)
{
    return dw_arena_print(arena, "%s%s%s", before, *before ? "." : "", name);
}

static void put_flag(flag_list *list, const dw_field *field, const char *name)
{
    list->flags[list->count] =
        (dw_flag){name, value_word(field), field->about, field->kind == DW_YES};
    list->fields[list->count] = field;
}

static dw_status add_flags(flag_list *list, const dw_shape *shape,
                           const char *before)
{
    for (size_t i = 0; i < shape->count; i++) {
        const dw_field *field = &shape->fields[i];
        const char *name = dotted(list->arena, before, field->name);
        if (!name)
            return DW_E_ROOM;
        if (list->flags)
            put_flag(list, field, name);
        list->count++;
        if (field->kind == DW_ONE)
            DW_TRY(add_flags(list, field->shape, name));
    }
    return DW_OK;
}

dw_status dw_fields_flags(const dw_shape *shape, dw_arena *arena, size_t more,
                          dw_flag **flags, const dw_field *const **fields,
                          size_t *count)
{
    flag_list list = {arena, NULL, NULL, 0};
    DW_TRY(add_flags(&list, shape, ""));
    list.flags = DW_NEW_ARRAY(arena, dw_flag, list.count + more);
    list.fields = DW_NEW_ARRAY(arena, const dw_field *, list.count);
    if (!list.flags || !list.fields)
        return DW_E_ROOM;
    list.count = 0;
    DW_TRY(add_flags(&list, shape, ""));
    *flags = list.flags;
    *fields = list.fields;
    *count = list.count;
    return DW_OK;
}

/* ---- a request from flags ---- */

typedef struct maker {
    const dw_args *args;
    dw_arena *arena;
    dw_err *err;
} maker;

static dw_status make_number(const maker *in, const char *typed, json_t **value)
{
    char *end;
    double real = strtod(typed, &end);
    if (end == typed || *end || !isfinite(real))
        return dw_fail_says(in->err, DW_E_TYPE, "", typed,
                            DW_MSG("must be a number"));
    *value = json_real(real);
    return DW_OK;
}

/* "10 lb" for a field in kg. */
static dw_status make_real(const maker *in, const dw_field *field,
                           const char *typed, json_t **value)
{
    const dw_unit *unit = dw_measure_of(field->unit);
    if (!unit)
        return make_number(in, typed, value);
    double real;
    DW_TRY(dw_quantity_parse(typed, unit->dimension,
                             dw_measure_name(field->unit), &real, in->err));
    *value = json_real(dw_unit_from_base(unit, real));
    return DW_OK;
}

static dw_status make_yes(const maker *in, const char *typed, json_t **value)
{
    static const char *const words[] = {"yes", "no", "true", "false", NULL};
    int i = *typed ? dw_words_find(words, typed) : 0;
    if (i < 0) {
        dw_fail(in->err, DW_E_CHOICE, "", typed);
        in->err->words = words;
        return DW_E_CHOICE;
    }
    *value = json_boolean(i % 2 == 0);
    return DW_OK;
}

static dw_status make_json(const maker *in, const char *typed, json_t **value)
{
    const char *text;
    DW_TRY(dw_cli_value_text(typed, in->arena, &text, in->err));
    json_error_t why;
    *value = json_loads(text, JSON_REJECT_DUPLICATES | JSON_DECODE_ANY, &why);
    if (*value)
        return DW_OK;
    return dw_fail_says(in->err, DW_E_SYNTAX, "", NULL,
                        DW_MSG("is not well-formed JSON"));
}

static dw_status make_value(const maker *in, const dw_field *field,
                            const char *typed, json_t **value)
{
    switch (field->kind) {
    case DW_REAL: return make_real(in, field, typed, value);
    case DW_YES: return make_yes(in, typed, value);
    case DW_TEXT:
    case DW_CHOICE:
        *value = json_string(typed);
        if (*value)
            return DW_OK;
        return dw_fail_says(in->err, DW_E_SYNTAX, "", NULL,
                            DW_MSG("is not valid UTF-8 text"));
    case DW_WHOLE:
    case DW_REALS:
    case DW_WHOLES:
    case DW_ONE:
    case DW_MANY: return make_json(in, typed, value);
    }
    DW_ASSERT(false);
    return DW_E_TYPE;
}

static dw_status make_object(const maker *in, const dw_shape *shape,
                             const char *before, json_t *object);

/* The members of a nested object that were given one by one. */
static dw_status make_members(const maker *in, const dw_field *field,
                              const char *name, json_t *object)
{
    json_t *nested = json_object();
    dw_status status = make_object(in, field->shape, name, nested);
    if (status == DW_OK && json_object_size(nested) > 0)
        json_object_set(object, field->name, nested);
    json_decref(nested);
    return status;
}

static dw_status make_object(const maker *in, const dw_shape *shape,
                             const char *before, json_t *object)
{
    for (size_t i = 0; i < shape->count; i++) {
        const dw_field *field = &shape->fields[i];
        const char *name = dotted(in->arena, before, field->name);
        if (!name)
            return dw_fail(in->err, DW_E_ROOM, before, NULL);
        const char *typed = dw_args_value(in->args, name);
        json_t *value = NULL;
        if (typed && make_value(in, field, typed, &value) != DW_OK)
            return dw_err_within(in->err, name);
        if (typed)
            json_object_set_new(object, field->name, value);
        else if (field->kind == DW_ONE)
            DW_TRY(make_members(in, field, name, object));
    }
    return DW_OK;
}

dw_status dw_fields_request(const dw_shape *shape, const dw_args *args,
                            dw_arena *arena, const char **text, size_t *bytes,
                            dw_err *err)
{
    const maker in = {args, arena, err};
    json_t *object = json_object();
    dw_status status = make_object(&in, shape, "", object);
    if (status == DW_OK) {
        /* what people type has no more digits; 10 in is 25.4 cm again */
        char *dumped =
            json_dumps(object, JSON_COMPACT | JSON_REAL_PRECISION(15));
        *text = dumped ? dw_arena_text(arena, dumped) : NULL;
        free(dumped);
        if (*text)
            *bytes = strlen(*text);
        else
            status = dw_fail(err, DW_E_ROOM, "", NULL);
    }
    json_decref(object);
    return status;
}
