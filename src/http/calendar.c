/* GET /calendar/KEY.ics: the calendar for a program that subscribes. The key is
 * what lets it in; such programs cannot sign in. */
#include "http/inner.h"

#include "files/ics.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { KEY_LETTERS = 32 };

/* The body of the job stands where a body that was sent would stand. */
static dw_status write_body(dw_request *request)
{
    const char *name = request->path + strlen("/calendar/");
    size_t letters = strspn(name, "0123456789abcdef");
    char body[KEY_LETTERS + 16];
    if (letters != KEY_LETTERS || strcmp(name + letters, ".ics") != 0)
        return dw_fail(&request->refusal, DW_E_NOT_FOUND, "calendar", NULL);
    int bytes =
        snprintf(body, sizeof body, "{\"secret\":\"%.*s\"}", KEY_LETTERS, name);
    free(request->body);
    request->body = malloc((size_t)bytes + 1);
    if (!request->body)
        return dw_fail(&request->refusal, DW_E_ROOM, "calendar", NULL);
    memcpy(request->body, body, (size_t)bytes + 1);
    request->body_bytes = (size_t)bytes;
    return DW_OK;
}

enum MHD_Result dw_http__calendar(dw_request *request)
{
    const dw_http__file file = {dw_op_find("calendar.feed"), &dw_ics_codec,
                                "text/calendar; charset=utf-8", write_body};
    return dw_http__send_file(request, &file);
}
