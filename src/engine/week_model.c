/* The plan as a mixed-integer program: balls by the day they are made and the
 * day they are used. Its cost is never above the expected cost of a plan, so
 * what the solver proves of it is proved of the plan. */
#include "engine/week_model.h"

#include <string.h>

#define NEVER_MORE DW_SOLVER_INFINITE
#define LOOSE_BALLS 3.0

/* ---- writing ------------------------------------------------------------- */

int dw_week__column(dw_week__model *m, double cost, double high, bool whole)
{
    dw_program *p = &m->program;
    if (p->columns == DW_WEEK__COLUMNS_MOST) {
        m->full = true;
        return 0;
    }
    p->cost[p->columns] = cost;
    p->low[p->columns] = 0;
    p->high[p->columns] = high;
    p->whole[p->columns] = whole;
    return (int)p->columns++;
}

void dw_week__entry(dw_week__model *m, int column, double value)
{
    dw_program *p = &m->program;
    int32_t *end = &p->row_start[p->rows + 1];
    if (column < 0 || value == 0)
        return;
    for (int32_t k = p->row_start[p->rows]; k < *end; k++)
        if (p->column[k] == column) {
            p->value[k] += value;
            return;
        }
    if (*end == DW_WEEK__ENTRIES_MOST) {
        m->full = true;
        return;
    }
    p->column[*end] = column;
    p->value[(*end)++] = value;
}

void dw_week__row(dw_week__model *m, double low, double high)
{
    dw_program *p = &m->program;
    if (p->rows + 1 == DW_WEEK__ROWS_MOST) {
        m->full = true;
        return;
    }
    p->row_low[p->rows] = low;
    p->row_high[p->rows] = high;
    p->rows++;
    p->row_start[p->rows + 1] = p->row_start[p->rows];
}

static void at_most(dw_week__model *m, double high)
{
    dw_week__row(m, -NEVER_MORE, high);
}

/* ---- batches ------------------------------------------------------------- */

static double most_batches(const dw_week__problem *p, int t, int f, int o)
{
    const dw_week__option *option = &p->formulas[f].options[o];
    double most = DW_WEEK__BATCHES;
    if (p->locked[t])
        return 0;
    if (option->minutes > 0) {
        double end = p->window[t] - p->formulas[f].close_minutes;
        double free = p->minutes[option->mixer][t] <
                              p->window[t] - p->formulas[f].close_minutes
                          ? p->minutes[option->mixer][t]
                          : end;
        free -= p->fixed_minutes[option->mixer][t];
        double fit = free < 0 ? 0 : (int)(free / option->minutes + 1e-9);
        most = fit < most ? fit : most;
    }
    return most;
}

static void add_options(dw_week__model *m, int t, int f)
{
    const dw_week__problem *p = m->problem;
    const dw_week__formula *formula = &p->formulas[f];
    double start =
        formula->start_costs ? formula->start_costs[t] : formula->start_cost;
    double labour = formula->hands_minutes * p->ask->labour_cost_per_h / 60;
    for (int o = 0; o < formula->options_count; o++) {
        const dw_week__option *option = &formula->options[o];
        double spare = option->whole_size ? formula->spare_cost_per_kg : 0;
        int n = dw_week__column(
            m, start + labour + option->cost + spare * option->most_kg,
            most_batches(p, t, f, o), true);
        int kg = dw_week__column(m, -spare, NEVER_MORE, false);
        m->at->batches[t][f][o] = n;
        m->at->filled[t][f][o] = kg;
        dw_week__entry(m, kg, 1);
        dw_week__entry(m, n, -option->most_kg);
        at_most(m, 0);
        if (option->least_kg > 0) {
            dw_week__entry(m, n, option->least_kg);
            dw_week__entry(m, kg, -1);
            at_most(m, 0);
        }
    }
}

/* Dough filled is dough of balls; balls are within the bench; a day makes the
 * formula only with a batch. */
static void tie_dough(dw_week__model *m, int t, int f)
{
    const dw_week__problem *p = m->problem;
    const dw_week__formula *formula = &p->formulas[f];
    int makes = dw_week__column(m, 0, 1, false);
    m->at->makes[t][f] = makes;
    for (int o = 0; o < formula->options_count; o++)
        dw_week__entry(m, m->at->batches[t][f][o], -1);
    dw_week__entry(m, makes, 1);
    at_most(m, 0);
    for (int o = 0; o < formula->options_count; o++)
        dw_week__entry(m, m->at->filled[t][f][o], -1);
    for (int j = 0; j < formula->products_count; j++)
        dw_week__entry(m, m->at->made[formula->products[j]][t],
                       p->products[formula->products[j]].kg);
    dw_week__row(m, 0, 0);
    if (formula->bench_balls == 0)
        return;
    for (int j = 0; j < formula->products_count; j++)
        dw_week__entry(m, m->at->made[formula->products[j]][t], 1);
    for (int o = 0; o < formula->options_count; o++)
        dw_week__entry(m, m->at->batches[t][f][o], -formula->bench_balls);
    at_most(m, 0);
}

static void count_changes(dw_week__model *m, int t, int f)
{
    const dw_week__problem *p = m->problem;
    double cost = p->ask->change_cost;
    if (!p->has_before || cost == 0)
        return;
    for (int x = 0; x < p->mixers_count; x++) {
        int more = dw_week__column(m, cost, NEVER_MORE, false);
        int fewer = dw_week__column(m, cost, NEVER_MORE, false);
        for (int o = 0; o < p->formulas[f].options_count; o++)
            if (p->formulas[f].options[o].mixer == x)
                dw_week__entry(m, m->at->batches[t][f][o], 1);
        dw_week__entry(m, more, -1);
        dw_week__entry(m, fewer, 1);
        dw_week__row(m, p->before[t][f][x], p->before[t][f][x]);
    }
}

/* (3), and the mixer's own minutes. */
static void limit_mixers(dw_week__model *m, int t)
{
    const dw_week__problem *p = m->problem;
    for (int x = 0; x < p->mixers_count; x++) {
        for (int i = 0; i <= p->formulas_count; i++) {
            bool all = i == p->formulas_count;
            double most =
                all ? p->minutes[x][t]
                    : p->window[t] - p->formulas[p->by_close[i]].close_minutes;
            if (most >= DW_WEEK__INFINITE)
                continue;
            most -= p->fixed_minutes[x][t];
            for (int k = 0; k <= i && k < p->formulas_count; k++) {
                int f = p->by_close[k];
                for (int o = 0; o < p->formulas[f].options_count; o++)
                    if (p->formulas[f].options[o].mixer == x)
                        dw_week__entry(m, m->at->batches[t][f][o],
                                       p->formulas[f].options[o].minutes);
            }
            at_most(m, most > 0 ? most : 0);
        }
    }
}

static void limit_hands(dw_week__model *m, int t)
{
    const dw_week__problem *p = m->problem;
    double rate = p->ask->labour_cost_per_h / 60;
    double over_rate = p->ask->overtime_cost_per_h / 60;
    double free = p->hands[t] - p->fixed_hands[t];
    m->constant += p->fixed_hands[t] * rate;
    if (p->hands[t] >= DW_WEEK__INFINITE)
        return;
    double kept_over = free < 0 ? -free : 0;
    m->at->over[t] = dw_week__column(
        m, over_rate > rate ? over_rate - rate : 0,
        p->overtime[t] > kept_over ? p->overtime[t] : kept_over, false);
    for (int f = 0; f < p->formulas_count; f++)
        for (int o = 0; o < p->formulas[f].options_count; o++)
            dw_week__entry(m, m->at->batches[t][f][o],
                           p->formulas[f].hands_minutes);
    for (int i = 0; i < p->products_count; i++)
        dw_week__entry(m, m->at->made[i][t], 1 / p->ask->balls_per_minute);
    dw_week__entry(m, m->at->over[t], -1);
    at_most(m, free);
}

/* ---- balls --------------------------------------------------------------- */

static void add_product(dw_week__model *m, int i)
{
    const dw_week__problem *p = m->problem;
    const dw_week__product *one = &p->products[i];
    for (int t = 0; t < p->days; t++) {
        double make = one->make_costs ? one->make_costs[t] : 0;
        m->at->made[i][t] =
            dw_week__column(m, make + one->ball_cost, NEVER_MORE, false);
        m->at->lost[i][t] =
            dw_week__column(m, one->lost_cost, one->wanted[t].mean, false);
        m->at->left[i][t] =
            dw_week__column(m, one->holding_cost, NEVER_MORE, false);
    }
    for (int k = 0; k < DW_WEEK__PAST + p->days; k++) {
        int day = k - DW_WEEK__PAST;
        if (day < 0 && one->kept[k] == 0)
            continue;
        for (int u = day + one->earliest; u <= day + one->latest; u++)
            if (u >= 0 && u < p->days)
                m->at->sold[i][k][u] =
                    dw_week__column(m, 0, one->wanted[u].mean, false);
        if (day + one->latest < p->days)
            m->at->thrown[i][k] =
                dw_week__column(m, one->thrown_cost, NEVER_MORE, false);
    }
    m->constant += one->past * one->thrown_cost;
}

/* What is wanted is sold or lost. */
static void tie_wanted(dw_week__model *m, int i)
{
    const dw_week__problem *p = m->problem;
    for (int u = 0; u < p->days; u++) {
        for (int k = 0; k < DW_WEEK__PAST + p->days; k++)
            dw_week__entry(m, m->at->sold[i][k][u], 1);
        dw_week__entry(m, m->at->lost[i][u], 1);
        double mean = p->products[i].wanted[u].mean;
        dw_week__row(m, mean, mean);
    }
}

/* What is made is sold, thrown or left; nothing is sold of a day without a
 * batch. */
static void tie_made(dw_week__model *m, int i)
{
    const dw_week__problem *p = m->problem;
    const dw_week__product *one = &p->products[i];
    for (int k = 0; k < DW_WEEK__PAST + p->days; k++) {
        int day = k - DW_WEEK__PAST;
        bool thrown = m->at->thrown[i][k] >= 0;
        int made = day >= 0 ? m->at->made[i][day] : -1;
        if (day < 0 && one->kept[k] == 0)
            continue;
        for (int u = 0; u < p->days; u++)
            dw_week__entry(m, m->at->sold[i][k][u], 1);
        dw_week__entry(m, m->at->thrown[i][k], 1);
        dw_week__entry(m, made, -1);
        dw_week__row(m, thrown ? one->kept[k] : -NEVER_MORE, one->kept[k]);
        for (int u = 0; u < p->days && one->kept[k] == 0; u++) {
            if (m->at->sold[i][k][u] < 0)
                continue;
            dw_week__entry(m, m->at->sold[i][k][u], 1);
            dw_week__entry(m, m->at->makes[day][one->formula],
                           -one->wanted[u].mean);
            at_most(m, 0);
        }
    }
}

static void tie_left(dw_week__model *m, int i)
{
    const dw_week__problem *p = m->problem;
    const dw_week__product *one = &p->products[i];
    for (int t = 0; t < p->days; t++) {
        double there = t == 0 ? one->there : 0;
        there += one->kept[DW_WEEK__PAST + t];
        dw_week__entry(m, m->at->left[i][t], 1);
        if (t > 0)
            dw_week__entry(m, m->at->left[i][t - 1], -1);
        dw_week__entry(m, m->at->made[i][t], -1);
        for (int k = 0; k < DW_WEEK__PAST + p->days; k++)
            dw_week__entry(m, m->at->sold[i][k][t], 1);
        int past = DW_WEEK__PAST + t - one->latest;
        if (past >= 0)
            dw_week__entry(m, m->at->thrown[i][past], 1);
        dw_week__row(m, there, there);
    }
}

static void limit_room(dw_week__model *m, int t)
{
    const dw_week__problem *p = m->problem;
    double kept_boxes = 0, kept_slots = 0, open = p->ask->open_factor - 1;
    for (int part = 0; part < 2; part++) {
        if ((part == 0 ? p->boxes : p->slots) >= DW_WEEK__INFINITE)
            continue;
        for (int i = 0; i < p->products_count; i++) {
            const dw_week__product *one = &p->products[i];
            if (one->per_box == 0)
                continue;
            double box = 1 / one->per_box;
            double kept = one->kept[DW_WEEK__PAST + t];
            double there = t == 0 ? one->there : 0;
            kept_boxes += (kept + there) * box;
            kept_slots += kept * open * box;
            if (part == 1)
                dw_week__entry(m, m->at->left[i][t], box);
            else if (t > 0)
                dw_week__entry(m, m->at->left[i][t - 1], box);
            dw_week__entry(m, m->at->made[i][t], part == 0 ? box : open * box);
        }
        double free = part == 0 ? p->boxes - kept_boxes : p->slots - kept_slots;
        /* What is there already may be more than the room: then only what is
         * made counts. */
        at_most(m, free);
        kept_boxes = kept_slots = 0;
    }
}

/* ---- the whole ----------------------------------------------------------- */

static bool open_model(const dw_week__problem *p, dw_arena *arena,
                       dw_week__model *m)
{
    dw_program *g = &m->program;
    memset(m, 0, sizeof *m);
    m->problem = p;
    m->at = DW_NEW(arena, dw_week__columns);
    g->cost = DW_NEW_ARRAY(arena, double, DW_WEEK__COLUMNS_MOST);
    g->low = DW_NEW_ARRAY(arena, double, DW_WEEK__COLUMNS_MOST);
    g->high = DW_NEW_ARRAY(arena, double, DW_WEEK__COLUMNS_MOST);
    g->whole = DW_NEW_ARRAY(arena, bool, DW_WEEK__COLUMNS_MOST);
    m->none_whole = DW_NEW_ARRAY(arena, bool, DW_WEEK__COLUMNS_MOST);
    g->row_low = DW_NEW_ARRAY(arena, double, DW_WEEK__ROWS_MOST);
    g->row_high = DW_NEW_ARRAY(arena, double, DW_WEEK__ROWS_MOST);
    g->row_start = DW_NEW_ARRAY(arena, int32_t, DW_WEEK__ROWS_MOST + 1);
    g->column = DW_NEW_ARRAY(arena, int32_t, DW_WEEK__ENTRIES_MOST);
    g->value = DW_NEW_ARRAY(arena, double, DW_WEEK__ENTRIES_MOST);
    m->scratch = DW_NEW_ARRAY(arena, double, (size_t)2 * DW_WEEK__SUPPORT);
    m->scratch_too = DW_NEW_ARRAY(arena, double, (size_t)2 * DW_WEEK__SUPPORT);
    if (!m->at || !g->cost || !g->low || !g->high || !g->whole ||
        !m->none_whole || !g->row_low || !g->row_high || !g->row_start ||
        !g->column || !g->value || !m->scratch || !m->scratch_too)
        return false;
    memset(m->at, 0xff, sizeof *m->at); /* -1 everywhere */
    return true;
}

static void write_model(dw_week__model *m)
{
    const dw_week__problem *p = m->problem;
    for (int i = 0; i < p->products_count; i++)
        add_product(m, i);
    for (int t = 0; t < p->days; t++) {
        for (int f = 0; f < p->formulas_count; f++) {
            add_options(m, t, f);
            tie_dough(m, t, f);
            count_changes(m, t, f);
        }
        limit_mixers(m, t);
        limit_hands(m, t);
        limit_room(m, t);
    }
    for (int i = 0; i < p->products_count; i++) {
        tie_wanted(m, i);
        tie_made(m, i);
        tie_left(m, i);
    }
    m->first_risk = m->program.rows;
    for (int i = 0; i < p->products_count; i++)
        dw_week__risk(m, i);
}

static void begin_from(const dw_week__model *m, const dw_week__plan *plan,
                       double *x)
{
    const dw_week__problem *p = m->problem;
    for (int t = 0; t < p->days; t++)
        for (int f = 0; f < p->formulas_count; f++)
            for (int o = 0; o < p->formulas[f].options_count; o++)
                x[m->at->batches[t][f][o]] = plan->covers[t][f].count[o];
}

/* Balls are whole: each formula's dough of a day is rounded down, then up again
 * while its batches hold more. */
static void take_plan(const dw_week__model *m, const double *x,
                      dw_week__plan *plan)
{
    const dw_week__problem *p = m->problem;
    for (int t = 0; t < p->days; t++)
        for (int f = 0; f < p->formulas_count; f++) {
            const dw_week__formula *formula = &p->formulas[f];
            double room_kg = 1e-6;
            for (int o = 0; o < formula->options_count; o++)
                room_kg += x[m->at->filled[t][f][o]];
            for (int j = 0; j < formula->products_count; j++) {
                int i = formula->products[j];
                int balls = (int)(x[m->at->made[i][t]] + 1e-6);
                plan->made[i][t] = balls;
                room_kg -= balls * p->products[i].kg;
            }
            for (int j = 0; j < formula->products_count; j++) {
                int i = formula->products[j];
                double rest = x[m->at->made[i][t]] - plan->made[i][t];
                if (rest > 0.3 && p->products[i].kg <= room_kg) {
                    plan->made[i][t]++;
                    room_kg -= p->products[i].kg;
                }
            }
        }
}

static bool watching(void *watcher, double cost, double bound)
{
    const dw_week_watch *watch = watcher;
    return !watch || watch->go_on(watch->owner, cost, bound);
}

static double row_at(const dw_program *p, size_t row, const double *x)
{
    double sum = 0;
    for (int32_t k = p->row_start[row]; k < p->row_start[row + 1]; k++)
        sum += p->value[k] * x[p->column[k]];
    return sum;
}

/* Rows of chance, up to row `end`, that are far from what x says are left out:
 * a program without them is solved sooner, and its bound is a bound as well. */
static void forget_loose(dw_week__model *m, const double *x, size_t end)
{
    dw_program *p = &m->program;
    size_t kept = m->first_risk;
    int32_t at = p->row_start[kept];
    for (size_t row = m->first_risk; row < p->rows; row++) {
        int32_t from = p->row_start[row], count = p->row_start[row + 1] - from;
        if (row < end && row_at(p, row, x) > p->row_low[row] + LOOSE_BALLS)
            continue;
        memmove(p->column + at, p->column + from,
                sizeof *p->column * (size_t)count);
        memmove(p->value + at, p->value + from,
                sizeof *p->value * (size_t)count);
        p->row_low[kept] = p->row_low[row];
        p->row_high[kept] = p->row_high[row];
        p->row_start[kept] = at;
        at += count;
        kept++;
    }
    p->row_start[kept] = p->row_start[kept + 1] = at;
    p->rows = kept;
}

/* Without whole numbers, rows (12) and (13) are added where they are broken,
 * again and again; the bound rises. */
static void close_in(dw_week__model *m, const dw_solver *solver,
                     const dw_week_watch *watch, double least_cost,
                     dw_solved *solved, double *bound)
{
    enum { ROUNDS = 14, SHARE = 2 }; /* of the time: half at most */
    dw_program *p = &m->program;
    double seconds = p->seconds, end = seconds - seconds / SHARE;
    bool *whole = p->whole;
    p->whole = m->none_whole;
    p->start = NULL;
    for (int round = 0; round < ROUNDS && p->seconds > end; round++) {
        solver->solve(solver->owner, p, watching, (void *)(uintptr_t)watch,
                      solved);
        p->seconds -= solved->seconds;
        if (!solved->found)
            break;
        *bound = solved->bound > *bound ? solved->bound : *bound;
        size_t rows = p->rows;
        if (dw_week__cut(m, solved->x, least_cost) == 0)
            break;
        forget_loose(m, solved->x, rows);
    }
    p->whole = whole;
}

dw_status dw_week__solve(const dw_week__problem *p, const dw_week__room *room,
                         const dw_solver *solver, const dw_week_watch *watch,
                         dw_arena *arena, dw_week__plan *plan,
                         double *bound_cost)
{
    dw_arena mark = *arena;
    dw_week__model m;
    dw_solved solved = {.found = false, .bound = -DW_SOLVER_INFINITE};
    if (!open_model(p, arena, &m))
        return DW_E_ROOM;
    write_model(&m);
    double *start = DW_NEW_ARRAY(arena, double, m.program.columns);
    solved.x = DW_NEW_ARRAY(arena, double, m.program.columns);
    dw_week__plan *other = DW_NEW(arena, dw_week__plan);
    if (m.full || !start || !solved.x || !other)
        return DW_E_ROOM;
    begin_from(&m, plan, start);
    m.program.seconds = p->ask->seconds;
    m.program.gap = p->ask->gap_percent / 100;
    double bound = -DW_SOLVER_INFINITE;
    close_in(&m, solver, watch, plan->cost * 1e-5, &solved, &bound);
    m.program.start = start;
    solver->solve(solver->owner, &m.program, watching, (void *)(uintptr_t)watch,
                  &solved);
    bound = solved.bound > bound ? solved.bound : bound;
    if (bound + m.constant > *bound_cost)
        *bound_cost = bound + m.constant;
    if (solved.found) {
        *other = *plan;
        take_plan(&m, solved.x, other);
        dw_week__judge(p, room, other);
        if (other->cost < DW_WEEK__INFINITE)
            dw_week__better(p, room, p->ask->effort / 2, watch, *bound_cost,
                            arena, other);
        if (other->cost < plan->cost)
            *plan = *other;
    }
    *arena = mark;
    return DW_OK;
}
