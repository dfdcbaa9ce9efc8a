#include "paper/words.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

static const char NBSP[] = "\xc2\xa0";
static const double KG_PER_OZ = 0.028349523125;
static const int64_t DAY_MS = 86400000;

static const char *kept(dw_sheet *sheet, const char *text)
{
    if (!text)
        sheet->full = true;
    return text ? text : "";
}

const char *dw_paper__say(dw_sheet *sheet, const char *msgid,
                          const dw_value *values, size_t count)
{
    return kept(sheet, dw_say_in(sheet->call->arena, sheet->call->lang, msgid,
                                 values, count));
}

const char *dw_paper__word(const dw_sheet *sheet, const char *msgid)
{
    return dw_say_sentence(sheet->call->lang, msgid);
}

const char *dw_paper__print(dw_sheet *sheet, const char *format, ...)
{
    char text[1024];
    va_list args;
    va_start(args, format);
    vsnprintf(text, sizeof text, format, args);
    va_end(args);
    return kept(sheet, dw_arena_text(sheet->call->arena, text));
}

const char *dw_paper__joined(dw_sheet *sheet, const char *text)
{
    char out[256];
    size_t n = 0;
    for (; *text && n + 3 < sizeof out; text++) {
        if (*text == ' ') {
            out[n++] = NBSP[0];
            out[n++] = NBSP[1];
        } else {
            out[n++] = *text;
        }
    }
    out[n] = '\0';
    return kept(sheet, dw_arena_text(sheet->call->arena, out));
}

static const char *quantity(dw_sheet *sheet, double value,
                            dw_dimension dimension)
{
    char text[64];
    dw_quantity_print(text, sizeof text, value, dimension, sheet->units);
    return dw_paper__joined(sheet, text);
}

/* Decimals that write every multiple of `step`; -1 when three do not. */
static int decimals_of(double step)
{
    for (int n = 0; n <= 3; n++, step *= 10)
        if (fabs(step - round(step)) < 1e-4 && round(step) > 0)
            return n;
    return -1;
}

static const char *us_mass(dw_sheet *sheet, double kg, int decimals)
{
    double scale = pow(10, decimals);
    double oz = round(kg / KG_PER_OZ * scale) / scale;
    double lb = trunc(oz / 16), rest = fabs(oz - lb * 16);
    char text[64];
    if (lb == 0)
        snprintf(text, sizeof text, "%.*f oz", decimals, oz);
    else if (rest < 0.5 / scale)
        snprintf(text, sizeof text, "%.0f lb", lb);
    else
        snprintf(text, sizeof text, "%.0f lb %.*f oz", lb, decimals, rest);
    return dw_paper__joined(sheet, text);
}

static const char *metric_mass(dw_sheet *sheet, double kg, int gram_decimals)
{
    char text[64];
    int kilo = gram_decimals > -3 ? gram_decimals + 3 : 0;
    if (fabs(kg) < 0.9999995)
        snprintf(text, sizeof text, "%.*f g",
                 gram_decimals > 0 ? gram_decimals : 0, kg * 1000);
    else
        snprintf(text, sizeof text, "%.*f kg", kilo, kg);
    return dw_paper__joined(sheet, text);
}

/* A division of 20 g shows kilograms with two decimals: -1 in grams. NO when
 * it is no metric one. */
enum { NO = -100 };
static int gram_decimals_of(double division_kg)
{
    int kilo = decimals_of(division_kg);
    int gram = decimals_of(division_kg * 1000);
    return kilo >= 0 ? kilo - 3 : gram >= 0 ? gram : NO;
}

/* A scale of a metric division shows grams whatever the reader's units. */
static bool shows_ounces(const dw_sheet *sheet, double division_kg)
{
    return sheet->units == DW_US &&
           (division_kg <= 0 || decimals_of(division_kg / KG_PER_OZ) >= 0 ||
            gram_decimals_of(division_kg) == NO);
}

const char *dw_paper__mass(dw_sheet *sheet, double kg, double division_kg)
{
    if (division_kg <= 0)
        return quantity(sheet, kg, DW_MASS);
    bool ounces = shows_ounces(sheet, division_kg);
    int decimals = ounces ? decimals_of(division_kg / KG_PER_OZ)
                          : gram_decimals_of(division_kg);
    if (decimals == NO || (ounces && decimals < 0))
        return quantity(sheet, kg, DW_MASS);
    return ounces ? us_mass(sheet, kg, decimals)
                  : metric_mass(sheet, kg, decimals);
}

const char *dw_paper__dough(dw_sheet *sheet, double kg)
{
    bool us = sheet->units == DW_US;
    char text[32];
    snprintf(text, sizeof text, "%.1f %s", us ? kg / KG_PER_OZ / 16 : kg,
             us ? "lb" : "kg");
    return dw_paper__joined(sheet, text);
}

const char *dw_paper__small_mass(dw_sheet *sheet, double kg, double division_kg)
{
    bool us = shows_ounces(sheet, division_kg);
    char text[32];
    double shown = us ? kg / KG_PER_OZ : kg * 1000;
    if (shown < 0.1) /* three decimals are all that has a meaning */
        shown = round(shown * 1000) / 1000;
    dw_text_number(text, sizeof text, shown, 2);
    return dw_paper__print(sheet, "%s%s%s", text, NBSP, us ? "oz" : "g");
}

const char *dw_paper__temperature(dw_sheet *sheet, double celsius)
{
    bool us = sheet->units == DW_US;
    double shown = us ? celsius * 1.8 + 32 : celsius;
    double step = us ? 1 : 10; /* nobody reads a tenth of a degree F */
    char text[32];
    dw_text_number(text, sizeof text, round(shown * step) / step + 0.0, 6);
    return dw_paper__print(sheet, "%s%s%s", text, NBSP,
                           dw_paper__degrees(sheet));
}

const char *dw_paper__degrees(const dw_sheet *sheet)
{
    return sheet->units == DW_US ? "°F" : "°C";
}

const char *dw_paper__mass_unit(const dw_sheet *sheet)
{
    return sheet->units == DW_US ? "lb" : "kg";
}

const char *dw_paper__hours(dw_sheet *sheet, double hours)
{
    return quantity(sheet, hours, DW_TIME);
}

const char *dw_paper__minutes(dw_sheet *sheet, double from, bool has_to,
                              double to)
{
    bool long_one = from >= 120;
    const char *unit = long_one ? "h" : "min";
    char a[32], b[32];
    dw_text_number(a, sizeof a, long_one ? from / 60 : from, 3);
    dw_text_number(b, sizeof b, long_one ? to / 60 : to, 3);
    if (!has_to)
        return dw_paper__print(sheet, "%s%s%s", a, NBSP, unit);
    return dw_paper__print(sheet, "%s–%s%s%s", a, b, NBSP, unit);
}

const char *dw_paper__number(dw_sheet *sheet, double value, int digits)
{
    char text[40];
    dw_text_number(text, sizeof text, value, digits);
    return kept(sheet, dw_arena_text(sheet->call->arena, text));
}

/* ---- days ---------------------------------------------------------------- */

static const char *const weekdays[] = {DW_MSG("Sunday"),   DW_MSG("Monday"),
                                       DW_MSG("Tuesday"),  DW_MSG("Wednesday"),
                                       DW_MSG("Thursday"), DW_MSG("Friday"),
                                       DW_MSG("Saturday")};
static const char *const short_weekdays[] = {
    DW_MSG("Sun"), DW_MSG("Mon"), DW_MSG("Tue"), DW_MSG("Wed"),
    DW_MSG("Thu"), DW_MSG("Fri"), DW_MSG("Sat")};
static const char *const months[] = {
    DW_MSG("January"), DW_MSG("February"), DW_MSG("March"),
    DW_MSG("April"),   DW_MSG("May"),      DW_MSG("June"),
    DW_MSG("July"),    DW_MSG("August"),   DW_MSG("September"),
    DW_MSG("October"), DW_MSG("November"), DW_MSG("December")};
static const char *const short_months[] = {
    DW_MSG("Jan"), DW_MSG("Feb"), DW_MSG("Mar"), DW_MSG("Apr"),
    DW_MSG("May"), DW_MSG("Jun"), DW_MSG("Jul"), DW_MSG("Aug"),
    DW_MSG("Sep"), DW_MSG("Oct"), DW_MSG("Nov"), DW_MSG("Dec")};

const char *dw_paper__short_day(dw_sheet *sheet, int64_t day)
{
    int64_t year;
    int month, date;
    dw_day_to_date(day, &year, &month, &date);
    const dw_value values[] = {
        DW_VALUE_TEXT(
            "weekday",
            dw_paper__word(sheet, short_weekdays[dw_day_weekday(day)])),
        DW_VALUE_NUMBER("date", date),
        DW_VALUE_TEXT("month", dw_paper__word(sheet, short_months[month - 1]))};
    return dw_paper__say(sheet, DW_MSG("{weekday} {date} {month}"), values,
                         DW_COUNT(values));
}

const char *dw_paper__long_day(dw_sheet *sheet, int64_t day)
{
    int64_t year;
    int month, date;
    dw_day_to_date(day, &year, &month, &date);
    const dw_value values[] = {
        DW_VALUE_TEXT("weekday",
                      dw_paper__word(sheet, weekdays[dw_day_weekday(day)])),
        DW_VALUE_NUMBER("date", date),
        DW_VALUE_TEXT("month", dw_paper__word(sheet, months[month - 1])),
        DW_VALUE_NUMBER("year", (double)year)};
    return dw_paper__capital(
        sheet, dw_paper__say(sheet, DW_MSG("{weekday} {date} {month} {year}"),
                             values, DW_COUNT(values)));
}

static int64_t local_ms(const dw_sheet *sheet, int64_t utc_ms)
{
    return utc_ms + dw_zone_offset_ms(sheet->zone, utc_ms);
}

const char *dw_paper__clock(dw_sheet *sheet, int64_t utc_ms)
{
    int64_t minutes = local_ms(sheet, utc_ms) / 60000 % 1440;
    return dw_paper__print(sheet, "%02d:%02d", (int)(minutes / 60),
                           (int)(minutes % 60));
}

const char *dw_paper__moment(dw_sheet *sheet, int64_t utc_ms)
{
    return dw_paper__print(
        sheet, "%s, %s",
        dw_paper__short_day(sheet, local_ms(sheet, utc_ms) / DAY_MS),
        dw_paper__clock(sheet, utc_ms));
}

int64_t dw_paper__day_of(const dw_sheet *sheet, int64_t utc_ms)
{
    return dw_zone_day(sheet->zone, utc_ms, (int)sheet->shop.cutover_minutes);
}

const char *dw_paper__iso(dw_sheet *sheet, int64_t utc_ms)
{
    int64_t year;
    int month, date, second = (int)(utc_ms / 1000 % 86400);
    dw_day_to_date(utc_ms / DAY_MS, &year, &month, &date);
    return dw_paper__print(sheet, "%04d-%02d-%02dT%02d:%02d:%02dZ", (int)year,
                           month, date, second / 3600, second / 60 % 60,
                           second % 60);
}

const char *dw_paper__capital(dw_sheet *sheet, const char *text)
{
    char *copy = dw_arena_text(sheet->call->arena, text ? text : "");
    if (!copy)
        return kept(sheet, NULL);
    unsigned char *c = (unsigned char *)copy;
    if (c[0] >= 'a' && c[0] <= 'z')
        c[0] = (unsigned char)(c[0] - 'a' + 'A');
    else if (c[0] == 0xc3 && c[1] >= 0xa0 && c[1] <= 0xbe && c[1] != 0xb7)
        c[1] = (unsigned char)(c[1] - 0x20); /* á to Á, ñ to Ñ */
    return copy;
}

/* ---- allergens ----------------------------------------------------------- */

/* Is the word one of the list "wheat, milk"? */
static bool names(const char *list, const char *word, size_t bytes)
{
    for (const char *at = list; (at = strstr(at, word)) != NULL; at += 1) {
        bool begins = at == list || at[-1] == ' ';
        bool ends = at[bytes] == '\0' || at[bytes] == ',';
        if (begins && ends)
            return true;
    }
    return false;
}

/* A usual allergen in the label's language; any other stays as it was typed. */
static const char *allergen(const dw_sheet *sheet, const char *typed)
{
    static const char *const usual[] = {
        DW_MSG("wheat"),   DW_MSG("barley"),    DW_MSG("rye"),
        DW_MSG("milk"),    DW_MSG("egg"),       DW_MSG("eggs"),
        DW_MSG("soy"),     DW_MSG("sesame"),    DW_MSG("peanut"),
        DW_MSG("peanuts"), DW_MSG("tree nuts"), DW_MSG("fish"),
        DW_MSG("mustard"), DW_MSG("sulfites")};
    for (size_t i = 0; i < DW_COUNT(usual); i++)
        if (dw_text_is(usual[i], typed))
            return dw_paper__word(sheet, usual[i]);
    return typed;
}

const char *dw_paper__allergens(dw_sheet *sheet, const char *typed)
{
    const char *list = "";
    while (typed && *typed) {
        typed += strspn(typed, ", ;");
        size_t bytes = strcspn(typed, ",;");
        const char *word =
            allergen(sheet, dw_paper__print(sheet, "%.*s", (int)bytes, typed));
        if (bytes > 0 && !names(list, word, strlen(word)))
            list =
                dw_paper__print(sheet, "%s%s%s", list, *list ? ", " : "", word);
        typed += bytes;
    }
    return list;
}
