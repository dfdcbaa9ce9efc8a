/* The rule for the years to come that closes a TZif file (RFC 8536, 3.3.1):
 * "EST5EDT,M3.2.0,M11.1.0". Shared with zone.c only. */
#ifndef DW_OS_ZONE_RULE_H
#define DW_OS_ZONE_RULE_H

#include "doughwright/base.h"

/* When in the year the clock is changed. */
typedef struct dw_zone__turn {
    enum { DW_ZONE__JULIAN, DW_ZONE__ZERO_BASED, DW_ZONE__MONTH } kind;
    int month, week, day; /* JULIAN, ZERO_BASED: day alone */
    int32_t second;       /* of that day, on the clock before the change */
} dw_zone__turn;

typedef struct dw_zone__rule {
    int32_t standard_s, summer_s; /* offsets, added to UTC */
    bool has_summer;
    dw_zone__turn start, end; /* of summer time */
} dw_zone__rule;

bool dw_zone__rule_parse(const char *text, dw_zone__rule *rule);
int64_t dw_zone__rule_offset_s(const dw_zone__rule *rule, int64_t utc_s);

#endif
