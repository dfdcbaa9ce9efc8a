/* A calendar as iCalendar text (RFC 5545), for programs that subscribe: CR LF
 * lines folded at 75 octets, never inside a UTF-8 character; moments in UTC, so
 * no zone needs to be told. */
#ifndef DW_FILES_ICS_H
#define DW_FILES_ICS_H

#include "app/app.h"
#include "app/calendar.h"

/* In the arena. DW_E_ROOM. */
dw_status dw_ics_write(const dw_calendar *calendar, dw_arena *arena,
                       const char **text, size_t *bytes, dw_err *err);

/* For a dw_job of calendar.feed or calendar.list: the request as JSON in, the
 * text out. */
extern const dw_codec dw_ics_codec;

#endif
