/* The run sheet: a day's batches by mixer, their times as a strip where bench
 * and mixer overlap, and what to do about stacks that would close too late. */
#include "paper/papers.h"

#include "app/run.h"
#include "paper/words.h"

#include <math.h>

static const double STRIP_ROW = 26, MINUTE_MS = 60000;

/* ---- the strip ----------------------------------------------------------- */

typedef struct scale {
    double x, width;
    int64_t from_ms, to_ms;
} scale;

static double at(const scale *axis, int64_t ms)
{
    double part =
        (double)(ms - axis->from_ms) / (double)(axis->to_ms - axis->from_ms);
    return axis->x + axis->width * part;
}

/* Whole quarter hours around mixing and boxing; close times are beyond it. */
static scale axis_of(const dw_sheet *sheet, const dw_run_reply *run)
{
    const int64_t quarter = INT64_C(15) * 60000;
    scale axis = {.x = sheet->left + 66};
    axis.width = sheet->right - axis.x - 8;
    axis.from_ms = run->start_ms / quarter * quarter;
    axis.to_ms = (run->boxed_ms / quarter + 1) * quarter;
    return axis;
}

static void draw_axis(dw_sheet *sheet, const scale *axis, double bottom)
{
    int64_t span = axis->to_ms - axis->from_ms;
    int64_t step = (int64_t)(15 * MINUTE_MS);
    while (span / step > 8)
        step *= 2;
    for (int64_t ms = axis->from_ms; ms <= axis->to_ms; ms += step) {
        const char *clock = dw_paper__clock(sheet, ms);
        double x = at(axis, ms);
        double half = dw_sheet_text_width(sheet, DW_INK_LABEL, clock) / 2;
        dw_sheet_line(sheet, x, sheet->y + 17, x, bottom, 0.4, 0.72);
        if (x + half < sheet->right + 4)
            dw_sheet_text(sheet, x - half, sheet->y, 2 * half + 1, DW_INK_LABEL,
                          clock);
    }
}

/* Mixing is white in a frame, the bench is grey: they can be told apart on any
 * printer. */
static void draw_strip(dw_sheet *sheet, const dw_mixer_run *mixer)
{
    const dw_run_reply *run = &mixer->run;
    scale axis = axis_of(sheet, run);
    double height = 18 + STRIP_ROW * (double)run->batches_count;
    dw_sheet_need(sheet, height + 30);
    dw_sheet_gap(sheet, 6);
    draw_axis(sheet, &axis, sheet->y + height);
    double y = sheet->y + 20;
    for (size_t i = 0; i < run->batches_count; i++, y += STRIP_ROW) {
        const dw_run_line *line = &run->batches[i];
        const dw_value name[] = {DW_VALUE_TEXT("number", line->name)};
        double start = at(&axis, line->mix_start_ms);
        double out = at(&axis, line->dough_out_ms);
        double boxed = at(&axis, line->boxed_ms);
        dw_sheet_text(sheet, sheet->left, y + 2, 64, DW_INK_STRONG,
                      dw_paper__say(sheet, DW_MSG("Batch {number}"), name, 1));
        dw_sheet_fill(sheet, start, y, out - start, 18, 1);
        dw_sheet_frame(sheet, start, y, out - start, 18, 1.4);
        dw_sheet_fill(sheet, out, y, boxed - out, 18, 0.72);
        dw_sheet_frame(sheet, out, y, boxed - out, 18, 0.6);
    }
    sheet->y += height + 4;
    dw_sheet_say(sheet, DW_INK_LABEL,
                 dw_paper__word(sheet, DW_MSG("White: in the mixer. Grey: on "
                                              "the bench.")));
}

/* ---- the table ----------------------------------------------------------- */

static void draw_table_head(dw_sheet *sheet)
{
    const dw_cell cells[] = {
        {DW_CELL_TEXT, 16, DW_INK_LABEL, NULL},
        {DW_CELL_TEXT, 0, DW_INK_LABEL,
         dw_paper__word(sheet, DW_MSG("Batch and formula"))},
        {DW_CELL_RIGHT, 60, DW_INK_LABEL,
         dw_paper__word(sheet, DW_MSG("Weight"))},
        {DW_CELL_RIGHT, 44, DW_INK_LABEL,
         dw_paper__word(sheet, DW_MSG("Start"))},
        {DW_CELL_RIGHT, 44, DW_INK_LABEL, dw_paper__word(sheet, DW_MSG("Out"))},
        {DW_CELL_RIGHT, 52, DW_INK_LABEL,
         dw_paper__word(sheet, DW_MSG("Boxed"))},
        {DW_CELL_RIGHT, 46, DW_INK_LABEL,
         dw_paper__word(sheet, DW_MSG("Bowl"))},
        {DW_CELL_TEXT, 92, DW_INK_LABEL, dw_paper__word(sheet, DW_MSG("Who"))},
    };
    dw_sheet_head_row(sheet, cells, DW_COUNT(cells));
}

static void batch_row(dw_sheet *sheet, const dw_day_batch *batch,
                      const dw_run_line *line)
{
    const char *who = batch->person_name;
    const dw_cell cells[] = {
        {DW_CELL_BOX, 16, DW_INK_BODY, NULL},
        {DW_CELL_TEXT, 0, DW_INK_STRONG,
         dw_paper__print(sheet, "%d %s", (int)batch->number,
                         batch->formula_name)},
        {DW_CELL_RIGHT, 60, DW_INK_BODY,
         dw_paper__dough(sheet, batch->dough_kg)},
        {DW_CELL_RIGHT, 44, DW_INK_STRONG,
         dw_paper__clock(sheet, line->mix_start_ms)},
        {DW_CELL_RIGHT, 44, DW_INK_BODY,
         dw_paper__clock(sheet, line->dough_out_ms)},
        {DW_CELL_RIGHT, 52, DW_INK_BODY,
         dw_paper__clock(sheet, line->boxed_ms)},
        {DW_CELL_RIGHT, 46, DW_INK_LABEL,
         line->has_bowl_c ? dw_paper__temperature(sheet, line->bowl_c) : NULL},
        {who ? DW_CELL_TEXT : DW_CELL_BLANK, 92, DW_INK_BODY, who},
    };
    dw_sheet_row(sheet, cells, DW_COUNT(cells));
}

static void stack_row(dw_sheet *sheet, const dw_run_stack *stack)
{
    const dw_value values[] = {
        DW_VALUE_NUMBER("balls", (double)stack->count),
        DW_VALUE_TEXT("product", stack->product),
        DW_VALUE_TEXT("close", dw_paper__clock(sheet, stack->close_ms)),
    };
    bool known = stack->close_ms > stack->boxed_ms;
    const dw_cell cells[] = {
        {DW_CELL_TEXT, 16, DW_INK_BODY, NULL},
        {DW_CELL_TEXT, 0, DW_INK_BODY,
         dw_paper__say(sheet, DW_MSG("{balls} × {product}"), values,
                       DW_COUNT(values))},
        {DW_CELL_TEXT, -1, stack->late ? DW_INK_STRONG : DW_INK_BODY,
         !known ? dw_paper__word(sheet, DW_MSG("close time not known"))
         : stack->late
             ? dw_paper__say(
                   sheet, DW_MSG("⚠ closes {close}, after the last one left"),
                   values, DW_COUNT(values))
             : dw_paper__say(sheet, DW_MSG("close by {close}"), values,
                             DW_COUNT(values))},
        {DW_CELL_BLANK, 64, DW_INK_BODY, NULL},
    };
    dw_sheet_row(sheet, cells, DW_COUNT(cells));
}

/* ---- what to do instead -------------------------------------------------- */

static bool any_late(const dw_run_reply *run)
{
    for (size_t i = 0; i < run->batches_count; i++)
        for (size_t j = 0; j < run->batches[i].stacks_count; j++)
            if (run->batches[i].stacks[j].late)
                return true;
    return false;
}

static const char *advice_line(dw_sheet *sheet, const dw_run_advice *advice)
{
    const dw_value values[] = {
        DW_VALUE_TEXT("advice", advice->message),
        DW_VALUE_TEXT("start", dw_paper__clock(sheet, advice->start_ms)),
        DW_VALUE_TEXT("done", dw_paper__clock(sheet, advice->done_ms)),
        DW_VALUE_TEXT("batch", advice->batch ? advice->batch : ""),
        DW_VALUE_TEXT("product", advice->product ? advice->product : ""),
    };
    const char *sentence =
        advice->has_start_ms
            ? DW_MSG("{advice} First mix at {start}: all closed at {done}.")
        : advice->product
            ? DW_MSG("{advice} Batch {batch}, {product}: done at {done}.")
            : DW_MSG("{advice} All closed at {done}.");
    return dw_paper__say(sheet, sentence, values, DW_COUNT(values));
}

static void draw_advice(dw_sheet *sheet, const dw_run_reply *run)
{
    if (!any_late(run))
        return;
    dw_sheet_heading(sheet,
                     dw_paper__word(sheet, DW_MSG("Before you mix: a stack "
                                                  "would close too late")),
                     40);
    dw_sheet_gap(sheet, 3);
    if (run->advice_count == 0)
        dw_sheet_say(
            sheet, DW_INK_BODY,
            dw_paper__word(sheet, DW_MSG("Nothing here helps: somebody "
                                         "stays, or the dough is mixed "
                                         "tomorrow.")));
    for (size_t i = 0; i < run->advice_count; i++) {
        const dw_cell cells[] = {
            {DW_CELL_BOX, 16, DW_INK_BODY, NULL},
            {DW_CELL_TEXT, 0, DW_INK_BODY, advice_line(sheet, &run->advice[i])},
        };
        if (run->advice[i].message)
            dw_sheet_row(sheet, cells, DW_COUNT(cells));
    }
}

static void draw_mixer(dw_sheet *sheet, const dw_mixer_run *mixer)
{
    const dw_run_reply *run = &mixer->run;
    dw_sheet_heading(sheet,
                     mixer->mixer_name
                         ? dw_paper__capital(sheet, mixer->mixer_name)
                         : dw_paper__word(sheet, DW_MSG("No mixer named")),
                     140);
    draw_strip(sheet, mixer);
    dw_sheet_gap(sheet, 6);
    draw_table_head(sheet);
    for (size_t i = 0; i < run->batches_count; i++) {
        dw_sheet_need(sheet, 24 + 24 * (double)run->batches[i].stacks_count);
        batch_row(sheet, &mixer->batches[i], &run->batches[i]);
        for (size_t j = 0; j < run->batches[i].stacks_count; j++)
            stack_row(sheet, &run->batches[i].stacks[j]);
    }
    draw_advice(sheet, run);
    for (size_t i = 0; i < run->notes_count; i++)
        if (run->notes[i].message &&
            !dw_text_is(run->notes[i].code, "closes_late"))
            dw_sheet_say(sheet, DW_INK_BODY, run->notes[i].message);
}

static void draw(dw_sheet *sheet, const void *object)
{
    const dw_day_run *runs = object;
    if (runs->mixers_count == 0)
        dw_sheet_say(
            sheet, DW_INK_BODY,
            dw_paper__word(sheet, DW_MSG("No batch is planned this day.")));
    for (size_t i = 0; i < runs->mixers_count; i++)
        draw_mixer(sheet, &runs->mixers[i]);
    dw_sheet_gap(sheet, 8);
    dw_sheet_say(sheet, DW_INK_BODY,
                 dw_paper__word(sheet, DW_MSG("Close times are a rule of "
                                              "thumb. A warm bowl warms the "
                                              "dough: the batch sheet's water "
                                              "counts it.")));
}

dw_status dw_paper__run(dw_sheet *sheet, const dw_paper_request *request,
                        dw_paper *paper)
{
    dw_day_run runs;
    DW_TRY(dw_day_run_read(sheet->call, request->day, &runs));
    const dw_value values[] = {
        DW_VALUE_TEXT("day", dw_paper__long_day(sheet, runs.day)),
        DW_VALUE_TEXT("leaves", dw_paper__clock(sheet, runs.leaves_ms)),
    };
    sheet->title = dw_paper__word(sheet, DW_MSG("Run sheet"));
    sheet->detail =
        runs.leaves_ms
            ? dw_paper__say(
                  sheet, DW_MSG("{day}. The last person leaves at {leaves}."),
                  values, DW_COUNT(values))
            : values[0].text;
    return dw_sheet_print(sheet, draw, &runs, paper);
}
