#include "app/said.h"

#include "doughwright/say.h"

#include <math.h>

/* A note's value and limit may be named in its sentence as they are, as
 * percent, or as temperatures: {value} {value_percent} {value_c} {value_f}, and
 * so for limit; {subject} as it is. */
static const struct {
    const char *code, *sentence;
} sentences[] = {
    {"ice_may_not_melt",
     DW_MSG("Ice would be {value_percent} percent of the water; above "
            "{limit_percent} percent some of it may not melt within the mix. "
            "Chill the flour, or mix a smaller batch.")},
    {"ice_will_not_melt",
     DW_MSG("Ice would be {value_percent} percent of the water; above "
            "{limit_percent} percent it will not melt within the mix. Chill "
            "the flour first.")},
    {"water_kills_yeast",
     DW_MSG("The water would be {value_c} °C ({value_f} °F); above {limit_c} "
            "°C ({limit_f} °F) it kills yeast. Let the flour warm up first.")},
    {"no_instant_yeast_in_cold_water",
     DW_MSG("The water is cold: put instant dry yeast dry on the flour, never "
            "into ice or into water below {limit_c} °C ({limit_f} °F).")},
    {"tap_too_cold",
     DW_MSG("The tap gives {limit_c} °C ({limit_f} °F); warm the water to "
            "{value_c} °C ({value_f} °F).")},
};

/* Indexed by dw_heat_cause. {gap_c} and the like are rounded sizes. */
static const char *const why_sentences[] = {
    [DW_HEAT_AGREE] =
        DW_MSG("The friction number and the heat balance agree today."),
    [DW_HEAT_FLOUR] =
        DW_MSG("By the friction number the water would be {gap_c} °C ({gap_f} "
               "°F) {side}, and the dough {dough_c} °C ({dough_f} °F) off: it "
               "moves the water one degree for each degree of flour, but "
               "flour holds less heat than the water does."),
    [DW_HEAT_ROOM] =
        DW_MSG("By the friction number the water would be {gap_c} °C ({gap_f} "
               "°F) {side}, and the dough {dough_c} °C ({dough_f} °F) off: it "
               "moves the water one degree for each degree of room, but the "
               "room reaches the dough only through the bowl."),
    [DW_HEAT_FRICTION] =
        DW_MSG("By the friction number the water would be {gap_c} °C ({gap_f} "
               "°F) {side}, and the dough {dough_c} °C ({dough_f} °F) off: "
               "that number is not what this mixer has done lately."),
};

static double tenth(double value)
{
    return round(value * 10) / 10 + 0.0; /* no -0 */
}

static double fahrenheit(double c)
{
    return round(c * 1.8 + 32);
}

static const char *sentence_of(const char *code)
{
    for (size_t i = 0; i < DW_COUNT(sentences); i++)
        if (dw_text_is(sentences[i].code, code))
            return sentences[i].sentence;
    return NULL;
}

static dw_status say_note(dw_call *call, dw_note *note)
{
    const char *sentence = sentence_of(note->code);
    if (!sentence)
        return DW_OK;
    const dw_value values[] = {
        DW_VALUE_TEXT("subject", note->subject ? note->subject : ""),
        DW_VALUE_NUMBER("value", note->value),
        DW_VALUE_NUMBER("value_percent", round(note->value * 100)),
        DW_VALUE_NUMBER("value_c", tenth(note->value)),
        DW_VALUE_NUMBER("value_f", fahrenheit(note->value)),
        DW_VALUE_NUMBER("limit", note->limit),
        DW_VALUE_NUMBER("limit_percent", round(note->limit * 100)),
        DW_VALUE_NUMBER("limit_c", tenth(note->limit)),
        DW_VALUE_NUMBER("limit_f", fahrenheit(note->limit)),
    };
    note->message =
        dw_say_in(call->arena, call->lang, sentence, values, DW_COUNT(values));
    return note->message ? DW_OK
                         : dw_fail(call->err, DW_E_ROOM, "message", NULL);
}

dw_status dw_said_notes(dw_call *call, dw_note *notes, size_t count)
{
    for (size_t i = 0; i < count; i++)
        DW_TRY(say_note(call, &notes[i]));
    return DW_OK;
}

dw_status dw_said_why(dw_call *call, dw_heat_why *why)
{
    double gap = fabs(why->gap_c), dough = fabs(why->dough_gap_c);
    const char *side = why->gap_c > 0 ? DW_MSG("warmer") : DW_MSG("colder");
    const dw_value values[] = {
        DW_VALUE_TEXT("side", dw_say_sentence(call->lang, side)),
        DW_VALUE_NUMBER("gap_c", tenth(gap)),
        DW_VALUE_NUMBER("gap_f", tenth(gap * 1.8)),
        DW_VALUE_NUMBER("dough_c", tenth(dough)),
        DW_VALUE_NUMBER("dough_f", tenth(dough * 1.8)),
    };
    why->message = dw_say_in(call->arena, call->lang, why_sentences[why->code],
                             values, DW_COUNT(values));
    return why->message ? DW_OK
                        : dw_fail(call->err, DW_E_ROOM, "message", NULL);
}
