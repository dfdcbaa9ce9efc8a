#include "os/clock.h"

#include <time.h>

static int64_t read_ms(clockid_t clock)
{
    struct timespec now;
    clock_gettime(clock, &now);
    return (int64_t)now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

int64_t dw_clock_now_ms(void)
{
    return read_ms(CLOCK_REALTIME);
}

int64_t dw_clock_steady_ms(void)
{
    return read_ms(CLOCK_MONOTONIC);
}
