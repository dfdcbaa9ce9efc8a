/* Formulas in baker's percent.
 *
 * A formula's lines are the TOTAL formula: percent of total flour, flour lines
 * summing to 100 +- 0.01. Its stages (poolish, biga, sponge, old dough) say how
 * much of that flour is taken earlier, and what goes with it, in percent of the
 * stage's own flour; what a stage takes is subtracted from the total to give
 * the final mix. Source of the layout: Bread Bakers Guild of America, formula
 * format (Faber, Ponsford & Yankellow 2009).
 */
#ifndef DOUGHWRIGHT_FORMULA_H
#define DOUGHWRIGHT_FORMULA_H

#include "doughwright/field.h"

typedef enum dw_line_kind {
    DW_FLOUR,
    DW_WATER,
    DW_SALT,
    DW_SUGAR,
    DW_FAT,
    DW_YEAST_FRESH,
    DW_YEAST_ACTIVE_DRY,
    DW_YEAST_INSTANT,
    DW_MALT,
    DW_GLUTEN,
    DW_DAIRY,
    DW_DOUGH,
    DW_OTHER
} dw_line_kind;

extern const char *const dw_line_kind_words[];

/* One ingredient. What is not told (has_ false) is unknown, and the functions
 * that need it use the kind's usual value and say so. */
typedef struct dw_line {
    const char *material; /* the shop's own name for it */
    int kind;             /* dw_line_kind */
    double percent;       /* of total flour; in a stage, of the stage's flour */
    bool has_water_percent;
    double water_percent;   /* water in it, percent of its own weight */
    bool has_protein_percent;
    double protein_percent; /* as is, percent of its own weight */
} dw_line;

extern const char *const dw_stage_kind_words[];
typedef enum dw_stage_kind {
    DW_POOLISH,
    DW_BIGA,
    DW_SPONGE,
    DW_OLD_DOUGH
} dw_stage_kind;

typedef struct dw_stage {
    const char *name;
    int kind;             /* dw_stage_kind */
    double flour_percent; /* of total flour that this stage takes */
    dw_line *lines;       /* percent of the stage's own flour; flour sums 100 */
    size_t lines_count;
} dw_stage;

typedef struct dw_formula {
    dw_line *lines;
    size_t lines_count;
    dw_stage *stages;
    size_t stages_count;
} dw_formula;

extern const dw_shape dw_line_shape, dw_stage_shape, dw_formula_shape;

/* Styles and processes that decide what is usual (science: the trade's table).
 */
extern const char *const dw_style_words[];   /* thin new_york pan biscuit
                       cracker sicilian neapolitan roman_tray */
extern const char *const dw_process_words[]; /* cold same_day emergency frozen
                                              */

#endif
