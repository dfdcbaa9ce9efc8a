#include "doughwright/pull.h"
#include "doughwright/chance.h"
#include "engine/normal.h"

#include <math.h>

/* Service is walked in steps of five minutes, on a mean day to write the sheet
 * and on sampled days to judge it; both are one walk, so balls are fractions.
 */
enum { TICK_MINUTES = 5, BENCH_MOST = 512 };
static const int64_t MINUTE_MS = 60000;
static const int64_t TICK_MS = (int64_t)TICK_MINUTES * 60000;

typedef struct bench_row {
    double balls;
    int64_t usable_ms, end_ms;
} bench_row;

typedef struct walk {
    const dw_pull_plan *plan;
    int64_t from_ms, open_ms, close_ms; /* first pull, first and last wish */
    int64_t temper_ms, bench_ms, step_ms;
    double *sums;   /* of wanted, up to each slot */
    double *wants;  /* of each sampled day, tick by tick: the same for all that
                       is tried */
    double *levels; /* after each pull, while one thing is tried */
    size_t ticks;
    double z, most_z;
    bool writing; /* the sheet's rows */
    dw_pull_row *rows;
    size_t rows_room, rows_count;
    int64_t left[DW_PULL_LOTS_MOST]; /* in each lot */
    bench_row bench[BENCH_MOST];
    size_t bench_count;
    double unserved, expired;
    int64_t lacking;
} walk;

/* ---- chance -------------------------------------------------------------- */

/* The z of a probability; below one half none is kept for chance. */
static double z_of(double enough)
{
    return fmax(0, dw_normal_quantile(enough));
}

/* ---- what is wanted ------------------------------------------------------ */

/* Mean balls from the first slot's begin to a moment. */
static double wanted_until(const walk *w, int64_t at_ms)
{
    const dw_pull_plan *plan = w->plan;
    double slot_ms = plan->slot_minutes * (double)MINUTE_MS;
    double slots = (double)(at_ms - plan->start_ms) / slot_ms;
    if (slots <= 0 || plan->wanted_count == 0)
        return 0;
    size_t i = (size_t)slots;
    if (i >= plan->wanted_count)
        return w->sums[plan->wanted_count];
    return w->sums[i] + plan->wanted[i] * (slots - (double)i);
}

/* Mean balls between two moments of service. */
static double wanted_between(const walk *w, int64_t from_ms, int64_t to_ms)
{
    int64_t from = from_ms < w->open_ms ? w->open_ms : from_ms;
    int64_t to = to_ms > w->close_ms ? w->close_ms : to_ms;
    return to > from ? wanted_until(w, to) - wanted_until(w, from) : 0;
}

static double quantile(const walk *w, int64_t from_ms, int64_t to_ms, double z)
{
    double mean = wanted_between(w, from_ms, to_ms);
    double sd = w->plan->day_sd_percent / 100 * mean;
    return fmax(0, ceil(mean + z * sqrt(mean + sd * sd) - 1e-9));
}

/* Balls to be out after the pull at `at_ms`: enough until the next row's are
 * tempered, but not more than are wanted before they are past. */
static double level_at(const walk *w, int64_t at_ms)
{
    double until_next =
        quantile(w, at_ms, at_ms + w->step_ms + w->temper_ms, w->z);
    return fmin(until_next, quantile(w, at_ms, at_ms + w->bench_ms, w->most_z));
}

/* ---- one day ------------------------------------------------------------- */

static double balls_out(const walk *w)
{
    double sum = 0;
    for (size_t i = 0; i < w->bench_count; i++)
        sum += w->bench[i].balls;
    return sum;
}

static void put_out(walk *w, double balls, int64_t usable_ms, int64_t end_ms)
{
    if (w->bench_count < BENCH_MOST)
        w->bench[w->bench_count++] = (bench_row){balls, usable_ms, end_ms};
}

/* Can a ball of the lot that is pulled now be used when it is tempered? */
static bool lot_serves(const walk *w, size_t i, int64_t at_ms)
{
    const dw_pull_lot *lot = &w->plan->lots[i];
    int64_t usable = at_ms + w->temper_ms;
    return w->left[i] > 0 && lot->ready_ms <= usable &&
           (!lot->has_end_ms || lot->end_ms > usable);
}

/* `lot` of no lot: nothing is expected to come out. */
static void write_row(walk *w, size_t lot, int64_t at_ms, double level,
                      int64_t balls, int64_t end_ms)
{
    const dw_pull_plan *plan = w->plan;
    if (w->writing && w->rows_count < w->rows_room)
        w->rows[w->rows_count++] = (dw_pull_row){
            .at_ms = at_ms,
            .have_out = (int64_t)level,
            .lot = (int64_t)lot,
            .stack_id = lot < plan->lots_count ? plan->lots[lot].stack_id : 0,
            .boxes = (balls + plan->balls_per_box - 1) / plan->balls_per_box,
            .balls = balls,
            .usable_ms = at_ms + w->temper_ms,
            .end_ms = end_ms,
        };
}

/* Fill the bench up to its level with whole boxes, lot after lot. */
static void pull(walk *w, int64_t at_ms, double level)
{
    double out = balls_out(w), before = out;
    int64_t per_box = w->plan->balls_per_box;
    for (size_t i = 0; i < w->plan->lots_count && out < level; i++) {
        if (!lot_serves(w, i, at_ms))
            continue;
        const dw_pull_lot *lot = &w->plan->lots[i];
        int64_t boxes = (int64_t)ceil((level - out) / (double)per_box - 1e-9);
        int64_t balls = boxes * per_box;
        if (balls > w->left[i])
            balls = w->left[i];
        int64_t end = at_ms + w->bench_ms;
        if (lot->has_end_ms && lot->end_ms < end)
            end = lot->end_ms;
        w->left[i] -= balls;
        out += (double)balls;
        put_out(w, (double)balls, at_ms + w->temper_ms, end);
        write_row(w, i, at_ms, level, balls, end);
    }
    if (out == before && level > 0)
        write_row(w, w->plan->lots_count, at_ms, level, 0, at_ms + w->bench_ms);
    int64_t lacking = out < level ? (int64_t)ceil(level - out - 1e-9) : 0;
    w->lacking = lacking > w->lacking ? lacking : w->lacking;
}

static void expire(walk *w, int64_t at_ms)
{
    size_t kept = 0;
    for (size_t i = 0; i < w->bench_count; i++) {
        if (w->bench[i].end_ms <= at_ms)
            w->expired += w->bench[i].balls;
        else if (w->bench[i].balls > 0)
            w->bench[kept++] = w->bench[i];
    }
    w->bench_count = kept;
}

/* First out, first used. */
static void serve(walk *w, int64_t at_ms, double wanted)
{
    for (size_t i = 0; i < w->bench_count && wanted > 0; i++) {
        bench_row *row = &w->bench[i];
        if (row->usable_ms > at_ms)
            continue;
        double taken = fmin(row->balls, wanted);
        row->balls -= taken;
        wanted -= taken;
    }
    w->unserved += wanted;
}

static void begin_day(walk *w)
{
    const dw_pull_plan *plan = w->plan;
    w->unserved = w->expired = 0;
    for (size_t i = 0; i < plan->lots_count; i++)
        w->left[i] = plan->lots[i].balls;
    w->bench_count = 0;
    for (size_t i = 0; i < plan->out_count; i++)
        put_out(w, (double)plan->out[i].balls, plan->out[i].usable_ms,
                plan->out[i].end_ms);
}

/* `wants` NULL: the mean day. */
static void walk_day(walk *w, const double *wants)
{
    int64_t next_pull = w->from_ms;
    size_t pulls = 0;
    begin_day(w);
    for (size_t i = 0; i < w->ticks; i++) {
        int64_t at = w->from_ms + (int64_t)i * TICK_MS;
        expire(w, at);
        if (at >= next_pull && at + w->temper_ms < w->close_ms) {
            pull(w, at, w->levels[pulls++]);
            next_pull += w->step_ms;
        }
        serve(w, at, wants ? wants[i] : wanted_between(w, at, at + TICK_MS));
    }
}

/* ---- the sheet ----------------------------------------------------------- */

typedef struct judged {
    double unserved, expired, left;
} judged;

static void set_levels(walk *w, double enough, double most_enough)
{
    size_t pulls = 0;
    w->z = z_of(enough);
    w->most_z = z_of(most_enough);
    for (int64_t at = w->from_ms; at + w->temper_ms < w->close_ms;
         at += w->step_ms)
        w->levels[pulls++] = level_at(w, at);
}

static judged judge(walk *w, double enough, double most_enough)
{
    judged sum = {0};
    int64_t days = w->plan->days_sampled;
    set_levels(w, enough, most_enough);
    for (int64_t i = 0; i < days; i++) {
        walk_day(w, w->wants + (size_t)i * w->ticks);
        sum.unserved += w->unserved / (double)days;
        sum.expired += w->expired / (double)days;
        sum.left += balls_out(w) / (double)days;
    }
    return sum;
}

static double cost_of(const dw_pull_plan *plan, const judged *one)
{
    return plan->short_cost * one->unserved +
           plan->over_cost * (one->expired + one->left);
}

/* The best for all rows first, no more than its own limit, then the best limit
 * for that one. */
static judged choose(walk *w, dw_pull_sheet *sheet)
{
    static const double tried[] = {0.5,  0.6,  0.7,  0.8, 0.9, 0.95,
                                   0.98, 0.02, 0.05, 0.1, 0.2, 0.35};
    const dw_pull_plan *plan = w->plan;
    judged best = {0};
    double least = HUGE_VAL;
    for (size_t i = 0; i < 2 * DW_COUNT(tried); i++) {
        bool limit = i >= DW_COUNT(tried);
        double most_enough = tried[i % DW_COUNT(tried)];
        double enough = limit ? sheet->enough : most_enough;
        judged one = judge(w, enough, most_enough);
        double cost = cost_of(plan, &one);
        if (cost < least) {
            least = cost;
            best = one;
            sheet->enough = enough;
            sheet->most_enough = most_enough;
        }
    }
    return best;
}

static dw_status check(const dw_pull_plan *plan, dw_err *err)
{
    DW_TRY(dw_check_range(err, "bench_h", plan->bench_h, plan->temper_h + 0.1,
                          72));
    if (!plan->has_enough && plan->days_sampled == 0)
        return dw_fail(err, DW_E_MISSING, "enough", NULL);
    double hours = plan->slot_minutes / 60 * (double)plan->wanted_count;
    DW_TRY(dw_check_range(err, "wanted", hours, 0, 48));
    for (size_t i = 0; i < plan->lots_count; i++)
        if (plan->lots[i].has_end_ms &&
            plan->lots[i].end_ms < plan->lots[i].ready_ms)
            return dw_fail_range(
                err, "lots.end_ms", (double)plan->lots[i].end_ms,
                (double)plan->lots[i].ready_ms, 9007199254740991.0);
    return DW_OK;
}

static int64_t round_up(double minutes, double step)
{
    return (int64_t)(ceil(minutes / step - 1e-9) * step) * MINUTE_MS;
}

/* The first pull lies whole steps before the first slot; from now on, no
 * earlier than now. */
static void set_times(walk *w)
{
    const dw_pull_plan *plan = w->plan;
    w->temper_ms = (int64_t)(plan->temper_h * 60 * (double)MINUTE_MS);
    w->bench_ms = (int64_t)(plan->bench_h * 60 * (double)MINUTE_MS);
    w->step_ms = (int64_t)plan->step_minutes * MINUTE_MS;
    w->open_ms = plan->start_ms;
    w->close_ms =
        plan->start_ms + (int64_t)(plan->slot_minutes * (double)MINUTE_MS *
                                   (double)plan->wanted_count);
    w->from_ms =
        plan->start_ms - round_up(plan->temper_h * 60, plan->step_minutes);
    if (plan->has_now_ms && plan->now_ms > w->from_ms)
        w->from_ms = plan->now_ms;
    if (plan->has_now_ms && plan->now_ms > w->open_ms)
        w->open_ms = plan->now_ms;
}

static dw_status set_sums(walk *w, dw_arena *arena, dw_err *err)
{
    const dw_pull_plan *plan = w->plan;
    w->rows_room = BENCH_MOST;
    w->rows = DW_NEW_ARRAY(arena, dw_pull_row, w->rows_room);
    w->sums = DW_NEW_ARRAY(arena, double, plan->wanted_count + 1);
    if (!w->rows || !w->sums)
        return dw_fail(err, DW_E_ROOM, "pull", NULL);
    for (size_t i = 0; i < plan->wanted_count; i++)
        w->sums[i + 1] = w->sums[i] + plan->wanted[i];
    return DW_OK;
}

/* The sampled days, drawn once. */
static dw_status draw_days(walk *w, dw_arena *arena, dw_err *err)
{
    const dw_pull_plan *plan = w->plan;
    size_t days = (size_t)plan->days_sampled;
    dw_chance chance = {1}; /* always the same days */
    if (w->close_ms > w->from_ms)
        w->ticks = (size_t)((w->close_ms - w->from_ms + TICK_MS - 1) / TICK_MS);
    w->levels = DW_NEW_ARRAY(arena, double, w->ticks + 1);
    w->wants = DW_NEW_ARRAY(arena, double, days * w->ticks + 1);
    if (!w->levels || !w->wants)
        return dw_fail(err, DW_E_ROOM, "pull", NULL);
    for (size_t d = 0; d < days; d++) {
        double day =
            fmax(0, 1 + plan->day_sd_percent / 100 * dw_chance_normal(&chance));
        for (size_t i = 0; i < w->ticks; i++) {
            int64_t at = w->from_ms + (int64_t)i * TICK_MS;
            double mean = day * wanted_between(w, at, at + TICK_MS);
            w->wants[d * w->ticks + i] =
                (double)dw_chance_poisson(&chance, mean);
        }
    }
    return DW_OK;
}

static void write_sheet(walk *w, dw_pull_sheet *out)
{
    const dw_pull_plan *plan = w->plan;
    set_levels(w, out->enough, out->most_enough);
    w->lacking = 0;
    w->writing = true;
    walk_day(w, NULL);
    out->rows = w->rows;
    out->rows_count = w->rows_count;
    out->wanted = wanted_between(w, w->open_ms, w->close_ms);
    out->lacking = w->lacking;
    out->late = plan->has_now_ms && plan->out_count == 0 &&
                wanted_between(w, w->open_ms, w->from_ms + w->temper_ms) > 0;
    for (size_t i = 0; i < w->rows_count; i++)
        out->pulled += w->rows[i].balls;
}

dw_status dw_pull_make(const dw_pull_plan *plan, dw_arena *arena,
                       dw_pull_sheet *sheet, dw_err *err)
{
    DW_TRY(check(plan, err));
    walk *w = DW_NEW(arena, walk);
    if (!w)
        return dw_fail(err, DW_E_ROOM, "pull", NULL);
    w->plan = plan;
    set_times(w);
    DW_TRY(set_sums(w, arena, err));
    size_t mark = arena->used;
    DW_TRY(draw_days(w, arena, err));
    dw_pull_sheet out = {.enough = plan->enough, .most_enough = plan->enough};
    judged got = plan->has_enough ? judge(w, plan->enough, plan->enough)
                                  : choose(w, &out);
    out.unserved = got.unserved;
    out.expired = got.expired;
    out.left = got.left;
    write_sheet(w, &out);
    arena->used = mark; /* of the days nothing is kept */
    *sheet = out;
    return DW_OK;
}
