/* Rows of a table under tests/data: RFC 4180 cells, one line a row. */
#ifndef DW_CSV_H
#define DW_CSV_H

#include "dw_test.h"

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

/* Look at every row of that table under tests/data but its head; how many. */
static inline int dw_csv_each(const char *name, void (*look)(const dw_csv *row))
{
    FILE *file = fopen(dw_test_data(name), "r");
    int rows = 0;
    dw_csv row;
    if (!file)
        return 0;
    for (dw_csv_row(file, &row); dw_csv_row(file, &row); rows++)
        look(&row);
    fclose(file);
    return rows;
}

#endif
