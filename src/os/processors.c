#include "os/processors.h"

#include <sched.h>

size_t dw_processors(void)
{
    cpu_set_t ours;
    if (sched_getaffinity(0, sizeof ours, &ours) != 0)
        return 1;
    int count = CPU_COUNT(&ours);
    return count > 0 ? (size_t)count : 1;
}
