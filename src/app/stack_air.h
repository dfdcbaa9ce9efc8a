/* What was read of the cold room's air, as legs of a stack's life. */
#ifndef DW_APP_STACK_AIR_H
#define DW_APP_STACK_AIR_H

#include "doughwright/life.h"
#include "store/nouns.h"

/* A reading holds until the next one, for 18 h at most unless it is the newest
 * and younger than that; before the first, and after one that has grown old,
 * the air is what the room settles to or is set to. */
typedef struct dw_stack_air {
    double usual_c;
    const dw_reading_row *readings; /* oldest first */
    size_t readings_count;
    int64_t batch_id; /* the stack's; those of other batches are passed over */
} dw_stack_air;

/* When the balls were where. */
typedef struct dw_stack_times {
    int64_t stopped_ms, opened_ms, closing_ms, now_ms;
    bool closed; /* closing_ms has been; else it is when that is due */
} dw_stack_times;

typedef struct dw_stack_legs {
    dw_leg *legs; /* in the arena; the last goes on */
    size_t count;
    size_t over; /* so many cannot change any more */
    double air_c;
    bool air_read;
} dw_stack_legs;

/* `whole`: bench, open and closed as if the air had never changed. Changes of
 * less than 0.05 K and what is more than 14 days after the mixer's stop make no
 * leg of their own. False when the arena is full. */
bool dw_stack_air_legs(const dw_stack_air *air, const dw_stack_times *times,
                       const dw_leg whole[3], dw_arena *arena,
                       dw_stack_legs *legs);

#endif
