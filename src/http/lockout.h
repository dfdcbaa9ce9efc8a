/* After wrong passwords an address has to wait, longer each time.
 *
 * Two mistakes are free; from the third on the wait is 1, 2, 4, ... s, at most
 * 300 s. The right password forgives. Addresses beyond the room of the table
 * push out the one whose wait ended first. No clock: the caller brings the time
 * (steady, ms).
 */
#ifndef DW_HTTP_LOCKOUT_H
#define DW_HTTP_LOCKOUT_H

#include <stdbool.h>
#include <stdint.h>

enum {
    DW_LOCKOUT_PLACES = 64,
    DW_LOCKOUT_FREE = 2,
    DW_LOCKOUT_LONGEST_MS = 300000
};

typedef struct dw_lockout {
    struct {
        char address[64];
        int failures; /* 0: the place is free */
        int64_t until_ms;
    } places[DW_LOCKOUT_PLACES];
} dw_lockout;

/* How long this address must still wait, 0 when it may try. */
int64_t dw_lockout_wait_ms(const dw_lockout *lockout, const char *address,
                           int64_t now_ms);
void dw_lockout_failed(dw_lockout *lockout, const char *address,
                       int64_t now_ms);
void dw_lockout_forgive(dw_lockout *lockout, const char *address);

#endif
