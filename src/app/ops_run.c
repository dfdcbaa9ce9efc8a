/* The run of a day: which batch when, on mixer and bench. */
#include "app/run.h"

#include "app/said.h"
#include "app/shifts.h"
#include "app/stock.h"

static const dw_field day_batch_fields[] = {
    DW_F_ID(dw_day_batch, batch_id, "which"),
    DW_F_WHOLE(dw_day_batch, number, "", 0, 1e9, "its number"),
    DW_F_CHOICE(dw_day_batch, state, dw_batch_state_words, "how far it is"),
    DW_F_TEXT(dw_day_batch, formula_name, 80, "its formula"),
    DW_F_TEXT_OPT(dw_day_batch, person_name, 60, "who mixes"),
    DW_F_REAL(dw_day_batch, dough_kg, "kg", 0, 1e5, "planned"),
};
static const dw_shape day_batch_shape =
    DW_SHAPE("day_batch", dw_day_batch, day_batch_fields, "a batch of the day");

static const dw_field mixer_run_fields[] = {
    DW_F_TEXT_OPT(dw_mixer_run, mixer_name, 60, "which mixer"),
    DW_F_MANY_OPT(dw_mixer_run, batches, &day_batch_shape, DW_RUN_BATCHES,
                  "as in the run"),
    DW_F_ONE(dw_mixer_run, run, &dw_run_reply_shape, "laid on mixer and bench"),
};
static const dw_shape mixer_run_shape =
    DW_SHAPE("mixer_run", dw_mixer_run, mixer_run_fields, "what a mixer does");

static const dw_field day_run_fields[] = {
    DW_F_WHOLE(dw_day_run, day, "d", 0, 84000, "business day"),
    DW_F_MOMENT(dw_day_run, leaves_ms, "the last person leaves; 0: not known"),
    DW_F_MANY_OPT(dw_day_run, mixers, &mixer_run_shape, 100, "by mixer"),
};
const dw_shape dw_day_run_shape =
    DW_SHAPE("day_run", dw_day_run, day_run_fields, "the run of a day");

static dw_status no_room(dw_call *call)
{
    return dw_fail(call->err, DW_E_ROOM, "run", NULL);
}

/* ---- one mixer ----------------------------------------------------------- */

/* When somebody is there: first in, last out; unknown when the day has none.
 * One person short is a pair of hands less. */
static dw_status set_hours(dw_call *call, const dw_shop *shop, int64_t day,
                           dw_run_request *run)
{
    dw_day_people people;
    DW_TRY(dw_day_people_read(call, shop, day, &people));
    run->has_earliest_ms = run->has_last_leaves_ms = people.leaves_ms > 0;
    run->earliest_ms = people.first_ms;
    run->last_leaves_ms = people.leaves_ms;
    if (people.people_count > 0 && (double)people.people_count < run->hands)
        run->hands = (double)people.people_count;
    return DW_OK;
}

dw_status dw_run_open(dw_call *call, const dw_shop *shop, int64_t day,
                      double dough_c, dw_run_request *run)
{
    dw_shape_preset(&dw_run_request_shape, run);
    run->hands = (double)shop->hands;
    run->balls_per_minute = shop->balls_per_minute;
    run->bench_minutes = shop->bench_minutes;
    run->has_dough_c = true;
    run->dough_c = dough_c;
    DW_TRY(dw_reading_newest(call, 0, DW_READ_ROOM, &run->room_c,
                             &run->has_room_c));
    return set_hours(call, shop, day, run);
}

dw_status dw_run_fill(dw_call *call, const dw_shop *shop, double dough_out_min,
                      const dw_card_cut *cuts, size_t cuts_count,
                      double dough_c, dw_run_batch *line)
{
    line->mix_minutes = dough_out_min > 0.5 ? dough_out_min : 0.5;
    line->pieces = DW_NEW_ARRAY(call->arena, dw_run_piece, cuts_count);
    line->pieces_count = 0;
    if (!line->pieces)
        return no_room(call);
    for (size_t j = 0; j < cuts_count; j++) {
        const dw_card_cut *cut = &cuts[j];
        dw_cold_close close = {.by_h = 2};
        bool known;
        DW_TRY(dw_close_hours(call, shop, cut->piece.ball_kg, dough_c, &close,
                              &known));
        line->pieces[line->pieces_count++] = (dw_run_piece){
            cut->name, cut->piece.ball_kg * 1000, cut->piece.balls_planned,
            known ? close.by_h * 60 : 0};
    }
    return DW_OK;
}

/* ---- the day ------------------------------------------------------------- */

typedef struct desk {
    dw_call *call;
    dw_shop shop;
    dw_card *cards; /* of the day, by planned start */
    size_t count;
    dw_day_run *out;
} desk;

/* The mixer stops this long after the first step. */
static double dough_out_min(const dw_card *card)
{
    double at = card->batch.mixer_minutes;
    for (size_t i = 0; i < card->steps_count; i++)
        if (card->steps[i].step.kind == DW_STEP_STOP)
            at = card->steps[i].step.at_min;
    return at;
}

static dw_status read_cards(desk *d)
{
    dw_batch_row *rows;
    size_t n;
    DW_TRY(dw_store_batches_of_days(d->call->store, d->out->day, d->out->day,
                                    d->call->arena, &rows, &n, d->call->err));
    d->cards = DW_NEW_ARRAY(d->call->arena, dw_card, n);
    if (!d->cards)
        return no_room(d->call);
    for (size_t i = 0; i < n; i++)
        if (rows[i].state != DW_BATCH_ABANDONED)
            DW_TRY(dw_card_read(d->call, rows[i].id, &d->cards[d->count++]));
    return DW_OK;
}

static dw_status add_batch(desk *d, const dw_card *card, dw_mixer_run *mixer,
                           dw_run_request *run)
{
    const dw_batch_row *batch = &card->batch;
    dw_run_batch *line = &run->batches[run->batches_count];
    line->name = dw_arena_print(d->call->arena, "%d", (int)batch->number);
    if (!line->name)
        return no_room(d->call);
    DW_TRY(dw_run_fill(d->call, &d->shop, dough_out_min(card), card->pieces,
                       card->pieces_count, batch->dough_goal_c, line));
    run->batches_count++;
    mixer->batches[mixer->batches_count++] =
        (dw_day_batch){batch->id,          batch->number,     batch->state,
                       card->formula_name, card->person_name, batch->dough_kg};
    return DW_OK;
}

/* All batches of the mixer that card `first` stands in, from its start on. */
static dw_status lay_mixer(desk *d, size_t first, dw_mixer_run *mixer)
{
    const dw_card *at = &d->cards[first];
    dw_run_request run;
    DW_TRY(dw_run_open(d->call, &d->shop, d->out->day, at->batch.dough_goal_c,
                       &run));
    run.has_start_ms = true;
    run.start_ms =
        at->batch.started_ms ? at->batch.started_ms : at->batch.planned_ms;
    run.batches = DW_NEW_ARRAY(d->call->arena, dw_run_batch, DW_RUN_BATCHES);
    mixer->batches = DW_NEW_ARRAY(d->call->arena, dw_day_batch, DW_RUN_BATCHES);
    mixer->mixer_name = at->mixer_name;
    if (!run.batches || !mixer->batches)
        return no_room(d->call);
    for (size_t i = first; i < d->count; i++)
        if (d->cards[i].batch.mixer_id == at->batch.mixer_id &&
            run.batches_count < DW_RUN_BATCHES)
            DW_TRY(add_batch(d, &d->cards[i], mixer, &run));
    d->out->leaves_ms = run.has_last_leaves_ms ? run.last_leaves_ms : 0;
    DW_TRY(dw_run_sheet(&run, d->call->arena, d->call->err, &mixer->run));
    dw_said_advice(d->call, mixer->run.advice, mixer->run.advice_count);
    return dw_said_notes(d->call, mixer->run.notes, mixer->run.notes_count);
}

dw_status dw_day_run_read(dw_call *call, int64_t day, dw_day_run *runs)
{
    desk d = {.call = call, .out = runs};
    *runs = (dw_day_run){.day = day};
    DW_TRY(dw_shop_get(call, &d.shop));
    if (day == 0)
        DW_TRY(dw_today(call, &runs->day));
    DW_TRY(read_cards(&d));
    runs->mixers = DW_NEW_ARRAY(call->arena, dw_mixer_run, d.count);
    if (!runs->mixers)
        return no_room(call);
    for (size_t i = 0; i < d.count; i++) {
        bool seen = false;
        for (size_t j = 0; j < i; j++)
            seen |= d.cards[j].batch.mixer_id == d.cards[i].batch.mixer_id;
        if (!seen)
            DW_TRY(lay_mixer(&d, i, &runs->mixers[runs->mixers_count++]));
    }
    return DW_OK;
}

typedef struct run_asked {
    int64_t day;
} run_asked;
static const dw_field run_asked_fields[] = {
    DW_F_WHOLE_PRESET(run_asked, day, "d", 0, 84000, 0,
                      "business day; 0: today"),
};
static const dw_shape run_asked_shape =
    DW_SHAPE("run_asked", run_asked, run_asked_fields, "which day");

static dw_status run_get(dw_call *call, const void *request, void *reply)
{
    return dw_day_run_read(call, ((const run_asked *)request)->day, reply);
}

const dw_op dw_ops_run[] = {
    {"run.get", DW_OP_READ, &run_asked_shape, &dw_day_run_shape, run_get,
     "The batches of a day on mixer and bench, and which stacks close late."},
};
const size_t dw_ops_run_count = DW_COUNT(dw_ops_run);
