/* Box labels: what is in the box, how much, made, ready, use by, allergens. */
#include "paper/papers.h"

#include "app/batches.h"
#include "app/stock.h"
#include "paper/words.h"

#include <string.h>

typedef struct label {
    const char *name, *contains;
    int64_t balls, box, boxes, number, day;
    double ball_kg;
    dw_cold_days days;
} label;

typedef struct labels {
    label *at;
    size_t count;
    bool sheet_of_ten;
} labels;

/* ---- what goes on them --------------------------------------------------- */

static int64_t balls_of(const dw_card_cut *cut)
{
    return cut->piece.has_balls_made ? cut->piece.balls_made
                                     : cut->piece.balls_planned;
}

static int64_t boxes_of(const dw_card_cut *cut)
{
    return (balls_of(cut) + cut->balls_per_box - 1) / cut->balls_per_box;
}

static dw_status add_cut(dw_sheet *sheet, const dw_card *card,
                         const dw_card_cut *cut, const char *contains,
                         labels *all)
{
    dw_product product;
    DW_TRY(dw_row_get(sheet->call, "product", &dw_product_noun,
                      cut->piece.product_id, "product_id", &product));
    int64_t left = balls_of(cut), boxes = boxes_of(cut);
    for (int64_t i = 0; i < boxes; i++) {
        int64_t balls = left < cut->balls_per_box ? left : cut->balls_per_box;
        left -= balls;
        all->at[all->count++] =
            (label){.name = cut->name,
                    .contains = contains,
                    .balls = balls,
                    .box = i + 1,
                    .boxes = boxes,
                    .number = card->batch.number,
                    .day = card->batch.day,
                    .ball_kg = cut->piece.ball_kg,
                    .days = dw_product_days(&sheet->shop, &product)};
    }
    return DW_OK;
}

static dw_status read_labels(dw_sheet *sheet, int64_t batch_id, labels *all)
{
    dw_card card;
    int64_t boxes = 0;
    DW_TRY(dw_card_read(sheet->call, batch_id, &card));
    const char *contains = dw_paper__allergens(sheet, card.totals.allergens);
    for (size_t i = 0; i < card.pieces_count; i++)
        boxes += boxes_of(&card.pieces[i]);
    all->at = DW_NEW_ARRAY(sheet->call->arena, label, (size_t)boxes);
    if (!all->at)
        return dw_fail(sheet->call->err, DW_E_ROOM, "paper", NULL);
    for (size_t i = 0; i < card.pieces_count; i++)
        DW_TRY(add_cut(sheet, &card, &card.pieces[i], contains, all));
    return DW_OK;
}

/* ---- drawing ------------------------------------------------------------- */

/* Text that ends at x. Returns where it begins. */
static double text_before(dw_sheet *sheet, double x, double y, dw_ink ink,
                          const char *text)
{
    double width = dw_sheet_text_width(sheet, ink, text);
    dw_sheet_text(sheet, x - width, y, width + 1, ink, text);
    return x - width;
}

static double draw_contents(dw_sheet *sheet, const label *one, double x,
                            double y, double width)
{
    double all_kg = (double)one->balls * one->ball_kg;
    const dw_value values[] = {
        DW_VALUE_NUMBER("balls", (double)one->balls),
        DW_VALUE_TEXT("each", dw_paper__mass(sheet, one->ball_kg, 0)),
        DW_VALUE_TEXT("weight", dw_paper__mass(sheet, all_kg, 0)),
        DW_VALUE_NUMBER("box", (double)one->box),
        DW_VALUE_NUMBER("boxes", (double)one->boxes),
    };
    double fits = dw_sheet_text_width(sheet, DW_INK_LARGE, one->name);
    y += dw_sheet_text(sheet, x, y, width,
                       fits <= width ? DW_INK_LARGE : DW_INK_STRONG, one->name);
    double before =
        text_before(sheet, x + width, y, DW_INK_LABEL,
                    dw_paper__say(sheet, DW_MSG("box {box} of {boxes}"), values,
                                  DW_COUNT(values)));
    return y + dw_sheet_text(
                   sheet, x, y, before - x - 6, DW_INK_BODY,
                   dw_paper__say(sheet, DW_MSG("{balls} × {each} = {weight}"),
                                 values, DW_COUNT(values)));
}

static void draw_label_dates(dw_sheet *sheet, const label *one, double x,
                             double y, double width)
{
    const struct {
        const char *word;
        int64_t day;
    } dates[] = {{DW_MSG("Made"), 0},
                 {DW_MSG("Ready"), one->days.ready_day},
                 {DW_MSG("Use by"), one->days.last_day}};
    double each = width / 3;
    for (size_t i = 0; i < DW_COUNT(dates); i++) {
        double left = x + each * (double)i;
        const dw_value count[] = {DW_VALUE_NUMBER("day", (double)dates[i].day)};
        dw_sheet_frame(sheet, left, y, each, 50, i == 2 ? 2 : 0.6);
        dw_sheet_text(sheet, left + 5, y + 2, each - 6, DW_INK_LABEL,
                      dw_paper__word(sheet, dates[i].word));
        dw_sheet_text(sheet, left + 5, y + 17, each - 5,
                      i == 2 ? DW_INK_STRONG : DW_INK_BODY,
                      dw_paper__short_day(sheet, one->day + dates[i].day));
        dw_sheet_text(
            sheet, left + 5, y + 32, each - 6, DW_INK_LABEL,
            dw_paper__say(sheet, DW_MSG("day {day}"), count, DW_COUNT(count)));
    }
}

static void draw_label(dw_sheet *sheet, const label *one, double x, double y,
                       double width)
{
    const dw_value values[] = {
        DW_VALUE_NUMBER("number", (double)one->number),
        DW_VALUE_TEXT("allergens", one->contains),
    };
    y = draw_contents(sheet, one, x, y, width) + 3;
    draw_label_dates(sheet, one, x, y, width);
    y += 53;
    y += dw_sheet_text(sheet, x, y, width, DW_INK_BODY,
                       dw_paper__say(sheet,
                                     DW_MSG("Batch {number}. Mixing day is "
                                            "day 0."),
                                     values, DW_COUNT(values)));
    dw_sheet_text(
        sheet, x, y, width, DW_INK_STRONG,
        *one->contains
            ? dw_paper__say(sheet, DW_MSG("Contains {allergens}."), values,
                            DW_COUNT(values))
            : dw_paper__word(sheet, DW_MSG("Contains: ______________")));
}

static void draw_ten(dw_sheet *sheet, const labels *all)
{
    const double margin = 28, pad = 7;
    double width = (sheet->width - 2 * margin) / 2;
    double height = (sheet->height - 2 * margin) / 5;
    for (size_t i = 0; i < all->count; i++) {
        if (i > 0 && i % 10 == 0)
            dw_sheet_page(sheet);
        double x = margin + width * (double)(i % 2);
        size_t row = i % 10 / 2;
        double y = margin + height * (double)row;
        dw_sheet_frame(sheet, x, y, width, height, 0.3); /* to cut along */
        draw_label(sheet, &all->at[i], x + pad, y + 7, width - 2 * pad);
    }
}

static void draw(dw_sheet *sheet, const void *object)
{
    const labels *all = object;
    if (all->sheet_of_ten) {
        draw_ten(sheet, all);
        return;
    }
    for (size_t i = 0; i < all->count; i++) {
        if (i > 0)
            dw_sheet_page(sheet);
        draw_label(sheet, &all->at[i], 9, 9, sheet->width - 18);
    }
}

dw_status dw_paper__labels(dw_sheet *sheet, const dw_paper_request *request,
                           dw_paper *paper)
{
    labels all = {.sheet_of_ten = request->size == DW_PAPER_A4 ||
                                  request->size == DW_PAPER_LETTER};
    sheet->bare = true;
    sheet->title = dw_paper__word(sheet, DW_MSG("Box labels"));
    DW_TRY(read_labels(sheet, request->id, &all));
    return dw_sheet_print(sheet, draw, &all, paper);
}
