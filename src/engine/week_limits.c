/* Limits that bind, and what a little more of each would save: the same search
 * again, from this plan, with the limit moved. */
#include "engine/week.h"

#include <string.h>

typedef struct ease {
    const char *limit, *mixer;
    double more;
    int64_t days[DW_WEEK_DAYS];
    size_t days_count;
} ease;

static void bind_on(ease *e, int day)
{
    e->days[e->days_count++] = day;
}

/* Full: there is not room for a ball more of the largest (what the search stays
 * inside a limit counted in). */
static bool is_full(const dw_week__problem *p, double used, double limit)
{
    double most = 0;
    for (int i = 0; i < p->products_count; i++)
        if (p->products[i].per_box > 0 && 1 / p->products[i].per_box > most)
            most = 1 / p->products[i].per_box;
    return used > limit * 0.996 - most * p->ask->open_factor;
}

/* Of the formulas' batches in a mixer, the shortest: less room is full. */
static double shortest(const dw_week__problem *p, int mixer)
{
    double least = DW_WEEK__INFINITE;
    for (int f = 0; f < p->formulas_count; f++)
        for (int o = 0; o < p->formulas[f].options_count; o++)
            if (p->formulas[f].options[o].mixer == mixer &&
                p->formulas[f].options[o].minutes < least)
                least = p->formulas[f].options[o].minutes;
    return least;
}

static bool boxes_full(const dw_week__problem *p, const dw_week_day_plan *day)
{
    return is_full(p, day->boxes, p->boxes);
}

static bool slots_full(const dw_week__problem *p, const dw_week_day_plan *day)
{
    return is_full(p, day->slots, p->slots);
}

static bool hands_full(const dw_week__problem *p, const dw_week_day_plan *day)
{
    return day->hands_minutes > p->hands[day->day] + p->overtime[day->day] -
                                    1 / p->ask->balls_per_minute;
}

static bool mixer_full(const dw_week__problem *p, const dw_week_day_plan *day,
                       int m)
{
    double minutes = p->minutes[m][day->day], window = p->window[day->day];
    double full = minutes < window ? minutes : window;
    return !p->locked[day->day] &&
           day->mixers[m].minutes > full - shortest(p, m);
}

static int list_eases(const dw_week__problem *p, const dw_week_reply *r,
                      ease *list)
{
    int n = 3;
    list[0] = (ease){.limit = "boxes", .more = 1};
    list[1] = (ease){.limit = "slots", .more = 1};
    list[2] = (ease){.limit = "hands", .more = 60};
    for (int m = 0; m < p->mixers_count; m++)
        list[n++] = (ease){
            .limit = "mixer", .mixer = p->ask->mixers[m].name, .more = 60};
    for (int t = 0; t < p->days; t++) {
        const dw_week_day_plan *day = &r->days[t];
        if (boxes_full(p, day))
            bind_on(&list[0], t);
        if (slots_full(p, day))
            bind_on(&list[1], t);
        if (hands_full(p, day) || day->overtime_minutes > 0)
            bind_on(&list[2], t);
        for (int m = 0; m < p->mixers_count; m++)
            if (mixer_full(p, day, m))
                bind_on(&list[3 + m], t);
    }
    return n;
}

/* On every day that could make balls for the day. */
typedef struct blame {
    int days, mixer, hands, boxes, slots;
} blame;

static void blame_day(const dw_week__problem *p, const dw_week_reply *r,
                      const dw_week__formula *f, int day, blame *b)
{
    bool all_mixers = true;
    for (int o = 0; o < f->options_count; o++)
        all_mixers =
            all_mixers && mixer_full(p, &r->days[day], f->options[o].mixer);
    b->days++;
    b->mixer += all_mixers;
    b->hands += hands_full(p, &r->days[day]);
    b->boxes += boxes_full(p, &r->days[day]);
    b->slots += slots_full(p, &r->days[day]);
}

const char *dw_week__why_short(const dw_week__problem *p,
                               const dw_week_reply *r, int product, int day)
{
    const dw_week__product *one = &p->products[product];
    blame b = {0, 0, 0, 0, 0};
    for (int t = day - one->latest; t <= day - one->earliest; t++)
        if (t >= 0 && !p->locked[t])
            blame_day(p, r, &p->formulas[one->formula], t, &b);
    if (b.days == 0)
        return "short_too_late";
    if (b.mixer == b.days)
        return "short_mixer";
    if (b.hands == b.days)
        return "short_hands";
    if (b.boxes > 0)
        return "short_boxes";
    return b.slots > 0 ? "short_slots" : "short";
}

static void move_limit(dw_week__problem *p, const ease *e, int mixer)
{
    if (dw_text_is(e->limit, "boxes"))
        p->boxes += e->more;
    else if (dw_text_is(e->limit, "slots"))
        p->slots += e->more;
    for (int t = 0; t < p->days; t++) {
        if (dw_text_is(e->limit, "hands"))
            p->hands[t] += e->more;
        if (mixer >= 0) {
            p->minutes[mixer][t] += e->more;
            p->window[t] += e->more;
        }
    }
}

typedef struct trial {
    dw_week__problem problem;
    dw_week__plan plan;
} trial;

dw_status dw_week__limits(const dw_week__problem *p, const dw_week__room *room,
                          int64_t effort, const dw_week_watch *watch,
                          dw_arena *arena, dw_week__plan *plan,
                          dw_week_reply *reply)
{
    ease list[3 + DW_WEEK_MIXERS];
    int n = list_eases(p, reply, list);
    reply->limits = DW_NEW_ARRAY(arena, dw_week_limit, (size_t)n);
    trial *t = DW_NEW(arena, trial);
    if (!reply->limits || !t)
        return DW_E_ROOM;
    for (int i = 0; i < n; i++) {
        const ease *e = &list[i];
        if (e->days_count == 0)
            continue;
        int64_t *days = DW_NEW_ARRAY(arena, int64_t, e->days_count);
        if (!days)
            return DW_E_ROOM;
        memcpy(days, e->days, e->days_count * sizeof *days);
        t->problem = *p;
        t->plan = *plan;
        move_limit(&t->problem, e, i - 3);
        dw_week__judge(&t->problem, room, &t->plan);
        dw_week__better(&t->problem, room, effort, watch, 0, arena, &t->plan);
        double saves = plan->cost - t->plan.cost;
        reply->limits[reply->limits_count++] =
            (dw_week_limit){e->limit,      e->mixer, days,
                            e->days_count, e->more,  saves > 0 ? saves : 0};
    }
    return DW_OK;
}
