#include "doughwright/spread.h"

#include <math.h>

static const dw_field spread_fields[] = {
    DW_F_REAL(dw_spread, mean, "", 0, 1e6, "balls wanted on average"),
    DW_F_REAL(dw_spread, size, "", 0.05, DW_SPREAD_SIZE_MOST,
              "of the negative binomial: variance = mean + mean^2 / size"),
};
const dw_shape dw_spread_shape = DW_SHAPE("spread", dw_spread, spread_fields,
                                          "how many balls may be wanted");

/* Below this a tail is nothing. */
static const double NOTHING = 1e-12;

double dw_spread_variance(const dw_spread *spread)
{
    return spread->mean + spread->mean * spread->mean / spread->size;
}

/* lgamma would write a global. */
static double log_gamma(double x)
{
    int sign;
    return lgamma_r(x, &sign);
}

/* ln G(k + r) - ln G(r) - k ln r: how far the rising product r (r + 1) ... is
 * from r^k. Each part is small for large r, where the two gammas would cancel.
 */
static double rising(double r, double k)
{
    if (r > 1e5 * (1 + k)) /* second order in k / r */
        return k * (k - 1) / (2 * r) - k * (k - 1) * (2 * k - 1) / (12 * r * r);
    return log_gamma(k + r) - log_gamma(r) - k * log(r);
}

double dw_spread_mass(const dw_spread *spread, int64_t balls)
{
    double k = (double)balls, m = spread->mean, r = spread->size;
    if (balls < 0)
        return 0;
    if (m <= 0)
        return balls == 0;
    return exp(rising(r, k) - log_gamma(k + 1) + k * log(m) -
               (r + k) * log1p(m / r));
}

/* P(k + 1) / P(k) */
static double ratio(const dw_spread *spread, int64_t balls)
{
    double k = (double)balls;
    return (k + spread->size) / (k + 1) * spread->mean /
           (spread->size + spread->mean);
}

/* The first count whose mass is not lost below `NOTHING` of the whole. */
static int64_t foot(const dw_spread *spread)
{
    double low = spread->mean - 9 * sqrt(dw_spread_variance(spread));
    return low > 0 ? (int64_t)low : 0;
}

double dw_spread_share(const dw_spread *spread, int64_t balls)
{
    if (balls < 0)
        return 0;
    if (spread->mean <= 0)
        return 1;
    int64_t k = foot(spread);
    double mass = dw_spread_mass(spread, k), sum = 0;
    for (; k <= balls && sum < 1 - NOTHING; k++) {
        sum += mass;
        double next = mass * ratio(spread, k);
        if (next < mass && next < NOTHING * NOTHING)
            break;
        mass = next;
    }
    return fmin(sum, 1);
}

void dw_spread_masses(const dw_spread *spread, double *masses, size_t count)
{
    int64_t first = foot(spread);
    double mass = dw_spread_mass(spread, first);
    for (size_t i = 0; i < count; i++) {
        if ((int64_t)i < first) {
            masses[i] = 0;
            continue;
        }
        masses[i] = mass;
        mass *= ratio(spread, (int64_t)i);
    }
}

int64_t dw_spread_quantile(const dw_spread *spread, double share)
{
    if (spread->mean <= 0)
        return 0;
    share = fmin(fmax(share, NOTHING), 1 - NOTHING);
    int64_t k = foot(spread);
    double mass = dw_spread_mass(spread, k), sum = mass;
    while (sum < share) {
        double next = mass * ratio(spread, k);
        if (next < mass && next < NOTHING * NOTHING)
            break;
        mass = next;
        sum += mass;
        k++;
    }
    return k;
}

double dw_spread_short(const dw_spread *spread, int64_t balls)
{
    /* E max(0, X - n) = m - sum over k < n of P(X > k) */
    double left = spread->mean, sum = 0;
    if (left <= 0)
        return 0;
    int64_t k = foot(spread);
    if (balls <= k)
        return fmax(0, left - (double)balls);
    left -= (double)k;
    double mass = dw_spread_mass(spread, k);
    for (; k < balls && left > 0; k++) {
        sum += mass;
        left -= fmax(0, 1 - sum);
        mass *= ratio(spread, k);
    }
    return fmax(0, left);
}

double dw_spread_crps(const dw_spread *spread, int64_t came)
{
    int64_t k = foot(spread);
    double sum = 0, share = 0, mass = dw_spread_mass(spread, k);
    if (came < k)
        sum = (double)(k - came);
    for (; k < came || share < 1 - NOTHING; k++) {
        share = fmin(1, share + mass);
        double gap = share - (came <= k);
        sum += gap * gap;
        double next = mass * ratio(spread, k);
        if (k >= came && next < mass && next < NOTHING)
            break;
        mass = next;
    }
    return sum;
}

double dw_spread_covers(const dw_spread *spread, double level, int64_t came)
{
    double to = dw_spread_share(spread, came);
    double from = dw_spread_share(spread, came - 1);
    double low = (1 - level) / 2, high = 1 - low;
    if (to - from < NOTHING)
        return to > low && to < high;
    double inside = fmin(to, high) - fmax(from, low);
    return fmax(0, inside) / (to - from);
}
