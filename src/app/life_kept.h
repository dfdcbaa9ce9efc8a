/* Lives that are kept, so that what is asked again goes on from where it stood.
 *
 * A stack's past does not change, its future does: with each reading of the
 * cold room, with each minute that it stands open. What is kept is how its
 * balls stood when the last of its legs that is over for good ended, together
 * with everything that made it so. Asked for a life with the same past, only
 * what came after is lived; with another past (a correction, a reading entered
 * later, a yeast that was learned anew) it is lived from the mixer's stop and
 * kept again. The answer has the same bits either way (doughwright/life.h).
 *
 * In memory only, up to a limit; what was not asked for longest goes first.
 * Threads may use it at the same time.
 */
#ifndef DW_APP_LIFE_KEPT_H
#define DW_APP_LIFE_KEPT_H

#include "doughwright/life.h"

typedef struct dw_life_kept dw_life_kept;

/* Yours; NULL: no memory. */
dw_life_kept *dw_life_kept_new(size_t bytes_most);
/* NULL is fine. */
void dw_life_kept_free(dw_life_kept *kept);

/* A life whose first `over` legs are over for good, kept under the id of a
 * stack. The last leg is never over. `kept` NULL: nothing is kept. As
 * dw_life_run otherwise. */
dw_status dw_life_kept_run(dw_life_kept *kept, int64_t stack_id,
                           const dw_life_request *request, size_t over,
                           dw_arena *arena, dw_life_reply *reply, dw_err *err);

/* What is in it, and how often a life went on from it. */
typedef struct dw_life_kept_tally {
    size_t lives, bytes;
    uint64_t gone_on, begun;
} dw_life_kept_tally;
dw_life_kept_tally dw_life_kept_count(dw_life_kept *kept);

#endif
