#include "app/demo.h"

#include "app/stock.h"
#include "doughwright/day.h"

#include <math.h>

/* Invented, but in the proportions that a neighbourhood shop would know. */
const double dw_demo_weekday[7] = {0.78, 0.80, 0.88, 0.96, 1.34, 1.40, 0.84};

static const double SEASON = 0.10;     /* half swing, most in late January */
static const double GROWTH = 0.08;     /* over the twelve months */
static const double SHIFT = 1.18;      /* of the last outlet ... */
static const int64_t SHIFT_DAYS = 150; /* ... this long before the end */
static const double SIZE = 25;         /* of the negative binomial */
static const double SOLD_OUT_SHARE = 0.02;

typedef struct feast {
    int month, day;
    double factor;
} feast;
static const feast feasts[] = {
    {1, 1, 0.55},  {2, 14, 1.25}, {7, 4, 0.65},  {10, 31, 1.45},
    {12, 24, 0.6}, {12, 25, 0.0}, {12, 31, 1.5},
};

/* The town's fair: the second Saturday of June. */
static const double FAIR = 1.6;

static double feast_factor(int64_t day)
{
    int64_t year;
    int month, date;
    dw_day_to_date(day, &year, &month, &date);
    for (size_t i = 0; i < DW_COUNT(feasts); i++)
        if (feasts[i].month == month && feasts[i].day == date)
            return feasts[i].factor;
    bool fair = month == 6 && date >= 8 && date <= 14 && dw_weekday(day) == 5;
    return fair ? FAIR : 1;
}

static double season_factor(int64_t day)
{
    int64_t year;
    int month, date;
    dw_day_to_date(day, &year, &month, &date);
    double into = (double)(day - dw_day_from_date(year, 1, 1));
    return 1 + SEASON * cos(6.283185307179586 * (into - 24) / 365.25);
}

/* The first outlet sells most; shares fall evenly and sum to 1. */
static double outlet_share(const dw_demo_place *place)
{
    double n = (double)place->outlets;
    return 2 * (n - (double)place->outlet + 1) / (n * (n + 3));
}

double dw_demo_mean(const dw_demo_place *place, int64_t day)
{
    double before = (double)(place->last_day - day) / DW_DEMO_DAYS;
    double mean = place->balls * outlet_share(place) *
                  dw_demo_weekday[dw_weekday(day)] * season_factor(day) *
                  feast_factor(day) * (1 - GROWTH * before);
    bool last = place->outlets > 1 && place->outlet + 1 == place->outlets;
    if (last && place->last_day - day < SHIFT_DAYS)
        mean *= SHIFT;
    return mean;
}

int64_t dw_demo_sold(const dw_demo_place *place, int64_t day, bool *sold_out)
{
    dw_chance chance = dw_chance_of(
        place->seed, 1, place->product * 1000 + place->outlet, (uint64_t)day);
    int64_t wanted = dw_chance_count(&chance, dw_demo_mean(place, day), SIZE);
    *sold_out = dw_chance_unit(&chance) < SOLD_OUT_SHARE && wanted > 4;
    if (*sold_out)
        wanted =
            (int64_t)((0.7 + 0.25 * dw_chance_unit(&chance)) * (double)wanted);
    return wanted;
}
