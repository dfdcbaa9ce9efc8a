/* Exchanges: balls added, taken away, moved to another day, swapped for another
 * size, whole batches closed and opened, each judged exactly. When nothing
 * helps any more, a part of the plan is shaken and bettered again. */
#include "engine/week.h"
#include "doughwright/chance.h"

#include <string.h>

typedef struct change {
    int product, day, balls;
} change;

enum { CHANGES = 3 * DW_WEEK_PRODUCTS };

typedef struct search {
    const dw_week__problem *problem;
    const dw_week__room *room;
    dw_week__plan *plan;
    const dw_week_watch *watch;
    double bound_cost;
    double least_gain;
    int64_t left; /* exchanges that may still be tried */
    bool stopped;
    dw_chance chance;
    dw_week__menu menus[DW_WEEK_DAYS][DW_WEEK_FORMULAS]; /* of the plan */
    /* the exchange in hand */
    dw_week__menu menu[DW_WEEK_DAYS][DW_WEEK_FORMULAS];
    bool stirred[DW_WEEK_DAYS][DW_WEEK_FORMULAS]; /* menu differs */
    dw_week__course courses[DW_WEEK_PRODUCTS];
    const dw_week__course *seen[DW_WEEK_PRODUCTS];
    bool moved[DW_WEEK_PRODUCTS], busy[DW_WEEK_DAYS];
    double day_cost[DW_WEEK_DAYS];
    dw_week__cover covers[DW_WEEK_DAYS][DW_WEEK_FORMULAS];
} search;

static int below(search *s, int n)
{
    return n > 0 ? (int)(dw_chance_bits(&s->chance) % (uint64_t)n) : 0;
}

/* ---- one exchange -------------------------------------------------------- */

static bool apply(search *s, const change *list, int n, int sign)
{
    bool sound = true;
    for (int i = 0; i < n; i++) {
        int *made = &s->plan->made[list[i].product][list[i].day];
        *made += sign * list[i].balls;
        if (*made < 0)
            sound = false;
    }
    return sound;
}

static int formula_of(const search *s, int product)
{
    return s->problem->products[product].formula;
}

static double judge_day(search *s, int t)
{
    const dw_week__menu *list[DW_WEEK_FORMULAS];
    for (int f = 0; f < s->problem->formulas_count; f++) {
        if (s->stirred[t][f])
            dw_week__menu_of(s->problem, s->plan, t, f, &s->menu[t][f]);
        list[f] = s->stirred[t][f] ? &s->menu[t][f] : &s->menus[t][f];
    }
    return dw_week__choose(s->problem, t, list, s->covers[t]);
}

static double judge_days(search *s)
{
    const dw_week__problem *p = s->problem;
    double more = 0;
    for (int t = 0; t < p->days; t++) {
        if (!s->busy[t])
            continue;
        s->day_cost[t] = judge_day(s, t);
        if (s->day_cost[t] >= DW_WEEK__INFINITE)
            return DW_WEEK__INFINITE;
        more += s->day_cost[t] - s->plan->day_cost[t];
    }
    return more;
}

static double judge_products(search *s)
{
    const dw_week__problem *p = s->problem;
    double more = 0;
    for (int i = 0; i < p->products_count; i++) {
        s->seen[i] = &s->plan->courses[i];
        if (!s->moved[i])
            continue;
        int made[DW_WEEK__MADE];
        dw_week__made(p, s->plan, i, made);
        if (!dw_week__foresee(&p->products[i], p->days, made, s->room,
                              &s->courses[i]))
            return DW_WEEK__INFINITE;
        s->seen[i] = &s->courses[i];
        more += s->courses[i].cost - s->plan->courses[i].cost;
    }
    return more;
}

static void settle(search *s, double more, double over)
{
    const dw_week__problem *p = s->problem;
    for (int i = 0; i < p->products_count; i++)
        if (s->moved[i])
            s->plan->courses[i] = s->courses[i];
    for (int t = 0; t < p->days; t++) {
        if (!s->busy[t])
            continue;
        s->plan->day_cost[t] = s->day_cost[t];
        memcpy(s->plan->covers[t], s->covers[t], sizeof s->covers[t]);
        for (int f = 0; f < p->formulas_count; f++)
            if (s->stirred[t][f])
                s->menus[t][f] = s->menu[t][f];
    }
    s->plan->over = over;
    s->plan->cost += more;
}

static void look_up(search *s)
{
    enum { EVERY = 256 };
    s->left--;
    if (s->watch && s->left % EVERY == 0 &&
        !s->watch->go_on(s->watch->owner, s->plan->cost, s->bound_cost))
        s->stopped = true;
}

/* Take it when the plan costs at least `gain` less; gain may be below 0. */
static bool attempt(search *s, const change *list, int n, double gain)
{
    if (s->left <= 0 || s->stopped)
        return false;
    look_up(s);
    memset(s->moved, 0, sizeof s->moved);
    memset(s->busy, 0, sizeof s->busy);
    memset(s->stirred, 0, sizeof s->stirred);
    for (int i = 0; i < n; i++) {
        if (s->problem->locked[list[i].day])
            return false;
        s->moved[list[i].product] = s->busy[list[i].day] = true;
        s->stirred[list[i].day][formula_of(s, list[i].product)] = true;
    }
    double more = DW_WEEK__INFINITE, over = 0;
    if (apply(s, list, n, 1))
        more = judge_days(s);
    if (more < DW_WEEK__INFINITE)
        more += judge_products(s);
    if (more < DW_WEEK__INFINITE) {
        over = dw_week__over(s->problem, s->plan, s->seen);
        more += over - s->plan->over;
    }
    if (more < -gain) {
        settle(s, more, over);
        return true;
    }
    apply(s, list, n, -1);
    return false;
}

static bool helps(search *s, const change *list, int n)
{
    return attempt(s, list, n, s->least_gain);
}

/* ---- balls of one product ------------------------------------------------ */

/* Balls of product i that fit beside the others in the day's batches, and those
 * that would have to go to save one. */
static void room_of(const search *s, int i, int t, int *spare, int *excess)
{
    const dw_week__problem *p = s->problem;
    int f = p->products[i].formula;
    const dw_week__cover *cover = &s->plan->covers[t][f];
    double kg = 0, smallest = DW_WEEK__INFINITE;
    for (int j = 0; j < p->formulas[f].products_count; j++) {
        int k = p->formulas[f].products[j];
        kg += s->plan->made[k][t] * p->products[k].kg;
    }
    for (int o = 0; o < p->formulas[f].options_count; o++)
        if (cover->count[o] > 0 && p->formulas[f].options[o].most_kg < smallest)
            smallest = p->formulas[f].options[o].most_kg;
    *spare = (int)((cover->kg - kg + 1e-9) / p->products[i].kg);
    double beyond = kg - (cover->kg - smallest);
    *excess =
        cover->batches > 0 ? (int)(beyond / p->products[i].kg + 0.999999) : 0;
}

static int amounts_of(const search *s, int i, int t, int *list)
{
    const dw_week__product *p = &s->problem->products[i];
    int made = s->plan->made[i][t], spare, excess;
    int box = p->per_box >= 2 ? (int)p->per_box : 4;
    int all[] = {1, 2, box, made / 4, made / 2, made, 0, 0};
    room_of(s, i, t, &spare, &excess);
    all[6] = spare;
    all[7] = excess;
    int n = 0;
    for (size_t k = 0; k < DW_COUNT(all); k++) {
        bool again = all[k] <= 0 || all[k] > DW_WEEK__SUPPORT;
        for (int j = 0; j < n; j++)
            again = again || list[j] == all[k];
        if (!again)
            list[n++] = all[k];
    }
    return n;
}

/* To or from other days that the same balls can serve. */
static bool move_balls(search *s, int i, int t, int balls)
{
    const dw_week__product *p = &s->problem->products[i];
    int reach = p->latest > 1 ? p->latest : 1;
    for (int by = 1; by <= reach; by++)
        for (int sign = -1; sign <= 1; sign += 2) {
            int other = t + sign * by;
            if (other < 0 || other >= s->problem->days)
                continue;
            const change pair[] = {{i, t, -balls}, {i, other, balls}};
            if (s->plan->made[i][t] >= balls && helps(s, pair, 2))
                return true;
        }
    return false;
}

/* For as much dough of another size, rounded either way. */
static bool swap_balls(search *s, int i, int t, int balls)
{
    const dw_week__problem *p = s->problem;
    const dw_week__formula *f = &p->formulas[p->products[i].formula];
    for (int j = 0; j < f->products_count; j++) {
        int other = f->products[j];
        double as_much = balls * p->products[i].kg / p->products[other].kg;
        if (other == i || s->plan->made[i][t] < balls)
            continue;
        for (int up = 0; up < 2; up++) {
            const change pair[] = {{i, t, -balls},
                                   {other, t, (int)as_much + up}};
            if (pair[1].balls > 0 && helps(s, pair, 2))
                return true;
        }
    }
    return false;
}

/* Balls to a day whose batches are full, for as much dough of another size from
 * there. */
static bool trade_days(search *s, int i, int t, int balls)
{
    const dw_week__problem *p = s->problem;
    const dw_week__formula *f = &p->formulas[p->products[i].formula];
    for (int u = t - 2; u <= t + 2; u++)
        for (int j = 0; j < f->products_count; j++) {
            int other = f->products[j];
            int back =
                (int)(balls * p->products[i].kg / p->products[other].kg + 0.5);
            if (u < 0 || u >= p->days || u == t || other == i || back == 0 ||
                s->plan->made[i][t] < balls || s->plan->made[other][u] < back)
                continue;
            const change four[] = {{i, t, -balls},
                                   {i, u, balls},
                                   {other, u, -back},
                                   {other, t, back}};
            if (helps(s, four, 4))
                return true;
        }
    return false;
}

/* Where room is short: as many boxes of another product, of any formula, that
 * day or the next. */
static bool trade_boxes(search *s, int i, int t, int balls)
{
    const dw_week__problem *p = s->problem;
    if ((p->boxes >= DW_WEEK__INFINITE && p->slots >= DW_WEEK__INFINITE) ||
        s->plan->made[i][t] < balls || p->products[i].per_box == 0)
        return false;
    for (int j = 0; j < p->products_count; j++) {
        int as_much =
            (int)(balls * p->products[j].per_box / p->products[i].per_box +
                  0.5);
        for (int u = t; u <= t + 1 && u < p->days; u++) {
            const change pair[] = {{i, t, -balls}, {j, u, as_much}};
            if (j != i && as_much > 0 && helps(s, pair, 2))
                return true;
        }
    }
    return false;
}

static bool better_spot(search *s, int i, int t)
{
    enum { SMALL = 3 }; /* amounts that are worth a trade */
    int list[8] = {0};
    int n = amounts_of(s, i, t, list);
    bool any = false;
    for (int k = 0; k < n && s->left > 0; k++) {
        const change more = {i, t, list[k]}, less = {i, t, -list[k]};
        while (helps(s, &more, 1))
            any = true;
        while (s->plan->made[i][t] >= list[k] && helps(s, &less, 1))
            any = true;
        any = move_balls(s, i, t, list[k]) || any;
        any = swap_balls(s, i, t, list[k]) || any;
        any = (k < SMALL && trade_days(s, i, t, list[k])) || any;
        any = (k < SMALL && trade_boxes(s, i, t, list[k])) || any;
    }
    return any;
}

/* ---- a formula's dough of a day ------------------------------------------ */

/* `part` of the day's balls of a formula, to day `to` (-1: nowhere). */
static int shift(const search *s, int f, int t, int to, double part,
                 change *list)
{
    const dw_week__formula *formula = &s->problem->formulas[f];
    int n = 0;
    for (int j = 0; j < formula->products_count; j++) {
        int i = formula->products[j];
        int balls = (int)(s->plan->made[i][t] * part + 0.999);
        if (balls == 0)
            continue;
        list[n++] = (change){i, t, -balls};
        if (to >= 0)
            list[n++] = (change){i, to, balls};
    }
    return n;
}

/* As `shift` with all of it, half to the day before, half to the day after. */
static int spread_out(const search *s, int f, int t, int before, int after,
                      change *list)
{
    const dw_week__formula *formula = &s->problem->formulas[f];
    int n = 0;
    for (int j = 0; j < formula->products_count; j++) {
        int i = formula->products[j];
        int balls = s->plan->made[i][t], half = balls / 2;
        if (balls == 0)
            continue;
        list[n++] = (change){i, t, -balls};
        list[n++] = (change){i, before, half};
        list[n++] = (change){i, after, balls - half};
    }
    return n;
}

static bool dough_of(const search *s, int f, int t)
{
    return s->plan->covers[t][f].batches > 0;
}

static bool better_day(search *s, int f, int t)
{
    enum { REACH = 3 };
    change list[CHANGES];
    bool any = false;
    int batches = s->plan->covers[t][f].batches;
    if (batches == 0 || s->left <= 0)
        return false;
    double parts[] = {1, 1.0 / batches, 0.5};
    for (size_t k = 0; k < DW_COUNT(parts); k++) {
        if (helps(s, list, shift(s, f, t, -1, parts[k], list)))
            any = true;
        for (int to = t - REACH; to <= t + REACH; to++)
            if (to != t && to >= 0 && to < s->problem->days &&
                helps(s, list, shift(s, f, t, to, parts[k], list)))
                any = true;
    }
    if (t > 0 && t + 1 < s->problem->days &&
        helps(s, list, spread_out(s, f, t, t - 1, t + 1, list)))
        any = true;
    return any;
}

/* A new day of making: part of the neighbours' balls. */
static bool open_day(search *s, int f, int t)
{
    change list[CHANGES];
    if (dough_of(s, f, t) || s->problem->locked[t])
        return false;
    for (int from = t - 3; from <= t + 3; from++) {
        if (from < 0 || from >= s->problem->days || !dough_of(s, f, from))
            continue;
        if (helps(s, list, shift(s, f, from, t, 0.5, list)) ||
            helps(s, list, shift(s, f, from, t, 0.34, list)))
            return true;
    }
    return false;
}

/* Begin anew from what the plan holds. */
static void look_at(search *s)
{
    for (int t = 0; t < s->problem->days; t++)
        for (int f = 0; f < s->problem->formulas_count; f++)
            dw_week__menu_of(s->problem, s->plan, t, f, &s->menus[t][f]);
}

/* ---- the whole ----------------------------------------------------------- */

typedef struct part {
    int formula;  /* -1: all */
    int from, to; /* days, both included */
} part;

static bool pass(search *s, const part *of)
{
    const dw_week__problem *p = s->problem;
    bool any = false;
    for (int t = of->from; t <= of->to; t++)
        for (int f = 0; f < p->formulas_count; f++) {
            if (of->formula >= 0 && of->formula != f)
                continue;
            any = better_day(s, f, t) || any;
            any = open_day(s, f, t) || any;
        }
    for (int t = of->from; t <= of->to; t++)
        for (int i = 0; i < p->products_count; i++)
            if (of->formula < 0 || p->products[i].formula == of->formula)
                any = better_spot(s, i, t) || any;
    return any;
}

/* Every way to change up to three places by a ball or two, for plans of so few
 * places that all can be looked at. */
static bool look_at_all(search *s, change *list, int n, int from)
{
    static const int by[] = {1, -1, 2, -2};
    enum { DEEP = 3 };
    int days = s->problem->days;
    for (int at = from; at < s->problem->products_count * days; at++)
        for (size_t k = 0; k < DW_COUNT(by) && s->left > 0; k++) {
            list[n] = (change){at / days, at % days, by[k]};
            if (s->plan->made[at / days][at % days] + by[k] < 0)
                continue;
            if (n > 0 && helps(s, list, n + 1))
                return true;
            if (n + 1 < DEEP && look_at_all(s, list, n + 1, at + 1))
                return true;
        }
    return false;
}

static bool is_small(const dw_week__problem *p)
{
    return p->products_count * p->days <= 9;
}

static void climb(search *s, const part *of)
{
    change list[CHANGES];
    bool few = is_small(s->problem);
    while (s->left > 0 && !s->stopped &&
           (pass(s, of) || (few && look_at_all(s, list, 0, 0))))
        continue;
}

/* Close or move a formula's dough of a day. */
static int shake_day(search *s, int f, int t, change *list)
{
    static const double shares[] = {1, 0.5, 0.34};
    int to = t + (below(s, 2) ? 1 : -1) * (1 + below(s, 2));
    if (to < 0 || to >= s->problem->days || below(s, 4) == 0)
        to = -1;
    return shift(s, f, t, to, shares[below(s, 3)], list);
}

/* Make what is wanted on the first day it is good for. */
static int shake_open(search *s, int f, int t, change *list)
{
    const dw_week__problem *p = s->problem;
    int n = 0;
    for (int j = 0; j < p->formulas[f].products_count; j++) {
        int i = p->formulas[f].products[j];
        int day = t + p->products[i].earliest;
        if (day < p->days && below(s, 3) > 0)
            list[n++] =
                (change){i, t, (int)(p->products[i].wanted[day].mean + 0.999)};
    }
    return n;
}

/* A few balls more or fewer here and there. */
static int shake_balls(search *s, int f, int t, change *list)
{
    const dw_week__formula *formula = &s->problem->formulas[f];
    int n = 0, places = 1 + below(s, 3);
    while (n < places) {
        int i = formula->products[below(s, formula->products_count)];
        int day = (t + below(s, 3)) % s->problem->days;
        int most = s->plan->made[i][day] / 3 + 3;
        int balls = 1 + below(s, most);
        if (below(s, 2) && s->plan->made[i][day] >= balls)
            balls = -balls;
        list[n++] = (change){i, day, balls};
    }
    return n;
}

/* Change something, whatever it costs, and say what part to better again. */
static void shake(search *s, part *of)
{
    const dw_week__problem *p = s->problem;
    change list[CHANGES];
    int f = below(s, p->formulas_count), t = below(s, p->days), n = 0;
    if (p->formulas[f].products_count > 0) {
        int how = below(s, 4);
        n = how < 2    ? shake_day(s, f, t, list)
            : how == 2 ? shake_open(s, f, t, list)
                       : shake_balls(s, f, t, list);
    }
    if (n == 0)
        s->left--;
    else
        attempt(s, list, n, -DW_WEEK__INFINITE);
    of->formula = below(s, 3) == 0 ? -1 : f;
    of->from = t - 3 > 0 ? t - 3 : 0;
    of->to = t + 3 < p->days ? t + 3 : p->days - 1;
}

/* Begin from anything. */
static void draw_anew(search *s)
{
    const dw_week__problem *p = s->problem;
    for (int i = 0; i < p->products_count; i++)
        for (int t = 0; t < p->days; t++) {
            int mean = (int)p->products[i].wanted[t].mean;
            s->plan->made[i][t] = p->locked[t] ? 0 : below(s, 2 * mean + 3);
        }
    dw_week__guess(p, s->room, s->plan);
    if (s->plan->cost >= DW_WEEK__INFINITE) {
        memset(s->plan->made, 0, sizeof s->plan->made);
        dw_week__guess(p, s->room, s->plan);
    }
}

bool dw_week__better(const dw_week__problem *p, const dw_week__room *room,
                     int64_t effort, const dw_week_watch *watch,
                     double bound_cost, dw_arena *arena, dw_week__plan *plan)
{
    dw_arena mark = *arena;
    search *s = DW_NEW(arena, search);
    dw_week__plan *best = DW_NEW(arena, dw_week__plan);
    if (!s || !best) {
        *arena = mark;
        return true;
    }
    s->problem = p;
    s->room = room;
    s->plan = plan;
    s->watch = watch;
    s->bound_cost = bound_cost;
    s->left = effort;
    s->least_gain = 1e-7;
    part all = {-1, 0, p->days - 1};
    enum { PATIENCE = 4, DESPAIR = 8 };
    dw_week__guess(p, room, plan);
    look_at(s);
    climb(s, &all);
    *best = *plan;
    int since = 0; /* shakes since the best was found or taken up again */
    while (s->left > 0 && !s->stopped) {
        part of;
        shake(s, &of);
        climb(s, &of);
        if (plan->cost < best->cost - s->least_gain) {
            *best = *plan;
            since = 0;
        } else if (++since % PATIENCE == 0) {
            *plan = *best;
            if (since % DESPAIR == 0 && is_small(p))
                draw_anew(s);
            look_at(s);
        }
    }
    if (best->cost < plan->cost)
        *plan = *best;
    bool stopped = s->stopped;
    dw_week__judge(p, room, plan);
    *arena = mark;
    return !stopped;
}
