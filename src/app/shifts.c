#include "app/shifts.h"

#include "app/run.h"
#include "app/stock.h"

#include <stdlib.h>

static const int64_t DAY_MS = 86400000, MINUTE_MS = 60000;

static dw_status no_room(dw_call *call)
{
    return dw_fail(call->err, DW_E_ROOM, "shifts", NULL);
}

dw_status dw_service_get(dw_call *call, dw_service *service)
{
    dw_status status = dw_store_get(call->store, "service", &dw_service_noun, 1,
                                    call->arena, service, call->err);
    if (status != DW_E_NOT_FOUND)
        return status;
    dw_shape_preset(&dw_service_noun, service);
    return DW_OK;
}

/* ---- one day ------------------------------------------------------------- */

typedef struct desk {
    dw_call *call;
    const dw_zone *zone;
    dw_shift *shifts; /* of the weekday */
    dw_shift_change *changes;
    dw_person *people;
    size_t shifts_count, changes_count, people_count;
    bool any_shift; /* the shop writes shifts at all */
    dw_day_people *out;
} desk;

static int64_t moment(const desk *d, int64_t minute)
{
    return dw_zone_utc_ms(d->zone, d->out->day * DAY_MS + minute * MINUTE_MS);
}

static const char *name_of(const desk *d, int64_t person_id)
{
    for (size_t i = 0; i < d->people_count; i++)
        if (d->people[i].id == person_id)
            return d->people[i].name;
    return NULL;
}

/* What the day says of a person, the newest word last; NULL: as every week. */
static const dw_shift_change *change_of(const desk *d, int64_t person_id)
{
    const dw_shift_change *found = NULL;
    for (size_t i = 0; i < d->changes_count; i++)
        if (d->changes[i].person_id == person_id)
            found = &d->changes[i];
    return found;
}

static void add(desk *d, int64_t person_id, int64_t from, int64_t to)
{
    d->out->people[d->out->people_count++] = (dw_presence){
        person_id, name_of(d, person_id), moment(d, from), moment(d, to)};
}

static int by_coming(const void *a, const void *b)
{
    const dw_presence *left = a, *right = b;
    if (left->from_ms != right->from_ms)
        return left->from_ms < right->from_ms ? -1 : 1;
    return (left->person_id > right->person_id) -
           (left->person_id < right->person_id);
}

static void add_people(desk *d)
{
    dw_day_people *out = d->out;
    for (size_t i = 0; i < d->shifts_count; i++)
        if (!change_of(d, d->shifts[i].person_id))
            add(d, d->shifts[i].person_id, d->shifts[i].from_minute,
                d->shifts[i].to_minute);
    for (size_t i = 0; i < d->changes_count; i++) {
        const dw_shift_change *one = &d->changes[i];
        bool newest = one == change_of(d, one->person_id);
        if (one->person_id && one->here && newest)
            add(d, one->person_id, one->from_minute, one->to_minute);
    }
    qsort(out->people, out->people_count, sizeof(dw_presence), by_coming);
    for (size_t i = 0; i < out->people_count; i++) {
        const dw_presence *one = &out->people[i];
        if (i == 0)
            out->first_ms = one->from_ms;
        if (one->to_ms > out->leaves_ms)
            out->leaves_ms = one->to_ms;
    }
}

static dw_status set_hours(desk *d)
{
    const dw_shift_change *whole = change_of(d, 0);
    dw_opening *rows;
    size_t n;
    if (whole) {
        d->out->first_ms = moment(d, whole->from_minute);
        d->out->leaves_ms = moment(d, whole->to_minute);
        return DW_OK;
    }
    DW_TRY(dw_rows_get(d->call, "opening", &dw_opening_noun, "weekday",
                       dw_weekday(d->out->day), "id", &rows, &n));
    if (n > 0) {
        d->out->first_ms = moment(d, rows[0].opens_minute);
        d->out->leaves_ms = moment(d, rows[0].leaves_minute);
    }
    return DW_OK;
}

static dw_status read_desk(desk *d, const dw_shop *shop)
{
    dw_call *call = d->call;
    dw_shift *all;
    size_t n;
    DW_TRY(dw_zone_load(shop->zone, call->arena, &d->zone, call->err));
    DW_TRY(dw_rows_get(call, "shift", &dw_shift_noun, NULL, 0, "id", &all, &n));
    d->any_shift = n > 0;
    DW_TRY(dw_rows_get(call, "shift", &dw_shift_noun, "weekday",
                       dw_weekday(d->out->day), "from_minute, id", &d->shifts,
                       &d->shifts_count));
    DW_TRY(dw_rows_get(call, "shift_change", &dw_shift_change_noun, "day",
                       d->out->day, "id", &d->changes, &d->changes_count));
    DW_TRY(dw_rows_get(call, "person", &dw_person_noun, NULL, 0, "id",
                       &d->people, &d->people_count));
    d->out->people = DW_NEW_ARRAY(call->arena, dw_presence,
                                  d->shifts_count + d->changes_count + 1);
    return d->out->people ? DW_OK : no_room(call);
}

dw_status dw_day_people_read(dw_call *call, const dw_shop *shop, int64_t day,
                             dw_day_people *out)
{
    desk d = {.call = call, .out = out};
    *out = (dw_day_people){.day = day};
    DW_TRY(read_desk(&d, shop));
    const dw_shift_change *whole = change_of(&d, 0);
    out->note = whole ? whole->note : NULL;
    out->closed = whole && !whole->here;
    out->by_shifts = d.any_shift;
    if (out->closed)
        return DW_OK;
    if (d.any_shift)
        add_people(&d);
    return d.any_shift ? DW_OK : set_hours(&d);
}

const char *dw_people_at(dw_call *call, const dw_day_people *day, int64_t at_ms)
{
    const char *names = NULL;
    for (size_t i = 0; i < day->people_count; i++) {
        const dw_presence *one = &day->people[i];
        if (one->from_ms > at_ms || one->to_ms <= at_ms || !one->name)
            continue;
        names =
            names ? dw_arena_print(call->arena, "%.300s, %s", names, one->name)
                  : one->name;
    }
    return names;
}

/* ---- to whom the closings are left --------------------------------------- */

enum { DAYS_AHEAD = 4, CLOSINGS_MOST = 400 };

typedef struct ahead {
    dw_call *call;
    dw_shop shop;
    dw_day_people days[DAYS_AHEAD]; /* from the day before on */
    dw_shift_day *out;
} ahead;

/* Who is there then; else who comes first after it. */
static void leave_to(ahead *a, dw_left_to *one)
{
    one->nobody = true;
    for (size_t i = 0; i < DAYS_AHEAD; i++) {
        const dw_day_people *day = &a->days[i];
        if (one->close_ms >= day->first_ms && one->close_ms < day->leaves_ms) {
            one->who = dw_people_at(a->call, day, one->close_ms);
            one->nobody = day->by_shifts && !one->who;
        }
        if (one->nobody && !one->next_ms && day->first_ms > one->close_ms) {
            one->next_ms = day->first_ms;
            one->next = dw_people_at(a->call, day, day->first_ms);
        }
    }
    if (!one->nobody) {
        one->next = NULL;
        one->next_ms = 0;
    }
}

static dw_status add_closing(ahead *a, dw_left_to one)
{
    dw_shift_day *out = a->out;
    if (out->closings_count == CLOSINGS_MOST)
        return dw_fail(a->call->err, DW_E_TOO_LARGE, "closings", NULL);
    leave_to(a, &one);
    out->closings[out->closings_count++] = one;
    return DW_OK;
}

static dw_status add_open(ahead *a)
{
    dw_stack *stacks;
    size_t n;
    DW_TRY(dw_store_stacks_open(a->call->store, a->call->arena, &stacks, &n,
                                a->call->err));
    for (size_t i = 0; i < n; i++) {
        dw_product product;
        dw_batch_row batch;
        DW_TRY(dw_row_get(a->call, "product", &dw_product_noun,
                          stacks[i].product_id, "product_id", &product));
        DW_TRY(dw_row_get(a->call, "batch", &dw_batch_noun, stacks[i].batch_id,
                          "batch_id", &batch));
        DW_TRY(
            add_closing(a, (dw_left_to){.batch_id = batch.id,
                                        .number = batch.number,
                                        .stack_id = stacks[i].id,
                                        .name = product.name,
                                        .balls = stacks[i].balls,
                                        .close_ms = stacks[i].close_due_ms}));
    }
    return DW_OK;
}

/* The run's stacks of batches that are not in boxes yet. */
static dw_status add_planned(ahead *a, int64_t day)
{
    dw_day_run runs;
    DW_TRY(dw_day_run_read(a->call, day, &runs));
    for (size_t i = 0; i < runs.mixers_count; i++) {
        const dw_mixer_run *mixer = &runs.mixers[i];
        for (size_t j = 0; j < mixer->run.batches_count; j++) {
            const dw_day_batch *batch = &mixer->batches[j];
            const dw_run_line *line = &mixer->run.batches[j];
            if (batch->state >= DW_BATCH_BOXED)
                continue;
            for (size_t k = 0; k < line->stacks_count; k++)
                DW_TRY(add_closing(
                    a, (dw_left_to){.batch_id = batch->batch_id,
                                    .number = batch->number,
                                    .name = line->stacks[k].product,
                                    .balls = line->stacks[k].count,
                                    .close_ms = line->stacks[k].close_ms}));
        }
    }
    return DW_OK;
}

static int by_close(const void *a, const void *b)
{
    int64_t left = ((const dw_left_to *)a)->close_ms;
    int64_t right = ((const dw_left_to *)b)->close_ms;
    return (left > right) - (left < right);
}

dw_status dw_shift_day_read(dw_call *call, int64_t day, dw_shift_day *out)
{
    ahead a = {.call = call, .out = out};
    *out = (dw_shift_day){.closings_count = 0};
    DW_TRY(dw_shop_get(call, &a.shop));
    int64_t today;
    DW_TRY(dw_shop_day(call, &a.shop, call->now_ms, &today));
    if (day == 0)
        day = today;
    for (int i = 0; i < DAYS_AHEAD; i++)
        DW_TRY(dw_day_people_read(call, &a.shop, day - 1 + i, &a.days[i]));
    out->people = a.days[1];
    out->closings = DW_NEW_ARRAY(call->arena, dw_left_to, CLOSINGS_MOST);
    if (!out->closings)
        return no_room(call);
    if (day == today)
        DW_TRY(add_open(&a));
    DW_TRY(add_planned(&a, day));
    qsort(out->closings, out->closings_count, sizeof(dw_left_to), by_close);
    return DW_OK;
}
