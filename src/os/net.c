#include "os/net.h"

#include <arpa/inet.h>
#include <errno.h>
#include <ifaddrs.h>
#include <netinet/in.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

enum { NAMES_MOST = 64 };

bool dw_net_is_address(const char *text)
{
    unsigned char bytes[sizeof(struct in6_addr)];
    return inet_pton(AF_INET, text, bytes) == 1 ||
           inet_pton(AF_INET6, text, bytes) == 1;
}

bool dw_net_is_loopback(const char *address)
{
    struct in_addr v4;
    struct in6_addr v6;
    if (inet_pton(AF_INET, address, &v4) == 1)
        return (ntohl(v4.s_addr) >> 24) == IN_LOOPBACKNET;
    return inet_pton(AF_INET6, address, &v6) == 1 && IN6_IS_ADDR_LOOPBACK(&v6);
}

bool dw_net_is_any(const char *address)
{
    struct in_addr v4;
    struct in6_addr v6;
    if (inet_pton(AF_INET, address, &v4) == 1)
        return v4.s_addr == htonl(INADDR_ANY);
    return inet_pton(AF_INET6, address, &v6) == 1 &&
           IN6_IS_ADDR_UNSPECIFIED(&v6);
}

/* The text of an interface's address, or NULL for one that is of no use. */
static const char *address_text(const struct sockaddr *from, char *out,
                                socklen_t room)
{
    if (from && from->sa_family == AF_INET)
        return inet_ntop(AF_INET, &((const struct sockaddr_in *)from)->sin_addr,
                         out, room);
    if (!from || from->sa_family != AF_INET6)
        return NULL;
    const struct in6_addr *v6 = &((const struct sockaddr_in6 *)from)->sin6_addr;
    if (IN6_IS_ADDR_LINKLOCAL(v6))
        return NULL;
    return inet_ntop(AF_INET6, v6, out, room);
}

typedef struct names {
    dw_arena *arena;
    const char **list;
    size_t count;
} names;

static dw_status add(names *to, const char *text, dw_err *err)
{
    if (to->count == NAMES_MOST)
        return DW_OK;
    to->list[to->count] = dw_arena_text(to->arena, text);
    if (!to->list[to->count])
        return dw_fail(err, DW_E_ROOM, "names", NULL);
    to->count++;
    return DW_OK;
}

static dw_status add_addresses(names *to, const struct ifaddrs *interfaces,
                               dw_err *err)
{
    char text[INET6_ADDRSTRLEN];
    for (const struct ifaddrs *at = interfaces; at; at = at->ifa_next)
        if (address_text(at->ifa_addr, text, sizeof text) &&
            !dw_net_is_loopback(text))
            DW_TRY(add(to, text, err));
    return DW_OK;
}

static dw_status add_host(names *to, dw_err *err)
{
    char host[256], local[256 + 8];
    if (gethostname(host, sizeof host) != 0 || !*host)
        return DW_OK;
    host[sizeof host - 1] = '\0';
    DW_TRY(add(to, host, err));
    if (strchr(host, '.'))
        return DW_OK;
    snprintf(local, sizeof local, "%s.local", host);
    return add(to, local, err);
}

dw_status dw_net_names(dw_arena *arena, const char *const **list, size_t *count,
                       dw_err *err)
{
    names to = {arena, DW_NEW_ARRAY(arena, const char *, NAMES_MOST), 0};
    if (!to.list)
        return dw_fail(err, DW_E_ROOM, "names", NULL);
    struct ifaddrs *interfaces;
    if (getifaddrs(&interfaces) != 0)
        return dw_fail(err, DW_E_IO, "names", strerror(errno));
    dw_status status = add_addresses(&to, interfaces, err);
    freeifaddrs(interfaces);
    DW_TRY(status);
    DW_TRY(add_host(&to, err));
    *list = to.list;
    *count = to.count;
    return DW_OK;
}
