#include "app/doubt.h"

#include "doughwright/say.h"

#include <math.h>

/* Of the flour: water that is asked about, and the most yeast there is. */
#define WATER_ASK_PART 0.05
#define YEAST_MOST_PART 0.1
/* Of the planned yeast, either way. */
#define YEAST_ASK_TIMES 3
/* Of the planned dough: balls that are refused, and that are asked about. */
#define BALLS_MOST_TIMES 2
#define BALLS_ASK_TIMES 1.1

static dw_status say(dw_call *call, const char *sentence, const char **said)
{
    *said = dw_say_in(call->arena, call->lang, sentence, NULL, 0);
    return *said ? DW_OK : dw_fail(call->err, DW_E_ROOM, "message", NULL);
}

/* ---- readings ------------------------------------------------------------ */

static const dw_usual_reading usual_readings[] = {
    {DW_READ_FLOUR, 0, 35},       {DW_READ_ROOM, 5, 40},
    {DW_READ_TAP, 1, 35},         {DW_READ_WATER, -1, 50},
    {DW_READ_BOWL, 0, 45},        {DW_READ_DOUGH, 15, 38},
    {DW_READ_COLD, -2, 10},       {DW_READ_CORE, -2, 35},
    {DW_READ_YEAST_WATER, 30, 48}};

static const dw_field usual_reading_fields[] = {
    DW_F_CHOICE(dw_usual_reading, kind, dw_reading_kind_words, "what is read"),
    DW_F_REAL(dw_usual_reading, low_c, "degC", -30, 110, "as cold as this"),
    DW_F_REAL(dw_usual_reading, high_c, "degC", -30, 110, "as warm as this"),
};
const dw_shape dw_usual_reading_shape =
    DW_SHAPE("usual_reading", dw_usual_reading, usual_reading_fields,
             "what a thermometer shows on a sane day");

const dw_usual_reading *dw_usual_readings(size_t *count)
{
    *count = DW_COUNT(usual_readings);
    return usual_readings;
}

static bool is_usual(const dw_usual_reading *usual, double celsius)
{
    return celsius >= usual->low_c && celsius <= usual->high_c;
}

/* A number that is sane as degF was probably typed in the wrong unit. */
dw_status dw_doubt_reading(dw_call *call, int kind, double celsius,
                           const char **said)
{
    const dw_usual_reading *usual = &usual_readings[kind];
    *said = NULL;
    if (is_usual(usual, celsius))
        return DW_OK;
    if (is_usual(usual, (celsius - 32) / 1.8))
        return say(call, DW_MSG("That looks like °F typed as °C. Is it right?"),
                   said);
    return say(call, DW_MSG("That is not usual here. Please read it again."),
               said);
}

/* ---- what was off -------------------------------------------------------- */

static double planned_kg(const dw_card *card, const char *material)
{
    double kg = 0;
    for (size_t i = 0; i < card->weighings_count; i++)
        if (dw_text_is(card->weighings[i].weighing.material, material))
            kg += card->weighings[i].weighing.planned_kg;
    return kg;
}

/* The flour does not take up its own weight of water more, and no more can be
 * left out than there is. */
static dw_status doubt_water(dw_call *call, const dw_card *card,
                             const dw_batch_change *change, const char **said)
{
    double flour_kg = card->batch.flour_kg;
    DW_TRY(dw_check_range(call->err, "kg", change->kg,
                          -planned_kg(card, change->material), flour_kg));
    if (fabs(change->kg) <= WATER_ASK_PART * flour_kg)
        return DW_OK;
    return say(call,
               DW_MSG("That is more water than is usual to correct. Is the "
                      "weight right?"),
               said);
}

static dw_status doubt_yeast(dw_call *call, const dw_card *card,
                             const dw_batch_change *change, const char **said)
{
    double planned = planned_kg(card, change->material);
    DW_TRY(dw_check_range(call->err, "kg", change->kg, 0,
                          YEAST_MOST_PART * card->batch.flour_kg));
    if (change->kg == 0 || planned == 0 ||
        (change->kg <= YEAST_ASK_TIMES * planned &&
         change->kg >= planned / YEAST_ASK_TIMES))
        return DW_OK;
    return say(call, DW_MSG("That is not usual here. Please read it again."),
               said);
}

static dw_status doubt_again(dw_call *call, const dw_card *card,
                             const dw_batch_change *change, const char **said)
{
    for (size_t i = 0; i < card->changes_count; i++)
        if (card->changes[i].kind == change->kind &&
            dw_text_is(card->changes[i].material, change->material))
            return say(call,
                       DW_MSG("That was written down before. Did it happen "
                              "again?"),
                       said);
    return DW_OK;
}

dw_status dw_doubt_change(dw_call *call, const dw_card *card,
                          const dw_batch_change *change, const char **said)
{
    *said = NULL;
    switch (change->kind) {
    case DW_CHANGE_WATER: return doubt_water(call, card, change, said);
    case DW_CHANGE_YEAST_TYPE: return doubt_yeast(call, card, change, said);
    case DW_CHANGE_FORGOTTEN:
    case DW_CHANGE_DOUBLED: return doubt_again(call, card, change, said);
    default: return DW_OK;
    }
}

/* ---- what came ----------------------------------------------------------- */

dw_status dw_check_balls(dw_call *call, const dw_batch_row *batch,
                         const dw_batch_piece *piece, int64_t balls_made)
{
    double most = ceil(BALLS_MOST_TIMES * batch->dough_kg / piece->ball_kg);
    return dw_check_range(call->err, "pieces.balls_made", (double)balls_made, 0,
                          most);
}

dw_status dw_check_rests(dw_call *call, const dw_batch_row *batch)
{
    if (batch->has_scrap_kg)
        DW_TRY(dw_check_range(call->err, "scrap_kg", batch->scrap_kg, 0,
                              batch->dough_kg));
    if (batch->has_residue_kg)
        DW_TRY(dw_check_range(call->err, "residue_kg", batch->residue_kg, 0,
                              batch->dough_kg));
    return DW_OK;
}

dw_status dw_doubt_boxed(dw_call *call, const dw_card *card, const char **said)
{
    double kg = card->batch.has_scrap_kg ? card->batch.scrap_kg : 0;
    bool few = false;
    if (card->batch.has_residue_kg)
        kg += card->batch.residue_kg;
    for (size_t i = 0; i < card->pieces_count; i++) {
        const dw_batch_piece *piece = &card->pieces[i].piece;
        if (!piece->has_balls_made)
            continue;
        kg += (double)piece->balls_made * piece->ball_kg;
        few = few || 2 * piece->balls_made < piece->balls_planned;
    }
    *said = NULL;
    if (kg > BALLS_ASK_TIMES * card->totals.dough_kg)
        return say(call,
                   DW_MSG("That is more dough than there is in the bowl. Is "
                          "the count right?"),
                   said);
    if (few)
        return say(call,
                   DW_MSG("That is less than half of what was planned. Is the "
                          "count right?"),
                   said);
    return DW_OK;
}
