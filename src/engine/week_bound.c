/* A bound that needs no solver: each ball sold was there already, or cost at
 * least its share of the cheapest full batch, or was lost. */
#include "engine/week.h"

static double least_of(const double *by_day, int days, double otherwise)
{
    double least = otherwise;
    for (int t = 0; by_day && t < days; t++)
        least = t == 0 || by_day[t] < least ? by_day[t] : least;
    return least;
}

/* Of a kg in the cheapest full batch on the cheapest day. */
static double cost_per_kg(const dw_week__problem *p, const dw_week__formula *f)
{
    double least = DW_WEEK__INFINITE;
    double start = least_of(f->start_costs, p->days, f->start_cost) +
                   f->hands_minutes * p->ask->labour_cost_per_h / 60;
    for (int o = 0; o < f->options_count; o++) {
        double per_kg = (start + f->options[o].cost) / f->options[o].most_kg;
        least = per_kg < least ? per_kg : least;
    }
    return least;
}

double dw_week__bound(const dw_week__problem *p)
{
    double bound = 0;
    for (int i = 0; i < p->products_count; i++) {
        const dw_week__product *one = &p->products[i];
        double wanted = 0, kept = 0;
        for (int t = 0; t < p->days; t++)
            wanted += one->wanted[t].mean;
        for (int k = 0; k < DW_WEEK__MADE; k++)
            kept += one->kept[k];
        double each = one->kg * cost_per_kg(p, &p->formulas[one->formula]) +
                      one->ball_cost + least_of(one->make_costs, p->days, 0);
        each = each < one->lost_cost ? each : one->lost_cost;
        bound += wanted > kept ? (wanted - kept) * each : 0;
        bound += one->past * one->thrown_cost;
    }
    for (int t = 0; t < p->days; t++)
        bound += p->fixed_hands[t] * p->ask->labour_cost_per_h / 60;
    return bound;
}
