/* Exact cooling of slab, cylinder and sphere (Carslaw & Jaeger; Incropera,
 * Fundamentals of Heat and Mass Transfer, ch. 5). */
#include "doughwright/piece.h"

#include <math.h>

#define PI 3.14159265358979323846

/* Terms end when exp(-zeta^2 Fo) is below the last bit of a double. */
static const double last_exponent = 40;
/* Below this the half-space is nearer than rounding in thousands of terms. */
static const double short_fourier = 1e-6;

static dw_status check_body(dw_body body, double biot, dw_err *err)
{
    DW_ASSERT(body == DW_SLAB || body == DW_CYLINDER || body == DW_SPHERE);
    return dw_check_range(err, "biot", biot, 1e-6, 1e6);
}

/* (z cos z - sin z) / z without losing digits near 0. */
static double cos_less_sinc(double z)
{
    double z2 = z * z;
    if (z2 > 0.09)
        return cos(z) - sin(z) / z;
    return -z2 / 3 *
           (1 - z2 / 10 * (1 - z2 / 28 * (1 - z2 / 54 * (1 - z2 / 88))));
}

/* The surface condition, one sign change in each ((n-1) pi, n pi):
 * slab z tan z = Bi, cylinder z J1/J0 = Bi, sphere 1 - z cot z = Bi. */
static double condition(dw_body body, double biot, double z)
{
    switch (body) {
    case DW_SLAB: return z * sin(z) - biot * cos(z);
    case DW_CYLINDER: return z * j1(z) - biot * j0(z);
    case DW_SPHERE: break;
    }
    double sinc = z > 0 ? sin(z) / z : 1;
    return -cos_less_sinc(z) - biot * sinc;
}

static double condition_slope(dw_body body, double biot, double z)
{
    switch (body) {
    case DW_SLAB: return sin(z) + z * cos(z) + biot * sin(z);
    case DW_CYLINDER: return z * j0(z) + biot * j1(z);
    case DW_SPHERE: break;
    }
    return sin(z) + (1 - biot) * cos_less_sinc(z) / z;
}

/* Newton inside a bracket; a step that leaves it becomes a bisection. */
static double root(dw_body body, double biot, int n)
{
    double low = (n - 1) * PI, high = n * PI;
    bool rising = condition(body, biot, low) < 0;
    double z =
        n == 1 ? fmin(sqrt((double)body * biot), 0.5 * PI) : 0.5 * (low + high);
    for (int i = 0; i < 100; i++) {
        double f = condition(body, biot, z);
        if (f == 0)
            break;
        if ((f < 0) == rising)
            low = z;
        else
            high = z;
        double next = z - f / condition_slope(body, biot, z);
        if (!(next > low && next < high))
            next = 0.5 * (low + high);
        bool still = fabs(next - z) <= 2e-16 * z;
        z = next;
        if (still)
            break;
    }
    return z;
}

dw_status dw_piece_root(dw_body body, double biot, int n, double *zeta,
                        dw_err *err)
{
    DW_TRY(check_body(body, biot, err));
    DW_TRY(dw_check_range(err, "n", n, 1, 1e6));
    *zeta = root(body, biot, n);
    return DW_OK;
}

/* One term: weight at the centre, shape at a place, share of the mean. */
static double weight(dw_body body, double z)
{
    switch (body) {
    case DW_SLAB: return 4 * sin(z) / (2 * z + sin(2 * z));
    case DW_CYLINDER: return 2 / z * j1(z) / (j0(z) * j0(z) + j1(z) * j1(z));
    case DW_SPHERE: break;
    }
    return -4 * z * cos_less_sinc(z) / (2 * z - sin(2 * z));
}

static double shape_at(dw_body body, double z)
{
    switch (body) {
    case DW_SLAB: return cos(z);
    case DW_CYLINDER: return j0(z);
    case DW_SPHERE: break;
    }
    return z > 0 ? sin(z) / z : 1;
}

static double mean_share(dw_body body, double z)
{
    switch (body) {
    case DW_SLAB: return sin(z) / z;
    case DW_CYLINDER: return 2 * j1(z) / z;
    case DW_SPHERE: break;
    }
    return -3 * cos_less_sinc(z) / (z * z);
}

/* exp(z^2) erfc(z) */
static double erfcx(double z)
{
    if (z < 5)
        return exp(z * z) * erfc(z);
    double tail = z;
    for (int n = 60; n >= 1; n--)
        tail = z + 0.5 * n / tail;
    return 1 / (sqrt(PI) * tail);
}

/* (1 - erfcx(z)) / z for 0 halves; for 2 half-integrals, i.e. one over
 * time, (1 - g(z)) / z with g(z) = (erfcx(z) - 1 + 2 z / sqrt(pi)) / z^2, the
 * time mean of erfcx. Both by power series near 0. */
static double lost_ratio(double z, int halves)
{
    if (fabs(z) < 0.3) {
        double sum = 0, power = 1;
        for (int n = 1; n < 40; n++, power *= -z)
            sum += power / tgamma(0.5 * (n + halves) + 1);
        return sum;
    }
    double e = erfcx(z);
    if (halves == 0)
        return (1 - e) / z;
    return (1 - (e - 1 + 2 * z / sqrt(PI)) / (z * z)) / z;
}

/* The body seen as a half space whose loss is corrected by its curvature:
 * exact for slab and sphere until the centre feels it. */
static void left_short(dw_body body, double biot, double fourier, dw_left *left)
{
    double root_t = sqrt(fourier);
    double z = (biot - 0.5 * (body - 1)) * root_t;
    left->centre = 1;
    left->surface = 1 - biot * root_t * lost_ratio(z, 0);
    left->mean = 1 - (double)body * biot * fourier *
                         (1 - biot * root_t * lost_ratio(z, 2));
}

static double left_short_at(dw_body body, double biot, double fourier,
                            double place)
{
    double root_t = sqrt(fourier);
    double x = (1 - place) / (2 * root_t);
    if (fourier == 0 || x > 6) /* nothing has come so far */
        return 1;
    double h = biot - 0.5 * (body - 1), z = h * root_t;
    double lost = erfc(x) - exp(-x * x) * erfcx(x + z);
    if (fabs(z) < 1e-4) /* the limit h -> 0 of lost / h */
        lost = 2 * root_t * (exp(-x * x) / sqrt(PI) - x * erfc(x));
    else
        lost /= h;
    return 1 - biot * lost * pow(place, -0.5 * (body - 1));
}

static dw_status check_left(dw_body body, double biot, double fourier,
                            dw_err *err)
{
    DW_TRY(check_body(body, biot, err));
    return dw_check_range(err, "fourier", fourier, 0, 1e9);
}

dw_status dw_piece_left(dw_body body, double biot, double fourier,
                        dw_left *left, dw_err *err)
{
    DW_TRY(check_left(body, biot, fourier, err));
    if (fourier < short_fourier) {
        left_short(body, biot, fourier, left);
        return DW_OK;
    }
    dw_left sum = {0, 0, 0};
    for (int n = 1;; n++) {
        double z = root(body, biot, n);
        double exponent = z * z * fourier;
        if (n > 1 && exponent > last_exponent)
            break;
        double term = weight(body, z) * exp(-exponent);
        sum.centre += term;
        sum.surface += term * shape_at(body, z);
        sum.mean += term * mean_share(body, z);
    }
    *left = sum;
    return DW_OK;
}

dw_status dw_piece_left_at(dw_body body, double biot, double fourier,
                           double place, double *left, dw_err *err)
{
    DW_TRY(check_left(body, biot, fourier, err));
    DW_TRY(dw_check_range(err, "place", place, 0, 1));
    if (fourier < short_fourier) {
        *left = left_short_at(body, biot, fourier, place);
        return DW_OK;
    }
    double sum = 0;
    for (int n = 1;; n++) {
        double z = root(body, biot, n);
        double exponent = z * z * fourier;
        if (n > 1 && exponent > last_exponent)
            break;
        sum += weight(body, z) * exp(-exponent) * shape_at(body, z * place);
    }
    *left = sum;
    return DW_OK;
}
