#include "engine/teach_grid.h"

#include <math.h>

#define PI 3.14159265358979323846
#define DEGREES 4    /* of freedom */
#define UNLIKE_T 3.2 /* |t| beyond it: 3.3 percent of sound readings */

double dw_teach__at(const dw_teach__axis *axis, int point)
{
    return axis->low +
           (axis->high - axis->low) * point / (DW_TEACH__POINTS - 1);
}

double dw_teach__node(int nodes, int node)
{
    return nodes == 1 ? 0 : cos(PI * (node + 0.5) / nodes);
}

/* Lagrange's polynomials, as they are: the nodes are few. */
void dw_teach__weights(int nodes, double x, double *weights)
{
    for (int i = 0; i < nodes; i++) {
        weights[i] = 1;
        double at = dw_teach__node(nodes, i);
        for (int j = 0; j < nodes; j++) {
            double other = dw_teach__node(nodes, j);
            if (j != i)
                weights[i] *= (x - other) / (at - other);
        }
    }
}

double dw_teach__log_t(double gap, double scale)
{
    double t = gap / scale;
    return -log(scale) - 0.5 * (DEGREES + 1) * log(1 + t * t / DEGREES);
}

bool dw_teach__unlike(double gap, double scale)
{
    return fabs(gap) > UNLIKE_T * scale;
}

static double number(const dw_teach__axis *axis, double x)
{
    return axis->log ? exp(x) : x;
}

/* Each point stands for the step around it; those at the ends for half. */
static double quantile(const dw_teach__axis *axis,
                       const double shares[DW_TEACH__POINTS], double share)
{
    double step = (axis->high - axis->low) / (DW_TEACH__POINTS - 1), sum = 0;
    for (int i = 0; i < DW_TEACH__POINTS; i++) {
        if (sum + shares[i] >= share) {
            double x = axis->low + (i - 0.5 + (share - sum) / shares[i]) * step;
            return number(axis, fmin(fmax(x, axis->low), axis->high));
        }
        sum += shares[i];
    }
    return number(axis, axis->high);
}

void dw_teach__believe(const dw_teach__axis *axis,
                       const double shares[DW_TEACH__POINTS], dw_belief *belief)
{
    double mean = 0, square = 0;
    for (int i = 0; i < DW_TEACH__POINTS; i++)
        mean += shares[i] * number(axis, dw_teach__at(axis, i));
    for (int i = 0; i < DW_TEACH__POINTS; i++) {
        double gap = number(axis, dw_teach__at(axis, i)) - mean;
        square += shares[i] * gap * gap;
    }
    *belief = (dw_belief){mean, sqrt(square), quantile(axis, shares, 0.05),
                          quantile(axis, shares, 0.95)};
}

void dw_teach__to_shares(double *logs, size_t count)
{
    double top = logs[0], sum = 0;
    for (size_t i = 1; i < count; i++)
        top = fmax(top, logs[i]);
    for (size_t i = 0; i < count; i++)
        sum += logs[i] = exp(logs[i] - top);
    for (size_t i = 0; i < count; i++)
        logs[i] /= sum;
}

void dw_teach__prior(const dw_teach__axis *axis,
                     double shares[DW_TEACH__POINTS])
{
    for (int i = 0; i < DW_TEACH__POINTS; i++) {
        double z = (dw_teach__at(axis, i) - axis->prior_mean) / axis->prior_sd;
        shares[i] = -0.5 * z * z;
    }
    dw_teach__to_shares(shares, DW_TEACH__POINTS);
}

bool dw_teach__no_sensor(double temp_c)
{
    return !(temp_c > -40 && temp_c < 200) || temp_c == 85;
}

dw_teach_why dw_teach__temp(double temp_c, double low, double high)
{
    if (dw_teach__no_sensor(temp_c))
        return DW_TEACH_NO_SENSOR;
    if (temp_c >= low && temp_c <= high)
        return DW_TEACH_FINE;
    double as_fahrenheit = (temp_c - 32) / 1.8;
    return as_fahrenheit >= low && as_fahrenheit <= high ? DW_TEACH_FAHRENHEIT
                                                         : DW_TEACH_IMPOSSIBLE;
}

void dw_teach__count(dw_teach_counts *counts, const dw_teach_mark *mark)
{
    switch (mark->use) {
    case DW_TEACH_USED: counts->used++; break;
    case DW_TEACH_DOUBTED: counts->doubted++; break;
    case DW_TEACH_REFUSED: counts->refused++; break;
    default: counts->left_out++; break;
    }
}
