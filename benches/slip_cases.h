/* Sound formulas of every style, and one planted slip each. Used by the bench
 * and, in smaller number, by the tests. */
#ifndef DW_BENCH_SLIP_CASES_H
#define DW_BENCH_SLIP_CASES_H

#include "doughwright/slip.h"

typedef enum slip_plant {
    PLANT_NONE,
    PLANT_TENFOLD,
    PLANT_TENTH,
    PLANT_FRESH_DRY, /* fresh under a dry label, or the other way round */
    PLANT_DRY_DRY,   /* instant under active dry, or the other way round */
    PLANT_SWAPPED,   /* salt with sugar or yeast */
    PLANT_MISSING,
    PLANT_DOUBLED, /* a line stands there twice */
    PLANT_TWICE,   /* twice the amount in one line */
    PLANT_LB_FOR_KG,
    PLANT_COUNT
} slip_plant;

extern const char *const slip_plant_words[];

enum { SLIP_LINES_MOST = 8 };

typedef struct slip_case {
    dw_line lines[SLIP_LINES_MOST];
    dw_formula formula;
    int style, process;
    int kind; /* the kind the slip was planted in */
} slip_case;

/* A sound formula from the ranges of its style's required lines. */
void slip_case_draw(unsigned long long *seed, int style, int process,
                    slip_case *drawn);
/* Plant one slip; false when this formula has no place for it. */
bool slip_case_plant(unsigned long long *seed, slip_plant plant,
                     slip_case *drawn);
/* Is anything said about it? For a sound formula: a false alarm. */
bool slip_case_caught(const slip_case *drawn, dw_slip *first);

#endif
