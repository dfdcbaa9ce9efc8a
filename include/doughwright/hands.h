/* Hands: threads that whoever owns them lends to the engine, which has none.
 *
 * A long piece of work that falls into jobs independent of each other is shared
 * out among hands; what comes out does not depend on how many there are.
 */
#ifndef DOUGHWRIGHT_HANDS_H
#define DOUGHWRIGHT_HANDS_H

#include <stddef.h>

/* The index-th job; no two jobs at one time have the same hand. */
typedef void dw_hands_job(void *owner, size_t hand, size_t index);

typedef struct dw_hands {
    size_t count; /* at least 1 */
    /* Do all jobs, each once, and come back when the last is done. */
    void (*share)(void *crew, size_t jobs, dw_hands_job *job, void *owner);
    void *crew; /* borrowed */
} dw_hands;

#endif
