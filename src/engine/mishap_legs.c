#include "engine/mishap_legs.h"

#include "engine/lanes.h"

#include <math.h>

#define PIECES 48    /* a drifting room is cut into, at most so many, */
#define PIECE_H 0.25 /* none shorter than this */
#define RECOVERED 4  /* time constants until a room counts as cold again */
#define SHORTEST_H (1.0 / 3600)
#define RECOVER_USUAL_H 1

/* Times from the mixer's stop. */
typedef struct drawing {
    const dw_mishap *mishap;
    const dw_mishap_stack *stack;
    double from_h, to_h; /* the mishap */
    double warm_c;       /* the room when the power came back */
    dw_leg *legs;
    size_t count, room;
} drawing;

static double recover_h(const dw_mishap *mishap)
{
    return mishap->has_recover_h ? mishap->recover_h : RECOVER_USUAL_H;
}

static double decay(double hours, double constant_h)
{
    double x = -fmin(hours / constant_h, 600);
    return dw_lanes_exp(dw_lanes_all(x))[0];
}

/* The mean over `hours` of what goes from start to end with a time constant. */
static double mean_of_drift(double start, double end, double hours,
                            double constant_h)
{
    double part = constant_h / hours * (1 - decay(hours, constant_h));
    return end + (start - end) * part;
}

/* What goes on as it was is no leg of its own: a life that nothing happens to
 * is lived in the steps it has without a question. */
static void put(drawing *d, double hours, double air_c, double h)
{
    if (hours < SHORTEST_H)
        return;
    dw_leg *last = d->count > 0 ? &d->legs[d->count - 1] : NULL;
    if (last && last->air_c == air_c && last->h_w_per_m2_k == h) {
        last->hours += hours;
        return;
    }
    DW_ASSERT(d->count < d->room);
    d->legs[d->count++] = (dw_leg){hours, air_c, h};
}

/* From a to b while the room's air goes to end_c, start_c at time zero_h. */
static void put_drift(drawing *d, double a, double b, double zero_h,
                      double start_c, double end_c, double constant_h, double h)
{
    double pieces = fmin(ceil((b - a) / PIECE_H), PIECES);
    double hours = (b - a) / pieces;
    for (int i = 0; i < (int)pieces; i++) {
        double since = a - zero_h + i * hours;
        double now_c = end_c + (start_c - end_c) * decay(since, constant_h);
        put(d, hours, mean_of_drift(now_c, end_c, hours, constant_h), h);
    }
}

/* From a to b, within the mishap, where `planned` was to be. */
static void put_mishap(drawing *d, double a, double b, const dw_leg *planned)
{
    const dw_mishap *m = d->mishap;
    double h = m->has_h_w_per_m2_k ? m->h_w_per_m2_k : planned->h_w_per_m2_k;
    bool of_room =
        m->kind == DW_MISHAP_WARM_ROOM || m->kind == DW_MISHAP_POWER_CUT;
    if (of_room && planned->air_c >= DW_LIFE_COLD_C)
        put(d, b - a, planned->air_c, planned->h_w_per_m2_k);
    else if (m->kind == DW_MISHAP_POWER_CUT)
        put_drift(d, a, b, d->from_h, d->stack->then.air_c, m->outside_c,
                  m->time_constant_h, h);
    else
        put(d, b - a, m->air_c, h);
}

/* From a to b, after the mishap: a room whose power came back recovers. */
static void put_after(drawing *d, double a, double b, const dw_leg *planned)
{
    const dw_mishap *m = d->mishap;
    double cold_h = d->to_h + RECOVERED * recover_h(m);
    double until = fmin(b, cold_h);
    if (m->kind == DW_MISHAP_POWER_CUT && planned->air_c < DW_LIFE_COLD_C &&
        a < cold_h) {
        put_drift(d, a, until, d->to_h, d->warm_c, planned->air_c, recover_h(m),
                  planned->h_w_per_m2_k);
        a = until;
    }
    put(d, b - a, planned->air_c, planned->h_w_per_m2_k);
}

/* One planned leg from a to b as it happened. */
static void put_leg(drawing *d, double a, double b, const dw_leg *planned)
{
    double in = fmin(fmax(d->from_h, a), b), out = fmin(fmax(d->to_h, a), b);
    put(d, in - a, planned->air_c, planned->h_w_per_m2_k);
    if (out > in)
        put_mishap(d, in, out, planned);
    if (b > out)
        put_after(d, out, b, planned);
}

static size_t planned_count(const dw_mishap_stack *stack)
{
    return stack->legs_count + stack->coming_count + 1;
}

/* What is behind, what is to come, and what goes on at last. */
static const dw_leg *planned_leg(const dw_mishap_stack *stack, size_t i)
{
    if (i < stack->legs_count)
        return &stack->legs[i];
    i -= stack->legs_count;
    return i < stack->coming_count ? &stack->coming[i] : &stack->then;
}

/* What happened between two times. */
static void draw(drawing *d, double from_h, double to_h)
{
    double time = 0;
    for (size_t i = 0; i < planned_count(d->stack); i++) {
        const dw_leg *leg = planned_leg(d->stack, i);
        bool last = leg == &d->stack->then;
        double end = last ? INFINITY : time + leg->hours;
        double a = fmax(time, from_h), b = fmin(end, to_h);
        if (b > a)
            put_leg(d, a, b, leg);
        time = end;
    }
}

static double age_of(const dw_mishap_stack *stack)
{
    double sum = 0;
    for (size_t i = 0; i < stack->legs_count; i++)
        sum += stack->legs[i].hours;
    return sum;
}

static dw_status check(const dw_mishap *mishap, const dw_mishap_stack *stack,
                       double age_h, dw_err *err)
{
    DW_TRY(dw_check_range(err, "legs.hours", age_h, 0, DW_LIFE_LONGEST_H));
    bool of_room = mishap->kind == DW_MISHAP_WARM_ROOM ||
                   mishap->kind == DW_MISHAP_POWER_CUT;
    if (of_room)
        DW_TRY(dw_check_range(err, "then.air_c", stack->then.air_c, -3,
                              DW_LIFE_COLD_C));
    double to_h = age_h + mishap->from_h + mishap->hours;
    return dw_check_range(err, "mishap.from_h", to_h, SHORTEST_H,
                          DW_LIFE_LONGEST_H);
}

/* Of a planned leg: what is before, in, and after the mishap, twice cut into
 * pieces; of all together no more than the mishap and the recovery have. */
static dw_status take_legs(drawing *d, dw_arena *arena, dw_err *err)
{
    size_t n = planned_count(d->stack) + 1;
    size_t pieces =
        (size_t)((d->mishap->hours + RECOVERED * recover_h(d->mishap)) /
                 PIECE_H) +
        2 * n;
    size_t most = n * 2 * (size_t)PIECES;
    d->count = 0;
    d->room = 2 * n + 1 + (pieces < most ? pieces : most);
    d->legs = DW_NEW_ARRAY(arena, dw_leg, d->room);
    return d->legs ? DW_OK : dw_fail(err, DW_E_ROOM, "legs", NULL);
}

dw_status dw_mishap__course_of(const dw_mishap *mishap,
                               const dw_mishap_stack *stack, dw_arena *arena,
                               dw_mishap__course *course, dw_err *err)
{
    double age_h = age_of(stack);
    DW_TRY(check(mishap, stack, age_h, err));
    dw_mishap none = {.kind = DW_MISHAP_VAN};
    drawing d = {.mishap = &none, .stack = stack};
    double to_h = age_h + mishap->from_h + mishap->hours;
    course->over_h = fmax(to_h, age_h);
    DW_TRY(take_legs(&d, arena, err));
    draw(&d, 0, course->over_h);
    put(&d, SHORTEST_H, stack->then.air_c, stack->then.h_w_per_m2_k);
    course->planned = d.legs;
    course->planned_count = d.count;
    d.mishap = mishap;
    d.from_h = fmax(age_h + mishap->from_h, 0);
    d.to_h = to_h;
    d.warm_c = mishap->outside_c +
               (stack->then.air_c - mishap->outside_c) *
                   decay(d.to_h - d.from_h, mishap->time_constant_h);
    DW_TRY(take_legs(&d, arena, err));
    draw(&d, 0, course->over_h);
    course->until_over = d.legs;
    course->until_over_count = d.count;
    DW_TRY(take_legs(&d, arena, err));
    draw(&d, 0,
         fmin(fmax(course->over_h, to_h + RECOVERED * recover_h(mishap)),
              DW_LIFE_LONGEST_H - SHORTEST_H));
    put(&d, SHORTEST_H, stack->then.air_c, stack->then.h_w_per_m2_k);
    course->happened = d.legs;
    course->happened_count = d.count;
    return DW_OK;
}
