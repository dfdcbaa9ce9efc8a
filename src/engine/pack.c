#include "engine/pack.h"

#include <math.h>
#include <string.h>

/* Leaves looked at for one menu, and patterns looked at in one search: both
 * bound the time of a call to some tens of milliseconds. */
static const long LEAVES = 2000000, LOOKS = 4000000;

int dw_pack__fit(double kg, double piece_kg)
{
    double n = floor((kg + 1e-9) / piece_kg);
    return n < 0 ? 0 : n > INT16_MAX ? INT16_MAX : (int)n;
}

/* --- the menu: a heap of the cheapest patterns, dearest on top --------- */

static void sift_down(dw_pack__pattern *heap, size_t count, size_t i)
{
    for (;;) {
        size_t top = i, left = 2 * i + 1;
        for (size_t k = left; k < left + 2 && k < count; k++)
            if (heap[k].cost_kg > heap[top].cost_kg)
                top = k;
        if (top == i)
            return;
        dw_pack__pattern kept = heap[i];
        heap[i] = heap[top];
        heap[top] = kept;
        i = top;
    }
}

static void sift_up(dw_pack__pattern *heap, size_t i)
{
    while (i > 0 && heap[(i - 1) / 2].cost_kg < heap[i].cost_kg) {
        dw_pack__pattern kept = heap[i];
        heap[i] = heap[(i - 1) / 2];
        heap[(i - 1) / 2] = kept;
        i = (i - 1) / 2;
    }
}

static void keep(dw_pack__menu *menu, const dw_pack__pattern *pattern)
{
    if (menu->count < DW_PACK__PATTERNS) {
        menu->at[menu->count] = *pattern;
        sift_up(menu->at, menu->count++);
        return;
    }
    menu->cut = true;
    if (pattern->cost_kg < menu->at[0].cost_kg) {
        menu->at[0] = *pattern;
        sift_down(menu->at, menu->count, 0);
    }
}

static void cheapest_first(dw_pack__menu *menu)
{
    for (size_t n = menu->count; n > 1; n--) {
        dw_pack__pattern top = menu->at[0];
        menu->at[0] = menu->at[n - 1];
        menu->at[n - 1] = top;
        sift_down(menu->at, n - 1, 0);
    }
}

typedef struct lister {
    const dw_pack__problem *problem;
    dw_pack__menu *menu;
    dw_pack__pattern now;
    bool ordered_only; /* no size beyond what is ordered */
    long leaves;
} lister;

static void leaf(lister *l, int last, double left_kg)
{
    const dw_pack__problem *p = l->problem;
    size_t s = p->sizes - 1;
    l->now.n[s] = (int16_t)last;
    int parts = 0;
    for (size_t i = 0; i < p->sizes; i++)
        parts += p->box[i] > 0 && l->now.n[i] % p->box[i] != 0;
    l->now.cost_kg = left_kg - last * p->piece_kg[s] + p->part_box_kg * parts;
    l->leaves++;
    keep(l->menu, &l->now);
}

/* Of the last size only two counts can be best: all that fit, and the most
 * that fill whole boxes. Fewer cost more dough and save no box. */
static void list_from(lister *l, size_t s, double left_kg, int left_balls)
{
    const dw_pack__problem *p = l->problem;
    int most = dw_pack__fit(left_kg, p->piece_kg[s]);
    if (most > left_balls)
        most = left_balls;
    if (s + 1 == p->sizes) {
        leaf(l, most, left_kg);
        int over = p->box[s] > 0 ? most % p->box[s] : 0;
        if (over > 0 && p->part_box_kg > 0)
            leaf(l, most - over, left_kg);
        return;
    }
    if (l->ordered_only && most > p->need[s])
        most = p->need[s];
    for (int n = most; n >= 0 && l->leaves < LEAVES; n--) {
        l->now.n[s] = (int16_t)n;
        list_from(l, s + 1, left_kg - n * p->piece_kg[s], left_balls - n);
    }
}

void dw_pack__list(const dw_pack__problem *problem, double usable_kg,
                   dw_pack__menu *menu)
{
    menu->usable_kg = usable_kg;
    menu->count = 0;
    menu->cut = false;
    lister l = {.problem = problem, .menu = menu};
    list_from(&l, 0, usable_kg, problem->bench);
    bool all = l.leaves < LEAVES;
    if (!all) {
        menu->count = 0;
        l = (lister){.problem = problem, .menu = menu, .ordered_only = true};
        list_from(&l, 0, usable_kg, problem->bench);
        menu->cut = true;
    }
    cheapest_first(menu);
    /* A short list says nothing about the patterns it never saw. */
    menu->least_kg = all ? menu->at[0].cost_kg : 0;
}

/* --- branch and bound over the batches ------------------------------- */

typedef struct searcher {
    const dw_pack__problem *problem;
    dw_pack__answer *best;
    size_t pick[DW_PACK_BATCHES];
    double least_from[DW_PACK_BATCHES + 1];  /* cost of batches j.. */
    double usable_from[DW_PACK_BATCHES + 1]; /* room of batches j.. */
    long looks;
    bool complete;
} searcher;

static bool hopeless(const searcher *s, size_t from, const int *need)
{
    const dw_pack__problem *p = s->problem;
    double kg = 0;
    long balls = 0;
    for (size_t i = 0; i < p->sizes; i++) {
        kg += need[i] * p->piece_kg[i];
        balls += need[i];
    }
    return kg > s->usable_from[from] + 1e-9 ||
           balls > (long)(p->batches - from) * p->bench;
}

static void remember(searcher *s, double cost_kg)
{
    const dw_pack__problem *p = s->problem;
    s->best->found = true;
    s->best->cost_kg = cost_kg;
    for (size_t j = 0; j < p->batches; j++)
        memcpy(s->best->n[j], p->menu[j]->at[s->pick[j]].n,
               sizeof s->best->n[j]);
}

static void search_from(searcher *s, size_t j, double cost_kg, const int *need)
{
    const dw_pack__problem *p = s->problem;
    if (j == p->batches) {
        remember(s, cost_kg);
        return;
    }
    const dw_pack__menu *menu = p->menu[j];
    /* Equal batches are told apart by nothing: take them in one order. */
    size_t i = j > 0 && p->menu[j - 1] == menu ? s->pick[j - 1] : 0;
    for (; i < menu->count; i++) {
        double sum = cost_kg + menu->at[i].cost_kg;
        if (s->best->found &&
            sum + s->least_from[j + 1] >= s->best->cost_kg - DW_PACK_SLACK_KG)
            return;
        if (++s->looks > LOOKS) {
            s->complete = false;
            return;
        }
        int left[DW_PACK_SIZES];
        for (size_t k = 0; k < p->sizes; k++) {
            int gap = need[k] - menu->at[i].n[k];
            left[k] = gap > 0 ? gap : 0;
        }
        if (hopeless(s, j + 1, left))
            continue;
        s->pick[j] = i;
        search_from(s, j + 1, sum, left);
    }
    if (menu->cut)
        s->complete = false;
}

/* Fill batch after batch, largest balls first. Sizes come largest first. */
static bool fill_in_turn(const dw_pack__problem *p,
                         int16_t n[DW_PACK_BATCHES][DW_PACK_SIZES])
{
    int need[DW_PACK_SIZES];
    memcpy(need, p->need, sizeof need);
    int open = 0;
    for (size_t j = 0; j < p->batches; j++) {
        double left_kg = p->menu[j]->usable_kg;
        int left_balls = p->bench;
        open = 0;
        for (size_t i = 0; i < p->sizes; i++) {
            int take = dw_pack__fit(left_kg, p->piece_kg[i]);
            take = take < need[i] ? take : need[i];
            take = take < left_balls ? take : left_balls;
            n[j][i] = (int16_t)take;
            left_kg -= take * p->piece_kg[i];
            left_balls -= take;
            need[i] -= take;
            open += need[i];
        }
    }
    return open == 0;
}

static bool holds(const dw_pack__pattern *pattern, const int16_t *n,
                  size_t sizes)
{
    for (size_t k = 0; k < sizes; k++)
        if (pattern->n[k] < n[k])
            return false;
    return true;
}

/* A packing that holds the order, each batch filled up as cheaply as can be. */
static void start_from(searcher *s, int16_t n[DW_PACK_BATCHES][DW_PACK_SIZES])
{
    const dw_pack__problem *p = s->problem;
    double cost_kg = 0;
    for (size_t j = 0; j < p->batches; j++) {
        const dw_pack__menu *menu = p->menu[j];
        size_t i = 0;
        while (i < menu->count && !holds(&menu->at[i], n[j], p->sizes))
            i++;
        if (i == menu->count)
            return;
        s->pick[j] = i;
        cost_kg += menu->at[i].cost_kg;
    }
    remember(s, cost_kg);
}

void dw_pack__search(const dw_pack__problem *problem,
                     int16_t (*start)[DW_PACK_SIZES], dw_pack__answer *answer)
{
    memset(answer, 0, sizeof *answer);
    searcher s = {.problem = problem, .best = answer, .complete = true};
    for (size_t j = problem->batches; j-- > 0;) {
        s.least_from[j] = s.least_from[j + 1] + problem->menu[j]->least_kg;
        s.usable_from[j] = s.usable_from[j + 1] + problem->menu[j]->usable_kg;
    }
    if (hopeless(&s, 0, problem->need))
        return;
    int16_t turn[DW_PACK_BATCHES][DW_PACK_SIZES];
    if (start)
        start_from(&s, start);
    else if (fill_in_turn(problem, turn))
        start_from(&s, turn);
    search_from(&s, 0, 0, problem->need);
    if (!answer->found)
        return;
    answer->proved =
        s.complete || answer->cost_kg <= s.least_from[0] + DW_PACK_SLACK_KG;
    answer->bound_kg = answer->proved ? answer->cost_kg : s.least_from[0];
}
