/* What the shop's own readings have taught, and its use: how fast its stacks
 * give heat away, how strong its yeast is and works in the cold, what its cold
 * room's air settles to. docs/models/teach.md.
 *
 * Lessons (doughwright/teach.h) are worked out when something is written that
 * they are made from, and kept as rows; reading them costs one small query.
 * They follow from the stored readings alone, so leaving one out and taking it
 * back in returns every number as it was. A lesson that is left out as a whole
 * has no rows: the trade's numbers hold.
 */
#ifndef DW_APP_TAUGHT_H
#define DW_APP_TAUGHT_H

#include "app/evidence.h"

extern const char *const dw_lesson_words[]; /* stack yeast room */
enum { DW_LESSON_STACK, DW_LESSON_YEAST, DW_LESSON_ROOM };

/* A lesson with all it was made from, worked out anew. */
typedef struct dw_told {
    int lesson;
    bool left_out;
    const char *reason;    /* of who left it out */
    dw_taught_row *values; /* ids 0; none when nothing counts */
    size_t values_count;
    dw_evidence *readings; /* oldest first; of the room's log only those that
                              are not simply used */
    size_t readings_count;
} dw_told;
extern const dw_shape dw_told_shape;
dw_status dw_taught_tell(dw_call *call, int lesson, dw_told *told);

/* Work a lesson out and keep it; the stack's is followed by the yeast's, which
 * lives by it. */
dw_status dw_taught_learn(dw_call *call, int lesson);

/* What was told of a batch has changed (its times, its dough's temperature):
 * learn anew when a lesson hangs on it. */
dw_status dw_taught_after(dw_call *call, int64_t batch_id);
/* A temperature was written. */
dw_status dw_taught_after_reading(dw_call *call, const dw_reading_row *row);

/* ---- use ----------------------------------------------------------------- */

typedef struct dw_taught {
    dw_taught_row *rows;
    size_t count;
} dw_taught;
/* Everything that is kept. */
dw_status dw_taught_read(dw_call *call, dw_taught *taught);

/* The row of a number that has no yeast; NULL: nothing was learned. */
const dw_taught_row *dw_taught_find(const dw_taught *taught, int what);
/* Of a yeast: its lot's once three readings count, else the formula's once
 * three do, else that of all dough with it; NULL: nothing was learned. */
const dw_taught_row *dw_taught_yeast(const dw_taught *taught, int what,
                                     const dw_yeast_key *key);
/* Learned, else the shop's setting and the trade's 3. */
dw_stack_h dw_taught_h(const dw_taught *taught, const dw_shop *shop);

/* Which yeast a formula has: false when not exactly one line of it. */
bool dw_formula_yeast(const dw_formula *formula, int *yeast);
/* The formula of a batch and the lot of the yeast that was weighed into it; the
 * yeast of the key stays. */
dw_status dw_batch_yeast_key(dw_call *call, const dw_batch_row *batch,
                             dw_yeast_key *key);

/* The model for a yeast and how well it is known: a range is as wide as the
 * lesson's interval, never wider than the usual one. */
enum { DW_TAUGHT_RANGES = 2 };
typedef struct dw_taught_model {
    dw_ferment_model model;
    dw_life_range ranges[DW_TAUGHT_RANGES];
    size_t ranges_count;
    const dw_taught_row *activity, *f_Tmin; /* NULL: the usual */
} dw_taught_model;
void dw_taught_model_of(const dw_taught *taught, const dw_yeast_key *key,
                        dw_taught_model *model);

#endif
