#include "os/memory.h"

#include <sys/mman.h>

void *dw_memory_map(size_t bytes)
{
    void *block = mmap(NULL, bytes, PROT_READ | PROT_WRITE,
                       MAP_PRIVATE | MAP_ANONYMOUS | MAP_NORESERVE, -1, 0);
    return block == MAP_FAILED ? NULL : block;
}

void dw_memory_unmap(void *block, size_t bytes)
{
    if (block)
        munmap(block, bytes);
}

void dw_memory_shed(void *block, size_t used)
{
    madvise(block, used, MADV_DONTNEED);
}
