/* Which balls go to which shop, so that each gets at least the days it was
 * promised.
 *
 * A lot may go to an outlet when it has at least that outlet's promised days
 * left on the day of the drop. As many units as possible are sent; when they do
 * not reach, the shop's stated rule says who is short first; and of all ways to
 * do that, the one that sends the oldest. A unit is what the caller counts in:
 * balls, or full boxes. All answers are exact (docs/models/stock.md has the
 * argument, tests/engine/test_allot.c the search it is held against).
 */
#ifndef DOUGHWRIGHT_ALLOT_H
#define DOUGHWRIGHT_ALLOT_H

#include "doughwright/field.h"

enum { DW_ALLOT_LOTS_MOST = 200, DW_ALLOT_OUTLETS_MOST = 200 };

extern const char *const dw_allot_rule_words[]; /* share late_first last_first
                                                 */
typedef enum dw_allot_rule {
    DW_ALLOT_SHARE,      /* all in proportion to what they want */
    DW_ALLOT_LATE_FIRST, /* who ordered late is short first; alike in each */
    DW_ALLOT_LAST_FIRST  /* the last on the list is short first */
} dw_allot_rule;

typedef struct dw_allot_lot {
    int64_t days_left; /* on the day of the drop, it included */
    int64_t units;
} dw_allot_lot;

typedef struct dw_allot_outlet {
    int64_t promised_days;
    int64_t units; /* wanted */
    bool late;
    int64_t got, short_of; /* answered */
} dw_allot_outlet;

typedef struct dw_allot_ask {
    int rule; /* dw_allot_rule */
    dw_allot_lot *lots;
    size_t lots_count;
    dw_allot_outlet *outlets;
    size_t outlets_count;
} dw_allot_ask;

typedef struct dw_allot_part {
    int64_t lot, outlet; /* indexes of the ask */
    int64_t units;
} dw_allot_part;

typedef struct dw_allot_reply {
    dw_allot_part *parts; /* by outlet, oldest first */
    size_t parts_count;
    dw_allot_outlet *outlets; /* as asked, answered */
    size_t outlets_count;
    int64_t sent, short_of, left; /* left: units of lots that go nowhere */
} dw_allot_reply;
extern const dw_shape dw_allot_ask_shape, dw_allot_reply_shape;

/* The arena needs 64 bytes a lot and outlet and 24 (lots + outlets). DW_E_ROOM.
 */
dw_status dw_allot_units(const dw_allot_ask *ask, dw_arena *arena,
                         dw_allot_reply *reply, dw_err *err);

#endif
