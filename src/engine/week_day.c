/* The batches of one day: the cheapest that hold the dough, within the minutes
 * of the mixers and the hands. */
#include "engine/week.h"

#include <string.h>

#define SLACK_KG 1e-9

/* ---- one formula --------------------------------------------------------- */

typedef struct cook {
    const dw_week__problem *problem;
    const dw_week__formula *formula;
    int day, index;
    double kg; /* of dough that is needed */
    int balls;
    double batch_cost; /* of each: start and labour */
    double most_kg;    /* of the roomiest option */
    short count[DW_WEEK__OPTIONS];
    const dw_week__plan *plan;
    int unsplit; /* fewer batches would hold the dough, but not the balls */
    dw_week__menu *menu;
} cook;

static int before_of(const cook *c, int mixer)
{
    return c->problem->before[c->day][c->index][mixer];
}

static double change_cost(const cook *c)
{
    const dw_week_request *ask = c->problem->ask;
    if (!c->problem->has_before || ask->change_cost == 0)
        return 0;
    int changes = 0;
    for (int m = 0; m < c->problem->mixers_count; m++) {
        int n = 0;
        for (int o = 0; o < c->formula->options_count; o++)
            if (c->formula->options[o].mixer == m)
                n += c->count[o];
        int other = n - before_of(c, m);
        changes += other < 0 ? -other : other;
    }
    return changes * ask->change_cost;
}

static bool is_dear(const cook *c, double cost)
{
    return c->menu->count == DW_WEEK__COVERS &&
           cost >= c->menu->at[DW_WEEK__COVERS - 1].cost;
}

static void keep(cook *c, const dw_week__cover *cover)
{
    dw_week__menu *menu = c->menu;
    if (is_dear(c, cover->cost))
        return;
    int at = menu->count < DW_WEEK__COVERS ? menu->count++ : menu->count - 1;
    for (; at > 0 && menu->at[at - 1].cost > cover->cost; at--)
        menu->at[at] = menu->at[at - 1];
    menu->at[at] = *cover;
}

/* Is a batch of it one too many? */
static bool wasteful(const cook *c, double room_kg, double smallest_kg,
                     int batches)
{
    int bench = c->formula->bench_balls;
    return room_kg - smallest_kg >= c->kg - SLACK_KG &&
           (bench == 0 || (batches - 1) * bench >= c->balls);
}

/* Dough is not cut anywhere: do the balls go into these batches whole? */
static bool splits(const cook *c, const dw_week__cover *cover)
{
    dw_week__split split;
    if (cover->batches == 1)
        return true;
    return dw_week__split_day(c->problem, c->plan, c->day, c->index, cover,
                              &split) == DW_WEEK__SPLIT;
}

/* False when the batches hold the dough but not the balls. */
static bool consider(cook *c)
{
    dw_week__cover cover = {.cost = 0};
    double least_kg = 0, filled_kg = 0, smallest_kg = DW_WEEK__INFINITE;
    for (int o = 0; o < c->formula->options_count; o++) {
        const dw_week__option *option = &c->formula->options[o];
        int n = c->count[o];
        if (n == 0)
            continue;
        cover.batches += n;
        cover.kg += n * option->most_kg;
        cover.minutes[option->mixer] += n * option->minutes;
        cover.cost += n * (c->batch_cost + option->cost);
        least_kg += n * option->least_kg;
        filled_kg +=
            n * (option->whole_size ? option->most_kg : option->least_kg);
        smallest_kg =
            option->most_kg < smallest_kg ? option->most_kg : smallest_kg;
    }
    if (least_kg > c->kg + SLACK_KG ||
        (c->unsplit == 0 && wasteful(c, cover.kg, smallest_kg, cover.batches)))
        return true;
    cover.spare_kg = filled_kg > c->kg ? filled_kg - c->kg : 0;
    cover.cost +=
        cover.spare_kg * c->formula->spare_cost_per_kg + change_cost(c);
    memcpy(cover.count, c->count, sizeof cover.count);
    if (is_dear(c, cover.cost))
        return true;
    if (!splits(c, &cover))
        return false;
    keep(c, &cover);
    return true;
}

/* Even with the roomiest batches it is dearer than all that are kept. */
static bool too_dear(const cook *c, double room_kg, double cost)
{
    double left_kg = c->kg - SLACK_KG - room_kg;
    int more = left_kg > 0 ? 1 + (int)((left_kg - SLACK_KG) / c->most_kg) : 0;
    return is_dear(c, cost + more * c->batch_cost);
}

static void add_batches(cook *c, int from, double room_kg, double cost,
                        int batches)
{
    int bench = c->formula->bench_balls;
    if (too_dear(c, room_kg, cost))
        return;
    bool enough = room_kg >= c->kg - SLACK_KG &&
                  (bench == 0 || batches * bench >= c->balls);
    if (enough && consider(c))
        return;
    if (batches == DW_WEEK__BATCHES)
        return;
    c->unsplit += enough;
    for (int o = from; o < c->formula->options_count; o++) {
        const dw_week__option *option = &c->formula->options[o];
        c->count[o]++;
        add_batches(c, o, room_kg + option->most_kg,
                    cost + c->batch_cost + option->cost, batches + 1);
        c->count[o]--;
    }
    c->unsplit -= enough;
}

/* Without dough there is no batch. */
static void leave_out(cook *c)
{
    dw_week__cover none = {.cost = change_cost(c)};
    keep(c, &none);
}

void dw_week__menu_of(const dw_week__problem *p, const dw_week__plan *plan,
                      int day, int formula, dw_week__menu *menu)
{
    const dw_week__formula *f = &p->formulas[formula];
    double start = f->start_costs ? f->start_costs[day] : f->start_cost;
    double labour = f->hands_minutes * p->ask->labour_cost_per_h / 60;
    cook c = {.problem = p,
              .formula = f,
              .day = day,
              .index = formula,
              .batch_cost = start + labour,
              .plan = plan,
              .menu = menu};
    for (int i = 0; i < f->products_count; i++) {
        int n = plan->made[f->products[i]][day];
        c.kg += n * p->products[f->products[i]].kg;
        c.balls += n;
    }
    for (int o = 0; o < f->options_count; o++)
        if (f->options[o].most_kg > c.most_kg)
            c.most_kg = f->options[o].most_kg;
    menu->count = 0;
    menu->balls = c.balls;
    if (c.balls == 0)
        leave_out(&c);
    else if (!p->locked[day])
        add_batches(&c, 0, 0, 0, 0);
}

/* ---- the day ------------------------------------------------------------- */

typedef struct kitchen {
    const dw_week__problem *problem;
    int day;
    const dw_week__menu *const *menus;
    double least_after[DW_WEEK_FORMULAS + 1]; /* of by_close[i..] */
    double balls_minutes;
    double minutes[DW_WEEK_MIXERS];
    int pick[DW_WEEK_FORMULAS], best_pick[DW_WEEK_FORMULAS];
    double best;
} kitchen;

/* Labour beyond what the menu already took as within the hours. */
static double hands_cost(const kitchen *k, double batch_minutes)
{
    const dw_week__problem *p = k->problem;
    double rate = p->ask->labour_cost_per_h / 60;
    double over_rate = p->ask->overtime_cost_per_h / 60;
    double fixed = p->fixed_hands[k->day];
    double used = k->balls_minutes + batch_minutes + fixed;
    double over = used - p->hands[k->day];
    if (over > p->overtime[k->day] + 1e-9 && used > fixed)
        return DW_WEEK__INFINITE;
    double more = over > 0 && over_rate > rate ? over_rate - rate : 0;
    return (k->balls_minutes + fixed) * rate + (over > 0 ? over * more : 0);
}

static bool fits(kitchen *k, int f, const dw_week__cover *cover, double sign)
{
    const dw_week__problem *p = k->problem;
    double last = p->window[k->day] - p->formulas[f].close_minutes;
    bool all = true;
    for (int m = 0; m < p->mixers_count; m++) {
        k->minutes[m] += sign * cover->minutes[m];
        if (cover->minutes[m] > 0 &&
            (k->minutes[m] > last + 1e-9 ||
             k->minutes[m] > p->minutes[m][k->day] + 1e-9))
            all = false;
    }
    return all;
}

static void choose(kitchen *k, int i, double cost, double batch_minutes)
{
    const dw_week__problem *p = k->problem;
    if (cost + k->least_after[i] >= k->best)
        return;
    if (i == p->formulas_count) {
        cost += hands_cost(k, batch_minutes);
        if (cost < k->best) {
            k->best = cost;
            memcpy(k->best_pick, k->pick, sizeof k->pick);
        }
        return;
    }
    int f = p->by_close[i];
    for (int j = 0; j < k->menus[f]->count; j++) {
        const dw_week__cover *cover = &k->menus[f]->at[j];
        k->pick[f] = j;
        if (fits(k, f, cover, 1))
            choose(k, i + 1, cost + cover->cost,
                   batch_minutes +
                       cover->batches * p->formulas[f].hands_minutes);
        fits(k, f, cover, -1);
    }
}

double dw_week__choose(const dw_week__problem *p, int day,
                       const dw_week__menu *const menus[DW_WEEK_FORMULAS],
                       dw_week__cover covers[DW_WEEK_FORMULAS])
{
    kitchen k = {
        .problem = p, .day = day, .menus = menus, .best = DW_WEEK__INFINITE};
    for (int m = 0; m < p->mixers_count; m++)
        k.minutes[m] = p->fixed_minutes[m][day];
    for (int f = 0; f < p->formulas_count; f++) {
        k.balls_minutes += menus[f]->balls / p->ask->balls_per_minute;
        if (menus[f]->count == 0)
            return DW_WEEK__INFINITE;
    }
    for (int i = p->formulas_count - 1; i >= 0; i--)
        k.least_after[i] =
            k.least_after[i + 1] + menus[p->by_close[i]]->at[0].cost;
    choose(&k, 0, 0, 0);
    if (k.best < DW_WEEK__INFINITE)
        for (int f = 0; f < p->formulas_count; f++)
            covers[f] = menus[f]->at[k.best_pick[f]];
    return k.best;
}

double dw_week__day(const dw_week__problem *p, const dw_week__plan *plan,
                    int day, dw_week__cover covers[DW_WEEK_FORMULAS])
{
    dw_week__menu menus[DW_WEEK_FORMULAS];
    const dw_week__menu *list[DW_WEEK_FORMULAS];
    for (int f = 0; f < p->formulas_count; f++) {
        dw_week__menu_of(p, plan, day, f, &menus[f]);
        list[f] = &menus[f];
    }
    return dw_week__choose(p, day, list, covers);
}
