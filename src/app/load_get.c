#include "app/load.h"

static dw_status no_room(dw_call *call)
{
    return dw_fail(call->err, DW_E_ROOM, "shop", NULL);
}

static dw_status get_mixers(dw_call *call, dw_shop_file *file)
{
    dw_mixer_row *rows;
    size_t n;
    DW_TRY(
        dw_rows_get(call, "mixer", &dw_mixer_noun, NULL, 0, "id", &rows, &n));
    file->mixers = DW_NEW_ARRAY(call->arena, dw_mixer_file, n);
    if (!file->mixers)
        return no_room(call);
    file->mixers_count = n;
    for (size_t i = 0; i < n; i++) {
        file->mixers[i].mixer = rows[i];
        DW_TRY(dw_rows_get(call, "mixer_limit", &dw_mixer_limit_noun,
                           "mixer_id", rows[i].id, "absorption_percent",
                           &file->mixers[i].limits,
                           &file->mixers[i].limits_count));
    }
    return DW_OK;
}

static dw_status get_openings(dw_call *call, dw_shop_file *file)
{
    dw_opening *rows;
    size_t n;
    DW_TRY(dw_rows_get(call, "opening", &dw_opening_noun, NULL, 0, "weekday",
                       &rows, &n));
    file->openings = DW_NEW_ARRAY(call->arena, dw_opening_file, n);
    if (!file->openings)
        return no_room(call);
    file->openings_count = n;
    for (size_t i = 0; i < n; i++)
        file->openings[i] = (dw_opening_file){
            (int)rows[i].weekday, rows[i].opens_minute, rows[i].leaves_minute};
    return DW_OK;
}

static dw_status get_formulas(dw_call *call, dw_shop_file *file)
{
    dw_formula_row *rows;
    size_t n;
    DW_TRY(dw_rows_get(call, "formula", &dw_formula_noun, NULL, 0, "id", &rows,
                       &n));
    file->formulas = DW_NEW_ARRAY(call->arena, dw_formula_file, n);
    if (!file->formulas)
        return no_room(call);
    file->formulas_count = n;
    for (size_t i = 0; i < n; i++) {
        dw_recipe recipe;
        DW_TRY(dw_recipe_newest(call, rows[i].id, &recipe));
        DW_TRY(dw_formula_file_get(call, &recipe, &file->formulas[i]));
    }
    return DW_OK;
}

static dw_status get_build_to(dw_call *call, dw_product_file *product)
{
    dw_build_to *rows;
    size_t n;
    DW_TRY(dw_rows_get(call, "build_to", &dw_build_to_noun, "product_id",
                       product->product.id, "weekday", &rows, &n));
    if (n == 0)
        return DW_OK;
    product->build_to = DW_NEW_ARRAY(call->arena, int64_t, 7);
    if (!product->build_to)
        return no_room(call);
    product->build_to_count = 7;
    for (size_t i = 0; i < n; i++)
        product->build_to[rows[i].weekday] = rows[i].balls;
    return DW_OK;
}

static dw_status get_products(dw_call *call, dw_shop_file *file)
{
    dw_product *rows;
    size_t n;
    DW_TRY(dw_rows_get(call, "product", &dw_product_noun, NULL, 0,
                       "position, id", &rows, &n));
    file->products = DW_NEW_ARRAY(call->arena, dw_product_file, n);
    if (!file->products)
        return no_room(call);
    file->products_count = n;
    for (size_t i = 0; i < n; i++) {
        dw_product_file *product = &file->products[i];
        dw_formula_row formula;
        dw_box_type box;
        product->product = rows[i];
        DW_TRY(dw_row_get(call, "formula", &dw_formula_noun, rows[i].formula_id,
                          "formula_id", &formula));
        product->formula = formula.name;
        if (rows[i].box_type_id) {
            DW_TRY(dw_row_get(call, "box_type", &dw_box_type_noun,
                              rows[i].box_type_id, "box_type_id", &box));
            product->box = box.name;
        }
        DW_TRY(get_build_to(call, product));
    }
    return DW_OK;
}

dw_status dw_shop_file_get(dw_call *call, dw_shop_file *file)
{
    *file = (dw_shop_file){.people = NULL};
    DW_TRY(dw_shop_get(call, &file->shop));
#define GET(table, list, order)                                                \
    DW_TRY(dw_rows_get(call, #table, &dw_##table##_noun, NULL, 0, order,       \
                       &file->list, &file->list##_count))
    GET(person, people, "id");
    GET(scale, scales, "id");
    GET(box_type, boxes, "id");
    GET(cold_room, cold_rooms, "id");
    GET(standard_batch, standard_batches, "position, id");
    GET(outlet, outlets, "id");
    GET(material, materials, "id");
#undef GET
    DW_TRY(get_mixers(call, file));
    DW_TRY(get_openings(call, file));
    DW_TRY(get_formulas(call, file));
    return get_products(call, file);
}
