/* Yeast from marked cups and verdicts: how strong, and how it works in the
 * cold. */
#include "engine/teach_grid.h"

#include "engine/life_walk.h"
#include "engine/normal.h"

#include <math.h>
#include <string.h>

enum { POINTS = DW_TEACH__POINTS, CELLS = POINTS * POINTS };
enum {
    STRENGTHS = 7,
    COLDS = 5,
    NODES = STRENGTHS * COLDS,
    MEMBERS = NODES + 1
};
enum { BATCHES = 5, SHELLS = 12 };
#define STRENGTH_SPREAD 0.18 /* of ln activity, between shops and lots */
#define BATCH_SPREAD 0.06    /* from batch to batch: scales, warmth, mixing */
#define COLD_C (-1.0)
#define COLD_SD 0.6
#define COLD_WIDTH 1.8 /* of the grid, to either side */
#define NO_YEAST 0.02  /* of batches (our choice) */
#define DEAD 0.01      /* activity of yeast that was forgotten or is dead */
#define RULER 0.04     /* of a volume ratio, one standard deviation */
#define JUDGE 0.25     /* of ln gas: who judges, and of which ball */
#define LEAST_RATIO 0.7
#define MOST_RATIO 8.0
#define COLD_AT_C 4

/* Nodes and weights for a normal spread (Gauss and Hermite, five). */
static const double batch_at[BATCHES] = {-2.856970013872806, -1.355626179974266,
                                         0, 1.355626179974266,
                                         2.856970013872806};
static const double batch_share[BATCHES] = {
    0.011257411327721, 0.222075922005613, 0.533333333333333, 0.222075922005613,
    0.011257411327721};

/* How often dough that is tight, in its window or past it is called what
 * (practice, no source; each row sums to 1). */
enum { UNDER, WITHIN, BEYOND, RIPENESSES, VERDICTS = 5 };
static const double called[RIPENESSES][VERDICTS] = {
    /* good tight bubbles sticky blown */
    {0.15, 0.70, 0.10, 0.03, 0.02},
    {0.85, 0.05, 0.04, 0.04, 0.02},
    {0.10, 0.03, 0.17, 0.30, 0.40},
};

const char *const dw_teach_verdict_words[] = {"good",   "tight", "bubbles",
                                              "sticky", "blown", NULL};

/* ln of gas and of the volume ratio at the nodes, and without yeast last. */
typedef struct surface {
    double gas[MEMBERS], ratio[MEMBERS];
} surface;

/* Weights of the nodes at one strength and cold rate. */
typedef struct point {
    double strength[STRENGTHS], cold[COLDS];
} point;

typedef struct lesson {
    const dw_teach_yeast_ask *ask;
    dw_arena *arena;
    dw_teach__axis strength, cold;
    dw_ferment_model usual;
    double logs[CELLS], shares[CELLS]; /* [strength][cold] */
    double best_strength, best_cold;   /* means, on the axes */
    surface **cups;                    /* [cup][reading] */
    double **dead;     /* [cup][cell]: share of no yeast in the likelihood */
    surface *verdicts; /* of each */
} lesson;

static void set_up(lesson *l)
{
    double half = 3.2 * STRENGTH_SPREAD;
    l->strength = (dw_teach__axis){-half, half, 0, STRENGTH_SPREAD, true};
    l->cold = (dw_teach__axis){COLD_C - COLD_WIDTH, COLD_C + COLD_WIDTH, COLD_C,
                               COLD_SD, false};
    dw_ferment_model_preset(&l->usual);
    l->usual.age_end = 0; /* nobody asks what comes after the reading */
    for (int i = 0; i < CELLS; i++) {
        double a = dw_teach__at(&l->strength, i / POINTS) / STRENGTH_SPREAD;
        double c = (dw_teach__at(&l->cold, i % POINTS) - COLD_C) / COLD_SD;
        l->logs[i] = -0.5 * (a * a + c * c);
    }
}

static double on_axis(const dw_teach__axis *axis, double node)
{
    return axis->low + 0.5 * (axis->high - axis->low) * (1 + node);
}

static double of_axis(const dw_teach__axis *axis, double x)
{
    return 2 * (x - axis->low) / (axis->high - axis->low) - 1;
}

static void set_members(const lesson *l, dw_ferment_model members[MEMBERS])
{
    for (int i = 0; i < MEMBERS; i++)
        members[i] = l->usual;
    for (int i = 0; i < NODES; i++) {
        double a = dw_teach__node(STRENGTHS, i / COLDS);
        double c = dw_teach__node(COLDS, i % COLDS);
        members[i].q30 *= exp(on_axis(&l->strength, a));
        members[i].f_Tmin = on_axis(&l->cold, c);
    }
    members[NODES].q30 *= DEAD;
}

/* What a life comes to at the end of its legs, for every node. */
static dw_status lives(const lesson *l, dw_life_request *life, surface *of,
                       dw_err *err)
{
    dw_ferment_model members[MEMBERS];
    set_members(l, members);
    life->members = MEMBERS;
    life->elevation_m = l->ask->elevation_m;
    life->model = l->usual;
    life->report_every_h = dw_life__legs_h(life);
    size_t used = l->arena->used;
    DW_TRY(
        dw_life__run_given(life, members, l->arena, of->gas, of->ratio, err));
    l->arena->used = used;
    for (int i = 0; i < MEMBERS; i++) {
        of->gas[i] = log(fmax(of->gas[i], 1e-3));
        of->ratio[i] = log(fmax(of->ratio[i], 1e-3));
    }
    return DW_OK;
}

static void place(const lesson *l, double strength, double cold, point *at)
{
    double x = of_axis(&l->strength, strength);
    dw_teach__weights(STRENGTHS, fmin(fmax(x, -1), 1), at->strength);
    dw_teach__weights(COLDS, of_axis(&l->cold, cold), at->cold);
}

static double look(const double nodes[MEMBERS], const point *at)
{
    double sum = 0;
    for (int a = 0; a < STRENGTHS; a++)
        for (int c = 0; c < COLDS; c++)
            sum += at->strength[a] * at->cold[c] * nodes[a * COLDS + c];
    return sum;
}

/* The legs up to at_h: how many, the last of them cut. */
static size_t cut_legs(const dw_teach_cup *cup, double at_h, dw_leg *legs)
{
    size_t count = 0;
    for (double left = at_h; left > 1e-9 && count < cup->legs_count; count++) {
        const dw_teach_cup_leg *leg = &cup->legs[count];
        legs[count] = (dw_leg){fmin(left, leg->hours), leg->temp_c, 8};
        left -= leg->hours;
    }
    return count;
}

static dw_status live_cup(lesson *l, size_t index, dw_err *err)
{
    const dw_teach_cup *cup = &l->ask->cups[index];
    dw_leg *legs = DW_NEW_ARRAY(l->arena, dw_leg, cup->legs_count);
    l->cups[index] = DW_NEW_ARRAY(l->arena, surface, cup->readings_count);
    l->dead[index] = DW_NEW_ARRAY(l->arena, double, CELLS);
    if (!legs || !l->cups[index] || !l->dead[index])
        return dw_fail(err, DW_E_ROOM, "cups", NULL);
    for (size_t i = 0; i < cup->readings_count; i++) {
        dw_life_request life;
        dw_shape_preset(&dw_life_request_shape, &life);
        life.formula = cup->formula;
        life.piece_g = 30; /* no matter: it has its surroundings' warmth */
        life.hold_temperature = true;
        life.legs = legs;
        life.legs_count = cut_legs(cup, cup->readings[i].at_h, legs);
        if (life.legs_count == 0) /* refused: nothing lies before it */
            continue;
        DW_TRY(lives(l, &life, &l->cups[index][i], err));
    }
    return DW_OK;
}

static dw_status live_verdict(lesson *l, size_t index, dw_err *err)
{
    const dw_teach_taste *taste = &l->ask->verdicts[index];
    dw_life_request life;
    dw_shape_preset(&dw_life_request_shape, &life);
    life.formula = taste->formula;
    life.piece_g = taste->piece_g;
    life.has_dough_c = true;
    life.dough_c = taste->dough_c;
    life.legs = taste->legs;
    life.legs_count = taste->legs_count;
    life.shells = SHELLS;
    return lives(l, &life, &l->verdicts[index], err);
}

static dw_teach_why doubt_cup(const dw_teach_cup *cup)
{
    dw_teach_why why = DW_TEACH_FINE;
    for (size_t i = 0; i < cup->legs_count && why == DW_TEACH_FINE; i++)
        why = dw_teach__temp(cup->legs[i].temp_c, -3, 50);
    return why;
}

/* What is told of each reading of a cup; how many count. */
static size_t sift_cup(const dw_teach_cup *cup, dw_teach_mark *marks)
{
    double hours = 0, before = 0;
    size_t good = 0;
    dw_teach_why cup_why = doubt_cup(cup);
    for (size_t i = 0; i < cup->legs_count; i++)
        hours += cup->legs[i].hours;
    for (size_t i = 0; i < cup->readings_count; i++) {
        const dw_teach_cup_reading *r = &cup->readings[i];
        bool possible = r->at_h <= hours * (1 + 1e-9) &&
                        r->volume_ratio >= LEAST_RATIO &&
                        r->volume_ratio <= MOST_RATIO;
        marks[i] = (dw_teach_mark){.index = (int64_t)i, .why = (int)cup_why};
        if (cup_why == DW_TEACH_FINE && !(r->at_h > before))
            marks[i].why = DW_TEACH_BACKWARDS;
        else if (cup_why == DW_TEACH_FINE && !possible)
            marks[i].why = DW_TEACH_IMPOSSIBLE;
        if (marks[i].why != DW_TEACH_FINE)
            marks[i].use = DW_TEACH_REFUSED;
        else
            before = r->at_h;
        if (r->left_out)
            marks[i] =
                (dw_teach_mark){.index = (int64_t)i, .use = DW_TEACH_LEFT_OUT};
        good += marks[i].use == DW_TEACH_USED;
    }
    return good;
}

/* ln of the density of a cup's readings that count. */
static double cup_log(const lesson *l, size_t index, const dw_teach_mark *marks,
                      const point *at)
{
    const dw_teach_cup *cup = &l->ask->cups[index];
    double sum = 0;
    for (size_t i = 0; i < cup->readings_count; i++) {
        if (marks[i].use != DW_TEACH_USED)
            continue;
        double want = look(l->cups[index][i].ratio, at);
        sum +=
            dw_teach__log_t(log(cup->readings[i].volume_ratio) - want, RULER);
    }
    return sum;
}

static double dead_log(const lesson *l, size_t index,
                       const dw_teach_mark *marks)
{
    const dw_teach_cup *cup = &l->ask->cups[index];
    double sum = 0;
    for (size_t i = 0; i < cup->readings_count; i++)
        if (marks[i].use == DW_TEACH_USED)
            sum += dw_teach__log_t(log(cup->readings[i].volume_ratio) -
                                       l->cups[index][i].ratio[NODES],
                                   RULER);
    return sum;
}

static void add_cup(lesson *l, size_t index, const dw_teach_mark *marks)
{
    double dead = NO_YEAST * exp(dead_log(l, index, marks));
    for (int i = 0; i < CELLS; i++) {
        double strength = dw_teach__at(&l->strength, i / POINTS);
        double cold = dw_teach__at(&l->cold, i % POINTS), sound = 0;
        for (int k = 0; k < BATCHES; k++) {
            point at;
            place(l, strength + batch_at[k] * BATCH_SPREAD, cold, &at);
            sound += batch_share[k] * exp(cup_log(l, index, marks, &at));
        }
        double all = (1 - NO_YEAST) * sound + dead;
        l->dead[index][i] = dead / all;
        l->logs[i] += log(all);
    }
}

static double verdict_share(const lesson *l, int verdict, double log_gas)
{
    double under = dw_normal_below((log(l->usual.gas_ready) - log_gas) / JUDGE);
    double beyond = dw_normal_below((log_gas - log(l->usual.gas_end)) / JUDGE);
    double within = fmax(0, 1 - under - beyond);
    return under * called[UNDER][verdict] + within * called[WITHIN][verdict] +
           beyond * called[BEYOND][verdict];
}

static void add_verdict(lesson *l, size_t index)
{
    for (int i = 0; i < CELLS; i++) {
        point at;
        place(l, dw_teach__at(&l->strength, i / POINTS),
              dw_teach__at(&l->cold, i % POINTS), &at);
        double log_gas = look(l->verdicts[index].gas, &at);
        int verdict = l->ask->verdicts[index].verdict;
        l->logs[i] += log(verdict_share(l, verdict, log_gas));
    }
}

/* Gas rate at 4 degC against the usual: activity times the curve's height. */
static void believe_cold(const lesson *l, dw_belief *belief)
{
    double mean = 0, square = 0, usual, share_below[POINTS] = {0};
    dw_teach__axis axis = {log(0.2), log(5), 0, 1, true};
    dw_ferment_model model = l->usual;
    usual = dw_ferment_gas_factor(&model, COLD_AT_C);
    for (int i = 0; i < CELLS; i++) {
        model.f_Tmin = dw_teach__at(&l->cold, i % POINTS);
        double ratio = exp(dw_teach__at(&l->strength, i / POINTS)) *
                       dw_ferment_gas_factor(&model, COLD_AT_C) / usual;
        mean += l->shares[i] * ratio;
        square += l->shares[i] * ratio * ratio;
        double x = (log(ratio) - axis.low) / (axis.high - axis.low);
        int at = (int)(fmin(fmax(x, 0), 1) * (POINTS - 1) + 0.5);
        share_below[at] += l->shares[i];
    }
    dw_teach__believe(&axis, share_below, belief);
    belief->mean = mean;
    belief->sd = sqrt(fmax(0, square - mean * mean));
}

static void believe(lesson *l, dw_belief *strength, dw_belief *cold)
{
    double a[POINTS] = {0}, c[POINTS] = {0};
    memcpy(l->shares, l->logs, sizeof l->logs);
    dw_teach__to_shares(l->shares, CELLS);
    l->best_strength = l->best_cold = 0;
    for (int i = 0; i < CELLS; i++) {
        a[i / POINTS] += l->shares[i];
        c[i % POINTS] += l->shares[i];
        l->best_strength +=
            l->shares[i] * dw_teach__at(&l->strength, i / POINTS);
        l->best_cold += l->shares[i] * dw_teach__at(&l->cold, i % POINTS);
    }
    dw_teach__believe(&l->strength, a, strength);
    dw_teach__believe(&l->cold, c, cold);
}

/* After everything was taken: what the lesson makes of each cup. */
static void tell_cup(const lesson *l, size_t index, dw_teach_cup_found *found,
                     dw_teach_counts *counts)
{
    const dw_teach_cup *cup = &l->ask->cups[index];
    point best;
    place(l, l->best_strength, l->best_cold, &best);
    for (int i = 0; l->cups[index] && i < CELLS; i++)
        found->no_yeast_probability += l->shares[i] * l->dead[index][i];
    if (!l->cups[index])
        found->no_yeast_probability = NO_YEAST;
    for (size_t i = 0; i < cup->readings_count; i++) {
        dw_teach_mark *mark = &found->marks[i];
        if (l->cups[index] && mark->use == DW_TEACH_USED) {
            double want = look(l->cups[index][i].ratio, &best);
            double gap = log(cup->readings[i].volume_ratio) - want;
            mark->has_expected = true;
            mark->expected = exp(want);
            if (dw_teach__unlike(gap, hypot(RULER, BATCH_SPREAD))) {
                mark->use = DW_TEACH_DOUBTED;
                mark->why = DW_TEACH_UNLIKE;
            }
        }
        dw_teach__count(counts, mark);
    }
}

static void tell_verdict(const lesson *l, size_t index, dw_teach_mark *mark,
                         dw_teach_counts *counts)
{
    int verdict = l->ask->verdicts[index].verdict;
    point best;
    place(l, l->best_strength, l->best_cold, &best);
    if (mark->use == DW_TEACH_USED) {
        double log_gas = look(l->verdicts[index].gas, &best);
        mark->has_expected = true;
        mark->expected = exp(log_gas);
        if (verdict_share(l, verdict, log_gas) < 0.05) {
            mark->use = DW_TEACH_DOUBTED;
            mark->why = DW_TEACH_UNLIKE;
        }
    }
    dw_teach__count(counts, mark);
}

static dw_teach_mark first_mark(const dw_teach_taste *taste, size_t index)
{
    dw_teach_mark mark = {.index = (int64_t)index};
    if (taste->left_out) {
        mark.use = DW_TEACH_LEFT_OUT;
        return mark;
    }
    mark.why = (int)dw_teach__temp(taste->dough_c, 0, 50);
    for (size_t i = 0; i < taste->legs_count && mark.why == DW_TEACH_FINE; i++)
        mark.why = (int)dw_teach__temp(taste->legs[i].air_c, -3, 50);
    mark.use = mark.why == DW_TEACH_FINE ? DW_TEACH_USED : DW_TEACH_REFUSED;
    return mark;
}

/* Sift and live through everything; the newest that counts is told as an index
 * into cups and then verdicts. */
static dw_status prepare(lesson *l, dw_teach_yeast *reply, size_t *newest,
                         dw_err *err)
{
    const dw_teach_yeast_ask *ask = l->ask;
    for (size_t i = 0; i < ask->cups_count; i++) {
        dw_teach_cup_found *found = &reply->cups[i];
        found->marks_count = ask->cups[i].readings_count;
        found->marks =
            DW_NEW_ARRAY(l->arena, dw_teach_mark, found->marks_count);
        if (!found->marks)
            return dw_fail(err, DW_E_ROOM, "cups", NULL);
        if (sift_cup(&ask->cups[i], found->marks) == 0)
            continue;
        *newest = i;
        if (live_cup(l, i, err) != DW_OK)
            return dw_err_within_item(err, "cups", i);
    }
    for (size_t i = 0; i < ask->verdicts_count; i++) {
        reply->verdicts[i] = first_mark(&ask->verdicts[i], i);
        if (reply->verdicts[i].use != DW_TEACH_USED)
            continue;
        *newest = ask->cups_count + i;
        if (live_verdict(l, i, err) != DW_OK)
            return dw_err_within_item(err, "verdicts", i);
    }
    return DW_OK;
}

static void take_all(lesson *l, dw_teach_yeast *reply, size_t newest)
{
    dw_lesson *a = &reply->activity, *c = &reply->f_Tmin;
    believe(l, &a->prior, &c->prior);
    a->before = a->prior;
    c->before = c->prior;
    for (size_t i = 0; i < reply->cups_count + reply->verdicts_count; i++) {
        if (i == newest)
            believe(l, &a->before, &c->before);
        size_t verdict = i - reply->cups_count;
        if (i < reply->cups_count && l->cups[i])
            add_cup(l, i, reply->cups[i].marks);
        else if (i >= reply->cups_count &&
                 reply->verdicts[verdict].use == DW_TEACH_USED)
            add_verdict(l, verdict);
    }
    believe(l, &a->after, &c->after);
    believe_cold(l, &reply->cold_ratio);
}

dw_status dw_teach_yeast_run(const dw_teach_yeast_ask *ask, dw_arena *arena,
                             dw_teach_yeast *reply, dw_err *err)
{
    dw_teach_yeast answer = {.cups_count = ask->cups_count,
                             .verdicts_count = ask->verdicts_count};
    size_t newest = SIZE_MAX;
    lesson *l = DW_NEW(arena, lesson);
    answer.cups = DW_NEW_ARRAY(arena, dw_teach_cup_found, ask->cups_count);
    answer.verdicts = DW_NEW_ARRAY(arena, dw_teach_mark, ask->verdicts_count);
    if (!l || !answer.cups || !answer.verdicts)
        return dw_fail(err, DW_E_ROOM, "cups", NULL);
    *l = (lesson){.ask = ask, .arena = arena};
    set_up(l);
    l->cups = DW_NEW_ARRAY(arena, surface *, ask->cups_count);
    l->dead = DW_NEW_ARRAY(arena, double *, ask->cups_count);
    l->verdicts = DW_NEW_ARRAY(arena, surface, ask->verdicts_count);
    if (!l->cups || !l->dead || !l->verdicts)
        return dw_fail(err, DW_E_ROOM, "cups", NULL);
    DW_TRY(prepare(l, &answer, &newest, err));
    take_all(l, &answer, newest);
    for (size_t i = 0; i < ask->cups_count; i++)
        tell_cup(l, i, &answer.cups[i], &answer.counts);
    for (size_t i = 0; i < ask->verdicts_count; i++)
        tell_verdict(l, i, &answer.verdicts[i], &answer.counts);
    *reply = answer;
    return DW_OK;
}
