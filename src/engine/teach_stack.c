/* Heat transfer of stacks from core probes. */
#include "engine/teach_grid.h"

#include <math.h>
#include <string.h>

enum { STATES = DW_TEACH_STATES, NODES = 5, POINTS = DW_TEACH__POINTS };
enum { SCATTERS = 3, SHELLS = 12 };
#define SQUARE ((size_t)POINTS * POINTS)
#define CELLS (SQUARE * POINTS)
#define SPREAD 0.3    /* of ln h: two shops in three within a third */
#define WIDTH 3       /* of the grid, in spreads to either side */
#define PROBE_K 0.5   /* thermometers (docs/models/learn.md) */
#define OUTSIDE_K 1.5 /* a core warmer or colder than all around it by this */
#define LEAST_C (-3)  /* air for which there is a life */
#define MOST_C 50

/* The trade's coefficients (docs/models/cooling.md). */
static const double usual_h[STATES] = {12, 8, 3};
/* K, from ball to ball of one stack, and how likely. */
static const double scatter_k[SCATTERS] = {0.3, 0.8, 1.6};
static const double scatter_share[SCATTERS] = {0.3, 0.4, 0.3};

/* Core of one reading at the nodes of the states its stack went through. */
typedef struct surface {
    int nodes[STATES];
    double core[NODES * NODES * NODES];
} surface;

typedef struct lesson {
    const dw_teach_stack_ask *ask;
    dw_arena *arena;
    dw_teach__axis axis[STATES];
    surface *of;    /* each reading's */
    double *logs;   /* [scatter][open][offset][closed] */
    double *shares; /* the same, as shares */
    double weights[POINTS][NODES];
    double best[STATES]; /* in [-1, 1]: the posterior mean of ln h */
    dw_teach_mark *marks;
} lesson;

static void set_axes(lesson *l)
{
    const dw_teach_stack_ask *ask = l->ask;
    const bool has[STATES] = {ask->has_open_usual_w_per_m2_k,
                              ask->has_offset_usual_w_per_m2_k,
                              ask->has_closed_usual_w_per_m2_k};
    const double own[STATES] = {ask->open_usual_w_per_m2_k,
                                ask->offset_usual_w_per_m2_k,
                                ask->closed_usual_w_per_m2_k};
    for (int i = 0; i < STATES; i++) {
        double at = log(has[i] ? own[i] : usual_h[i]), half = WIDTH * SPREAD;
        l->axis[i] = (dw_teach__axis){at - half, at + half, at, SPREAD, true};
    }
    for (int i = 0; i < POINTS; i++)
        dw_teach__weights(NODES, 2.0 * i / (POINTS - 1) - 1, l->weights[i]);
}

static dw_teach_why doubt_probe(const dw_teach_probe *probe)
{
    double low = probe->dough_c, high = low;
    dw_teach_why why = dw_teach__temp(probe->dough_c, 0, MOST_C);
    for (size_t i = 0; i < probe->legs_count && why == DW_TEACH_FINE; i++) {
        double air = probe->legs[i].air_c;
        why = dw_teach__temp(air, LEAST_C, MOST_C);
        low = fmin(low, air);
        high = fmax(high, air);
    }
    if (why != DW_TEACH_FINE)
        return why;
    return dw_teach__temp(probe->core_c, low - OUTSIDE_K, high + OUTSIDE_K);
}

static double node_h(const lesson *l, int state, int nodes, int node)
{
    const dw_teach__axis *axis = &l->axis[state];
    double half = 0.5 * (axis->high - axis->low);
    return exp(axis->low + half * (1 + dw_teach__node(nodes, node)));
}

/* The core at the end of a probe's legs with these coefficients. */
static dw_status core_at(const lesson *l, const dw_teach_probe *probe,
                         dw_leg *legs, const double h[STATES], double *core_c,
                         dw_err *err)
{
    dw_life_request life;
    dw_life_reply reply;
    dw_shape_preset(&dw_life_request_shape, &life);
    life.formula = probe->has_formula ? probe->formula : l->ask->formula;
    life.piece_g = probe->piece_g;
    life.has_dough_c = true;
    life.dough_c = probe->dough_c;
    life.legs = legs;
    life.legs_count = probe->legs_count;
    life.members = 0;
    life.shells = SHELLS;
    life.model.age_end = 0; /* nobody asks what comes after the reading */
    life.report_every_h = 0;
    for (size_t i = 0; i < probe->legs_count; i++) {
        const dw_teach_leg *leg = &probe->legs[i];
        legs[i] = (dw_leg){leg->hours, leg->air_c, h[leg->state]};
        life.report_every_h += leg->hours;
    }
    size_t used = l->arena->used;
    DW_TRY(dw_life_run(&life, l->arena, &reply, err));
    *core_c = reply.core_c[reply.core_c_count - 1];
    l->arena->used = used;
    return DW_OK;
}

static dw_status fill_surface(lesson *l, size_t reading, dw_err *err)
{
    const dw_teach_probe *probe = &l->ask->readings[reading];
    surface *of = &l->of[reading];
    for (int i = 0; i < STATES; i++)
        of->nodes[i] = 1;
    for (size_t i = 0; i < probe->legs_count; i++)
        of->nodes[probe->legs[i].state] = NODES;
    dw_leg *legs = DW_NEW_ARRAY(l->arena, dw_leg, probe->legs_count);
    if (!legs)
        return dw_fail(err, DW_E_ROOM, "readings", NULL);
    int all = of->nodes[0] * of->nodes[1] * of->nodes[2];
    for (int i = 0; i < all; i++) {
        int rest = i;
        double h[STATES];
        for (int k = STATES; k-- > 0; rest /= of->nodes[k])
            h[k] = node_h(l, k, of->nodes[k], rest % of->nodes[k]);
        DW_TRY(core_at(l, probe, legs, h, &of->core[i], err));
    }
    return DW_OK;
}

/* `count` values for each of `nodes` to one set of them. */
static void contract(const double *in, int nodes, int count,
                     const double *weights, double *out)
{
    for (int c = 0; c < count; c++)
        out[c] = nodes == 1 ? in[c] : 0;
    for (int i = 0; i < nodes && nodes > 1; i++)
        for (int c = 0; c < count; c++)
            out[c] += weights[i] * in[i * count + c];
}

static void add_likelihood(lesson *l, size_t reading)
{
    const surface *of = &l->of[reading];
    double core = l->ask->readings[reading].core_c;
    double plane[NODES * NODES] = {0}, line[NODES] = {0}, value = 0;
    for (size_t cell = 0; cell < CELLS; cell++) {
        size_t a = cell / SQUARE, b = cell / POINTS % POINTS;
        size_t c = cell % POINTS;
        if (cell % SQUARE == 0)
            contract(of->core, of->nodes[0], of->nodes[1] * of->nodes[2],
                     l->weights[a], plane);
        if (c == 0)
            contract(plane, of->nodes[1], of->nodes[2], l->weights[b], line);
        contract(line, of->nodes[2], 1, l->weights[c], &value);
        for (int k = 0; k < SCATTERS; k++)
            l->logs[(size_t)k * CELLS + cell] +=
                dw_teach__log_t(core - value, hypot(PROBE_K, scatter_k[k]));
    }
}

static void start_grid(lesson *l)
{
    for (size_t i = 0; i < SCATTERS * CELLS; i++) {
        size_t cell = i % CELLS;
        const size_t at[STATES] = {cell / SQUARE, cell / POINTS % POINTS,
                                   cell % POINTS};
        double sum = log(scatter_share[i / CELLS]);
        for (int k = 0; k < STATES; k++) {
            const dw_teach__axis *axis = &l->axis[k];
            double z = (dw_teach__at(axis, (int)at[k]) - axis->prior_mean) /
                       axis->prior_sd;
            sum -= 0.5 * z * z;
        }
        l->logs[i] = sum;
    }
}

static void believe(lesson *l, dw_belief *belief[STATES])
{
    double shares[STATES][POINTS] = {{0}};
    memcpy(l->shares, l->logs, SCATTERS * CELLS * sizeof *l->logs);
    dw_teach__to_shares(l->shares, SCATTERS * CELLS);
    for (size_t i = 0; i < SCATTERS * CELLS; i++) {
        size_t cell = i % CELLS;
        shares[0][cell / SQUARE] += l->shares[i];
        shares[1][cell / POINTS % POINTS] += l->shares[i];
        shares[2][cell % POINTS] += l->shares[i];
    }
    for (int k = 0; k < STATES; k++) {
        dw_teach__believe(&l->axis[k], shares[k], belief[k]);
        l->best[k] = -1;
        for (int i = 0; i < POINTS; i++)
            l->best[k] += 2 * shares[k][i] * i / (POINTS - 1);
    }
}

static void mark_doubted(lesson *l, size_t reading)
{
    const surface *of = &l->of[reading];
    dw_teach_mark *mark = &l->marks[reading];
    double plane[NODES * NODES] = {0}, line[NODES] = {0}, weights[NODES];
    dw_teach__weights(NODES, l->best[0], weights);
    contract(of->core, of->nodes[0], of->nodes[1] * of->nodes[2], weights,
             plane);
    dw_teach__weights(NODES, l->best[1], weights);
    contract(plane, of->nodes[1], of->nodes[2], weights, line);
    dw_teach__weights(NODES, l->best[2], weights);
    mark->has_expected = true;
    contract(line, of->nodes[2], 1, weights, &mark->expected);
    double gap = l->ask->readings[reading].core_c - mark->expected;
    if (dw_teach__unlike(gap, hypot(PROBE_K, scatter_k[1]))) {
        mark->use = DW_TEACH_DOUBTED;
        mark->why = DW_TEACH_UNLIKE;
    }
}

static dw_teach_mark first_mark(const dw_teach_probe *probe, size_t index)
{
    dw_teach_mark mark = {.index = (int64_t)index};
    if (probe->left_out) {
        mark.use = DW_TEACH_LEFT_OUT;
        return mark;
    }
    mark.why = (int)doubt_probe(probe);
    mark.use = mark.why == DW_TEACH_FINE ? DW_TEACH_USED : DW_TEACH_REFUSED;
    return mark;
}

static bool take_lesson(lesson *l)
{
    size_t count = l->ask->readings_count;
    l->of = DW_NEW_ARRAY(l->arena, surface, count);
    l->marks = DW_NEW_ARRAY(l->arena, dw_teach_mark, count);
    l->logs = DW_NEW_ARRAY(l->arena, double, SCATTERS *CELLS);
    l->shares = DW_NEW_ARRAY(l->arena, double, SCATTERS *CELLS);
    return l->of && l->marks && l->logs && l->shares;
}

/* Reading by reading, so that what was known before the newest is seen. */
static dw_status take_readings(lesson *l, dw_belief *before[STATES],
                               dw_belief *after[STATES], dw_err *err)
{
    start_grid(l);
    believe(l, before);
    believe(l, after);
    size_t count = l->ask->readings_count, newest = count;
    for (size_t i = 0; i < count; i++) {
        l->marks[i] = first_mark(&l->ask->readings[i], i);
        if (l->marks[i].use != DW_TEACH_USED)
            continue;
        newest = i;
        if (fill_surface(l, i, err) != DW_OK)
            return dw_err_within_item(err, "readings", i);
    }
    for (size_t i = 0; i < count; i++) {
        if (i == newest)
            believe(l, before);
        if (l->marks[i].use == DW_TEACH_USED)
            add_likelihood(l, i);
    }
    believe(l, after);
    return DW_OK;
}

dw_status dw_teach_stack_run(const dw_teach_stack_ask *ask, dw_arena *arena,
                             dw_teach_stack *reply, dw_err *err)
{
    dw_teach_stack answer = {.marks_count = ask->readings_count};
    lesson *l = DW_NEW(arena, lesson);
    if (!l)
        return dw_fail(err, DW_E_ROOM, "readings", NULL);
    *l = (lesson){.ask = ask, .arena = arena};
    set_axes(l);
    if (!take_lesson(l))
        return dw_fail(err, DW_E_ROOM, "readings", NULL);
    dw_lesson *lessons[STATES] = {&answer.open_w_per_m2_k,
                                  &answer.offset_w_per_m2_k,
                                  &answer.closed_w_per_m2_k};
    dw_belief *before[STATES], *after[STATES];
    for (int i = 0; i < STATES; i++) {
        double shares[POINTS];
        dw_teach__prior(&l->axis[i], shares);
        dw_teach__believe(&l->axis[i], shares, &lessons[i]->prior);
        before[i] = &lessons[i]->before;
        after[i] = &lessons[i]->after;
    }
    DW_TRY(take_readings(l, before, after, err));
    for (size_t i = 0; i < ask->readings_count; i++) {
        if (l->marks[i].use == DW_TEACH_USED)
            mark_doubted(l, i);
        dw_teach__count(&answer.counts, &l->marks[i]);
    }
    answer.marks = l->marks;
    *reply = answer;
    return DW_OK;
}
