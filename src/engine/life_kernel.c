#include "engine/life_kernel.h"

#define AHEAD_MOST 2
#define K_GAS 0.025 /* W/mK, of the gas in the bubbles */
#define PI 3.14159265358979323846

/* 1 / k of dough with bubbles: Maxwell-Eucken, the dough continuous, with the
 * volume of its bubbles `void_part` of the whole. */
DW_LANES_INLINE dw_lanes resistivity(double k, dw_lanes void_part)
{
    dw_lanes through = 2 * k + K_GAS - 2 * (k - K_GAS) * void_part;
    dw_lanes around = 2 * k + K_GAS + (k - K_GAS) * void_part;
    return around / (k * through);
}

/* What is known of the middles of the last two steps goes on, along the line
 * through them, to the middle of the next step of dt_h: this many of their
 * differences on. Without that look ahead heat and fermentation would be joined
 * to first order only. After steps cut short to meet a moment the line would
 * reach too far. */
static double look_ahead(const dw_life__block *block, double dt_h)
{
    double before = block->dt_h + block->dt_before_h;
    double ahead = before > 0 ? (block->dt_h + dt_h) / before : 0;
    return ahead < AHEAD_MOST ? ahead : AHEAD_MOST;
}

/* W/K from each shell's mean to the next, and from the last to the air. */
static void conduct(const dw_life__block *block, double h_w_per_m2_k,
                    double ahead, dw_lanes conductance[])
{
    dw_lanes dense = block->set.solid_ml / block->set.start_ml;
    dw_lanes zero = dw_lanes_all(0);
    dw_lanes inside = zero, radius = zero, area = zero, half = zero;
    int last = block->shells - 1;
    for (int i = 0; i <= last; i++) {
        const dw_life__shape *shape = &block->shape[i];
        const dw_life__shell *shell = &block->shell[i];
        dw_lanes swelling = shell->swelling +
                            ahead * (shell->swelling - shell->swelling_before);
        swelling = dw_lanes_most(swelling, dense);
        inside = inside + shape->part * swelling;
        dw_lanes out = block->radius_m * shape->radius *
                       dw_lanes_cbrt(inside / shape->inside);
        dw_lanes own = 0.5 * (out - radius) *
                       resistivity(block->k_w_per_m_k, 1.0 - dense / swelling);
        if (i > 0)
            conductance[i - 1] = area / (shape[-1].stretch * (half + own));
        half = own;
        area = 4 * PI * out * out;
        radius = out;
    }
    conductance[last] =
        area / (1 / h_w_per_m2_k + 2 * block->shape[last].stretch * half);
}

/* Solve (C + L) m = C temp + source + air for the shells' temperatures m, where
 * C is heat capacity over half the step: backward Euler over that half, and the
 * middle of the implicit midpoint rule over the whole. Outward elimination,
 * inward substitution (Thomas). */
static void solve_half_step(const dw_life__block *block,
                            const dw_lanes conductance[], const dw_lanes temp[],
                            const dw_lanes source[], double dt_h, double air_c,
                            dw_lanes mid[])
{
    dw_lanes pull[DW_LIFE_SHELLS_MOST];
    dw_lanes in = dw_lanes_all(0), carried = in, kept = in;
    int last = block->shells - 1;
    double scale = block->heat_capacity_j_per_k / (0.5 * dt_h * 3600);
    for (int i = 0; i <= last; i++) {
        double capacity = scale * block->shape[i].part;
        dw_lanes out = conductance[i];
        dw_lanes per = 1.0 / (capacity + out + in - in * kept);
        mid[i] = (capacity * temp[i] + source[i] + in * carried) * per;
        pull[i] = out * per;
        carried = mid[i];
        kept = pull[i];
        in = out;
    }
    dw_lanes next = dw_lanes_all(air_c);
    for (int i = last; i >= 0; i--) {
        next = mid[i] + pull[i] * next;
        mid[i] = next;
    }
}

/* W of each shell in the middle of the step. */
static void heat_source(const dw_life__block *block, double ahead,
                        dw_lanes source[])
{
    double per_part = block->flour_100g / 3600;
    for (int i = 0; i < block->shells; i++) {
        const dw_life__shell *shell = &block->shell[i];
        dw_lanes rate =
            shell->rate + ahead * (shell->rate - shell->rate_before);
        rate = dw_lanes_most(rate, dw_lanes_all(0));
        source[i] = block->shape[i].part * per_part * block->set.heat * rate;
    }
}

/* Temperatures in the middle and at the end of the step. */
static void conduct_step(dw_life__block *block, double dt_h,
                         const dw_life__outside *outside, dw_life__how how,
                         dw_lanes mid[], dw_lanes end[])
{
    int shells = block->shells;
    if (how == DW_LIFE__HELD) {
        for (int i = 0; i < shells; i++)
            mid[i] = end[i] = dw_lanes_all(outside->air_c);
        return;
    }
    dw_lanes conductance[DW_LIFE_SHELLS_MOST], source[DW_LIFE_SHELLS_MOST];
    dw_lanes temp[DW_LIFE_SHELLS_MOST];
    DW_ASSERT(shells >= 1 && shells <= DW_LIFE_SHELLS_MOST);
    double ahead = look_ahead(block, dt_h);
    conduct(block, outside->h_w_per_m2_k, ahead, conductance);
    heat_source(block, ahead, source);
    for (int i = 0; i < shells; i++)
        temp[i] = block->shell[i].temp;
    solve_half_step(block, conductance, temp, source, dt_h, outside->air_c,
                    mid);
    if (how == DW_LIFE__DAMPED) {
        solve_half_step(block, conductance, mid, source, dt_h, outside->air_c,
                        end);
        return;
    }
    for (int i = 0; i < shells; i++)
        end[i] = 2.0 * mid[i] - temp[i];
}

/* The centre of a parabola through the means of the two inmost shells, which
 * are those of r^2 = 3/5 and 93/35. */
DW_LANES_INLINE dw_lanes core_of(const dw_life__block *block)
{
    dw_lanes first = block->shell[0].temp;
    if (block->shells < 2)
        return first;
    return first - 7.0 / 24 * (block->shell[1].temp - first);
}

DW_LANES_INLINE dw_lanes fastest_of(const dw_ferment__set *set,
                                    const dw_ferment__at *at,
                                    const dw_ferment__state *y)
{
    dw_lanes eat = set->hexose_per_co2 * at->gas * y->lf * y->x;
    dw_lanes on_sugar = eat / (y->s + set->sugar_half);
    dw_lanes on_maltose = eat / (y->s + y->mal + set->maltose_half);
    dw_lanes most = dw_lanes_most(on_sugar, on_maltose);
    most = dw_lanes_most(most, at->wake * (1.0 - y->lf));
    most = dw_lanes_most(most, at->adapt * (1.0 - y->a));
    most = dw_lanes_most(most, at->grow * (y->x + y->n));
    return dw_lanes_most(most, at->leak + at->ka);
}

static void step(dw_life__block *block, double dt_h,
                 const dw_life__outside *outside, dw_life__how how,
                 dw_life__pace *pace)
{
    dw_lanes mid[DW_LIFE_SHELLS_MOST], end[DW_LIFE_SHELLS_MOST];
    dw_lanes zero = dw_lanes_all(0);
    dw_life__pace sum = {zero, zero, zero, zero, zero, zero, zero, zero};
    conduct_step(block, dt_h, outside, how, mid, end);
    for (int i = 0; i < block->shells; i++) {
        dw_life__shell *shell = &block->shell[i];
        double part = block->shape[i].part;
        dw_ferment__at at = dw_ferment__at_temp(&block->set, mid[i]);
        shell->swelling_before = shell->swelling;
        dw_ferment__state after = dw_ferment__step(&block->set, &at, &shell->y,
                                                   dt_h, &shell->swelling);
        shell->rate_before = shell->rate;
        shell->rate = (after.c - shell->y.c) / dt_h;
        dw_lanes moved = end[i] - shell->temp;
        sum.warmed = dw_lanes_most(sum.warmed, dw_lanes_most(moved, -moved));
        sum.fastest =
            dw_lanes_most(sum.fastest, fastest_of(&block->set, &at, &after));
        sum.gas = sum.gas + part * after.c;
        sum.age = sum.age + part * after.q;
        sum.rate = sum.rate + part * shell->rate;
        sum.leak = sum.leak + part * (after.lost - shell->y.lost) / dt_h;
        sum.swelling = sum.swelling + part * shell->swelling;
        shell->y = after;
        shell->temp = end[i];
    }
    sum.core_c = core_of(block);
    block->dt_before_h = block->dt_h;
    block->dt_h = dt_h;
    *pace = sum;
}

/* The surface between the last shell and the air: what one gives the other
 * takes. `below` is the swelling of all within that shell, times their part. */
DW_LANES_INLINE dw_lanes skin_of(const dw_life__block *block,
                                 const dw_life__outside *outside,
                                 dw_lanes below, dw_lanes swelling)
{
    int last = block->shells - 1;
    const dw_life__shape *shape = &block->shape[last];
    dw_lanes dense = block->set.solid_ml / block->set.start_ml;
    dw_lanes thick = dw_lanes_cbrt(below + shape->part * swelling);
    if (last > 0)
        thick =
            thick - shape[-1].radius * dw_lanes_cbrt(below / shape[-1].inside);
    dw_lanes way = shape->stretch * block->radius_m * thick *
                   resistivity(block->k_w_per_m_k, 1.0 - dense / swelling) *
                   outside->h_w_per_m2_k;
    return (block->shell[last].temp + way * outside->air_c) / (1.0 + way);
}

static void look(const dw_life__block *block, const dw_life__outside *outside,
                 dw_life__look *look)
{
    dw_lanes zero = dw_lanes_all(0), swelling = zero, below = zero;
    dw_life__look sum = {zero, zero, zero, zero, zero, zero,
                         zero, zero, zero, zero, zero};
    const dw_ferment__set *set = &block->set;
    for (int i = 0; i < block->shells; i++) {
        const dw_ferment__state *y = &block->shell[i].y;
        double part = block->shape[i].part;
        dw_ferment__at at = dw_ferment__at_temp(set, block->shell[i].temp);
        dw_lanes total = y->c - y->lost;
        dw_lanes held = dw_ferment__free(total, at.capacity, set->air_mmol);
        swelling = dw_ferment__swelling(set, &at, held);
        sum.mean_c = sum.mean_c + part * block->shell[i].temp;
        sum.gas = sum.gas + part * y->c;
        sum.held = sum.held + part * held;
        sum.dissolved = sum.dissolved + part * (total - held);
        sum.lost = sum.lost + part * y->lost;
        below = sum.swelling;
        sum.swelling = below + part * swelling;
        sum.sugar = sum.sugar + part * (y->s + y->mal);
        sum.age = sum.age + part * y->q;
        sum.yeast = sum.yeast + part * y->x;
    }
    sum.core_c = core_of(block);
    sum.skin_c = skin_of(block, outside, below, swelling);
    *look = sum;
}

static void release(dw_life__block *block, const double part[DW_LANES])
{
    dw_lanes gone;
    memcpy(&gone, part, sizeof gone);
    for (int i = 0; i < block->shells; i++) {
        dw_life__shell *shell = &block->shell[i];
        dw_ferment__at at = dw_ferment__at_temp(&block->set, shell->temp);
        dw_ferment__state *y = &shell->y;
        dw_ferment__release(&block->set, &at, gone, y);
        dw_lanes held =
            dw_ferment__free(y->c - y->lost, at.capacity, block->set.air_mmol);
        shell->swelling = dw_ferment__swelling(&block->set, &at, held);
        shell->swelling_before = shell->swelling;
    }
}

/* The build compiles this file once for each set of instructions. */
#ifndef DW_LIFE_KERNEL
#define DW_LIFE_KERNEL dw_life__kernel_plain
#define DW_LIFE_INSTRUCTIONS "plain"
#endif
extern const dw_life__kernel DW_LIFE_KERNEL;
const dw_life__kernel DW_LIFE_KERNEL = {DW_LIFE_INSTRUCTIONS, step, look,
                                        release};
