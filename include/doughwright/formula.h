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
    double water_percent; /* water in it, percent of its own weight */
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

/* ---- sums ---- */

/* Lowest and highest sum of the flour lines. */
#define DW_FLOUR_SUM_LOW 99.99
#define DW_FLOUR_SUM_HIGH 100.01

/* Does it hold together? Flour lines sum to 100 (DW_E_NO_FLOUR when there are
 * none, DW_E_SUM with the allowed range), in every stage as well; no stage
 * takes more of an ingredient than the total has (DW_E_SUM, field
 * "stages[i].lines[j]. percent", high = what is left). Lines of 0 percent are
 * legal. Every function below that takes a formula and an err calls this first.
 */
dw_status dw_formula_verify(const dw_formula *formula, dw_err *err);
/* Sum of all lines, percent of flour: 100 dough / flour. */
double dw_lines_total_percent(const dw_line *lines, size_t count);

/* ---- scaling ---- */

typedef struct dw_piece_target {
    int64_t count;
    double piece_g;
} dw_piece_target;

/* A round pan has a diameter; a rectangular one a length and a width. */
typedef struct dw_pan_target {
    int64_t count;
    bool has_diameter_m;
    double diameter_m;
    bool has_length_m;
    double length_m;
    bool has_width_m;
    double width_m;
    double loading_kg_per_m2; /* dough on a unit of pan, 1 oz/in2 = 43.94 */
} dw_pan_target;

/* What is wanted: exactly one of flour_kg, dough_kg, bags with bag_kg, pieces,
 * pans. loss_percent is the part of the dough made that never becomes a piece:
 * for dough_kg, pieces and pans, made = wanted / (1 - loss/100); flour and bags
 * say what goes in, so there the loss only lowers usable_kg. */
typedef struct dw_target {
    bool has_flour_kg;
    double flour_kg;
    bool has_dough_kg;
    double dough_kg;
    bool has_bags;
    double bags;
    bool has_bag_kg;
    double bag_kg;
    dw_piece_target *pieces;
    size_t pieces_count;
    dw_pan_target *pans;
    size_t pans_count;
    double loss_percent; /* 0..90 */
} dw_target;

extern const dw_shape dw_target_shape, dw_piece_target_shape,
    dw_pan_target_shape;

typedef struct dw_scaled {
    double flour_kg, dough_kg;
    double usable_kg; /* dough less the loss */
    double total_percent;
} dw_scaled;

/* Weights of every line: flour = dough / (total / 100), kg = flour x percent /
 * 100. `kg` has lines_count numbers, yours. Fails as dw_formula_verify;
 * DW_E_MISSING or DW_E_CONFLICT when not exactly one thing is wanted;
 * DW_E_RANGE beyond 1e-6..1e6 kg of dough. Allocates nothing. */
dw_status dw_formula_scale(const dw_formula *formula, const dw_target *target,
                           double *kg, dw_scaled *scaled, dw_err *err);
/* The other way: percents of total flour from weights. Kinds are read from
 * `lines`; `percent` has `count` numbers, yours. DW_E_NO_FLOUR. */
dw_status dw_lines_from_weights(const dw_line *lines, const double *kg,
                                size_t count, double *percent, dw_err *err);
/* Dough of one pan, kg: loading x area. Shape wrong: DW_E_MISSING or
 * DW_E_CONFLICT. */
dw_status dw_pan_dough_kg(const dw_pan_target *pan, double *kg, dw_err *err);

/* ---- water inside ---- */

/* Usual water of ingredients, percent of their weight: USDA National Nutrient
 * Database SR26 (2013); `ndb` is its number there. */
typedef struct dw_usual_water {
    const char *material, *ndb;
    int kind;
    double water_percent;
} dw_usual_water;
const dw_usual_water *dw_usual_waters(size_t *count);

typedef enum dw_water_from {
    DW_WATER_TOLD,      /* the line says it */
    DW_WATER_BY_NAME,   /* its name is in the table */
    DW_WATER_BY_KIND,   /* the usual of its kind */
    DW_WATER_SAME_DOUGH /* a dough line: taken to be dough of this formula */
} dw_water_from;

/* Water of a line that is not dough, percent of its weight, and how it is
 * known. A flour's is 0, also where its moisture is told: hydration counts what
 * is added to flour as it comes. */
double dw_line_water_percent(const dw_line *line, dw_water_from *from);

typedef struct dw_hydration {
    double water, flour; /* in the unit of the amounts */
    double percent;      /* 100 water / flour */
    bool assumed;        /* a kind's or the same dough's usual was used */
} dw_hydration;

/* True hydration: all water over all flour, those inside dough lines included.
 * `amounts` (one a line, any unit) may be NULL: the lines' percents. Flour must
 * not be 0 (asserted). A dough line of unknown make is taken to be this very
 * dough; one whose water is told has flour in its dry part as this dough has.
 */
void dw_lines_hydration(const dw_line *lines, const double *amounts,
                        size_t count, dw_hydration *hydration);

/* ---- stages ---- */

/* final = total - stages: what the final mix gets of each line, percent of
 * TOTAL flour. `final_percent` has lines_count numbers, yours. */
dw_status dw_formula_split(const dw_formula *formula, double *final_percent,
                           dw_err *err);
/* total = final + stages, for cards written the other way round: `lines` are
 * the final mix in percent of the final mix's own flour, and amount_percent[i]
 * is the whole of stage i per 100 of that flour. The stages' flour_percent is
 * not read; the answer's is set. Lines of the same name and kind become one.
 * Memory: about 80 bytes a line from the arena (DW_E_ROOM). */
dw_status dw_formula_join(const dw_formula *final_mix,
                          const double *amount_percent, dw_arena *arena,
                          dw_formula *total, dw_err *err);
/* Two lines of one ingredient: the same name (capitals aside) and kind. */
bool dw_line_same(const dw_line *a, const dw_line *b);

/* ---- versions ---- */

extern const char *const dw_change_words[]; /* added removed changed */
typedef enum dw_change_what { DW_ADDED, DW_REMOVED, DW_CHANGED } dw_change_what;

/* One difference. Numbers when has_from / has_to, words for kinds. */
typedef struct dw_change {
    int what;             /* dw_change_what */
    const char *stage;    /* borrowed; "" for the total formula */
    const char *material; /* borrowed; "" for the stage itself */
    const char *field;    /* "percent", "kind", "water_percent", ... */
    bool has_from;
    double from;
    bool has_to;
    double to;
    const char *from_word, *to_word; /* "" when numbers */
} dw_change;

/* What makes `after` of `before`, in the order of `after`, removals last.
 * Lines are told apart by name; the order of lines does not matter.
 * DW_E_ROOM. */
dw_status dw_formula_compare(const dw_formula *before, const dw_formula *after,
                             dw_arena *arena, dw_change **changes,
                             size_t *count, dw_err *err);

#endif
