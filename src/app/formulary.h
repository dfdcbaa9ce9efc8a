/* The shop's formulas: a name, its versions, each with lines, stages and a
 * procedure. A version never changes once a batch was made from it; saving then
 * makes the next one. */
#ifndef DW_APP_FORMULARY_H
#define DW_APP_FORMULARY_H

#include "app/rows.h"

/* One version, whole. */
typedef struct dw_recipe {
    int64_t formula_id, version_id, number;
    const char *name;
    int style, process;
    bool here;
    const char *note;
    int64_t made_ms, person_id;
    double dough_goal_c;
    bool used, slips_accepted;
    dw_formula formula;
    dw_step *steps;
    size_t steps_count;
} dw_recipe;
extern const dw_shape dw_recipe_shape;

/* Read a version by its id. */
dw_status dw_recipe_read(dw_call *call, int64_t version_id, dw_recipe *recipe);
/* The newest version of a formula. */
dw_status dw_recipe_newest(dw_call *call, int64_t formula_id,
                           dw_recipe *recipe);
/* Write it: formula_id 0 adds a formula; version_id and number are set. The
 * newest version is written over while unused, else a new one is added; when
 * nothing differs, nothing is. Fails as dw_formula_verify. */
dw_status dw_recipe_write(dw_call *call, dw_recipe *recipe);
/* From now on this version never changes. */
dw_status dw_recipe_mark_used(dw_call *call, int64_t version_id);

#endif
