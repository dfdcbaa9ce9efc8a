#include "http/guard.h"

#include <ctype.h>
#include <string.h>
#include <strings.h>

bool dw_guard_digits(const char *text)
{
    return *text && text[strspn(text, "0123456789")] == '\0';
}

/* Bytes of the host without its port; 0 when what follows is not a port. */
static size_t host_bytes(const char *host)
{
    size_t n = strcspn(host, ":");
    if (host[0] == '[') {
        const char *end = strchr(host, ']');
        n = end ? (size_t)(end - host) + 1 : 0;
    }
    if (n == 0 || host[n] == '\0')
        return n;
    return host[n] == ':' && dw_guard_digits(host + n + 1) ? n : 0;
}

static bool names_it(const char *host, size_t bytes, const char *name)
{
    if (host[0] == '[' && name[0] != '[') {
        host++;
        bytes -= 2;
    }
    return strlen(name) == bytes && strncasecmp(host, name, bytes) == 0;
}

bool dw_guard_host(const char *host, const char *const *names, size_t count)
{
    static const char *const loopback[] = {"localhost", "127.0.0.1", "[::1]"};
    if (!host)
        return false;
    size_t bytes = host_bytes(host);
    if (bytes == 0)
        return false;
    for (size_t i = 0; i < sizeof loopback / sizeof loopback[0]; i++)
        if (names_it(host, bytes, loopback[i]))
            return true;
    for (size_t i = 0; i < count; i++)
        if (names_it(host, bytes, names[i]))
            return true;
    return false;
}

bool dw_guard_origin(const char *origin, const char *site, const char *host,
                     bool tls)
{
    if (site && strcmp(site, "same-origin") != 0 && strcmp(site, "none") != 0)
        return false;
    if (!origin)
        return true;
    const char *scheme = tls ? "https://" : "http://";
    size_t n = strlen(scheme);
    return strncasecmp(origin, scheme, n) == 0 &&
           strcasecmp(origin + n, host) == 0;
}

bool dw_guard_json(const char *content_type)
{
    static const char wanted[] = "application/json";
    size_t n = sizeof wanted - 1;
    if (!content_type || strncasecmp(content_type, wanted, n) != 0)
        return false;
    const char *rest = content_type + n + strspn(content_type + n, " \t");
    return *rest == '\0' || *rest == ';';
}

bool dw_guard_path(const char *path)
{
    if (path[0] != '/')
        return false;
    for (const char *at = path; *at; at++) {
        bool start = at > path && at[-1] == '/';
        if (start && (*at == '.' || *at == '/'))
            return false;
        if (*at == '\\' || iscntrl((unsigned char)*at))
            return false;
    }
    return true;
}
