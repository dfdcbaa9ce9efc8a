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

/* While the pages are being written: from the folder, never kept. The path has
 * passed dw_guard_path, so it stays below the folder. */
static enum MHD_Result send_file(dw_request *request, const char *path)
{
    char name[1024];
    int n = snprintf(name, sizeof name, "%s%s",
                     request->server->options.web_dir, path);
    int fd = n < (int)sizeof name ? open(name, O_RDONLY | O_CLOEXEC) : -1;
    struct stat about;
    if (fd < 0)
        return not_found(request);
    if (fstat(fd, &about) != 0 || !S_ISREG(about.st_mode)) {
        close(fd);
        return not_found(request);
    }
    dw_reply reply = {.status = MHD_HTTP_OK, .type = dw_assets_type(path)};
    return dw_http__send_made(
        request, &reply,
        MHD_create_response_from_fd64((uint64_t)about.st_size, fd));
}

/* Does the browser take gzip? "gzip;q=0" says no. */
static bool takes_gzip(dw_request *request)
{
    const char *list = dw_http__header(request, "Accept-Encoding");
    const char *at = list ? strstr(list, "gzip") : NULL;
    return at && strncmp(at, "gzip;q=0", 8) != 0;
}

/* Made at build time, even when the pages come from a folder. */
static bool is_made(const char *path)
{
    return strncmp(path, "/lang/", 6) == 0 || strcmp(path, "/shell.js") == 0;
}

static enum MHD_Result send_asset(dw_request *request, const char *path)
{
    const dw_asset *asset = dw_assets_find(path);
    if (request->server->options.web_dir && !(asset && is_made(path)))
        return send_file(request, path);
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

enum MHD_Result dw_http__login_page(dw_request *request)
{
    return send_asset(request, "/login.html");
}

/* English is what the pages are written in: it needs no catalogue. */
enum MHD_Result dw_http__catalogue(dw_request *request)
{
    if (strcmp(request->path, "/lang/en.json") == 0)
        return dw_http__send_json(request, MHD_HTTP_OK, "{}", 2);
    return send_asset(request, request->path);
}

enum MHD_Result dw_http__page(dw_request *request)
{
    if (strncmp(request->path, "/api/", 5) == 0)
        return not_found(request);
    if (!dw_assets_is_page(request->path))
        return send_asset(request, request->path);
    if (dw_http__signed_in(request))
        return send_asset(request, "/index.html");
    dw_reply reply = {.status = MHD_HTTP_SEE_OTHER, .location = "/login"};
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
