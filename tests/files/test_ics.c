#include "files/ics.h"
#include "dw_test.h"

static unsigned char block[1 << 16];

static const char *written(dw_calendar_event *events, size_t count)
{
    static char text[1 << 14];
    dw_arena arena;
    dw_arena_init(&arena, block, sizeof block);
    dw_calendar calendar = {.name = "Alder Street",
                            .now_ms = 1780660800000,
                            .events = events,
                            .events_count = count};
    const char *out;
    size_t bytes;
    dw_err err;
    if (dw_ics_write(&calendar, &arena, &out, &bytes, &err) != DW_OK)
        return "";
    snprintf(text, sizeof text, "%s", out);
    CHECK(strlen(text) == bytes);
    return text;
}

TEST(a_calendar_is_written_as_the_standard_has_it, DERIVED,
     "written by hand after RFC 5545, sections 3.3.5, 3.3.11, 3.4, 3.6.1")
{
    dw_calendar_event event = {.uid = "close-3-10 oz; ball",
                               .kind = DW_EVENT_CLOSE,
                               .start_ms = 1780669800000,
                               .end_ms = 1780670700000,
                               .summary = "Close: 80 balls, \\ \"x\"; y",
                               .details = "one\ntwo"};
    SAME_TEXT(written(&event, 1),
              "BEGIN:VCALENDAR\r\nVERSION:2.0\r\n"
              "PRODID:-//Doughwright//calendar//EN\r\nCALSCALE:GREGORIAN\r\n"
              "NAME:Alder Street\r\n"
              "REFRESH-INTERVAL;VALUE=DURATION:PT30M\r\n"
              "BEGIN:VEVENT\r\nUID:close-3-10_oz__ball@doughwright\r\n"
              "DTSTAMP:20260605T120000Z\r\nDTSTART:20260605T143000Z\r\n"
              "DTEND:20260605T144500Z\r\n"
              "SUMMARY:Close: 80 balls\\, \\\\ \"x\"\\; y\r\n"
              "DESCRIPTION:one\\ntwo\r\nCATEGORIES:close\r\n"
              "END:VEVENT\r\nEND:VCALENDAR\r\n");
}

TEST(long_lines_are_folded_and_no_character_is_cut, LIMIT,
     "RFC 5545, section 3.1: at most 75 octets; unfolded it is what it was")
{
    char summary[600] = "", unfolded[1 << 14];
    for (int i = 0; i < 100; i++)
        strcat(summary, i % 3 ? "ñ" : "a€");
    dw_calendar_event event = {
        .uid = "x", .start_ms = 1780669800000, .summary = summary};
    const char *text = written(&event, 1);
    size_t column = 0, n = 0;
    for (const char *c = text; *c; c++) {
        if (strncmp(c, "\r\n", 2) == 0) {
            CHECK(column <= 75);
            CHECK(dw_text_valid(c - column, column));
            column = 0;
            if (c[2] == ' ') {
                c += 2;
                column = 1;
                continue;
            }
            unfolded[n++] = '\n';
            c++;
            continue;
        }
        column++;
        unfolded[n++] = *c;
    }
    unfolded[n] = '\0';
    CHECK(strstr(unfolded, summary) != NULL);
}

TEST(a_calendar_too_large_for_its_room_is_refused, LIMIT, "bad input")
{
    dw_arena arena;
    dw_arena_init(&arena, block, 60);
    dw_calendar calendar = {.name = "Alder Street"};
    const char *text = "untouched";
    size_t bytes;
    dw_err err;
    SAME(dw_ics_write(&calendar, &arena, &text, &bytes, &err), DW_E_ROOM);
    SAME_TEXT(text, "untouched");
}
