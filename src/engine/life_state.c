#include "engine/life_state.h"

/* Of a block; its numbers follow. */
typedef struct part {
    dw_life__place place;
    double dt_h, dt_before_h;
} part;

static size_t numbers_bytes(const dw_life__kernel *kernel, int lives,
                            int shells)
{
    return dw_life__numbers(kernel, lives, shells) * sizeof(double);
}

size_t dw_life__state_block_bytes(const dw_life_request *request, int lives)
{
    int shells = request->hold_temperature ? 1 : (int)request->shells;
    return sizeof(part) +
           numbers_bytes(dw_life__kernel_for(request), lives, shells);
}

void dw_life__state_begin(void *state, size_t legs, size_t block_bytes)
{
    dw_life__state head = {.legs = legs, .block_bytes = block_bytes};
    memcpy(state, &head, sizeof head);
}

static size_t part_at(const void *state, size_t index)
{
    const dw_life__state *head = state;
    return sizeof *head + index * head->block_bytes;
}

void dw_life__state_put(void *state, size_t index,
                        const dw_life__kernel *kernel,
                        const dw_life__place *place,
                        const dw_life__block *block)
{
    char *to = (char *)state + part_at(state, index);
    part kept = {*place, block->dt_h, block->dt_before_h};
    memcpy(to, &kept, sizeof kept);
    memcpy(to + sizeof kept, block->numbers,
           numbers_bytes(kernel, block->lives, block->shells));
    if (index == 0)
        ((dw_life__state *)state)->row = place->row;
}

void dw_life__state_get(const void *state, size_t index,
                        const dw_life__kernel *kernel, dw_life__place *place,
                        dw_life__block *block)
{
    const char *from = (const char *)state + part_at(state, index);
    part kept;
    memcpy(&kept, from, sizeof kept);
    memcpy(block->numbers, from + sizeof kept,
           numbers_bytes(kernel, block->lives, block->shells));
    block->dt_h = kept.dt_h;
    block->dt_before_h = kept.dt_before_h;
    *place = kept.place;
}
