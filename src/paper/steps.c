#include "paper/steps.h"

#include "paper/words.h"

#include <math.h>

static const char *const until_sentences[] = {
    [DW_UNTIL_TIME] = NULL,
    [DW_UNTIL_NO_DRY_FLOUR] = DW_MSG("Until no dry flour is left."),
    [DW_UNTIL_ABSORBED] = DW_MSG("Until it is absorbed."),
    [DW_UNTIL_SMOOTH] = DW_MSG("Until the dough is smooth."),
    [DW_UNTIL_RISEN] = DW_MSG("Until it has risen."),
    [DW_UNTIL_CORE] = DW_MSG("Until the core is at {goal}."),
};

/* The material says it better than "Flour." does. */
static bool named_by_material(const dw_card_step *step)
{
    static const char *const codes[] = {"add_salt", "add_sugar", "add_flour",
                                        "add_fat",  "add_other", "add_stage"};
    for (size_t i = 0; step->material && i < DW_COUNT(codes); i++)
        if (dw_text_is(step->code, codes[i]))
            return true;
    return false;
}

const char *dw_paper__step(dw_sheet *sheet, const dw_card_step *step,
                           const dw_card_saying *saying)
{
    const char *first =
        step->kind == DW_STEP_DIVIDE && saying->step ? saying->step
        : named_by_material(step) ? dw_paper__capital(sheet, step->material)
                                  : (saying->step ? saying->step : "");
    const char *until = until_sentences[step->until];
    const dw_value goal[] = {
        DW_VALUE_TEXT("goal", dw_paper__temperature(sheet, step->goal_c))};
    if (step->caution)
        first = dw_paper__print(sheet, "⚠ %s", first);
    if (until)
        first = dw_paper__print(sheet, "%s %s", first,
                                dw_paper__say(sheet, until, goal, 1));
    if (step->has_low_c && step->has_high_c)
        first = dw_paper__print(sheet, "%s %s–%s.", first,
                                dw_paper__temperature(sheet, step->low_c),
                                dw_paper__temperature(sheet, step->high_c));
    if (step->text)
        first = dw_paper__print(sheet, "%s %s", first, step->text);
    return first;
}

/* The weighing that is put into the bowl as a whole; NULL: only part of one. */
static const dw_card_weighing *weighing_of(const dw_card_step *step,
                                           const dw_card *card)
{
    for (size_t i = 0; i < card->weighings_count; i++) {
        const dw_card_weighing *one = &card->weighings[i];
        if (dw_text_is(one->weighing.material, step->material) &&
            dw_text_is(one->stage, step->stage) &&
            fabs(one->weighing.exact_kg - step->kg) < 1e-6)
            return one;
    }
    return NULL;
}

/* What the scale was told to show for it, else what the formula says. */
static const char *weight_of(dw_sheet *sheet, const dw_card_step *step,
                             const dw_card *card)
{
    const dw_card_weighing *one = weighing_of(step, card);
    return one ? dw_paper__mass(sheet, one->weighing.planned_kg,
                                one->division_kg)
               : dw_paper__mass(sheet, step->kg, 0);
}

/* How much, how long, how warm: what the step is measured by. */
static const char *measure_of(dw_sheet *sheet, const dw_card_step *step,
                              const dw_card *card)
{
    if (step->kind == DW_STEP_ASK)
        return dw_paper__word(sheet, DW_MSG("☐ driving\n☐ sliding"));
    if (step->has_count) /* the table of balls says how many */
        return NULL;
    if (step->has_kg)
        return weight_of(sheet, step, card);
    if (step->minutes > 0)
        return dw_paper__minutes(sheet, step->minutes, step->has_minutes_to,
                                 step->minutes_to);
    if (step->kind == DW_STEP_PROBE && step->has_goal_c)
        return dw_paper__temperature(sheet, step->goal_c);
    return NULL;
}

/* In the order of the steps. */
void dw_paper__draw_cautions(dw_sheet *sheet, const dw_card_saying *sayings,
                             size_t count)
{
    enum { MOST = 8 };
    const char *said[MOST];
    size_t n = 0;
    for (size_t i = 0; i < count && n < MOST; i++) {
        bool known = !sayings[i].caution;
        for (size_t j = 0; j < n; j++)
            known = known || dw_text_is(said[j], sayings[i].caution);
        if (!known)
            said[n++] = sayings[i].caution;
    }
    if (n > 0)
        dw_sheet_caution(sheet, said, n);
}

/* Dividing, rounding and boxing go hand in hand: one row. */
static bool at_bench(const dw_card *card, size_t i)
{
    int kind = card->steps[i].step.kind;
    return kind == DW_STEP_DIVIDE || kind == DW_STEP_ROUND ||
           kind == DW_STEP_BOX || kind == DW_STEP_OIL_TOPS;
}

/* Steps i to before `after`, each sentence once. */
static const char *what_of_all(dw_sheet *sheet, const dw_card *card, size_t i,
                               size_t after)
{
    const char *all =
        dw_paper__step(sheet, &card->steps[i].step, &card->sayings[i]);
    for (size_t j = i + 1; j < after; j++)
        if (!dw_text_is(card->steps[j].step.code, card->steps[j - 1].step.code))
            all = dw_paper__print(
                sheet, "%s %s", all,
                dw_paper__step(sheet, &card->steps[j].step, &card->sayings[j]));
    return all;
}

/* What goes into the bowl one after another: one row, each with its box. */
static bool into_bowl(const dw_card *card, size_t i)
{
    return card->steps[i].step.kind == DW_STEP_ADD &&
           !card->steps[i].step.caution;
}

/* One row holds steps i to before this one. */
static size_t after_row(const dw_card *card, size_t i, size_t end)
{
    size_t after = i + 1;
    while (
        after < end &&
        dw_text_is(card->steps[after].step.stage, card->steps[i].step.stage) &&
        ((at_bench(card, i) && at_bench(card, after)) ||
         (into_bowl(card, i) && into_bowl(card, after))))
        after++;
    return after;
}

/* As wide as the widest of its texts, so that sentences get the rest. */
static double measure_width(dw_sheet *sheet, const dw_card *card)
{
    double widest = 0;
    for (size_t i = 0; i < card->steps_count; i++) {
        const char *text = measure_of(sheet, &card->steps[i].step, card);
        if (text && !into_bowl(card, i))
            widest =
                fmax(widest, dw_sheet_text_width(sheet, DW_INK_STRONG, text));
    }
    return ceil(widest) + 1;
}

/* "Salt 7.6 oz" behind its box; the weight where it is not what stands in the
 * table of weighings. What is not too long for it stays on one line. */
static const char *addition(dw_sheet *sheet, const dw_card *card, size_t i)
{
    const dw_card_step *step = &card->steps[i].step;
    const char *what = dw_paper__step(sheet, step, &card->sayings[i]);
    if (step->has_kg && !weighing_of(step, card))
        what =
            dw_paper__print(sheet, "%s %s", what, weight_of(sheet, step, card));
    double width = dw_sheet_text_width(sheet, DW_INK_BODY, what);
    if (width < (sheet->right - sheet->left) / 2)
        what = dw_paper__joined(sheet, what);
    return dw_paper__print(sheet, "☐\u00a0%s", what);
}

static void additions_row(dw_sheet *sheet, const dw_card *card, size_t i,
                          size_t after)
{
    const char *all = addition(sheet, card, i);
    for (size_t j = i + 1; j < after; j++)
        all = dw_paper__print(sheet, "%s  %s", all, addition(sheet, card, j));
    const dw_cell cell = {DW_CELL_TEXT, 0, DW_INK_BODY, all};
    dw_sheet_row(sheet, &cell, 1);
}

/* Check box, what, how much or how long, minute from the mixer's start; the
 * sentence has the width that the others leave. */
static void step_row(dw_sheet *sheet, const dw_card *card, size_t i,
                     const char *what, double measure_width)
{
    const dw_card_step *step = &card->steps[i].step;
    const char *measure = measure_of(sheet, step, card);
    bool minute = !step->stage &&
                  (step->kind == DW_STEP_MIX || step->kind == DW_STEP_STOP);
    const dw_cell cells[] = {
        {DW_CELL_BOX, 12, DW_INK_BODY, NULL},
        {DW_CELL_TEXT, 0, DW_INK_BODY, what},
        {DW_CELL_RIGHT, measure_width, DW_INK_STRONG, measure},
        {DW_CELL_RIGHT, 24, DW_INK_LABEL,
         minute ? dw_paper__print(sheet, "+%s",
                                  dw_paper__number(sheet, step->at_min, 4))
                : NULL},
    };
    dw_sheet_row(sheet, cells, measure || minute ? DW_COUNT(cells) : 2);
}

/* Steps up to and with the last one that closes a stack. */
static size_t steps_of_batch(const dw_card *card)
{
    for (size_t i = card->steps_count; i > 0; i--)
        if (card->steps[i - 1].step.kind == DW_STEP_CLOSE)
            return i;
    return card->steps_count;
}

void dw_paper__stage(dw_sheet *sheet, const char *stage)
{
    dw_sheet_need(sheet, 44);
    dw_sheet_gap(sheet, sheet->air - 1);
    dw_sheet_say(sheet, DW_INK_STRONG,
                 stage ? dw_paper__capital(sheet, stage)
                       : dw_paper__word(sheet, DW_MSG("For the dough")));
}

static const char *bench_rule(dw_sheet *sheet)
{
    const dw_value minutes[] = {
        DW_VALUE_NUMBER("minutes", sheet->shop.bench_minutes)};
    return dw_paper__say(sheet,
                         DW_MSG("The last box is in the cold room within "
                                "{minutes} minutes of the mixer's stop."),
                         minutes, DW_COUNT(minutes));
}

/* The close step says when; the one before it need not say until what. */
static const char *sentence_of(dw_sheet *sheet, const dw_card *card, size_t i,
                               size_t after, const char *close)
{
    dw_card_step step = card->steps[i].step;
    bool closes_next = after < card->steps_count &&
                       card->steps[after].step.kind == DW_STEP_CLOSE;
    if (step.kind == DW_STEP_CLOSE)
        return close;
    if (at_bench(card, i))
        return dw_paper__print(sheet, "%s %s",
                               what_of_all(sheet, card, i, after),
                               bench_rule(sheet));
    if (step.kind != DW_STEP_CHILL_OPEN || !closes_next)
        return what_of_all(sheet, card, i, after);
    step.until = DW_UNTIL_TIME;
    return dw_paper__step(sheet, &step, &card->sayings[i]);
}

void dw_paper__draw_steps(dw_sheet *sheet, const dw_card *card,
                          const char *close)
{
    size_t after = 0, end = steps_of_batch(card);
    double measure = measure_width(sheet, card);
    for (size_t i = 0; i < end; i = after) {
        const char *stage = card->steps[i].step.stage;
        if (!dw_text_is(stage, i > 0 ? card->steps[i - 1].step.stage : NULL))
            dw_paper__stage(sheet, stage);
        after = after_row(card, i, end);
        if (into_bowl(card, i) && after > i + 1)
            additions_row(sheet, card, i, after);
        else
            step_row(sheet, card, i, sentence_of(sheet, card, i, after, close),
                     measure);
    }
}

const char *dw_paper__after(dw_sheet *sheet, const dw_card *card)
{
    const char *all = "";
    for (size_t i = steps_of_batch(card); i < card->steps_count; i++)
        all = dw_paper__print(
            sheet, "%s%s%s", all, *all ? " " : "",
            dw_paper__step(sheet, &card->steps[i].step, &card->sayings[i]));
    return all;
}
