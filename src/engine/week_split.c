/* Which balls come from which batch. */
#include "engine/week.h"

#include <string.h>

#define SLACK_KG 1e-9

typedef struct table {
    const dw_week__problem *problem;
    const dw_week__formula *formula;
    dw_week__split *split;
    int sorted[DW_WEEK_PRODUCTS]; /* the formula's, heaviest ball first */
    int left[DW_WEEK_PRODUCTS];   /* not yet placed, by product */
    int placed[DW_WEEK__BATCHES]; /* balls */
} table;

static void heaviest_first(table *a)
{
    const dw_week__formula *f = a->formula;
    for (int i = 0; i < f->products_count; i++) {
        int j = i;
        for (; j > 0 && a->problem->products[a->sorted[j - 1]].kg <
                            a->problem->products[f->products[i]].kg;
             j--)
            a->sorted[j] = a->sorted[j - 1];
        a->sorted[j] = f->products[i];
    }
}

static bool takes(const table *a, int b, int product)
{
    int bench = a->formula->bench_balls;
    return a->split->kg[b] + a->problem->products[product].kg <=
               a->split->options[b]->most_kg + SLACK_KG &&
           (bench == 0 || a->placed[b] < bench);
}

static void place(table *a, int b, int product, int balls)
{
    a->split->balls[b][product] += balls;
    a->split->kg[b] += balls * a->problem->products[product].kg;
    a->placed[b] += balls;
    a->left[product] -= balls;
}

/* Balls of a size until the batch has `kg`, the last one over it, as far as the
 * mixer and the bench allow. */
static void fill_to(table *a, int b, double kg)
{
    for (int j = 0; j < a->formula->products_count; j++) {
        int i = a->sorted[j], bench = a->formula->bench_balls;
        double each = a->problem->products[i].kg;
        double want = (kg - SLACK_KG - a->split->kg[b]) / each;
        double fit =
            (a->split->options[b]->most_kg + SLACK_KG - a->split->kg[b]) / each;
        int balls = want > 0 ? (int)want + 1 : 0;
        balls = balls > (int)fit ? (int)fit : balls;
        balls = balls > a->left[i] ? a->left[i] : balls;
        if (bench > 0 && balls > bench - a->placed[b])
            balls = bench - a->placed[b];
        if (balls > 0)
            place(a, b, i, balls);
    }
}

/* Whole sizes are filled before odd ones get more than their least. */
static void aims_of(const table *a, double kg, double *aim)
{
    const dw_week__split *s = a->split;
    double least = 0, whole = 0, odd = 0;
    for (int b = 0; b < s->count; b++) {
        least += s->options[b]->least_kg;
        if (s->options[b]->whole_size)
            whole += s->options[b]->most_kg;
        else
            odd += s->options[b]->most_kg - s->options[b]->least_kg;
    }
    double for_whole = kg - least < whole ? kg - least : whole;
    double rest = kg - least - for_whole;
    for (int b = 0; b < s->count; b++) {
        const dw_week__option *o = s->options[b];
        if (o->whole_size)
            aim[b] = whole > 0 ? o->most_kg * for_whole / whole : 0;
        else
            aim[b] = o->least_kg +
                     (odd > 0 ? (o->most_kg - o->least_kg) * rest / odd : 0);
    }
}

/* Batches below the mixer's least get balls from those that can spare them. */
static void raise_low(table *a)
{
    dw_week__split *s = a->split;
    for (int b = 0; b < s->count; b++)
        for (int from = 0; from < s->count; from++)
            for (int j = 0; j < a->formula->products_count; j++) {
                int i = a->sorted[j];
                double kg = a->problem->products[i].kg;
                while (s->kg[b] < s->options[b]->least_kg - SLACK_KG &&
                       from != b && s->balls[from][i] > 0 &&
                       s->kg[from] - kg >=
                           s->options[from]->least_kg - SLACK_KG &&
                       takes(a, b, i)) {
                    place(a, from, i, -1);
                    place(a, b, i, 1);
                }
            }
}

static void list_batches(const dw_week__cover *cover, const dw_week__formula *f,
                         dw_week__split *split)
{
    for (int o = 0; o < f->options_count; o++)
        for (int n = 0; n < cover->count[o]; n++)
            split->options[split->count++] = &f->options[o];
}

int dw_week__split_day(const dw_week__problem *p, const dw_week__plan *plan,
                       int day, int formula, const dw_week__cover *cover,
                       dw_week__split *split)
{
    table a = {.problem = p, .formula = &p->formulas[formula], .split = split};
    double kg = 0, aim[DW_WEEK__BATCHES] = {0};
    memset(split, 0, sizeof *split);
    list_batches(cover, a.formula, split);
    heaviest_first(&a);
    for (int j = 0; j < a.formula->products_count; j++) {
        int i = a.sorted[j];
        a.left[i] = plan->made[i][day];
        kg += a.left[i] * p->products[i].kg;
    }
    aims_of(&a, kg, aim);
    for (int b = 0; b < split->count; b++)
        fill_to(&a, b, aim[b]);
    for (int b = 0; b < split->count; b++)
        fill_to(&a, b, split->options[b]->most_kg);
    raise_low(&a);
    for (int b = 0; b < split->count; b++)
        if (split->kg[b] < split->options[b]->least_kg - SLACK_KG)
            return DW_WEEK__TOO_LITTLE;
    for (int j = 0; j < a.formula->products_count; j++)
        if (a.left[a.sorted[j]] > 0)
            return a.sorted[j];
    return DW_WEEK__SPLIT;
}
