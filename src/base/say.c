#include "doughwright/say.h"

#include "base/catalogue.h"

#include <string.h>

static bool is_spanish(const char *lang)
{
    return lang && strncmp(lang, "es", 2) == 0;
}

const char *dw_say_sentence(const char *lang, const char *msgid)
{
    if (!is_spanish(lang) ||
        !*msgid) /* the empty id is the catalogue's header */
        return msgid;
    const dw_mo spanish = {dw_catalogue_es, dw_catalogue_es_bytes};
    const char *translation = dw_mo_find(&spanish, msgid);
    return translation ? translation : msgid;
}

typedef struct line {
    char *out;
    size_t room, used;
} line;

static void put(line *to, const char *text, size_t bytes)
{
    size_t left = to->room - 1 - to->used;
    if (bytes > left) {
        bytes = left;
        while (bytes > 0 && ((unsigned char)text[bytes] & 0xC0) == 0x80)
            bytes--;
        to->room = to->used + bytes + 1; /* what follows the cut is dropped */
    }
    memcpy(to->out + to->used, text, bytes);
    to->used += bytes;
}

static void put_value(line *to, const char *lang, const dw_value *value)
{
    char number[40];
    const char *text = value->text;
    if (!text) {
        dw_text_number(number, sizeof number, value->number, 9);
        text = number;
    }
    put(to, text, strlen(text));
}

static const dw_value *find(const dw_value *values, size_t count,
                            const char *name, size_t bytes)
{
    for (size_t i = 0; i < count; i++)
        if (strlen(values[i].name) == bytes &&
            memcmp(values[i].name, name, bytes) == 0)
            return &values[i];
    return NULL;
}

size_t dw_say(char *out, size_t room, const char *lang, const char *msgid,
              const dw_value *values, size_t count)
{
    DW_ASSERT(room > 0);
    line to = {out, room, 0};
    const char *at = dw_say_sentence(lang, msgid);
    while (*at) {
        size_t plain = strcspn(at, "{");
        put(&to, at, plain);
        at += plain;
        const char *close = *at ? strchr(at, '}') : NULL;
        if (!close) {
            put(&to, at, strlen(at));
            break;
        }
        size_t name = (size_t)(close - at) - 1;
        const dw_value *value = find(values, count, at + 1, name);
        if (value)
            put_value(&to, lang, value);
        else
            put(&to, at, name + 2);
        at = close + 1;
    }
    out[to.used] = '\0';
    return to.used;
}

char *dw_say_in(dw_arena *arena, const char *lang, const char *msgid,
                const dw_value *values, size_t count)
{
    char text[1024];
    dw_say(text, sizeof text, lang, msgid, values, count);
    return dw_arena_text(arena, text);
}
