#include "week_shop.h"

static const char *const names[] = {"a", "b", "c", "d", "e", "f",
                                    "g", "h", "i", "j", "k", "l"};
static const double week[] = {0.8, 0.75, 0.85, 0.95, 1.35, 1.4, 0.9};
static const double weights[] = {.22, .28, .34, .4, .5, .6, .3, .45};

/* splitmix64 (Steele, Lea and Flood 2014): the benches draw the same shops. */
static unsigned long long bits(unsigned long long *seed)
{
    unsigned long long z = *seed += 0x9e3779b97f4a7c15ULL;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ULL;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebULL;
    return z ^ (z >> 31);
}

static double between(unsigned long long *seed, double low, double high)
{
    return low + (high - low) * (double)(bits(seed) >> 11) * 0x1p-53;
}

static double *flat(dw_arena *arena, int64_t days, double value)
{
    double *list = DW_NEW_ARRAY(arena, double, (size_t)days);
    for (int64_t t = 0; t < days; t++)
        list[t] = value;
    return list;
}

static dw_week_formula formula(const char *name, dw_week_mixer *mixers,
                               size_t count, dw_arena *arena)
{
    static double sizes[] = {37.2, 27.9, 18.6};
    dw_week_bowl *bowls = DW_NEW_ARRAY(arena, dw_week_bowl, count);
    for (size_t m = 0; m < count; m++)
        bowls[m] = (dw_week_bowl){mixers[m].name, m ? 6 : 10, m ? 24 : 38, 35};
    return (dw_week_formula){.name = name,
                             .bowls = bowls,
                             .bowls_count = count,
                             .loss_percent = 1,
                             .sizes_kg = sizes,
                             .sizes_kg_count = 3,
                             .start_cost = 400,
                             .odd_cost = 60,
                             .spare_cost_per_kg = 60,
                             .hands_minutes = 20,
                             .close_minutes = 120,
                             .bench_balls = 240};
}

static dw_week_product product(unsigned long long *seed, size_t i,
                               const char *of, int64_t days, dw_arena *arena)
{
    static const int64_t life[][2] = {{1, 3}, {1, 2}, {1, 4}, {1, 3}};
    static const double boxes[] = {6, 8, 12};
    double mean = between(seed, 20, 70), kg = weights[i % 8];
    const int64_t *window = life[bits(seed) % 4];
    dw_week_wanted *wanted = DW_NEW_ARRAY(arena, dw_week_wanted, (size_t)days);
    for (int64_t t = 0; t < days; t++)
        wanted[t] = (dw_week_wanted){.has_spread = true,
                                     .spread = {mean * week[t % 7], 25}};
    return (dw_week_product){.name = names[i],
                             .formula = of,
                             .ball_kg = kg,
                             .earliest_days = window[0],
                             .latest_days = window[1],
                             .per_box = boxes[bits(seed) % 3],
                             .lost_cost = 1000 * kg / .35,
                             .thrown_cost = 60 * kg / .35,
                             .holding_cost = 0.5,
                             .wanted = wanted,
                             .wanted_count = (size_t)days};
}

static void limits(dw_week_request *r, dw_arena *arena)
{
    r->each_day = DW_NEW_ARRAY(arena, dw_week_day, (size_t)r->days);
    r->each_day_count = (size_t)r->days;
    for (int64_t t = 0; t < r->days; t++)
        r->each_day[t] = (dw_week_day){.has_hands_minutes = true,
                                       .hands_minutes = 500,
                                       .overtime_minutes = 120,
                                       .has_window_minutes = true,
                                       .window_minutes = 600};
    r->has_boxes = r->has_slots = true;
    r->boxes = 25 * (double)r->products_count;
    r->slots = 22.5 * (double)r->products_count;
    r->labour_cost_per_h = 1800;
    r->overtime_cost_per_h = 2700;
}

dw_week_request week_shop(unsigned long long seed, int64_t days,
                          size_t products, size_t formulas, size_t mixers,
                          dw_arena *arena)
{
    dw_week_request r;
    dw_shape_preset(&dw_week_request_shape, &r);
    r.days = days;
    r.mixers = DW_NEW_ARRAY(arena, dw_week_mixer, mixers);
    r.formulas = DW_NEW_ARRAY(arena, dw_week_formula, formulas);
    r.products = DW_NEW_ARRAY(arena, dw_week_product, products);
    r.stock = DW_NEW_ARRAY(arena, dw_week_stock, products);
    r.mixers_count = mixers;
    r.formulas_count = formulas;
    r.products_count = r.stock_count = products;
    for (size_t m = 0; m < mixers; m++)
        r.mixers[m] = (dw_week_mixer){
            names[m], flat(arena, days, bits(&seed) % 2 ? 200 : 260),
            (size_t)days};
    for (size_t f = 0; f < formulas; f++)
        r.formulas[f] = formula(names[f], r.mixers, mixers, arena);
    for (size_t i = 0; i < products; i++) {
        r.products[i] = product(&seed, i, names[i % formulas], days, arena);
        r.stock[i] = (dw_week_stock){
            names[i], 1, (int64_t)(r.products[i].wanted[0].spread.mean * 1.3)};
    }
    limits(&r, arena);
    return r;
}
