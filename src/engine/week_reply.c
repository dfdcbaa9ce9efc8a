/* The plan told: batches, stock by age, costs of each day, what is unlike the
 * plan before. */
#include "engine/week.h"

#include <string.h>

static dw_status take(void *memory, dw_arena *arena)
{
    return memory ? DW_OK : DW_E_ROOM;
}

/* ---- batches ------------------------------------------------------------- */

static dw_status tell_batch(const dw_week__problem *p,
                            const dw_week__split *split, int b, int day,
                            int formula, dw_arena *arena, dw_week_batch *out)
{
    const dw_week__option *option = split->options[b];
    double kg = option->whole_size ? option->most_kg : split->kg[b];
    *out = (dw_week_batch){.day = day,
                           .formula = p->ask->formulas[formula].name,
                           .mixer = p->ask->mixers[option->mixer].name,
                           .dough_kg = kg};
    out->spare_kg = kg > split->kg[b] ? kg - split->kg[b] : 0;
    out->pieces = DW_NEW_ARRAY(arena, dw_week_piece,
                               (size_t)p->formulas[formula].products_count);
    DW_TRY(take(out->pieces, arena));
    for (int i = 0; i < p->products_count; i++)
        if (split->balls[b][i] > 0)
            out->pieces[out->pieces_count++] =
                (dw_week_piece){p->ask->products[i].name, split->balls[b][i]};
    return DW_OK;
}

static dw_status tell_batches(const dw_week__problem *p,
                              const dw_week__plan *plan, dw_arena *arena,
                              dw_week_reply *reply)
{
    size_t most = p->ask->fixed_count;
    for (int t = 0; t < p->days; t++)
        for (int f = 0; f < p->formulas_count; f++)
            most += (size_t)plan->covers[t][f].batches;
    reply->batches = DW_NEW_ARRAY(arena, dw_week_batch, most + 1);
    DW_TRY(take(reply->batches, arena));
    for (size_t i = 0; i < p->ask->fixed_count; i++) {
        reply->batches[reply->batches_count] = p->ask->fixed[i];
        reply->batches[reply->batches_count++].fixed = true;
    }
    for (int t = 0; t < p->days; t++)
        for (int f = 0; f < p->formulas_count; f++) {
            dw_week__split split;
            dw_week__split_day(p, plan, t, f, &plan->covers[t][f], &split);
            for (int b = 0; b < split.count; b++)
                DW_TRY(tell_batch(p, &split, b, t, f, arena,
                                  &reply->batches[reply->batches_count++]));
        }
    return DW_OK;
}

/* ---- products ------------------------------------------------------------ */

static int64_t share_of(const dw_week__chances *c, double share)
{
    double sum = 0;
    for (int k = 0; k < c->count; k++) {
        sum += c->at[k];
        if (sum >= share - 1e-12)
            return c->low + k;
    }
    return c->low + c->count - 1;
}

static double at_least_0(double value)
{
    return value > 0 ? value : 0;
}

static dw_status tell_product(const dw_week__problem *p,
                              const dw_week__room *room,
                              const dw_week__plan *plan, int i, dw_arena *arena,
                              dw_week_product_plan *out)
{
    const dw_week__product *one = &p->products[i];
    const dw_week__course *course = &plan->courses[i];
    double wanted = 0, lost = 0;
    int made[DW_WEEK__MADE];
    dw_week__made(p, plan, i, made);
    out->name = p->ask->products[i].name;
    out->lost_to_thrown =
        one->thrown_cost > 0 ? one->lost_cost / one->thrown_cost : 0;
    out->days = DW_NEW_ARRAY(arena, dw_week_product_day, (size_t)p->days);
    DW_TRY(take(out->days, arena));
    out->days_count = (size_t)p->days;
    for (int t = 0; t < p->days; t++) {
        const dw_week__chances *c = &one->wanted[t];
        size_t ages = (size_t)one->latest + 1;
        double *by_age = DW_NEW_ARRAY(arena, double, ages);
        DW_TRY(take(by_age, arena));
        dw_week__ages(one, t, made, room, by_age);
        wanted += c->mean;
        lost += course->lost[t];
        out->days[t] =
            (dw_week_product_day){.day = t,
                                  .wanted = c->mean,
                                  .wanted_low = share_of(c, 0.1),
                                  .wanted_high = share_of(c, 0.9),
                                  .made = made[DW_WEEK__PAST + t],
                                  .ready = at_least_0(course->ready[t]),
                                  .lost = at_least_0(course->lost[t]),
                                  .thrown = at_least_0(course->thrown[t]),
                                  .left = at_least_0(course->left[t]),
                                  .by_age = by_age,
                                  .by_age_count = ages};
    }
    out->service_percent = wanted > lost ? 100 * (wanted - lost) / wanted
                           : wanted > 0  ? 0
                                         : 100;
    return DW_OK;
}

/* ---- days ---------------------------------------------------------------- */

static void tell_products_of_day(const dw_week__problem *p,
                                 const dw_week__plan *plan, int t,
                                 dw_week_day_plan *out)
{
    for (int i = 0; i < p->products_count; i++) {
        const dw_week__product *one = &p->products[i];
        const dw_week__course *course = &plan->courses[i];
        double make = one->make_costs ? one->make_costs[t] : 0;
        out->lost_cost += one->lost_cost * at_least_0(course->lost[t]);
        out->thrown_cost += one->thrown_cost * at_least_0(course->thrown[t]);
        out->thrown_cost += t == 0 ? one->thrown_cost * one->past : 0;
        out->holding_cost += one->holding_cost * at_least_0(course->left[t]);
        out->make_cost += make * plan->made[i][t];
        out->hands_minutes += plan->made[i][t] / p->ask->balls_per_minute;
    }
}

static void tell_labour(const dw_week__problem *p, int t, dw_week_day_plan *out)
{
    double rate = p->ask->labour_cost_per_h / 60;
    double over_rate = p->ask->overtime_cost_per_h / 60;
    double over = out->hands_minutes - p->hands[t];
    out->overtime_minutes = over > 0 ? over : 0;
    out->labour_cost = (out->hands_minutes - out->overtime_minutes) * rate;
    out->overtime_cost =
        out->overtime_minutes * (over_rate > rate ? over_rate : rate);
}

static dw_status tell_day(const dw_week__problem *p, const dw_week__plan *plan,
                          const dw_week__course *const *courses, int t,
                          dw_arena *arena, dw_week_day_plan *out)
{
    size_t mixers = (size_t)p->mixers_count;
    out->day = t;
    out->hands_minutes = p->fixed_hands[t];
    out->boxes = at_least_0(dw_week__boxes(p, plan, courses, t));
    out->slots = at_least_0(dw_week__slots(p, plan, courses, t));
    tell_products_of_day(p, plan, t, out);
    out->mixers = DW_NEW_ARRAY(arena, dw_week_mixer_day, mixers);
    DW_TRY(take(out->mixers, arena));
    out->mixers_count = mixers;
    for (size_t m = 0; m < mixers; m++)
        out->mixers[m] = (dw_week_mixer_day){
            p->ask->mixers[m].name, p->fixed_minutes[m][t], p->limited[m],
            p->limited[m] ? p->minutes[m][t] : 0};
    for (int f = 0; f < p->formulas_count; f++) {
        const dw_week__formula *formula = &p->formulas[f];
        const dw_week__cover *cover = &plan->covers[t][f];
        double start = formula->start_costs ? formula->start_costs[t]
                                            : formula->start_cost;
        out->hands_minutes += cover->batches * formula->hands_minutes;
        out->start_cost += cover->batches * start +
                           cover->spare_kg * formula->spare_cost_per_kg;
        for (int o = 0; o < formula->options_count; o++)
            out->start_cost += cover->count[o] * formula->options[o].cost;
        for (size_t m = 0; m < mixers; m++)
            out->mixers[m].minutes += cover->minutes[m];
    }
    tell_labour(p, t, out);
    return DW_OK;
}

/* ---- changes ------------------------------------------------------------- */

static int batches_on(const dw_week__problem *p, const dw_week__plan *plan,
                      int t, int f, int m)
{
    int n = 0;
    for (int o = 0; o < p->formulas[f].options_count; o++)
        if (p->formulas[f].options[o].mixer == m)
            n += plan->covers[t][f].count[o];
    return n;
}

static int64_t balls_before(const dw_week__problem *p, int t, int product)
{
    int64_t n = 0;
    for (size_t i = 0; i < p->ask->before_count; i++) {
        const dw_week_batch *batch = &p->ask->before[i];
        for (size_t j = 0; j < batch->pieces_count && batch->day == t; j++)
            if (dw_text_is(batch->pieces[j].product,
                           p->ask->products[product].name))
                n += batch->pieces[j].balls;
    }
    return n;
}

static dw_status tell_changes(const dw_week__problem *p,
                              const dw_week__plan *plan, dw_arena *arena,
                              dw_week_reply *reply)
{
    size_t most =
        (size_t)p->days *
        (size_t)(p->formulas_count * p->mixers_count + p->products_count);
    if (!p->has_before)
        return DW_OK;
    reply->changes = DW_NEW_ARRAY(arena, dw_week_change, most);
    DW_TRY(take(reply->changes, arena));
    for (int t = 0; t < p->days; t++) {
        for (int f = 0; f < p->formulas_count; f++)
            for (int m = 0; m < p->mixers_count; m++) {
                int more = batches_on(p, plan, t, f, m) - p->before[t][f][m];
                if (more == 0)
                    continue;
                reply->change_cost +=
                    (more > 0 ? more : -more) * p->ask->change_cost;
                reply->changes[reply->changes_count++] = (dw_week_change){
                    .kind = more > 0 ? DW_WEEK_ADDED : DW_WEEK_DROPPED,
                    .day = t,
                    .formula = p->ask->formulas[f].name,
                    .mixer = p->ask->mixers[m].name,
                    .count = more > 0 ? more : -more};
            }
        for (int i = 0; i < p->products_count; i++) {
            int64_t more = plan->made[i][t] - balls_before(p, t, i);
            if (more != 0)
                reply->changes[reply->changes_count++] = (dw_week_change){
                    .kind = more > 0 ? DW_WEEK_MORE : DW_WEEK_FEWER,
                    .day = t,
                    .product = p->ask->products[i].name,
                    .count = more > 0 ? more : -more};
        }
    }
    return DW_OK;
}

/* ---- notes --------------------------------------------------------------- */

static void tell_notes(const dw_week__problem *p, const dw_week_reply *reply,
                       dw_notes *notes)
{
    for (int i = 0; i < p->products_count; i++) {
        const char *name = p->ask->products[i].name;
        if (p->products[i].past > 0)
            dw_note_value(notes, DW_NOTE_WARN, "past_stock", name,
                          p->products[i].past);
        for (int t = 0; t < p->days; t++) {
            double lost = reply->products[i].days[t].lost;
            double wanted = reply->products[i].days[t].wanted;
            if (lost > 0.5 && lost > 0.15 * wanted)
                dw_note_limit(notes, DW_NOTE_WARN,
                              dw_week__why_short(p, reply, i, t), name, lost,
                              t + 1);
        }
    }
    double boxes = 0, slots = 0;
    for (int t = 0; t < p->days; t++) {
        boxes = reply->days[t].boxes > boxes ? reply->days[t].boxes : boxes;
        slots = reply->days[t].slots > slots ? reply->days[t].slots : slots;
    }
    if (boxes > p->boxes + 1e-6)
        dw_note_limit(notes, DW_NOTE_WARN, "no_room_boxes", NULL, boxes,
                      p->boxes);
    if (slots > p->slots + 1e-6)
        dw_note_limit(notes, DW_NOTE_WARN, "no_room_slots", NULL, slots,
                      p->slots);
}

dw_status dw_week__tell(const dw_week__problem *p, const dw_week__room *room,
                        const dw_week__plan *plan, dw_arena *arena,
                        dw_notes *notes, dw_week_reply *reply)
{
    const dw_week__course *courses[DW_WEEK_PRODUCTS];
    size_t products = (size_t)p->products_count, days = (size_t)p->days;
    reply->cost = plan->cost - plan->over;
    DW_TRY(tell_batches(p, plan, arena, reply));
    reply->products = DW_NEW_ARRAY(arena, dw_week_product_plan, products);
    reply->days = DW_NEW_ARRAY(arena, dw_week_day_plan, days);
    DW_TRY(take(reply->products, arena));
    DW_TRY(take(reply->days, arena));
    reply->products_count = products;
    reply->days_count = days;
    for (int i = 0; i < p->products_count; i++) {
        courses[i] = &plan->courses[i];
        DW_TRY(tell_product(p, room, plan, i, arena, &reply->products[i]));
    }
    for (int t = 0; t < p->days; t++)
        DW_TRY(tell_day(p, plan, courses, t, arena, &reply->days[t]));
    DW_TRY(tell_changes(p, plan, arena, reply));
    tell_notes(p, reply, notes);
    return DW_OK;
}
