#include "gs1.h"

#include "doughwright/day.h"

#include <math.h>
#include <string.h>

typedef struct writing {
    dw_arena *arena;
    dw_err *err;
    dw_gs1_write_reply reply;
} writing;

static dw_status no_room(dw_err *err)
{
    return dw_fail(err, DW_E_ROOM, "label", NULL);
}

/* `value` NULL: the arena was full when it was printed. */
static dw_status add(writing *w, const char *identifier, const char *field,
                     const char *value, int64_t today)
{
    const dw_gs1__identifier *known =
        dw_gs1__find(identifier, strlen(identifier));
    DW_ASSERT(known != NULL && w->reply.elements_count < DW_GS1_ELEMENTS);
    if (!value)
        return no_room(w->err);
    dw_gs1_element *element = &w->reply.elements[w->reply.elements_count];
    *element = (dw_gs1_element){.identifier = identifier, .value = value};
    DW_TRY(dw_gs1__understand(known, field, today, element, w->err));
    w->reply.elements_count++;
    return DW_OK;
}

static size_t digits_of(int64_t value)
{
    size_t count = 1;
    for (; value >= 10; value /= 10)
        count++;
    return count;
}

/* The last `width` digits of a whole number. */
static const char *digits(writing *w, int64_t value, size_t width)
{
    char *text = dw_arena_take(w->arena, width + 1);
    for (size_t i = width; text && i > 0; i--, value /= 10)
        text[i - 1] = (char)('0' + value % 10);
    return text;
}

static dw_status add_gtin(writing *w, const char *gtin)
{
    size_t n = strlen(gtin);
    if (n != 8 && (n < 12 || n > 14))
        return dw_fail_says(w->err, DW_E_SYNTAX, "gtin", gtin,
                            "has 8, 12, 13 or 14 digits");
    char padded[] = "00000000000000";
    memcpy(padded + 14 - n, gtin, n + 1);
    return add(w, "01", "gtin", dw_arena_text(w->arena, padded), 0);
}

static dw_status add_day(writing *w, const char *identifier, const char *field,
                         bool has, int64_t day)
{
    int64_t year;
    int month, d;
    if (!has)
        return DW_OK;
    dw_day_to_date(day, &year, &month, &d);
    if (year < 2000 || year > 2099)
        return dw_fail_range(w->err, field, (double)day,
                             (double)dw_day_from_date(2000, 1, 1),
                             (double)dw_day_from_date(2099, 12, 31));
    return add(w, identifier, field,
               digits(w, (int64_t)(year % 100 * 10000L + month * 100L + d), 6),
               day);
}

/* Six digits with as many decimals as there is room for, three at most. */
static dw_status add_weight(writing *w, double net_kg)
{
    static const char *const codes[] = {"3100", "3101", "3102", "3103"};
    int decimals = 3;
    double scaled = round(net_kg * 1000);
    while (decimals > 0 && scaled > 999999) {
        decimals--;
        scaled = round(scaled / 10);
    }
    if (scaled < 1 || scaled > 999999)
        return dw_fail_range(w->err, "net_kg", net_kg, 0.001, 999999);
    return add(w, codes[decimals], "net_kg", digits(w, (int64_t)scaled, 6), 0);
}

static dw_status add_all(writing *w, const dw_gs1_write_request *r)
{
    DW_TRY(add_gtin(w, r->gtin));
    DW_TRY(add_day(w, "11", "made_day", r->has_made_day, r->made_day));
    DW_TRY(add_day(w, "13", "packed_day", r->has_packed_day, r->packed_day));
    DW_TRY(add_day(w, "15", "best_before_day", r->has_best_before_day,
                   r->best_before_day));
    DW_TRY(add_day(w, "17", "use_by_day", r->has_use_by_day, r->use_by_day));
    if (r->has_net_kg)
        DW_TRY(add_weight(w, r->net_kg));
    if (r->lot)
        DW_TRY(add(w, "10", "lot", r->lot, 0));
    if (r->serial)
        DW_TRY(add(w, "21", "serial", r->serial, 0));
    if (r->has_count)
        DW_TRY(
            add(w, "30", "count", digits(w, r->count, digits_of(r->count)), 0));
    return DW_OK;
}

/* Append, or NULL once the arena was full. */
static const char *joined(writing *w, const char *before, const char *mark,
                          const char *code, const char *between,
                          const char *value)
{
    const char *const parts[] = {before, mark, code, between, value};
    size_t bytes = 1;
    for (size_t i = 0; before && i < DW_COUNT(parts); i++)
        bytes += strlen(parts[i]);
    char *text = before ? dw_arena_take(w->arena, bytes) : NULL;
    size_t used = 0;
    for (size_t i = 0; text && i < DW_COUNT(parts); i++) {
        size_t length = strlen(parts[i]);
        memcpy(text + used, parts[i], length);
        used += length;
    }
    return text;
}

/* A byte as it stands in an address. */
static const char *escaped(writing *w, const char *value)
{
    static const char hex[] = "0123456789ABCDEF";
    char out[3 * 30 + 1];
    size_t n = 0;
    for (; *value; value++) {
        unsigned char c = (unsigned char)*value;
        if (strchr("!\"%&'()*+,/:;<=>?", c)) {
            out[n++] = '%';
            out[n++] = hex[c / 16];
            out[n++] = hex[c % 16];
        } else {
            out[n++] = (char)c;
        }
    }
    out[n] = '\0';
    return dw_arena_text(w->arena, out);
}

/* The order of a path is 01, 10, 21; all else asks for itself. */
static const char *path_of(writing *w)
{
    static const char *const keys[] = {"01", "10", "21"};
    const dw_gs1_write_reply *reply = &w->reply;
    const char *path = "", *mark = "?";
    for (size_t k = 0; k < DW_COUNT(keys); k++)
        for (size_t i = 0; i < reply->elements_count; i++)
            if (strcmp(reply->elements[i].identifier, keys[k]) == 0) {
                const char *value = escaped(w, reply->elements[i].value);
                path = value ? joined(w, path, "/", keys[k], "/", value) : NULL;
            }
    for (size_t i = 0; i < reply->elements_count; i++) {
        const dw_gs1_element *e = &reply->elements[i];
        if (strcmp(e->identifier, "01") == 0 ||
            strcmp(e->identifier, "10") == 0 ||
            strcmp(e->identifier, "21") == 0)
            continue;
        path = joined(w, path, mark, e->identifier, "=", e->value);
        mark = "&";
    }
    return path;
}

dw_status dw_gs1_write(const dw_gs1_write_request *request, dw_arena *arena,
                       dw_err *err, dw_gs1_write_reply *reply)
{
    writing w = {.arena = arena, .err = err};
    w.reply.elements = DW_NEW_ARRAY(arena, dw_gs1_element, DW_GS1_ELEMENTS);
    if (!w.reply.elements)
        return no_room(err);
    DW_TRY(add_all(&w, request));
    w.reply.text = "";
    for (size_t i = 0; i < w.reply.elements_count; i++)
        w.reply.text =
            joined(&w, w.reply.text, "(", w.reply.elements[i].identifier, ")",
                   w.reply.elements[i].value);
    w.reply.path = path_of(&w);
    if (!w.reply.text || !w.reply.path)
        return no_room(err);
    *reply = w.reply;
    return DW_OK;
}
