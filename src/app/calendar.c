#include "app/calendar.h"

#include "app/drops.h"
#include "app/pulls.h"
#include "app/run.h"
#include "app/shifts.h"
#include "app/stock.h"
#include "doughwright/say.h"

#include <inttypes.h>
#include <stdlib.h>

enum { EVENTS_MOST = 4000, PULL_DAYS = 2 };
static const int64_t MINUTE_MS = 60000;

typedef struct desk {
    dw_call *call;
    dw_shop shop;
    int64_t today, days;
    dw_calendar *out;
} desk;

static dw_status no_room(dw_call *call)
{
    return dw_fail(call->err, DW_E_ROOM, "events", NULL);
}

static dw_status add(desk *d, dw_calendar_event event)
{
    dw_calendar *out = d->out;
    if (!event.uid || !event.summary)
        return no_room(d->call);
    if (out->events_count == EVENTS_MOST)
        return dw_fail(d->call->err, DW_E_TOO_LARGE, "events", NULL);
    out->events[out->events_count++] = event;
    return DW_OK;
}

static const char *say(const desk *d, const char *msgid, const dw_value *values,
                       size_t count)
{
    return dw_say_in(d->call->arena, d->call->lang, msgid, values, count);
}

/* ---- batches and their closings ------------------------------------------ */

static dw_status add_batches(desk *d, int64_t day)
{
    dw_day_run runs;
    DW_TRY(dw_day_run_read(d->call, day, &runs));
    for (size_t i = 0; i < runs.mixers_count; i++) {
        const dw_mixer_run *mixer = &runs.mixers[i];
        for (size_t j = 0; j < mixer->run.batches_count; j++) {
            const dw_day_batch *batch = &mixer->batches[j];
            const dw_run_line *line = &mixer->run.batches[j];
            const dw_value values[] = {
                DW_VALUE_NUMBER("number", (double)batch->number),
                DW_VALUE_TEXT("formula", batch->formula_name)};
            if (batch->state >= DW_BATCH_BOXED)
                continue;
            DW_TRY(add(d, (dw_calendar_event){
                              dw_arena_print(d->call->arena, "mix-%" PRId64,
                                             batch->batch_id),
                              DW_EVENT_MIX, line->mix_start_ms, line->boxed_ms,
                              say(d, DW_MSG("Mix batch {number}: {formula}"),
                                  values, DW_COUNT(values)),
                              mixer->mixer_name}));
        }
    }
    return DW_OK;
}

static const char *left_to(const desk *d, const dw_left_to *one)
{
    const dw_value who[] = {DW_VALUE_TEXT("who", one->who)};
    const dw_value next[] = {DW_VALUE_TEXT("who", one->next)};
    if (one->who)
        return say(d, DW_MSG("Left to {who}."), who, 1);
    if (one->nobody && one->next)
        return say(d, DW_MSG("Nobody is there then; {who} comes next."), next,
                   1);
    return one->nobody
               ? dw_say_sentence(d->call->lang, DW_MSG("Nobody is there then."))
               : NULL;
}

static dw_status add_closings(desk *d, int64_t day)
{
    dw_shift_day shifts;
    DW_TRY(dw_shift_day_read(d->call, day, &shifts));
    for (size_t i = 0; i < shifts.closings_count; i++) {
        const dw_left_to *one = &shifts.closings[i];
        const dw_value values[] = {DW_VALUE_NUMBER("balls", (double)one->balls),
                                   DW_VALUE_TEXT("name", one->name)};
        DW_TRY(
            add(d, (dw_calendar_event){
                       dw_arena_print(d->call->arena, "close-%" PRId64 "-%s",
                                      one->batch_id, one->name),
                       DW_EVENT_CLOSE, one->close_ms,
                       one->close_ms + 15 * MINUTE_MS,
                       say(d, DW_MSG("Close the stack: {balls} balls, {name}"),
                           values, DW_COUNT(values)),
                       left_to(d, one)}));
    }
    return DW_OK;
}

/* ---- pulls --------------------------------------------------------------- */

/* What comes out at one time, product by product. */
static const char *boxes_at(const desk *d, const dw_pull_day *day,
                            int64_t at_ms)
{
    const char *text = NULL;
    for (size_t i = 0; i < day->products_count; i++) {
        const dw_product_pull *pull = &day->products[i];
        int64_t boxes = 0;
        for (size_t j = 0; j < pull->lines_count; j++)
            if (pull->lines[j].row.at_ms == at_ms)
                boxes += pull->lines[j].row.boxes;
        if (boxes == 0)
            continue;
        const dw_value values[] = {DW_VALUE_NUMBER("boxes", (double)boxes),
                                   DW_VALUE_TEXT("name", pull->name)};
        const char *one =
            say(d, DW_MSG("{boxes} of {name}"), values, DW_COUNT(values));
        text = text && one
                   ? dw_arena_print(d->call->arena, "%.400s, %.80s", text, one)
                   : one;
    }
    return text;
}

static bool is_first_at(const dw_pull_day *day, size_t product, size_t line)
{
    int64_t at = day->products[product].lines[line].row.at_ms;
    for (size_t i = 0; i <= product; i++) {
        const dw_product_pull *pull = &day->products[i];
        size_t end = i == product ? line : pull->lines_count;
        for (size_t j = 0; j < end; j++)
            if (pull->lines[j].row.at_ms == at && pull->lines[j].row.boxes > 0)
                return false;
    }
    return true;
}

static dw_status add_pulls(desk *d, int64_t day)
{
    dw_pull_day pulls;
    DW_TRY(dw_pull_day_read(d->call, day, &pulls));
    for (size_t i = 0; i < pulls.products_count; i++)
        for (size_t j = 0; j < pulls.products[i].lines_count; j++) {
            const dw_pull_line *line = &pulls.products[i].lines[j];
            if (line->row.boxes == 0 || line->past ||
                !is_first_at(&pulls, i, j))
                continue;
            const dw_value values[] = {
                DW_VALUE_TEXT("what", boxes_at(d, &pulls, line->row.at_ms))};
            DW_TRY(add(d, (dw_calendar_event){
                              dw_arena_print(d->call->arena, "pull-%" PRId64,
                                             line->row.at_ms / MINUTE_MS),
                              DW_EVENT_PULL, line->row.at_ms,
                              line->row.at_ms + 10 * MINUTE_MS,
                              say(d, DW_MSG("Pull boxes: {what}"), values, 1),
                              NULL}));
        }
    return DW_OK;
}

/* ---- drops --------------------------------------------------------------- */

static const char *order_of(const desk *d, const dw_drop *drop)
{
    const char *text = NULL;
    for (size_t i = 0; i < drop->pieces_count; i++) {
        const dw_drop_piece *piece = &drop->pieces[i];
        const dw_value values[] = {
            DW_VALUE_NUMBER("balls", (double)piece->wanted),
            DW_VALUE_TEXT("name", piece->name)};
        const char *one =
            say(d, DW_MSG("{balls} balls of {name}"), values, DW_COUNT(values));
        text = text && one
                   ? dw_arena_print(d->call->arena, "%.400s, %.80s", text, one)
                   : one;
    }
    return text;
}

static dw_status add_drops(desk *d, int64_t outlet_id)
{
    dw_drops drops;
    DW_TRY(dw_drops_read(d->call, d->today, d->days, outlet_id, &drops));
    for (size_t i = 0; i < drops.drops_count; i++) {
        const dw_drop *drop = &drops.drops[i];
        const dw_value values[] = {DW_VALUE_TEXT("outlet", drop->outlet)};
        dw_arena *arena = d->call->arena;
        DW_TRY(
            add(d, (dw_calendar_event){
                       dw_arena_print(arena, "drop-%" PRId64 "-%" PRId64,
                                      drop->day, drop->outlet_id),
                       DW_EVENT_DROP, drop->at_ms, drop->at_ms + 30 * MINUTE_MS,
                       say(d, DW_MSG("Drop: {outlet}"), values, 1),
                       order_of(d, drop)}));
        if (drop->state != DW_DROP_OPEN)
            continue;
        DW_TRY(add(d, (dw_calendar_event){
                          dw_arena_print(arena, "cutoff-%" PRId64 "-%" PRId64,
                                         drop->day, drop->outlet_id),
                          DW_EVENT_CUTOFF, drop->cutoff_ms, drop->cutoff_ms,
                          say(d, DW_MSG("Orders close: {outlet}"), values, 1),
                          NULL}));
    }
    return DW_OK;
}

/* ---- all of it ----------------------------------------------------------- */

static int by_start(const void *a, const void *b)
{
    const dw_calendar_event *left = a, *right = b;
    if (left->start_ms != right->start_ms)
        return left->start_ms < right->start_ms ? -1 : 1;
    return left->kind - right->kind;
}

static dw_status name_it(desk *d, int64_t outlet_id)
{
    dw_outlet outlet;
    d->out->name = d->shop.name;
    if (outlet_id == 0)
        return DW_OK;
    DW_TRY(dw_row_get(d->call, "outlet", &dw_outlet_noun, outlet_id,
                      "outlet_id", &outlet));
    d->out->name =
        dw_arena_print(d->call->arena, "%s, %s", d->shop.name, outlet.name);
    return d->out->name ? DW_OK : no_room(d->call);
}

dw_status dw_calendar_read(dw_call *call, int64_t days, int64_t outlet_id,
                           dw_calendar *out)
{
    desk d = {.call = call, .days = days, .out = out};
    *out = (dw_calendar){.now_ms = call->now_ms};
    out->events = DW_NEW_ARRAY(call->arena, dw_calendar_event, EVENTS_MOST);
    if (!out->events)
        return no_room(call);
    DW_TRY(dw_shop_get(call, &d.shop));
    DW_TRY(dw_shop_day(call, &d.shop, call->now_ms, &d.today));
    DW_TRY(name_it(&d, outlet_id));
    DW_TRY(add_drops(&d, outlet_id));
    for (int64_t day = d.today; day < d.today + days && !outlet_id; day++) {
        DW_TRY(add_batches(&d, day));
        DW_TRY(add_closings(&d, day));
        if (day < d.today + PULL_DAYS)
            DW_TRY(add_pulls(&d, day));
    }
    qsort(out->events, out->events_count, sizeof(dw_calendar_event), by_start);
    return DW_OK;
}
