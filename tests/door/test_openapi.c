#include "door/openapi.h"

#include "app/op.h"
#include "dw_test.h"

#include <jansson.h>

static unsigned char block[8 << 20];

static json_t *page(void)
{
    dw_arena arena;
    dw_arena_init(&arena, block, sizeof block);
    const char *text;
    size_t bytes;
    if (dw_openapi(&arena, &text, &bytes) != DW_OK)
        return NULL;
    return json_loadb(text, bytes, JSON_REJECT_DUPLICATES, NULL);
}

static const json_t *at(const json_t *json, const char *first,
                        const char *second)
{
    return json_object_get(json_object_get(json, first), second);
}

TEST(every_operation_is_a_path, LIMIT, "the table of operations")
{
    json_t *api = page();
    NEED(api != NULL);
    size_t count;
    const dw_op *ops = dw_ops(&count);
    SAME(json_object_size(json_object_get(api, "paths")), count);
    for (size_t i = 0; i < count; i++) {
        char path[128];
        snprintf(path, sizeof path, "/api/v1/%s", ops[i].name);
        const json_t *post = json_object_get(at(api, "paths", path), "post");
        SAME_TEXT(json_string_value(json_object_get(post, "operationId")),
                  ops[i].name);
    }
    json_decref(api);
}

static void check_shape(const json_t *schemas, const dw_shape *shape)
{
    const json_t *schema = json_object_get(schemas, shape->name);
    const json_t *members = json_object_get(schema, "properties");
    if (json_object_size(members) != shape->count)
        dw_test_fail(__FILE__, __LINE__, "two shapes are named %s",
                     shape->name);
    for (size_t i = 0; i < shape->count; i++) {
        const dw_field *field = &shape->fields[i];
        if (!json_object_get(members, field->name))
            dw_test_fail(__FILE__, __LINE__, "%s.%s is not on the page",
                         shape->name, field->name);
        if (field->shape)
            check_shape(schemas, field->shape);
    }
}

/* A name used for two shapes would be a duplicate key, which does not parse. */
TEST(every_shape_has_one_schema_with_all_its_members, LIMIT,
     "the table of operations")
{
    json_t *api = page();
    NEED(api != NULL);
    const json_t *schemas = at(api, "components", "schemas");
    size_t count;
    const dw_op *ops = dw_ops(&count);
    for (size_t i = 0; i < count; i++) {
        check_shape(schemas, ops[i].request);
        check_shape(schemas, ops[i].reply);
    }
    json_decref(api);
}

TEST(the_page_says_when_it_does_not_fit, LIMIT, "base.h")
{
    dw_arena arena;
    dw_arena_init(&arena, block, 5000);
    const char *text;
    size_t bytes;
    SAME(dw_openapi(&arena, &text, &bytes), DW_E_ROOM);
}
