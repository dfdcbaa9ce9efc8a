/* What the program says to people, in their language.
 *
 * A message's id is its English sentence; {name} in it stands for a value. The
 * Spanish sentences come from po/es/ and are compiled into the program, so the
 * language is chosen per call and no locale is set. What has no translation is
 * said in English. A number has the decimal mark of its language: '.' in
 * English, ',' in Spanish, as the pages write it.
 *
 *     dw_value values[] = {DW_VALUE_TEXT("material", line->material),
 *                          DW_VALUE_NUMBER("percent", line->percent)};
 *     dw_say(out, sizeof out, lang, "{material} at {percent} percent", values,
 *            DW_COUNT(values));
 *
 * A sentence that stands in a table and is said later is marked with DW_MSG, so
 * that the check of the translations finds it.
 */
#ifndef DOUGHWRIGHT_SAY_H
#define DOUGHWRIGHT_SAY_H

#include "doughwright/base.h"

#define DW_MSG(sentence) sentence

typedef struct dw_value {
    const char *name; /* as between the braces */
    const char *text; /* NULL: the number */
    double number;    /* printed in up to 9 significant digits */
} dw_value;

#define DW_VALUE_TEXT(name, text)                                              \
    {                                                                          \
        name, text, 0                                                          \
    }
#define DW_VALUE_NUMBER(name, number)                                          \
    {                                                                          \
        name, NULL, number                                                     \
    }

/* The sentence in `lang` ("en", "es", "es-MX"; NULL is English), its values put
 * in. Cut to fit on a UTF-8 boundary. Returns the bytes written, without the
 * closing NUL. `values` are borrowed. A {name} that has no value stays. */
size_t dw_say(char *out, size_t room, const char *lang, const char *msgid,
              const dw_value *values, size_t count);
/* The same into the arena; NULL when the block is full. Under 1024 bytes. */
char *dw_say_in(dw_arena *arena, const char *lang, const char *msgid,
                const dw_value *values, size_t count);
/* The sentence alone, placeholders untouched. Static, borrowed. */
const char *dw_say_sentence(const char *lang, const char *msgid);

#endif
