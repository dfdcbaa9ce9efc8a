#include "engine/life_walk.h"

#include <math.h>

/* How far one step may go: tables of docs/models/life.md. */
#define FASTEST 0.1  /* of the fastest reaction's own time */
#define WARMED_K 0.4 /* any shell */
#define LONGEST_H 1.0
#define GROWTH 1.3 /* over the step before */
#define JUMP_K 1.0 /* the skin, in the first step after a jump outside */
#define PI 3.14159265358979323846
#define FIRST_H 0.02
#define SAME_H 1e-9 /* moments closer than this are one */

typedef struct dw_life__walk {
    const dw_life_request *request;
    const dw_life__kernel *kernel;
    const double *loss_ball;
    const dw_life__rows *rows;
    dw_life__watch *watch; /* NULL: nobody does */
    dw_life__keep *keep;   /* NULL: nobody does */
    dw_life__block *block;
    double legs_h;
    size_t row_count;
    dw_life__place now;
} dw_life__walk;

double dw_life__legs_h(const dw_life_request *request)
{
    double sum = 0;
    for (size_t i = 0; i < request->legs_count; i++)
        sum += request->legs[i].hours;
    return sum;
}

/* Whole report intervals within the legs, then the end unless the last of them
 * is the end. */
size_t dw_life__row_count(const dw_life_request *request)
{
    double legs = dw_life__legs_h(request);
    size_t whole = (size_t)(legs / request->report_every_h + 1e-9);
    double rest = legs - (double)whole * request->report_every_h;
    return whole + 1 + (rest > 1e-9 * legs);
}

static double row_time(const dw_life__walk *w, size_t row)
{
    double time = (double)row * w->request->report_every_h;
    return time < w->legs_h ? time : w->legs_h;
}

const dw_leg *dw_life__leg_at(const dw_life_request *request, double time_h)
{
    double end = 0;
    for (size_t i = 0; i + 1 < request->legs_count; i++) {
        end += request->legs[i].hours;
        if (time_h < end)
            return &request->legs[i];
    }
    return &request->legs[request->legs_count - 1];
}

static dw_life__outside outside(const dw_life__walk *w)
{
    const dw_leg *leg = &w->request->legs[w->now.leg];
    return (dw_life__outside){leg->air_c, leg->h_w_per_m2_k};
}

/* Change of the heat flux through the surface, W/m2. */
static double flux_jump(const dw_life__walk *w, const dw_leg *from)
{
    const dw_leg *to = &w->request->legs[w->now.leg];
    double skin = w->now.pace.rind_c;
    double before = from ? from->h_w_per_m2_k * (skin - from->air_c) : 0;
    double after = to->h_w_per_m2_k * (skin - to->air_c);
    return fabs(after - before);
}

/* Time in which a flux q moves the surface of a thick body by JUMP_K:
 * 2 q sqrt(alpha t / pi) / k (Carslaw & Jaeger, Conduction of Heat in Solids).
 */
static double jump_time_h(const dw_life__walk *w, double flux)
{
    const dw_life__block *b = w->block;
    double r = b->radius_m, k = b->k_w_per_m_k;
    double per_volume = b->heat_capacity_j_per_k / (4.0 / 3 * PI * r * r * r);
    double depth = JUMP_K * k / (2 * flux);
    return PI * depth * depth * per_volume / k / 3600;
}

static double least(double a, double b)
{
    return a < b ? a : b;
}

static void enter_leg(dw_life__walk *w, const dw_leg *from)
{
    const dw_leg *to = &w->request->legs[w->now.leg];
    w->now.leg_end_h += to->hours;
    w->now.was_cold = w->now.was_cold || to->air_c < DW_LIFE_COLD_C;
    bool other_air = !from || from->air_c != to->air_c;
    if (!from || (w->request->hold_temperature && other_air))
        w->now.free_h = w->request->step_scale * FIRST_H / GROWTH;
    if (w->request->hold_temperature)
        return;
    double flux = flux_jump(w, from);
    if (flux <= 0)
        return;
    double first = w->request->step_scale * jump_time_h(w, flux);
    w->now.free_h = least(w->now.free_h, first / GROWTH);
}

/* The next moment that a step must not cross. */
static double next_stop(const dw_life__walk *w)
{
    double stop = DW_LIFE_LONGEST_H;
    if (w->now.leg + 1 < w->request->legs_count ||
        w->now.time_h < w->legs_h - SAME_H)
        stop = least(stop, w->now.leg_end_h);
    if (w->now.event < w->request->events_count)
        stop = least(stop, w->request->events[w->now.event].at_h);
    if (w->now.row < w->row_count)
        stop = least(stop, row_time(w, w->now.row));
    return stop;
}

static double choose_step(dw_life__walk *w, double left_h)
{
    double fastest = w->now.pace.fastest, warmed = w->now.pace.warmed;
    double scale = w->request->step_scale;
    double step = least(w->now.free_h * GROWTH, LONGEST_H * scale);
    if (fastest > 0)
        step = least(step, scale * FASTEST / fastest);
    if (warmed > 0)
        step = least(step, scale * w->now.step_h * WARMED_K / warmed);
    w->now.free_h = step;
    if (step >= left_h)
        return left_h;
    return step > 0.5 * left_h ? 0.5 * left_h : step;
}

/* When something that went from `before` to `after` in the last step passed
 * `level`, if it did. `bend` is what half the square of the step adds to the
 * straight line: a parabola through the last steps' rates. */
static void pass(dw_life__walk *w, int lane, dw_life__mark mark, double before,
                 double after, double bend, double level)
{
    double *at = &w->now.moments[lane].at_h[mark];
    if (*at < INFINITY || !(after >= level))
        return;
    double part = after > before ? (level - before) / (after - before) : 0;
    part = part > 0 ? part : 0;
    double straight = part;
    for (int i = 0; i < 4 && after > before; i++)
        part = straight + bend / (after - before) * part * (1 - part);
    *at = w->now.time_h - w->now.step_h * (1 - part);
}

/* The bubbles have stopped growing: more leaks than is made. */
static void pass_leaking(dw_life__walk *w, int lane,
                         const dw_life__pace *before, double middle_before)
{
    double *at = &w->now.moments[lane].at_h[DW_LIFE__LEAKING];
    double excess = w->now.pace.leak[lane] - w->now.pace.rate[lane];
    if (*at < INFINITY || !(excess >= 0) ||
        !(w->now.pace.swelling[lane] > w->block->v_crit[lane]))
        return;
    double excess_before = before->leak[lane] - before->rate[lane];
    double part = excess_before < 0 ? excess / (excess - excess_before) : 0;
    *at = w->now.middle_h - part * (w->now.middle_h - middle_before);
}

static void pass_core(dw_life__walk *w, int lane, const dw_life__pace *before)
{
    double core = w->now.pace.core_c[lane], was = before->core_c[lane];
    double *at = &w->now.moments[lane].at_h[DW_LIFE__CORE_WARM];
    if (!w->now.was_cold || outside(w).air_c < DW_LIFE_COLD_C)
        return;
    if (was < DW_LIFE_COLD_C && core >= DW_LIFE_COLD_C) {
        *at = INFINITY;
        pass(w, lane, DW_LIFE__CORE_WARM, was, core, 0, DW_LIFE_COLD_C);
    }
}

/* The nominal core against what is watched for, in the step just taken. */
static void pass_watch(dw_life__walk *w, const dw_life__pace *before)
{
    dw_life__watch *watch = w->watch;
    if (!watch || w->now.time_h <= watch->from_h + SAME_H)
        return;
    double sign = watch->way == DW_LIFE__RISING ? 1 : -1;
    double was = sign * before->core_c[0], is = sign * w->now.pace.core_c[0];
    for (int i = 0; i < 2; i++) {
        double level = sign * watch->core_c[i];
        if (watch->at_h[i] < INFINITY || !(is >= level))
            continue;
        double part = was < level ? (level - was) / (is - was) : 0;
        watch->at_h[i] = w->now.time_h - w->now.step_h * (1 - part);
    }
}

static void pass_marks(dw_life__walk *w, const dw_life__pace *before,
                       double middle_before)
{
    const dw_ferment_model *m = &w->request->model;
    const double gas[] = {m->gas_ready, m->gas_best, m->gas_use_first,
                          m->gas_end};
    const double age[] = {m->age_ready, m->age_gas_end, m->age_end};
    double square = 0.5 * w->now.step_h * w->now.step_h * DW_ML_PER_MMOL /
                    (w->now.middle_h - middle_before);
    for (int lane = 0; lane < w->block->lives; lane++) {
        double bend = square * (w->now.pace.rate[lane] - before->rate[lane]);
        for (int i = 0; i < 4; i++)
            pass(w, lane, (dw_life__mark)(DW_LIFE__GAS_READY + i),
                 before->gas[lane] * DW_ML_PER_MMOL,
                 w->now.pace.gas[lane] * DW_ML_PER_MMOL, bend, gas[i]);
        for (int i = 0; i < 3; i++)
            pass(w, lane, (dw_life__mark)(DW_LIFE__AGE_READY + i),
                 before->age[lane], w->now.pace.age[lane], 0, age[i]);
        pass_leaking(w, lane, before, middle_before);
        pass_core(w, lane, before);
    }
}

static void take_step(dw_life__walk *w, double step_h, double stop_h)
{
    dw_life__pace before = w->now.pace;
    double middle_before = w->now.middle_h;
    dw_life__how how =
        w->request->hold_temperature ? DW_LIFE__HELD : DW_LIFE__FREE;
    dw_life__outside air = outside(w);
    w->kernel->step(w->block, step_h, &air, how, &w->now.pace);
    bool landed = step_h >= stop_h - w->now.time_h;
    w->now.middle_h = w->now.time_h + 0.5 * step_h;
    w->now.time_h = landed ? stop_h : w->now.time_h + step_h;
    w->now.step_h = step_h;
    w->now.steps++;
    pass_marks(w, &before, middle_before);
    pass_watch(w, &before);
}

static void meet_event(dw_life__walk *w)
{
    double part[DW_LIVES] = {0};
    const dw_life_event *event = &w->request->events[w->now.event++];
    for (int lane = 0; lane < w->block->lives; lane++)
        part[lane] = event->kind == DW_EVENT_PUNCH
                         ? w->request->model.punch_loss
                         : w->loss_ball[lane];
    w->kernel->release(w->block, part);
}

static void pass_gate(dw_life__walk *w)
{
    if (!w->watch || !w->watch->gate.row)
        return;
    dw_life__outside air = outside(w);
    dw_life__look look;
    w->kernel->look(w->block, &air, &look);
    w->watch->gate.row(w->watch->gate.owner, w->now.leg + 1, w->now.time_h,
                       &look);
}

/* What has to be there to go on from the end of this leg. */
static void keep_place(dw_life__walk *w)
{
    if (w->keep && w->now.leg + 1 == w->keep->legs)
        w->keep->keep(w->keep->owner, &w->now, w->block);
}

static void meet(dw_life__walk *w)
{
    if (w->now.row < w->row_count &&
        w->now.time_h >= row_time(w, w->now.row) - SAME_H) {
        dw_life__outside air = outside(w);
        dw_life__look look;
        w->kernel->look(w->block, &air, &look);
        w->rows->row(w->rows->owner, w->now.row++, w->now.time_h, &look);
    }
    while (w->now.event < w->request->events_count &&
           w->now.time_h >= w->request->events[w->now.event].at_h - SAME_H)
        meet_event(w);
    while (w->now.leg + 1 < w->request->legs_count &&
           w->now.time_h >= w->now.leg_end_h - SAME_H) {
        pass_gate(w);
        keep_place(w);
        const dw_leg *from = &w->request->legs[w->now.leg++];
        enter_leg(w, from);
    }
}

static bool over(const dw_life__walk *w)
{
    if (w->now.time_h >= DW_LIFE_LONGEST_H - SAME_H)
        return true;
    if (w->now.time_h < w->legs_h - SAME_H)
        return false;
    for (int lane = 0; lane < w->block->lives; lane++)
        if (dw_life__end_h(w->request, &w->now.moments[lane], NULL) >
            w->now.time_h)
            return false;
    return true;
}

static void start(dw_life__walk *w)
{
    const dw_life__block *block = w->block;
    memset(&w->now, 0, sizeof w->now);
    w->now.pace.rind_c = block->mixed_c;
    for (int lane = 0; lane < block->lives; lane++) {
        w->now.pace.core_c[lane] = block->mixed_c;
        for (int mark = 0; mark < DW_LIFE__MARKS; mark++)
            w->now.moments[lane].at_h[mark] = INFINITY;
    }
    enter_leg(w, NULL);
}

void dw_life__walk_through(const dw_life__path *path, dw_life__block *block,
                           dw_life__place *place)
{
    dw_life__walk w = {.request = path->request,
                       .kernel = path->kernel,
                       .loss_ball = path->loss_ball,
                       .rows = path->rows,
                       .watch = path->watch,
                       .keep = path->keep,
                       .block = block,
                       .legs_h = dw_life__legs_h(path->request),
                       .row_count = dw_life__row_count(path->request)};
    if (path->watch)
        path->watch->at_h[0] = path->watch->at_h[1] = INFINITY;
    if (path->go_on)
        w.now = *place;
    else
        start(&w);
    meet(&w);
    while (!over(&w)) {
        double stop = next_stop(&w);
        take_step(&w, choose_step(&w, stop - w.now.time_h), stop);
        meet(&w);
    }
    *place = w.now;
}
