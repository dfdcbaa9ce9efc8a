#include "door/error.h"

#include "door/json.h"
#include "door/out.h"
#include "doughwright/say.h"

#include <float.h>
#include <math.h>
#include <string.h>

const char *dw_unit_sentence(const char *unit, const char *lang)
{
    static const char *const texts[][2] = {
        {"degC", "°C"},
        {"percent", DW_MSG("percent")},
        {"h", DW_MSG("hours")},
        {"bytes", DW_MSG("bytes")},
        {"entries", DW_MSG("entries")},
    };
    for (size_t i = 0; i < DW_COUNT(texts); i++)
        if (dw_text_is(unit, texts[i][0]))
            return dw_say_sentence(lang, texts[i][1]);
    return unit ? unit : "";
}

static bool bounded(double limit)
{
    return fabs(limit) < DBL_MAX;
}

static const char *range_sentence(const dw_err *err)
{
    if (bounded(err->low) && bounded(err->high))
        return DW_MSG("is {value}; allowed {low} to {high} {unit}");
    if (bounded(err->low))
        return DW_MSG("is {value}; allowed {low} {unit} or more");
    if (bounded(err->high))
        return DW_MSG("is {value}; allowed {high} {unit} or less");
    return DW_MSG("is {value}, which is not a number that can be used");
}

/* The words of a choice: " (flour, water, salt)", cut to fit. */
static void put_words(char *out, size_t room, const char *const *words)
{
    size_t used = 0;
    for (size_t i = 0; words[i]; i++) {
        const dw_value one[] = {DW_VALUE_TEXT("before", i ? ", " : ": "),
                                DW_VALUE_TEXT("word", words[i])};
        used += dw_say(out + used, room - used, NULL, "{before}{word}", one, 2);
    }
}

/* "formula.lines[0].kind (flower) is not one of the allowed words: flour, ..."
 */
static void say_plain(const dw_err *err, const char *lang, const char *field,
                      const char *predicate, char *out, size_t room)
{
    const dw_value values[] = {DW_VALUE_TEXT("field", field),
                               DW_VALUE_TEXT("value", err->value),
                               DW_VALUE_TEXT("predicate", predicate)};
    const char *form =
        err->value[0] ? "{field} ({value}) {predicate}" : "{field} {predicate}";
    size_t used = dw_say(out, room, lang, form, values, DW_COUNT(values));
    if (err->words)
        put_words(out + used, room - used, err->words);
}

void dw_error_sentence(const dw_err *err, const char *lang, char *out,
                       size_t room)
{
    const char *sentence = err->sentence ? err->sentence
                           : err->ranged ? range_sentence(err)
                                         : dw_status_sentence(err->status);
    const char *unit = dw_unit_sentence(err->unit, lang);
    const dw_value values[] = {
        DW_VALUE_TEXT("value", err->value), DW_VALUE_NUMBER("low", err->low),
        DW_VALUE_NUMBER("high", err->high), DW_VALUE_TEXT("unit", unit)};
    char predicate[256];
    size_t n = dw_say(predicate, sizeof predicate, lang, sentence, values,
                      DW_COUNT(values));
    while (n > 0 && predicate[n - 1] == ' ') /* no unit */
        predicate[--n] = '\0';
    const char *field = err->field[0]
                            ? err->field
                            : dw_say_sentence(lang, DW_MSG("the request"));
    if (strstr(sentence, "{value}") == NULL) {
        say_plain(err, lang, field, predicate, out, room);
        return;
    }
    const dw_value parts[] = {DW_VALUE_TEXT("field", field),
                              DW_VALUE_TEXT("predicate", predicate)};
    dw_say(out, room, lang, "{field} {predicate}", parts, DW_COUNT(parts));
}

static void put_limit(dw_out *out, const char *name, const dw_err *err,
                      double limit)
{
    dw_out_name(out, name);
    dw_out_real(out, err->ranged && bounded(limit) ? limit : NAN);
}

dw_status dw_json_error(const dw_err *err, const char *lang, dw_arena *arena,
                        const char **text, size_t *bytes)
{
    char message[1024];
    dw_error_sentence(err, lang, message, sizeof message);
    dw_out out;
    dw_out_init(&out, arena);
    dw_out_raw(&out, "{\"error\":{");
    dw_out_name(&out, "code");
    dw_out_text(&out, dw_status_code(err->status));
    dw_out_name(&out, "field");
    dw_out_text(&out, err->field);
    dw_out_name(&out, "message");
    dw_out_text(&out, message);
    put_limit(&out, "low", err, err->low);
    put_limit(&out, "high", err, err->high);
    dw_out_raw(&out, "}}");
    return dw_out_keep(&out, arena, text, bytes);
}
