#include "files/yaml_file.h"

#include "doughwright/say.h"
#include "files/scalar.h"

#include <stdio.h>
#include <string.h>
#include <yaml.h>

/* Events come one by one and go straight into the object, so the depth is that
 * of the shape and no tree is built. */
typedef struct reader {
    yaml_parser_t parser;
    yaml_event_t event; /* the one being looked at */
    bool has_event;
    dw_arena *arena;
    dw_err *err;
    size_t line; /* of the failure */
} reader;

static void *member_of(void *object, size_t offset)
{
    return (unsigned char *)object + offset;
}

static dw_status fail_syntax(reader *in, const char *sentence)
{
    in->line = in->event.start_mark.line + 1;
    return dw_fail_says(in->err, DW_E_SYNTAX, "", NULL, sentence);
}

static dw_status advance(reader *in)
{
    if (in->has_event)
        yaml_event_delete(&in->event);
    in->has_event = yaml_parser_parse(&in->parser, &in->event) != 0;
    if (!in->has_event) {
        in->line = in->parser.problem_mark.line + 1;
        return dw_fail_says(in->err, DW_E_SYNTAX, "", in->parser.problem,
                            DW_MSG("is not well-formed YAML"));
    }
    in->line = in->event.start_mark.line + 1;
    if (in->event.type == YAML_ALIAS_EVENT ||
        (in->event.type == YAML_SCALAR_EVENT && in->event.data.scalar.anchor) ||
        (in->event.type == YAML_MAPPING_START_EVENT &&
         in->event.data.mapping_start.anchor) ||
        (in->event.type == YAML_SEQUENCE_START_EVENT &&
         in->event.data.sequence_start.anchor))
        return fail_syntax(in, DW_MSG("has an anchor or alias (& or *), which "
                                      "these files do not use"));
    return DW_OK;
}

/* The scalar being looked at, in the arena; NULL when it says nothing. */
static dw_status take_text(reader *in, const char **text)
{
    const char *value = (const char *)in->event.data.scalar.value;
    size_t bytes = in->event.data.scalar.length;
    if (strlen(value) != bytes)
        return dw_fail_says(in->err, DW_E_SYNTAX, "", NULL,
                            DW_MSG("has a NUL character in it"));
    bool plain = in->event.data.scalar.style == YAML_PLAIN_SCALAR_STYLE;
    if (plain &&
        (bytes == 0 || strcmp(value, "~") == 0 || strcmp(value, "null") == 0)) {
        *text = NULL;
        return DW_OK;
    }
    *text = dw_arena_text(in->arena, value);
    return *text ? DW_OK : dw_fail(in->err, DW_E_ROOM, "", NULL);
}

static dw_status read_object(reader *in, const dw_shape *shape, void *object);

/* ---- lists --------------------------------------------------------------- */

/* Room for one more element of `size` bytes: doubled in the arena. */
static dw_status grow(reader *in, void **list, size_t count, size_t size)
{
    if (count & (count - 1)) /* room up to the next power of two */
        return DW_OK;
    void *more = dw_arena_take(in->arena, size * (count ? 2 * count : 1));
    if (!more)
        return dw_fail(in->err, DW_E_ROOM, "", NULL);
    if (count)
        memcpy(more, *list, size * count);
    *list = more;
    return DW_OK;
}

static dw_status read_number_item(reader *in, const dw_field *field,
                                  void *element)
{
    const char *text;
    double value;
    if (in->event.type != YAML_SCALAR_EVENT)
        return dw_fail_says(in->err, DW_E_TYPE, "", NULL,
                            DW_MSG("must be a number"));
    DW_TRY(take_text(in, &text));
    DW_TRY(dw_files__number(field, text ? text : "", &value, in->err));
    if (field->kind == DW_REALS)
        *(double *)element = value;
    else
        *(int64_t *)element = (int64_t)value;
    return DW_OK;
}

static dw_status read_list(reader *in, const dw_field *field, void *object)
{
    bool objects = field->kind == DW_MANY;
    size_t size = objects ? field->shape->bytes : sizeof(double), n = 0;
    void *list = NULL;
    if (in->event.type != YAML_SEQUENCE_START_EVENT)
        return dw_fail_says(in->err, DW_E_TYPE, "", NULL,
                            DW_MSG("must be a list"));
    for (;;) {
        DW_TRY(advance(in));
        if (in->event.type == YAML_SEQUENCE_END_EVENT)
            break;
        if (objects && n >= (size_t)field->high) {
            in->err->unit = NULL;
            dw_fail_range(in->err, "", (double)n + 1, field->low, field->high);
            in->err->unit = "entries";
            return DW_E_RANGE;
        }
        DW_TRY(grow(in, &list, n, size));
        void *element = (unsigned char *)list + n * size;
        dw_status status = objects ? read_object(in, field->shape, element)
                                   : read_number_item(in, field, element);
        if (status != DW_OK)
            return dw_err_within_item(in->err, "", n);
        n++;
    }
    memcpy(member_of(object, field->offset), &list, sizeof list);
    *(size_t *)member_of(object, field->count) = n;
    return DW_OK;
}

/* ---- scalars ------------------------------------------------------------- */

static dw_status store_text(reader *in, const dw_field *field, const char *text,
                            void *object)
{
    if (dw_check_range(in->err, "", (double)strlen(text), field->low,
                       field->high) != DW_OK) {
        in->err->unit = "bytes";
        return DW_E_RANGE;
    }
    memcpy(member_of(object, field->offset), &text, sizeof text);
    return DW_OK;
}

static dw_status store_scalar(reader *in, const dw_field *field,
                              const char *text, void *object)
{
    void *member = member_of(object, field->offset);
    double value;
    switch (field->kind) {
    case DW_REAL: return dw_files__number(field, text, member, in->err);
    case DW_WHOLE:
        DW_TRY(dw_files__number(field, text, &value, in->err));
        *(int64_t *)member = (int64_t)value;
        return DW_OK;
    case DW_YES: return dw_files__yes(text, member, in->err);
    case DW_CHOICE: return dw_files__choice(field, text, member, in->err);
    case DW_TEXT: return store_text(in, field, text, object);
    case DW_REALS:
    case DW_WHOLES:
    case DW_ONE:
    case DW_MANY: break;
    }
    DW_ASSERT(false);
    return DW_E_TYPE;
}

/* ---- objects ------------------------------------------------------------- */

/* Where a key's member is: in the object or in one nested flat in it. */
typedef struct place {
    const dw_field *field;
    void *object;
    unsigned index; /* among all keys, for those given twice */
} place;

static bool find_key(const dw_shape *shape, void *object, const char *wanted,
                     unsigned *index, place *found)
{
    char key[DW_FILES__KEY];
    for (size_t i = 0; i < shape->count; i++) {
        const dw_field *field = &shape->fields[i];
        if (dw_files__is_flat(field)) {
            if (find_key(field->shape, member_of(object, field->offset), wanted,
                         index, found))
                return true;
            continue;
        }
        if (dw_files__key(field, key) && strcmp(key, wanted) == 0) {
            *found = (place){field, object, *index};
            return true;
        }
        (*index)++;
    }
    return false;
}

static void mark_given(const place *at)
{
    if (at->field->has != DW_NOWHERE)
        *(bool *)member_of(at->object, at->field->has) = true;
}

static dw_status read_member(reader *in, const place *at, uint64_t *seen)
{
    const dw_field *field = at->field;
    bool list = field->kind == DW_MANY || field->kind == DW_REALS ||
                field->kind == DW_WHOLES;
    if (*seen & 1ULL << at->index)
        return dw_fail_says(in->err, DW_E_CONFLICT, "", NULL,
                            DW_MSG("is given twice"));
    DW_TRY(advance(in));
    bool scalar = in->event.type == YAML_SCALAR_EVENT;
    const char *text = NULL;
    if (scalar)
        DW_TRY(take_text(in, &text));
    if (scalar && !text)
        return DW_OK; /* nothing said: not given */
    *seen |= 1ULL << at->index;
    mark_given(at);
    if (list)
        return read_list(in, field, at->object);
    if (field->kind == DW_ONE)
        return read_object(in, field->shape,
                           member_of(at->object, field->offset));
    if (!scalar)
        return dw_fail_says(in->err, DW_E_TYPE, "", NULL,
                            DW_MSG("must be one value"));
    return store_scalar(in, field, text, at->object);
}

/* What must be there was given? */
static dw_status check_given(reader *in, const dw_shape *shape, uint64_t seen,
                             unsigned *index)
{
    char key[DW_FILES__KEY];
    for (size_t i = 0; i < shape->count; i++) {
        const dw_field *field = &shape->fields[i];
        if (dw_files__is_flat(field)) {
            DW_TRY(check_given(in, field->shape, seen, index));
            continue;
        }
        bool needed = field->required && dw_files__key(field, key);
        if (needed && !(seen & 1ULL << *index))
            return dw_fail(in->err, DW_E_MISSING, key, NULL);
        (*index)++;
    }
    return DW_OK;
}

static dw_status read_entry(reader *in, const dw_shape *shape, void *object,
                            uint64_t *seen)
{
    const char *key = NULL;
    place at;
    unsigned index = 0;
    if (in->event.type != YAML_SCALAR_EVENT)
        return fail_syntax(in, DW_MSG("has a key that is not a word"));
    DW_TRY(take_text(in, &key));
    if (!key || !find_key(shape, object, key, &index, &at))
        return dw_fail(in->err, DW_E_UNKNOWN_FIELD, key ? key : "", NULL);
    DW_ASSERT(at.index < 64);
    if (read_member(in, &at, seen) != DW_OK)
        return dw_err_within(in->err, key);
    return DW_OK;
}

static dw_status read_object(reader *in, const dw_shape *shape, void *object)
{
    uint64_t seen = 0;
    unsigned index = 0;
    dw_shape_preset(shape, object);
    if (in->event.type != YAML_MAPPING_START_EVENT)
        return dw_fail_says(in->err, DW_E_TYPE, "", NULL,
                            DW_MSG("must be keys with values"));
    size_t line = in->event.start_mark.line + 1;
    for (;;) {
        DW_TRY(advance(in));
        if (in->event.type == YAML_MAPPING_END_EVENT)
            break;
        DW_TRY(read_entry(in, shape, object, &seen));
    }
    in->line = line; /* what is missing is missing from here */
    return check_given(in, shape, seen, &index);
}

static dw_status read_document(reader *in, const dw_shape *shape, void *object)
{
    do
        DW_TRY(advance(in));
    while (in->event.type == YAML_STREAM_START_EVENT ||
           in->event.type == YAML_DOCUMENT_START_EVENT);
    if (in->event.type == YAML_STREAM_END_EVENT)
        return fail_syntax(in, DW_MSG("has nothing in it"));
    DW_TRY(read_object(in, shape, object));
    DW_TRY(advance(in)); /* the document's end */
    DW_TRY(advance(in));
    if (in->event.type != YAML_STREAM_END_EVENT)
        return fail_syntax(in, DW_MSG("has a second document in it"));
    in->line = 1;
    return dw_shape_check(shape, object, in->err);
}

/* "file.yaml:12: lines[2].percent" */
static dw_status say_where(const reader *in, const char *name)
{
    char where[sizeof in->err->field];
    const char *path = in->err->field;
    snprintf(where, sizeof where, "%.40s:%zu%s%.50s", name, in->line,
             *path ? ": " : "", path);
    memcpy(in->err->field, where, sizeof where);
    return in->err->status;
}

dw_status dw_yaml_read(const dw_shape *shape, const char *name,
                       const char *text, size_t bytes, dw_arena *arena,
                       void *object, dw_err *err)
{
    dw_err own = {.status = DW_OK};
    reader in = {.arena = arena, .err = err ? err : &own, .line = 1};
    if (bytes > DW_YAML_MOST) {
        dw_fail_range(in.err, name, (double)bytes, 1, DW_YAML_MOST);
        in.err->unit = "bytes";
        in.err->status = DW_E_TOO_LARGE;
        return DW_E_TOO_LARGE;
    }
    if (!dw_text_valid(text, bytes))
        return dw_fail_says(in.err, DW_E_SYNTAX, name, NULL,
                            DW_MSG("is not valid UTF-8 text"));
    if (!yaml_parser_initialize(&in.parser))
        return dw_fail(in.err, DW_E_ROOM, name, NULL);
    yaml_parser_set_input_string(&in.parser, (const unsigned char *)text,
                                 bytes);
    yaml_parser_set_encoding(&in.parser, YAML_UTF8_ENCODING);
    dw_status status = read_document(&in, shape, object);
    if (in.has_event)
        yaml_event_delete(&in.event);
    yaml_parser_delete(&in.parser);
    return status == DW_OK ? DW_OK : say_where(&in, name);
}
