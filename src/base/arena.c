#include "doughwright/base.h"

#include <string.h>

enum { ALIGN = _Alignof(max_align_t) };

void dw_arena_init(dw_arena *arena, void *block, size_t bytes)
{
    uintptr_t at = (uintptr_t)block;
    size_t skip = (ALIGN - at % ALIGN) % ALIGN;
    DW_ASSERT(bytes >= skip);
    arena->base = (unsigned char *)block + skip;
    arena->size = bytes - skip;
    arena->used = 0;
}

void *dw_arena_rest(const dw_arena *arena, size_t *room)
{
    *room = arena->size - arena->used;
    return arena->base + arena->used;
}

void dw_arena_keep(dw_arena *arena, size_t bytes)
{
    size_t left = arena->size - arena->used;
    DW_ASSERT(bytes <= left);
    size_t whole = bytes + (ALIGN - bytes % ALIGN) % ALIGN;
    arena->used += whole < left ? whole : left;
}

void *dw_arena_take(dw_arena *arena, size_t bytes)
{
    size_t room;
    void *taken = dw_arena_rest(arena, &room);
    if (bytes > room)
        return NULL;
    dw_arena_keep(arena, bytes);
    memset(taken, 0, bytes);
    return taken;
}

char *dw_arena_text(dw_arena *arena, const char *text)
{
    if (!text)
        return NULL;
    size_t bytes = strlen(text) + 1;
    char *copy = dw_arena_take(arena, bytes);
    if (copy)
        memcpy(copy, text, bytes);
    return copy;
}
