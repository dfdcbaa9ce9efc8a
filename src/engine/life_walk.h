/* A block of lives through one history: choosing steps, meeting moments.
 *
 * The first of every block is the nominal life; it alone decides the steps, so
 * the others' results do not depend on who their neighbours are.
 */
#ifndef DW_ENGINE_LIFE_WALK_H
#define DW_ENGINE_LIFE_WALK_H

#include "doughwright/life.h"
#include "engine/life_kernel.h"

/* Moments at which something passes a mark; INFINITY until it does. */
typedef enum dw_life__mark {
    DW_LIFE__GAS_READY,
    DW_LIFE__GAS_BEST,
    DW_LIFE__GAS_USE_FIRST,
    DW_LIFE__GAS_END,
    DW_LIFE__AGE_READY,
    DW_LIFE__AGE_GAS_END,
    DW_LIFE__AGE_END,
    DW_LIFE__LEAKING,
    DW_LIFE__CORE_WARM, /* the last time it came out of the cold */
    DW_LIFE__MARKS
} dw_life__mark;

typedef struct dw_life__moments {
    double at_h[DW_LIFE__MARKS];
} dw_life__moments;

/* Where the rows go: called at each row with all lives of the block. */
typedef struct dw_life__rows {
    void (*row)(void *owner, size_t index, double time_h,
                const dw_life__look *look);
    void *owner;
} dw_life__rows;

/* What else is to be seen of the nominal life: when its core comes to two
 * temperatures, rising or falling, and how the ball is at the end of each leg.
 * The gate is called before the next leg (its index) is entered, so its keeper
 * may still change that leg: that is how a room answers to its dough. */
typedef enum dw_life__way { DW_LIFE__FALLING, DW_LIFE__RISING } dw_life__way;
typedef struct dw_life__watch {
    dw_life__way way;
    double from_h; /* the start of a leg; what was before does not count */
    double core_c[2];
    double at_h[2];     /* found: INFINITY when never */
    dw_life__rows gate; /* row NULL: none */
} dw_life__watch;

/* Where the lives of a block stand in their history: with the block itself, all
 * that is needed to go on. */
typedef struct dw_life__place {
    dw_life__pace pace; /* of the last step */
    double time_h;
    double step_h, free_h; /* last step; what it would be without landing */
    double middle_h;       /* of the last step */
    double leg_end_h;
    size_t leg, event, row; /* this leg; the next of the others */
    int64_t steps;
    bool was_cold;
    dw_life__moments moments[DW_LIVES];
} dw_life__place;

/* Called when the last of `legs` legs is over and the next not begun. */
typedef struct dw_life__keep {
    size_t legs;
    void (*keep)(void *owner, const dw_life__place *place,
                 const dw_life__block *block);
    void *owner;
} dw_life__keep;

/* What is to be walked through, and who is told on the way. */
typedef struct dw_life__path {
    const dw_life_request *request;
    const dw_life__kernel *kernel;
    const double *loss_ball; /* DW_LIVES: each member's own */
    const dw_life__rows *rows;
    dw_life__watch *watch; /* NULL: nobody */
    dw_life__keep *keep;   /* NULL: nobody */
    bool go_on;            /* from `place`; else from the mixer's stop */
} dw_life__path;

/* To the end of the legs, and on until every member's life has ended or 14 days
 * are over. */
void dw_life__walk_through(const dw_life__path *path, dw_life__block *block,
                           dw_life__place *place);

double dw_life__legs_h(const dw_life_request *request);
/* Rows up to the end of the legs. */
size_t dw_life__row_count(const dw_life_request *request);
/* The leg at a moment; the last one for ever after. */
const dw_leg *dw_life__leg_at(const dw_life_request *request, double time_h);
/* When the life ends, and by what; INFINITY when it does not. */
double dw_life__end_h(const dw_life_request *request,
                      const dw_life__moments *moments, const char **reason);
/* The window of one life. */
void dw_life__window_of(const dw_life_request *request,
                        const dw_life__moments *moments, dw_window *window);

/* For one life a narrow kernel is the quickest, for many the widest. */
const dw_life__kernel *dw_life__kernel_for(const dw_life_request *request);
/* dw_life_run on a kernel of one's choice. */
dw_status dw_life__run_on(const dw_life__kernel *kernel,
                          const dw_life_request *request, dw_arena *arena,
                          dw_life_reply *reply, dw_err *err);
/* dw_life_run, seeing more. */
dw_status dw_life__run_watched(const dw_life_request *request,
                               dw_life__watch *watch, dw_arena *arena,
                               dw_life_reply *reply, dw_err *err);

/* request->members lives of the caller's models, steps decided by the request's
 * own: gas made and volume of each at the end of the legs. */
dw_status dw_life__run_given(const dw_life_request *request,
                             const dw_ferment_model *members, dw_arena *arena,
                             double *gas_ml, double *volume_ratio, dw_err *err);

#endif
