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
 * shown inside another site, or loads anything from elsewhere. What governs a
 * document says nothing of a script, and a script or a font is the same for
 * everybody, nothing to hide from another site: the forty small files of a page
 * go without. */
static void add_strict(struct MHD_Response *made, const char *type)
{
    static const struct {
        const char *name, *value;
    } documents[] = {
        {"Content-Security-Policy",
         "default-src 'self'; img-src 'self' data: blob:; object-src 'none'; "
         "base-uri 'none'; form-action 'self'; frame-ancestors 'none'"},
        {"Referrer-Policy", "no-referrer"},
        {"Cross-Origin-Resource-Policy", "same-origin"},
        {"Cross-Origin-Opener-Policy", "same-origin"},
    };
    bool part = type && (strncmp(type, "text/javascript", 15) == 0 ||
                         strncmp(type, "text/css", 8) == 0 ||
                         strncmp(type, "font/", 5) == 0);
    add(made, "X-Content-Type-Options", "nosniff");
    for (size_t i = 0; !part && i < DW_COUNT(documents); i++)
        add(made, documents[i].name, documents[i].value);
}

enum MHD_Result dw_http__send_made(dw_request *request, const dw_reply *reply,
                                   struct MHD_Response *made)
{
    if (!made)
        return MHD_NO;
    char now[24];
    snprintf(now, sizeof now, "%" PRId64, request->server->options.now_ms());
    add_strict(made, reply->type);
    if (!reply->tag)
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

enum MHD_Result dw_http__send_file(dw_request *request,
                                   const dw_http__file *file)
{
    dw_job *job = &request->job;
    if (!request->asked) {
        job->op = file->op;
        job->codec = file->codec;
        if (file->write_body(request) != DW_OK)
            return dw_http__send_error(request, &request->refusal);
        return dw_http__submit(request);
    }
    if (job->status != DW_OK)
        return dw_http__send_error(request, &job->err);
    dw_reply reply = {.status = MHD_HTTP_OK,
                      .type = file->type,
                      .bytes = request->reply,
                      .count = job->reply_bytes};
    return dw_http__send(request, &reply);
}
