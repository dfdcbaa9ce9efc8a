/* The standard normal distribution. */
#ifndef DW_ENGINE_NORMAL_H
#define DW_ENGINE_NORMAL_H

/* Share of values below z, and above it (exact in its own tail). */
double dw_normal_below(double z);
double dw_normal_above(double z);
double dw_normal_density(double z);
/* The z below which lies `share`, 0 to 1 open. */
double dw_normal_quantile(double share);

#endif
