#include "http/inner.h"

#include "door/json.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

static void add(struct MHD_Response *made, const char *name, const char *value)
{
    if (value)
        MHD_add_response_header(made, name, value);
}

/* The strict headers. No page of ours has a script or a style in its text, is
 * shown inside another site, or loads anything from elsewhere. */
static void add_strict(struct MHD_Response *made)
{
    static const char *const strict[][2] = {
        {"Content-Security-Policy",
         "default-src 'self'; img-src 'self' data: blob:; object-src 'none'; "
         "base-uri 'none'; form-action 'self'; frame-ancestors 'none'"},
        {"X-Content-Type-Options", "nosniff"},
        {"Referrer-Policy", "no-referrer"},
        {"Cross-Origin-Opener-Policy", "same-origin"},
        {"Cross-Origin-Resource-Policy", "same-origin"},
    };
    for (size_t i = 0; i < DW_COUNT(strict); i++)
        add(made, strict[i][0], strict[i][1]);
}

enum MHD_Result dw_http__send_made(dw_request *request, const dw_reply *reply,
                                   struct MHD_Response *made)
{
    if (!made)
        return MHD_NO;
    char now[24];
    snprintf(now, sizeof now, "%" PRId64, request->server->options.now_ms());
    add_strict(made);
    add(made, "Doughwright-Now", now);
    add(made, "Content-Type", reply->type);
    add(made, "Cache-Control", reply->cache ? reply->cache : "no-store");
    add(made, "Content-Encoding", reply->encoding);
    add(made, "Vary", reply->vary);
    add(made, "ETag", reply->tag);
    add(made, "Location", reply->location);
    add(made, "Set-Cookie", reply->cookie);
    add(made, "Allow", reply->allow);
    add(made, "Retry-After", reply->retry_after);
    enum MHD_Result sent =
        MHD_queue_response(request->connection, reply->status, made);
    MHD_destroy_response(made);
    return sent;
}

enum MHD_Result dw_http__send(dw_request *request, const dw_reply *reply)
{
    void *bytes = (void *)(uintptr_t)reply->bytes;
    return dw_http__send_made(
        request, reply,
        MHD_create_response_from_buffer(reply->count, bytes,
                                        reply->kept ? MHD_RESPMEM_PERSISTENT
                                                    : MHD_RESPMEM_MUST_COPY));
}

enum MHD_Result dw_http__send_json(dw_request *request, unsigned status,
                                   const char *text, size_t bytes)
{
    dw_reply reply = {.status = status,
                      .type = "application/json",
                      .bytes = text,
                      .count = bytes};
    return dw_http__send(request, &reply);
}

enum MHD_Result dw_http__send_error(dw_request *request, const dw_err *err)
{
    unsigned char block[8192];
    dw_arena arena;
    dw_arena_init(&arena, block, sizeof block);
    dw_reply reply = {.status = (unsigned)dw_status_http(err->status),
                      .type = "application/json",
                      .allow = request->allow};
    const char *text = "";
    dw_status told =
        dw_json_error(err, request->lang, &arena, &text, &reply.count);
    DW_ASSERT(told == DW_OK);
    char seconds[24];
    if (err->status == DW_E_WAIT) {
        snprintf(seconds, sizeof seconds, "%.0f", err->low);
        reply.retry_after = seconds;
    }
    reply.bytes = text;
    return dw_http__send(request, &reply);
}
