/* Rolling origin: at the end of each of the last weeks, forecast the fourteen
 * days after it from what was known then, and hold that against what was
 * wanted. */
#ifndef ROLLING_H
#define ROLLING_H

#include "businesses.h"
#include "doughwright/forecast.h"

enum { ROLLING_DAYS = 14 };

typedef struct rolled {
    int forecasts;               /* days forecast, all series and origins */
    double scaled, scaled_naive; /* mean absolute scaled errors */
    double scaled_given;         /* of forecasts somebody else made */
    double in_80, in_95;         /* coverage, shares */
    double crps, crps_naive; /* ranked probability score over the scale; of the
                                last eight same weekdays as equally likely */
    double band, band_naive; /* interval score of the 80 % band over the scale,
                                and of the least and most of these eight */
    double service, service_naive; /* pinball loss at 90 % over the scale */
} rolled;

/* `given`: somebody else's means, [week][series][day after the origin]; NULL:
 * nobody's. */
void rolling_origin(const made_business *b, int weeks, const double *given,
                    rolled *out);

#endif
