#include "files/yaml_file.h"

#include "files/scalar.h"

#include <string.h>
#include <yaml.h>

typedef struct writer {
    yaml_emitter_t emitter;
    bool failed; /* the block is full */
} writer;

static const void *member_of(const void *object, size_t offset)
{
    return (const unsigned char *)object + offset;
}

static void emit(writer *out, yaml_event_t *event, int made)
{
    if (!made || out->failed || !yaml_emitter_emit(&out->emitter, event))
        out->failed = true;
}

static void put_text(writer *out, const char *text)
{
    yaml_event_t event;
    /* a text that a reader would take for nothing at all */
    bool nothing = !*text || !strcmp(text, "~") || !strcmp(text, "null");
    emit(out, &event,
         yaml_scalar_event_initialize(&event, NULL, NULL,
                                      (const yaml_char_t *)text,
                                      (int)strlen(text), 1, 1,
                                      nothing ? YAML_DOUBLE_QUOTED_SCALAR_STYLE
                                              : YAML_ANY_SCALAR_STYLE));
}

static void put_object(writer *out, const dw_shape *shape, const void *object);

static void put_number(writer *out, const dw_field *field, double value)
{
    char text[DW_FILES__TEXT];
    dw_files__print(field, value, text);
    put_text(out, text);
}

static size_t length_of(const dw_field *field, const void *object)
{
    return *(const size_t *)member_of(object, field->count);
}

static void put_list(writer *out, const dw_field *field, const void *object)
{
    yaml_event_t event;
    size_t n = length_of(field, object);
    const unsigned char *list;
    memcpy(&list, member_of(object, field->offset), sizeof list);
    bool objects = field->kind == DW_MANY;
    emit(out, &event,
         yaml_sequence_start_event_initialize(
             &event, NULL, NULL, 1,
             objects ? YAML_BLOCK_SEQUENCE_STYLE : YAML_FLOW_SEQUENCE_STYLE));
    for (size_t i = 0; i < n; i++)
        if (objects)
            put_object(out, field->shape, list + i * field->shape->bytes);
        else if (field->kind == DW_REALS)
            put_number(out, field, ((const double *)(const void *)list)[i]);
        else
            put_number(out, field,
                       (double)((const int64_t *)(const void *)list)[i]);
    emit(out, &event, yaml_sequence_end_event_initialize(&event));
}

/* Would leaving it out say the same? */
static bool is_preset(const dw_field *field, const void *object)
{
    const void *member = member_of(object, field->offset);
    if (field->has != DW_NOWHERE)
        return !*(const bool *)member_of(object, field->has);
    switch (field->kind) {
    case DW_REAL:
        return !field->required && *(const double *)member == field->preset;
    case DW_WHOLE:
        return !field->required &&
               (double)*(const int64_t *)member == field->preset;
    case DW_YES: return *(const bool *)member == (field->preset != 0);
    case DW_CHOICE:
        return !field->required && *(const int *)member == (int)field->preset;
    case DW_TEXT: return *(const char *const *)member == NULL;
    case DW_REALS:
    case DW_WHOLES:
    case DW_MANY: return length_of(field, object) == 0;
    case DW_ONE: return false;
    }
    DW_ASSERT(false);
    return false;
}

static void put_member(writer *out, const dw_field *field, const void *object)
{
    const void *member = member_of(object, field->offset);
    switch (field->kind) {
    case DW_REAL: put_number(out, field, *(const double *)member); break;
    case DW_WHOLE:
        put_number(out, field, (double)*(const int64_t *)member);
        break;
    case DW_YES: put_text(out, *(const bool *)member ? "yes" : "no"); break;
    case DW_TEXT: put_text(out, *(const char *const *)member); break;
    case DW_CHOICE: put_text(out, field->words[*(const int *)member]); break;
    case DW_ONE: put_object(out, field->shape, member); break;
    case DW_REALS:
    case DW_WHOLES:
    case DW_MANY: put_list(out, field, object); break;
    }
}

static void put_members(writer *out, const dw_shape *shape, const void *object)
{
    char key[DW_FILES__KEY];
    for (size_t i = 0; i < shape->count; i++) {
        const dw_field *field = &shape->fields[i];
        if (dw_files__is_flat(field)) {
            put_members(out, field->shape, member_of(object, field->offset));
        } else if (dw_files__key(field, key) && !is_preset(field, object)) {
            put_text(out, key);
            put_member(out, field, object);
        }
    }
}

/* Rows without lists of their own read best on one line. */
static bool fits_a_line(const dw_shape *shape)
{
    for (size_t i = 0; i < shape->count; i++) {
        const dw_field *field = &shape->fields[i];
        if (field->kind == DW_MANY || field->kind == DW_WHOLES ||
            field->kind == DW_REALS ||
            (field->kind == DW_ONE && !fits_a_line(field->shape)))
            return false;
    }
    return true;
}

static void put_object(writer *out, const dw_shape *shape, const void *object)
{
    yaml_event_t event;
    emit(out, &event,
         yaml_mapping_start_event_initialize(&event, NULL, NULL, 1,
                                             fits_a_line(shape)
                                                 ? YAML_FLOW_MAPPING_STYLE
                                                 : YAML_BLOCK_MAPPING_STYLE));
    put_members(out, shape, object);
    emit(out, &event, yaml_mapping_end_event_initialize(&event));
}

static void put_document(writer *out, const dw_shape *shape, const void *object)
{
    yaml_event_t event;
    emit(out, &event,
         yaml_stream_start_event_initialize(&event, YAML_UTF8_ENCODING));
    emit(out, &event,
         yaml_document_start_event_initialize(&event, NULL, NULL, NULL, 1));
    put_object(out, shape, object);
    emit(out, &event, yaml_document_end_event_initialize(&event, 1));
    emit(out, &event, yaml_stream_end_event_initialize(&event));
}

dw_status dw_yaml_write(const dw_shape *shape, const void *object,
                        dw_arena *arena, const char **text, size_t *bytes,
                        dw_err *err)
{
    writer out = {.failed = false};
    size_t room, written = 0;
    unsigned char *end = dw_arena_rest(arena, &room);
    if (room == 0 || !yaml_emitter_initialize(&out.emitter))
        return dw_fail(err, DW_E_ROOM, shape->name, NULL);
    yaml_emitter_set_output_string(&out.emitter, end, room - 1, &written);
    yaml_emitter_set_unicode(&out.emitter, 1);
    yaml_emitter_set_width(&out.emitter, -1);
    put_document(&out, shape, object);
    yaml_emitter_delete(&out.emitter);
    if (out.failed)
        return dw_fail(err, DW_E_ROOM, shape->name, NULL);
    end[written] = '\0';
    dw_arena_keep(arena, written + 1);
    *text = (const char *)end;
    *bytes = written;
    return DW_OK;
}
