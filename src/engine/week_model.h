/* Inside the mixed-integer model of the plan: columns and rows being written.
 * docs/models/plan.md gives its equations by the numbers used here. */
#ifndef DW_ENGINE_WEEK_MODEL_H
#define DW_ENGINE_WEEK_MODEL_H

#include "engine/week.h"

enum {
    DW_WEEK__COLUMNS_MOST = 40000,
    DW_WEEK__ROWS_MOST = 60000,
    DW_WEEK__ENTRIES_MOST = 700000
};

/* Where each quantity stands; -1: it is nought. */
typedef struct dw_week__columns {
    int batches[DW_WEEK_DAYS][DW_WEEK_FORMULAS][DW_WEEK__OPTIONS];
    int filled[DW_WEEK_DAYS][DW_WEEK_FORMULAS][DW_WEEK__OPTIONS]; /* kg */
    int makes[DW_WEEK_DAYS][DW_WEEK_FORMULAS]; /* 1: is made that day */
    int made[DW_WEEK_PRODUCTS][DW_WEEK_DAYS];
    int sold[DW_WEEK_PRODUCTS][DW_WEEK__MADE][DW_WEEK_DAYS]; /* made, used */
    int thrown[DW_WEEK_PRODUCTS][DW_WEEK__MADE];
    int lost[DW_WEEK_PRODUCTS][DW_WEEK_DAYS];
    int left[DW_WEEK_PRODUCTS][DW_WEEK_DAYS];
    int over[DW_WEEK_DAYS]; /* minutes of overtime */
} dw_week__columns;

typedef struct dw_week__model {
    const dw_week__problem *problem;
    dw_week__columns *at;
    dw_program program;
    double constant;               /* cost that no plan can change */
    size_t first_risk;             /* row; from there on all are of chance */
    bool *none_whole;              /* for a program without whole numbers */
    bool full;                     /* something found no place */
    double *scratch, *scratch_too; /* chances of several days together */
} dw_week__model;

/* week_model.c: a column; a row that is begun, given entries, and bounded. */
int dw_week__column(dw_week__model *model, double cost, double high,
                    bool whole);
void dw_week__entry(dw_week__model *model, int column, double value);
void dw_week__row(dw_week__model *model, double low, double high);

/* week_risk.c: what chance costs, (9) to (11). */
void dw_week__risk(dw_week__model *model, int product);
/* Entries of the row in hand: sign times what is left after day s, less or more
 * what is made, so that all that is made up to day `to` counts; what is kept of
 * it is handed back. */
double dw_week__there(dw_week__model *model, int product, int s, int to,
                      double sign);

/* week_cut.c: rows (12) and (13) that x breaks by as much cost; how many. */
int dw_week__cut(dw_week__model *model, const double *x, double least_cost);

#endif
