#include "os/zone.h"

#include "doughwright/say.h"
#include "os/file.h"
#include "os/zone_rule.h"

#include <stdio.h>
#include <string.h>

enum { HEADER_BYTES = 44, FILE_MOST = 1 << 20, DAY_S = 86400 };

struct dw_zone {
    size_t count;
    const int64_t *at_s;        /* when the offset changes, rising */
    const unsigned char *after; /* which offset holds from then on */
    const int32_t *offset_s;    /* the first holds before all changes */
    bool ruled;                 /* after the last change, if there is a rule */
    dw_zone__rule rule;
};

/* The six counts of a TZif header, in the order of the file. */
typedef struct counts {
    uint32_t utc, standard, leap, change, type, letter;
} counts;

typedef struct reader {
    const unsigned char *at, *end;
} reader;

static dw_status not_understood(dw_err *err)
{
    return dw_fail_says(err, DW_E_SYNTAX, "zone", NULL,
                        DW_MSG("has a file that could not be understood"));
}

static int64_t read_big(const unsigned char *at, size_t bytes)
{
    uint64_t value = at[0] & 0x80 ? UINT64_MAX : 0;
    for (size_t i = 0; i < bytes; i++)
        value = value << 8 | at[i];
    return (int64_t)value;
}

static const unsigned char *skip(reader *in, uint64_t bytes)
{
    const unsigned char *at = in->at;
    if (bytes > (uint64_t)(in->end - in->at))
        return NULL;
    in->at += bytes;
    return at;
}

static bool read_header(reader *in, counts *out)
{
    const unsigned char *at = skip(in, HEADER_BYTES);
    if (!at || memcmp(at, "TZif", 4) != 0 || at[4] < '2')
        return false;
    uint32_t *values[] = {&out->utc,    &out->standard, &out->leap,
                          &out->change, &out->type,     &out->letter};
    for (size_t i = 0; i < DW_COUNT(values); i++)
        *values[i] = (uint32_t)read_big(at + 20 + 4 * i, 4);
    return true;
}

/* The data of a block whose times are `time_bytes` long. */
static uint64_t block_bytes(const counts *n, uint64_t time_bytes)
{
    return n->change * (time_bytes + 1) + (uint64_t)n->type * 6 + n->letter +
           n->leap * (time_bytes + 4) + n->standard + n->utc;
}

static dw_status fill(dw_zone *zone, const unsigned char *data, const counts *n,
                      dw_arena *arena, dw_err *err)
{
    int64_t *at_s = DW_NEW_ARRAY(arena, int64_t, n->change);
    unsigned char *after = dw_arena_take(arena, n->change);
    int32_t *offset_s = DW_NEW_ARRAY(arena, int32_t, n->type);
    if (!at_s || !after || !offset_s)
        return dw_fail(err, DW_E_ROOM, "zone", NULL);
    const unsigned char *types = data + 9 * (size_t)n->change;
    for (size_t i = 0; i < n->type; i++) {
        offset_s[i] = (int32_t)read_big(types + 6 * i, 4);
        if (offset_s[i] < -2 * DAY_S || offset_s[i] > 2 * DAY_S)
            return not_understood(err);
    }
    for (size_t i = 0; i < n->change; i++) {
        at_s[i] = read_big(data + 8 * i, 8);
        after[i] = data[8 * (size_t)n->change + i];
        if (after[i] >= n->type || (i > 0 && at_s[i] <= at_s[i - 1]))
            return not_understood(err);
    }
    zone->count = n->change;
    zone->at_s = at_s;
    zone->after = after;
    zone->offset_s = offset_s;
    return DW_OK;
}

/* The footer: a newline, the rule, a newline; the rule may be empty. */
static bool read_footer(reader *in, dw_zone *zone)
{
    char rule[128];
    size_t left = (size_t)(in->end - in->at);
    if (left < 2 || in->at[0] != '\n' || in->end[-1] != '\n')
        return false;
    size_t length = left - 2;
    if (length >= sizeof rule)
        return false;
    memcpy(rule, in->at + 1, length);
    rule[length] = '\0';
    zone->ruled = length > 0;
    return !zone->ruled || dw_zone__rule_parse(rule, &zone->rule);
}

dw_status dw_zone_parse(const void *data, size_t bytes, dw_arena *arena,
                        const dw_zone **zone, dw_err *err)
{
    reader in = {data, (const unsigned char *)data + bytes};
    counts n;
    /* The first block is for readers of old: times of 32 bits. */
    if (!read_header(&in, &n) || !skip(&in, block_bytes(&n, 4)) ||
        !read_header(&in, &n))
        return not_understood(err);
    const unsigned char *block = skip(&in, block_bytes(&n, 8));
    /* Leap seconds would make our ms differ from everybody else's. */
    if (!block || n.leap > 0 || n.type == 0)
        return not_understood(err);
    dw_zone *made = DW_NEW(arena, dw_zone);
    if (!made)
        return dw_fail(err, DW_E_ROOM, "zone", NULL);
    DW_TRY(fill(made, block, &n, arena, err));
    if (!read_footer(&in, made))
        return not_understood(err);
    *zone = made;
    return DW_OK;
}

/* No way out of the folder, and nothing hidden. */
static bool is_name(const char *name)
{
    static const char allowed[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
                                  "abcdefghijklmnopqrstuvwxyz"
                                  "0123456789_+-/";
    size_t n = strlen(name);
    return n > 0 && n < 64 && strspn(name, allowed) == n && name[0] != '/';
}

dw_status dw_zone_load(const char *name, dw_arena *arena, const dw_zone **zone,
                       dw_err *err)
{
    const char *says =
        DW_MSG("is not a time zone; write it as America/New_York");
    if (!is_name(name))
        return dw_fail_says(err, DW_E_CHOICE, "zone", name, says);
    char path[128];
    const char *data;
    size_t bytes, mark = arena->used;
    dw_err local;
    snprintf(path, sizeof path, "/usr/share/zoneinfo/%s", name);
    dw_status status =
        dw_file_read(path, FILE_MOST, arena, &data, &bytes, &local);
    if (status == DW_E_ROOM)
        return dw_fail(err, DW_E_ROOM, "zone", name);
    if (status == DW_OK)
        status = dw_zone_parse(data, bytes, arena, zone, err);
    else
        status = dw_fail_says(err, DW_E_CHOICE, "zone", name, says);
    if (status != DW_OK)
        arena->used = mark;
    return status;
}

static int64_t floor_div(int64_t a, int64_t b)
{
    return a / b - (a % b < 0);
}

/* How many changes lie at or before that second. */
static size_t changes_until(const dw_zone *zone, int64_t utc_s)
{
    size_t low = 0, high = zone->count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (zone->at_s[middle] <= utc_s)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

int64_t dw_zone_offset_ms(const dw_zone *zone, int64_t utc_ms)
{
    int64_t utc_s = floor_div(utc_ms, 1000);
    size_t past = changes_until(zone, utc_s);
    if (past == zone->count && zone->ruled)
        return dw_zone__rule_offset_s(&zone->rule, utc_s) * 1000;
    return (past == 0 ? zone->offset_s[0]
                      : zone->offset_s[zone->after[past - 1]]) *
           (int64_t)1000;
}

/* No offset is more than a day, so a day earlier and later the clock stands
 * before and after whatever happens around the local time. */
int64_t dw_zone_utc_ms(const dw_zone *zone, int64_t local_ms)
{
    const int64_t day_ms = DAY_S * (int64_t)1000;
    int64_t before = local_ms - dw_zone_offset_ms(zone, local_ms - day_ms);
    int64_t after = local_ms - dw_zone_offset_ms(zone, local_ms + day_ms);
    bool is_before = before + dw_zone_offset_ms(zone, before) == local_ms;
    bool is_after = after + dw_zone_offset_ms(zone, after) == local_ms;
    if (is_before && is_after)
        return before < after ? before : after;
    return is_after ? after : before;
}

int64_t dw_zone_day(const dw_zone *zone, int64_t utc_ms, int cutover_minutes)
{
    int64_t local_ms = utc_ms + dw_zone_offset_ms(zone, utc_ms);
    return floor_div(local_ms - cutover_minutes * (int64_t)60000,
                     DAY_S * (int64_t)1000);
}

int64_t dw_zone_day_starts_ms(const dw_zone *zone, int64_t day,
                              int cutover_minutes)
{
    return dw_zone_utc_ms(zone, day * DAY_S * 1000 +
                                    cutover_minutes * (int64_t)60000);
}
