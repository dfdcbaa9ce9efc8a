/* Slips: numbers that are probably not what was meant.
 *
 * A formula is held against what is usual for its style and process, or against
 * the shop's own accepted formula; a weighing against what was planned. Slips
 * are told, never forbidden. What is usual is common practice without a single
 * source (docs/models/formula.md, section 7); how well planted slips are found
 * is measured by benches/bench_slips.c.
 */
#ifndef DOUGHWRIGHT_SLIP_H
#define DOUGHWRIGHT_SLIP_H

#include "doughwright/formula.h"
#include "doughwright/yeast.h"

typedef enum dw_style {
    DW_THIN,
    DW_NEW_YORK,
    DW_PAN,
    DW_BISCUIT,
    DW_CRACKER,
    DW_SICILIAN,
    DW_NEAPOLITAN,
    DW_ROMAN_TRAY
} dw_style;

typedef enum dw_process {
    DW_COLD,
    DW_SAME_DAY,
    DW_EMERGENCY,
    DW_FROZEN
} dw_process;

extern const char *const dw_slip_level_words[]; /* ask wrong */
typedef enum dw_slip_level {
    DW_ASK,  /* unusual: was it meant? */
    DW_WRONG /* almost surely not meant */
} dw_slip_level;

/* What is usual, when to ask, and when it is almost surely wrong; percent of
 * flour (dough lines: of the new dough). Nothing under ask_low or wrong_low of
 * 0 is a slip for that reason. */
typedef struct dw_limits {
    double usual_low, usual_high;
    double ask_low, ask_high;
    double wrong_low, wrong_high;
} dw_limits;

/* The limits of a line kind; false when it has none (flour, dairy, other). */
bool dw_slip_limits(int style, int process, int kind, dw_limits *limits);

/* symbol, code in JSON */
#define DW_SLIP_CODE_LIST(X)                                                   \
    X(MISSING, "missing")       /* a line nearly every dough has */            \
    X(TENTH, "tenth")           /* ten times as much would be usual */         \
    X(TENFOLD, "tenfold")       /* a tenth would be usual */                   \
    X(YEAST_TYPE, "yeast_type") /* a usual dose of another yeast */            \
    X(SWAPPED, "swapped")       /* exchanged with another, both are usual */   \
    X(TWICE, "twice")           /* about double: in twice, or lb for kg */     \
    X(HALF, "half")             /* about half: lb for kg the other way */      \
    X(LOW, "low")                                                              \
    X(HIGH, "high")                                                            \
    X(REPEATED, "repeated")     /* the same line stands there twice */         \
    X(TWO_YEASTS, "two_yeasts") /* two types of yeast in one formula */

typedef enum dw_slip_code {
#define DW_SLIP_ENUM(symbol, word) DW_SLIP_##symbol,
    DW_SLIP_CODE_LIST(DW_SLIP_ENUM)
#undef DW_SLIP_ENUM
        DW_SLIP_CODE_COUNT
} dw_slip_code;
extern const char *const dw_slip_code_words[];

typedef struct dw_slip {
    int code, level;      /* dw_slip_code, dw_slip_level */
    int kind;             /* dw_line_kind it is about */
    const char *material; /* borrowed from the formula; NULL when missing */
    double percent;       /* all lines of the kind together; of yeasts, as if
                             all were this one; of dough, of the new dough */
    double usual_low, usual_high;
    int other_kind;    /* yeast_type: which it would fit; swapped: with */
    const char *other; /* swapped, two_yeasts: that line's material */
} dw_slip;

#define DW_SLIPS_MOST 80

/* What the check is held against. `norm` NULL: style and process alone; else a
 * formula the shop has accepted, which is its own norm for the kinds it has. */
typedef struct dw_slip_basis {
    int style, process;
    const dw_formula *norm;      /* borrowed */
    const dw_yeast_table *yeast; /* borrowed */
} dw_slip_basis;

/* All slips of a formula, in the order of kinds, then what is missing, then
 * what is repeated. `slips` has room for DW_SLIPS_MOST, yours. Fails as
 * dw_formula_verify, for the norm too (field "norm..."). Allocates nothing. */
dw_status dw_formula_slips(const dw_formula *formula,
                           const dw_slip_basis *basis, dw_slip *slips,
                           size_t *count, dw_err *err);

/* ---- what is weighed ---- */

/* symbol, code, weighed / planned; 0: any other */
#define DW_WEIGHED_LIST(X)                                                     \
    X(FITS, "fits", 1)                                                         \
    X(LB_FOR_OZ, "pounds_for_ounces", 16)                                      \
    X(OZ_FOR_LB, "ounces_for_pounds", 0.0625)                                  \
    X(KG_FOR_LB, "kilograms_for_pounds", 2.2046226)                            \
    X(LB_FOR_KG, "pounds_for_kilograms", 0.45359237)                           \
    X(OZ_FOR_G, "ounces_for_grams", 28.349523)                                 \
    X(G_FOR_OZ, "grams_for_ounces", 0.035273962)                               \
    X(KG_FOR_G, "kilograms_for_grams", 1000)                                   \
    X(G_FOR_KG, "grams_for_kilograms", 0.001)                                  \
    X(TENFOLD, "tenfold", 10)                                                  \
    X(TENTH, "tenth", 0.1)                                                     \
    X(TWICE, "twice", 2)                                                       \
    X(HALF, "half", 0.5)                                                       \
    X(MORE, "more", 0)                                                         \
    X(LESS, "less", 0)

typedef enum dw_weighed {
#define DW_WEIGHED_ENUM(symbol, word, ratio) DW_WEIGHED_##symbol,
    DW_WEIGHED_LIST(DW_WEIGHED_ENUM)
#undef DW_WEIGHED_ENUM
        DW_WEIGHED_COUNT
} dw_weighed;
extern const char *const dw_weighed_words[];

typedef struct dw_weighing {
    int code, level; /* level means nothing when it fits */
    double ratio;    /* weighed / planned */
} dw_weighing;

/* Hold what was weighed against what was planned, kg. It fits within the larger
 * of 5 percent and `tolerance_kg` (the scale's division, say). planned_kg
 * 1e-6..1e5, weighed_kg 0..1e5, tolerance_kg 0..1e5, else DW_E_RANGE. */
dw_status dw_slip_weighed(double planned_kg, double weighed_kg,
                          double tolerance_kg, dw_weighing *weighing,
                          dw_err *err);

#endif
