#include "door/json.h"

#include "doughwright/say.h"

#include <jansson.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

/* A body is refused before it is parsed when it could cost more than it is
 * worth: jansson spends about a hundred bytes on each value. */
enum { BYTES_MOST = 8 << 20, DEPTH_MOST = 32, VALUES_MOST = 500000 };

/* The largest whole number a double (and so a page) holds exactly, 2^53. */
static const double exact_most = 9007199254740992.0;

typedef struct reader {
    dw_arena *arena;
    dw_err *err;
} reader;

static dw_status read_object(reader *in, const dw_shape *shape,
                             const json_t *json, void *object);

static void *member_of(void *object, size_t offset)
{
    return (unsigned char *)object + offset;
}

/* What was given, short enough for a sentence. */
static void describe(const json_t *json, char *out, size_t room)
{
    switch (json_typeof(json)) {
    case JSON_OBJECT: snprintf(out, room, "{...}"); break;
    case JSON_ARRAY: snprintf(out, room, "[...]"); break;
    case JSON_STRING:
        snprintf(out, room, "%.80s", json_string_value(json));
        break;
    case JSON_TRUE: snprintf(out, room, "true"); break;
    case JSON_FALSE: snprintf(out, room, "false"); break;
    case JSON_NULL: snprintf(out, room, "null"); break;
    case JSON_INTEGER:
    case JSON_REAL:
        dw_text_number(out, room, json_number_value(json), 9);
        break;
    }
}

static dw_status wrong_type(reader *in, const char *name, const json_t *json,
                            const char *wanted)
{
    DW_ASSERT(json != NULL);
    char given[96];
    describe(json, given, sizeof given);
    return dw_fail_says(in->err, DW_E_TYPE, name, given, wanted);
}

static dw_status read_real(reader *in, const char *name, const json_t *json,
                           double *value)
{
    if (!json_is_number(json))
        return wrong_type(in, name, json, DW_MSG("must be a number"));
    *value = json_number_value(json);
    return DW_OK;
}

/* 3.0 and 1e3 are whole numbers: pages know only doubles. */
static dw_status read_whole(reader *in, const char *name, const json_t *json,
                            int64_t *value)
{
    double real = json_number_value(json);
    bool whole =
        json_is_integer(json) ||
        (json_is_real(json) && real == floor(real) && fabs(real) <= exact_most);
    if (!whole)
        return wrong_type(in, name, json, DW_MSG("must be a whole number"));
    *value = json_is_integer(json) ? json_integer_value(json) : (int64_t)real;
    return DW_OK;
}

static dw_status read_text(reader *in, const dw_field *field,
                           const json_t *json, const char **text)
{
    if (!json_is_string(json))
        return wrong_type(in, field->name, json, DW_MSG("must be text"));
    *text = dw_arena_text(in->arena, json_string_value(json));
    return *text ? DW_OK : dw_fail(in->err, DW_E_ROOM, field->name, NULL);
}

static dw_status read_choice(reader *in, const dw_field *field,
                             const json_t *json, int *index)
{
    if (!json_is_string(json))
        return wrong_type(in, field->name, json, DW_MSG("must be text"));
    *index = dw_words_find(field->words, json_string_value(json));
    if (*index >= 0)
        return DW_OK;
    dw_fail(in->err, DW_E_CHOICE, field->name, json_string_value(json));
    in->err->words = field->words;
    return DW_E_CHOICE;
}

static dw_status within_item(reader *in, const char *name, size_t i)
{
    char prefix[96];
    snprintf(prefix, sizeof prefix, "%.60s[%zu]", name, i);
    return dw_err_within(in->err, prefix);
}

static size_t item_bytes(const dw_field *field)
{
    switch (field->kind) {
    case DW_REALS: return sizeof(double);
    case DW_WHOLES: return sizeof(int64_t);
    default: return field->shape->bytes;
    }
}

static dw_status read_item(reader *in, const dw_field *field,
                           const json_t *json, void *item)
{
    switch (field->kind) {
    case DW_REALS: return read_real(in, "", json, item);
    case DW_WHOLES: return read_whole(in, "", json, item);
    default:
        dw_shape_preset(field->shape, item);
        return read_object(in, field->shape, json, item);
    }
}

static dw_status read_list(reader *in, const dw_field *field,
                           const json_t *json, void *object)
{
    if (!json_is_array(json))
        return wrong_type(in, field->name, json, DW_MSG("must be a list"));
    size_t n = json_array_size(json);
    size_t bytes = item_bytes(field);
    unsigned char *items = dw_arena_take(in->arena, n * bytes);
    if (!items)
        return dw_fail(in->err, DW_E_ROOM, field->name, NULL);
    for (size_t i = 0; i < n; i++)
        if (read_item(in, field, json_array_get(json, i), items + i * bytes))
            return within_item(in, field->name, i);
    *(void **)member_of(object, field->offset) = n ? items : NULL;
    *(size_t *)member_of(object, field->count) = n;
    return DW_OK;
}

static dw_status read_value(reader *in, const dw_field *field,
                            const json_t *json, void *object)
{
    void *member = member_of(object, field->offset);
    switch (field->kind) {
    case DW_REAL: return read_real(in, field->name, json, member);
    case DW_WHOLE: return read_whole(in, field->name, json, member);
    case DW_YES:
        if (!json_is_boolean(json))
            return wrong_type(in, field->name, json,
                              DW_MSG("must be true or false"));
        *(bool *)member = json_is_true(json);
        return DW_OK;
    case DW_TEXT: return read_text(in, field, json, member);
    case DW_CHOICE: return read_choice(in, field, json, member);
    case DW_REALS:
    case DW_WHOLES:
    case DW_MANY: return read_list(in, field, json, object);
    case DW_ONE:
        if (read_object(in, field->shape, json, member))
            return dw_err_within(in->err, field->name);
        return DW_OK;
    }
    DW_ASSERT(false);
    return DW_E_TYPE;
}

/* null is the same as not given. */
static dw_status read_member(reader *in, const dw_field *field,
                             const json_t *json, void *object)
{
    bool given = json && !json_is_null(json);
    if (!given && field->required)
        return dw_fail(in->err, DW_E_MISSING, field->name, NULL);
    if (!given)
        return DW_OK;
    if (field->has != DW_NOWHERE)
        *(bool *)member_of(object, field->has) = true;
    return read_value(in, field, json, object);
}

static dw_status read_object(reader *in, const dw_shape *shape,
                             const json_t *json, void *object)
{
    if (!json_is_object(json))
        return wrong_type(in, "", json, DW_MSG("must be an object"));
    const char *key;
    json_t *value;
    json_object_foreach((json_t *)(uintptr_t)json, key, value)
    {
        if (!dw_shape_find(shape, key))
            return dw_fail(in->err, DW_E_UNKNOWN_FIELD, key, NULL);
    }
    for (size_t i = 0; i < shape->count; i++) {
        const dw_field *field = &shape->fields[i];
        DW_TRY(
            read_member(in, field, json_object_get(json, field->name), object));
    }
    return DW_OK;
}

/* Depth and number of values, told from the brackets and commas outside texts.
 */
static dw_status weigh(const char *text, size_t bytes, dw_err *err)
{
    size_t depth = 0, deepest = 0, values = 0;
    bool inside = false;
    for (size_t i = 0; i < bytes; i++) {
        char c = text[i];
        if (inside && c == '\\')
            i++;
        else if (c == '"')
            inside = !inside;
        else if (inside)
            continue;
        else if (c == '[' || c == '{')
            deepest = ++depth > deepest ? depth : deepest;
        else if ((c == ']' || c == '}') && depth > 0)
            depth--;
        if (!inside && (c == ',' || c == '[' || c == '{'))
            values++;
    }
    if (deepest > DEPTH_MOST)
        return dw_fail_says(err, DW_E_SYNTAX, "", NULL,
                            DW_MSG("is nested too deeply"));
    if (values > VALUES_MOST)
        return dw_fail_says(err, DW_E_TOO_LARGE, "", NULL,
                            DW_MSG("has more than 500000 values"));
    return DW_OK;
}

static dw_status parse_failed(const json_error_t *why, dw_err *err)
{
    char where[96];
    snprintf(where, sizeof where, "line %d, column %d", why->line, why->column);
    switch (json_error_code(why)) {
    case json_error_duplicate_key:
        return dw_fail_says(err, DW_E_SYNTAX, "", where,
                            DW_MSG("gives the same field twice"));
    case json_error_numeric_overflow:
        return dw_fail_says(err, DW_E_SYNTAX, "", where,
                            DW_MSG("has a number too large to hold"));
    case json_error_invalid_utf8:
        return dw_fail_says(err, DW_E_SYNTAX, "", where,
                            DW_MSG("is not valid UTF-8 text"));
    case json_error_null_character:
        return dw_fail_says(err, DW_E_SYNTAX, "", where,
                            DW_MSG("has a zero character in a text"));
    default:
        return dw_fail_says(err, DW_E_SYNTAX, "", where,
                            DW_MSG("is not well-formed JSON"));
    }
}

static dw_status parse(const char *text, size_t bytes, json_t **json,
                       dw_err *err)
{
    if (bytes > BYTES_MOST)
        return dw_fail_says(err, DW_E_TOO_LARGE, "", NULL,
                            DW_MSG("is larger than 8 MiB"));
    DW_TRY(weigh(text, bytes, err));
    json_error_t why;
    *json = json_loadb(text, bytes, JSON_REJECT_DUPLICATES, &why);
    return *json ? DW_OK : parse_failed(&why, err);
}

dw_status dw_json_decode(const dw_shape *shape, const char *text, size_t bytes,
                         dw_arena *arena, void *object, dw_err *err)
{
    dw_err local;
    if (!err)
        err = &local;
    json_t *json = NULL;
    DW_TRY(parse(text, bytes, &json, err));
    reader in = {arena, err};
    dw_shape_preset(shape, object);
    dw_status status = read_object(&in, shape, json, object);
    json_decref(json);
    return status == DW_OK ? dw_shape_check(shape, object, err) : status;
}
