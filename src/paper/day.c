/* Today on paper, and the handover to the next shift: both tell what today.get
 * tells. */
#include "paper/papers.h"

#include "app/shifts.h"
#include "app/today.h"
#include "paper/words.h"

/* ---- things to do -------------------------------------------------------- */

static const char *todo_sentence(dw_sheet *sheet, const dw_todo *todo)
{
    static const char *const sentences[] = {
        [DW_TODO_MIX] = DW_MSG("Mix batch {number}, {name}"),
        [DW_TODO_BOX] = DW_MSG("Box batch {number}, {name}"),
        [DW_TODO_CLOSE] =
            DW_MSG("Batch {number}: {balls} × {name} (boxes: {boxes})"),
        [DW_TODO_USE_FIRST] = DW_MSG("{balls} × {name}"),
        [DW_TODO_COUNT] = DW_MSG("Count the balls"),
        [DW_TODO_DISCARD_MINORS] =
            DW_MSG("Throw away the bags of minors for {name} ({balls})"),
        [DW_TODO_LOOK_AT_CUP] =
            DW_MSG("Look at the witness cup of batch {number}, {name}"),
        [DW_TODO_PULL] =
            DW_MSG("Batch {number}: {balls} × {name} (boxes: {boxes})"),
    };
    const dw_value values[] = {
        DW_VALUE_NUMBER("number", (double)todo->number),
        DW_VALUE_TEXT("name", todo->name ? todo->name : ""),
        DW_VALUE_NUMBER("balls", (double)todo->balls),
        DW_VALUE_NUMBER("boxes", (double)todo->boxes),
    };
    return dw_paper__say(sheet, sentences[todo->kind], values,
                         DW_COUNT(values));
}

/* A time today, else the day and the time. */
static const char *due(dw_sheet *sheet, const dw_agenda *agenda, int64_t at_ms)
{
    if (at_ms == 0)
        return NULL;
    return dw_paper__day_of(sheet, at_ms) == agenda->day
               ? dw_paper__clock(sheet, at_ms)
               : dw_paper__moment(sheet, at_ms);
}

static void todo_row(dw_sheet *sheet, const dw_agenda *agenda,
                     const dw_todo *todo)
{
    bool by_day =
        todo->kind == DW_TODO_USE_FIRST || todo->kind == DW_TODO_DISCARD_MINORS;
    const dw_cell cells[] = {
        {DW_CELL_BOX, 16, DW_INK_BODY, NULL},
        {DW_CELL_TEXT, 84, DW_INK_STRONG,
         by_day ? dw_paper__short_day(sheet,
                                      dw_paper__day_of(sheet, todo->due_ms - 1))
                : due(sheet, agenda, todo->due_ms)},
        {DW_CELL_TEXT, 0, DW_INK_BODY, todo_sentence(sheet, todo)},
        {DW_CELL_BLANK, 70, DW_INK_BODY, NULL},
    };
    dw_sheet_row(sheet, cells, DW_COUNT(cells));
}

static size_t count_of(const dw_agenda *agenda, int kind)
{
    size_t n = 0;
    for (size_t i = 0; i < agenda->next_count; i++)
        n += agenda->next[i].kind == kind;
    return n;
}

/* A heading and the rows of those kinds; one sentence when there are none. */
static void draw_todos(dw_sheet *sheet, const dw_agenda *agenda,
                       const char *heading, const int *kinds, size_t count,
                       const char *none)
{
    size_t n = 0;
    for (size_t i = 0; i < count; i++)
        n += count_of(agenda, kinds[i]);
    dw_sheet_heading(sheet, dw_paper__word(sheet, heading), 24);
    if (n == 0) {
        dw_sheet_gap(sheet, 3);
        dw_sheet_say(sheet, DW_INK_BODY, dw_paper__word(sheet, none));
    }
    for (size_t i = 0; i < agenda->next_count; i++)
        for (size_t j = 0; j < count; j++)
            if (agenda->next[i].kind == kinds[j])
                todo_row(sheet, agenda, &agenda->next[i]);
}

static void draw_mix(dw_sheet *sheet, const dw_agenda *agenda)
{
    static const int kinds[] = {DW_TODO_MIX, DW_TODO_BOX, DW_TODO_LOOK_AT_CUP};
    draw_todos(sheet, agenda, DW_MSG("Mix and box"), kinds, DW_COUNT(kinds),
               DW_MSG("Nothing is planned."));
}

static void draw_close(dw_sheet *sheet, const dw_agenda *agenda)
{
    static const int kinds[] = {DW_TODO_CLOSE};
    draw_todos(sheet, agenda, DW_MSG("Close the stacks"), kinds,
               DW_COUNT(kinds), DW_MSG("No stack is open."));
}

static void draw_pulls(dw_sheet *sheet, const dw_agenda *agenda)
{
    static const int kinds[] = {DW_TODO_PULL};
    draw_todos(sheet, agenda, DW_MSG("Pull next"), kinds, DW_COUNT(kinds),
               DW_MSG("Nothing more is to be pulled today."));
}

static void draw_use_first(dw_sheet *sheet, const dw_agenda *agenda)
{
    static const int kinds[] = {DW_TODO_USE_FIRST, DW_TODO_DISCARD_MINORS};
    draw_todos(sheet, agenda, DW_MSG("Use first"), kinds, DW_COUNT(kinds),
               DW_MSG("No dough is on its last days."));
}

/* ---- what dies tonight --------------------------------------------------- */

static const char *dying_sentence(dw_sheet *sheet, const dw_todo *one)
{
    const dw_value values[] = {
        DW_VALUE_NUMBER("balls", (double)one->balls),
        DW_VALUE_TEXT("name", one->name ? one->name : ""),
        DW_VALUE_NUMBER("number", (double)one->number),
        DW_VALUE_NUMBER("boxes", (double)one->boxes),
    };
    return dw_paper__say(
        sheet,
        one->number
            ? DW_MSG("{balls} × {name}, batch {number} (boxes: {boxes})")
            : DW_MSG("{balls} × {name} (boxes: {boxes})"),
        values, DW_COUNT(values));
}

/* Stacks that are past, or will be before the business day is over. */
static void draw_dying(dw_sheet *sheet, const dw_agenda *agenda)
{
    dw_sheet_heading(sheet, dw_paper__word(sheet, DW_MSG("What dies tonight")),
                     24);
    if (agenda->dying_count == 0) {
        dw_sheet_gap(sheet, 3);
        dw_sheet_say(sheet, DW_INK_BODY,
                     dw_paper__word(sheet, DW_MSG("No dough dies tonight.")));
    }
    for (size_t i = 0; i < agenda->dying_count; i++) {
        const dw_todo *one = &agenda->dying[i];
        const dw_cell cells[] = {
            {DW_CELL_BOX, 16, DW_INK_BODY, NULL},
            {DW_CELL_TEXT, 84, DW_INK_STRONG,
             one->due_ms > agenda->now_ms
                 ? dw_paper__clock(sheet, one->due_ms)
                 : dw_paper__short_day(sheet,
                                       dw_paper__day_of(sheet, one->due_ms))},
            {DW_CELL_TEXT, 0, DW_INK_BODY, dying_sentence(sheet, one)},
            {DW_CELL_BLANK, 70, DW_INK_BODY, NULL},
        };
        dw_sheet_row(sheet, cells, DW_COUNT(cells));
    }
}

/* ---- readings ------------------------------------------------------------ */

static const dw_reading_row *reading_of(const dw_agenda *agenda, int kind)
{
    for (size_t i = 0; i < agenda->readings_count; i++)
        if (agenda->readings[i].kind == kind)
            return &agenda->readings[i];
    return NULL;
}

static void draw_readings(dw_sheet *sheet, const dw_agenda *agenda)
{
    static const struct {
        int kind;
        const char *name;
    } kinds[] = {{DW_READ_FLOUR, DW_MSG("Flour")},
                 {DW_READ_ROOM, DW_MSG("Room")},
                 {DW_READ_TAP, DW_MSG("Tap")},
                 {DW_READ_COLD, DW_MSG("Cold room")}};
    const size_t columns = DW_COUNT(kinds);
    double width = (sheet->right - sheet->left) / (double)columns;
    dw_sheet_heading(sheet, dw_paper__word(sheet, DW_MSG("Read")), 46);
    for (size_t i = 0; i < DW_COUNT(kinds); i++) {
        double x = sheet->left + width * (double)i;
        const dw_reading_row *row = reading_of(agenda, kinds[i].kind);
        dw_sheet_text(sheet, x, sheet->y + 2, width - 8, DW_INK_LABEL,
                      dw_paper__word(sheet, kinds[i].name));
        dw_sheet_text(sheet, x, sheet->y + 20, width - 8, DW_INK_AMOUNT,
                      row ? dw_paper__temperature(sheet, row->celsius) : NULL);
        dw_sheet_line(sheet, x + (row ? 62 : 0), sheet->y + 38, x + width - 14,
                      sheet->y + 38, 0.8, 0.25);
    }
    sheet->y += 42;
}

/* ---- the count ----------------------------------------------------------- */

static const char *readiness_word(const dw_sheet *sheet, int readiness)
{
    static const char *const words[] = {
        [DW_NOT_YET] = DW_MSG("not yet"), [DW_READY] = DW_MSG("ready"),
        [DW_BEST] = DW_MSG("best"),       [DW_USE_FIRST] = DW_MSG("use first"),
        [DW_PAST] = DW_MSG("past"),
    };
    return dw_paper__word(sheet, words[readiness]);
}

static void draw_count_head(dw_sheet *sheet)
{
    const dw_cell cells[] = {
        {DW_CELL_TEXT, 0, DW_INK_LABEL,
         dw_paper__word(sheet, DW_MSG("Product"))},
        {DW_CELL_TEXT, 84, DW_INK_LABEL, dw_paper__word(sheet, DW_MSG("Made"))},
        {DW_CELL_TEXT, 92, DW_INK_LABEL, NULL},
        {DW_CELL_RIGHT, 74, DW_INK_LABEL,
         dw_paper__word(sheet, DW_MSG("Expected"))},
        {DW_CELL_TEXT, 84, DW_INK_LABEL,
         dw_paper__word(sheet, DW_MSG("Counted"))},
    };
    dw_sheet_head_row(sheet, cells, DW_COUNT(cells));
}

static void age_row(dw_sheet *sheet, const char *name, const dw_stock_age *age)
{
    const dw_cell cells[] = {
        {DW_CELL_TEXT, 0, DW_INK_STRONG, name},
        {DW_CELL_TEXT, 84, DW_INK_BODY,
         age ? dw_paper__short_day(sheet, age->mixing_day) : NULL},
        {DW_CELL_TEXT, 92, DW_INK_LABEL,
         age ? readiness_word(sheet, age->readiness) : NULL},
        {DW_CELL_RIGHT, 74, DW_INK_BODY,
         dw_paper__number(sheet, age ? (double)age->balls : 0, 9)},
        {DW_CELL_BLANK, 84, DW_INK_BODY, NULL},
    };
    dw_sheet_row(sheet, cells, DW_COUNT(cells));
}

static void draw_need(dw_sheet *sheet, const dw_stock_line *line)
{
    const dw_value values[] = {
        DW_VALUE_TEXT("day", dw_paper__short_day(sheet, line->target_day)),
        DW_VALUE_NUMBER("build_to", (double)line->build_to),
        DW_VALUE_NUMBER("usable", (double)line->usable),
        DW_VALUE_NUMBER("need", (double)line->need),
    };
    const dw_cell cells[] = {
        {DW_CELL_TEXT, 0, DW_INK_LABEL,
         dw_paper__say(sheet,
                       line->need > 0
                           ? DW_MSG("For {day}: {build_to} wanted, {usable} "
                                    "usable, {need} short.")
                           : DW_MSG("For {day}: {build_to} wanted, {usable} "
                                    "usable."),
                       values, DW_COUNT(values))},
    };
    if (line->build_to > 0)
        dw_sheet_row(sheet, cells, DW_COUNT(cells));
}

static void draw_count(dw_sheet *sheet, const dw_agenda *agenda)
{
    dw_sheet_heading(sheet, dw_paper__word(sheet, DW_MSG("Count")), 70);
    draw_count_head(sheet);
    for (size_t i = 0; i < agenda->stock_count; i++) {
        const dw_stock_line *line = &agenda->stock[i];
        dw_sheet_need(sheet,
                      (17 + sheet->air) * (double)(line->ages_count + 1));
        for (size_t j = 0; j < line->ages_count; j++)
            age_row(sheet, j == 0 ? line->name : NULL, &line->ages[j]);
        if (line->ages_count == 0)
            age_row(sheet, line->name, NULL);
        draw_need(sheet, line);
    }
}

/* ---- the day sheet ------------------------------------------------------- */

static void draw_day(dw_sheet *sheet, const void *object)
{
    const dw_agenda *agenda = object;
    draw_readings(sheet, agenda);
    draw_mix(sheet, agenda);
    draw_close(sheet, agenda);
    draw_pulls(sheet, agenda);
    draw_use_first(sheet, agenda);
    draw_dying(sheet, agenda);
    draw_count(sheet, agenda);
}

static void name_day(dw_sheet *sheet, const dw_agenda *agenda,
                     const char *title)
{
    const dw_value values[] = {
        DW_VALUE_TEXT("day", dw_paper__long_day(sheet, agenda->day)),
        DW_VALUE_TEXT("now", dw_paper__clock(sheet, agenda->now_ms)),
        DW_VALUE_TEXT("leaves", dw_paper__clock(sheet, agenda->leaves_ms)),
    };
    sheet->title = dw_paper__word(sheet, title);
    sheet->detail = dw_paper__say(
        sheet,
        agenda->leaves_ms
            ? DW_MSG("{day}, as of {now}. The last person leaves at {leaves}.")
            : DW_MSG("{day}, as of {now}."),
        values, DW_COUNT(values));
}

dw_status dw_paper__day(dw_sheet *sheet, const dw_paper_request *request,
                        dw_paper *paper)
{
    dw_agenda agenda;
    (void)request;
    DW_TRY(dw_agenda_read(sheet->call, &agenda));
    name_day(sheet, &agenda, DW_MSG("Today"));
    return dw_sheet_print(sheet, draw_day, &agenda, paper);
}

/* ---- the handover -------------------------------------------------------- */

static const char *timer_ends(dw_sheet *sheet, const dw_timer *timer)
{
    int64_t from = timer->started_ms + (int64_t)(timer->minutes * 60000);
    int64_t to = timer->started_ms + (int64_t)(timer->minutes_to * 60000);
    if (!timer->has_minutes_to)
        return dw_paper__clock(sheet, from);
    return dw_paper__print(sheet, "%s–%s", dw_paper__clock(sheet, from),
                           dw_paper__clock(sheet, to));
}

static void draw_timers(dw_sheet *sheet, const dw_agenda *agenda)
{
    dw_sheet_heading(sheet, dw_paper__word(sheet, DW_MSG("Running timers")),
                     24);
    if (agenda->timers_count == 0) {
        dw_sheet_gap(sheet, 3);
        dw_sheet_say(sheet, DW_INK_BODY,
                     dw_paper__word(sheet, DW_MSG("No timer runs.")));
    }
    for (size_t i = 0; i < agenda->timers_count; i++) {
        const dw_timer *timer = &agenda->timers[i];
        const dw_value values[] = {
            DW_VALUE_NUMBER("number", (double)timer->number),
            DW_VALUE_TEXT("step", timer->says ? timer->says : "")};
        const dw_cell cells[] = {
            {DW_CELL_BOX, 16, DW_INK_BODY, NULL},
            {DW_CELL_TEXT, 84, DW_INK_STRONG, timer_ends(sheet, timer)},
            {DW_CELL_TEXT, 0, DW_INK_BODY,
             dw_paper__say(sheet, DW_MSG("Batch {number}: {step}"), values,
                           DW_COUNT(values))},
        };
        dw_sheet_row(sheet, cells, DW_COUNT(cells));
    }
}

static const char *state_word(const dw_sheet *sheet, int state)
{
    static const char *const words[] = {
        [DW_BATCH_PLANNED] = DW_MSG("planned"),
        [DW_BATCH_MIXING] = DW_MSG("in the mixer"),
        [DW_BATCH_MIXED] = DW_MSG("on the bench"),
        [DW_BATCH_BOXED] = DW_MSG("in the cold room, open"),
        [DW_BATCH_CLOSED] = DW_MSG("closed"),
        [DW_BATCH_ABANDONED] = DW_MSG("abandoned"),
    };
    return dw_paper__word(sheet, words[state]);
}

static void draw_open(dw_sheet *sheet, const dw_agenda *agenda)
{
    dw_sheet_heading(sheet, dw_paper__word(sheet, DW_MSG("Unfinished batches")),
                     24);
    for (size_t i = 0; i < agenda->open_count; i++) {
        const dw_batch_row *batch = &agenda->open[i];
        const dw_value name[] = {
            DW_VALUE_NUMBER("number", (double)batch->number)};
        const dw_cell cells[] = {
            {DW_CELL_TEXT, 80, DW_INK_STRONG,
             dw_paper__say(sheet, DW_MSG("Batch {number}"), name, 1)},
            {DW_CELL_TEXT, 80, DW_INK_BODY,
             dw_paper__short_day(sheet, batch->day)},
            {DW_CELL_TEXT, 0, DW_INK_BODY, state_word(sheet, batch->state)},
            {DW_CELL_RIGHT, 100, DW_INK_BODY,
             dw_paper__dough(sheet, batch->dough_kg)},
        };
        dw_sheet_row(sheet, cells, DW_COUNT(cells));
    }
    if (agenda->open_count == 0) {
        dw_sheet_gap(sheet, 3);
        dw_sheet_say(sheet, DW_INK_BODY,
                     dw_paper__word(sheet, DW_MSG("All are closed.")));
    }
}

typedef struct handover {
    dw_agenda agenda;
    dw_shift_day shifts;
} handover;

static void draw_people(dw_sheet *sheet, const dw_day_people *people)
{
    if (people->people_count == 0 && !people->note)
        return;
    dw_sheet_heading(sheet, dw_paper__word(sheet, DW_MSG("Who is there")), 24);
    if (people->note)
        dw_sheet_say(sheet, DW_INK_STRONG, people->note);
    for (size_t i = 0; i < people->people_count; i++) {
        const dw_presence *one = &people->people[i];
        const dw_cell cells[] = {
            {DW_CELL_TEXT, 110, DW_INK_STRONG,
             dw_paper__print(sheet, "%s–%s",
                             dw_paper__clock(sheet, one->from_ms),
                             dw_paper__clock(sheet, one->to_ms))},
            {DW_CELL_TEXT, 0, DW_INK_BODY, one->name},
        };
        dw_sheet_row(sheet, cells, DW_COUNT(cells));
    }
}

static const char *left_to(dw_sheet *sheet, const dw_left_to *one)
{
    const dw_value values[] = {
        DW_VALUE_TEXT("who", one->who ? one->who : one->next),
        DW_VALUE_TEXT("time", dw_paper__moment(sheet, one->next_ms))};
    if (one->who)
        return one->who;
    if (one->nobody && one->next)
        return dw_paper__say(sheet,
                             DW_MSG("nobody is there; {who} comes {time}"),
                             values, DW_COUNT(values));
    return one->nobody ? dw_paper__word(sheet, DW_MSG("nobody is there"))
                       : NULL;
}

/* What must be closed when, and who is there for it. */
static void draw_left_to(dw_sheet *sheet, const dw_shift_day *shifts)
{
    dw_sheet_heading(sheet,
                     dw_paper__word(sheet, DW_MSG("Stacks to close, and who "
                                                  "is there")),
                     24);
    for (size_t i = 0; i < shifts->closings_count; i++) {
        const dw_left_to *one = &shifts->closings[i];
        const dw_value values[] = {
            DW_VALUE_NUMBER("number", (double)one->number),
            DW_VALUE_NUMBER("balls", (double)one->balls),
            DW_VALUE_TEXT("name", one->name)};
        const dw_cell cells[] = {
            {DW_CELL_BOX, 16, DW_INK_BODY, NULL},
            {DW_CELL_TEXT, 60, DW_INK_STRONG,
             dw_paper__clock(sheet, one->close_ms)},
            {DW_CELL_TEXT, 0, DW_INK_BODY,
             dw_paper__say(sheet, DW_MSG("Batch {number}: {balls} × {name}"),
                           values, DW_COUNT(values))},
            {DW_CELL_TEXT, 170, one->nobody ? DW_INK_STRONG : DW_INK_BODY,
             left_to(sheet, one)},
        };
        dw_sheet_row(sheet, cells, DW_COUNT(cells));
    }
    if (shifts->closings_count == 0) {
        dw_sheet_gap(sheet, 3);
        dw_sheet_say(sheet, DW_INK_BODY,
                     dw_paper__word(sheet, DW_MSG("No stack is open.")));
    }
}

static void draw_signs(dw_sheet *sheet)
{
    const dw_cell cells[] = {
        {DW_CELL_TEXT, -1, DW_INK_BODY,
         dw_paper__word(sheet, DW_MSG("Handed over by"))},
        {DW_CELL_BLANK, 0, DW_INK_BODY, NULL},
        {DW_CELL_TEXT, -1, DW_INK_BODY,
         dw_paper__word(sheet, DW_MSG("taken over by"))},
        {DW_CELL_BLANK, 0, DW_INK_BODY, NULL},
    };
    dw_sheet_heading(sheet,
                     dw_paper__word(sheet, DW_MSG("What the next shift "
                                                  "must know")),
                     100);
    dw_sheet_lines(sheet, 3);
    dw_sheet_row(sheet, cells, DW_COUNT(cells));
}

static void draw_handover(dw_sheet *sheet, const void *object)
{
    const handover *what = object;
    draw_people(sheet, &what->shifts.people);
    draw_timers(sheet, &what->agenda);
    draw_left_to(sheet, &what->shifts);
    draw_pulls(sheet, &what->agenda);
    draw_use_first(sheet, &what->agenda);
    draw_dying(sheet, &what->agenda);
    draw_open(sheet, &what->agenda);
    draw_signs(sheet);
}

dw_status dw_paper__handover(dw_sheet *sheet, const dw_paper_request *request,
                             dw_paper *paper)
{
    handover what;
    (void)request;
    DW_TRY(dw_agenda_read(sheet->call, &what.agenda));
    DW_TRY(dw_shift_day_read(sheet->call, 0, &what.shifts));
    name_day(sheet, &what.agenda, DW_MSG("Handover"));
    return dw_sheet_print(sheet, draw_handover, &what, paper);
}
