/* The machine's own addresses and name.
 */
#ifndef DW_OS_NET_H
#define DW_OS_NET_H

#include "doughwright/base.h"

/* Is it a numeric IPv4 or IPv6 address? */
bool dw_net_is_address(const char *text);
/* Is this numeric IPv4 or IPv6 address one that only this machine reaches? */
bool dw_net_is_loopback(const char *address);
/* Is it "every address", 0.0.0.0 or ::? */
bool dw_net_is_any(const char *address);
/* What others on the network may call this machine: the addresses of its
 * interfaces, loopback and link-local ones left out, its host name and that
 * with ".local". In the arena. DW_E_ROOM, DW_E_IO. */
dw_status dw_net_names(dw_arena *arena, const char *const **names,
                       size_t *count, dw_err *err);

#endif
