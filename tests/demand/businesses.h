/* Invented businesses whose demand is known, to hold forecasts against. Made
 * without any code of the program, and with other assumptions than its model:
 * weather that several products share and that lasts for days, a year's season,
 * sudden shifts, specials, parties on top of rare sales. */
#ifndef BUSINESSES_H
#define BUSINESSES_H

#include <stdbool.h>
#include <stdint.h>

enum { BUSINESS_SERIES = 8, BUSINESS_DAYS = 1096, BUSINESS_EVENTS_MOST = 10 };

typedef struct business_event {
    const char *name;
    int month, date;
    double factor; /* of this seed */
    bool closed;
} business_event;

typedef struct made_business {
    const char *name;
    int64_t first_day;  /* a civil day, 1970-01-01 is 0 */
    int series, begins; /* begins: the first day that is there */
    int64_t wanted[BUSINESS_SERIES][BUSINESS_DAYS];
    int64_t sold[BUSINESS_SERIES][BUSINESS_DAYS];
    bool sold_out[BUSINESS_SERIES][BUSINESS_DAYS];
    int closed_weekday; /* 0 Monday to 6 Sunday, -1: none */
    business_event events[BUSINESS_EVENTS_MOST];
    int events_count;
} made_business;

enum { BUSINESS_HARBOUR, BUSINESS_COLLEGE, BUSINESS_VILLAGE, BUSINESSES };

/* Three years of one of them; the same seed, the same business. */
void business_make(made_business *b, int which, unsigned long long seed);
/* The program's own demo, twelve months of all outlets together; what was
 * wanted on a day that sold out is not known, and wanted is what was sold. */
void business_of_demo(made_business *b, unsigned long long seed);

#endif
