/* Comma-separated values, RFC 4180, written; read: doughwright/csv.h. */
#ifndef DW_FILES_CSV_H
#define DW_FILES_CSV_H

#include "doughwright/csv.h"

/* One field as it must be written: quoted when it has to be, and with an
 * apostrophe before = + - @ tab or CR, which a spreadsheet would run as a
 * formula. Numbers are written as they are. Returns the length; cut to
 * `room`. */
size_t dw_csv_guard(char *out, size_t room, const char *text);

/* The rows of a reply: the first list in it, one line an element, with a line
 * of names. A list in an element gives one line for each of its own elements.
 * Days are dates, moments ISO 8601 in UTC, other numbers in the field's unit.
 * In the arena. DW_E_TYPE when there is no list, DW_E_ROOM. */
dw_status dw_csv_write(const dw_shape *shape, const void *object,
                       dw_arena *arena, const char **text, size_t *bytes,
                       dw_err *err);

#endif
