#include "http/lockout.h"

#include <stdio.h>
#include <string.h>

/* The place of an address, or -1. */
static int place_of(const dw_lockout *lockout, const char *address)
{
    for (int i = 0; i < DW_LOCKOUT_PLACES; i++)
        if (lockout->places[i].failures > 0 &&
            strcmp(lockout->places[i].address, address) == 0)
            return i;
    return -1;
}

static int place_to_use(const dw_lockout *lockout)
{
    int best = 0;
    for (int i = 0; i < DW_LOCKOUT_PLACES; i++) {
        if (lockout->places[i].failures == 0)
            return i;
        if (lockout->places[i].until_ms < lockout->places[best].until_ms)
            best = i;
    }
    return best;
}

int64_t dw_lockout_wait_ms(const dw_lockout *lockout, const char *address,
                           int64_t now_ms)
{
    int place = place_of(lockout, address);
    if (place < 0 || lockout->places[place].until_ms <= now_ms)
        return 0;
    return lockout->places[place].until_ms - now_ms;
}

static int64_t delay_ms(int failures)
{
    int64_t ms = 1000;
    for (int i = DW_LOCKOUT_FREE + 1; i < failures; i++) {
        ms *= 2;
        if (ms >= DW_LOCKOUT_LONGEST_MS)
            return DW_LOCKOUT_LONGEST_MS;
    }
    return failures > DW_LOCKOUT_FREE ? ms : 0;
}

void dw_lockout_failed(dw_lockout *lockout, const char *address, int64_t now_ms)
{
    int place = place_of(lockout, address);
    if (place < 0) {
        place = place_to_use(lockout);
        memset(&lockout->places[place], 0, sizeof lockout->places[place]);
        snprintf(lockout->places[place].address,
                 sizeof lockout->places[place].address, "%s", address);
    }
    int failures = ++lockout->places[place].failures;
    lockout->places[place].until_ms = now_ms + delay_ms(failures);
}

void dw_lockout_forgive(dw_lockout *lockout, const char *address)
{
    int place = place_of(lockout, address);
    if (place >= 0)
        lockout->places[place].failures = 0;
}
