#include "http/inner.h"

#include "http/assets.h"

#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static enum MHD_Result not_found(dw_request *request)
{
    dw_fail(&request->refusal, DW_E_NOT_FOUND, "path", request->path);
    return dw_http__send_error(request, &request->refusal);
}

/* An open regular file below the folder of pages, or -1. The path has passed
 * dw_guard_path, so it does not climb out. */
static int open_file(const char *folder, const char *path, uint64_t *bytes)
{
    char name[1024];
    struct stat about;
    int n = snprintf(name, sizeof name, "%s%s", folder, path);
    int fd = n < (int)sizeof name ? open(name, O_RDONLY | O_CLOEXEC) : -1;
    if (fd < 0)
        return -1;
    if (fstat(fd, &about) != 0 || !S_ISREG(about.st_mode)) {
        close(fd);
        return -1;
    }
    *bytes = (uint64_t)about.st_size;
    return fd;
}

/* Does the browser take gzip? "gzip;q=0" says no. */
static bool takes_gzip(dw_request *request)
{
    const char *list = dw_http__header(request, "Accept-Encoding");
    const char *at = list ? strstr(list, "gzip") : NULL;
    return at && strncmp(at, "gzip;q=0", 8) != 0;
}

static enum MHD_Result send_built_in(dw_request *request, const char *path)
{
    const dw_asset *asset = dw_assets_find(path);
    if (!asset)
        return not_found(request);
    bool packed = asset->packed && takes_gzip(request);
    const unsigned char *begin = packed ? asset->packed : asset->begin;
    const unsigned char *end = packed ? asset->packed_end : asset->end;
    dw_reply reply = {.status = MHD_HTTP_OK,
                      .type = dw_assets_type(path),
                      .bytes = begin,
                      .count = (size_t)(end - begin),
                      .kept = true,
                      .cache = dw_assets_cache(path),
                      .tag = packed ? asset->packed_tag : asset->tag,
                      .encoding = packed ? "gzip" : NULL,
                      .vary = asset->packed ? "Accept-Encoding" : NULL};
    const char *known = dw_http__header(request, "If-None-Match");
    if (known && strstr(known, reply.tag)) {
        reply.status = MHD_HTTP_NOT_MODIFIED;
        reply.count = 0;
    }
    return dw_http__send(request, &reply);
}

/* While the pages are being written they come from a folder and are never kept;
 * what the build makes (catalogues) is built in all the same. */
static enum MHD_Result send_asset(dw_request *request, const char *path)
{
    const char *folder = request->server->options.web_dir;
    uint64_t bytes = 0;
    int fd = folder ? open_file(folder, path, &bytes) : -1;
    if (fd < 0)
        return send_built_in(request, path);
    dw_reply reply = {.status = MHD_HTTP_OK, .type = dw_assets_type(path)};
    return dw_http__send_made(request, &reply,
                              MHD_create_response_from_fd64(bytes, fd));
}

enum MHD_Result dw_http__login_page(dw_request *request)
{
    return send_asset(request, "/login.html");
}

/* The sign-in page, which leads back to where somebody wanted to go: the
 * fragment, percent-encoded (RFC 3986 section 3.5). A path that is too long to
 * fit is forgotten. */
static void sign_in_from(const char *path, char *location, size_t room)
{
    static const char plain[] = "abcdefghijklmnopqrstuvwxyz"
                                "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-._~/";
    size_t at = (size_t)snprintf(location, room, "/login#");
    for (const char *c = path; *c; c++) {
        if (at + 4 > room) {
            snprintf(location, room, "/login");
            return;
        }
        at += (size_t)snprintf(location + at, room - at,
                               strchr(plain, *c) ? "%c" : "%%%02X",
                               (unsigned char)*c);
    }
}

enum MHD_Result dw_http__page(dw_request *request)
{
    char location[512];
    if (strncmp(request->path, "/api/", 5) == 0)
        return not_found(request);
    if (!dw_assets_is_page(request->path))
        return send_asset(request, request->path);
    if (dw_http__signed_in(request))
        return send_asset(request, "/index.html");
    sign_in_from(request->path, location, sizeof location);
    dw_reply reply = {.status = MHD_HTTP_SEE_OTHER, .location = location};
    return dw_http__send(request, &reply);
}

enum MHD_Result dw_http__certificate(dw_request *request)
{
    const char *pem = request->server->options.ca_pem;
    if (!pem)
        return not_found(request);
    dw_reply reply = {.status = MHD_HTTP_OK,
                      .type = "application/x-pem-file",
                      .bytes = pem,
                      .count = strlen(pem),
                      .kept = true};
    return dw_http__send(request, &reply);
}
