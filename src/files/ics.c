#include "files/ics.h"

#include "door/json.h"
#include "doughwright/day.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

enum { LINE_OCTETS = 75 };
static const int64_t DAY_MS = 86400000;

/* Text grows at the arena's free end; nothing else is taken meanwhile. */
typedef struct writer {
    char *text;
    size_t room, used, column;
    bool full;
} writer;

static void put_octet(writer *out, char c)
{
    if (out->used + 1 >= out->room) {
        out->full = true;
        return;
    }
    out->text[out->used++] = c;
}

/* One character, of so many octets, with a fold before it when it does not fit
 * (section 3.1). */
static void put_character(writer *out, const char *text, size_t octets)
{
    if (out->column + octets > LINE_OCTETS) {
        put_octet(out, '\r');
        put_octet(out, '\n');
        put_octet(out, ' ');
        out->column = 1;
    }
    for (size_t i = 0; i < octets; i++)
        put_octet(out, text[i]);
    out->column += octets;
}

static size_t octets_of(const char *text)
{
    size_t n = 1;
    while (((unsigned char)text[n] & 0xc0) == 0x80)
        n++;
    return n;
}

static void put(writer *out, const char *text)
{
    for (size_t n; *text; text += n) {
        n = octets_of(text);
        put_character(out, text, n);
    }
}

static void end_line(writer *out)
{
    put_octet(out, '\r');
    put_octet(out, '\n');
    out->column = 0;
}

static void put_line(writer *out, const char *name, const char *value)
{
    put(out, name);
    put(out, ":");
    put(out, value);
    end_line(out);
}

/* A TEXT value: \ ; , and line ends are escaped (section 3.3.11). */
static void put_text(writer *out, const char *name, const char *value)
{
    put(out, name);
    put(out, ":");
    for (size_t n; *value; value += n) {
        n = octets_of(value);
        if (*value == '\n' || *value == '\r')
            put(out, *value == '\n' ? "\\n" : "");
        else if (strchr("\\;,", *value))
            put_character(out, (char[]){'\\', *value}, 2);
        else
            put_character(out, value, n);
    }
    end_line(out);
}

static void put_moment(writer *out, const char *name, int64_t ms)
{
    int64_t year, day = ms / DAY_MS, second = ms % DAY_MS / 1000;
    int month, date;
    char text[64];
    dw_day_to_date(day, &year, &month, &date);
    snprintf(text, sizeof text, "%04" PRId64 "%02d%02dT%02d%02d%02dZ", year,
             month, date, (int)(second / 3600), (int)(second / 60 % 60),
             (int)(second % 60));
    put_line(out, name, text);
}

static void put_event(writer *out, const dw_calendar_event *event,
                      int64_t now_ms)
{
    put_line(out, "BEGIN", "VEVENT");
    put(out, "UID:");
    for (const char *c = event->uid; *c; c += octets_of(c)) {
        /* a product's name is in it */
        bool plain = !strchr("\\;, \r\n", *c);
        put_character(out, plain ? c : "_", plain ? octets_of(c) : 1);
    }
    put(out, "@doughwright");
    end_line(out);
    put_moment(out, "DTSTAMP", now_ms);
    put_moment(out, "DTSTART", event->start_ms);
    if (event->end_ms > event->start_ms)
        put_moment(out, "DTEND", event->end_ms);
    put_text(out, "SUMMARY", event->summary);
    if (event->details)
        put_text(out, "DESCRIPTION", event->details);
    put_text(out, "CATEGORIES", dw_event_kind_words[event->kind]);
    put_line(out, "END", "VEVENT");
}

dw_status dw_ics_write(const dw_calendar *calendar, dw_arena *arena,
                       const char **text, size_t *bytes, dw_err *err)
{
    writer out = {0};
    out.text = dw_arena_rest(arena, &out.room);
    put_line(&out, "BEGIN", "VCALENDAR");
    put_line(&out, "VERSION", "2.0");
    put_line(&out, "PRODID", "-//Doughwright//calendar//EN");
    put_line(&out, "CALSCALE", "GREGORIAN");
    put_text(&out, "NAME", calendar->name); /* RFC 7986, as is the next */
    put_line(&out, "REFRESH-INTERVAL;VALUE=DURATION", "PT30M");
    for (size_t i = 0; i < calendar->events_count; i++)
        put_event(&out, &calendar->events[i], calendar->now_ms);
    put_line(&out, "END", "VCALENDAR");
    if (out.full)
        return dw_fail(err, DW_E_ROOM, "calendar", NULL);
    out.text[out.used] = '\0';
    dw_arena_keep(arena, out.used + 1);
    *text = out.text;
    *bytes = out.used;
    return DW_OK;
}

/* ---- for a job ----------------------------------------------------------- */

static dw_status encode(const dw_shape *shape, const void *object,
                        dw_arena *arena, const char **text, size_t *bytes)
{
    DW_ASSERT(shape == &dw_calendar_shape);
    return dw_ics_write(object, arena, text, bytes, NULL);
}

static dw_status decode(const dw_shape *shape, const char *text, size_t bytes,
                        dw_arena *arena, void *object, dw_err *err)
{
    return dw_json_codec.decode(shape, text, bytes, arena, object, err);
}

const dw_codec dw_ics_codec = {decode, encode};
