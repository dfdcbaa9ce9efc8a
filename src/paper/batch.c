/* The batch sheet: a batch from the first weighing to its last day, with a
 * place to write down whatever is read or counted on the way. */
#include "paper/papers.h"

#include "app/batches.h"
#include "paper/steps.h"
#include "paper/words.h"

#include <math.h>

typedef struct batch_sheet {
    dw_card card;
    dw_cold_close close; /* of the planned dough */
    bool close_known;
} batch_sheet;

enum { SIDE_WIDTH = 144, GUTTER = 12 };

static const dw_cell check = {DW_CELL_BOX, 12, DW_INK_BODY, NULL};

/* ---- weighing ------------------------------------------------------------ */

/* "2 x 2.27 kg" where the scale does not take it at once. */
static const char *loads_of(dw_sheet *sheet, const dw_card_weighing *one,
                            double rest_kg)
{
    bool once = one->loads_count == 0 ||
                (one->loads_count == 1 && one->loads[0].times == 1);
    if (once)
        return dw_paper__mass(sheet, rest_kg, one->division_kg);
    const char *all = "";
    for (size_t i = 0; i < one->loads_count; i++)
        all = dw_paper__print(
            sheet, "%s%s%d × %s", all, *all ? " + " : "",
            (int)one->loads[i].times,
            dw_paper__mass(sheet, one->loads[i].kg, one->division_kg));
    return all;
}

static const char *bags_and_rest(dw_sheet *sheet, const dw_card_weighing *one)
{
    const dw_batch_weighing *row = &one->weighing;
    double rest = row->planned_kg - (double)row->whole_bags * row->bag_kg;
    bool some = rest > 1e-6;
    const dw_value values[] = {
        DW_VALUE_NUMBER("bags", (double)row->whole_bags),
        DW_VALUE_TEXT("bag", dw_paper__mass(sheet, row->bag_kg, 0)),
        DW_VALUE_TEXT("rest", loads_of(sheet, one, rest)),
    };
    bool single = row->whole_bags == 1;
    if (row->whole_bags == 0)
        return values[2].text;
    if (some)
        return dw_paper__say(sheet,
                             single ? DW_MSG("{bags} bag of {bag} + {rest}")
                                    : DW_MSG("{bags} bags of {bag} + {rest}"),
                             values, DW_COUNT(values));
    return dw_paper__say(sheet,
                         single ? DW_MSG("{bags} bag of {bag}")
                                : DW_MSG("{bags} bags of {bag}"),
                         values, DW_COUNT(values));
}

/* What the scale's steps leave off or add; nothing when it is exact. */
static const char *rounding(dw_sheet *sheet, const dw_card_weighing *one)
{
    double off = one->weighing.planned_kg - one->weighing.exact_kg;
    if (fabs(off) < (sheet->units == DW_US ? 1.5e-5 : 5e-6))
        return NULL;
    const char *text = dw_paper__small_mass(sheet, fabs(off), one->division_kg);
    return dw_paper__print(sheet, "%s%s", off > 0 ? "+" : "−", text);
}

/* As wide as their texts are, within bounds; the name gets the rest. */
typedef struct weigh_widths {
    double weigh, scale, rounding, lot;
} weigh_widths;

static void widen(dw_sheet *sheet, dw_ink ink, const char *text, double most,
                  double *width)
{
    double wide = text ? dw_sheet_text_width(sheet, ink, text) + 1 : 0;
    *width = fmax(*width, fmin(wide, most));
}

static weigh_widths weigh_widths_of(dw_sheet *sheet, const dw_card *card)
{
    weigh_widths wide = {60, 40, 0, 44}; /* lots are written by hand, too */
    widen(sheet, DW_INK_SMALL, dw_paper__word(sheet, DW_MSG("Rounding")), 60,
          &wide.rounding);
    for (size_t i = 0; i < card->weighings_count; i++) {
        const dw_card_weighing *one = &card->weighings[i];
        widen(sheet, DW_INK_AMOUNT, bags_and_rest(sheet, one), 126,
              &wide.weigh);
        widen(sheet, DW_INK_SMALL, one->scale, 76, &wide.scale);
        widen(sheet, DW_INK_SMALL, rounding(sheet, one), 60, &wide.rounding);
        widen(sheet, DW_INK_SMALL, one->lot, 60, &wide.lot);
    }
    return wide;
}

static void weighing_row(dw_sheet *sheet, const dw_card_weighing *one,
                         const weigh_widths *wide)
{
    const dw_cell cells[] = {
        check,
        {DW_CELL_TEXT, 0, DW_INK_BODY,
         dw_paper__capital(sheet, one->weighing.material)},
        {DW_CELL_RIGHT, wide->weigh, DW_INK_AMOUNT, bags_and_rest(sheet, one)},
        {DW_CELL_TEXT, wide->scale, DW_INK_SMALL, one->scale},
        {DW_CELL_RIGHT, wide->rounding, DW_INK_SMALL, rounding(sheet, one)},
        {one->lot ? DW_CELL_TEXT : DW_CELL_BLANK, wide->lot, DW_INK_SMALL,
         one->lot},
    };
    dw_sheet_row(sheet, cells, DW_COUNT(cells));
}

static void weighing_head(dw_sheet *sheet, const weigh_widths *wide)
{
    const dw_cell cells[] = {
        {DW_CELL_TEXT, 12, DW_INK_SMALL, NULL},
        {DW_CELL_TEXT, 0, DW_INK_SMALL,
         dw_paper__word(sheet, DW_MSG("Ingredient"))},
        {DW_CELL_RIGHT, wide->weigh, DW_INK_SMALL,
         dw_paper__word(sheet, DW_MSG("Weigh"))},
        {DW_CELL_TEXT, wide->scale, DW_INK_SMALL,
         dw_paper__word(sheet, DW_MSG("Scale"))},
        {DW_CELL_RIGHT, wide->rounding, DW_INK_SMALL,
         dw_paper__word(sheet, DW_MSG("Rounding"))},
        {DW_CELL_TEXT, wide->lot, DW_INK_SMALL,
         dw_paper__word(sheet, DW_MSG("Lot"))},
    };
    dw_sheet_head_row(sheet, cells, DW_COUNT(cells));
}

/* The finest step among the scales: what a sum is told in. */
static double finest_kg(const dw_card *card)
{
    double finest = 0;
    for (size_t i = 0; i < card->weighings_count; i++) {
        double step = card->weighings[i].division_kg;
        if (step > 0 && (finest == 0 || step < finest))
            finest = step;
    }
    return finest;
}

static void minors_row(dw_sheet *sheet, const dw_card *card,
                       const weigh_widths *wide)
{
    if (card->totals.minors_kg <= 0)
        return;
    const dw_cell cells[] = {
        check,
        {DW_CELL_TEXT, 0, DW_INK_STRONG,
         dw_paper__word(sheet, DW_MSG("Minors together"))},
        {DW_CELL_RIGHT, -1, DW_INK_AMOUNT,
         dw_paper__mass(sheet, card->totals.minors_kg, finest_kg(card))},
        {DW_CELL_BLANK, wide->rounding + wide->scale + wide->lot + 12,
         DW_INK_SMALL, dw_paper__word(sheet, DW_MSG("before the bowl"))},
    };
    dw_sheet_row(sheet, cells, DW_COUNT(cells));
}

static void draw_weighings(dw_sheet *sheet, const dw_card *card)
{
    const char *stage = NULL;
    const weigh_widths wide = weigh_widths_of(sheet, card);
    weighing_head(sheet, &wide);
    for (size_t i = 0; i < card->weighings_count; i++) {
        const dw_card_weighing *one = &card->weighings[i];
        if (!dw_text_is(one->stage, stage))
            dw_paper__stage(sheet, one->stage);
        stage = one->stage;
        weighing_row(sheet, one, &wide);
    }
    minors_row(sheet, card, &wide);
}

/* ---- water and readings -------------------------------------------------- */

/* The row of the dough's water; NULL when it is weighed in stages only. */
static const dw_card_weighing *water_row(const dw_card *card)
{
    for (size_t i = 0; i < card->weighings_count; i++)
        if (card->weighings[i].weighing.kind == DW_WATER &&
            !card->weighings[i].stage)
            return &card->weighings[i];
    return NULL;
}

/* Ice in whole divisions of the scale, so that it and the rest add up to what
 * the weighing says. */
static double ice_weighed(double ice_kg, const dw_card_weighing *row)
{
    double step = row ? row->division_kg : 0;
    return step > 0 ? round(ice_kg / step) * step : ice_kg;
}

static const char *water_sentence(dw_sheet *sheet, const dw_card *card)
{
    const dw_card_water *water = &card->water;
    if (!water->has_answer)
        return dw_paper__word(
            sheet, DW_MSG("The dough temperature cannot be reached with water "
                          "and ice alone today: chill or warm the flour."));
    const dw_card_weighing *row = water_row(card);
    double all = row ? row->weighing.planned_kg : water->inputs.water_kg;
    double step = row ? row->division_kg : 0;
    double ice = ice_weighed(water->answer.ice_kg, row);
    const dw_value values[] = {
        DW_VALUE_TEXT("liquid", dw_paper__mass(sheet, all - ice, step)),
        DW_VALUE_TEXT("ice", dw_paper__mass(sheet, ice, step)),
        DW_VALUE_TEXT("temperature",
                      dw_paper__temperature(sheet, water->answer.liquid_c)),
    };
    return dw_paper__say(
        sheet,
        ice <= 0
            ? DW_MSG("{liquid} of water at {temperature}.")
            : DW_MSG("{liquid} of water at {temperature} and {ice} of ice."),
        values, DW_COUNT(values));
}

/* What the sentence itself says is not said twice. */
static bool said_by_sentence(const dw_note *note)
{
    return dw_text_is(note->code, "tap_too_cold");
}

static void draw_water(dw_sheet *sheet, const dw_card *card)
{
    const dw_card_water *water = &card->water;
    dw_sheet_gap(sheet, sheet->air);
    dw_sheet_say(sheet, DW_INK_AMOUNT, water_sentence(sheet, card));
    for (size_t i = 0; i < water->answer.warnings_count; i++)
        if (!said_by_sentence(&water->answer.warnings[i]))
            dw_sheet_say(sheet, DW_INK_BODY, water->answer.warnings[i].message);
    dw_sheet_gap(sheet, sheet->air);
    dw_sheet_line(sheet, sheet->left, sheet->y, sheet->right, sheet->y, 0.8, 0);
}

/* ---- the side: what is written down -------------------------------------- */

static void side_heading(dw_sheet *sheet, const char *msgid)
{
    dw_sheet_gap(sheet, sheet->air + 1);
    dw_sheet_say(sheet, DW_INK_STRONG, dw_paper__word(sheet, msgid));
}

/* A name and a line to write on, the unit behind it. */
static void side_blank(dw_sheet *sheet, const char *name, const char *unit)
{
    const dw_cell cells[] = {
        {DW_CELL_TEXT, -1, DW_INK_SMALL, name},
        {DW_CELL_BLANK, 0, DW_INK_SMALL, unit},
    };
    dw_sheet_plain_row(sheet, cells, DW_COUNT(cells));
}

static void side_who(dw_sheet *sheet, const char *msgid, const char *name)
{
    const dw_cell cells[] = {
        {DW_CELL_TEXT, -1, DW_INK_SMALL, dw_paper__word(sheet, msgid)},
        {name ? DW_CELL_TEXT : DW_CELL_BLANK, 0, DW_INK_BODY, name},
    };
    dw_sheet_plain_row(sheet, cells, DW_COUNT(cells));
}

static bool all_read(const dw_card_water *water)
{
    return water->flour_read && water->room_read && water->tap_read;
}

/* Five places to write what is read, each with what it is held against. */
static void draw_readings(dw_sheet *sheet, const dw_card *card)
{
    const dw_card_water *water = &card->water;
    const struct {
        const char *name;
        bool known;
        double celsius;
    } rows[] = {
        {DW_MSG("Flour"), water->has_answer, water->inputs.flour_c},
        {DW_MSG("Room"), water->has_answer, water->inputs.room_c},
        {DW_MSG("Tap"), water->has_answer, water->inputs.tap_c},
        {DW_MSG("Water poured"), water->has_answer, water->answer.liquid_c},
        {DW_MSG("Dough"), true, card->batch.dough_goal_c},
    };
    side_heading(sheet, DW_MSG("Read"));
    for (size_t i = 0; i < DW_COUNT(rows); i++) {
        const char *name = dw_paper__word(sheet, rows[i].name);
        side_blank(sheet,
                   rows[i].known ? dw_paper__print(sheet, "%s (%s)", name,
                                                   dw_paper__temperature(
                                                       sheet, rows[i].celsius))
                                 : name,
                   dw_paper__degrees(sheet));
    }
    dw_sheet_gap(sheet, 2);
    dw_sheet_say(
        sheet, DW_INK_SMALL,
        dw_paper__word(
            sheet, all_read(water)
                       ? DW_MSG("In brackets: what the water was worked out "
                                "with, as read.")
                       : DW_MSG("In brackets: what the water was worked out "
                                "with, partly assumed. Read them and ask "
                                "again if they differ.")));
}

static void draw_times(dw_sheet *sheet)
{
    side_heading(sheet, DW_MSG("Times"));
    side_blank(sheet, dw_paper__word(sheet, DW_MSG("Mixer stopped at")), NULL);
    side_blank(sheet, dw_paper__word(sheet, DW_MSG("First box")), NULL);
    side_blank(sheet, dw_paper__word(sheet, DW_MSG("Last box")), NULL);
    side_who(sheet, DW_MSG("Boxed by"), NULL);
    side_blank(sheet, dw_paper__word(sheet, DW_MSG("Stack closed at")), NULL);
    side_blank(sheet, dw_paper__word(sheet, DW_MSG("Core then")),
               dw_paper__degrees(sheet));
    side_who(sheet, DW_MSG("Closed by"), NULL);
}

static double balls_kg(const dw_card *card)
{
    double kg = 0;
    for (size_t i = 0; i < card->pieces_count; i++)
        kg += card->pieces[i].piece.ball_kg *
              (double)card->pieces[i].piece.balls_planned;
    return kg;
}

/* Balls, scrap and what stays in the bowl against what was weighed. */
static void draw_balance(dw_sheet *sheet, const dw_card *card)
{
    double dough = card->totals.dough_kg;
    const dw_value values[] = {
        DW_VALUE_TEXT("dough", dw_paper__mass(sheet, dough, 0)),
        DW_VALUE_TEXT("balls", dw_paper__mass(sheet, balls_kg(card), 0)),
        DW_VALUE_TEXT("residue",
                      dw_paper__mass(sheet, sheet->shop.bowl_residue_kg, 0)),
        DW_VALUE_TEXT("allowed", dw_paper__mass(sheet, dough * 0.01, 0)),
    };
    const char *unit = dw_paper__mass_unit(sheet);
    side_heading(sheet, DW_MSG("Does it add up?"));
    side_blank(sheet, dw_paper__word(sheet, DW_MSG("Balls")), unit);
    side_blank(sheet, dw_paper__word(sheet, DW_MSG("+ scrap")), unit);
    side_blank(sheet,
               dw_paper__say(sheet, DW_MSG("+ bowl ({residue})"), values,
                             DW_COUNT(values)),
               unit);
    side_blank(sheet, "=", unit);
    dw_sheet_gap(sheet, 2);
    dw_sheet_say(
        sheet, DW_INK_SMALL,
        dw_paper__say(sheet,
                      DW_MSG("Weighed in: {dough}; the planned balls take "
                             "{balls}. More than {allowed} apart: something "
                             "was forgotten or doubled."),
                      values, DW_COUNT(values)));
}

/* "Ready  Wed 25 Nov  day 1", closer than the cells of a row stand. */
static void side_date(dw_sheet *sheet, const char *word, const char *date,
                      const char *day)
{
    const double small = 2.3, day_width = 27; /* on the date's baseline */
    double date_width = dw_sheet_text_width(sheet, DW_INK_BODY, date);
    double date_x = sheet->right - day_width - date_width;
    double y = sheet->y + sheet->air * 0.6;
    dw_sheet_text(sheet, sheet->left, y + small, date_x - sheet->left,
                  DW_INK_SMALL, word);
    dw_sheet_text(sheet, date_x, y, date_width + 1, DW_INK_BODY, date);
    dw_sheet_text(sheet,
                  sheet->right - dw_sheet_text_width(sheet, DW_INK_SMALL, day),
                  y + small, day_width, DW_INK_SMALL, day);
    sheet->y += 14 + sheet->air;
}

static void draw_dates(dw_sheet *sheet, const dw_card *card)
{
    const struct {
        const char *word;
        int64_t day;
    } dates[] = {
        {DW_MSG("Mixed"), card->batch.day},
        {DW_MSG("Ready"), card->clock.ready_day},
        {DW_MSG("Best"), card->clock.best_day},
        {DW_MSG("Use first"), card->clock.use_first_day},
        {DW_MSG("Last day"), card->clock.last_day},
    };
    dw_sheet_gap(sheet, sheet->air + 2);
    dw_sheet_line(sheet, sheet->left, sheet->y, sheet->right, sheet->y, 0.8, 0);
    for (size_t i = 0; i < DW_COUNT(dates); i++) {
        const dw_value count[] = {
            DW_VALUE_NUMBER("day", (double)(dates[i].day - card->batch.day))};
        side_date(sheet, dw_paper__word(sheet, dates[i].word),
                  dw_paper__short_day(sheet, dates[i].day),
                  dw_paper__say(sheet, DW_MSG("day {day}"), count, 1));
    }
}

/* In the order in which it happens, as it is entered afterwards. */
static void draw_side(dw_sheet *sheet, const dw_card *card)
{
    side_who(sheet, DW_MSG("Mixed by"), card->person_name);
    side_blank(sheet, dw_paper__word(sheet, DW_MSG("First step at")), NULL);
    draw_readings(sheet, card);
    draw_times(sheet);
    draw_balance(sheet, card);
    draw_dates(sheet, card);
}

/* ---- the dough out of the bowl ------------------------------------------- */

static const char *boxes_of(dw_sheet *sheet, const dw_card_cut *cut)
{
    const dw_value values[] = {
        DW_VALUE_NUMBER("full", (double)(cut->boxes - (cut->in_part_box > 0))),
        DW_VALUE_NUMBER("balls", (double)cut->balls_per_box),
        DW_VALUE_NUMBER("rest", (double)cut->in_part_box),
    };
    if (cut->in_part_box == 0)
        return dw_paper__say(sheet, DW_MSG("{full} of {balls}"), values,
                             DW_COUNT(values));
    return dw_paper__say(sheet, DW_MSG("{full} of {balls}, one of {rest}"),
                         values, DW_COUNT(values));
}

static void draw_pieces(dw_sheet *sheet, const dw_card *card)
{
    const dw_cell head[] = {
        {DW_CELL_TEXT, 0, DW_INK_SMALL,
         dw_paper__word(sheet, DW_MSG("Divide and box"))},
        {DW_CELL_RIGHT, 76, DW_INK_SMALL,
         dw_paper__word(sheet, DW_MSG("Each"))},
        {DW_CELL_RIGHT, 60, DW_INK_SMALL,
         dw_paper__word(sheet, DW_MSG("Planned"))},
        {DW_CELL_TEXT, 62, DW_INK_SMALL, dw_paper__word(sheet, DW_MSG("Came"))},
        {DW_CELL_TEXT, 122, DW_INK_SMALL,
         dw_paper__word(sheet, DW_MSG("Boxes"))},
        {DW_CELL_TEXT, 62, DW_INK_SMALL, dw_paper__word(sheet, DW_MSG("Used"))},
    };
    dw_sheet_gap(sheet, sheet->air);
    dw_sheet_head_row(sheet, head, DW_COUNT(head));
    for (size_t i = 0; i < card->pieces_count; i++) {
        const dw_card_cut *cut = &card->pieces[i];
        const dw_cell cells[] = {
            {DW_CELL_TEXT, 0, DW_INK_BODY, cut->name},
            {DW_CELL_RIGHT, 76, DW_INK_BODY,
             dw_paper__mass(sheet, cut->piece.ball_kg, 0)},
            {DW_CELL_RIGHT, 60, DW_INK_AMOUNT,
             dw_paper__number(sheet, (double)cut->piece.balls_planned, 9)},
            {DW_CELL_BLANK, 62, DW_INK_BODY, NULL},
            {DW_CELL_TEXT, 122, DW_INK_BODY, boxes_of(sheet, cut)},
            {DW_CELL_BLANK, 62, DW_INK_BODY, NULL},
        };
        dw_sheet_row(sheet, cells, DW_COUNT(cells));
    }
}

/* ---- the cold room ------------------------------------------------------- */

static const char *close_sentence(dw_sheet *sheet, const batch_sheet *what)
{
    const dw_card_clock *clock = &what->card.clock;
    const dw_value values[] = {
        DW_VALUE_TEXT("from", clock->has_close
                                  ? dw_paper__clock(sheet, clock->close_from_ms)
                                  : dw_paper__hours(sheet, what->close.from_h)),
        DW_VALUE_TEXT("by", clock->has_close
                                ? dw_paper__clock(sheet, clock->close_by_ms)
                                : dw_paper__hours(sheet, what->close.by_h)),
        DW_VALUE_TEXT("high", dw_paper__temperature(
                                  sheet, sheet->shop.close_core_high_c)),
        DW_VALUE_TEXT(
            "low", dw_paper__temperature(sheet, sheet->shop.close_core_low_c)),
    };
    if (clock->has_close)
        return dw_paper__say(
            sheet,
            DW_MSG("Close the stack between {from} and {by}, when the core is "
                   "between {high} and {low}."),
            values, DW_COUNT(values));
    if (what->close_known)
        return dw_paper__say(
            sheet,
            DW_MSG("Close the stack between {from} and {by} after the last "
                   "box, when the core is between {high} and {low}."),
            values, DW_COUNT(values));
    return dw_paper__say(
        sheet,
        DW_MSG("The cold room is too warm to say when to close. Close when the "
               "core is between {high} and {low}."),
        values, DW_COUNT(values));
}

/* ---- the whole ----------------------------------------------------------- */

static void draw_end(dw_sheet *sheet, const dw_card *card)
{
    const dw_cell off[] = {
        {DW_CELL_TEXT, -1, DW_INK_BODY,
         dw_paper__word(sheet, DW_MSG("Something was off"))},
        {DW_CELL_BLANK, 0, DW_INK_BODY, NULL},
    };
    const char *words = dw_paper__print(
        sheet, "%s %s", dw_paper__after(sheet, card),
        dw_paper__word(
            sheet, DW_MSG("Close time and dates are rules of thumb about "
                          "quality; mixing day is day 0. Food safety follows "
                          "the local code.")));
    const double below = dw_sheet_text_height(sheet, sheet->right - sheet->left,
                                              DW_INK_SMALL, words);
    dw_sheet_plain_row(sheet, off, DW_COUNT(off));
    if (sheet->y + 18 + 2 * sheet->air + below <= sheet->bottom)
        dw_sheet_lines(sheet, 1);
    dw_sheet_gap(sheet, sheet->air + 1);
    dw_sheet_say(sheet, DW_INK_SMALL, words);
}

/* On the left what is read, on the right what is written. */
static void draw_columns(dw_sheet *sheet, const batch_sheet *what)
{
    const dw_card *card = &what->card;
    const double top = sheet->y, left = sheet->left, right = sheet->right;
    const int page = sheet->page;
    sheet->left = right - SIDE_WIDTH;
    draw_side(sheet, card);
    const double side_end = sheet->y;
    sheet->left = left;
    sheet->right = right - SIDE_WIDTH - GUTTER;
    sheet->y = top;
    draw_weighings(sheet, card);
    draw_water(sheet, card);
    dw_paper__draw_steps(sheet, card, close_sentence(sheet, what));
    sheet->right = right;
    if (sheet->page == page)
        sheet->y = fmax(sheet->y, side_end);
}

static void draw(dw_sheet *sheet, const void *object)
{
    const batch_sheet *what = object;
    dw_paper__draw_cautions(sheet, what->card.sayings,
                            what->card.sayings_count);
    draw_columns(sheet, what);
    draw_pieces(sheet, &what->card);
    draw_end(sheet, &what->card);
}

static void put_head(dw_sheet *sheet, const dw_card *card)
{
    const dw_batch_row *batch = &card->batch;
    const dw_value values[] = {
        DW_VALUE_NUMBER("number", (double)batch->number),
        DW_VALUE_TEXT("formula", card->formula_name),
        DW_VALUE_NUMBER("version", (double)card->version_number),
        DW_VALUE_TEXT("day", dw_paper__long_day(sheet, batch->day)),
        DW_VALUE_TEXT("start", dw_paper__clock(sheet, batch->planned_ms)),
        DW_VALUE_TEXT("mixer", dw_paper__capital(sheet, card->mixer_name)),
        DW_VALUE_TEXT("dough", dw_paper__mass(sheet, card->totals.dough_kg, 0)),
    };
    const dw_value allergens[] = {DW_VALUE_TEXT(
        "allergens", dw_paper__allergens(sheet, card->totals.allergens))};
    if (card->totals.allergens)
        sheet->aside = dw_paper__say(sheet, DW_MSG("Contains {allergens}."),
                                     allergens, DW_COUNT(allergens));
    sheet->title = dw_paper__say(sheet, DW_MSG("Batch {number}: {formula}"),
                                 values, DW_COUNT(values));
    sheet->detail = dw_paper__say(
        sheet,
        batch->planned_ms
            ? DW_MSG("{day}, {start}. {mixer}, {dough} of dough, version "
                     "{version}.")
            : DW_MSG("{day}. {mixer}, {dough} of dough, version {version}."),
        values, DW_COUNT(values));
}

dw_status dw_paper__batch(dw_sheet *sheet, const dw_paper_request *request,
                          dw_paper *paper)
{
    batch_sheet what = {.close_known = false};
    double heaviest = 0;
    DW_TRY(dw_card_read(sheet->call, request->id, &what.card));
    for (size_t i = 0; i < what.card.pieces_count; i++)
        heaviest = fmax(heaviest, what.card.pieces[i].piece.ball_kg);
    if (heaviest > 0)
        DW_TRY(dw_close_hours(sheet->call, &sheet->shop, heaviest,
                              what.card.batch.dough_goal_c, &what.close,
                              &what.close_known));
    put_head(sheet, &what.card);
    return dw_sheet_print(sheet, draw, &what, paper);
}
