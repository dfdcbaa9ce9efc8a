/* The loading lists of a day: what goes to which shop, from which stack, with
 * blanks for the door. A page for each shop. */
#include "paper/papers.h"

#include "app/drops.h"
#include "paper/words.h"

static void draw_head(dw_sheet *sheet)
{
    const dw_cell cells[] = {
        {DW_CELL_TEXT, 16, DW_INK_LABEL, NULL},
        {DW_CELL_RIGHT, 50, DW_INK_LABEL,
         dw_paper__word(sheet, DW_MSG("Boxes"))},
        {DW_CELL_RIGHT, 50, DW_INK_LABEL,
         dw_paper__word(sheet, DW_MSG("Balls"))},
        {DW_CELL_TEXT, 12, DW_INK_LABEL, NULL},
        {DW_CELL_TEXT, 0, DW_INK_LABEL,
         dw_paper__word(sheet, DW_MSG("Product and stack"))},
        {DW_CELL_RIGHT, 80, DW_INK_LABEL,
         dw_paper__word(sheet, DW_MSG("Use by"))},
        {DW_CELL_RIGHT, 70, DW_INK_LABEL,
         dw_paper__word(sheet, DW_MSG("Refused"))},
    };
    dw_sheet_head_row(sheet, cells, DW_COUNT(cells));
}

static void draw_part(dw_sheet *sheet, const dw_drop *drop,
                      const dw_drop_piece *piece, const dw_drop_part *part)
{
    const dw_value values[] = {
        DW_VALUE_TEXT("name", piece->name),
        DW_VALUE_NUMBER("number", (double)part->number),
        DW_VALUE_TEXT("day", dw_paper__short_day(sheet, part->mixing_day))};
    const dw_cell cells[] = {
        {DW_CELL_BOX, 16, DW_INK_BODY, NULL},
        {DW_CELL_RIGHT, 50, DW_INK_AMOUNT,
         dw_paper__number(sheet, (double)part->boxes, 6)},
        {DW_CELL_RIGHT, 50, DW_INK_AMOUNT,
         dw_paper__number(sheet, (double)part->balls, 6)},
        {DW_CELL_TEXT, 12, DW_INK_BODY, NULL},
        {DW_CELL_TEXT, 0, DW_INK_BODY,
         dw_paper__say(sheet,
                       part->number ? DW_MSG("{name}: batch {number}, {day}")
                                    : DW_MSG("{name}: mixed {day}"),
                       values, DW_COUNT(values))},
        {DW_CELL_RIGHT, 80, DW_INK_STRONG,
         dw_paper__short_day(sheet, drop->day + part->days_left - 1)},
        {DW_CELL_BLANK, 70, DW_INK_BODY, NULL},
    };
    dw_sheet_row(sheet, cells, DW_COUNT(cells));
}

static void draw_short(dw_sheet *sheet, const dw_drop_piece *piece)
{
    const dw_value values[] = {
        DW_VALUE_TEXT("name", piece->name),
        DW_VALUE_NUMBER("wanted", (double)piece->wanted),
        DW_VALUE_NUMBER("balls", (double)piece->short_of)};
    if (piece->short_of > 0)
        dw_sheet_say(sheet, DW_INK_STRONG,
                     dw_paper__say(sheet,
                                   DW_MSG("{name}: short of {balls} of "
                                          "{wanted} balls."),
                                   values, DW_COUNT(values)));
}

static void draw_door(dw_sheet *sheet)
{
    const dw_cell temperature[] = {
        {DW_CELL_TEXT, -1, DW_INK_BODY,
         dw_paper__word(sheet, DW_MSG("Dough at the door"))},
        {DW_CELL_BLANK, 90, DW_INK_BODY, dw_paper__degrees(sheet)},
        {DW_CELL_TEXT, -1, DW_INK_BODY,
         dw_paper__word(sheet, DW_MSG("Empty boxes back"))},
        {DW_CELL_BLANK, 0, DW_INK_BODY, NULL},
    };
    const dw_cell signs[] = {
        {DW_CELL_TEXT, -1, DW_INK_BODY,
         dw_paper__word(sheet, DW_MSG("Handed over by"))},
        {DW_CELL_BLANK, 0, DW_INK_BODY, NULL},
        {DW_CELL_TEXT, -1, DW_INK_BODY,
         dw_paper__word(sheet, DW_MSG("taken over by"))},
        {DW_CELL_BLANK, 0, DW_INK_BODY, NULL},
    };
    dw_sheet_heading(sheet, dw_paper__word(sheet, DW_MSG("At the door")), 80);
    dw_sheet_row(sheet, temperature, DW_COUNT(temperature));
    dw_sheet_row(sheet, signs, DW_COUNT(signs));
}

static int64_t owed_by(const dw_drops *drops, int64_t outlet_id)
{
    for (size_t i = 0; i < drops->owes_count; i++)
        if (drops->owes[i].outlet_id == outlet_id)
            return drops->owes[i].boxes;
    return 0;
}

static void draw_drop(dw_sheet *sheet, const dw_drops *drops,
                      const dw_drop *drop)
{
    const dw_value values[] = {
        DW_VALUE_TEXT("time", dw_paper__clock(sheet, drop->at_ms)),
        DW_VALUE_NUMBER("days", (double)drop->promised_days),
        DW_VALUE_NUMBER("boxes", (double)owed_by(drops, drop->outlet_id))};
    dw_sheet_heading(sheet, drop->outlet, 160);
    dw_sheet_say(sheet, DW_INK_BODY,
                 dw_paper__say(sheet,
                               DW_MSG("Drop at {time}. Days left, at least: "
                                      "{days}. Empty boxes owed: {boxes}."),
                               values, DW_COUNT(values)));
    if (drop->late)
        dw_sheet_say(sheet, DW_INK_STRONG,
                     dw_paper__word(sheet, DW_MSG("Ordered after the "
                                                  "cut-off.")));
    if (drop->order_note)
        dw_sheet_say(sheet, DW_INK_BODY, drop->order_note);
    draw_head(sheet);
    for (size_t i = 0; i < drop->pieces_count; i++)
        for (size_t j = 0; j < drop->pieces[i].parts_count; j++)
            draw_part(sheet, drop, &drop->pieces[i], &drop->pieces[i].parts[j]);
    dw_sheet_gap(sheet, 4);
    for (size_t i = 0; i < drop->pieces_count; i++)
        draw_short(sheet, &drop->pieces[i]);
    draw_door(sheet);
}

static void draw_drops(dw_sheet *sheet, const void *object)
{
    const dw_drops *drops = object;
    for (size_t i = 0; i < drops->drops_count; i++) {
        if (i > 0)
            dw_sheet_page(sheet);
        draw_drop(sheet, drops, &drops->drops[i]);
    }
    if (drops->drops_count == 0)
        dw_sheet_say(sheet, DW_INK_BODY,
                     dw_paper__word(sheet, DW_MSG("No drop goes out that "
                                                  "day.")));
}

dw_status dw_paper__drops(dw_sheet *sheet, const dw_paper_request *request,
                          dw_paper *paper)
{
    dw_drops drops;
    DW_TRY(dw_drops_read(sheet->call, request->day, 1, request->id, &drops));
    sheet->title = dw_paper__word(sheet, DW_MSG("Loading list"));
    sheet->detail = dw_paper__long_day(sheet, drops.from_day);
    return dw_sheet_print(sheet, draw_drops, &drops, paper);
}
