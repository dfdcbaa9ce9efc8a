/* How long a chart with zone rules runs: a Markov chain over what the rules
 * remember of the last points. */
#include "chart.h"
#include "engine/normal.h"

#include <math.h>

/* Where a point lies: within 1 sigma, beyond 1, beyond 2. */
enum { HIGH, LOW, SIDES };
enum { ZONES = 3 };

/* What is remembered: of the last two points the zone and side, of the two
 * before them whether beyond 1 and the side, and the length of the run on one
 * side. Codes: 0 within 1 sigma, then high, low. */
typedef struct memory {
    int near[2]; /* newest first: 0, or 1 + zone - 1 + 2 * side */
    int far[2];  /* 0, or 1 + side */
    int run;     /* below 0 on the low side */
} memory;

enum { LONGEST = 15, NEAR = 5, FAR = 3, RUNS = 2 * LONGEST + 1 };
enum { STATES = NEAR * NEAR * FAR * FAR * RUNS };

static int code_of(const memory *m)
{
    int code = m->near[0] * NEAR + m->near[1];
    code = (code * FAR + m->far[0]) * FAR + m->far[1];
    return code * RUNS + m->run + LONGEST;
}

static memory memory_of(int code)
{
    memory m;
    m.run = code % RUNS - LONGEST;
    code /= RUNS;
    m.far[1] = code % FAR;
    m.far[0] = code / FAR % FAR;
    code /= FAR * FAR;
    m.near[1] = code % NEAR;
    m.near[0] = code / NEAR;
    return m;
}

static int near_of(int side, int zone)
{
    return zone == 0 ? 0 : zone + 2 * side;
}

static int far_of(int near)
{
    return near == 0 ? 0 : near <= 2 ? 1 + HIGH : 1 + LOW;
}

static bool alarms(const dw_chart_rules *rules, const memory *m, int side,
                   int zone, int run)
{
    int here = near_of(side, zone);
    if (rules->two_of_three && zone == 2 &&
        (m->near[0] == here || m->near[1] == here))
        return true;
    int with = 1 + side;
    int beyond = (far_of(m->near[0]) == with) + (far_of(m->near[1]) == with) +
                 (m->far[0] == with) + (m->far[1] == with);
    if (rules->four_of_five && zone > 0 && beyond >= 3)
        return true;
    return rules->one_side > 0 && (run < 0 ? -run : run) >= rules->one_side;
}

/* The next state, or -1 for an alarm. What no rule asks is not remembered. */
static int next_of(const dw_chart_rules *rules, const memory *m, int side,
                   int zone)
{
    int run = 0;
    if (rules->one_side > 0)
        run = side == HIGH ? (m->run > 0 ? m->run + 1 : 1)
                           : (m->run < 0 ? m->run - 1 : -1);
    if (alarms(rules, m, side, zone, run))
        return -1;
    memory next = {.run = run};
    if (rules->two_of_three || rules->four_of_five) {
        next.near[0] = near_of(side, zone);
        next.near[1] = m->near[0];
    }
    if (rules->four_of_five) {
        next.far[0] = far_of(m->near[1]);
        next.far[1] = m->far[0];
    }
    return code_of(&next);
}

static void share_zones(const dw_chart_rules *rules, double limit, double shift,
                        double shares[SIDES][ZONES])
{
    double end = rules->beyond ? limit : INFINITY;
    for (int zone = 0; zone < ZONES; zone++) {
        double from = fmin(zone, end);
        double to = zone == ZONES - 1 ? end : fmin(zone + 1, end);
        shares[HIGH][zone] =
            dw_normal_below(to - shift) - dw_normal_below(from - shift);
        shares[LOW][zone] =
            dw_normal_below(-from - shift) - dw_normal_below(-to - shift);
    }
}

/* One point more; returns the share without an alarm yet. */
static double advance(const dw_chart_rules *rules, double shares[SIDES][ZONES],
                      const double *now, double *then)
{
    double alive = 0;
    for (int code = 0; code < STATES; code++)
        then[code] = 0;
    for (int code = 0; code < STATES; code++) {
        if (now[code] <= 0)
            continue;
        memory m = memory_of(code);
        for (int cell = 0; cell < SIDES * ZONES; cell++) {
            int side = cell / ZONES, zone = cell % ZONES;
            int next = next_of(rules, &m, side, zone);
            if (next < 0)
                continue;
            then[next] += now[code] * shares[side][zone];
            alive += now[code] * shares[side][zone];
        }
    }
    return alive;
}

dw_status dw_chart_zones_run(const dw_chart_rules *rules, double limit,
                             double shift_sigmas, dw_arena *arena, dw_err *err,
                             bool *has_run, double *run)
{
    bool of_order = rules->rising > 0 || rules->alternating > 0 ||
                    rules->close_in > 0 || rules->far_out > 0;
    bool of_zones = rules->beyond || rules->two_of_three ||
                    rules->four_of_five || rules->one_side > 0;
    if (of_order || !of_zones) {
        *has_run = false;
        return DW_OK;
    }
    double *now = DW_NEW_ARRAY(arena, double, STATES);
    double *then = DW_NEW_ARRAY(arena, double, STATES);
    if (!now || !then)
        return dw_fail(err, DW_E_ROOM, "chart", NULL);
    double shares[SIDES][ZONES];
    share_zones(rules, limit, shift_sigmas, shares);
    const memory none = {.run = 0};
    now[code_of(&none)] = 1;
    double alive = 1, sum = 0, ratio = 0;
    /* In the end the alive shrink by the same factor each point; the rest of
     * the sum is geometric. */
    for (int i = 0; i < 1000 && alive > 1e-14; i++) {
        sum += alive;
        double left = advance(rules, shares, now, then), was = ratio;
        ratio = left / alive;
        alive = left;
        double *swap = now;
        now = then;
        then = swap;
        if (i > 40 && fabs(ratio - was) < 1e-13)
            break;
    }
    *has_run = true;
    *run = sum + alive / (1 - ratio);
    return DW_OK;
}
