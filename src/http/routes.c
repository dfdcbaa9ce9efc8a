#include "http/inner.h"

#include <string.h>

/* One row for each thing that can be asked for; the first that fits answers, so
 * the narrow ones stand before the wide ones. */
static const dw_route routes[] = {
    {"POST", "/api/login", false, dw_http__login},
    {"POST", "/api/logout", false, dw_http__logout},
    {"GET", "/api/v1/events", true, dw_http__events},
    {"GET", "/api/v1/openapi.json", true, dw_http__openapi},
    {"POST", "/api/v1/*", true, dw_http__call},
    {"GET", "/paper/*", true, dw_http__paper},
    {"GET", "/calendar/*", false, dw_http__calendar}, /* by its key */
    {"GET", "/shop-certificate.pem", false, dw_http__certificate},
    {"GET", "/login", false, dw_http__login_page},
    {"GET", "/*", false, dw_http__page},
};

static bool path_fits(const dw_route *route, const char *path)
{
    size_t n = strlen(route->path);
    if (route->path[n - 1] == '*')
        return strncmp(path, route->path, n - 1) == 0;
    return strcmp(path, route->path) == 0;
}

const dw_route *dw_http__route(const char *method, const char *path,
                               const char **allow)
{
    if (strcmp(method, "HEAD") == 0)
        method = "GET";
    for (size_t i = 0; i < DW_COUNT(routes); i++) {
        if (!path_fits(&routes[i], path))
            continue;
        if (strcmp(routes[i].method, method) == 0)
            return &routes[i];
        *allow = routes[i].method;
        return NULL;
    }
    return NULL;
}
