/* A mishap as legs of a ball's life. */
#ifndef DW_ENGINE_MISHAP_LEGS_H
#define DW_ENGINE_MISHAP_LEGS_H

#include "doughwright/mishap.h"

typedef struct dw_mishap__course {
    dw_leg *planned; /* to the end of the mishap or now; the last goes on */
    size_t planned_count;
    dw_leg *happened; /* the same with it, and until the room is cold again */
    size_t happened_count;
    dw_leg *until_over; /* what happened up to over_h */
    size_t until_over_count;
    double over_h; /* when it is over, now at the soonest */
} dw_mishap__course;

/* Legs in the arena. DW_E_RANGE, DW_E_ROOM. */
dw_status dw_mishap__course_of(const dw_mishap *mishap,
                               const dw_mishap_stack *stack, dw_arena *arena,
                               dw_mishap__course *course, dw_err *err);

#endif
