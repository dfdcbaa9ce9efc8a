/* What the lessons share: a posterior on a grid of up to three numbers, a
 * smooth function of them known at a few nodes, and readings that may be wrong.
 */
#ifndef DW_ENGINE_TEACH_GRID_H
#define DW_ENGINE_TEACH_GRID_H

#include "doughwright/teach.h"

enum {
    DW_TEACH__AXES = 3,
    DW_TEACH__POINTS = 33,
    DW_TEACH__NODES = 7 /* most, of one axis */
};

/* An axis from low to high with a normal prior cut off there. Its number is
 * the axis itself or, when `log`, e to its power. */
typedef struct dw_teach__axis {
    double low, high, prior_mean, prior_sd;
    bool log;
} dw_teach__axis;

double dw_teach__at(const dw_teach__axis *axis, int point);

/* Weights by which values at `nodes` Chebyshev nodes of [-1, 1] give that at
 * x; of one node, 1. */
void dw_teach__weights(int nodes, double x, double *weights);
double dw_teach__node(int nodes, int node); /* in [-1, 1] */

/* ln of Student's t with 4 degrees of freedom, constants left out. */
double dw_teach__log_t(double gap, double scale);
/* Further off than one sound reading in thirty comes, t with 4 degrees. */
bool dw_teach__unlike(double gap, double scale);

/* Mean, spread and middle 90 percent of shares (summing to 1) of the axis's
 * points. */
void dw_teach__believe(const dw_teach__axis *axis,
                       const double shares[DW_TEACH__POINTS],
                       dw_belief *belief);
void dw_teach__prior(const dw_teach__axis *axis,
                     double shares[DW_TEACH__POINTS]);
/* Logarithms to shares that sum to 1. */
void dw_teach__to_shares(double *logs, size_t count);

/* -127, -40, 85, 999 and what no thermometer of a shop can mean. */
bool dw_teach__no_sensor(double temp_c);
/* A temperature that should lie within [low, high]: fine, in degF, or not. */
dw_teach_why dw_teach__temp(double temp_c, double low, double high);

void dw_teach__count(dw_teach_counts *counts, const dw_teach_mark *mark);

#endif
