#include "gs1.h"

#include "doughwright/day.h"

#include <string.h>

static const dw_gs1__identifier identifiers[] = {
    {"00", "SSCC", DW_GS1__KEY, 18, 18, false, NULL},
    {"01", "GTIN", DW_GS1__KEY, 14, 14, false, NULL},
    {"02", "CONTENT", DW_GS1__KEY, 14, 14, false, "37"},
    {"10", "BATCH/LOT", DW_GS1__TEXT, 1, 20, true, "01,02"},
    {"11", "PROD DATE", DW_GS1__DATE, 6, 6, false, "01,02"},
    {"13", "PACK DATE", DW_GS1__DATE, 6, 6, false, "01,02"},
    {"15", "BEST BEFORE", DW_GS1__DATE, 6, 6, false, "01,02"},
    {"16", "SELL BY", DW_GS1__DATE, 6, 6, false, "01,02"},
    {"17", "USE BY", DW_GS1__DATE, 6, 6, false, "01,02"},
    {"21", "SERIAL", DW_GS1__TEXT, 1, 20, true, "01"},
    {"30", "VAR. COUNT", DW_GS1__DIGITS, 1, 8, true, "01,02"},
    {"310n", "NET WEIGHT (kg)", DW_GS1__WEIGHT, 6, 6, false, "01,02"},
    {"320n", "NET WEIGHT (lb)", DW_GS1__WEIGHT, 6, 6, false, "01,02"},
    {"330n", "GROSS WEIGHT (kg)", DW_GS1__WEIGHT, 6, 6, false, "00,01"},
    {"340n", "GROSS WEIGHT (lb)", DW_GS1__WEIGHT, 6, 6, false, "00,01"},
    {"37", "COUNT", DW_GS1__DIGITS, 1, 8, true, "02"},
    {"400", "ORDER NUMBER", DW_GS1__TEXT, 1, 30, true, NULL},
    {"410", "SHIP TO LOC", DW_GS1__KEY, 13, 13, false, NULL},
    {"414", "LOC No.", DW_GS1__KEY, 13, 13, false, NULL},
    {"90", "INTERNAL", DW_GS1__TEXT, 1, 30, true, NULL},
};
#define LB_KG 0.45359237

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

const dw_gs1__identifier *dw_gs1__find(const char *text, size_t bytes)
{
    for (size_t i = 0; i < DW_COUNT(identifiers); i++) {
        const char *code = identifiers[i].code;
        size_t at = 0;
        while (at < bytes && code[at] &&
               (code[at] == 'n' ? text[at] >= '0' && text[at] <= '5'
                                : text[at] == code[at]))
            at++;
        if (!code[at])
            return &identifiers[i];
    }
    return NULL;
}

bool dw_gs1_needs_closing(const char *identifier)
{
    const dw_gs1__identifier *found =
        dw_gs1__find(identifier, strlen(identifier));
    return found && found->closed;
}

int dw_gs1_check_digit(const char *digits, size_t count)
{
    int sum = 0;
    for (size_t i = 0; i < count; i++)
        sum += (digits[i] - '0') * ((count - i) % 2 == 1 ? 3 : 1);
    return (10 - sum % 10) % 10;
}

static bool all_digits(const char *text, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (!is_digit(text[i]))
            return false;
    return true;
}

bool dw_gs1_key_valid(const char *key)
{
    size_t n = strlen(key);
    bool length = n == 8 || (n >= 12 && n <= 14) || n == 17 || n == 18;
    return length && all_digits(key, n) &&
           dw_gs1_check_digit(key, n - 1) == key[n - 1] - '0';
}

static int two_digits(const char *at)
{
    return 10 * (at[0] - '0') + at[1] - '0';
}

bool dw_gs1_date_read(const char *date, int64_t today, int64_t *day)
{
    int64_t year;
    int month, d;
    if (strlen(date) != 6 || !all_digits(date, 6))
        return false;
    dw_day_to_date(today, &year, &month, &d);
    int64_t ahead = two_digits(date) - year % 100;
    year = year / 100 * 100 + two_digits(date);
    year += ahead >= 51 ? -100 : ahead <= -50 ? 100 : 0;
    month = two_digits(date + 2);
    d = two_digits(date + 4);
    if (month < 1 || month > 12)
        return false;
    int64_t first = dw_day_from_date(year, month, 1);
    int64_t next = month < 12 ? dw_day_from_date(year, month + 1, 1)
                              : dw_day_from_date(year + 1, 1, 1);
    if (d > next - first)
        return false;
    *day = d == 0 ? next - 1 : first + d - 1;
    return true;
}

/* The GS1 set of 82 characters. */
static bool in_set(char c)
{
    return is_digit(c) || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') ||
           (c != '\0' && strchr("!\"%&'()*+,-./:;<=>?_", c) != NULL);
}

static bool all_in_set(const char *text, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (!in_set(text[i]))
            return false;
    return true;
}

static double number_of(const char *digits)
{
    double value = 0;
    for (; *digits; digits++)
        value = 10 * value + (*digits - '0');
    return value;
}

static void set_weight(dw_gs1_element *element)
{
    size_t last = strlen(element->identifier) - 1;
    double value = number_of(element->value);
    for (int i = element->identifier[last] - '0'; i > 0; i--)
        value /= 10;
    bool pounds = strncmp(element->identifier, "320", 3) == 0 ||
                  strncmp(element->identifier, "340", 3) == 0;
    element->has_amount = true;
    element->amount = pounds ? value * LB_KG : value;
}

dw_status dw_gs1__understand(const dw_gs1__identifier *identifier,
                             const char *field, int64_t today,
                             dw_gs1_element *element, dw_err *err)
{
    const char *value = element->value;
    size_t n = strlen(value);
    bool fits = n >= identifier->least && n <= identifier->most &&
                (identifier->form == DW_GS1__TEXT ? all_in_set(value, n)
                                                  : all_digits(value, n));
    if (!fits)
        return dw_fail(err, DW_E_SYNTAX, field, value);
    element->title = identifier->title;
    switch (identifier->form) {
    case DW_GS1__KEY:
        if (!dw_gs1_key_valid(value))
            return dw_fail_says(err, DW_E_SUM, field, value,
                                "has a check digit that does not fit");
        break;
    case DW_GS1__DATE:
        if (!dw_gs1_date_read(value, today, &element->day))
            return dw_fail_says(err, DW_E_SYNTAX, field, value,
                                "is no date of year, month and day");
        element->has_day = true;
        break;
    case DW_GS1__WEIGHT: set_weight(element); break;
    case DW_GS1__DIGITS:
        element->has_amount = true;
        element->amount = number_of(value);
        break;
    case DW_GS1__TEXT: break;
    }
    return DW_OK;
}
