/* The pull sheet: by the hour, how many balls are to be out of the cold and how
 * many boxes that takes on a usual day. */
#include "paper/papers.h"

#include "app/pulls.h"
#include "paper/words.h"

#include <math.h>

enum { COLUMNS = 7 };
static const double TIME_WIDTH = 40;

/* ---- the hours ----------------------------------------------------------- */

/* The next time after `at_ms` at which one of the products has a row; 0: none.
 */
static int64_t next_time(const dw_product_pull *pulls, size_t count,
                         int64_t at_ms)
{
    int64_t next = 0;
    for (size_t i = 0; i < count; i++)
        for (size_t j = 0; j < pulls[i].lines_count; j++) {
            int64_t at = pulls[i].lines[j].row.at_ms;
            if (at > at_ms && (next == 0 || at < next))
                next = at;
        }
    return next;
}

/* What a product's row says: balls to have out, and the boxes of a usual day
 * behind it. */
static dw_cell cell_at(dw_sheet *sheet, const dw_product_pull *pull,
                       int64_t at_ms, double width)
{
    int64_t boxes = 0, have_out = 0;
    for (size_t i = 0; i < pull->lines_count; i++)
        if (pull->lines[i].row.at_ms == at_ms) {
            boxes += pull->lines[i].row.boxes;
            have_out = pull->lines[i].row.have_out;
        }
    if (have_out == 0)
        return (dw_cell){DW_CELL_RIGHT, width, DW_INK_BODY, NULL};
    if (boxes == 0)
        return (dw_cell){DW_CELL_RIGHT, width, DW_INK_LABEL,
                         dw_paper__number(sheet, (double)have_out, 6)};
    return (dw_cell){
        DW_CELL_RIGHT, width, DW_INK_AMOUNT,
        dw_paper__print(sheet, "%s +%s",
                        dw_paper__number(sheet, (double)have_out, 6),
                        dw_paper__number(sheet, (double)boxes, 6))};
}

static void draw_hours(dw_sheet *sheet, const dw_product_pull *pulls,
                       size_t count)
{
    dw_cell cells[COLUMNS + 2] = {{DW_CELL_TEXT, 16, DW_INK_LABEL, NULL},
                                  {DW_CELL_TEXT, TIME_WIDTH, DW_INK_LABEL,
                                   dw_paper__word(sheet, DW_MSG("Time"))}};
    double width = (sheet->right - sheet->left - TIME_WIDTH - 64) / COLUMNS;
    for (size_t i = 0; i < count; i++)
        cells[i + 2] =
            (dw_cell){DW_CELL_RIGHT, width, DW_INK_LABEL, pulls[i].name};
    dw_sheet_gap(sheet, 6);
    dw_sheet_head_row(sheet, cells, count + 2);
    for (int64_t at = next_time(pulls, count, 0); at;
         at = next_time(pulls, count, at)) {
        cells[0] = (dw_cell){DW_CELL_BOX, 16, DW_INK_BODY, NULL};
        cells[1] = (dw_cell){DW_CELL_TEXT, TIME_WIDTH, DW_INK_STRONG,
                             dw_paper__clock(sheet, at)};
        for (size_t i = 0; i < count; i++)
            cells[i + 2] = cell_at(sheet, &pulls[i], at, width);
        dw_sheet_row(sheet, cells, count + 2);
    }
}

/* ---- from which stacks --------------------------------------------------- */

static const char *stacks_of(dw_sheet *sheet, const dw_product_pull *pull)
{
    const char *text = NULL;
    int64_t last = -1;
    for (size_t i = 0; i < pull->lines_count; i++) {
        const dw_pull_line *line = &pull->lines[i];
        if (line->row.balls == 0 || line->row.stack_id == last)
            continue;
        const dw_value values[] = {
            DW_VALUE_NUMBER("number", (double)line->number),
            DW_VALUE_TEXT("day", dw_paper__short_day(sheet, line->mixing_day))};
        const char *one =
            dw_paper__say(sheet,
                          line->number ? DW_MSG("batch {number}, {day}")
                                       : DW_MSG("mixed {day}"),
                          values, DW_COUNT(values));
        text = text ? dw_paper__print(sheet, "%s; %s", text, one) : one;
        last = line->row.stack_id;
    }
    return text;
}

static void draw_product(dw_sheet *sheet, const dw_product_pull *pull)
{
    const char *from = stacks_of(sheet, pull);
    const dw_value values[] = {
        DW_VALUE_TEXT("wanted",
                      dw_paper__number(sheet, round(pull->wanted), 6)),
        DW_VALUE_TEXT("temper", dw_paper__hours(sheet, pull->temper_h)),
        DW_VALUE_TEXT("bench", dw_paper__hours(sheet, pull->bench_h)),
        DW_VALUE_NUMBER("balls", (double)pull->lacking)};
    dw_sheet_need(sheet, 60);
    dw_sheet_gap(sheet, 4);
    dw_sheet_say(sheet, DW_INK_STRONG, pull->name);
    dw_sheet_say(
        sheet, DW_INK_BODY,
        pull->has_temper
            ? dw_paper__say(sheet,
                            DW_MSG("About {wanted} balls wanted. Ready "
                                   "{temper} after the pull, past after "
                                   "{bench}."),
                            values, DW_COUNT(values))
            : dw_paper__word(sheet, DW_MSG("The room is too cool: no ball "
                                           "tempers in time.")));
    if (from)
        dw_sheet_say(sheet, DW_INK_BODY, from);
    if (pull->lacking > 0)
        dw_sheet_say(sheet, DW_INK_STRONG,
                     dw_paper__say(sheet,
                                   DW_MSG("The cold room runs out: up to "
                                          "{balls} balls are missing."),
                                   values, DW_COUNT(values)));
}

static void draw_pulls(dw_sheet *sheet, const void *object)
{
    const dw_pull_day *day = object;
    if (day->products_count == 0) {
        dw_sheet_say(sheet, DW_INK_BODY,
                     dw_paper__word(sheet, DW_MSG("Nothing is wanted that "
                                                  "day.")));
        return;
    }
    dw_sheet_say(
        sheet, DW_INK_BODY,
        dw_paper__word(sheet, DW_MSG("At each time count the balls that are "
                                     "out, tempering ones too, and fill up "
                                     "to the number with whole boxes; behind "
                                     "the plus, the boxes of a usual day.")));
    for (size_t i = 0; i < day->products_count; i += COLUMNS) {
        size_t rest = day->products_count - i;
        draw_hours(sheet, day->products + i, rest < COLUMNS ? rest : COLUMNS);
    }
    for (size_t i = 0; i < day->products_count; i++)
        draw_product(sheet, &day->products[i]);
    dw_sheet_gap(sheet, 8);
    dw_sheet_say(
        sheet, DW_INK_LABEL,
        dw_paper__word(sheet, DW_MSG("Times are about quality; the local "
                                     "code says how long dough may stand.")));
}

dw_status dw_paper__pull(dw_sheet *sheet, const dw_paper_request *request,
                         dw_paper *paper)
{
    dw_pull_day day;
    DW_TRY(dw_pull_day_read(sheet->call, request->day, &day));
    sheet->title = dw_paper__word(sheet, DW_MSG("Pull sheet"));
    sheet->detail = dw_paper__long_day(sheet, day.day);
    return dw_sheet_print(sheet, draw_pulls, &day, paper);
}
