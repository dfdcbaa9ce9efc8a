#include "door/out.h"

#include <inttypes.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void dw_out_init(dw_out *out, const dw_arena *arena)
{
    out->at = dw_arena_rest(arena, &out->room);
    out->used = 0;
    out->full = false;
}

static void put(dw_out *out, const char *text, size_t bytes)
{
    if (bytes > out->room - out->used) {
        out->full = true;
        return;
    }
    memcpy(out->at + out->used, text, bytes);
    out->used += bytes;
}

dw_status dw_out_keep(dw_out *out, dw_arena *arena, const char **text,
                      size_t *bytes)
{
    put(out, "", 1);
    if (out->full)
        return DW_E_ROOM;
    dw_arena_keep(arena, out->used);
    *text = out->at;
    *bytes = out->used - 1;
    return DW_OK;
}

void dw_out_raw(dw_out *out, const char *text)
{
    put(out, text, strlen(text));
}

static void put_escaped(dw_out *out, unsigned char c)
{
    char text[8];
    int n = c == '"' || c == '\\' ? snprintf(text, sizeof text, "\\%c", c)
            : c == '\n'           ? snprintf(text, sizeof text, "\\n")
                                  : snprintf(text, sizeof text, "\\u%04x", c);
    put(out, text, (size_t)n);
}

void dw_out_text(dw_out *out, const char *text)
{
    if (!text) {
        dw_out_raw(out, "null");
        return;
    }
    put(out, "\"", 1);
    const char *from = text;
    for (; *text; text++) {
        unsigned char c = (unsigned char)*text;
        if (c >= 0x20 && c != '"' && c != '\\')
            continue;
        put(out, from, (size_t)(text - from));
        put_escaped(out, c);
        from = text + 1;
    }
    put(out, from, (size_t)(text - from));
    put(out, "\"", 1);
}

void dw_out_real(dw_out *out, double value)
{
    char text[40];
    if (!isfinite(value)) {
        dw_out_raw(out, "null");
        return;
    }
    for (int digits = 15; digits <= 17; digits++) {
        snprintf(text, sizeof text, "%.*g", digits, value);
        if (strtod(text, NULL) == value)
            break;
    }
    dw_out_raw(out, text);
}

void dw_out_whole(dw_out *out, int64_t value)
{
    char text[24];
    snprintf(text, sizeof text, "%" PRId64, value);
    dw_out_raw(out, text);
}

void dw_out_name(dw_out *out, const char *name)
{
    if (out->used > 0 && out->at[out->used - 1] != '{')
        put(out, ",", 1);
    dw_out_text(out, name);
    put(out, ":", 1);
}
