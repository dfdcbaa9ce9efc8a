#include "doughwright/base.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

bool dw_text_is(const char *a, const char *b)
{
    return a == b || (a && b && strcmp(a, b) == 0);
}

/* Bytes of the sequence that starts with `lead`, 0 when it cannot start one. */
static size_t sequence_bytes(unsigned char lead)
{
    if (lead < 0x80)
        return 1;
    if (lead >= 0xC2 && lead <= 0xDF)
        return 2;
    if ((lead & 0xF0) == 0xE0)
        return 3;
    if (lead >= 0xF0 && lead <= 0xF4)
        return 4;
    return 0;
}

/* Overlong forms, surrogates and code points above U+10FFFF are told by the
 * second byte (Unicode Standard, table 3-7). */
static bool second_byte_fits(unsigned char lead, unsigned char second)
{
    switch (lead) {
    case 0xE0: return second >= 0xA0;
    case 0xED: return second <= 0x9F;
    case 0xF0: return second >= 0x90;
    case 0xF4: return second <= 0x8F;
    default: return true;
    }
}

bool dw_text_valid(const char *text, size_t bytes)
{
    const unsigned char *at = (const unsigned char *)text;
    const unsigned char *end = at + bytes;
    while (at < end) {
        size_t n = sequence_bytes(*at);
        if (n == 0 || (size_t)(end - at) < n)
            return false;
        for (size_t i = 1; i < n; i++)
            if ((at[i] & 0xC0) != 0x80)
                return false;
        if (n > 1 && !second_byte_fits(at[0], at[1]))
            return false;
        at += n;
    }
    return true;
}

/* snprintf is used for its digits alone: the program never calls setlocale, so
 * the decimal point is always '.'. */
size_t dw_text_number(char *out, size_t room, double value, int digits)
{
    char text[40] = "";
    if (isnan(value)) {
        strcpy(text, "not a number");
    } else if (isinf(value)) {
        strcpy(text, value > 0 ? "infinite" : "-infinite");
    } else {
        double size = fabs(value);
        for (int n = 1; n <= digits; n++) {
            snprintf(text, sizeof text, "%.*g", n, value);
            if (strtod(text, NULL) == value)
                break;
        }
        if (strchr(text, 'e') && size >= 1e-6 && size < 1e15) {
            int whole = (int)floor(log10(size)) + 1;
            int after = digits > whole ? digits - whole : 0;
            snprintf(text, sizeof text, "%.*f", after, value);
            if (strchr(text, '.')) {
                size_t n = strlen(text);
                while (text[n - 1] == '0')
                    text[--n] = '\0';
                if (text[n - 1] == '.')
                    text[n - 1] = '\0';
            }
        }
    }
    size_t n = strlen(text);
    if (n >= room)
        n = room - 1;
    memcpy(out, text, n);
    out[n] = '\0';
    return n;
}

char *dw_arena_print(dw_arena *arena, const char *format, ...)
{
    char text[512];
    va_list args;
    va_start(args, format);
    int n = vsnprintf(text, sizeof text, format, args);
    va_end(args);
    DW_ASSERT(n >= 0 && (size_t)n < sizeof text);
    return dw_arena_text(arena, text);
}
