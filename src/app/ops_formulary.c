/* The shop's own formulas: listed, read, saved, told apart. */
#include "app/formulary.h"

#include "doughwright/say.h"

typedef struct recipe_list {
    dw_recipe *formulas; /* newest version of each, whole */
    size_t formulas_count;
} recipe_list;
static const dw_field recipe_list_fields[] = {
    DW_F_MANY_OPT(recipe_list, formulas, &dw_recipe_shape, 2000,
                  "the newest version of each"),
};
static const dw_shape recipe_list_shape = DW_SHAPE(
    "recipe_list", recipe_list, recipe_list_fields, "the shop's formulas");

static dw_status recipe_list_run(dw_call *call, const void *request,
                                 void *reply)
{
    (void)request;
    recipe_list *list = reply;
    dw_formula_row *rows;
    size_t n;
    DW_TRY(dw_rows_get(call, "formula", &dw_formula_noun, NULL, 0, "name",
                       &rows, &n));
    list->formulas = DW_NEW_ARRAY(call->arena, dw_recipe, n);
    if (!list->formulas)
        return dw_fail(call->err, DW_E_ROOM, "formulas", NULL);
    list->formulas_count = n;
    for (size_t i = 0; i < n; i++)
        DW_TRY(dw_recipe_newest(call, rows[i].id, &list->formulas[i]));
    return DW_OK;
}

typedef struct which {
    int64_t formula_id, version_id;
} which;
static const dw_field which_fields[] = {
    DW_F_ID(which, formula_id, "its newest version"),
    DW_F_ID(which, version_id, "that very version"),
};
static const dw_shape which_shape = DW_SHAPE(
    "which_recipe", which, which_fields, "a formula or one of its versions");

static dw_status recipe_get_run(dw_call *call, const void *request, void *reply)
{
    const which *asked = request;
    if ((asked->formula_id == 0) == (asked->version_id == 0))
        return dw_fail_says(call->err, DW_E_MISSING, "formula_id", NULL,
                            DW_MSG("or version_id is needed, one of the two"));
    if (asked->version_id)
        return dw_recipe_read(call, asked->version_id, reply);
    return dw_recipe_newest(call, asked->formula_id, reply);
}

static dw_status recipe_save_run(dw_call *call, const void *request,
                                 void *reply)
{
    dw_recipe *recipe = reply;
    *recipe = *(const dw_recipe *)request;
    DW_TRY(dw_recipe_write(call, recipe));
    return dw_recipe_read(call, recipe->version_id, recipe);
}

typedef struct version_list {
    dw_formula_version *versions; /* newest first */
    size_t versions_count;
} version_list;
static const dw_field version_list_fields[] = {
    DW_F_MANY_OPT(version_list, versions, &dw_formula_version_noun, 100000,
                  "newest first"),
};
static const dw_shape version_list_shape = DW_SHAPE(
    "version_list", version_list, version_list_fields, "versions of a formula");

static dw_status recipe_versions_run(dw_call *call, const void *request,
                                     void *reply)
{
    version_list *list = reply;
    return dw_rows_get(call, "formula_version", &dw_formula_version_noun,
                       "formula_id", ((const dw_made *)request)->id,
                       "number DESC", &list->versions, &list->versions_count);
}

const dw_op dw_ops_formulary[] = {
    {"recipe.list", DW_OP_READ, &dw_nothing_shape, &recipe_list_shape,
     recipe_list_run, "The shop's formulas, each in its newest version."},
    {"recipe.get", DW_OP_READ, &which_shape, &dw_recipe_shape, recipe_get_run,
     "One formula or one of its versions, with lines, stages and procedure."},
    {"recipe.save", DW_OP_WRITE, &dw_recipe_shape, &dw_recipe_shape,
     recipe_save_run,
     "Save a formula; a version that was used stays and the next one is made."},
    {"recipe.versions", DW_OP_READ, &dw_made_request_shape, &version_list_shape,
     recipe_versions_run, "The versions of a formula."},
};
const size_t dw_ops_formulary_count = DW_COUNT(dw_ops_formulary);
