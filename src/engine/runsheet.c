#include "doughwright/runsheet.h"

#include <math.h>
#include <string.h>

enum { STACKS = DW_RUN_BATCHES * DW_RUN_PIECES, NOTES = STACKS + 32 };

/* A run in minutes from its first mix; batches and sizes by their place in
 * the request. */
typedef struct timing {
    size_t batch[DW_RUN_BATCHES];
    size_t piece[DW_RUN_BATCHES][DW_RUN_PIECES];
    double mix_start[DW_RUN_BATCHES], dough_out[DW_RUN_BATCHES];
    double boxed[DW_RUN_BATCHES][DW_RUN_PIECES]; /* last box of each size */
    double all_boxed[DW_RUN_BATCHES];
    double last_close;
} timing;

static int64_t ms(double minutes)
{
    return (int64_t)llround(minutes * 60000);
}

static int64_t balls_of(const dw_run_batch *batch)
{
    int64_t balls = 0;
    for (size_t i = 0; i < batch->pieces_count; i++)
        balls += batch->pieces[i].count;
    return balls;
}

static double mean_piece_g(const dw_run_batch *batch)
{
    double grams = 0;
    for (size_t i = 0; i < batch->pieces_count; i++)
        grams += batch->pieces[i].piece_g * (double)batch->pieces[i].count;
    return grams / (double)balls_of(batch);
}

/* Sort places by weight, equal ones as they were. Order as given keeps all. */
static void sort_places(size_t *places, const double *grams, size_t count,
                        dw_run_order order)
{
    for (size_t i = 0; i < count; i++) {
        size_t at = i;
        while (at > 0 && ((order == DW_RUN_SMALL_FIRST &&
                           grams[places[at - 1]] > grams[i]) ||
                          (order == DW_RUN_LARGE_FIRST &&
                           grams[places[at - 1]] < grams[i]))) {
            places[at] = places[at - 1];
            at--;
        }
        places[at] = i;
    }
}

static void set_order(const dw_run_request *r, dw_run_order order, timing *t)
{
    double grams[DW_RUN_BATCHES];
    for (size_t i = 0; i < r->batches_count; i++)
        grams[i] = mean_piece_g(&r->batches[i]);
    sort_places(t->batch, grams, r->batches_count, order);
    for (size_t i = 0; i < r->batches_count; i++) {
        const dw_run_batch *batch = &r->batches[t->batch[i]];
        for (size_t k = 0; k < batch->pieces_count; k++)
            grams[k] = batch->pieces[k].piece_g;
        sort_places(t->piece[i], grams, batch->pieces_count, order);
    }
}

/* (1) and (2) of runsheet.h. */
static void set_times(const dw_run_request *r, timing *t)
{
    double rate = r->hands * r->balls_per_minute;
    bool overlap = r->hands > 1;
    for (size_t i = 0; i < r->batches_count; i++) {
        const dw_run_batch *batch = &r->batches[t->batch[i]];
        double start = 0;
        if (i > 0) {
            double bowl = t->dough_out[i - 1] + r->turn_minutes;
            double bench = t->all_boxed[i - 1];
            start = fmax(bowl, overlap ? bench - batch->mix_minutes : bench);
        }
        double at = start + batch->mix_minutes;
        t->mix_start[i] = start;
        t->dough_out[i] = at;
        for (size_t k = 0; k < batch->pieces_count; k++) {
            const dw_run_piece *piece = &batch->pieces[t->piece[i][k]];
            at += (double)piece->count / rate;
            t->boxed[i][k] = at;
            t->last_close = fmax(t->last_close, at + piece->close_minutes);
        }
        t->all_boxed[i] = at;
    }
}

static timing time_run(const dw_run_request *r, dw_run_order order)
{
    timing t;
    memset(&t, 0, sizeof t);
    set_order(r, order, &t);
    set_times(r, &t);
    return t;
}

static double last_box(const dw_run_request *r, const timing *t)
{
    return t->all_boxed[r->batches_count - 1];
}

static int64_t start_of(const dw_run_request *r, const timing *t)
{
    return r->has_start_ms ? r->start_ms : r->boxed_by_ms - ms(last_box(r, t));
}

/* --- the reply -------------------------------------------------------- */

/* The first mixes and the others ball; alone, one does both. */
static const char *other_people(const dw_run_request *r, dw_arena *arena)
{
    if (r->people_count < 2)
        return r->people_count == 1 ? r->people[0].name : NULL;
    size_t bytes = 1;
    for (size_t i = 1; i < r->people_count; i++)
        bytes += strlen(r->people[i].name) + 2;
    char *names = dw_arena_take(arena, bytes);
    size_t at = 0;
    for (size_t i = 1; i < r->people_count && names; i++) {
        size_t n = strlen(r->people[i].name);
        if (i > 1) {
            names[at++] = ',';
            names[at++] = ' ';
        }
        memcpy(names + at, r->people[i].name, n + 1);
        at += n;
    }
    return names;
}

static bool set_line(const dw_run_request *r, const timing *t, size_t i,
                     dw_arena *arena, dw_run_reply *out, dw_notes *notes)
{
    const dw_run_batch *batch = &r->batches[t->batch[i]];
    dw_run_line *line = &out->batches[i];
    line->name = batch->name;
    line->mix_start_ms = out->start_ms + ms(t->mix_start[i]);
    line->dough_out_ms = out->start_ms + ms(t->dough_out[i]);
    line->boxed_ms = out->start_ms + ms(t->all_boxed[i]);
    line->bench_minutes = t->all_boxed[i] - t->dough_out[i];
    line->balls = balls_of(batch);
    line->stacks = DW_NEW_ARRAY(arena, dw_run_stack, batch->pieces_count);
    if (!line->stacks)
        return false;
    line->stacks_count = batch->pieces_count;
    for (size_t k = 0; k < batch->pieces_count; k++) {
        const dw_run_piece *piece = &batch->pieces[t->piece[i][k]];
        int64_t close_ms =
            out->start_ms + ms(t->boxed[i][k] + piece->close_minutes);
        bool late = r->has_last_leaves_ms && close_ms > r->last_leaves_ms;
        line->stacks[k] =
            (dw_run_stack){piece->product, piece->piece_g,
                           piece->count,   out->start_ms + ms(t->boxed[i][k]),
                           close_ms,       late};
        if (late)
            dw_note_value(notes, DW_NOTE_WARN, "closes_late", piece->product,
                          (double)(close_ms - r->last_leaves_ms) / 60000);
    }
    if (line->bench_minutes > r->bench_minutes * (1 + 1e-9))
        dw_note_limit(notes, DW_NOTE_WARN, "bench_over", batch->name,
                      line->bench_minutes, r->bench_minutes);
    return true;
}

double dw_run_bowl_c(double room_c, double dough_c, double idle_minutes,
                     double bowl_minutes)
{
    return room_c + (dough_c - room_c) * exp(-idle_minutes / bowl_minutes);
}

static void set_bowl(const dw_run_request *r, const timing *t, size_t i,
                     dw_run_line *line)
{
    if (i == 0) {
        line->has_bowl_c = r->has_bowl_c || r->has_room_c;
        line->bowl_c = r->has_bowl_c ? r->bowl_c : r->room_c;
        return;
    }
    line->has_bowl_c = r->has_room_c && r->has_dough_c;
    if (!line->has_bowl_c)
        return;
    double idle = t->mix_start[i] - t->dough_out[i - 1];
    line->bowl_c = dw_run_bowl_c(r->room_c, r->dough_c, idle, r->bowl_minutes);
}

static bool in_time(const dw_run_request *r, int64_t done_ms)
{
    return done_ms <= r->last_leaves_ms;
}

static void advise_order(const dw_run_request *r, dw_run_order order,
                         dw_run_reply *out)
{
    timing t = time_run(r, order);
    int64_t close_ms = start_of(r, &t) + ms(t.last_close);
    if (close_ms >= out->last_close_ms)
        return;
    out->advice[out->advice_count++] =
        (dw_run_advice){.code = dw_run_order_words[order],
                        .done_ms = close_ms,
                        .enough = in_time(r, close_ms)};
}

/* Single bags need no closing: what is late is done when it is bagged. Enough
 * when that is so for every late stack. */
static void advise_bags(const dw_run_request *r, dw_run_reply *out)
{
    bool enough = true;
    for (size_t i = 0; i < out->batches_count; i++)
        for (size_t k = 0; k < out->batches[i].stacks_count; k++) {
            const dw_run_stack *stack = &out->batches[i].stacks[k];
            enough = enough && (!stack->late || in_time(r, stack->boxed_ms));
        }
    for (size_t i = 0; i < out->batches_count; i++)
        for (size_t k = 0; k < out->batches[i].stacks_count; k++) {
            const dw_run_stack *stack = &out->batches[i].stacks[k];
            if (stack->late && in_time(r, stack->boxed_ms))
                out->advice[out->advice_count++] =
                    (dw_run_advice){.code = "bag_singly",
                                    .batch = out->batches[i].name,
                                    .product = stack->product,
                                    .done_ms = stack->boxed_ms,
                                    .enough = enough};
        }
}

static void advise(const dw_run_request *r, dw_run_reply *out)
{
    if (!r->has_last_leaves_ms || in_time(r, out->last_close_ms))
        return;
    int64_t earlier = out->last_close_ms - r->last_leaves_ms;
    int64_t start_ms = out->start_ms - earlier;
    if (!r->has_earliest_ms || start_ms >= r->earliest_ms)
        out->advice[out->advice_count++] =
            (dw_run_advice){.code = "start_earlier",
                            .has_start_ms = true,
                            .start_ms = start_ms,
                            .done_ms = r->last_leaves_ms,
                            .enough = true};
    if (r->order != DW_RUN_SMALL_FIRST)
        advise_order(r, DW_RUN_SMALL_FIRST, out);
    if (r->order != DW_RUN_LARGE_FIRST)
        advise_order(r, DW_RUN_LARGE_FIRST, out);
    advise_bags(r, out);
}

static void set_latest(const dw_run_request *r, const timing *t,
                       dw_run_reply *out)
{
    int64_t latest = INT64_MAX;
    if (r->has_boxed_by_ms)
        latest = r->boxed_by_ms - ms(last_box(r, t));
    if (r->has_last_leaves_ms && r->last_leaves_ms - ms(t->last_close) < latest)
        latest = r->last_leaves_ms - ms(t->last_close);
    out->has_latest_start_ms = r->has_boxed_by_ms || r->has_last_leaves_ms;
    out->latest_start_ms = out->has_latest_start_ms ? latest : 0;
}

static dw_status check_times(const dw_run_request *r, dw_err *err)
{
    if (!r->has_start_ms && !r->has_boxed_by_ms)
        return dw_fail_says(err, DW_E_MISSING, "start_ms", NULL,
                            "or boxed_by_ms is required");
    if (r->has_start_ms && r->has_boxed_by_ms)
        return dw_fail_says(err, DW_E_CONFLICT, "boxed_by_ms", NULL,
                            "and start_ms cannot both be given");
    return DW_OK;
}

dw_status dw_run_sheet(const dw_run_request *request, dw_arena *arena,
                       dw_err *err, dw_run_reply *reply)
{
    const dw_run_request *r = request;
    DW_TRY(check_times(r, err));
    timing t = time_run(r, (dw_run_order)r->order);
    dw_run_reply out = {
        .batches = DW_NEW_ARRAY(arena, dw_run_line, r->batches_count),
        .batches_count = r->batches_count,
        .advice = DW_NEW_ARRAY(arena, dw_run_advice, STACKS + 3),
        .notes = DW_NEW_ARRAY(arena, dw_note, NOTES),
        .start_ms = start_of(r, &t),
    };
    const char *others = other_people(r, arena);
    if (!out.batches || !out.advice || !out.notes ||
        (r->people_count > 0 && !others))
        return dw_fail(err, DW_E_ROOM, "arena", NULL);
    dw_notes notes = {out.notes, NOTES, 0};
    out.boxed_ms = out.start_ms + ms(last_box(r, &t));
    out.last_close_ms = out.start_ms + ms(t.last_close);
    if (r->has_earliest_ms && out.start_ms < r->earliest_ms)
        dw_note_value(&notes, DW_NOTE_WARN, "start_past", NULL,
                      (double)(r->earliest_ms - out.start_ms) / 60000);
    for (size_t i = 0; i < r->batches_count; i++) {
        if (!set_line(r, &t, i, arena, &out, &notes))
            return dw_fail(err, DW_E_ROOM, "arena", NULL);
        set_bowl(r, &t, i, &out.batches[i]);
        out.batches[i].mixed_by =
            r->people_count > 0 ? r->people[0].name : NULL;
        out.batches[i].balled_by = others;
    }
    set_latest(r, &t, &out);
    advise(r, &out);
    out.notes_count = notes.count;
    *reply = out;
    return DW_OK;
}
