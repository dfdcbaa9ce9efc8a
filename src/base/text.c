#include "doughwright/base.h"

#include <math.h>
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

/* Text that is put together piece by piece and cut to fit. No stdio: the engine
 * runs where there is none. */
typedef struct writer {
    char *out;
    size_t room, used;
} writer;

static void put(writer *w, const char *text, size_t bytes)
{
    for (size_t i = 0; i < bytes && w->used + 1 < w->room; i++)
        w->out[w->used++] = text[i];
    w->out[w->used] = '\0';
}

static void put_text(writer *w, const char *text)
{
    put(w, text, strlen(text));
}

/* The digits of a whole number, at least `width` of them. */
static void put_whole(writer *w, uint64_t value, int width)
{
    char digits[24];
    int n = 0;
    while (value > 0 || n < width || n == 0) {
        digits[sizeof digits - 1 - (size_t)n++] = (char)('0' + value % 10);
        value /= 10;
    }
    put(w, digits + sizeof digits - n, (size_t)n);
}

void dw_text_item(char *out, size_t room, const char *before, size_t index,
                  const char *after)
{
    writer w = {out, room, 0};
    put_text(&w, before);
    put_text(&w, "[");
    put_whole(&w, index, 1);
    put_text(&w, "]");
    put_text(&w, after);
}

/* A number as whole / 10^places; places may be below 0. */
typedef struct decimal {
    uint64_t whole;
    int places;
} decimal;

static double ten_to(int power)
{
    double value = 1;
    for (int i = 0; i < power; i++)
        value *= 10; /* exact up to 1e22 */
    return value;
}

/* value * 10^power in two strides, since 10^power alone may overflow where the
 * product does not. */
static double times_ten_to(double value, int power)
{
    enum { STRIDE = 300 };
    int size = power < 0 ? -power : power;
    int first = size < STRIDE ? size : STRIDE;
    if (power < 0)
        return value / ten_to(first) / ten_to(size - first);
    return value * ten_to(first) * ten_to(size - first);
}

/* The shortest decimal of up to `digits` digits that reads back as `value`,
 * else the one of that many digits. Below 2^53 and with powers of ten up to
 * 1e22, one division reads a decimal back exactly (W. D. Clinger, "How to read
 * floating point numbers accurately", 1990), so the comparison is sound there;
 * beyond, it may miss the shortest by a digit. */
static decimal shortest(double value, int digits)
{
    int size = 0; /* value has this many digits before the point */
    while (value >= ten_to(size))
        size++;
    while (size <= 0 && times_ten_to(value, 1 - size) < 1)
        size--;
    decimal best = {0, 0};
    for (int n = 1; n <= digits; n++) {
        int places = n - size;
        double scaled = times_ten_to(value, places);
        best = (decimal){(uint64_t)(scaled + 0.5), places};
        if (times_ten_to((double)best.whole, -places) == value)
            break;
    }
    return best;
}

static void put_decimal(writer *w, decimal number)
{
    while (number.places > 0 && number.whole % 10 == 0) {
        number.whole /= 10;
        number.places--;
    }
    if (number.places <= 0) {
        put_whole(w, number.whole, 1);
        for (int i = number.places; i < 0 && number.whole > 0; i++)
            put_text(w, "0");
        return;
    }
    uint64_t unit = 1;
    int after = number.places < 19 ? number.places : 19;
    for (int i = 0; i < after; i++)
        unit *= 10;
    put_whole(w, number.whole / unit, 1);
    put_text(w, ".");
    for (int i = after; i < number.places; i++)
        put_text(w, "0");
    put_whole(w, number.whole % unit, after);
}

/* 1.25e-07, as printf's %g writes it. */
static void put_power(writer *w, decimal number)
{
    int power = -number.places;
    while (number.whole % 10 == 0) {
        number.whole /= 10;
        power++;
    }
    uint64_t unit = 1;
    int after = 0;
    for (; number.whole / unit >= 10; after++)
        unit *= 10;
    put_decimal(w, (decimal){number.whole, after});
    power += after;
    put_text(w, power < 0 ? "e-" : "e+");
    put_whole(w, (uint64_t)(power < 0 ? -power : power), 2);
}

static void put_positive(writer *w, double value, int digits)
{
    decimal number = shortest(value, digits);
    if (value >= 1e15 || value < 1e-6)
        put_power(w, number);
    else
        put_decimal(w, number);
}

size_t dw_text_number(char *out, size_t room, double value, int digits)
{
    writer w = {out, room, 0};
    if (isnan(value)) {
        put_text(&w, "not a number");
    } else if (isinf(value)) {
        put_text(&w, value > 0 ? "infinite" : "-infinite");
    } else {
        if (value < 0)
            put_text(&w, "-");
        DW_ASSERT(digits >= 1 && digits <= 17);
        if (value == 0)
            put_text(&w, "0");
        else
            put_positive(&w, fabs(value), digits);
    }
    return w.used;
}
