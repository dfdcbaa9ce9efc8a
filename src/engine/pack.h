/* The exact packing of balls into given batches; used by batch.c alone. */
#ifndef DW_ENGINE_PACK_H
#define DW_ENGINE_PACK_H

#include "doughwright/batch.h"

/* Two packings closer than a tenth of a gram are the same to anybody. */
#define DW_PACK_SLACK_KG 0.0001

/* What one batch could hold. */
typedef struct dw_pack__pattern {
    double cost_kg; /* odd dough, and what its part boxes count */
    int16_t n[DW_PACK_SIZES];
} dw_pack__pattern;

/* All that a batch of one size could hold, cheapest first. */
typedef struct dw_pack__menu {
    double usable_kg;
    dw_pack__pattern *at;
    size_t count;
    double least_kg; /* no pattern costs less */
    bool cut;        /* some dear patterns were left out */
} dw_pack__menu;

typedef struct dw_pack__problem {
    size_t sizes;
    double piece_kg[DW_PACK_SIZES];
    int box[DW_PACK_SIZES];
    int need[DW_PACK_SIZES];
    int bench; /* most balls in one batch */
    double part_box_kg;
    size_t batches;
    const dw_pack__menu *menu[DW_PACK_BATCHES]; /* equal ones side by side */
} dw_pack__problem;

typedef struct dw_pack__answer {
    bool found, proved;
    double cost_kg, bound_kg;
    int16_t n[DW_PACK_BATCHES][DW_PACK_SIZES];
} dw_pack__answer;

enum { DW_PACK__PATTERNS = 30000 };

/* Fill menu->at, which has room for DW_PACK__PATTERNS. */
void dw_pack__list(const dw_pack__problem *problem, double usable_kg,
                   dw_pack__menu *menu);

/* The best packing. `start`, when not NULL, is one that holds the order. */
void dw_pack__search(const dw_pack__problem *problem,
                     int16_t (*start)[DW_PACK_SIZES], dw_pack__answer *answer);

/* Balls that fit into so much dough. */
int dw_pack__fit(double kg, double piece_kg);

#endif
