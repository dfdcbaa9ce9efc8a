#include "doughwright/base.h"

#include <string.h>

const char *dw_status_code(dw_status status)
{
    static const char *const codes[] = {
#define DW_CODE(symbol, code, http, sentence) code,
        DW_STATUS_LIST(DW_CODE)
#undef DW_CODE
    };
    DW_ASSERT((unsigned)status < DW_STATUS_COUNT);
    return codes[status];
}

int dw_status_http(dw_status status)
{
    static const int statuses[] = {
#define DW_HTTP(symbol, code, http, sentence) http,
        DW_STATUS_LIST(DW_HTTP)
#undef DW_HTTP
    };
    DW_ASSERT((unsigned)status < DW_STATUS_COUNT);
    return statuses[status];
}

const char *dw_status_sentence(dw_status status)
{
    static const char *const sentences[] = {
#define DW_SENTENCE(symbol, code, http, sentence) sentence,
        DW_STATUS_LIST(DW_SENTENCE)
#undef DW_SENTENCE
    };
    DW_ASSERT((unsigned)status < DW_STATUS_COUNT);
    return sentences[status];
}

/* Copy and cut on a UTF-8 boundary. */
static void copy_cut(char *out, size_t room, const char *text)
{
    size_t n = text ? strlen(text) : 0;
    if (n >= room) {
        n = room - 1;
        while (n > 0 && ((unsigned char)text[n] & 0xC0) == 0x80)
            n--;
    }
    if (n > 0)
        memcpy(out, text, n);
    out[n] = '\0';
}

void dw_err_write(dw_err *err, dw_status status, const char *field,
                  const char *value, const char *sentence)
{
    if (!err)
        return;
    memset(err, 0, sizeof *err);
    err->status = status;
    copy_cut(err->field, sizeof err->field, field);
    copy_cut(err->value, sizeof err->value, value);
    err->sentence = sentence;
}

void dw_err_write_range(dw_err *err, const char *field, double value,
                        double low, double high)
{
    char text[32];
    dw_text_number(text, sizeof text, value, 9);
    dw_err_write(err, DW_E_RANGE, field, text, NULL);
    if (err) {
        err->ranged = true;
        err->low = low;
        err->high = high;
    }
}

dw_status dw_err_prefix(dw_err *err, const char *prefix)
{
    if (!err)
        return DW_E_RANGE;
    char joined[2 * sizeof err->field];
    copy_cut(joined, sizeof err->field, prefix);
    size_t n = strlen(joined);
    bool index = err->field[0] == '[' || err->field[0] == '\0';
    if (!index)
        joined[n++] = '.';
    copy_cut(joined + n, sizeof joined - n, err->field);
    copy_cut(err->field, sizeof err->field, joined);
    return err->status;
}

dw_status dw_err_prefix_item(dw_err *err, const char *name, size_t index)
{
    char prefix[96], digits[24];
    size_t at = strlen(name) < 60 ? strlen(name) : 60;
    size_t n = dw_text_number(digits, sizeof digits, (double)index, 15);
    memcpy(prefix, name, at);
    prefix[at++] = '[';
    memcpy(prefix + at, digits, n);
    at += n;
    prefix[at++] = ']';
    prefix[at] = '\0';
    return dw_err_prefix(err, prefix);
}
