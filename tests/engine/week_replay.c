#include "week_replay.h"

#include <math.h>
#include <string.h>

enum { BEFORE = 21 }; /* oldest age in days */

typedef struct shelf {
    int64_t balls[BEFORE + DW_WEEK_DAYS]; /* by day of making + BEFORE */
} shelf;

static bool same(const char *a, const char *b)
{
    return strcmp(a, b) == 0;
}

static void put_kept(const dw_week_request *ask, const char *name, int64_t day,
                     shelf *s)
{
    for (size_t i = 0; day == 0 && i < ask->stock_count; i++)
        if (same(ask->stock[i].product, name))
            s->balls[BEFORE - ask->stock[i].age_days] += ask->stock[i].balls;
    for (size_t i = 0; i < ask->fixed_count; i++)
        for (size_t j = 0; j < ask->fixed[i].pieces_count; j++)
            if (ask->fixed[i].day == day &&
                same(ask->fixed[i].pieces[j].product, name))
                s->balls[BEFORE + day] += ask->fixed[i].pieces[j].balls;
}

static int64_t count(const shelf *s)
{
    int64_t n = 0;
    for (int k = 0; k < BEFORE + DW_WEEK_DAYS; k++)
        n += s->balls[k];
    return n;
}

/* Throw away what may not be used after `day`. */
static int64_t throw_old(shelf *s, int64_t day, int64_t latest)
{
    int64_t n = 0;
    for (int64_t k = 0; k < BEFORE + DW_WEEK_DAYS; k++)
        if (day - (k - BEFORE) >= latest) {
            n += s->balls[k];
            s->balls[k] = 0;
        }
    return n;
}

static int64_t hand_out(shelf *s, int64_t day, int64_t earliest, int64_t latest,
                        int64_t wanted, replay *out)
{
    int64_t sold = 0;
    for (int64_t k = 0; k < BEFORE + DW_WEEK_DAYS && wanted > 0; k++) {
        int64_t age = day - (k - BEFORE);
        if (age < earliest)
            break;
        int64_t n = s->balls[k] < wanted ? s->balls[k] : wanted;
        out->late += n > 0 && age > latest;
        s->balls[k] -= n;
        wanted -= n;
        sold += n;
    }
    return sold;
}

void replay_product(const dw_week_request *ask, size_t product,
                    const int64_t *made, const int64_t *demand, replay *out)
{
    const dw_week_product *p = &ask->products[product];
    static shelf s; /* large */
    memset(&s, 0, sizeof s);
    memset(out, 0, sizeof *out);
    for (int64_t t = 0; t < ask->days; t++) {
        int64_t eve = count(&s);
        put_kept(ask, p->name, t, &s);
        s.balls[BEFORE + t] += made[t];
        out->made += (double)(count(&s) - eve);
        if (t == 0) /* of the eve, not made */
            out->thrown += (double)throw_old(&s, -1, p->latest_days);
        out->boxes_before[t] = (double)count(&s);
        int64_t sold =
            hand_out(&s, t, p->earliest_days, p->latest_days, demand[t], out);
        out->sold += (double)sold;
        out->lost += (double)(demand[t] - sold);
        out->thrown += (double)throw_old(&s, t, p->latest_days);
        out->left_on[t] = (double)count(&s);
        out->held += out->left_on[t];
    }
    out->left = (double)count(&s);
}

int64_t replay_made(const dw_week_reply *plan, const char *product, int64_t day)
{
    int64_t n = 0;
    for (size_t b = 0; b < plan->batches_count; b++)
        for (size_t j = 0; j < plan->batches[b].pieces_count; j++)
            if (!plan->batches[b].fixed && plan->batches[b].day == day &&
                same(plan->batches[b].pieces[j].product, product))
                n += plan->batches[b].pieces[j].balls;
    return n;
}

static const dw_week_formula *formula_of(const dw_week_request *ask,
                                         const char *name)
{
    for (size_t i = 0; i < ask->formulas_count; i++)
        if (same(ask->formulas[i].name, name))
            return &ask->formulas[i];
    return NULL;
}

static const dw_week_product *product_of(const dw_week_request *ask,
                                         const char *name)
{
    for (size_t i = 0; i < ask->products_count; i++)
        if (same(ask->products[i].name, name))
            return &ask->products[i];
    return NULL;
}

static bool is_size(const dw_week_formula *f, double kg)
{
    for (size_t i = 0; i < f->sizes_kg_count; i++)
        if (fabs(f->sizes_kg[i] - kg) < 1e-9)
            return true;
    return false;
}

static double hands_on(const dw_week_request *ask, const dw_week_reply *plan,
                       int64_t day)
{
    double minutes = 0;
    for (size_t b = 0; b < plan->batches_count; b++) {
        const dw_week_batch *batch = &plan->batches[b];
        if (batch->day != day)
            continue;
        minutes += formula_of(ask, batch->formula)->hands_minutes;
        for (size_t j = 0; j < batch->pieces_count; j++)
            minutes += (double)batch->pieces[j].balls / ask->balls_per_minute;
    }
    return minutes;
}

double replay_making_cost(const dw_week_request *ask, const dw_week_reply *plan)
{
    double cost = 0, rate = ask->labour_cost_per_h / 60;
    double over_rate = fmax(ask->overtime_cost_per_h / 60, rate);
    for (size_t b = 0; b < plan->batches_count; b++) {
        const dw_week_batch *batch = &plan->batches[b];
        const dw_week_formula *f = formula_of(ask, batch->formula);
        if (batch->fixed)
            continue;
        cost +=
            f->start_costs_count ? f->start_costs[batch->day] : f->start_cost;
        if (f->sizes_kg_count > 0 && !is_size(f, batch->dough_kg))
            cost += f->odd_cost;
        cost += batch->spare_kg * f->spare_cost_per_kg;
        for (size_t j = 0; j < batch->pieces_count; j++) {
            const dw_week_product *p =
                product_of(ask, batch->pieces[j].product);
            if (p->make_costs_count)
                cost +=
                    (double)batch->pieces[j].balls * p->make_costs[batch->day];
        }
    }
    for (int64_t t = 0; t < ask->days; t++) {
        double hands = hands_on(ask, plan, t);
        double paid = ask->each_day_count && ask->each_day[t].has_hands_minutes
                          ? ask->each_day[t].hands_minutes
                          : INFINITY;
        cost += fmin(hands, paid) * rate + fmax(hands - paid, 0) * over_rate;
    }
    return cost;
}

static const dw_week_bowl *bowl_of(const dw_week_request *ask,
                                   const dw_week_batch *batch)
{
    const dw_week_formula *f = formula_of(ask, batch->formula);
    for (size_t i = 0; i < f->bowls_count; i++)
        if (same(f->bowls[i].mixer, batch->mixer))
            return &f->bowls[i];
    return NULL;
}

static int broken_batch(const dw_week_request *ask, const dw_week_batch *batch)
{
    const dw_week_formula *f = formula_of(ask, batch->formula);
    const dw_week_bowl *bowl = bowl_of(ask, batch);
    double kg = 0;
    int64_t balls = 0;
    for (size_t j = 0; j < batch->pieces_count; j++) {
        balls += batch->pieces[j].balls;
        kg += (double)batch->pieces[j].balls *
              product_of(ask, batch->pieces[j].product)->ball_kg /
              (1 - f->loss_percent / 100);
    }
    int bad = !bowl;
    bad += bowl && batch->dough_kg > bowl->most_kg + 1e-6;
    bad += bowl && batch->dough_kg < bowl->least_kg - 1e-6;
    bad += kg + batch->spare_kg > batch->dough_kg + 1e-6;
    bad += f->bench_balls > 0 && balls > f->bench_balls;
    bad += ask->each_day_count > 0 && ask->each_day[batch->day].locked;
    return bad;
}

/* On one mixer: longest to close first; each must end early enough. */
static int broken_window(const dw_week_request *ask, const dw_week_reply *plan,
                         const char *mixer, int64_t day)
{
    if (!ask->each_day_count || !ask->each_day[day].has_window_minutes)
        return 0;
    int bad = 0;
    for (size_t i = 0; i < ask->formulas_count; i++) {
        double minutes = 0, close = ask->formulas[i].close_minutes;
        bool any = false;
        for (size_t b = 0; b < plan->batches_count; b++) {
            const dw_week_batch *batch = &plan->batches[b];
            const dw_week_formula *f = formula_of(ask, batch->formula);
            if (batch->day != day || !same(batch->mixer, mixer) ||
                f->close_minutes < close)
                continue;
            any = any || f == &ask->formulas[i];
            minutes += bowl_of(ask, batch)->minutes;
        }
        bad +=
            any && minutes > ask->each_day[day].window_minutes - close + 1e-6;
    }
    return bad;
}

int replay_broken(const dw_week_request *ask, const dw_week_reply *plan)
{
    int bad = 0;
    for (size_t b = 0; b < plan->batches_count; b++)
        if (!plan->batches[b].fixed)
            bad += broken_batch(ask, &plan->batches[b]);
    for (int64_t t = 0; t < ask->days; t++) {
        for (size_t m = 0; m < ask->mixers_count; m++) {
            double minutes = 0;
            for (size_t b = 0; b < plan->batches_count; b++)
                if (plan->batches[b].day == t &&
                    same(plan->batches[b].mixer, ask->mixers[m].name))
                    minutes += bowl_of(ask, &plan->batches[b])->minutes;
            bad += ask->mixers[m].minutes_count > 0 &&
                   minutes > ask->mixers[m].minutes[t] + 1e-6;
            bad += broken_window(ask, plan, ask->mixers[m].name, t);
        }
        if (ask->each_day_count && ask->each_day[t].has_hands_minutes)
            bad += hands_on(ask, plan, t) >
                   ask->each_day[t].hands_minutes +
                       ask->each_day[t].overtime_minutes + 1e-6;
    }
    return bad;
}
