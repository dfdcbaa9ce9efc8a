/* The mix card and the ways out of a late run, in the caller's language. */
#include "app/said.h"

#include "doughwright/say.h"

typedef struct saying {
    const char *code, *sentence;
} saying;

/* An ask says its question. */
static const saying card_sayings[] = {
    {"add_water", DW_MSG("Water into the bowl.")},
    {"add_salt", DW_MSG("Salt.")},
    {"add_sugar", DW_MSG("Sugar.")},
    {"add_flour", DW_MSG("Flour.")},
    {"add_fat", DW_MSG("Oil or fat.")},
    {"add_fat_running", DW_MSG("Pour the oil in slowly while the mixer runs.")},
    {"add_yeast_dry", DW_MSG("Instant yeast, dry on the flour.")},
    {"add_yeast_fresh",
     DW_MSG("Crumble the fresh yeast on the flour, away from salt and sugar.")},
    {"add_yeast_wetted", DW_MSG("The wetted yeast with all its water.")},
    {"add_minors_bag", DW_MSG("One bag of minors on the flour.")},
    {"add_stage", DW_MSG("The dough made before.")},
    {"add_other", DW_MSG("Add it to the bowl.")},
    {"wet_yeast", DW_MSG("Wet the active dry yeast in warm water, ten minutes "
                         "before it is needed.")},
    {"mix_low", DW_MSG("Mix on low speed.")},
    {"mix_second", DW_MSG("Mix on second speed.")},
    {"rest", DW_MSG("Let it rest.")},
    {"oil_bowl",
     DW_MSG("A little oil down the side of the bowl, to release the dough.")},
    {"stop", DW_MSG("Stop the mixer.")},
    {"probe", DW_MSG("Take the dough's temperature.")},
    {"divide", DW_MSG("Divide.")},
    {"round", DW_MSG("Round.")},
    {"box", DW_MSG("Box.")},
    {"oil_tops", DW_MSG("Oil the tops.")},
    {"chill_open", DW_MSG("Into the cold room, boxes open and offset.")},
    {"close", DW_MSG("Close the stack.")},
    {"hold", DW_MSG("Hold cold.")},
    {"temper", DW_MSG("Take out and let it warm up before use.")},
    {"sheet", DW_MSG("Roll out.")},
    {"punch", DW_MSG("Punch down.")},
    {"oil_taken_up",
     DW_MSG("Is the hook still driving through the dough, or is the oil "
            "sliding? Sliding: stay on low until it is absorbed.")},
};

static const saying caution_sayings[] = {
    {"guard_closed_hands_out",
     DW_MSG("Guard closed, hands and tools out of the bowl.")},
    {"pour_hands_out",
     DW_MSG("Pour from above the guard; keep hands and jug out of the bowl.")},
    {"power_off_before_scraping",
     DW_MSG("Power off before you reach in or scrape.")},
};

static const saying advice_sayings[] = {
    {"start_earlier", DW_MSG("Start earlier.")},
    {"small_first", DW_MSG("Make the smaller balls first.")},
    {"large_first", DW_MSG("Make the larger balls first.")},
    {"bag_singly", DW_MSG("Bag these balls one by one: bags need no closing.")},
};

static const char *said(const dw_call *call, const saying *sayings,
                        size_t count, const char *code)
{
    for (size_t i = 0; code && i < count; i++)
        if (dw_text_is(sayings[i].code, code))
            return dw_say_sentence(call->lang, sayings[i].sentence);
    return NULL;
}

dw_status dw_said_card(dw_call *call, const dw_card_step *steps, size_t count,
                       dw_card_saying **sayings)
{
    dw_card_saying *out = DW_NEW_ARRAY(call->arena, dw_card_saying, count);
    if (!out)
        return dw_fail(call->err, DW_E_ROOM, "sayings", NULL);
    for (size_t i = 0; i < count; i++) {
        const char *code =
            steps[i].kind == DW_STEP_ASK ? steps[i].question : steps[i].code;
        out[i].step = said(call, card_sayings, DW_COUNT(card_sayings), code);
        out[i].caution = said(call, caution_sayings, DW_COUNT(caution_sayings),
                              steps[i].caution);
    }
    *sayings = out;
    return DW_OK;
}

void dw_said_advice(const dw_call *call, dw_run_advice *advice, size_t count)
{
    for (size_t i = 0; i < count; i++)
        advice[i].message = said(call, advice_sayings, DW_COUNT(advice_sayings),
                                 advice[i].code);
}
