/* The request in numbers: names become indices, spreads become chances. */
#include "engine/week.h"

#include "doughwright/say.h"

#include <string.h>

/* What is beyond this chance is not carried. */
#define TAIL 1e-9

static dw_status no_room(dw_err *err)
{
    return dw_fail(err, DW_E_ROOM, "plan", NULL);
}

static dw_status inside(dw_err *err, const char *list, size_t i, dw_status bad)
{
    return bad == DW_OK ? DW_OK : dw_err_within_item(err, list, i);
}

static dw_status by_day(dw_err *err, const char *field, size_t count,
                        int64_t days, bool may_be_none)
{
    if (count == (size_t)days || (may_be_none && count == 0))
        return DW_OK;
    return dw_fail_range(err, field, (double)count, (double)days, (double)days);
}

/* ---- names --------------------------------------------------------------- */

static int mixer_named(const dw_week_request *ask, const char *name)
{
    for (size_t i = 0; i < ask->mixers_count; i++)
        if (dw_text_is(ask->mixers[i].name, name))
            return (int)i;
    return -1;
}

static int formula_named(const dw_week_request *ask, const char *name)
{
    for (size_t i = 0; i < ask->formulas_count; i++)
        if (dw_text_is(ask->formulas[i].name, name))
            return (int)i;
    return -1;
}

static int product_named(const dw_week_request *ask, const char *name)
{
    for (size_t i = 0; i < ask->products_count; i++)
        if (dw_text_is(ask->products[i].name, name))
            return (int)i;
    return -1;
}

static dw_status names_once(const dw_week_request *ask, dw_err *err)
{
    for (size_t i = 0; i < ask->mixers_count; i++)
        if (mixer_named(ask, ask->mixers[i].name) != (int)i)
            return inside(
                err, "mixers", i,
                dw_fail(err, DW_E_CONFLICT, "name", ask->mixers[i].name));
    for (size_t i = 0; i < ask->formulas_count; i++)
        if (formula_named(ask, ask->formulas[i].name) != (int)i)
            return inside(
                err, "formulas", i,
                dw_fail(err, DW_E_CONFLICT, "name", ask->formulas[i].name));
    for (size_t i = 0; i < ask->products_count; i++)
        if (product_named(ask, ask->products[i].name) != (int)i)
            return inside(
                err, "products", i,
                dw_fail(err, DW_E_CONFLICT, "name", ask->products[i].name));
    return DW_OK;
}

/* ---- formulas ------------------------------------------------------------ */

static void add_option(dw_week__formula *out, const dw_week_formula *from,
                       const dw_week_bowl *bowl, int mixer)
{
    for (size_t k = 0; k < from->sizes_kg_count; k++)
        if (from->sizes_kg[k] <= bowl->most_kg &&
            from->sizes_kg[k] >= bowl->least_kg)
            out->options[out->options_count++] = (dw_week__option){
                mixer, true, 0, from->sizes_kg[k], bowl->minutes, 0};
    double odd = from->sizes_kg_count > 0 ? from->odd_cost : 0;
    out->options[out->options_count++] = (dw_week__option){
        mixer, false, bowl->least_kg, bowl->most_kg, bowl->minutes, odd};
}

static dw_status pose_formula(const dw_week_request *ask,
                              const dw_week_formula *from,
                              dw_week__formula *out, dw_err *err)
{
    if (from->sizes_kg_count > DW_WEEK_SIZES)
        return dw_fail_range(err, "sizes_kg", (double)from->sizes_kg_count, 0,
                             DW_WEEK_SIZES);
    DW_TRY(
        by_day(err, "start_costs", from->start_costs_count, ask->days, true));
    for (size_t b = 0; b < from->bowls_count; b++) {
        const dw_week_bowl *bowl = &from->bowls[b];
        int mixer = mixer_named(ask, bowl->mixer);
        if (mixer < 0)
            return inside(err, "bowls", b,
                          dw_fail(err, DW_E_NOT_FOUND, "mixer", bowl->mixer));
        if (bowl->least_kg > bowl->most_kg)
            return inside(err, "bowls", b,
                          dw_fail_range(err, "least_kg", bowl->least_kg, 0,
                                        bowl->most_kg));
        add_option(out, from, bowl, mixer);
    }
    out->start_cost = from->start_cost;
    out->start_costs = from->start_costs_count > 0 ? from->start_costs : NULL;
    out->spare_cost_per_kg = from->spare_cost_per_kg;
    out->hands_minutes = from->hands_minutes;
    out->close_minutes = from->close_minutes;
    out->bench_balls = (int)from->bench_balls;
    return DW_OK;
}

static void longest_to_close_first(dw_week__problem *p)
{
    for (int i = 0; i < p->formulas_count; i++) {
        int j = i;
        for (; j > 0 && p->formulas[p->by_close[j - 1]].close_minutes <
                            p->formulas[i].close_minutes;
             j--)
            p->by_close[j] = p->by_close[j - 1];
        p->by_close[j] = i;
    }
}

/* ---- demand -------------------------------------------------------------- */

/* Each chance is shared by the two points about it, so that the mean stays. */
static void thin_out(dw_week__chances *c)
{
    c->few_step = (c->count + DW_WEEK__FEW - 2) / (DW_WEEK__FEW - 1);
    c->few_step = c->few_step < 1 ? 1 : c->few_step;
    c->few_count = (c->count - 1 + c->few_step - 1) / c->few_step + 1;
    for (int k = 0; k < c->count; k++) {
        int at = k / c->few_step, beyond = k % c->few_step;
        double share = (double)beyond / c->few_step;
        c->few[at] += c->at[k] * (1 - share);
        if (beyond > 0)
            c->few[at + 1] += c->at[k] * share;
    }
}

/* mean and lost[k] = E(D - (low + k))+ from the chances, from above. */
static dw_status sum_up(dw_week__chances *c, dw_arena *arena, dw_err *err)
{
    c->lost = DW_NEW_ARRAY(arena, double, (size_t)c->count + 1);
    if (!c->lost)
        return no_room(err);
    double above = 0;
    for (int k = c->count - 1; k >= 0; k--) {
        c->lost[k] = c->lost[k + 1] + above;
        above += c->at[k];
        c->mean += c->at[k] * (c->low + k);
    }
    thin_out(c);
    return DW_OK;
}

static dw_status pose_spread(const dw_spread *spread, dw_arena *arena,
                             dw_week__chances *c, dw_err *err)
{
    int64_t low = dw_spread_quantile(spread, TAIL);
    int64_t high = dw_spread_quantile(spread, 1 - TAIL);
    if (high > DW_WEEK_BALLS)
        return dw_fail_range(err, "spread", (double)high, 0, DW_WEEK_BALLS);
    c->low = (int)low;
    c->count = (int)(high - low + 1);
    dw_arena start = *arena;
    double *all = DW_NEW_ARRAY(arena, double, (size_t)high + 1);
    if (!all)
        return no_room(err);
    dw_spread_masses(spread, all, (size_t)high + 1);
    double sum = 0;
    for (int k = 0; k < c->count; k++)
        sum += all[c->low + k];
    for (int k = 0; k < c->count; k++)
        all[k] = all[c->low + k] / sum;
    *arena = start; /* keep only the front */
    c->at = all;
    arena->used = (size_t)((unsigned char *)(all + c->count) - arena->base);
    return sum_up(c, arena, err);
}

static dw_status pose_counts(const dw_week_wanted *from, dw_arena *arena,
                             dw_week__chances *c, dw_err *err)
{
    int64_t low = from->counts[0], high = low;
    double sum = from->chances_count > 0 ? 0 : 1;
    for (size_t i = 0; i < from->counts_count; i++) {
        low = from->counts[i] < low ? from->counts[i] : low;
        high = from->counts[i] > high ? from->counts[i] : high;
        sum += from->chances_count > 0 ? from->chances[i] : 0;
    }
    if (!(sum > 1 - 1e-6 && sum < 1 + 1e-6))
        return dw_fail_says(err, DW_E_SUM, "chances", NULL,
                            DW_MSG("must add up to 1"));
    c->low = (int)low;
    c->count = (int)(high - low + 1);
    c->at = DW_NEW_ARRAY(arena, double, (size_t)c->count);
    if (!c->at)
        return no_room(err);
    for (size_t i = 0; i < from->counts_count; i++)
        c->at[from->counts[i] - low] +=
            from->chances_count > 0 ? from->chances[i] / sum : 1;
    return sum_up(c, arena, err);
}

static dw_status pose_wanted(const dw_week_wanted *from, dw_arena *arena,
                             dw_week__chances *c, dw_err *err)
{
    memset(c, 0, sizeof *c);
    if (from->has_spread == (from->counts_count > 0))
        return dw_fail_says(
            err, from->has_spread ? DW_E_CONFLICT : DW_E_MISSING, "spread",
            NULL, DW_MSG("or counts must be given, one of them"));
    if (from->has_spread)
        return pose_spread(&from->spread, arena, c, err);
    size_t n = from->counts_count, chances = from->chances_count;
    if (n > DW_WEEK_COUNTS)
        return dw_fail_range(err, "counts", (double)n, 1, DW_WEEK_COUNTS);
    if (chances != n && !(n == 1 && chances == 0))
        return dw_fail_range(err, "chances", (double)chances, (double)n,
                             (double)n);
    return pose_counts(from, arena, c, err);
}

/* ---- products ------------------------------------------------------------ */

static dw_status pose_product(const dw_week_request *ask,
                              const dw_week_product *from, dw_arena *arena,
                              dw_week__problem *p, dw_err *err)
{
    dw_week__product *out = &p->products[p->products_count];
    out->formula = formula_named(ask, from->formula);
    if (out->formula < 0)
        return dw_fail(err, DW_E_NOT_FOUND, "formula", from->formula);
    if (from->latest_days < from->earliest_days)
        return dw_fail_range(err, "latest_days", (double)from->latest_days,
                             (double)from->earliest_days, DW_WEEK_LIFE - 1);
    DW_TRY(by_day(err, "wanted", from->wanted_count, ask->days, false));
    DW_TRY(by_day(err, "make_costs", from->make_costs_count, ask->days, true));
    const dw_week_formula *formula = &ask->formulas[out->formula];
    out->earliest = (int)from->earliest_days;
    out->latest = (int)from->latest_days;
    out->kg = from->ball_kg / (1 - formula->loss_percent / 100);
    out->per_box = from->per_box;
    out->lost_cost = from->lost_cost;
    out->thrown_cost = from->thrown_cost;
    out->holding_cost = from->holding_cost;
    out->make_costs = from->make_costs_count > 0 ? from->make_costs : NULL;
    out->ball_cost = ask->labour_cost_per_h / 60 / ask->balls_per_minute;
    for (size_t t = 0; t < from->wanted_count; t++)
        DW_TRY(
            inside(err, "wanted", t,
                   pose_wanted(&from->wanted[t], arena, &out->wanted[t], err)));
    dw_week__formula *of = &p->formulas[out->formula];
    of->products[of->products_count++] = p->products_count++;
    return DW_OK;
}

/* ---- what is there, what is fixed ---------------------------------------- */

static dw_status pose_stock(const dw_week_request *ask, dw_week__problem *p,
                            dw_err *err)
{
    for (size_t i = 0; i < ask->stock_count; i++) {
        const dw_week_stock *row = &ask->stock[i];
        int at = product_named(ask, row->product);
        if (at < 0)
            return inside(
                err, "stock", i,
                dw_fail(err, DW_E_NOT_FOUND, "product", row->product));
        dw_week__product *product = &p->products[at];
        if (row->age_days > product->latest) {
            product->past += (int)row->balls;
            continue;
        }
        product->kept[DW_WEEK__PAST - row->age_days] += (int)row->balls;
        product->there += (int)row->balls;
    }
    return DW_OK;
}

static const dw_week_bowl *bowl_of(const dw_week_formula *formula,
                                   const char *mixer)
{
    for (size_t b = 0; b < formula->bowls_count; b++)
        if (dw_text_is(formula->bowls[b].mixer, mixer))
            return &formula->bowls[b];
    return NULL;
}

static dw_status find_names(const dw_week_request *ask,
                            const dw_week_batch *batch, dw_err *err,
                            int *formula, int *mixer)
{
    *formula = formula_named(ask, batch->formula);
    *mixer = mixer_named(ask, batch->mixer);
    if (*formula < 0)
        return dw_fail(err, DW_E_NOT_FOUND, "formula", batch->formula);
    return *mixer < 0 ? dw_fail(err, DW_E_NOT_FOUND, "mixer", batch->mixer)
                      : DW_OK;
}

static dw_status pose_batch(const dw_week_request *ask,
                            const dw_week_batch *batch, dw_week__problem *p,
                            dw_err *err)
{
    int formula, mixer;
    DW_TRY(find_names(ask, batch, err, &formula, &mixer));
    DW_TRY(dw_check_range(err, "day", (double)batch->day, 0,
                          (double)ask->days - 1));
    const dw_week_bowl *bowl = bowl_of(&ask->formulas[formula], batch->mixer);
    double minutes = bowl ? bowl->minutes : 0;
    double hands = p->formulas[formula].hands_minutes;
    for (size_t i = 0; i < batch->pieces_count; i++) {
        int at = product_named(ask, batch->pieces[i].product);
        if (at < 0)
            return inside(err, "pieces", i,
                          dw_fail(err, DW_E_NOT_FOUND, "product",
                                  batch->pieces[i].product));
        int balls = (int)batch->pieces[i].balls;
        p->products[at].kept[DW_WEEK__PAST + batch->day] += balls;
        hands += balls / ask->balls_per_minute;
    }
    p->fixed_minutes[mixer][batch->day] += minutes;
    p->fixed_hands[batch->day] += hands;
    return DW_OK;
}

static dw_status pose_before(const dw_week_request *ask,
                             const dw_week_batch *batch, dw_week__problem *p,
                             dw_err *err)
{
    int formula, mixer;
    DW_TRY(find_names(ask, batch, err, &formula, &mixer));
    if (batch->day < ask->days)
        p->before[batch->day][formula][mixer]++;
    return DW_OK;
}

static dw_status pose_days(const dw_week_request *ask, dw_week__problem *p,
                           dw_err *err)
{
    DW_TRY(by_day(err, "each_day", ask->each_day_count, ask->days, true));
    for (int t = 0; t < p->days; t++) {
        static const dw_week_day plain = {.locked = false};
        const dw_week_day *day =
            ask->each_day_count > 0 ? &ask->each_day[t] : &plain;
        p->locked[t] = day->locked;
        p->hands[t] =
            day->has_hands_minutes ? day->hands_minutes : DW_WEEK__INFINITE;
        p->overtime[t] = day->overtime_minutes;
        p->window[t] =
            day->has_window_minutes ? day->window_minutes : DW_WEEK__INFINITE;
    }
    for (int m = 0; m < p->mixers_count; m++) {
        const dw_week_mixer *mixer = &ask->mixers[m];
        if (by_day(err, "minutes", mixer->minutes_count, ask->days, true) !=
            DW_OK)
            return dw_err_within_item(err, "mixers", (size_t)m);
        p->limited[m] = mixer->minutes_count > 0;
        for (int t = 0; t < p->days; t++)
            p->minutes[m][t] =
                p->limited[m] ? mixer->minutes[t] : DW_WEEK__INFINITE;
    }
    return DW_OK;
}

static void price_of_over(dw_week__problem *p)
{
    double most = 1;
    for (int i = 0; i < p->products_count; i++) {
        const dw_week__product *one = &p->products[i];
        double box = one->per_box * (one->lost_cost + one->thrown_cost);
        most = box > most ? box : most;
    }
    p->over_cost = 20 * most;
}

dw_status dw_week__pose(const dw_week_request *ask, dw_arena *arena,
                        dw_week__problem *p, dw_err *err)
{
    memset(p, 0, sizeof *p);
    p->ask = ask;
    p->days = (int)ask->days;
    p->mixers_count = (int)ask->mixers_count;
    p->formulas_count = (int)ask->formulas_count;
    p->boxes = ask->has_boxes ? ask->boxes : DW_WEEK__INFINITE;
    p->slots = ask->has_slots ? ask->slots : DW_WEEK__INFINITE;
    DW_TRY(names_once(ask, err));
    DW_TRY(pose_days(ask, p, err));
    for (size_t i = 0; i < ask->formulas_count; i++)
        DW_TRY(
            inside(err, "formulas", i,
                   pose_formula(ask, &ask->formulas[i], &p->formulas[i], err)));
    longest_to_close_first(p);
    for (size_t i = 0; i < ask->products_count; i++)
        DW_TRY(inside(err, "products", i,
                      pose_product(ask, &ask->products[i], arena, p, err)));
    DW_TRY(pose_stock(ask, p, err));
    for (size_t i = 0; i < ask->fixed_count; i++)
        DW_TRY(
            inside(err, "fixed", i, pose_batch(ask, &ask->fixed[i], p, err)));
    p->has_before = ask->before_count > 0;
    for (size_t i = 0; i < ask->before_count; i++)
        DW_TRY(inside(err, "before", i,
                      pose_before(ask, &ask->before[i], p, err)));
    price_of_over(p);
    return DW_OK;
}
