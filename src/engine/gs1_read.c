#include "gs1.h"

#include <string.h>

/* What scanners send for FNC1, and the marks before the data of a GS1-128 and
 * a GS1 DataMatrix symbol (ISO/IEC 15424). */
#define FNC1 '\x1d'
static const char *const marks[] = {"]C1", "]d2"};

typedef struct reading {
    const char *at; /* the next element, as given */
    int64_t today;
    dw_arena *arena;
    dw_err *err;
    dw_gs1_read_reply reply;
} reading;

static dw_status not_read(const reading *r)
{
    return dw_fail_says(r->err, DW_E_SYNTAX, "text", r->at,
                        "is not an element that is known here");
}

static const char *cut(dw_arena *arena, const char *from, size_t bytes)
{
    char *text = dw_arena_take(arena, bytes + 1);
    return text ? memcpy(text, from, bytes) : NULL;
}

/* "(01)value": to the next bracket that opens a known identifier. */
static size_t bracketed_length(const char *value)
{
    for (size_t n = 0;; n++) {
        if (value[n] == '\0')
            return n;
        const char *close = value[n] == '(' ? strchr(value + n, ')') : NULL;
        if (!close)
            continue;
        size_t code = (size_t)(close - (value + n + 1));
        const dw_gs1__identifier *known = dw_gs1__find(value + n + 1, code);
        if (known && strlen(known->code) == code)
            return n;
    }
}

static size_t plain_length(const dw_gs1__identifier *known, const char *value)
{
    const char *end = strchr(value, FNC1);
    size_t rest = end ? (size_t)(end - value) : strlen(value);
    return !known->closed && rest > known->most ? known->most : rest;
}

static dw_status next(reading *r)
{
    bool bracket = *r->at == '(';
    const char *code = r->at + bracket;
    const dw_gs1__identifier *known = dw_gs1__find(code, strlen(code));
    if (!known || r->reply.elements_count == DW_GS1_ELEMENTS)
        return not_read(r);
    size_t code_length = strlen(known->code);
    const char *value = code + code_length;
    if (bracket && *value++ != ')')
        return not_read(r);
    size_t length =
        bracket ? bracketed_length(value) : plain_length(known, value);
    dw_gs1_element *element = &r->reply.elements[r->reply.elements_count];
    *element = (dw_gs1_element){.identifier = cut(r->arena, code, code_length),
                                .value = cut(r->arena, value, length)};
    if (!element->identifier || !element->value)
        return dw_fail(r->err, DW_E_ROOM, "label", NULL);
    DW_TRY(dw_gs1__understand(known, "text", r->today, element, r->err));
    r->reply.elements_count++;
    r->at = value + length;
    if (*r->at == FNC1)
        r->at++;
    return DW_OK;
}

static bool has_one_of(const dw_gs1_read_reply *reply, const char *list)
{
    for (size_t i = 0; i < reply->elements_count; i++)
        if (strstr(list, reply->elements[i].identifier))
            return true;
    return false;
}

static dw_status check_needs(const reading *r)
{
    for (size_t i = 0; i < r->reply.elements_count; i++) {
        const char *code = r->reply.elements[i].identifier;
        const dw_gs1__identifier *known = dw_gs1__find(code, strlen(code));
        if (known->needs && !has_one_of(&r->reply, known->needs))
            return dw_fail_says(r->err, DW_E_MISSING, "text", code,
                                "needs the number of the goods beside it");
    }
    return DW_OK;
}

dw_status dw_gs1_read(const dw_gs1_read_request *request, dw_arena *arena,
                      dw_err *err, dw_gs1_read_reply *reply)
{
    reading r = {.at = request->text,
                 .today = request->today,
                 .arena = arena,
                 .err = err};
    r.reply.elements = DW_NEW_ARRAY(arena, dw_gs1_element, DW_GS1_ELEMENTS);
    if (!r.reply.elements)
        return dw_fail(err, DW_E_ROOM, "label", NULL);
    for (size_t i = 0; i < DW_COUNT(marks); i++)
        if (strncmp(r.at, marks[i], 3) == 0)
            r.at += 3;
    if (*r.at == FNC1)
        r.at++;
    if (!*r.at)
        return not_read(&r);
    while (*r.at)
        DW_TRY(next(&r));
    DW_TRY(check_needs(&r));
    *reply = r.reply;
    return DW_OK;
}
