/* What has to be kept of a life to go on with it: a head, then block after
 * block its place and its numbers. The memory is the caller's. */
#ifndef DW_ENGINE_LIFE_STATE_H
#define DW_ENGINE_LIFE_STATE_H

#include "engine/life_walk.h"

typedef struct dw_life__state {
    size_t legs, row; /* legs that are over; the next row to be told */
    size_t block_bytes;
} dw_life__state;

/* Of a block of so many lives. */
size_t dw_life__state_block_bytes(const dw_life_request *request, int lives);

/* Before the blocks are put, which any thread may do in any order. */
void dw_life__state_begin(void *state, size_t legs, size_t block_bytes);
void dw_life__state_put(void *state, size_t index,
                        const dw_life__kernel *kernel,
                        const dw_life__place *place,
                        const dw_life__block *block);
/* `block` was begun for the same lives. */
void dw_life__state_get(const void *state, size_t index,
                        const dw_life__kernel *kernel, dw_life__place *place,
                        dw_life__block *block);

#endif
