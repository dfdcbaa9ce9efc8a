#include "door/json.h"
#include "door/out.h"

#include <math.h>

static dw_status write_object(dw_out *out, const dw_shape *shape,
                              const void *object);

static const void *member_of(const void *object, size_t offset)
{
    return (const unsigned char *)object + offset;
}

static dw_status write_real(dw_out *out, double value)
{
    dw_out_real(out, value);
    return isfinite(value) ? DW_OK : DW_E_RANGE;
}

static dw_status write_item(dw_out *out, const dw_field *field,
                            const void *list, size_t i)
{
    switch (field->kind) {
    case DW_REALS: return write_real(out, ((const double *)list)[i]);
    case DW_WHOLES: dw_out_whole(out, ((const int64_t *)list)[i]); return DW_OK;
    default:
        return write_object(out, field->shape,
                            member_of(list, i * field->shape->bytes));
    }
}

static dw_status write_list(dw_out *out, const dw_field *field,
                            const void *object)
{
    size_t n = *(const size_t *)member_of(object, field->count);
    const void *list = *(void *const *)member_of(object, field->offset);
    dw_out_raw(out, "[");
    for (size_t i = 0; i < n; i++) {
        if (i > 0)
            dw_out_raw(out, ",");
        DW_TRY(write_item(out, field, list, i));
    }
    dw_out_raw(out, "]");
    return DW_OK;
}

static dw_status write_value(dw_out *out, const dw_field *field,
                             const void *object)
{
    const void *member = member_of(object, field->offset);
    switch (field->kind) {
    case DW_REAL: return write_real(out, *(const double *)member);
    case DW_WHOLE: dw_out_whole(out, *(const int64_t *)member); break;
    case DW_YES:
        dw_out_raw(out, *(const bool *)member ? "true" : "false");
        break;
    case DW_TEXT: dw_out_text(out, *(const char *const *)member); break;
    case DW_CHOICE: dw_out_text(out, field->words[*(const int *)member]); break;
    case DW_REALS:
    case DW_WHOLES:
    case DW_MANY: return write_list(out, field, object);
    case DW_ONE: return write_object(out, field->shape, member);
    }
    return DW_OK;
}

static dw_status write_object(dw_out *out, const dw_shape *shape,
                              const void *object)
{
    dw_out_raw(out, "{");
    for (size_t i = 0; i < shape->count; i++) {
        const dw_field *field = &shape->fields[i];
        dw_out_name(out, field->name);
        if (dw_field_has(field, object))
            DW_TRY(write_value(out, field, object));
        else
            dw_out_raw(out, "null");
    }
    dw_out_raw(out, "}");
    return DW_OK;
}

dw_status dw_json_encode(const dw_shape *shape, const void *object,
                         dw_arena *arena, const char **text, size_t *bytes)
{
    dw_out out;
    dw_out_init(&out, arena);
    DW_TRY(write_object(&out, shape, object));
    return dw_out_keep(&out, arena, text, bytes);
}

const dw_codec dw_json_codec = {dw_json_decode, dw_json_encode};
