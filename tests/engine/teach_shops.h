/* Shops that never were: readings with hidden numbers behind them, made by the
 * equations of tests/reference and a few lines here, not by the engine. */
#ifndef TEST_TEACH_SHOPS_H
#define TEST_TEACH_SHOPS_H

#include "../reference/life_equations.h"
#include "doughwright/teach.h"

/* Near enough to a standard normal number: twelve even ones. */
double shop_normal(unsigned long long *seed);
/* From low to high, mean and sd of the normal it is cut from. */
double shop_normal_within(unsigned long long *seed, double mean, double sd,
                          double widest_sds);
/* 100 g of flour, 60 of water, 2 of salt and instant yeast, in a 450-g ball. */
ball shop_ball(double instant);
dw_formula shop_formula(dw_line lines[4], double instant);
/* Runge and Kutta's fourth order, steps of about step_h. */
void shop_follow(const ball *b, double y[], double hours, double step_h);

/* How often the hidden number was in the interval, and by how much the
 * squared error of what is foretold fell. */
typedef struct shop_score {
    int inside, all;
    double before2, after2;
} shop_score;
void shop_score_belief(shop_score *score, const dw_belief *belief,
                       double hidden);
void shop_score_error(shop_score *score, double before, double after);
/* 85 to 95 of 100 (a few more either way when `shops` are few), and errors at
 * least halved; prints what it was. */
void shop_check(const char *what, const shop_score *score, double slack);

#endif
