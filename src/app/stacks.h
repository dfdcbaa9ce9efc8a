/* Stacks with balls in them: the account of counts, stacks and moves, told
 * stack by stack. */
#ifndef DW_APP_STACKS_H
#define DW_APP_STACKS_H

#include "app/stock.h"

/* Balls that are there but of no known stack (counted only) have an id of 0. */
typedef struct dw_stack_left {
    dw_stack stack;
    int64_t left;
    bool assumed;         /* a count or the pull sheet says so, no tap */
    int64_t moved;        /* taken out by taps, what was put back left out */
    int64_t assumed_gone; /* by the pull sheet, since the count */
} dw_stack_left;

/* A product's newest count says how many balls of a mixing day are there. When
 * that is less than the stacks of the day hold by their moves, the oldest stack
 * is taken to have lost them; when it is more, the newest has them. By product
 * and mixing day, oldest first. Stacks with none left are left out. DW_E_ROOM.
 */
dw_status dw_stacks_counted(dw_call *call, dw_stack_left **stacks,
                            size_t *count);
/* The same, run down by the pull sheets since the count (pulls.h): what is
 * there now. dw_stacks_assumed keeps the stacks that this emptied, with none
 * left. */
dw_status dw_stacks_left(dw_call *call, dw_stack_left **stacks, size_t *count);
dw_status dw_stacks_assumed(dw_call *call, dw_stack_left **stacks,
                            size_t *count);

/* A call that only reads works it out once. */
struct dw_stacks_kept {
    bool known;
    dw_stack_left *stacks; /* as dw_stacks_assumed; in the call's arena */
    size_t count;
};
/* Those are the stacks as they are now: keep a copy. DW_E_ROOM. */
dw_status dw_stacks_keep(dw_call *call, const dw_stack_left *stacks,
                         size_t count);

/* What a count that was just written says beside the moves, as one move a
 * stack: from then on the stacks add up by their moves. */
dw_status dw_stacks_book_count(dw_call *call, const dw_count_line *lines,
                               size_t lines_count);

#endif
