/* Numbers, days and clock times as a paper writes them. All texts live in the
 * call's arena; when it is full the sheet is marked so and "" stands instead.
 * Numbers and their units are joined by a no-break space. */
#ifndef DW_PAPER_WORDS_H
#define DW_PAPER_WORDS_H

#include "doughwright/say.h"
#include "paper/sheet.h"

const char *dw_paper__say(dw_sheet *sheet, const char *msgid,
                          const dw_value *values, size_t count);
/* A sentence without values. */
const char *dw_paper__word(const dw_sheet *sheet, const char *msgid);
const char *dw_paper__print(dw_sheet *sheet, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

/* A short text that stays on one line: with no-break spaces. */
const char *dw_paper__joined(dw_sheet *sheet, const char *text);

/* A mass in the shop's units. With the division of a scale, in whole divisions
 * as it shows them, grams when the division is metric; 0: as many digits as a
 * shop can weigh. */
const char *dw_paper__mass(dw_sheet *sheet, double kg, double division_kg);
/* Of a whole dough: pounds or kilograms to a tenth. */
const char *dw_paper__dough(dw_sheet *sheet, double kg);
/* In two significant digits of the grams or ounces that its scale shows. */
const char *dw_paper__small_mass(dw_sheet *sheet, double kg,
                                 double division_kg);
const char *dw_paper__temperature(dw_sheet *sheet, double celsius);
/* The unit alone, to stand behind a blank. */
const char *dw_paper__degrees(const dw_sheet *sheet);
const char *dw_paper__mass_unit(const dw_sheet *sheet);
const char *dw_paper__hours(dw_sheet *sheet, double hours);
/* "2 min", "8-10 min", "8-16 h" */
const char *dw_paper__minutes(dw_sheet *sheet, double from, bool has_to,
                              double to);
const char *dw_paper__number(dw_sheet *sheet, double value, int digits);

/* "Fri 5 Jun", "Friday 5 June 2026", "08:05", "5 Jun 2026, 08:05" */
const char *dw_paper__short_day(dw_sheet *sheet, int64_t day);
const char *dw_paper__long_day(dw_sheet *sheet, int64_t day);
const char *dw_paper__clock(dw_sheet *sheet, int64_t utc_ms);
const char *dw_paper__moment(dw_sheet *sheet, int64_t utc_ms);
/* The business day of a moment. */
int64_t dw_paper__day_of(const dw_sheet *sheet, int64_t utc_ms);
/* "2026-06-05T12:00:00Z" */
const char *dw_paper__iso(dw_sheet *sheet, int64_t utc_ms);
/* "Bread flour" of "bread flour" (ASCII and the Spanish letters). */
const char *dw_paper__capital(dw_sheet *sheet, const char *text);
/* "wheat, milk" as it was typed, in the reader's language, each once; "" for
 * NULL. */
const char *dw_paper__allergens(dw_sheet *sheet, const char *typed);

#endif
