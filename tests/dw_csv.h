/* Rows of a table under tests/data: RFC 4180 cells, one line a row. */
#ifndef DW_CSV_H
#define DW_CSV_H

#include <stdio.h>
#include <string.h>

typedef struct dw_csv {
    char text[1024];
    char *cells[16];
    int count;
} dw_csv;

/* The next row, cut into cells; 0 at the end of the file. */
static inline int dw_csv_row(FILE *file, dw_csv *row)
{
    row->count = 0;
    if (!fgets(row->text, sizeof row->text, file))
        return 0;
    row->text[strcspn(row->text, "\r\n")] = '\0';
    for (char *from = row->text, *to = from;; from++) {
        row->cells[row->count++] = to;
        int quoted = *from == '"';
        from += quoted;
        while (*from && (quoted || *from != ',')) {
            if (quoted && *from == '"' && *++from != '"') {
                quoted = 0;
                continue;
            }
            *to++ = *from++;
        }
        int more = *from == ',' && row->count < 16;
        *to++ = '\0';
        if (!more)
            return 1;
    }
}

#endif
