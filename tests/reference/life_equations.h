/* The equations of a ball's life written a second time, from the science alone
 * and sharing nothing with src/engine but the thermal properties: plain
 * doubles, mid-radius differences, one long vector of states. */
#ifndef TEST_LIFE_EQUATIONS_H
#define TEST_LIFE_EQUATIONS_H

#include <stddef.h>

/* Of each shell, one after the other. */
enum {
    YEAST,
    NUTRIENT,
    GAS_LAG,
    GROWTH_LAG,
    SUGAR,
    MALTOSE,
    STARCH,
    MADE,
    LOST,
    ADAPTED,
    AGE,
    TEMP,
    STATES
};

typedef struct ball {
    /* per 100 g of flour */
    double water, salt, added_sugar, yeast_dry, mass;
    double q30, gas_tmin; /* mmol/g/h; degC: 16 and -1 */
    double mixed_c, pressure_kpa;
    double piece_kg, cp, k_dense;
    int shells;
    int held;        /* at the air's temperature */
    double air_c, h; /* now */
} ball;

size_t ball_states(const ball *b);
void ball_start(const ball *b, double y[]);
void ball_rates(const ball *b, const double y[], double dydt[]);
/* Means by mass of one state, and what ends at the skin and the centre. */
double ball_mean(const ball *b, const double y[], int state);
double ball_skin(const ball *b, const double y[]);
double ball_core(const ball *b, const double y[]);
/* V / V0, mean by mass. */
double ball_swelling(const ball *b, const double y[]);

/* From y at from_h to y at to_h, tightly. 0 when it worked. */
int solve(const ball *b, double y[], double from_h, double to_h);

#endif
