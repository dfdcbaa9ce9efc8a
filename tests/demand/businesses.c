#include "businesses.h"

#include "dw_test.h"

#include <time.h>

static double unit(unsigned long long *seed)
{
    return dw_test_between(seed, 1e-12, 1);
}

static double normal(unsigned long long *seed)
{
    double radius = sqrt(-2 * log(unit(seed)));
    return radius * cos(6.283185307179586 * unit(seed));
}

/* Knuth's product of uniforms, in pieces. */
static int64_t poisson(unsigned long long *seed, double mean)
{
    int64_t count = 0;
    for (; mean > 0; mean -= 30) {
        double floor = exp(-fmin(mean, 30)), product = unit(seed);
        for (; product > floor; product *= unit(seed))
            count++;
    }
    return count;
}

typedef struct date {
    int year_day, month, date, weekday; /* 0 Monday */
} date;

static date date_of(int64_t day)
{
    time_t seconds = (time_t)(day * 86400);
    struct tm tm;
    gmtime_r(&seconds, &tm);
    return (date){tm.tm_yday, tm.tm_mon + 1, tm.tm_mday, (tm.tm_wday + 6) % 7};
}

/* What sets a business apart. */
typedef struct character {
    const char *name;
    double weekday[7];
    double season, season_peak; /* half swing; day of the year */
    double growth;              /* over the three years */
    double weather, lasting;    /* sd of the log; share kept the next day */
    double own;                 /* sd of each product's own chance */
    double shift;               /* sd of the log of a sudden shift */
    int shifts;
    int closed_weekday;
    double means[4];
    double party; /* a day's chance of a party that wants many */
} character;

static const character characters[BUSINESSES] = {
    {"harbour",
     {.7, .75, .85, .95, 1.3, 1.5, .95},
     .35,
     200,
     .3,
     .10,
     .5,
     .08,
     0.1,
     1,
     -1,
     {140, 90, 60, 25},
     0},
    {"college",
     {1.05, 1.3, 1.1, 1.15, 1.4, 1, 0},
     .05,
     40,
     -.1,
     .06,
     .3,
     .18,
     0.35,
     6,
     6,
     {80, 70, 40, 12},
     .01},
    {"village",
     {0, .8, .8, .9, 1.5, 1.7, 1.3},
     .12,
     15,
     -.2,
     .08,
     .4,
     .12,
     0.2,
     2,
     0,
     {9, 4, 1.5, .5},
     .02},
};

static const business_event yearly[] = {
    {"new year", 1, 1, .5, false},     {"valentine", 2, 14, 1.3, false},
    {"parade", 7, 4, .7, false},       {"lanterns", 10, 31, 1.6, false},
    {"the shut day", 12, 25, 0, true}, {"last night", 12, 31, 1.5, false},
    {"boats", 5, 20, 1.8, false},
};

static void make_events(made_business *b, unsigned long long *seed)
{
    b->events_count = (int)(sizeof yearly / sizeof *yearly);
    for (int i = 0; i < b->events_count; i++) {
        b->events[i] = yearly[i];
        b->events[i].factor *= exp(.12 * normal(seed));
    }
}

static double event_factor(const made_business *b, const date *when)
{
    for (int i = 0; i < b->events_count; i++)
        if (b->events[i].month == when->month &&
            b->events[i].date == when->date)
            return b->events[i].closed ? 0 : b->events[i].factor;
    return 1;
}

typedef struct shifts {
    int at[8];
    double log_by[8];
} shifts;

static shifts make_shifts(const character *c, unsigned long long *seed)
{
    shifts s = {.at = {0}};
    for (int i = 0; i < c->shifts; i++) {
        s.at[i] = (int)dw_test_between(seed, 60, BUSINESS_DAYS);
        s.log_by[i] = (i % 2 ? -1 : 1) * c->shift * (.6 + .8 * unit(seed));
    }
    return s;
}

static double shifted(const shifts *s, int count, int day)
{
    double log_by = 0;
    for (int i = 0; i < count; i++)
        if (day >= s->at[i])
            log_by += s->log_by[i];
    return exp(log_by);
}

/* Balls are enough on most days; on some there were too few. */
static void sell(made_business *b, int series, int day, double mean,
                 unsigned long long *seed)
{
    int64_t wanted = b->wanted[series][day];
    int64_t there = (int64_t)(mean * dw_test_between(seed, 1.05, 2.2)) + 3;
    b->sold[series][day] = wanted < there ? wanted : there;
    b->sold_out[series][day] = wanted > there;
}

static void make_day(made_business *b, const character *c, int day,
                     const shifts *moved, double weather,
                     const double *weekdays, unsigned long long *seed)
{
    date when = date_of(b->first_day + day);
    double common =
        weekdays[when.weekday] * event_factor(b, &when) *
        (1 + c->season *
                 cos(6.2831853 * (when.year_day - c->season_peak) / 365.25)) *
        (1 + c->growth * day / BUSINESS_DAYS) * exp(weather);
    for (int i = 0; i < b->series; i++) {
        double mean = c->means[i] * common * shifted(&moved[i], c->shifts, day);
        if (mean <= 0)
            continue;
        b->wanted[i][day] = poisson(seed, mean * exp(c->own * normal(seed)));
        if (unit(seed) < c->party)
            b->wanted[i][day] += poisson(seed, 2 * c->means[i]);
        sell(b, i, day, mean, seed);
    }
}

void business_make(made_business *b, int which, unsigned long long seed)
{
    const character *c = &characters[which];
    seed = seed * 7919 + (unsigned long long)which;
    *b = (made_business){.name = c->name,
                         .first_day = 19700, /* 2023-12-09 */
                         .series = 4,
                         .closed_weekday = c->closed_weekday};
    make_events(b, &seed);
    double weekdays[7], weather = 0;
    for (int i = 0; i < 7; i++)
        weekdays[i] = c->weekday[i] * exp(.08 * normal(&seed));
    shifts moved[BUSINESS_SERIES];
    for (int i = 0; i < b->series; i++)
        moved[i] = make_shifts(c, &seed);
    for (int day = 0; day < BUSINESS_DAYS; day++) {
        weather = c->lasting * weather + c->weather *
                                             sqrt(1 - c->lasting * c->lasting) *
                                             normal(&seed);
        make_day(b, c, day, moved, weather, weekdays, &seed);
    }
}
