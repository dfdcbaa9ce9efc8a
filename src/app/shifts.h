/* Who is there on a day: the shifts of the week, and the days that are unlike
 * it. A shop that writes down no shifts has its opening hours and nobody's
 * name. */
#ifndef DW_APP_SHIFTS_H
#define DW_APP_SHIFTS_H

#include "app/rows.h"

#include "os/zone.h"

/* The row of the shop, or the presets. */
dw_status dw_service_get(dw_call *call, dw_service *service);

typedef struct dw_presence {
    int64_t person_id;
    const char *name;
    int64_t from_ms, to_ms;
} dw_presence;
extern const dw_shape dw_presence_shape;

typedef struct dw_day_people {
    int64_t day;
    dw_presence *people; /* by the time they come; none: nobody wrote any */
    size_t people_count;
    bool by_shifts;              /* false: by the opening hours */
    bool closed;                 /* the whole shop, that day */
    const char *note;            /* of the day, "Thanksgiving" */
    int64_t first_ms, leaves_ms; /* first in, last out; 0: not known */
} dw_day_people;

dw_status dw_day_people_read(dw_call *call, const dw_shop *shop, int64_t day,
                             dw_day_people *out);

/* Everybody who is there at that moment, "Ana, Luis"; NULL: nobody known. */
const char *dw_people_at(dw_call *call, const dw_day_people *day,
                         int64_t at_ms);

/* Something that must be done when it is due, and who is there for it. */
typedef struct dw_left_to {
    int64_t batch_id, number, stack_id; /* stack_id 0: not boxed yet */
    const char *name;                   /* the product */
    int64_t balls, close_ms;
    bool nobody;      /* whoever is there leaves before, or the shop is shut */
    const char *who;  /* names; NULL when nobody or not written down */
    const char *next; /* who comes first after it; NULL: not known */
    int64_t next_ms;  /* and when; 0: not known */
} dw_left_to;

typedef struct dw_shift_day {
    dw_day_people people;
    dw_left_to *closings; /* soonest first */
    size_t closings_count;
} dw_shift_day;

/* The day's people, and to whom its stacks are left: those that stand open and
 * those of the day's planned run. */
dw_status dw_shift_day_read(dw_call *call, int64_t day, dw_shift_day *out);

#endif
