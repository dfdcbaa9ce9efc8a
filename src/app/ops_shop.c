/* The shop as its people set it up: one operation reads all of it, and each
 * noun has one that saves a row. */
#include "app/doubt.h"
#include "app/load.h"
#include "app/taught.h"

#include "doughwright/say.h"
#include "doughwright/cold.h"
#include "os/zone.h"

typedef struct shop_all {
    bool has_shop; /* false: an empty database */
    dw_shop shop;
#define LIST_MEMBER(type, table, list)                                         \
    type *list;                                                                \
    size_t list##_count;
#define SHOP_LISTS(X)                                                          \
    X(dw_person, person, persons)                                              \
    X(dw_mixer_row, mixer, mixers)                                             \
    X(dw_mixer_limit_row, mixer_limit, mixer_limits)                           \
    X(dw_scale_row, scale, scales)                                             \
    X(dw_box_type, box_type, box_types)                                        \
    X(dw_cold_room, cold_room, cold_rooms)                                     \
    X(dw_opening, opening, openings)                                           \
    X(dw_standard_batch, standard_batch, standard_batches)                     \
    X(dw_outlet, outlet, outlets)                                              \
    X(dw_material, material, materials)                                        \
    X(dw_material_lot, material_lot, material_lots)                            \
    X(dw_product, product, products)                                           \
    X(dw_build_to, build_to, build_tos)
    SHOP_LISTS(LIST_MEMBER)
    const dw_usual_reading *usual_readings;
    size_t usual_readings_count;
} shop_all;

static const dw_field shop_all_fields[] = {
    DW_F_ONE_OPT(shop_all, shop, &dw_shop_noun, "null until it is saved"),
#define LIST_FIELD(type, table, list)                                          \
    DW_F_MANY_OPT(shop_all, list, &dw_##table##_noun, 100000, "every " #table),
    SHOP_LISTS(LIST_FIELD)
        DW_F_MANY_OPT(shop_all, usual_readings, &dw_usual_reading_shape, 20,
                      "what each thermometer shows on a sane day")};
static const dw_shape shop_all_shape =
    DW_SHAPE("shop_all", shop_all, shop_all_fields, "the whole shop");

static dw_status shop_get(dw_call *call, const void *request, void *reply)
{
    (void)request;
    shop_all *all = reply;
    dw_status status = dw_shop_get(call, &all->shop);
    if (status != DW_OK && status != DW_E_NOT_FOUND)
        return status;
    all->has_shop = status == DW_OK;
#define LIST_READ(type, table, list)                                           \
    DW_TRY(dw_rows_get(call, #table, &dw_##table##_noun, NULL, 0, "id",        \
                       &all->list, &all->list##_count));
    SHOP_LISTS(LIST_READ)
    all->usual_readings = dw_usual_readings(&all->usual_readings_count);
    return DW_OK;
}

/* The shop is one row: whatever id comes, it is row 1. */
dw_status dw_shop_put(dw_call *call, const dw_shop *given)
{
    dw_shop shop = *given, before;
    shop.id = 1;
    const dw_zone *zone;
    DW_TRY(dw_zone_load(shop.zone, call->arena, &zone, call->err));
    dw_cold_days days = {shop.ready_day, shop.best_day, shop.use_first_day,
                         shop.last_day};
    DW_TRY(dw_cold_days_check(&days, call->err));
    if (shop.close_core_low_c > shop.close_core_high_c)
        return dw_fail_range(call->err, "close_core_low_c",
                             shop.close_core_low_c, 2, shop.close_core_high_c);
    dw_status status = dw_shop_get(call, &before);
    if (status == DW_E_NOT_FOUND)
        return dw_store_insert(call->store, "shop", &dw_shop_noun, &shop, NULL,
                               call->err);
    DW_TRY(status);
    return dw_store_update(call->store, "shop", &dw_shop_noun, &shop,
                           call->err);
}

static dw_status shop_save(dw_call *call, const void *request, void *reply)
{
    ((dw_made *)reply)->id = 1;
    DW_TRY(dw_shop_put(call, request));
    return dw_taught_learn(call, DW_LESSON_STACK); /* its setting is a prior */
}

#define SAVE(table)                                                            \
    static dw_status table##_save(dw_call *call, const void *request,          \
                                  void *reply)                                 \
    {                                                                          \
        return dw_row_save(call, #table, &dw_##table##_noun, request,          \
                           &((dw_made *)reply)->id);                           \
    }
SAVE(person)
SAVE(scale)
SAVE(box_type)
SAVE(cold_room)
SAVE(outlet)
SAVE(material)
SAVE(material_lot)

/* What a ball weighs and how it is held decides what its probes teach. */
static dw_status product_save(dw_call *call, const void *request, void *reply)
{
    DW_TRY(dw_row_save(call, "product", &dw_product_noun, request,
                       &((dw_made *)reply)->id));
    return dw_taught_learn(call, DW_LESSON_STACK);
}

/* A mixer comes with its own limits, which replace those it had. */
typedef struct mixer_with_limits {
    dw_mixer_row mixer;
    dw_mixer_limit_row *limits;
    size_t limits_count;
} mixer_with_limits;

static const dw_field mixer_with_limits_fields[] = {
    DW_F_ONE(mixer_with_limits, mixer, &dw_mixer_noun, "the mixer"),
    DW_F_MANY_OPT(mixer_with_limits, limits, &dw_mixer_limit_noun, 12,
                  "its own limits, by rising absorption"),
};
static const dw_shape mixer_with_limits_shape =
    DW_SHAPE("mixer_with_limits", mixer_with_limits, mixer_with_limits_fields,
             "a mixer and what its plate says");

dw_status dw_mixer_put(dw_call *call, const dw_mixer_row *mixer,
                       dw_mixer_limit_row *limits, size_t count, int64_t *id)
{
    if (count > 0 && !mixer->plate_note)
        return dw_fail_says(call->err, DW_E_MISSING, "mixer.plate_note", NULL,
                            DW_MSG("says where the limits were read"));
    for (size_t i = 1; i < count; i++)
        if (limits[i].rating.absorption_percent <=
            limits[i - 1].rating.absorption_percent)
            return dw_fail_says(call->err, DW_E_SUM, "limits", NULL,
                                DW_MSG("must come by rising absorption"));
    DW_TRY(dw_row_save(call, "mixer", &dw_mixer_noun, mixer, id));
    for (size_t i = 0; i < count; i++) {
        limits[i].id = 0;
        limits[i].mixer_id = *id;
    }
    return dw_store_replace(call->store, "mixer_limit", &dw_mixer_limit_noun,
                            "mixer_id", *id, limits, count, call->err);
}

static dw_status mixer_save(dw_call *call, const void *request, void *reply)
{
    const mixer_with_limits *given = request;
    return dw_mixer_put(call, &given->mixer, given->limits, given->limits_count,
                        &((dw_made *)reply)->id);
}

/* Lists that are written as a whole. */
#define WHOLE_LIST(type, table, most, about)                                   \
    typedef struct table##_list {                                              \
        type *rows;                                                            \
        size_t rows_count;                                                     \
    } table##_list;                                                            \
    static const dw_field table##_list_fields[] = {                            \
        DW_F_MANY_OPT(table##_list, rows, &dw_##table##_noun, most, about),    \
    };                                                                         \
    static const dw_shape table##_list_shape =                                 \
        DW_SHAPE(#table "_list", table##_list, table##_list_fields, about);    \
    static dw_status table##_replace(dw_call *call, const void *request,       \
                                     void *reply)                              \
    {                                                                          \
        (void)reply;                                                           \
        const table##_list *list = request;                                    \
        DW_TRY(dw_store_clear(call->store, #table, call->err));                \
        for (size_t i = 0; i < list->rows_count; i++) {                        \
            list->rows[i].id = 0;                                              \
            DW_TRY(dw_row_save(call, #table, &dw_##table##_noun,               \
                               &list->rows[i], NULL));                         \
        }                                                                      \
        return DW_OK;                                                          \
    }
WHOLE_LIST(dw_opening, opening, 7, "one row a weekday that is not closed")
WHOLE_LIST(dw_standard_batch, standard_batch, 12, "the sizes the shop likes")
WHOLE_LIST(dw_build_to, build_to, 5000, "one row a product and weekday")

#define SAVE_OP(table, about)                                                  \
    {                                                                          \
#table ".save", DW_OP_WRITE, &dw_##table##_noun, &dw_made_shape,       \
            table##_save, about                                                \
    }
#define REPLACE_OP(table, about)                                               \
    {                                                                          \
#table ".replace", DW_OP_WRITE, &table##_list_shape,                   \
            &dw_nothing_shape, table##_replace, about                          \
    }

const dw_op dw_ops_shop[] = {
    {"shop.get", DW_OP_READ, &dw_nothing_shape, &shop_all_shape, shop_get,
     "Everything that is set up: mixers, scales, people, products and so on."},
    SAVE_OP(shop, "Save what is the same for every batch."),
    SAVE_OP(person, "Save somebody who makes dough."),
    {"mixer.save", DW_OP_WRITE, &mixer_with_limits_shape, &dw_made_shape,
     mixer_save, "Save a mixer and the limits of its plate."},
    SAVE_OP(scale, "Save a scale."),
    SAVE_OP(box_type, "Save a kind of dough box."),
    SAVE_OP(cold_room, "Save a cold room."),
    SAVE_OP(outlet, "Save a shop that gets dough."),
    SAVE_OP(material, "Save something that goes into dough."),
    SAVE_OP(material_lot, "Save a lot of a material."),
    SAVE_OP(product, "Save a piece the shop makes."),
    REPLACE_OP(opening, "Write the hours of the week."),
    REPLACE_OP(standard_batch, "Write the batch sizes the shop likes."),
    REPLACE_OP(build_to, "Write how many balls to have on each weekday."),
};
const size_t dw_ops_shop_count = DW_COUNT(dw_ops_shop);
