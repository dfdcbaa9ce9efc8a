/* Shops and formulas by name: what the files hold. */
#include "app/load.h"

static dw_status formula_load(dw_call *call, const void *request, void *reply)
{
    dw_recipe recipe;
    DW_TRY(dw_formula_put(call, request, &recipe));
    DW_TRY(dw_recipe_read(call, recipe.version_id, &recipe));
    return dw_formula_file_get(call, &recipe, reply);
}

typedef struct named {
    const char *name;
} named;
static const dw_field named_fields[] = {
    DW_F_TEXT(named, name, 80, "what the shop calls it"),
};
static const dw_shape named_shape =
    DW_SHAPE("named", named, named_fields, "a formula by its name");

static dw_status formula_show(dw_call *call, const void *request, void *reply)
{
    const char *name = ((const named *)request)->name;
    int64_t id;
    dw_recipe recipe;
    DW_TRY(dw_named_find(call, "formula", &dw_formula_noun, name, &id));
    if (!id)
        return dw_fail(call->err, DW_E_NOT_FOUND, "name", name);
    DW_TRY(dw_recipe_newest(call, id, &recipe));
    return dw_formula_file_get(call, &recipe, reply);
}

static dw_status shop_load(dw_call *call, const void *request, void *reply)
{
    DW_TRY(dw_shop_file_put(call, request));
    return dw_shop_file_get(call, reply);
}

static dw_status shop_show(dw_call *call, const void *request, void *reply)
{
    (void)request;
    return dw_shop_file_get(call, reply);
}

const dw_op dw_ops_load[] = {
    {"formula.load", DW_OP_WRITE, &dw_formula_file_shape,
     &dw_formula_file_shape, formula_load,
     "Save a formula of a file; one of that name gets a new version."},
    {"formula.show", DW_OP_READ, &named_shape, &dw_formula_file_shape,
     formula_show, "A formula as its file, by its name."},
    {"shop.load", DW_OP_WRITE, &dw_shop_file_shape, &dw_shop_file_shape,
     shop_load, "Save a whole shop of a file, by names: all of it or nothing."},
    {"shop.show", DW_OP_READ, &dw_nothing_shape, &dw_shop_file_shape, shop_show,
     "The whole shop as its file, by names."},
};
const size_t dw_ops_load_count = DW_COUNT(dw_ops_load);
