#include "life_equations.h"

#include <math.h>

static const double R = 8.314462618, PI = 3.14159265358979323846;

static double cardinal(double t, double lo, double best, double hi)
{
    if (t <= lo || t >= hi)
        return 0;
    return (t - hi) * pow(t - lo, 2) /
           ((best - lo) *
            ((best - lo) * (t - best) - (best - hi) * (best + lo - 2 * t)));
}

static double f_gas(const ball *b, double t)
{
    double lo = b->gas_tmin;
    return cardinal(t, lo, 38, 50) / cardinal(30, lo, 38, 50);
}

static double g_growth(double t)
{
    return cardinal(t, 2.8, 32.3, 45.4);
}

static double kelvin(double t)
{
    return t + 273.15;
}

static double henry(const ball *b, double t)
{
    const double x[] = {1.337, 1.123, .950, .814, .704, .614, .541, .481, .431};
    int i = (int)floor(t / 5);
    i = i < 0 ? 0 : i > 7 ? 7 : i;
    double at = x[i] * pow(x[i + 1] / x[i], t / 5 - i);
    double water = b->water + 14;
    double molal = b->salt / 58.44 / (water / 1000);
    return 55.5 * at * (water / 1000) * 0.85 * pow(10, -0.10 * molal) *
           b->pressure_kpa / 100;
}

static double solid(const ball *b)
{
    return b->mass / 1.25;
}

static double air(const ball *b)
{
    double bubbles = solid(b) * 0.08 / 0.92;
    return b->pressure_kpa * bubbles / (R * kelvin(b->mixed_c));
}

static double bubbles(const ball *b, const double *y)
{
    double total = y[MADE] - y[LOST], n_air = air(b);
    double p = n_air + henry(b, y[TEMP]) - total;
    return (-p + sqrt(p * p + 4 * total * n_air)) / 2;
}

/* V / V0 of a shell */
static double swelling(const ball *b, const double *y)
{
    double gas = bubbles(b, y) + air(b);
    double v = solid(b) + gas * R * kelvin(y[TEMP]) / b->pressure_kpa;
    return v / (solid(b) / 0.92);
}

size_t ball_states(const ball *b)
{
    return (size_t)b->shells * STATES;
}

static double part(const ball *b, int i)
{
    double n = b->shells;
    return (pow(i + 1, 3) - pow(i, 3)) / (n * n * n);
}

void ball_start(const ball *b, double y[])
{
    for (int i = 0; i < b->shells; i++, y += STATES) {
        for (int k = 0; k < STATES; k++)
            y[k] = 0;
        y[YEAST] = b->yeast_dry;
        y[NUTRIENT] = 0.195;
        y[SUGAR] = (1.5 + b->added_sugar) / 0.180;
        y[STARCH] = 5.0 / 0.180;
        y[TEMP] = b->mixed_c;
    }
}

/* mmol of CO2 an hour, and every reaction's rate */
static double react(const ball *b, const double *y, double *d)
{
    double t = y[TEMP], f = f_gas(b, t), g = g_growth(t);
    double salt = fmax(0, 1 - 0.055 * b->salt * 74 / (b->water + 14));
    double sweet = 1 / (1 + pow(b->added_sugar / 10, 4));
    double alcohol = 100 * y[MADE] * 0.04607 / (b->water + 14);
    double q = b->q30 * f * salt * sweet * fmax(0, 1 - alcohol / 11) *
               y[GAS_LAG] * y[YEAST];
    double s = y[SUGAR] / (y[SUGAR] + 1);
    double sugar = q * s;
    double maltose =
        0.9 * q * (1 - s) * y[ADAPTED] * y[MALTOSE] / (y[MALTOSE] + 2);
    double ka = 0.22 * exp(-55000 / R * (1 / kelvin(t) - 1 / 303.15));
    double growth = y[GROWTH_LAG] >= 2
                        ? 0.277 * g * salt * y[YEAST] * y[NUTRIENT] / 0.195
                        : 0;
    d[YEAST] = growth - (b->held ? 0 : 7.5e-3 / 24) * y[YEAST];
    d[NUTRIENT] = -growth;
    d[GAS_LAG] = f * (1 - y[GAS_LAG]) / 0.33;
    d[GROWTH_LAG] = g / g_growth(27);
    d[SUGAR] = -sugar / 1.7;
    d[MALTOSE] = ka * y[STARCH] - maltose / 1.7;
    d[STARCH] = -ka * y[STARCH];
    d[MADE] = sugar + maltose;
    d[LOST] = 0.25 * sqrt(f) * fmax(0, swelling(b, y) - 2.6) * bubbles(b, y);
    d[ADAPTED] = f * (1 - y[ADAPTED]) / 1.0;
    d[AGE] = exp(-58000 / R * (1 / kelvin(t) - 1 / 298.15));
    d[TEMP] = 0;
    return sugar + maltose;
}

/* Dough continuous round its bubbles (Maxwell and Eucken). */
static double conductivity(const ball *b, double v)
{
    double e = 1 - 0.92 / v, k = b->k_dense, gas = 0.025;
    return k * (2 * k + gas - 2 * e * (k - gas)) /
           (2 * k + gas + e * (k - gas));
}

static double start_volume(const ball *b)
{
    return b->piece_kg * 1000 / b->mass * solid(b) / 0.92 * 1e-6;
}

static double sphere_radius(double volume)
{
    return pow(3 * volume / (4 * PI), 1.0 / 3);
}

/* Heat that leaves shell i outwards, W; r_in and r are its radii. */
static double leaves(const ball *b, const double y[], int i, double r_in,
                     double r)
{
    const double *here = y + i * STATES, *next = here + STATES;
    double v = swelling(b, here), area = 4 * PI * r * r;
    double own = (r - r_in) / 2 / conductivity(b, v);
    if (i + 1 == b->shells)
        return area * (here[TEMP] - b->air_c) / (own + 1 / b->h);
    double v_next = swelling(b, next);
    double outer = sphere_radius(4 * PI / 3 * r * r * r +
                                 start_volume(b) * part(b, i + 1) * v_next);
    double other = (outer - r) / 2 / conductivity(b, v_next);
    return area * (here[TEMP] - next[TEMP]) / (own + other);
}

void ball_rates(const ball *b, const double y[], double dydt[])
{
    double in = 0, r_in = 0, inside = 0;
    for (int i = 0; i < b->shells; i++) {
        const double *here = y + i * STATES;
        double *d = dydt + i * STATES;
        double made = react(b, here, d);
        if (b->held)
            continue;
        double mass = b->piece_kg * part(b, i);
        double flour = mass * 1000 / b->mass;
        inside += start_volume(b) * part(b, i) * swelling(b, here);
        double r = sphere_radius(inside);
        double out = leaves(b, y, i, r_in, r);
        /* W to K an hour */
        d[TEMP] = ((in - out) * 3600 + 62 * made * flour) / (mass * b->cp);
        in = out;
        r_in = r;
    }
}

double ball_mean(const ball *b, const double y[], int state)
{
    double sum = 0;
    for (int i = 0; i < b->shells; i++)
        sum += part(b, i) * y[i * STATES + state];
    return sum;
}

double ball_skin(const ball *b, const double y[])
{
    double inside = 0, before = 0;
    for (int i = 0; i < b->shells; i++) {
        before = inside;
        inside += start_volume(b) * part(b, i) * swelling(b, y + i * STATES);
    }
    const double *last = y + (b->shells - 1) * STATES;
    double way = (sphere_radius(inside) - sphere_radius(before)) / 2 /
                 conductivity(b, swelling(b, last));
    return (last[TEMP] / way + b->h * b->air_c) / (1 / way + b->h);
}

double ball_core(const ball *b, const double y[])
{
    return y[TEMP] - (y[STATES + TEMP] - y[TEMP]) / 8;
}

double ball_swelling(const ball *b, const double y[])
{
    double sum = 0;
    for (int i = 0; i < b->shells; i++)
        sum += part(b, i) * swelling(b, y + i * STATES);
    return sum;
}
