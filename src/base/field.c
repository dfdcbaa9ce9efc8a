#include "doughwright/field.h"
#include "doughwright/say.h"

#include <string.h>

static const void *at(const void *object, size_t offset)
{
    return (const unsigned char *)object + offset;
}

static void *at_mut(void *object, size_t offset)
{
    return (unsigned char *)object + offset;
}

const dw_field *dw_shape_find(const dw_shape *shape, const char *name)
{
    for (size_t i = 0; i < shape->count; i++)
        if (strcmp(shape->fields[i].name, name) == 0)
            return &shape->fields[i];
    return NULL;
}

bool dw_field_has(const dw_field *field, const void *object)
{
    return field->has == DW_NOWHERE || *(const bool *)at(object, field->has);
}

int dw_words_find(const char *const *words, const char *word)
{
    for (int i = 0; words[i]; i++)
        if (strcmp(words[i], word) == 0)
            return i;
    return -1;
}

void dw_shape_preset(const dw_shape *shape, void *object)
{
    memset(object, 0, shape->bytes);
    for (size_t i = 0; i < shape->count; i++) {
        const dw_field *field = &shape->fields[i];
        void *member = at_mut(object, field->offset);
        switch (field->kind) {
        case DW_REAL: *(double *)member = field->preset; break;
        case DW_WHOLE: *(int64_t *)member = (int64_t)field->preset; break;
        case DW_YES: *(bool *)member = field->preset != 0; break;
        case DW_CHOICE: *(int *)member = (int)field->preset; break;
        case DW_ONE: dw_shape_preset(field->shape, member); break;
        case DW_TEXT:
        case DW_REALS:
        case DW_WHOLES:
        case DW_MANY: break;
        }
    }
}

/* The unit of a range failure, told to people with it. */
static dw_status check_measure(const dw_field *field, double value,
                               const char *unit, dw_err *err)
{
    dw_status status =
        dw_check_range(err, field->name, value, field->low, field->high);
    if (status != DW_OK)
        err->unit = unit;
    return status;
}

/* Embeddings, overrides and isolates (Unicode Standard Annex 9, 2: U+202A to
 * U+202E, U+2066 to U+2069) reach past the end of the name they stand in and
 * turn the figures behind it around. Writing from right to left needs none. */
static bool turns_text_around(const char *text)
{
    for (const char *at = text; (at = strstr(at, "\xE2")) != NULL; at++) {
        unsigned char second = (unsigned char)at[1];
        unsigned char third = second ? (unsigned char)at[2] : 0;
        if ((second == 0x80 && third >= 0xAA && third <= 0xAE) ||
            (second == 0x81 && third >= 0xA6 && third <= 0xA9))
            return true;
    }
    return false;
}

static dw_status check_text(const dw_field *field, const char *text,
                            dw_err *err)
{
    if (!text)
        return field->required ? dw_fail(err, DW_E_MISSING, field->name, NULL)
                               : DW_OK;
    size_t bytes = strlen(text);
    if (!dw_text_valid(text, bytes))
        return dw_fail_says(err, DW_E_SYNTAX, field->name, NULL,
                            "is not valid UTF-8 text");
    if (turns_text_around(text))
        return dw_fail_says(err, DW_E_SYNTAX, field->name, NULL,
                            DW_MSG("has a hidden sign that turns text around"));
    return check_measure(field, (double)bytes, "bytes", err);
}

static dw_status check_choice(const dw_field *field, int index, dw_err *err)
{
    int words = 0;
    while (field->words[words])
        words++;
    if (index >= 0 && index < words)
        return DW_OK;
    dw_fail(err, DW_E_CHOICE, field->name, NULL);
    err->words = field->words;
    return DW_E_CHOICE;
}

static dw_status check_numbers(const dw_field *field, const void *object,
                               dw_err *err)
{
    size_t n = *(const size_t *)at(object, field->count);
    const void *list = *(void *const *)at(object, field->offset);
    if (n == 0 && field->required)
        return dw_fail(err, DW_E_MISSING, field->name, NULL);
    for (size_t i = 0; i < n; i++) {
        double value = field->kind == DW_REALS
                           ? ((const double *)list)[i]
                           : (double)((const int64_t *)list)[i];
        if (dw_check_range(err, "", value, field->low, field->high) != DW_OK) {
            err->unit = field->unit;
            return dw_err_within_item(err, field->name, i);
        }
    }
    return DW_OK;
}

static dw_status check_many(const dw_field *field, const void *object,
                            dw_err *err)
{
    size_t n = *(const size_t *)at(object, field->count);
    const unsigned char *list =
        *(unsigned char *const *)at(object, field->offset);
    if (n == 0 && field->required && field->low > 0)
        return dw_fail(err, DW_E_MISSING, field->name, NULL);
    DW_TRY(check_measure(field, (double)n, "entries", err));
    for (size_t i = 0; i < n; i++)
        if (dw_shape_check(field->shape, list + i * field->shape->bytes, err) !=
            DW_OK)
            return dw_err_within_item(err, field->name, i);
    return DW_OK;
}

static dw_status check_member(const dw_field *field, const void *object,
                              dw_err *err)
{
    const void *member = at(object, field->offset);
    switch (field->kind) {
    case DW_REAL:
        return check_measure(field, *(const double *)member, field->unit, err);
    case DW_WHOLE:
        return check_measure(field, (double)*(const int64_t *)member,
                             field->unit, err);
    case DW_YES: return DW_OK;
    case DW_TEXT: return check_text(field, *(const char *const *)member, err);
    case DW_CHOICE: return check_choice(field, *(const int *)member, err);
    case DW_REALS:
    case DW_WHOLES: return check_numbers(field, object, err);
    case DW_ONE:
        if (dw_shape_check(field->shape, member, err) != DW_OK)
            return dw_err_within(err, field->name);
        return DW_OK;
    case DW_MANY: return check_many(field, object, err);
    }
    DW_ASSERT(false);
    return DW_E_TYPE;
}

dw_status dw_shape_check(const dw_shape *shape, const void *object, dw_err *err)
{
    dw_err local;
    if (!err)
        err = &local;
    for (size_t i = 0; i < shape->count; i++) {
        const dw_field *field = &shape->fields[i];
        if (dw_field_has(field, object))
            DW_TRY(check_member(field, object, err));
    }
    return DW_OK;
}

static size_t count_of(const dw_field *field, const void *object)
{
    return *(const size_t *)at(object, field->count);
}

/* Lists of numbers or structs, item by item. */
static bool same_list(const dw_field *field, const void *a, const void *b)
{
    size_t n = count_of(field, a);
    if (n != count_of(field, b))
        return false;
    const unsigned char *left = *(unsigned char *const *)at(a, field->offset);
    const unsigned char *right = *(unsigned char *const *)at(b, field->offset);
    if (n == 0)
        return true;
    if (field->kind != DW_MANY)
        return memcmp(left, right, n * sizeof(double)) == 0;
    size_t bytes = field->shape->bytes;
    for (size_t i = 0; i < n; i++)
        if (!dw_shape_same(field->shape, left + i * bytes, right + i * bytes))
            return false;
    return true;
}

static bool same_member(const dw_field *field, const void *a, const void *b)
{
    const void *left = at(a, field->offset), *right = at(b, field->offset);
    switch (field->kind) {
    case DW_REAL: return *(const double *)left == *(const double *)right;
    case DW_WHOLE: return *(const int64_t *)left == *(const int64_t *)right;
    case DW_YES: return *(const bool *)left == *(const bool *)right;
    case DW_CHOICE: return *(const int *)left == *(const int *)right;
    case DW_TEXT:
        return dw_text_is(*(const char *const *)left,
                          *(const char *const *)right);
    case DW_ONE: return dw_shape_same(field->shape, left, right);
    case DW_REALS:
    case DW_WHOLES:
    case DW_MANY: return same_list(field, a, b);
    }
    DW_ASSERT(false);
    return false;
}

bool dw_shape_same(const dw_shape *shape, const void *a, const void *b)
{
    for (size_t i = 0; i < shape->count; i++) {
        const dw_field *field = &shape->fields[i];
        if (strcmp(field->name, "id") == 0)
            continue;
        bool has = dw_field_has(field, a);
        if (has != dw_field_has(field, b) || (has && !same_member(field, a, b)))
            return false;
    }
    return true;
}
