/* Comma-separated values, RFC 4180, read leniently where files differ: the
 * separator may be a semicolon or a tab, lines may end in CR LF, LF or CR, a
 * byte-order mark is passed over. Strict where a slip would be read as data:
 * an unclosed quote, text behind a closing quote, broken UTF-8, a NUL.
 */
#ifndef DOUGHWRIGHT_CSV_H
#define DOUGHWRIGHT_CSV_H

#include "doughwright/field.h"

enum { DW_CSV_MOST = 8 << 20, DW_CSV_FIELDS = 64 };

typedef struct dw_csv {
    const char *at, *end; /* borrowed */
    char separator;       /* of the first record: , ; or tab */
    size_t line, next_line;
    dw_arena *arena;
} dw_csv;

typedef struct dw_csv_record {
    size_t line; /* where it begins */
    const char *fields[DW_CSV_FIELDS];
    size_t count;
} dw_csv_record;

/* Begin. The text is borrowed; the fields will live in the arena. Fails:
 * DW_E_TOO_LARGE, DW_E_SYNTAX. */
dw_status dw_csv_open(const char *text, size_t bytes, dw_arena *arena,
                      dw_csv *csv, dw_err *err);
/* The next record that is not an empty line; *more false at the end. Fails with
 * "line 17" as field: DW_E_SYNTAX, DW_E_TOO_LARGE (fields), DW_E_ROOM. */
dw_status dw_csv_next(dw_csv *csv, dw_csv_record *record, bool *more,
                      dw_err *err);

#endif
