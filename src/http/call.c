#include "http/inner.h"

#include "door/openapi.h"
#include "http/guard.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

enum { DEVICE_BYTES = 64, KEY_BYTES = 128 };

/* The reply is the worker's and goes with it. */
static void keep_reply(dw_job *job)
{
    dw_request *request = job->owner;
    if (job->status != DW_OK)
        return;
    request->reply = malloc(job->reply_bytes + 1);
    if (request->reply)
        memcpy(request->reply, job->reply, job->reply_bytes);
    else
        job->status = dw_fail(&job->err, DW_E_ROOM, "reply", NULL);
}

/* On a worker thread. */
static void done(dw_job *job)
{
    keep_reply(job);
    dw_http__wake(job->owner);
}

static dw_status read_text(dw_request *request, const char *name, size_t most,
                           const char **out)
{
    const char *text = dw_http__header(request, name);
    size_t bytes = text ? strlen(text) : 0;
    if (!dw_text_valid(text ? text : "", bytes))
        return dw_fail_says(&request->refusal, DW_E_SYNTAX, name, NULL,
                            "is not valid UTF-8 text");
    DW_TRY(dw_check_range(&request->refusal, name, (double)bytes, 0,
                          (double)most));
    *out = text ? text : "";
    return DW_OK;
}

static dw_status read_whole(dw_request *request, const char *name, int64_t *out)
{
    const char *text = dw_http__header(request, name);
    if (!text)
        return DW_OK;
    if (!dw_guard_digits(text))
        return dw_fail(&request->refusal, DW_E_TYPE, name, text);
    errno = 0;
    long long value = strtoll(text, NULL, 10);
    DW_TRY(dw_check_range(&request->refusal, name,
                          errno ? 1e300 : (double)value, 0,
                          9007199254740991.0));
    *out = value;
    return DW_OK;
}

static dw_status read_job(dw_request *request)
{
    dw_job *job = &request->job;
    const char *name = request->path + strlen("/api/v1/");
    job->op = dw_op_find(name);
    if (!job->op)
        return dw_fail(&request->refusal, DW_E_NOT_FOUND, "operation", name);
    DW_TRY(
        read_text(request, "Doughwright-Device", DEVICE_BYTES, &job->device));
    DW_TRY(read_text(request, "Idempotency-Key", KEY_BYTES, &job->key));
    DW_TRY(read_whole(request, "Doughwright-Person", &job->person_id));
    DW_TRY(read_whole(request, "Doughwright-Occurred", &job->occurred_ms));
    return DW_OK;
}

static void fill_job(dw_request *request, void (*then)(dw_job *job))
{
    dw_job *job = &request->job;
    job->body = request->body ? request->body : "";
    job->body_bytes = request->body_bytes;
    job->lang = request->lang;
    job->done = then;
    job->owner = request;
    request->asked = true;
}

enum MHD_Result dw_http__submit(dw_request *request)
{
    dw_job *job = &request->job;
    fill_job(request, done);
    dw_http__sleep(request);
    dw_app_submit(request->server->options.app, job);
    return MHD_YES;
}

enum MHD_Result dw_http__call(dw_request *request)
{
    dw_job *job = &request->job;
    if (!request->asked) {
        if (read_job(request) != DW_OK)
            return dw_http__send_error(request, &request->refusal);
        fill_job(request, keep_reply);
        if (!dw_app_answer(request->server->options.app, job))
            return dw_http__submit(request);
    }
    if (job->status != DW_OK)
        return dw_http__send_error(request, &job->err);
    return dw_http__send_json(request, MHD_HTTP_OK, request->reply,
                              job->reply_bytes);
}

/* Some hundred kilobytes, written anew each time: it is asked for by people. */
enum MHD_Result dw_http__openapi(dw_request *request)
{
    enum { BYTES = 4 << 20 };
    void *block = malloc(BYTES);
    const char *text;
    size_t bytes;
    dw_arena arena;
    if (block)
        dw_arena_init(&arena, block, BYTES);
    if (!block || dw_openapi(&arena, &text, &bytes) != DW_OK) {
        free(block);
        dw_fail(&request->refusal, DW_E_ROOM, "reply", NULL);
        return dw_http__send_error(request, &request->refusal);
    }
    enum MHD_Result sent =
        dw_http__send_json(request, MHD_HTTP_OK, text, bytes);
    free(block);
    return sent;
}
