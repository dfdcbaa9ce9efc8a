/* Scores of forecasts, in closed form (Gneiting and Raftery 2007). */
#ifndef SCORES_H
#define SCORES_H

#include <stddef.h>

double score_pinball(double share, double quantile, double came);
/* Of a band that should hold 1 - alpha. */
double score_interval(double low, double high, double alpha, double came);
/* Continuous ranked probability score of a normal, and of members that are
 * equally likely. */
double score_normal(double mean, double sd, double came);
double score_members(const double *members, size_t count, double came);

#endif
