#include "door/asked.h"

#include <math.h>
#include <stdalign.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static dw_status run(const dw_op *op, const char *lang, const char *json,
                     dw_arena *arena, asked *a)
{
    void *request = dw_arena_take(arena, op->request->bytes);
    void *reply = dw_arena_take(arena, op->reply->bytes);
    dw_call call = {.arena = arena, .err = &a->err, .lang = lang, .device = ""};
    size_t bytes;
    DW_TRY(dw_json_decode(op->request, json, strlen(json), arena, request,
                          &a->err));
    DW_TRY(op->run(&call, request, reply));
    DW_TRY(dw_shape_check(op->reply, reply, &a->err));
    return dw_json_encode(op->reply, reply, arena, &a->text, &bytes);
}

const asked *dw_test_ask(const char *op, const char *lang, const char *json)
{
    static alignas(max_align_t) unsigned char block[1 << 20];
    static asked a;
    dw_arena arena;
    dw_arena_init(&arena, block, sizeof block);
    memset(&a, 0, sizeof a);
    a.text = "";
    const dw_op *found = dw_op_find(op);
    a.status = found ? run(found, lang, json, &arena, &a) : DW_E_NOT_FOUND;
    return &a;
}

double dw_test_number(const asked *a, const char *name, int index)
{
    char key[80];
    snprintf(key, sizeof key, "\"%s\":", name);
    const char *at = strstr(a->text, key);
    if (!at)
        return NAN;
    at += strlen(key);
    at += *at == '[';
    for (int i = 0; i < index && at; i++) {
        at = strchr(at, ',');
        at += at != NULL;
    }
    char *end;
    double value = at ? strtod(at, &end) : NAN;
    return at && end != at ? value : NAN;
}
