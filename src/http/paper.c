/* GET /paper/WHAT.pdf?id=...: a sheet or labels as PDF. The query holds the
 * members of the request; it is drawn on a worker thread while we sleep. */
#include "http/inner.h"

#include "door/out.h"
#include "http/guard.h"
#include "paper/paper.h"

#include <stdlib.h>
#include <string.h>

enum { BODY_BYTES = 2048 };

typedef struct query {
    dw_out out;
    dw_err *err;
    dw_status status;
} query;

/* A member of the query as JSON: numbers and objects stay, all else is a text
 * that the door then holds against its field. */
static enum MHD_Result take_member(void *memory, enum MHD_ValueKind kind,
                                   const char *name, const char *value)
{
    query *in = memory;
    (void)kind;
    const char *given = value ? value : "";
    if (strcmp(name, "lang") == 0) /* the request's own */
        return MHD_YES;
    if (!dw_text_valid(name, strlen(name)) ||
        !dw_text_valid(given, strlen(given))) {
        in->status = dw_fail(in->err, DW_E_SYNTAX, "query", NULL);
        return MHD_NO;
    }
    dw_out_name(&in->out, name);
    if (dw_guard_digits(given) && strlen(given) <= 15)
        dw_out_whole(&in->out, strtoll(given, NULL, 10));
    else if (given[0] == '{')
        dw_out_raw(&in->out, given);
    else
        dw_out_text(&in->out, given);
    return MHD_YES;
}

/* "batch" of "/paper/batch.pdf" */
static dw_status take_what(dw_request *request, char *what, size_t room)
{
    const char *name = request->path + strlen("/paper/");
    size_t bytes = strcspn(name, ".");
    if (strcmp(name + bytes, ".pdf") != 0 || bytes == 0 || bytes >= room)
        return dw_fail(&request->refusal, DW_E_NOT_FOUND, "paper", name);
    memcpy(what, name, bytes);
    what[bytes] = '\0';
    return dw_words_find(dw_paper_words, what) >= 0
               ? DW_OK
               : dw_fail(&request->refusal, DW_E_NOT_FOUND, "paper", what);
}

/* The body of the job stands where a body that was sent would stand. */
static dw_status write_body(dw_request *request)
{
    char what[32], block[BODY_BYTES];
    const char *text;
    dw_arena arena;
    DW_TRY(take_what(request, what, sizeof what));
    dw_arena_init(&arena, block, sizeof block);
    query in = {.err = &request->refusal, .status = DW_OK};
    dw_out_init(&in.out, &arena);
    dw_out_raw(&in.out, "{");
    dw_out_name(&in.out, "what");
    dw_out_text(&in.out, what);
    MHD_get_connection_values(request->connection, MHD_GET_ARGUMENT_KIND,
                              take_member, &in);
    DW_TRY(in.status);
    dw_out_raw(&in.out, "}");
    if (dw_out_keep(&in.out, &arena, &text, &request->body_bytes) != DW_OK)
        return dw_fail(&request->refusal, DW_E_TOO_LARGE, "query", NULL);
    free(request->body);
    request->body = malloc(request->body_bytes + 1);
    if (!request->body)
        return dw_fail(&request->refusal, DW_E_ROOM, "query", NULL);
    memcpy(request->body, text, request->body_bytes + 1);
    return DW_OK;
}

enum MHD_Result dw_http__paper(dw_request *request)
{
    const dw_http__file file = {&dw_paper_op, &dw_paper_codec,
                                "application/pdf", write_body};
    return dw_http__send_file(request, &file);
}
