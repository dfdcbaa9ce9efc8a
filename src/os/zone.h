/* Time zones: the wall clock of a shop.
 *
 * A zone is read from the system's IANA data (TZif, RFC 8536); the process's
 * own zone (TZ) is neither read nor set. Local times are written as ms since
 * 1970-01-01 00:00 on the wall clock, as if that were UTC.
 */
#ifndef DW_OS_ZONE_H
#define DW_OS_ZONE_H

#include "doughwright/day.h"

typedef struct dw_zone dw_zone;

/* "America/New_York". The zone lives in the arena (about 15 KiB). DW_E_CHOICE
 * with field "zone" when there is none of that name, DW_E_SYNTAX when its file
 * cannot be understood. */
dw_status dw_zone_load(const char *name, dw_arena *arena, const dw_zone **zone,
                       dw_err *err);
/* The same from the bytes of a TZif file of version 2 or later. */
dw_status dw_zone_parse(const void *data, size_t bytes, dw_arena *arena,
                        const dw_zone **zone, dw_err *err);

/* What is added to UTC at that instant to get the wall clock, ms. */
int64_t dw_zone_offset_ms(const dw_zone *zone, int64_t utc_ms);
/* The instant of a wall-clock time. A time that comes twice (the clock is put
 * back) is its first; one that is skipped (the clock is put forward) is read
 * with the offset before the gap, so 02:30 becomes 03:30 (RFC 5545, 3.3.5). */
int64_t dw_zone_utc_ms(const dw_zone *zone, int64_t local_ms);

/* The business day an instant belongs to, as a day number (day.h). The day
 * turns `cutover_minutes` after midnight on the wall clock, -720..720: with 240
 * a mix at 02:00 still belongs to the evening before. */
int64_t dw_zone_day(const dw_zone *zone, int64_t utc_ms, int cutover_minutes);
/* The instant at which that business day begins. */
int64_t dw_zone_day_starts_ms(const dw_zone *zone, int64_t day,
                              int cutover_minutes);

#endif
