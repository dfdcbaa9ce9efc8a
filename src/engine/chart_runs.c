/* How long smoothed and summed charts run: their integral equations. */
#include "chart.h"
#include "engine/normal.h"

#include <math.h>

enum { NODES = 60 };

/* Gauss nodes and weights on [-1, 1]: zeros of the Legendre polynomial, by
 * Newton's steps from Tricomi's guess. */
static void gauss(double x[NODES], double w[NODES])
{
    for (int i = 0; i < NODES; i++) {
        double t = cos(acos(-1) * (i + 0.75) / (NODES + 0.5)), slope = 1;
        for (int step = 0; step < 8; step++) {
            double before = 1, p = t;
            for (int k = 2; k <= NODES; k++) {
                double next = ((2 * k - 1) * t * p - (k - 1) * before) / k;
                before = p;
                p = next;
            }
            slope = NODES * (t * p - before) / (t * t - 1);
            t -= p / slope;
        }
        x[i] = t;
        w[i] = 2 / ((1 - t * t) * slope * slope);
    }
}

/* The system of a Nystrom rule, with one place more for an atom. */
typedef double matrix[NODES + 1][NODES + 2];

/* Rows a | b to the answer in the last column; pivots by size. */
static void solve(matrix m, int n)
{
    for (int i = 0; i < n; i++) {
        int top = i;
        for (int r = i + 1; r < n; r++)
            if (fabs(m[r][i]) > fabs(m[top][i]))
                top = r;
        for (int c = 0; c <= n; c++) {
            double swap = m[i][c];
            m[i][c] = m[top][c];
            m[top][c] = swap;
        }
        for (int r = 0; r < n; r++) {
            double times = r == i ? 0 : m[r][i] / m[i][i];
            for (int c = i; c <= n; c++)
                m[r][c] -= times * m[i][c];
        }
    }
    for (int i = 0; i < n; i++)
        m[i][n] /= m[i][i];
}

/* L(u) = 1 + 1/w integral of L(y) density((y - (1 - w) u) / w - shift) over
 * the band; from u = 0. */
double dw_chart_ewma_run(double weight, double limit, double shift_sigmas)
{
    double x[NODES], w[NODES], half = limit * sqrt(weight / (2 - weight));
    matrix m;
    gauss(x, w);
    for (int i = 0; i < NODES; i++) {
        for (int j = 0; j < NODES; j++) {
            double y = half * x[j], u = half * x[i];
            m[i][j] = (i == j) -
                      half * w[j] / weight *
                          dw_normal_density((y - (1 - weight) * u) / weight -
                                            shift_sigmas);
        }
        m[i][NODES] = 1;
    }
    solve(m, NODES);
    double run = 1;
    for (int j = 0; j < NODES; j++)
        run += half * w[j] / weight * m[j][NODES] *
               dw_normal_density(half * x[j] / weight - shift_sigmas);
    return run;
}

/* One side: L(u) = 1 + L(0) P(k - u - shift) + integral over 0 to h of L(y)
 * density(y + k - u - shift). Place NODES is the atom at 0. */
static double one_side_run(double slack, double decision, double shift)
{
    double x[NODES + 1], w[NODES + 1];
    matrix m;
    gauss(x, w);
    for (int j = 0; j < NODES; j++) {
        x[j] = decision / 2 * (x[j] + 1);
        w[j] *= decision / 2;
    }
    x[NODES] = 0;
    for (int i = 0; i <= NODES; i++) {
        double off = slack - x[i] - shift;
        for (int j = 0; j < NODES; j++)
            m[i][j] = (i == j) - w[j] * dw_normal_density(x[j] + off);
        m[i][NODES] = (i == NODES) - dw_normal_below(off);
        m[i][NODES + 1] = 1;
    }
    solve(m, NODES + 1);
    return m[NODES][NODES + 1];
}

double dw_chart_cusum_run(double slack, double decision, double shift_sigmas)
{
    double up = one_side_run(slack, decision, shift_sigmas);
    double down = one_side_run(slack, decision, -shift_sigmas);
    return 1 / (1 / up + 1 / down);
}
