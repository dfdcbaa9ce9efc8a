/* The days to come as a calendar that others subscribe to: batches, closings,
 * pulls, drops and their cut-offs.
 *
 * Every moment is an instant, so a subscriber's own zone and the nights on
 * which clocks change are right; 24 hours of cold are 24 hours. A subscription
 * is an address with a key in it, made for the shop or for one outlet, which
 * sees its own drops only; whoever knows it may read, and it can be taken back.
 */
#ifndef DW_APP_CALENDAR_H
#define DW_APP_CALENDAR_H

#include "app/rows.h"

extern const char *const dw_event_kind_words[]; /* mix close pull drop cutoff */
typedef enum dw_event_kind {
    DW_EVENT_MIX,
    DW_EVENT_CLOSE,
    DW_EVENT_PULL,
    DW_EVENT_DROP,
    DW_EVENT_CUTOFF
} dw_event_kind;

typedef struct dw_calendar_event {
    const char *uid; /* the same for the same thing, whenever it is asked */
    int kind;        /* dw_event_kind */
    int64_t start_ms, end_ms;
    const char *summary, *details; /* in the caller's language; details NULL */
} dw_calendar_event;

typedef struct dw_calendar {
    const char *name; /* of the shop, or shop and outlet */
    int64_t now_ms;
    dw_calendar_event *events; /* by start */
    size_t events_count;
} dw_calendar;
extern const dw_shape dw_calendar_shape;

/* From today on; outlet_id 0: all of the shop, else that outlet's drops. */
dw_status dw_calendar_read(dw_call *call, int64_t days, int64_t outlet_id,
                           dw_calendar *out);

#endif
