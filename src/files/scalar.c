#include "files/scalar.h"

#include "doughwright/say.h"
#include "files/measure.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Units that leave the key, since the text has one; and the end they leave. */
typedef struct ending {
    const char *unit, *end;
} ending;
static const ending endings[] = {
    {"kg", "_kg"}, {"degC", "_c"}, {"m", "_m"}, {"W", "_w"}, {"min", "_minute"},
};

static bool ends_with(const char *text, const char *end)
{
    size_t n = strlen(text), m = strlen(end);
    return n > m && strcmp(text + n - m, end) == 0;
}

static const ending *ending_of(const dw_field *field)
{
    for (size_t i = 0; i < DW_COUNT(endings); i++)
        if (dw_text_is(field->unit, endings[i].unit) &&
            ends_with(field->name, endings[i].end))
            return &endings[i];
    return NULL;
}

static bool is_time_of_day(const dw_field *field)
{
    return dw_text_is(field->unit, "min") && ends_with(field->name, "_minute");
}

bool dw_files__is_flat(const dw_field *field)
{
    return field->kind == DW_ONE && field->has == DW_NOWHERE;
}

bool dw_files__key(const dw_field *field, char key[DW_FILES__KEY])
{
    const char *name = field->name;
    if (strcmp(name, "id") == 0 || ends_with(name, "_id") ||
        strcmp(name, "position") == 0 || dw_text_is(field->unit, "ms"))
        return false;
    const ending *end = ending_of(field);
    size_t n = strlen(name) - (end ? strlen(end->end) : 0);
    DW_ASSERT(n < DW_FILES__KEY);
    memcpy(key, name, n);
    key[n] = '\0';
    return true;
}

/* ---- reading ------------------------------------------------------------- */

static bool is_bare(const char *text)
{
    return strspn(text, "0123456789.,+- eE") == strlen(text);
}

static dw_status read_plain(const char *text, double *value, dw_err *err)
{
    char *end;
    double read = strtod(text, &end);
    if (end == text || *end || !isfinite(read) || !is_bare(text))
        return dw_fail_says(err, DW_E_TYPE, "", text,
                            DW_MSG("must be a number"));
    *value = read;
    return DW_OK;
}

/* "05:30", also "26:00" for the hours after midnight. */
static dw_status read_time_of_day(const char *text, double *value, dw_err *err)
{
    const char *colon = strchr(text, ':');
    size_t hours = strspn(text, "0123456789");
    if (!colon || (size_t)(colon - text) != hours || hours < 1 || hours > 2 ||
        strlen(colon) != 3 || strspn(colon + 1, "0123456789") != 2 ||
        atoi(colon + 1) > 59)
        return dw_fail_says(err, DW_E_SYNTAX, "", text,
                            DW_MSG("must be a time of day such as 05:30"));
    *value = 60 * atoi(text) + atoi(colon + 1);
    return DW_OK;
}

/* A number in the field's own unit is taken as it stands: the way through the
 * base unit may move its last bit. */
static bool is_own_unit(const char *text, const dw_unit *unit, double *value)
{
    char *end;
    double read = strtod(text, &end);
    if (end == text || strspn(text, "0123456789.") != (size_t)(end - text))
        return false;
    end += strspn(end, " ");
    if (dw_unit_find(unit->dimension, end) != unit)
        return false;
    *value = read;
    return true;
}

static dw_status read_measure(const dw_field *field, const dw_unit *unit,
                              const char *text, double *value, dw_err *err)
{
    double base;
    if (ending_of(field) && is_bare(text) && *text) {
        dw_fail_says(err, DW_E_UNIT, "", text,
                     DW_MSG("needs its unit, such as 25 kg, 8 oz or 75 F"));
        return DW_E_UNIT;
    }
    DW_TRY(dw_quantity_parse(text, unit->dimension,
                             dw_measure_name(field->unit), &base, err));
    if (!is_own_unit(text, unit, value))
        *value = dw_unit_from_base(unit, base);
    return DW_OK;
}

dw_status dw_files__number(const dw_field *field, const char *text,
                           double *value, dw_err *err)
{
    bool whole = field->kind == DW_WHOLE || field->kind == DW_WHOLES;
    const dw_unit *unit =
        dw_text_is(field->unit, "d") ? NULL : dw_measure_of(field->unit);
    double read = 0;
    if (is_time_of_day(field))
        DW_TRY(read_time_of_day(text, &read, err));
    else if (unit)
        DW_TRY(read_measure(field, unit, text, &read, err));
    else
        DW_TRY(read_plain(text, &read, err));
    if (whole && fabs(read - nearbyint(read)) < 1e-9)
        read = nearbyint(read); /* 330 min is 5.5 h of 60 */
    if (whole && read != nearbyint(read))
        return dw_fail_says(err, DW_E_TYPE, "", text,
                            DW_MSG("must be a whole number"));
    dw_status status = dw_check_range(err, "", read, field->low, field->high);
    if (status != DW_OK && err && *field->unit)
        err->unit = field->unit;
    if (status == DW_OK)
        *value = read;
    return status;
}

dw_status dw_files__yes(const char *text, bool *value, dw_err *err)
{
    static const char *const words[] = {"yes", "no", "true", "false", NULL};
    int i = dw_words_find(words, text);
    if (i < 0) {
        dw_fail(err, DW_E_CHOICE, "", text);
        if (err)
            err->words = words;
        return DW_E_CHOICE;
    }
    *value = i % 2 == 0;
    return DW_OK;
}

dw_status dw_files__choice(const dw_field *field, const char *text, int *value,
                           dw_err *err)
{
    int i = dw_words_find(field->words, text);
    if (i < 0) {
        dw_fail(err, DW_E_CHOICE, "", text);
        if (err)
            err->words = field->words;
        return DW_E_CHOICE;
    }
    *value = i;
    return DW_OK;
}

/* ---- writing ------------------------------------------------------------- */

/* The units a person would use, best first. */
static const char *const habits[DW_DIMENSION_COUNT][5] = {
    [DW_MASS] = {"kg", "g", "lb", "oz"},
    [DW_TEMPERATURE] = {"C", "F"},
    [DW_PERCENT] = {"%"},
    [DW_LENGTH] = {"cm", "in", "m"},
    [DW_TIME] = {"min", "h"},
    [DW_VOLUME] = {"L", "qt"},
    [DW_POWER] = {"W"},
};

/* Short and exact in this unit? Small numbers read better in a smaller one. */
static bool try_unit(const dw_field *field, const dw_unit *from,
                     const char *name, double value, char out[DW_FILES__TEXT])
{
    const dw_unit *to = dw_unit_find(from->dimension, name);
    double shown = dw_unit_from_base(to, dw_unit_to_base(from, value));
    double back;
    char number[32];
    dw_text_number(number, sizeof number, shown, 6);
    snprintf(out, DW_FILES__TEXT, "%s %s", number, name);
    if (from->dimension == DW_MASS && fabs(shown) < 0.1 && shown != 0)
        return false;
    return dw_files__number(field, out, &back, NULL) == DW_OK && back == value;
}

void dw_files__print(const dw_field *field, double value,
                     char out[DW_FILES__TEXT])
{
    const dw_unit *unit =
        dw_text_is(field->unit, "d") ? NULL : dw_measure_of(field->unit);
    if (is_time_of_day(field)) {
        snprintf(out, DW_FILES__TEXT, "%02d:%02d", (int)value / 60,
                 (int)value % 60);
        return;
    }
    for (size_t i = 0; unit && habits[unit->dimension][i]; i++)
        if (try_unit(field, unit, habits[unit->dimension][i], value, out))
            return;
    char number[48];
    int decimals = 0; /* no exponents: people read these */
    do
        snprintf(number, sizeof number, "%.*f", decimals, value);
    while (strtod(number, NULL) != value && ++decimals <= 24);
    snprintf(out, DW_FILES__TEXT, unit ? "%s %s" : "%s", number,
             unit ? dw_measure_name(field->unit) : "");
}
