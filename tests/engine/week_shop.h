/* Instances for planning, drawn at random from a seed. */
#ifndef WEEK_SHOP_H
#define WEEK_SHOP_H

#include "doughwright/week.h"

enum { WEEK_SHOP_BYTES = 1 << 20 };

/* A shop of `products` ball sizes from `formulas` formulas in `mixers` mixers,
 * weekday demand, cold dough of one to four days, limits that bind now and
 * then; everything lives in the arena. */
dw_week_request week_shop(unsigned long long seed, int64_t days,
                          size_t products, size_t formulas, size_t mixers,
                          dw_arena *arena);

#endif
