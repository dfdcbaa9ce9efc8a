#include "app/said.h"

#include "doughwright/say.h"

#include <math.h>

/* A note's value and limit may be named in its sentence as they are, as
 * percent, as temperatures, rounded, or as weights: {value} {value_percent}
 * {value_c} {value_f} {value_whole} {value_tenth} {value_g} {value_kg}
 * {value_lb}, and so for limit; {subject} as it is. */
static const double KG_PER_LB = 0.45359237;

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
    {"lot_wants_water",
     DW_MSG("Flour lot {subject} has wanted {value_tenth} percent more water: "
            "it is planned in.")},
    {"lot_wants_less_water",
     DW_MSG("Flour lot {subject} has wanted {value_tenth} percent less water: "
            "it is planned in.")},
    {"mixer_unknown", DW_MSG("No rating is known for this mixer: read its "
                             "plate or manual and type what it says.")},
    {"mixer_below_rated",
     DW_MSG("This dough is stiffer than any the mixer is rated for ({value} "
            "percent water; rated from {limit}): the limit is lowered in "
            "proportion.")},
    {"mixer_high_gluten", DW_MSG("High-gluten flour: a tenth less dough.")},
    {"mixer_cold",
     DW_MSG("Ice, cold flour or cold water: a tenth less dough.")},
    {"mixer_no_second_speed",
     DW_MSG("Dough with {value} percent water is mixed on low speed only; "
            "second speed begins above {limit} percent.")},
    {"mixer_minutes",
     DW_MSG("So stiff a dough is mixed {value} minutes at most.")},
    {"mixer_over",
     DW_MSG("{value_kg} kg ({value_lb} lb) is more than this mixer takes of "
            "this dough: {limit_kg} kg ({limit_lb} lb).")},
    {"mixer_under",
     DW_MSG("{value_kg} kg ({value_lb} lb) is too little for the hook to pick "
            "up: at least {limit_kg} kg ({limit_lb} lb).")},
    {"standard_over_mixer",
     DW_MSG("{subject} makes {value_kg} kg ({value_lb} lb) of dough; the mixer "
            "takes {limit_kg} kg ({limit_lb} lb).")},
    {"standard_under_mixer",
     DW_MSG("{subject} makes {value_kg} kg ({value_lb} lb) of dough; the mixer "
            "needs {limit_kg} kg ({limit_lb} lb).")},
    {"no_standard_fits", DW_MSG("None of the usual batches fits this mixer: "
                                "the order is split into equal ones.")},
    {"batch_under_mixer",
     DW_MSG("Batch {subject} has {value_kg} kg ({value_lb} lb) of dough; the "
            "mixer needs {limit_kg} kg ({limit_lb} lb).")},
    {"not_proved", DW_MSG("A packing with less odd dough may exist.")},
    {"surplus", DW_MSG("{subject}: {value} more than ordered, into stock.")},
    {"scale_coarse",
     DW_MSG("{subject}: the scale is good to {value_tenth} percent only; "
            "{limit} percent is wanted. Use a finer scale.")},
    {"scale_too_coarse", DW_MSG("{subject}: {value_g} g is less than any scale "
                                "here shows. Weigh it on a finer one.")},
    {"dough_missing", DW_MSG("{value_kg} kg ({value_lb} lb) of dough is "
                             "missing: was something forgotten?")},
    {"dough_extra", DW_MSG("There is {value_kg} kg ({value_lb} lb) more dough "
                           "than was weighed: was something doubled?")},
    {"dough_adds_up", DW_MSG("The dough adds up.")},
    {"second_speed_dropped",
     DW_MSG("Second speed is left out: the dough is too stiff for it, or the "
            "mixer has none.")},
    {"mix_cut", DW_MSG("So stiff a dough is mixed {limit} minutes at most: "
                       "mixing is cut short.")},
    {"flour_first", DW_MSG("Flour is in the bowl before water: {value} minutes "
                           "more on low speed.")},
    {"yeast_into_cold_water",
     DW_MSG("{subject} would go into cold water: put it on the flour.")},
    {"yeast_before_flour",
     DW_MSG("{subject} would go in before the flour: put it on the flour.")},
    {"bench_over", DW_MSG("{subject}: {value_whole} minutes at the bench; "
                          "{limit} are allowed.")},
    {"closes_late", DW_MSG("{subject}: the stack closes {value_whole} minutes "
                           "after the last person leaves.")},
    {"short",
     DW_MSG("{subject}: {value_whole} short on day {limit}; making them would "
            "cost more than it brings.")},
    {"short_too_late", DW_MSG("{subject}: {value_whole} short on day {limit}: "
                              "no day of the plan makes them in time.")},
    {"short_mixer", DW_MSG("{subject}: {value_whole} short on day {limit}: the "
                           "mixers are full on the days before.")},
    {"short_hands", DW_MSG("{subject}: {value_whole} short on day {limit}: the "
                           "hands are all busy on the days before.")},
    {"short_boxes", DW_MSG("{subject}: {value_whole} short on day {limit}: "
                           "there are no more boxes.")},
    {"short_slots", DW_MSG("{subject}: {value_whole} short on day {limit}: the "
                           "cold room is full.")},
    {"past_stock",
     DW_MSG("{subject}: {value_whole} in stock are past already.")},
    {"no_room_boxes", DW_MSG("{value_whole} boxes would be needed for what is "
                             "there already; there are {limit}.")},
    {"no_room_slots", DW_MSG("What is there already needs room for "
                             "{value_whole} boxes; there is room for {limit}.")},
    {"stopped", DW_MSG("Stopped: this is the best plan so far.")},
    {"start_past", DW_MSG("This would have to start {value_whole} minutes "
                          "before anybody is there.")},
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

static double hundredth(double value)
{
    return round(value * 100) / 100 + 0.0;
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
        DW_VALUE_NUMBER("value_whole", round(note->value)),
        DW_VALUE_NUMBER("value_tenth", tenth(note->value)),
        DW_VALUE_NUMBER("value_g", tenth(note->value * 1000)),
        DW_VALUE_NUMBER("value_kg", hundredth(note->value)),
        DW_VALUE_NUMBER("value_lb", tenth(note->value / KG_PER_LB)),
        DW_VALUE_NUMBER("limit", note->limit),
        DW_VALUE_NUMBER("limit_kg", hundredth(note->limit)),
        DW_VALUE_NUMBER("limit_lb", tenth(note->limit / KG_PER_LB)),
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
