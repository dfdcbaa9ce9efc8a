#include "http/inner.h"

#include "os/clock.h"

#include "door/json.h"
#include "http/guard.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

enum {
    MIB = 1024 * 1024,
    BODY_MOST = 8 * MIB,
    /* A refused body is read to its end, so that the refusal is seen; beyond
     * this the connection is closed instead. */
    DRAIN_MOST = 32 * MIB,
    BODIES_MOST = 64 * MIB, /* of all requests together */
    BODY_FIRST = 4096
};

const char *dw_http__header(dw_request *request, const char *name)
{
    return MHD_lookup_connection_value(request->connection, MHD_HEADER_KIND,
                                       name);
}

/* --- the head ------------------------------------------------------------ */

typedef struct framing {
    int lengths, encodings, hosts;
    bool digits, known, named;
} framing;

static enum MHD_Result count_framing(void *memory, enum MHD_ValueKind kind,
                                     const char *name, const char *value)
{
    (void)kind;
    framing *seen = memory;
    if (strcasecmp(name, "Content-Length") == 0) {
        seen->lengths++;
        seen->digits = seen->digits && value && dw_guard_digits(value);
    }
    if (strcasecmp(name, "Transfer-Encoding") == 0) {
        seen->encodings++;
        seen->known = seen->known && value && strcasecmp(value, "chunked") == 0;
    }
    seen->hosts += strcasecmp(name, "Host") == 0;
    seen->named = seen->named && !strpbrk(name, " \t");
    return MHD_YES;
}

/* Two readings of where a request ends let one hide inside another. */
static dw_status check_framing(dw_request *request)
{
    framing seen = {0, 0, 0, true, true, true};
    MHD_get_connection_values(request->connection, MHD_HEADER_KIND,
                              count_framing, &seen);
    dw_err *err = &request->refusal;
    if (!seen.named) /* "Content-Length : 5": others may read it as one */
        return dw_fail(err, DW_E_SYNTAX, "header", NULL);
    if (!seen.digits || seen.lengths > 1)
        return dw_fail(err, DW_E_SYNTAX, "Content-Length", NULL);
    if (!seen.known || seen.encodings > 1 ||
        (seen.encodings > 0 && seen.lengths > 0))
        return dw_fail(err, DW_E_SYNTAX, "Transfer-Encoding", NULL);
    if (seen.hosts > 1)
        return dw_fail(err, DW_E_SYNTAX, "Host", NULL);
    return DW_OK;
}

static dw_status too_large(dw_request *request)
{
    dw_fail(&request->refusal, DW_E_TOO_LARGE, "body", NULL);
    request->refusal.ranged = true;
    request->refusal.low = 0;
    request->refusal.high = BODY_MOST;
    return DW_E_TOO_LARGE;
}

static bool is_post(const char *method)
{
    return strcmp(method, MHD_HTTP_METHOD_POST) == 0;
}

static dw_status check_sender(dw_request *request, const char *method)
{
    const dw_server_options *o = &request->server->options;
    dw_err *err = &request->refusal;
    const char *host = dw_http__header(request, "Host");
    if (!dw_guard_host(host, o->names, o->names_count))
        return dw_fail_says(err, DW_E_FORBIDDEN, "Host", host,
                            "is not a name of this server");
    if (!dw_guard_path(request->path))
        return dw_fail(err, DW_E_NOT_FOUND, "path", request->path);
    bool api = strncmp(request->path, "/api/", 5) == 0;
    if ((api || is_post(method)) &&
        !dw_guard_origin(dw_http__header(request, "Origin"),
                         dw_http__header(request, "Sec-Fetch-Site"), host,
                         o->certificate_pem != NULL))
        return dw_fail_says(err, DW_E_FORBIDDEN, "Origin",
                            dw_http__header(request, "Origin"),
                            "is another site; only Doughwright's own pages "
                            "may ask");
    return DW_OK;
}

static dw_status check_route(dw_request *request, const char *method)
{
    dw_err *err = &request->refusal;
    request->route = dw_http__route(method, request->path, &request->allow);
    if (!request->route && request->allow)
        return dw_fail(err, DW_E_METHOD, "method", method);
    if (!request->route)
        return dw_fail(err, DW_E_NOT_FOUND, "path", request->path);
    if (request->route->session && !dw_http__signed_in(request))
        return dw_fail(err, DW_E_LOGIN, "password", NULL);
    if (is_post(method) &&
        !dw_guard_json(dw_http__header(request, "Content-Type")))
        return dw_fail(err, DW_E_MEDIA, "Content-Type",
                       dw_http__header(request, "Content-Type"));
    return DW_OK;
}

/* The first of the languages we speak that the page or the browser names. */
static const char *language(dw_request *request)
{
    const char *told = MHD_lookup_connection_value(
        request->connection, MHD_GET_ARGUMENT_KIND, "lang");
    const char *at = told ? told : dw_http__header(request, "Accept-Language");
    while (at && *at) {
        at += strspn(at, " \t,");
        if (strncasecmp(at, "es", 2) == 0)
            return "es";
        if (strncasecmp(at, "en", 2) == 0)
            return "en";
        at += strcspn(at, ",");
    }
    return "en";
}

static dw_request *new_request(dw_server *server,
                               struct MHD_Connection *connection,
                               const char *path)
{
    dw_request *request = calloc(1, sizeof *request);
    if (!request)
        return NULL;
    const union MHD_ConnectionInfo *info =
        MHD_get_connection_info(connection, MHD_CONNECTION_INFO_SOCKET_CONTEXT);
    request->server = server;
    request->connection = connection;
    request->peer = info->socket_context;
    request->path = path;
    request->lang = language(request);
    server->active++;
    return request;
}

/* Look at the head. What is wrong in it is answered after the body, except when
 * the end of the body is in doubt or far away. */
static enum MHD_Result first(dw_request *request, const char *method)
{
    dw_http__allow(request, (int64_t)6 * request->server->options.patience_ms);
    if (check_framing(request) != DW_OK)
        return dw_http__send_error(request, &request->refusal);
    if (check_sender(request, method) == DW_OK)
        check_route(request, method);
    const char *length = dw_http__header(request, "Content-Length");
    unsigned long long bytes = length ? strtoull(length, NULL, 10) : 0;
    if (bytes > BODY_MOST && request->refusal.status == DW_OK)
        too_large(request);
    if (bytes > DRAIN_MOST)
        return dw_http__send_error(request, &request->refusal);
    return MHD_YES;
}

/* --- the body ------------------------------------------------------------ */

static void drop_body(dw_request *request)
{
    request->server->body_bytes -= request->body_room;
    free(request->body);
    request->body = NULL;
    request->body_bytes = request->body_room = 0;
}

static dw_status make_room(dw_request *request, size_t more)
{
    size_t needed = request->body_bytes + more;
    if (needed > BODY_MOST)
        return too_large(request);
    size_t room = request->body_room ? request->body_room : BODY_FIRST;
    while (room < needed)
        room *= 2;
    if (room == request->body_room)
        return DW_OK;
    size_t added = room - request->body_room;
    if (request->server->body_bytes + added > BODIES_MOST)
        return dw_fail(&request->refusal, DW_E_BUSY, "body", NULL);
    char *body = realloc(request->body, room);
    if (!body)
        return dw_fail(&request->refusal, DW_E_ROOM, "body", NULL);
    request->body = body;
    request->body_room = room;
    request->server->body_bytes += added;
    return DW_OK;
}

static enum MHD_Result take_body(dw_request *request, const char *upload,
                                 size_t bytes)
{
    if (request->refusal.status == DW_OK && make_room(request, bytes) != DW_OK)
        drop_body(request);
    if (request->refusal.status != DW_OK) {
        request->drained += bytes;
        return request->drained > DRAIN_MOST ? MHD_NO : MHD_YES;
    }
    DW_ASSERT(bytes == 0 || request->body);
    if (bytes > 0) /* nothing yet: there may be no body at all */
        memcpy(request->body + request->body_bytes, upload, bytes);
    request->body_bytes += bytes;
    return MHD_YES;
}

/* --- callbacks ----------------------------------------------------------- */

enum MHD_Result dw_http__on_request(void *memory,
                                    struct MHD_Connection *connection,
                                    const char *url, const char *method,
                                    const char *version, const char *upload,
                                    size_t *upload_bytes, void **kept)
{
    (void)version;
    dw_request *request = *kept;
    if (!request) {
        *kept = request = new_request(memory, connection, url);
        return request && request->peer ? first(request, method) : MHD_NO;
    }
    if (*upload_bytes > 0) {
        size_t bytes = *upload_bytes;
        *upload_bytes = 0;
        return take_body(request, upload, bytes);
    }
    if (request->asleep) {
        request->asleep = false;
        request->server->asleep--;
        dw_http__allow(request,
                       (int64_t)6 * request->server->options.patience_ms);
    }
    if (request->refusal.status != DW_OK)
        return dw_http__send_error(request, &request->refusal);
    return request->route->answer(request);
}

void dw_http__on_completed(void *memory, struct MHD_Connection *connection,
                           void **kept, enum MHD_RequestTerminationCode code)
{
    (void)connection;
    (void)code;
    dw_server *server = memory;
    dw_request *request = *kept;
    if (!request)
        return;
    if (request->asleep)
        server->asleep--;
    server->active--;
    dw_http__allow(request, server->options.patience_ms);
    dw_http__login_over(request);
    drop_body(request);
    free(request->reply);
    free(request);
    *kept = NULL;
}

void dw_http__sleep(dw_request *request)
{
    request->asleep = true;
    request->server->asleep++;
    dw_http__allow(request, INT64_MAX);
    MHD_suspend_connection(request->connection);
}

void dw_http__allow(dw_request *request, int64_t ms)
{
    if (!request->peer)
        return;
    request->peer->deadline_ms =
        ms == INT64_MAX ? ms : dw_clock_steady_ms() + ms;
}
