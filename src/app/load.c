#include "app/load.h"

#include "doughwright/say.h"

#include <string.h>

/* ---- rows by name -------------------------------------------------------- */

static const char *name_of(const dw_shape *shape, const void *row)
{
    const dw_field *field = dw_shape_find(shape, "name");
    DW_ASSERT(field != NULL);
    const char *name;
    memcpy(&name, (const unsigned char *)row + field->offset, sizeof name);
    return name;
}

dw_status dw_named_find(dw_call *call, const char *table, const dw_shape *shape,
                        const char *name, int64_t *id)
{
    size_t before = call->arena->used, n;
    unsigned char *rows;
    DW_TRY(dw_rows_get(call, table, shape, NULL, 0, "id", &rows, &n));
    *id = 0;
    for (size_t i = 0; i < n && *id == 0; i++)
        if (dw_text_is(name_of(shape, rows + i * shape->bytes), name))
            memcpy(id, rows + i * shape->bytes, sizeof *id);
    call->arena->used = before; /* only the id is kept */
    return DW_OK;
}

/* No name may come twice in a list; rows are `stride` bytes apart. */
static dw_status check_names(dw_call *call, const dw_shape *shape,
                             const void *rows, size_t stride, size_t count)
{
    const unsigned char *at = rows;
    for (size_t i = 0; i < count; i++)
        for (size_t j = 0; j < i; j++)
            if (dw_text_is(name_of(shape, at + i * stride),
                           name_of(shape, at + j * stride))) {
                dw_fail_says(call->err, DW_E_CONFLICT, "name",
                             name_of(shape, at + i * stride),
                             DW_MSG("comes twice in this list"));
                return DW_E_CONFLICT;
            }
    return DW_OK;
}

/* Add the row, or write over the one of its name. */
static dw_status put_named(dw_call *call, const char *table,
                           const dw_shape *shape, void *row)
{
    int64_t id;
    DW_TRY(dw_named_find(call, table, shape, name_of(shape, row), &id));
    memcpy(row, &id, sizeof id); /* every noun begins with its id */
    return dw_row_save(call, table, shape, row, NULL);
}

static dw_status put_list(dw_call *call, const char *table,
                          const dw_shape *shape, void *rows, size_t count)
{
    unsigned char *at = rows;
    DW_TRY(check_names(call, shape, rows, shape->bytes, count));
    for (size_t i = 0; i < count; i++)
        DW_TRY(put_named(call, table, shape, at + i * shape->bytes));
    return DW_OK;
}

/* ---- formulas ------------------------------------------------------------ */

dw_status dw_formula_put(dw_call *call, const dw_formula_file *file,
                         dw_recipe *recipe)
{
    if (file->has_procedure && file->steps_count > 0)
        return dw_fail_says(call->err, DW_E_CONFLICT, "procedure",
                            dw_template_words[file->procedure],
                            DW_MSG("and steps are both given; keep one"));
    *recipe = (dw_recipe){.name = file->name,
                          .style = file->style,
                          .process = file->process,
                          .here = file->here,
                          .note = file->note,
                          .dough_goal_c = file->dough_goal_c,
                          .slips_accepted = file->slips_accepted,
                          .formula = file->formula,
                          .steps = file->steps,
                          .steps_count = file->steps_count};
    if (file->steps_count == 0) {
        dw_procedure ready;
        DW_TRY(dw_procedure_template((dw_template)file->procedure, call->arena,
                                     call->err, &ready));
        recipe->steps = ready.steps;
        recipe->steps_count = ready.steps_count;
    }
    DW_TRY(dw_named_find(call, "formula", &dw_formula_noun, file->name,
                         &recipe->formula_id));
    return dw_recipe_write(call, recipe);
}

static dw_status put_formulas(dw_call *call, const dw_shop_file *file)
{
    DW_TRY(check_names(call, &dw_formula_file_shape, file->formulas,
                       sizeof *file->formulas, file->formulas_count));
    for (size_t i = 0; i < file->formulas_count; i++) {
        dw_recipe recipe;
        if (dw_formula_put(call, &file->formulas[i], &recipe) != DW_OK)
            return dw_err_within_item(call->err, "formulas", i);
    }
    return DW_OK;
}

/* Is it this template, step by step? */
static dw_status is_template(dw_call *call, const dw_recipe *recipe,
                             dw_template which, bool *is)
{
    size_t before = call->arena->used;
    dw_procedure ready;
    DW_TRY(dw_procedure_template(which, call->arena, call->err, &ready));
    *is = ready.steps_count == recipe->steps_count;
    for (size_t i = 0; *is && i < ready.steps_count; i++)
        *is = dw_shape_same(&dw_step_shape, &ready.steps[i], &recipe->steps[i]);
    call->arena->used = before;
    return DW_OK;
}

dw_status dw_formula_file_get(dw_call *call, const dw_recipe *recipe,
                              dw_formula_file *file)
{
    *file = (dw_formula_file){.name = recipe->name,
                              .style = recipe->style,
                              .process = recipe->process,
                              .here = recipe->here,
                              .note = recipe->note,
                              .dough_goal_c = recipe->dough_goal_c,
                              .slips_accepted = recipe->slips_accepted,
                              .formula = recipe->formula};
    for (int i = 0; i < DW_TEMPLATE_COUNT && !file->has_procedure; i++) {
        file->procedure = i;
        DW_TRY(is_template(call, recipe, (dw_template)i, &file->has_procedure));
    }
    if (file->has_procedure)
        return DW_OK;
    file->steps = recipe->steps;
    file->steps_count = recipe->steps_count;
    return DW_OK;
}

/* ---- mixers, hours, products --------------------------------------------- */

static dw_status put_mixer(dw_call *call, dw_mixer_file *file)
{
    dw_mixer_row before;
    int64_t id;
    DW_TRY(dw_named_find(call, "mixer", &dw_mixer_noun, file->mixer.name, &id));
    file->mixer.id = id;
    if (id) { /* hours that a mixer has run are never taken back */
        DW_TRY(
            dw_row_get(call, "mixer", &dw_mixer_noun, id, "mixers", &before));
        if (file->mixer.minutes_run < before.minutes_run)
            file->mixer.minutes_run = before.minutes_run;
    }
    return dw_mixer_put(call, &file->mixer, file->limits, file->limits_count,
                        &id);
}

static dw_status put_mixers(dw_call *call, const dw_shop_file *file)
{
    for (size_t i = 0; i < file->mixers_count; i++)
        for (size_t j = 0; j < i; j++)
            if (dw_text_is(file->mixers[i].mixer.name,
                           file->mixers[j].mixer.name))
                return dw_fail_says(call->err, DW_E_CONFLICT, "mixers",
                                    file->mixers[i].mixer.name,
                                    DW_MSG("comes twice in this list"));
    for (size_t i = 0; i < file->mixers_count; i++)
        if (put_mixer(call, &file->mixers[i]) != DW_OK)
            return dw_err_within_item(call->err, "mixers", i);
    return DW_OK;
}

static dw_status put_openings(dw_call *call, const dw_shop_file *file)
{
    if (file->openings_count == 0)
        return DW_OK;
    DW_TRY(dw_store_clear(call->store, "opening", call->err));
    unsigned seen = 0;
    for (size_t i = 0; i < file->openings_count; i++) {
        const dw_opening_file *given = &file->openings[i];
        dw_opening row = {0, given->weekday, given->opens_minute,
                          given->leaves_minute};
        if (seen & 1u << given->weekday)
            return dw_fail_says(call->err, DW_E_CONFLICT, "openings",
                                dw_weekday_words[given->weekday],
                                DW_MSG("comes twice in this list"));
        seen |= 1u << given->weekday;
        if (given->leaves_minute <= given->opens_minute) {
            dw_fail_range(call->err, "leaves_minute",
                          (double)given->leaves_minute,
                          (double)given->opens_minute + 1, 2880);
            return dw_err_within_item(call->err, "openings", i);
        }
        DW_TRY(dw_row_save(call, "opening", &dw_opening_noun, &row, NULL));
    }
    return DW_OK;
}

static dw_status put_standards(dw_call *call, const dw_shop_file *file)
{
    if (file->standard_batches_count == 0)
        return DW_OK;
    DW_TRY(dw_store_clear(call->store, "standard_batch", call->err));
    for (size_t i = 0; i < file->standard_batches_count; i++)
        file->standard_batches[i].position = (int64_t)i + 1;
    return put_list(call, "standard_batch", &dw_standard_batch_noun,
                    file->standard_batches, file->standard_batches_count);
}

static dw_status put_build_to(dw_call *call, const dw_product_file *file)
{
    if (file->build_to_count == 0)
        return DW_OK;
    if (file->build_to_count != 7)
        return dw_fail_range(call->err, "build_to",
                             (double)file->build_to_count, 7, 7);
    DW_TRY(dw_store_delete(call->store, "build_to", "product_id",
                           file->product.id, call->err));
    for (int64_t day = 0; day < 7; day++) {
        dw_build_to row = {0, file->product.id, day, file->build_to[day]};
        DW_TRY(dw_row_save(call, "build_to", &dw_build_to_noun, &row, NULL));
    }
    return DW_OK;
}

static dw_status put_product(dw_call *call, dw_product_file *file)
{
    dw_product *product = &file->product;
    DW_TRY(dw_named_find(call, "formula", &dw_formula_noun, file->formula,
                         &product->formula_id));
    if (!product->formula_id)
        return dw_fail(call->err, DW_E_NOT_FOUND, "formula", file->formula);
    product->box_type_id = 0;
    if (file->box) {
        DW_TRY(dw_named_find(call, "box_type", &dw_box_type_noun, file->box,
                             &product->box_type_id));
        if (!product->box_type_id)
            return dw_fail(call->err, DW_E_NOT_FOUND, "box", file->box);
    }
    DW_TRY(dw_named_find(call, "product", &dw_product_noun, product->name,
                         &product->id));
    DW_TRY(
        dw_row_save(call, "product", &dw_product_noun, product, &product->id));
    return put_build_to(call, file);
}

static dw_status put_products(dw_call *call, const dw_shop_file *file)
{
    for (size_t i = 0; i < file->products_count; i++) {
        file->products[i].product.position = (int64_t)i + 1;
        for (size_t j = 0; j < i; j++)
            if (dw_text_is(file->products[i].product.name,
                           file->products[j].product.name))
                return dw_fail_says(call->err, DW_E_CONFLICT, "products",
                                    file->products[i].product.name,
                                    DW_MSG("comes twice in this list"));
        if (put_product(call, &file->products[i]) != DW_OK)
            return dw_err_within_item(call->err, "products", i);
    }
    return DW_OK;
}

dw_status dw_shop_file_put(dw_call *call, const dw_shop_file *file)
{
    DW_TRY(dw_shop_put(call, &file->shop));
#define PUT(table, list)                                                       \
    if (put_list(call, #table, &dw_##table##_noun, file->list,                 \
                 file->list##_count) != DW_OK)                                 \
    return dw_err_within(call->err, #list)
    PUT(person, people);
    PUT(scale, scales);
    PUT(box_type, boxes);
    PUT(cold_room, cold_rooms);
    PUT(outlet, outlets);
    PUT(material, materials);
#undef PUT
    DW_TRY(put_mixers(call, file));
    DW_TRY(put_openings(call, file));
    DW_TRY(put_standards(call, file));
    DW_TRY(put_formulas(call, file));
    return put_products(call, file);
}
