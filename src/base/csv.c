#include "doughwright/csv.h"

#include "doughwright/say.h"

#include <stdio.h>
#include <string.h>

static dw_status fail_line(dw_err *err, size_t line, dw_status status,
                           const char *sentence)
{
    char where[40];
    snprintf(where, sizeof where, "line %zu", line);
    return dw_fail_says(err, status, where, NULL, sentence);
}

/* The most frequent of the three outside quotes in the first line. */
static char find_separator(const char *at, const char *end)
{
    static const char candidates[] = ",;\t";
    size_t counts[3] = {0};
    bool quoted = false;
    for (; at < end && (quoted || (*at != '\n' && *at != '\r')); at++) {
        const char *found = strchr(candidates, *at);
        quoted ^= *at == '"';
        if (found && *at && !quoted)
            counts[found - candidates]++;
    }
    size_t best = 0;
    for (size_t i = 1; i < 3; i++)
        if (counts[i] > counts[best])
            best = i;
    return candidates[best];
}

dw_status dw_csv_open(const char *text, size_t bytes, dw_arena *arena,
                      dw_csv *csv, dw_err *err)
{
    if (bytes > DW_CSV_MOST) {
        dw_fail_range(err, "file", (double)bytes, 1, DW_CSV_MOST);
        if (err) {
            err->unit = "bytes";
            err->status = DW_E_TOO_LARGE;
        }
        return DW_E_TOO_LARGE;
    }
    if (bytes >= 3 && memcmp(text, "\xef\xbb\xbf", 3) == 0) {
        text += 3;
        bytes -= 3;
    }
    if (!dw_text_valid(text, bytes))
        return dw_fail_says(err, DW_E_SYNTAX, "file", NULL,
                            DW_MSG("is not valid UTF-8 text"));
    if (memchr(text, '\0', bytes))
        return dw_fail_says(err, DW_E_SYNTAX, "file", NULL,
                            DW_MSG("has a NUL character in it"));
    *csv = (dw_csv){.at = text,
                    .end = text + bytes,
                    .separator = find_separator(text, text + bytes),
                    .line = 1,
                    .next_line = 1,
                    .arena = arena};
    return DW_OK;
}

static bool at_line_end(const dw_csv *csv)
{
    return csv->at == csv->end || *csv->at == '\n' || *csv->at == '\r';
}

static void pass_line_end(dw_csv *csv)
{
    if (csv->at == csv->end)
        return;
    bool cr = *csv->at++ == '\r';
    if (cr && csv->at < csv->end && *csv->at == '\n')
        csv->at++;
    csv->next_line++;
}

static dw_status read_quoted(dw_csv *csv, char *out, size_t *length,
                             dw_err *err)
{
    size_t n = 0, line = csv->next_line;
    for (csv->at++;; csv->at++) {
        if (csv->at == csv->end)
            return fail_line(err, line, DW_E_SYNTAX,
                             DW_MSG("has a quote that is never closed"));
        if (*csv->at == '"') {
            if (csv->at + 1 == csv->end || csv->at[1] != '"')
                break;
            csv->at++;
        }
        bool pair =
            *csv->at == '\r' && csv->at + 1 < csv->end && csv->at[1] == '\n';
        if ((*csv->at == '\n' || *csv->at == '\r') && !pair)
            csv->next_line++;
        out[n++] = *csv->at;
    }
    csv->at++;
    if (!at_line_end(csv) && *csv->at != csv->separator)
        return fail_line(err, csv->next_line, DW_E_SYNTAX,
                         DW_MSG("has text behind a closing quote"));
    *length = n;
    return DW_OK;
}

static dw_status read_field(dw_csv *csv, const char **field, dw_err *err)
{
    size_t room, n = 0;
    char *out = dw_arena_rest(csv->arena, &room);
    if (room <= (size_t)(csv->end - csv->at))
        return fail_line(err, csv->next_line, DW_E_ROOM, NULL);
    if (!at_line_end(csv) && *csv->at == '"') {
        DW_TRY(read_quoted(csv, out, &n, err));
    } else {
        while (!at_line_end(csv) && *csv->at != csv->separator)
            out[n++] = *csv->at++;
        while (n > 0 && out[n - 1] == ' ')
            n--;
        size_t blank = 0;
        while (blank < n && out[blank] == ' ')
            blank++;
        memmove(out, out + blank, n - blank);
        n -= blank;
    }
    out[n] = '\0';
    dw_arena_keep(csv->arena, n + 1);
    *field = out;
    return DW_OK;
}

dw_status dw_csv_next(dw_csv *csv, dw_csv_record *record, bool *more,
                      dw_err *err)
{
    while (csv->at < csv->end && at_line_end(csv))
        pass_line_end(csv);
    *more = csv->at < csv->end;
    if (!*more)
        return DW_OK;
    record->line = csv->line = csv->next_line;
    record->count = 0;
    for (;;) {
        if (record->count == DW_CSV_FIELDS)
            return fail_line(err, record->line, DW_E_TOO_LARGE, NULL);
        DW_TRY(read_field(csv, &record->fields[record->count++], err));
        if (at_line_end(csv))
            break;
        csv->at++; /* the separator */
    }
    pass_line_end(csv);
    return DW_OK;
}
