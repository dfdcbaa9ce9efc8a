#include "engine/life_kernel.h"

#define AHEAD_MOST 2
#define K_GAS 0.025 /* W/mK, of the gas in the bubbles */
#define PI 3.14159265358979323846

/* Resistance in m2K/W of so much dough with bubbles, as top / bottom: Maxwell-
 * Eucken, the dough continuous, both sides of the fraction times its swelling,
 * of which `dense` is dough. */
typedef struct resistance {
    dw_lanes top, bottom;
} resistance;
DW_LANES_INLINE resistance resist(double k, dw_lanes way, dw_lanes dense,
                                  dw_lanes swelling)
{
    dw_lanes all = (2 * k + K_GAS) * swelling;
    dw_lanes gas = (k - K_GAS) * (swelling - dense);
    return (resistance){way * (all + gas), k * (all - 2 * gas)};
}

/* 4 pi r^2 over the resistances from a mean to a boundary and on to a mean. */
DW_LANES_INLINE dw_lanes conductance_of(dw_lanes area, double stretch,
                                        resistance from, resistance to)
{
    dw_lanes bottom = from.bottom * to.bottom;
    dw_lanes top = from.top * to.bottom + to.top * from.bottom;
    return area * bottom / (stretch * top);
}

DW_LANES_INLINE size_t group_bytes(const dw_life__block *block)
{
    return sizeof(dw_life__group) +
           (size_t)block->shells * sizeof(dw_life__shell);
}

DW_LANES_INLINE dw_life__group *group_at(dw_life__block *block, int first)
{
    size_t at = (size_t)first / DW_LANES * group_bytes(block);
    return (dw_life__group *)(void *)((char *)block->numbers + at);
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
static void conduct(const dw_life__block *block, const dw_life__group *group,
                    double h_w_per_m2_k, double ahead, dw_lanes conductance[])
{
    dw_lanes dense = group->set.solid;
    dw_lanes zero = dw_lanes_all(0);
    dw_lanes inside = zero, radius = zero, area = zero;
    resistance half = {zero, zero};
    int last = block->shells - 1;
    for (int i = 0; i <= last; i++) {
        const dw_life__shape *shape = &block->shape[i];
        const dw_life__shell *shell = &group->shell[i];
        dw_lanes swelling = shell->swelling +
                            ahead * (shell->swelling - shell->swelling_before);
        swelling = dw_lanes_most(swelling, dense);
        inside = inside + shape->part * swelling;
        dw_lanes out = block->radius_m * shape->radius *
                       dw_lanes_cbrt(inside * shape->per_inside);
        resistance own =
            resist(block->k_w_per_m_k, 0.5 * (out - radius), dense, swelling);
        if (i > 0)
            conductance[i - 1] =
                conductance_of(area, shape[-1].stretch, half, own);
        half = own;
        area = 4 * PI * out * out;
        radius = out;
    }
    dw_lanes way = 2 * block->shape[last].stretch * half.top;
    conductance[last] =
        area * half.bottom / (half.bottom * (1 / h_w_per_m2_k) + way);
}

/* C + L, where C is heat capacity over the stage's time and L what conducts,
 * with its elimination done (Thomas). */
typedef struct matrix {
    dw_lanes per[DW_LIFE_SHELLS_MOST], pull[DW_LIFE_SHELLS_MOST];
    double capacity[DW_LIFE_SHELLS_MOST];
} matrix;

static void factor(const dw_life__block *block, const dw_lanes conductance[],
                   double stage_h, matrix *m)
{
    dw_lanes in = dw_lanes_all(0), kept = in;
    double scale = block->heat_capacity_j_per_k / (stage_h * 3600);
    for (int i = 0; i < block->shells; i++) {
        dw_lanes out = conductance[i];
        m->capacity[i] = scale * block->shape[i].part;
        m->per[i] = 1.0 / (m->capacity[i] + out + in - in * kept);
        m->pull[i] = kept = out * m->per[i];
        in = out;
    }
}

/* (C + L) to = C from + source + air: outward elimination, inward
 * substitution. */
static void solve(const dw_life__block *block, const matrix *m,
                  const dw_lanes conductance[], const dw_lanes from[],
                  const dw_lanes source[], double air_c, dw_lanes to[])
{
    dw_lanes in = dw_lanes_all(0), carried = in;
    for (int i = 0; i < block->shells; i++) {
        carried =
            (m->capacity[i] * from[i] + source[i] + in * carried) * m->per[i];
        to[i] = carried;
        in = conductance[i];
    }
    dw_lanes next = dw_lanes_all(air_c);
    for (int i = block->shells - 1; i >= 0; i--) {
        next = to[i] + m->pull[i] * next;
        to[i] = next;
    }
}

/* W of each shell in the middle of the step. */
static void heat_source(const dw_life__block *block,
                        const dw_life__group *group, double ahead,
                        dw_lanes source[])
{
    double per_part = block->flour_100g / 3600;
    for (int i = 0; i < block->shells; i++) {
        const dw_life__shell *shell = &group->shell[i];
        dw_lanes rate =
            shell->rate + ahead * (shell->rate - shell->rate_before);
        rate = dw_lanes_most(rate, dw_lanes_all(0));
        source[i] = block->shape[i].part * per_part * group->set.heat * rate;
    }
}

/* Temperatures in the mean over the step and at its end, by the two stages of
 * Alexander's rule: second order, and what is quicker than the step (a skin
 * after a jump of the air) is at rest at its end, where the midpoint rule would
 * ring. Both stages have the same matrix. */
static void conduct_step(const dw_life__block *block,
                         const dw_life__group *group, double dt_h,
                         const dw_life__outside *outside, dw_lanes mean[],
                         dw_lanes end[])
{
    const double gamma = 0.29289321881345254; /* 1 - 1 / sqrt 2 */
    int shells = block->shells;
    dw_lanes conductance[DW_LIFE_SHELLS_MOST], source[DW_LIFE_SHELLS_MOST];
    dw_lanes stage[DW_LIFE_SHELLS_MOST], from[DW_LIFE_SHELLS_MOST];
    matrix m;
    DW_ASSERT(shells >= 1 && shells <= DW_LIFE_SHELLS_MOST);
    double ahead = look_ahead(block, dt_h);
    conduct(block, group, outside->h_w_per_m2_k, ahead, conductance);
    heat_source(block, group, ahead, source);
    factor(block, conductance, gamma * dt_h, &m);
    for (int i = 0; i < shells; i++)
        from[i] = group->shell[i].temp;
    solve(block, &m, conductance, from, source, outside->air_c, stage);
    for (int i = 0; i < shells; i++)
        from[i] = from[i] + (1 - gamma) / gamma * (stage[i] - from[i]);
    solve(block, &m, conductance, from, source, outside->air_c, end);
    for (int i = 0; i < shells; i++)
        mean[i] = (1 - gamma) * stage[i] + gamma * end[i];
}

static void hold(int shells, double air_c, dw_lanes mean[], dw_lanes end[])
{
    for (int i = 0; i < shells; i++)
        mean[i] = end[i] = dw_lanes_all(air_c);
}

/* The centre of a parabola through the means of the two inmost shells, which
 * are those of r^2 = 3/5 and 93/35. */
DW_LANES_INLINE dw_lanes core_of(const dw_life__group *group, int shells)
{
    dw_lanes first = group->shell[0].temp;
    if (shells < 2)
        return first;
    return first - 7.0 / 24 * (group->shell[1].temp - first);
}

/* 1/h, of one life: how fast its quickest reaction is. */
DW_LANES_INLINE double fastest_of(const dw_ferment__at *at,
                                  const dw_ferment__state *y,
                                  const dw_ferment__rates *rates,
                                  const dw_ferment__set *set)
{
    double eaten = set->hexose_per_co2[0];
    const double each[] = {
        eaten * rates->by_sugar[0],        eaten * rates->by_maltose[0],
        at->wake[0] * (1 - y->lf[0]),      at->adapt[0] * (1 - y->a[0]),
        at->grow[0] * (y->x[0] + y->n[0]), at->leak[0] + at->ka[0]};
    double most = 0;
    for (int i = 0; i < 6; i++)
        most = each[i] > most ? each[i] : most;
    return most;
}

/* What a step adds up over the shells of a group. */
typedef struct sums {
    dw_lanes gas, age, rate, leak, swelling;
    double fastest, warmed; /* of the first of its lives */
} sums;

/* One shell: react at the mean temperature, then take that of the end. */
DW_LANES_INLINE void react(const dw_ferment__set *set, dw_life__shell *shell,
                           double part, double dt_h, dw_lanes mean,
                           dw_lanes end, sums *sum)
{
    double per_h = 1 / dt_h;
    dw_ferment__rates rates;
    dw_ferment__at at = dw_ferment__at_temp(set, mean);
    dw_ferment__state after =
        dw_ferment__step(set, &at, &shell->y, dt_h, &rates);
    shell->swelling_before = shell->swelling;
    shell->swelling = rates.swelling;
    shell->rate_before = shell->rate;
    shell->rate = (after.c - shell->y.c) * per_h;
    double moved = end[0] - shell->temp[0];
    moved = moved < 0 ? -moved : moved;
    double fastest = fastest_of(&at, &after, &rates, set);
    sum->warmed = moved > sum->warmed ? moved : sum->warmed;
    sum->fastest = fastest > sum->fastest ? fastest : sum->fastest;
    sum->gas = sum->gas + part * after.c;
    sum->age = sum->age + part * after.q;
    sum->rate = sum->rate + part * shell->rate;
    sum->leak = sum->leak + part * per_h * (after.lost - shell->y.lost);
    sum->swelling = sum->swelling + part * shell->swelling;
    shell->y = after;
    shell->temp = end;
}

#define TELL(to, first, from) memcpy(&(to)[first], &(from), sizeof(dw_lanes))

static void step_group(dw_life__block *block, int first, double dt_h,
                       const dw_life__outside *outside, dw_life__how how,
                       dw_life__pace *pace)
{
    dw_lanes mean[DW_LIFE_SHELLS_MOST], end[DW_LIFE_SHELLS_MOST];
    dw_lanes zero = dw_lanes_all(0);
    sums sum = {zero, zero, zero, zero, zero, 0, 0};
    dw_life__group *group = group_at(block, first);
    if (how == DW_LIFE__HELD)
        hold(block->shells, outside->air_c, mean, end);
    else
        conduct_step(block, group, dt_h, outside, mean, end);
    for (int i = 0; i < block->shells; i++)
        react(&group->set, &group->shell[i], block->shape[i].part, dt_h,
              mean[i], end[i], &sum);
    dw_lanes core = core_of(group, block->shells);
    TELL(pace->gas, first, sum.gas);
    TELL(pace->age, first, sum.age);
    TELL(pace->rate, first, sum.rate);
    TELL(pace->leak, first, sum.leak);
    TELL(pace->swelling, first, sum.swelling);
    TELL(pace->core_c, first, core);
    if (first > 0)
        return;
    pace->fastest = sum.fastest;
    pace->warmed = sum.warmed;
    pace->rind_c = end[block->shells - 1][0];
}

static void step(dw_life__block *block, double dt_h,
                 const dw_life__outside *outside, dw_life__how how,
                 dw_life__pace *pace)
{
    for (int first = 0; first < block->lives; first += DW_LANES)
        step_group(block, first, dt_h, outside, how, pace);
    block->dt_before_h = block->dt_h;
    block->dt_h = dt_h;
}

/* The surface between the last shell and the air: what one gives the other
 * takes. `below` is the swelling of all within that shell, times their part. */
DW_LANES_INLINE dw_lanes skin_of(const dw_life__block *block,
                                 const dw_life__group *group,
                                 const dw_life__outside *outside,
                                 dw_lanes below, dw_lanes swelling)
{
    int last = block->shells - 1;
    const dw_life__shape *shape = &block->shape[last];
    dw_lanes thick = dw_lanes_cbrt(below + shape->part * swelling);
    if (last > 0)
        thick = thick -
                shape[-1].radius * dw_lanes_cbrt(below * shape[-1].per_inside);
    resistance to =
        resist(block->k_w_per_m_k, shape->stretch * block->radius_m * thick,
               group->set.solid, swelling);
    dw_lanes way = to.top / to.bottom * outside->h_w_per_m2_k;
    return (group->shell[last].temp + way * outside->air_c) / (1.0 + way);
}

static void look_group(const dw_life__block *block, const dw_life__group *group,
                       int first, const dw_life__outside *outside,
                       dw_life__look *look)
{
    dw_lanes zero = dw_lanes_all(0), swelling = zero, all = zero, below = zero;
    dw_lanes mean = zero, gas = zero, held = zero, dissolved = zero;
    dw_lanes lost = zero, sugar = zero, age = zero, yeast = zero;
    const dw_ferment__set *set = &group->set;
    for (int i = 0; i < block->shells; i++) {
        const dw_ferment__state *y = &group->shell[i].y;
        double part = block->shape[i].part;
        dw_ferment__at at = dw_ferment__at_temp(set, group->shell[i].temp);
        dw_lanes total = y->c - y->lost;
        dw_lanes free = dw_ferment__free(total, at.capacity, set->air_mmol);
        swelling = dw_ferment__swelling(set, &at, free);
        mean = mean + part * group->shell[i].temp;
        gas = gas + part * y->c;
        held = held + part * free;
        dissolved = dissolved + part * (total - free);
        lost = lost + part * y->lost;
        below = all;
        all = below + part * swelling;
        sugar = sugar + part * (y->s + y->mal);
        age = age + part * y->q;
        yeast = yeast + part * y->x;
    }
    dw_lanes core = core_of(group, block->shells);
    dw_lanes skin = skin_of(block, group, outside, below, swelling);
    TELL(look->core_c, first, core);
    TELL(look->mean_c, first, mean);
    TELL(look->skin_c, first, skin);
    TELL(look->gas, first, gas);
    TELL(look->held, first, held);
    TELL(look->dissolved, first, dissolved);
    TELL(look->lost, first, lost);
    TELL(look->swelling, first, all);
    TELL(look->sugar, first, sugar);
    TELL(look->age, first, age);
    TELL(look->yeast, first, yeast);
}

static void look(const dw_life__block *block, const dw_life__outside *outside,
                 dw_life__look *look)
{
    for (int first = 0; first < block->lives; first += DW_LANES)
        look_group(block, group_at((dw_life__block *)(uintptr_t)block, first),
                   first, outside, look);
}

static void release_group(dw_life__group *group, int shells, dw_lanes gone)
{
    const dw_ferment__set *set = &group->set;
    for (int i = 0; i < shells; i++) {
        dw_life__shell *shell = &group->shell[i];
        dw_ferment__at at = dw_ferment__at_temp(set, shell->temp);
        dw_ferment__state *y = &shell->y;
        dw_ferment__release(set, &at, gone, y);
        dw_lanes held =
            dw_ferment__free(y->c - y->lost, at.capacity, set->air_mmol);
        shell->swelling = dw_ferment__swelling(set, &at, held);
        shell->swelling_before = shell->swelling;
    }
}

static void release(dw_life__block *block, const double part[DW_LIVES])
{
    for (int first = 0; first < block->lives; first += DW_LANES) {
        dw_lanes gone;
        memcpy(&gone, &part[first], sizeof gone);
        release_group(group_at(block, first), block->shells, gone);
    }
}

/* One member's numbers into its lane of a row of vectors. */
static void put(void *lanes, int lane, const void *values, size_t bytes)
{
    for (size_t i = 0; i < bytes / sizeof(double); i++)
        memcpy((char *)lanes + i * sizeof(dw_lanes) +
                   (size_t)lane * sizeof(double),
               (const char *)values + i * sizeof(double), sizeof(double));
}

/* Lanes without a life of their own live the last one again. */
static void begin(dw_life__block *block, const dw_ferment__one set[],
                  const dw_ferment__start start[])
{
    dw_life__shell shell;
    memset(&shell, 0, sizeof shell);
    shell.temp = dw_lanes_all(block->mixed_c);
    shell.swelling = shell.swelling_before = dw_lanes_all(1);
    for (int first = 0; first < block->lives; first += DW_LANES) {
        dw_life__group *group = group_at(block, first);
        for (int lane = 0; lane < DW_LANES; lane++) {
            int life = first + lane;
            life = life < block->lives ? life : block->lives - 1;
            put(&group->set, lane, &set[life], sizeof *set);
            put(&shell.y, lane, &start[life], sizeof *start);
        }
        for (int i = 0; i < block->shells; i++)
            group->shell[i] = shell;
    }
}

/* The build compiles this file once for each set of instructions. */
#ifndef DW_LIFE_KERNEL
#define DW_LIFE_KERNEL dw_life__kernel_plain
#define DW_LIFE_INSTRUCTIONS "plain"
#endif
extern const dw_life__kernel DW_LIFE_KERNEL;
const dw_life__kernel DW_LIFE_KERNEL = {
    DW_LIFE_INSTRUCTIONS, DW_LANES, begin, step, look, release};
