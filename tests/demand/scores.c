#include "scores.h"

#include <math.h>

double score_pinball(double share, double quantile, double came)
{
    return came >= quantile ? share * (came - quantile)
                            : (1 - share) * (quantile - came);
}

double score_interval(double low, double high, double alpha, double came)
{
    return high - low +
           2 / alpha * (fmax(0, low - came) + fmax(0, came - high));
}

double score_normal(double mean, double sd, double came)
{
    double z = (came - mean) / sd;
    double share = 0.5 * erfc(-z / sqrt(2));
    double density = exp(-0.5 * z * z) / sqrt(6.283185307179586);
    return sd *
           (z * (2 * share - 1) + 2 * density - 1 / sqrt(3.14159265358979));
}

double score_members(const double *members, size_t count, double came)
{
    double far = 0, apart = 0, n = (double)count;
    for (size_t i = 0; i < count; i++) {
        far += fabs(members[i] - came);
        for (size_t k = 0; k < count; k++)
            apart += fabs(members[i] - members[k]);
    }
    return far / n - apart / (2 * n * n);
}
