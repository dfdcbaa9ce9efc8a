/* If this happens: what becomes of the stacks when a cold room is warm, the
 * power is cut, they ride in a warm van or a box is left out.
 *
 * Each stack's life (life.h) is lived twice, as planned and as it happened; the
 * second says what is saved, what to use first and what is past, and the new
 * window. Times in h against now; the stack's own window from its mixer's stop.
 * Model of the room and its limits: docs/models/answers.md.
 *
 * About quality, no safety clearance: whether dough that stood warm may still
 * be sold is for the local food code and its authority to say.
 */
#ifndef DOUGHWRIGHT_MISHAP_H
#define DOUGHWRIGHT_MISHAP_H

#include "doughwright/cold.h"
#include "doughwright/life.h"

extern const char *const dw_mishap_words[];
typedef enum dw_mishap_kind {
    DW_MISHAP_WARM_ROOM, /* the cold room has air_c */
    DW_MISHAP_POWER_CUT, /* doors shut, its air goes to outside_c by itself */
    DW_MISHAP_VAN,       /* delivery in air of air_c */
    DW_MISHAP_LEFT_OUT   /* forgotten in air of air_c */
} dw_mishap_kind;

typedef struct dw_mishap {
    int kind;
    double from_h; /* below 0: it began that long ago */
    double hours;  /* from then on */
    bool has_air_c;
    double air_c; /* needed but for a power cut */
    bool has_outside_c;
    double outside_c;       /* needed for a power cut */
    double time_constant_h; /* of the shut room: preset 10 */
    bool has_recover_h;
    double recover_h; /* and with the power back; not told: 1 */
    bool has_h_w_per_m2_k;
    double h_w_per_m2_k; /* meanwhile; not told: as planned */
} dw_mishap;
extern const dw_shape dw_mishap_shape;

/* What its kind needs is told. DW_E_MISSING on mishap.air_c or
 * mishap.outside_c; DW_E_RANGE on mishap.air_c of a room above 35 degC (which
 * is how degF look). */
dw_status dw_mishap_check(const dw_mishap *mishap, dw_err *err);

/* Boxes of one product of one batch. */
typedef struct dw_mishap_stack {
    const char *name;
    int64_t boxes;
    dw_formula formula;
    double piece_g, dough_c;
    dw_leg *legs; /* as planned, from the mixer's stop to now */
    size_t legs_count;
    dw_leg then;    /* at last; its hours are not read */
    dw_leg *coming; /* as planned from now on, before `then`; may be NULL */
    size_t coming_count;
} dw_mishap_stack;

typedef struct dw_mishap_ask {
    dw_mishap mishap;
    dw_mishap_stack *stacks;
    size_t stacks_count;
    double elevation_m, earliest_cold_use_h;
    dw_ferment_model model;
    dw_life_range *ranges; /* of the band (life.h) */
    size_t ranges_count;
    int64_t members, shells; /* of each life (life.h) */
} dw_mishap_ask;

extern const char *const dw_fate_words[]; /* saved use_first past */
typedef enum dw_fate_verdict {
    DW_FATE_SAVED,
    DW_FATE_USE_FIRST,
    DW_FATE_PAST
} dw_fate_verdict;

typedef struct dw_mishap_fate {
    const char *name;      /* borrowed */
    int verdict;           /* dw_fate_verdict, when the mishap is over */
    bool sure;             /* the band's early and late lives say the same */
    int readiness;         /* dw_readiness, then */
    double age_h;          /* since the mixer's stop, then */
    double core_c, mean_c; /* then */
    dw_window planned, now;
    bool has_left_h;
    double left_h; /* from then to the end of the new window, 0 when past */
    bool has_band;
    dw_band_window band; /* of `now` */
} dw_mishap_fate;

typedef struct dw_mishap_reply {
    dw_mishap_fate *fates; /* one a stack */
    size_t fates_count;
    int64_t saved_boxes, use_first_boxes, past_boxes;
} dw_mishap_reply;
extern const dw_shape dw_mishap_ask_shape, dw_mishap_reply_shape;

/* When the mishap lies ahead, the verdict is for its end; when it is over, for
 * now. A warm room and a power cut touch a stack only while it was planned to
 * be below 10 degC. Fails as dw_mishap_check; as dw_life_run, with stacks[i]
 * before the field; DW_E_RANGE on then.air_c of a room that is not cold, on
 * from_h when the mishap is before the stack, on legs beyond 14 days. Memory:
 * 200 kB, 350 bytes a leg of one stack and 700 bytes a stack from the arena. */
dw_status dw_mishap_foresee(const dw_mishap_ask *ask, dw_arena *arena,
                            dw_mishap_reply *reply, dw_err *err);

#endif
