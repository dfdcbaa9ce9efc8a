/* An independent judge of a plan: it knows nothing of the planner but the
 * request and the reply. Every ball is a thing with a day of making; demand
 * comes; balls are handed out oldest first, age, and are thrown away. */
#ifndef WEEK_REPLAY_H
#define WEEK_REPLAY_H

#include "doughwright/week.h"

typedef struct replay {
    double lost, thrown, held; /* balls, ball-nights */
    int early, late;           /* balls used outside their days: must be 0 */
    double made, sold, left;   /* balls; made = sold + thrown + left */
    double left_on[DW_WEEK_DAYS];
    double boxes_before[DW_WEEK_DAYS]; /* balls of the eve and made */
} replay;

/* One product under one demand; made is by day, kept by the request's stock and
 * fixed batches is added. */
void replay_product(const dw_week_request *ask, size_t product,
                    const int64_t *made, const int64_t *demand, replay *out);

/* Balls of a product made on a day by the plan's new batches. */
int64_t replay_made(const dw_week_reply *plan, const char *product,
                    int64_t day);

/* Cost of batches, labour and making, from the batches of the reply alone. */
double replay_making_cost(const dw_week_request *ask,
                          const dw_week_reply *plan);

/* How many limits of mixers, batches, hands and locked days are broken. */
int replay_broken(const dw_week_request *ask, const dw_week_reply *plan);

#endif
