/* A shop and its formulas as people write them in a file: everything by name,
 * no ids. Loading adds what is new, writes over what has the same name, and
 * leaves the rest alone; all of it or, after one failure, nothing.
 *
 * Members named `id`, `..._id` and `position` are not read: rows are found by
 * name, and the order of a list is the order of its rows. */
#ifndef DW_APP_LOAD_H
#define DW_APP_LOAD_H

#include "app/formulary.h"

/* A formula. Its procedure is a template or steps of its own, not both;
 * neither: delayed oil. */
typedef struct dw_formula_file {
    const char *name;
    int style, process;
    bool here;
    const char *note;
    double dough_goal_c;
    bool slips_accepted;
    dw_formula formula;
    bool has_procedure;
    int procedure; /* dw_template */
    dw_step *steps;
    size_t steps_count;
} dw_formula_file;

typedef struct dw_mixer_file {
    dw_mixer_row mixer;
    dw_mixer_limit_row *limits; /* by rising absorption */
    size_t limits_count;
} dw_mixer_file;

extern const char *const dw_weekday_words[]; /* monday .. sunday */
typedef struct dw_opening_file {
    int weekday;
    int64_t opens_minute, leaves_minute;
} dw_opening_file;

typedef struct dw_product_file {
    dw_product product;
    const char *formula, *box; /* names; no box: NULL */
    int64_t *build_to;         /* Monday to Sunday: seven numbers or none */
    size_t build_to_count;
} dw_product_file;

typedef struct dw_shop_file {
    dw_shop shop;
    dw_person *people;
    dw_mixer_file *mixers;
    dw_scale_row *scales;
    dw_box_type *boxes;
    dw_cold_room *cold_rooms;
    dw_opening_file *openings;           /* when given, the whole week */
    dw_standard_batch *standard_batches; /* when given, all of them */
    dw_outlet *outlets;
    dw_material *materials;
    dw_formula_file *formulas;
    dw_product_file *products;
    size_t people_count, mixers_count, scales_count, boxes_count,
        cold_rooms_count, openings_count, standard_batches_count, outlets_count,
        materials_count, formulas_count, products_count;
} dw_shop_file;

extern const dw_shape dw_formula_file_shape, dw_shop_file_shape;

/* Write it. Fails as the operations that save one row; DW_E_CONFLICT for a name
 * that comes twice, DW_E_NOT_FOUND for a formula or box that is not there. */
dw_status dw_formula_put(dw_call *call, const dw_formula_file *file,
                         dw_recipe *recipe);
dw_status dw_shop_file_put(dw_call *call, const dw_shop_file *file);
/* The other way: what loading into an empty database gives the same shop. */
dw_status dw_formula_file_get(dw_call *call, const dw_recipe *recipe,
                              dw_formula_file *file);
dw_status dw_shop_file_get(dw_call *call, dw_shop_file *file);

/* The id of the row of that name; 0 when there is none. The shape has a
 * `name`. */
dw_status dw_named_find(dw_call *call, const char *table, const dw_shape *shape,
                        const char *name, int64_t *id);

/* Save with what must hold beyond one row's ranges (ops_shop.c). */
dw_status dw_shop_put(dw_call *call, const dw_shop *shop);
dw_status dw_mixer_put(dw_call *call, const dw_mixer_row *mixer,
                       dw_mixer_limit_row *limits, size_t count, int64_t *id);

#endif
