/* Hands for the engine: a few threads of the app's own.
 *
 * Who shares work out lends a hand itself. When the pool is busy with somebody
 * else's work, or there is only one processor, it does everything itself: the
 * answer is the same. */
#ifndef DW_APP_POOL_H
#define DW_APP_POOL_H

#include "doughwright/hands.h"

typedef struct dw_pool dw_pool;

/* With so many hands, 1 and up. Yours; NULL: no memory. */
dw_pool *dw_pool_new(size_t hands);
/* No work may be going on. NULL is fine. */
void dw_pool_free(dw_pool *pool);
/* Borrowed from the pool. */
const dw_hands *dw_pool_hands(const dw_pool *pool);

#endif
