#include "door/openapi.h"

#include "app/op.h"
#include "door/out.h"

#include <float.h>
#include <math.h>
#include <string.h>

/* OpenAPI Specification 3.1.0; schemas are JSON Schema, draft 2020-12. What is
 * not required may be null, which means not given; replies write every member.
 */

enum { SHAPES_MOST = 512 };

typedef struct shapes {
    const dw_shape *list[SHAPES_MOST];
    size_t count;
} shapes;

static void gather(shapes *all, const dw_shape *shape)
{
    for (size_t i = 0; i < all->count; i++)
        if (all->list[i] == shape)
            return;
    DW_ASSERT(all->count < SHAPES_MOST);
    all->list[all->count++] = shape;
    for (size_t i = 0; i < shape->count; i++)
        if (shape->fields[i].shape)
            gather(all, shape->fields[i].shape);
}

static void put_member(dw_out *out, const char *name, const char *text)
{
    dw_out_name(out, name);
    dw_out_text(out, text);
}

static void put_ref(dw_out *out, const char *shape)
{
    dw_out_raw(out, "{\"$ref\":\"#/components/schemas/");
    dw_out_raw(out, shape);
    dw_out_raw(out, "\"}");
}

static void put_limits(dw_out *out, const char *low_name, const char *high_name,
                       const dw_field *field)
{
    if (fabs(field->low) < DBL_MAX) {
        dw_out_name(out, low_name);
        dw_out_real(out, field->low);
    }
    if (fabs(field->high) < DBL_MAX) {
        dw_out_name(out, high_name);
        dw_out_real(out, field->high);
    }
}

static void put_type(dw_out *out, const dw_field *field, const char *type)
{
    dw_out_name(out, "type");
    if (field->required) {
        dw_out_text(out, type);
        return;
    }
    dw_out_raw(out, "[");
    dw_out_text(out, type);
    dw_out_raw(out, ",\"null\"]");
}

static void put_number(dw_out *out, const dw_field *field, const char *type)
{
    put_type(out, field, type);
    put_limits(out, "minimum", "maximum", field);
}

static void put_words(dw_out *out, const dw_field *field)
{
    dw_out_name(out, "enum");
    dw_out_raw(out, "[");
    for (size_t i = 0; field->words[i]; i++) {
        if (i > 0)
            dw_out_raw(out, ",");
        dw_out_text(out, field->words[i]);
    }
    dw_out_raw(out, field->required ? "]" : ",null]");
}

static void put_numbers(dw_out *out, const dw_field *field)
{
    put_type(out, field, "array");
    dw_out_name(out, "items");
    dw_out_raw(out, "{");
    put_member(out, "type", field->kind == DW_REALS ? "number" : "integer");
    put_limits(out, "minimum", "maximum", field);
    dw_out_raw(out, "}");
}

static void put_many(dw_out *out, const dw_field *field)
{
    put_type(out, field, "array");
    put_limits(out, "minItems", "maxItems", field);
    dw_out_name(out, "items");
    put_ref(out, field->shape->name);
}

static void put_one(dw_out *out, const dw_field *field)
{
    dw_out_name(out, "anyOf");
    dw_out_raw(out, "[");
    put_ref(out, field->shape->name);
    dw_out_raw(out, field->required ? "]" : ",{\"type\":\"null\"}]");
}

static void put_preset(dw_out *out, const dw_field *field)
{
    if (field->required || field->has != DW_NOWHERE)
        return;
    switch (field->kind) {
    case DW_REAL:
    case DW_WHOLE:
        dw_out_name(out, "default");
        dw_out_real(out, field->preset);
        break;
    case DW_YES:
        dw_out_name(out, "default");
        dw_out_raw(out, field->preset != 0 ? "true" : "false");
        break;
    case DW_CHOICE:
        put_member(out, "default", field->words[(int)field->preset]);
        break;
    case DW_TEXT:
    case DW_REALS:
    case DW_WHOLES:
    case DW_ONE:
    case DW_MANY: break;
    }
}

static void put_field(dw_out *out, const dw_field *field)
{
    dw_out_name(out, field->name);
    dw_out_raw(out, "{");
    put_member(out, "description", field->about);
    if (field->unit && *field->unit)
        put_member(out, "x-unit", field->unit);
    switch (field->kind) {
    case DW_REAL: put_number(out, field, "number"); break;
    case DW_WHOLE: put_number(out, field, "integer"); break;
    case DW_YES: put_type(out, field, "boolean"); break;
    case DW_TEXT:
        put_type(out, field, "string");
        put_limits(out, "minLength", "maxLength", field);
        break;
    case DW_CHOICE: put_words(out, field); break;
    case DW_REALS:
    case DW_WHOLES: put_numbers(out, field); break;
    case DW_ONE: put_one(out, field); break;
    case DW_MANY: put_many(out, field); break;
    }
    put_preset(out, field);
    dw_out_raw(out, "}");
}

static void put_required(dw_out *out, const dw_shape *shape)
{
    const char *before = "";
    dw_out_name(out, "required");
    dw_out_raw(out, "[");
    for (size_t i = 0; i < shape->count; i++) {
        if (!shape->fields[i].required)
            continue;
        dw_out_raw(out, before);
        dw_out_text(out, shape->fields[i].name);
        before = ",";
    }
    dw_out_raw(out, "]");
}

static void put_schema(dw_out *out, const dw_shape *shape)
{
    dw_out_name(out, shape->name);
    dw_out_raw(out, "{");
    put_member(out, "type", "object");
    put_member(out, "description", shape->about);
    dw_out_name(out, "properties");
    dw_out_raw(out, "{");
    for (size_t i = 0; i < shape->count; i++)
        put_field(out, &shape->fields[i]);
    dw_out_raw(out, "}");
    put_required(out, shape);
    dw_out_name(out, "additionalProperties");
    dw_out_raw(out, "false}");
}

static void put_content(dw_out *out, const char *shape)
{
    dw_out_name(out, "content");
    dw_out_raw(out, "{\"application/json\":{\"schema\":");
    put_ref(out, shape);
    dw_out_raw(out, "}}");
}

static void put_reply(dw_out *out, const char *status, const char *about,
                      const char *shape)
{
    dw_out_name(out, status);
    dw_out_raw(out, "{");
    put_member(out, "description", about);
    put_content(out, shape);
    dw_out_raw(out, "}");
}

static void put_op(dw_out *out, const dw_op *op)
{
    dw_out_raw(out, out->at[out->used - 1] == '{' ? "" : ",");
    dw_out_raw(out, "\"/api/v1/");
    dw_out_raw(out, op->name);
    dw_out_raw(out, "\":{\"post\":{");
    put_member(out, "operationId", op->name);
    put_member(out, "summary", op->about);
    dw_out_name(out, "requestBody");
    dw_out_raw(out, "{\"required\":true");
    put_content(out, op->request->name);
    dw_out_raw(out, "}");
    dw_out_name(out, "responses");
    dw_out_raw(out, "{");
    put_reply(out, "200", op->reply->about, op->reply->name);
    put_reply(out, "default", "refused or failed; nothing was changed",
              "error");
    dw_out_raw(out, "}}}");
}

static const char error_schema[] =
    "\"error\":{\"type\":\"object\",\"description\":\"one failure\","
    "\"required\":[\"error\"],\"additionalProperties\":false,"
    "\"properties\":{\"error\":{\"type\":\"object\",\"required\":[\"code\","
    "\"field\",\"message\",\"low\",\"high\"],\"additionalProperties\":false,"
    "\"properties\":{\"code\":{\"type\":\"string\"},"
    "\"field\":{\"type\":\"string\"},\"message\":{\"type\":\"string\"},"
    "\"low\":{\"type\":[\"number\",\"null\"]},"
    "\"high\":{\"type\":[\"number\",\"null\"]}}}}}";

static const char head[] =
    "{\"openapi\":\"3.1.0\",\"info\":{\"title\":\"Doughwright\","
    "\"version\":\"" DW_VERSION "\",\"license\":{\"name\":\"Apache-2.0\","
    "\"identifier\":\"Apache-2.0\"}},\"paths\":{";

dw_status dw_openapi(dw_arena *arena, const char **text, size_t *bytes)
{
    size_t count;
    const dw_op *ops = dw_ops(&count);
    shapes *all = DW_NEW(arena, shapes);
    if (!all)
        return DW_E_ROOM;
    dw_out out;
    dw_out_init(&out, arena);
    dw_out_raw(&out, head);
    for (size_t i = 0; i < count; i++) {
        gather(all, ops[i].request);
        gather(all, ops[i].reply);
        put_op(&out, &ops[i]);
    }
    dw_out_raw(&out, "},\"components\":{\"schemas\":{");
    dw_out_raw(&out, error_schema);
    for (size_t i = 0; i < all->count; i++)
        put_schema(&out, all->list[i]);
    dw_out_raw(&out, "}}}");
    return dw_out_keep(&out, arena, text, bytes);
}
