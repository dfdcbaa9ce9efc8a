#include "doughwright/quantity.h"

#include "doughwright/say.h"
#include "engine/text_case.h"

#include <math.h>
#include <string.h>

enum { LONGEST = 64 }; /* bytes of a typed quantity */

/* ---- reading ---- */

typedef struct glyph {
    const char *text;
    double value;
} glyph;

static const glyph spaces[] = {{" ", 0},
                               {"\t", 0},
                               {"\xc2\xa0", 0},
                               {"\xe2\x80\xaf", 0},
                               {"\xe2\x80\x89", 0}};

static const glyph fractions[] = {
    {"\xc2\xbd", 1.0 / 2},     {"\xc2\xbc", 1.0 / 4},
    {"\xc2\xbe", 3.0 / 4},     {"\xe2\x85\x93", 1.0 / 3},
    {"\xe2\x85\x94", 2.0 / 3}, {"\xe2\x85\x9b", 1.0 / 8},
    {"\xe2\x85\x9c", 3.0 / 8}, {"\xe2\x85\x9d", 5.0 / 8},
    {"\xe2\x85\x9e", 7.0 / 8}};

/* The glyph `at` begins with, its bytes counted, or NULL. */
static const glyph *glyph_at(const glyph *list, size_t count, const char *at,
                             size_t *bytes)
{
    for (size_t i = 0; i < count; i++) {
        *bytes = strlen(list[i].text);
        if (strncmp(at, list[i].text, *bytes) == 0)
            return &list[i];
    }
    return NULL;
}

static const char *skip_space(const char *at)
{
    size_t n;
    while (glyph_at(spaces, DW_COUNT(spaces), at, &n))
        at += n;
    return at;
}

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* Digits into *whole; how many. */
static size_t digits(const char *at, double *whole)
{
    size_t n = 0;
    *whole = 0;
    for (; is_digit(at[n]); n++)
        *whole = *whole * 10 + (at[n] - '0');
    return n;
}

typedef struct number {
    double value;
    bool comma_unclear; /* "1,500": one and a half, or fifteen hundred? */
} number;

/* " 1/2" or "½" after a whole number; NULL when there is none. */
static const char *read_fraction(const char *at, double *value)
{
    size_t bytes;
    at = skip_space(at);
    const glyph *mark = glyph_at(fractions, DW_COUNT(fractions), at, &bytes);
    if (mark) {
        *value = mark->value;
        return at + bytes;
    }
    double over, under;
    size_t n = digits(at, &over);
    if (n == 0 || at[n] != '/')
        return NULL;
    size_t m = digits(at + n + 1, &under);
    if (m == 0 || under == 0)
        return NULL;
    *value = over / under;
    return at + n + 1 + m;
}

/* A number from `at`; where it ends, or NULL. */
static const char *read_number(const char *at, number *out)
{
    double whole, part = 0, scale = 1;
    *out = (number){0, false};
    const char *after = read_fraction(at, &out->value);
    if (after)
        return after;
    size_t n = digits(at, &whole);
    const char *mark = at + n;
    out->value = whole;
    if ((*mark == '.' || *mark == ',') && is_digit(mark[1])) {
        size_t m = digits(mark + 1, &part);
        for (size_t i = 0; i < m; i++)
            scale *= 10;
        out->value = (whole * scale + part) / scale;
        out->comma_unclear = *mark == ',' && m == 3 && n <= 3 && whole > 0;
        return mark + 1 + m;
    }
    if (n == 0)
        return NULL;
    double fraction;
    after = read_fraction(mark, &fraction);
    if (!after)
        return mark;
    out->value += fraction;
    return after;
}

/* May a unit's name stop before `at`? */
static bool ends_word(const char *at)
{
    size_t n;
    if (*at == '\0' || glyph_at(spaces, DW_COUNT(spaces), at, &n) ||
        glyph_at(fractions, DW_COUNT(fractions), at, &n))
        return true;
    char c = dw_text__lower(*at);
    return !(c >= 'a' && c <= 'z') && ((unsigned char)c < 0x80);
}

/* Bytes of `at` that spell the name of n bytes; a space in it may be any number
 * of spaces, none included. 0: it is not this name. */
static size_t spelled(const char *at, const char *name, size_t n)
{
    const char *from = at;
    for (size_t i = 0; i < n; i++) {
        if (name[i] == ' ') {
            at = skip_space(at);
            continue;
        }
        if (*at == '\0' || !dw_text__same_start(at, name + i, 1))
            return 0;
        at++;
    }
    bool sign = name[n - 1] == '"' || name[n - 1] == '\'' ||
                name[n - 1] == '#' || name[n - 1] == '%' ||
                (unsigned char)name[n - 1] >= 0x80;
    return sign || ends_word(at) ? (size_t)(at - from) : 0;
}

/* The longest name in `unit` that `at` spells. */
static size_t longest_name(const dw_unit *unit, const char *at)
{
    size_t best = 0;
    for (const char *name = unit->names; *name;) {
        size_t n = strcspn(name, "|");
        size_t bytes = spelled(at, name, n);
        if (bytes > best)
            best = bytes;
        name += n;
        if (*name == '|')
            name++;
    }
    return best;
}

/* The unit at `at`, of this dimension if any is, else of another, else NULL. */
static const dw_unit *unit_at(const char *at, dw_dimension dimension,
                              size_t *bytes)
{
    size_t count;
    const dw_unit *all = dw_units(&count), *here = NULL, *elsewhere = NULL;
    size_t here_bytes = 0, elsewhere_bytes = 0;
    for (size_t i = 0; i < count; i++) {
        size_t n = longest_name(&all[i], at);
        if (all[i].dimension == dimension && n > here_bytes) {
            here = &all[i];
            here_bytes = n;
        }
        if (all[i].dimension != dimension && n > elsewhere_bytes) {
            elsewhere = &all[i];
            elsewhere_bytes = n;
        }
    }
    if (here_bytes >= elsewhere_bytes && here) {
        *bytes = here_bytes;
        return here;
    }
    *bytes = elsewhere_bytes;
    return elsewhere;
}

static bool adds_up(dw_dimension dimension)
{
    return dimension == DW_MASS || dimension == DW_LENGTH ||
           dimension == DW_TIME || dimension == DW_VOLUME;
}

typedef struct reading {
    const char *text, *at;
    dw_dimension dimension;
    const dw_unit *bare;
    const dw_unit *last; /* unit of the part before, NULL at first */
    double value;
} reading;

static dw_status not_understood(const reading *r, const char *sentence,
                                dw_err *err)
{
    return dw_fail_says(err, DW_E_SYNTAX, "", r->text, sentence);
}

/* The unit after a number; *unit is the bare one when none is written. */
static dw_status read_unit(reading *r, const dw_unit **unit, dw_err *err)
{
    size_t bytes;
    r->at = skip_space(r->at);
    if (*r->at == '\0') {
        if (r->last)
            return not_understood(r, DW_MSG("needs a unit after each number"),
                                  err);
        *unit = r->bare;
        return DW_OK;
    }
    if (is_digit(*r->at) || strchr(".,:;/+-", *r->at))
        return not_understood(r, NULL, err);
    *unit = unit_at(r->at, r->dimension, &bytes);
    if (!*unit)
        return dw_fail_says(err, DW_E_UNIT, "", r->text,
                            DW_MSG("has a unit that is not known here"));
    if ((*unit)->dimension != r->dimension)
        return dw_fail(err, DW_E_UNIT, "", r->text);
    r->at += bytes;
    if (*r->at == '.' && !is_digit(r->at[1]))
        r->at++; /* "10 lb." */
    r->at = skip_space(r->at);
    return DW_OK;
}

static dw_status read_part(reading *r, double sign, dw_err *err)
{
    number typed;
    const dw_unit *unit = NULL;
    const char *after = read_number(r->at, &typed);
    if (!after)
        return not_understood(r, NULL, err);
    r->at = after;
    DW_TRY(read_unit(r, &unit, err));
    bool thousands = r->dimension != DW_PERCENT &&
                     r->dimension != DW_TEMPERATURE &&
                     r->dimension != DW_DIFFERENCE;
    if (typed.comma_unclear && thousands)
        return not_understood(
            r, DW_MSG("has a comma that can be read two ways; use a point"),
            err);
    if (r->last && (!adds_up(r->dimension) ||
                    unit->times / unit->over >= r->last->times / r->last->over))
        return not_understood(r, NULL, err);
    r->value += dw_unit_to_base(unit, sign * typed.value);
    r->last = unit;
    return DW_OK;
}

static dw_status within_reason(const reading *r, dw_err *err)
{
    static const struct {
        const char *unit;
        double low, high;
    } limits[] = {
#define LIMIT(symbol, word, base, low, high) {base, low, high},
        DW_DIMENSION_LIST(LIMIT)
#undef LIMIT
    };
    dw_status status = dw_check_range(
        err, "", r->value, limits[r->dimension].low, limits[r->dimension].high);
    if (status != DW_OK && err)
        err->unit = limits[r->dimension].unit;
    DW_TRY(status);
    if (r->dimension == DW_NUMBER && r->value != floor(r->value))
        return dw_fail_says(err, DW_E_TYPE, "", r->text,
                            DW_MSG("must be a whole number"));
    return DW_OK;
}

static double read_sign(const char **at)
{
    static const char minus[] = "\xe2\x88\x92"; /* the typographer's */
    if (strncmp(*at, minus, sizeof minus - 1) == 0) {
        *at += sizeof minus - 1;
        return -1;
    }
    if (**at == '-' || **at == '+')
        return *(*at)++ == '-' ? -1 : 1;
    return 1;
}

dw_status dw_quantity_parse(const char *text, dw_dimension dimension,
                            const char *bare_unit, double *value, dw_err *err)
{
    reading r = {text,      skip_space(text),
                 dimension, dw_unit_find(dimension, bare_unit),
                 NULL,      0};
    DW_ASSERT(r.bare != NULL);
    if (*r.at == '\0')
        return dw_fail(err, DW_E_MISSING, "", NULL);
    if (strlen(text) > LONGEST)
        return dw_fail(err, DW_E_TOO_LARGE, "", text);
    double sign = read_sign(&r.at);
    do
        DW_TRY(read_part(&r, sign, err));
    while (*r.at != '\0');
    DW_TRY(within_reason(&r, err));
    *value = r.value;
    return DW_OK;
}

/* ---- printing ---- */

typedef struct line_out {
    char *text;
    size_t room, used;
} line_out;

static void put(line_out *out, const char *text)
{
    while (*text && out->used + 1 < out->room)
        out->text[out->used++] = *text++;
    out->text[out->used] = '\0';
}

static double rounded(double value, int decimals)
{
    double scale = 1;
    for (int i = 0; i < decimals; i++)
        scale *= 10;
    return round(value * scale) / scale;
}

static void put_number(line_out *out, double value, int decimals,
                       const char *unit)
{
    char text[40];
    double shown = rounded(value, decimals);
    dw_text_number(text, sizeof text, shown == 0 ? 0 : shown, 15);
    if (out->used)
        put(out, " ");
    put(out, text);
    if (*unit) {
        put(out, " ");
        put(out, unit);
    }
}

/* Round first, split after, or 15.96 oz would print as 16 oz. */
static void put_us_mass(line_out *out, double kg)
{
    const double exact = kg / 0.028349523125, oz = rounded(exact, 1);
    double size = fabs(exact);
    if (size < 3.995) {
        put_number(out, exact, size < 0.2995 ? 3 : 2, "oz");
    } else if (fabs(oz) < 16) {
        put_number(out, oz, 1, "oz");
    } else if (fabs(oz) >= 1600) {
        put_number(out, oz / 16, 1, "lb");
    } else {
        double lb = trunc(oz / 16), rest = rounded(fabs(oz - lb * 16), 1);
        put_number(out, lb, 0, "lb");
        if (rest > 0)
            put_number(out, rest, 1, "oz");
    }
}

static void put_metric_mass(line_out *out, double kg)
{
    double size = fabs(kg);
    if (size < 0.009995)
        put_number(out, kg * 1000, 2, "g");
    else if (size < 0.09995)
        put_number(out, kg * 1000, 1, "g");
    else if (size < 0.9995)
        put_number(out, kg * 1000, 0, "g");
    else if (size < 9.9995)
        put_number(out, kg, 3, "kg");
    else
        put_number(out, kg, size < 99.995 ? 2 : 1, "kg");
}

static void put_time(line_out *out, double h)
{
    double minutes = round(h * 60);
    if (h * 60 < 1 && h > 0) {
        put_number(out, h * 3600, 0, "s");
        return;
    }
    double hours = floor(minutes / 60);
    if (hours > 0)
        put_number(out, hours, 0, "h");
    if (minutes > hours * 60 || hours == 0)
        put_number(out, minutes - hours * 60, 0, "min");
}

static void put_volume(line_out *out, double l, dw_units_choice units)
{
    if (units == DW_US)
        put_number(out, l / 0.946352946, 2, "qt");
    else if (l < 1)
        put_number(out, l * 1000, 0, "ml");
    else
        put_number(out, l, 2, "L");
}

static int percent_decimals(double percent)
{
    double size = fabs(percent);
    return size >= 1 ? 2 : size >= 0.1 ? 3 : size >= 0.01 ? 4 : 5;
}

size_t dw_quantity_print(char *out, size_t room, double value,
                         dw_dimension dimension, dw_units_choice units)
{
    line_out line = {out, room, 0};
    bool us = units == DW_US;
    DW_ASSERT(room > 0);
    out[0] = '\0';
    switch (dimension) {
    case DW_MASS:
        if (us)
            put_us_mass(&line, value);
        else
            put_metric_mass(&line, value);
        break;
    case DW_TEMPERATURE:
        put_number(&line, us ? value * 1.8 + 32 : value, 1, us ? "F" : "C");
        break;
    case DW_DIFFERENCE:
        put_number(&line, us ? value * 1.8 : value, 1, us ? "F" : "C");
        break;
    case DW_PERCENT:
        put_number(&line, value, percent_decimals(value), "%");
        break;
    case DW_LENGTH:
        put_number(&line, us ? value / 0.0254 : value * 100, us ? 2 : 1,
                   us ? "in" : "cm");
        break;
    case DW_TIME: put_time(&line, value); break;
    case DW_NUMBER: put_number(&line, value, 0, ""); break;
    case DW_VOLUME: put_volume(&line, value, units); break;
    case DW_ENERGY: put_number(&line, value, 0, "J"); break;
    case DW_PRESSURE: put_number(&line, value, 0, "Pa"); break;
    case DW_POWER: put_number(&line, value, 0, "W"); break;
    case DW_DIMENSION_COUNT: DW_ASSERT(false);
    }
    return line.used;
}
