#include "dw_test.h"
#include "os/file.h"
#include "os/zone.h"

#include <stdlib.h>

enum { HOUR_MS = 3600000, MINUTE_MS = 60000 };

typedef struct wall {
    unsigned char block[65536];
    dw_arena arena;
    const dw_zone *zone;
    dw_err err;
} wall;

static void load(wall *w, const char *name)
{
    dw_arena_init(&w->arena, w->block, sizeof w->block);
    w->zone = NULL;
    CHECK(dw_zone_load(name, &w->arena, &w->zone, &w->err) == DW_OK);
}

static int64_t local_ms(int year, int month, int day, int hour, int minute)
{
    return dw_day_from_date(year, month, day) * 86400000 +
           (int64_t)hour * HOUR_MS + (int64_t)minute * MINUTE_MS;
}

/* Expected instants: 2026-03-08 07:00Z, 2026-11-01 06:00Z (02:00 by the local
 * law), 2026-03-29 and 2026-10-25 01:00Z. */
TEST(new_york_puts_its_clock_forward, PUBLISHED,
     "15 U.S.C. 260a: second Sunday of March, 02:00")
{
    wall w;
    load(&w, "America/New_York");
    NEED(w.zone);
    int64_t change = local_ms(2026, 3, 8, 7, 0);
    SAME(dw_zone_offset_ms(w.zone, change - 1), -5 * HOUR_MS);
    SAME(dw_zone_offset_ms(w.zone, change), -4 * HOUR_MS);
    SAME(dw_zone_utc_ms(w.zone, local_ms(2026, 3, 8, 1, 59)),
         change - MINUTE_MS);
    SAME(dw_zone_utc_ms(w.zone, local_ms(2026, 3, 8, 3, 0)), change);
    /* 02:30 does not exist: half past three */
    SAME(dw_zone_utc_ms(w.zone, local_ms(2026, 3, 8, 2, 30)),
         change + 30 * MINUTE_MS);
}

TEST(new_york_puts_its_clock_back, PUBLISHED,
     "15 U.S.C. 260a: first Sunday of November, 02:00")
{
    wall w;
    load(&w, "America/New_York");
    NEED(w.zone);
    int64_t change = local_ms(2026, 11, 1, 6, 0);
    SAME(dw_zone_offset_ms(w.zone, change - 1), -4 * HOUR_MS);
    SAME(dw_zone_offset_ms(w.zone, change), -5 * HOUR_MS);
    /* 01:30 comes twice: the first */
    SAME(dw_zone_utc_ms(w.zone, local_ms(2026, 11, 1, 1, 30)),
         change - 30 * MINUTE_MS);
    SAME(dw_zone_utc_ms(w.zone, local_ms(2026, 11, 1, 2, 0)), change + HOUR_MS);
}

TEST(madrid_changes_its_clock_at_one_utc, PUBLISHED,
     "Directive 2000/84/EC: last Sundays of March and October, 01:00 UTC")
{
    wall w;
    load(&w, "Europe/Madrid");
    NEED(w.zone);
    int64_t spring = local_ms(2026, 3, 29, 1, 0);
    int64_t autumn = local_ms(2026, 10, 25, 1, 0);
    SAME(dw_zone_offset_ms(w.zone, spring - 1), HOUR_MS);
    SAME(dw_zone_offset_ms(w.zone, spring), 2 * HOUR_MS);
    SAME(dw_zone_utc_ms(w.zone, local_ms(2026, 3, 29, 2, 30)),
         spring + 30 * MINUTE_MS);
    SAME(dw_zone_offset_ms(w.zone, autumn - 1), 2 * HOUR_MS);
    SAME(dw_zone_offset_ms(w.zone, autumn), HOUR_MS);
    SAME(dw_zone_utc_ms(w.zone, local_ms(2026, 10, 25, 2, 30)),
         autumn - 30 * MINUTE_MS);
    SAME(dw_zone_utc_ms(w.zone, local_ms(2026, 10, 25, 3, 0)),
         autumn + HOUR_MS);
}

TEST(offsets_agree_with_an_independent_program, DERIVED,
     "Python zoneinfo, zone_vectors.csv")
{
    FILE *file = fopen(dw_test_data("zone_vectors.csv"), "r");
    NEED(file);
    char line[200], name[64];
    wall w;
    char loaded[64] = "";
    int rows = 0;
    while (fgets(line, sizeof line, file)) {
        long long ms, offset_ms, utc_ms;
        if (sscanf(line, "%63[^,],%lld,%lld,%lld", name, &ms, &offset_ms,
                   &utc_ms) != 4)
            continue;
        if (strcmp(name, loaded) != 0)
            load(&w, name);
        snprintf(loaded, sizeof loaded, "%s", name);
        if (!w.zone)
            break;
        if (dw_zone_offset_ms(w.zone, ms) != offset_ms ||
            dw_zone_utc_ms(w.zone, ms) != utc_ms)
            dw_test_fail(__FILE__, __LINE__, "%s at %lld: %lld, %lld", name, ms,
                         (long long)dw_zone_offset_ms(w.zone, ms),
                         (long long)dw_zone_utc_ms(w.zone, ms));
        rows++;
    }
    fclose(file);
    CHECK(rows > 500);
}

TEST(the_business_day_turns_at_the_shops_hour, DERIVED, "worked by hand")
{
    wall w;
    load(&w, "America/New_York");
    NEED(w.zone);
    int64_t sunday = dw_day_from_date(2026, 3, 8);
    /* Cut-over 04:00: what is mixed before it belongs to Saturday. */
    SAME(dw_zone_day(w.zone, local_ms(2026, 3, 8, 6, 59), 240), sunday - 1);
    SAME(dw_zone_day(w.zone, local_ms(2026, 3, 8, 7, 59), 240), sunday - 1);
    SAME(dw_zone_day(w.zone, local_ms(2026, 3, 8, 8, 0), 240), sunday);
    SAME(dw_zone_day(w.zone, local_ms(2026, 3, 8, 5, 0), 0), sunday);
    SAME(dw_zone_day(w.zone, local_ms(2026, 3, 8, 4, 59), 0), sunday - 1);
    /* A commissary's day that begins at 22:00 the evening before. */
    SAME(dw_zone_day(w.zone, local_ms(2026, 3, 8, 3, 0), -120), sunday);
    SAME(dw_zone_day(w.zone, local_ms(2026, 3, 8, 2, 59), -120), sunday - 1);
    /* Before 1970, days still count downwards. */
    SAME(dw_zone_day(w.zone, -1, 0), -1);
    SAME(dw_zone_day(w.zone, -40 * (int64_t)HOUR_MS, 0), -2);
}

TEST(a_day_of_the_clock_change_is_an_hour_short_or_long, LIMIT, "zone.h")
{
    wall w;
    load(&w, "Europe/Madrid");
    NEED(w.zone);
    int64_t spring = dw_day_from_date(2026, 3, 29);
    int64_t autumn = dw_day_from_date(2026, 10, 25);
    int64_t start = dw_zone_day_starts_ms(w.zone, spring, 0);
    SAME(dw_zone_day_starts_ms(w.zone, spring + 1, 0) - start, 23 * HOUR_MS);
    start = dw_zone_day_starts_ms(w.zone, autumn, 0);
    SAME(dw_zone_day_starts_ms(w.zone, autumn + 1, 0) - start, 25 * HOUR_MS);
    for (int64_t day = spring - 3; day < autumn + 3; day++)
        for (int cutover = -720; cutover <= 720; cutover += 240) {
            start = dw_zone_day_starts_ms(w.zone, day, cutover);
            SAME(dw_zone_day(w.zone, start, cutover), day);
            SAME(dw_zone_day(w.zone, start - 1, cutover), day - 1);
        }
}

TEST(names_that_are_no_zone_are_refused, LIMIT, "zone.h")
{
    static const char *const names[] = {
        "",          "America/Nowhere", "../../../etc/passwd",
        "/etc/zone", "America",         "America/New York",
        "zone.tab",  "\xc3\xa9"};
    wall w;
    dw_arena_init(&w.arena, w.block, sizeof w.block);
    w.zone = NULL;
    for (size_t i = 0; i < DW_COUNT(names); i++) {
        SAME(dw_zone_load(names[i], &w.arena, &w.zone, &w.err), DW_E_CHOICE);
        SAME_TEXT(w.err.field, "zone");
        SAME_TEXT(w.err.value, names[i]);
    }
    CHECK(w.zone == NULL && w.arena.used == 0);
}

TEST(damaged_zone_files_are_refused_and_never_read_past_their_end, LIMIT,
     "every cut and every single changed byte of a real file")
{
    static unsigned char file_block[8192], copy[4096], block[65536];
    dw_arena files, arena;
    dw_arena_init(&files, file_block, sizeof file_block);
    const char *data;
    size_t bytes;
    NEED(dw_file_read("/usr/share/zoneinfo/America/New_York", sizeof copy,
                      &files, &data, &bytes, NULL) == DW_OK);
    const dw_zone *zone;
    for (size_t cut = 0; cut < bytes; cut++) {
        unsigned char *exact = malloc(cut ? cut : 1);
        NEED(exact);
        memcpy(exact, data, cut);
        dw_arena_init(&arena, block, sizeof block);
        SAME(dw_zone_parse(exact, cut, &arena, &zone, NULL), DW_E_SYNTAX);
        free(exact);
    }
    for (size_t i = 0; i < bytes; i++) {
        memcpy(copy, data, bytes);
        copy[i] ^= 0xff;
        dw_arena_init(&arena, block, sizeof block);
        if (dw_zone_parse(copy, bytes, &arena, &zone, NULL) == DW_OK) {
            int64_t offset = dw_zone_offset_ms(zone, 1772953200000);
            CHECK(offset > -48 * (int64_t)HOUR_MS &&
                  offset < 48 * (int64_t)HOUR_MS);
        }
    }
}
