/* A plan judged as a whole. */
#include "engine/week.h"

static double beyond(double need, double limit)
{
    return need > limit + 1e-9 ? need - limit : 0;
}

double dw_week__boxes(const dw_week__problem *p, const dw_week__plan *plan,
                      const dw_week__course *const *courses, int day)
{
    double boxes = 0;
    for (int i = 0; i < p->products_count; i++) {
        const dw_week__product *one = &p->products[i];
        if (one->per_box == 0)
            continue;
        double there = day > 0 ? courses[i]->left[day - 1] : one->there;
        boxes += (there + plan->made[i][day] + one->kept[DW_WEEK__PAST + day]) /
                 one->per_box;
    }
    return boxes;
}

double dw_week__slots(const dw_week__problem *p, const dw_week__plan *plan,
                      const dw_week__course *const *courses, int day)
{
    double slots = 0;
    for (int i = 0; i < p->products_count; i++) {
        const dw_week__product *one = &p->products[i];
        if (one->per_box == 0)
            continue;
        int fresh = plan->made[i][day] + one->kept[DW_WEEK__PAST + day];
        slots += (courses[i]->left[day] + (p->ask->open_factor - 1) * fresh) /
                 one->per_box;
    }
    return slots;
}

/* The search sees the stock on fewer points: it stays this much inside. */
static double within(double limit)
{
    return limit - (limit < 300 ? 0.003 * limit : 0.9);
}

double dw_week__over(const dw_week__problem *p, const dw_week__plan *plan,
                     const dw_week__course *const *courses)
{
    double over = 0;
    if (p->boxes < DW_WEEK__INFINITE)
        for (int t = 0; t < p->days; t++)
            over +=
                beyond(dw_week__boxes(p, plan, courses, t), within(p->boxes));
    if (p->slots < DW_WEEK__INFINITE)
        for (int t = 0; t < p->days; t++)
            over +=
                beyond(dw_week__slots(p, plan, courses, t), within(p->slots));
    return over * p->over_cost;
}

typedef bool follower(const dw_week__product *product, int days,
                      const int *made, const dw_week__room *room,
                      dw_week__course *course);

static void judge(const dw_week__problem *p, const dw_week__room *room,
                  follower *follow, dw_week__plan *plan)
{
    const dw_week__course *courses[DW_WEEK_PRODUCTS];
    plan->cost = 0;
    for (int i = 0; i < p->products_count; i++) {
        int made[DW_WEEK__MADE];
        dw_week__made(p, plan, i, made);
        if (!follow(&p->products[i], p->days, made, room, &plan->courses[i]))
            plan->courses[i].cost = DW_WEEK__INFINITE;
        courses[i] = &plan->courses[i];
        plan->cost += plan->courses[i].cost;
    }
    for (int t = 0; t < p->days; t++) {
        plan->day_cost[t] = dw_week__day(p, plan, t, plan->covers[t]);
        plan->cost += plan->day_cost[t];
    }
    plan->over = dw_week__over(p, plan, courses);
    plan->cost += plan->over;
}

void dw_week__judge(const dw_week__problem *p, const dw_week__room *room,
                    dw_week__plan *plan)
{
    judge(p, room, dw_week__follow, plan);
}

void dw_week__guess(const dw_week__problem *p, const dw_week__room *room,
                    dw_week__plan *plan)
{
    judge(p, room, dw_week__foresee, plan);
}
