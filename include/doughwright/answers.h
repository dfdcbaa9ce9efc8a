/* The life of a ball asked the other way round: not what becomes of this dough,
 * but what to do so that it is good when it is wanted.
 *
 * All of it is the one life (life.h), run again with one thing changed until
 * the answer fits; there is no second model here. Yeast for a wanted moment is
 * dw_life_yeast. Times in h from the mixer's stop, temperatures in degC. How
 * each is found, how sure it is and how long it takes: docs/models/answers.md.
 *
 * The moments are about quality; they are no safety clearance, and what the
 * local food code says of temperatures and times comes first.
 */
#ifndef DOUGHWRIGHT_ANSWERS_H
#define DOUGHWRIGHT_ANSWERS_H

#include "doughwright/life.h"

/* A moment, and when it comes where the air takes heat worse or better than
 * usual: the surface coefficient is what a shop knows least. */
typedef struct dw_answer_moment {
    double at_h, early_h, late_h;
} dw_answer_moment;
extern const dw_shape dw_answer_moment_shape;

/* How far the surface coefficient may be from the one told: an offset stack is
 * 8, between 7 and 10 (constants.h). A shop that has learned its own narrows
 * these to 1. */
typedef struct dw_answer_air {
    double least_part; /* preset 0.875 */
    double most_part;  /* preset 1.25 */
} dw_answer_air;
extern const dw_shape dw_answer_air_shape;

/* ---- dough temperature ---- */

/* The dough temperature off the mixer that brings a moment of the window at
 * wanted_h. `life` is as for dw_life_run; its dough_c is not read. */
typedef struct dw_warmth_ask {
    dw_life_request life;
    int mark; /* index into dw_life_mark_words */
    double wanted_h;
} dw_warmth_ask;
typedef struct dw_warmth_reply {
    double dough_c;
    dw_life_reply life; /* with it */
} dw_warmth_reply;
extern const dw_shape dw_warmth_ask_shape, dw_warmth_reply_shape;

/* As dw_life_run; DW_E_CONFLICT when the temperature is held; DW_E_UNREACHABLE
 * on wanted_h with the moments that 10 to 38 degC can bring. */
dw_status dw_answer_warmth(const dw_warmth_ask *ask, dw_arena *arena,
                           dw_warmth_reply *reply, dw_err *err);

/* ---- closing a stack ---- */

/* The first leg of `life` whose air is below 10 degC is the open stack; how
 * long it lasts is what is asked. Legs before it stand; what the life says
 * after it is not read: the stack goes on closed in the same air. */
typedef struct dw_close_ask {
    dw_life_request life;
    double close_from_core_c, close_by_core_c; /* presets 12.78 and 10 */
    double closed_h_w_per_m2_k;                /* preset 3 */
    dw_answer_air air;
} dw_close_ask;
typedef struct dw_close_reply {
    dw_answer_moment from_h, by_h;
    dw_window closed_from; /* the window when it is closed then */
    dw_window closed_by;
} dw_close_reply;
extern const dw_shape dw_close_ask_shape, dw_close_reply_shape;

/* Core from its life, fermentation heat included (cold.h has the trade's
 * clock). As dw_life_run; DW_E_RANGE when the core temperatures do not fall;
 * DW_E_MISSING on life.legs without a cold one; DW_E_UNREACHABLE on
 * life.legs.air_c when the core does not get that cold within 14 days. */
dw_status dw_answer_close(const dw_close_ask *ask, dw_arena *arena,
                          dw_close_reply *reply, dw_err *err);

/* ---- pulling balls out of the cold ---- */

/* The last leg of `life` is the cold; it goes on until they are pulled. */
typedef struct dw_pull_ask {
    dw_life_request life;
    double opening_h; /* when they are to be opened */
    double room_c, room_h_w_per_m2_k;
    double core_low_c, core_high_c; /* presets 10 and 15.56 (50, 60 degF) */
    dw_answer_air air;
} dw_pull_ask;
typedef struct dw_pull_reply {
    dw_answer_moment by_h;   /* later, and the core is below core_low_c */
    bool has_from_h;         /* no: pulled at any time they are not too warm */
    dw_answer_moment from_h; /* sooner, and it is above core_high_c */
    double pull_h;           /* amid the two; without from_h, by_h.early_h */
    double core_c, mean_c;   /* at opening, pulled at pull_h */
    dw_life_reply life;      /* pulled at pull_h */
} dw_pull_reply;
extern const dw_shape dw_pull_ask_shape, dw_pull_reply_shape;

/* As dw_life_run; DW_E_RANGE on opening_h (after the cold began), on core
 * temperatures that do not rise, on life.legs.air_c of a last leg that is not
 * below core_low_c; DW_E_UNREACHABLE on room_c when it is too cool, on
 * opening_h when even at once is too late. */
dw_status dw_answer_pull(const dw_pull_ask *ask, dw_arena *arena,
                         dw_pull_reply *reply, dw_err *err);

/* ---- the same dough in another shop ---- */

/* What a shop does to a dough: its mixer and tap before, its rooms after. */
typedef struct dw_shop_ways {
    double flour_kg; /* in one batch */
    double flour_c, room_c, tap_c, ice_c;
    double bowl_kg;
    double work_j_per_kg_dough;
    dw_leg *legs; /* bench, cold room, ... */
    size_t legs_count;
    double elevation_m;
} dw_shop_ways;
extern const dw_shape dw_shop_ways_shape;

extern const char *const dw_transfer_words[]; /* yeast, dough_c */
typedef enum dw_transfer_turn {
    DW_TRANSFER_YEAST,
    DW_TRANSFER_DOUGH_C
} dw_transfer_turn;

typedef struct dw_transfer_ask {
    dw_formula formula;
    double piece_g, dough_c;
    dw_shop_ways here, there;
    int turn; /* dw_transfer_turn: what may change on the way */
    int mark; /* what must come at the same hour */
    double earliest_cold_use_h;
    dw_ferment_model model;
    dw_life_range *ranges; /* of the band (life.h) */
    size_t ranges_count;
    int64_t members;
} dw_transfer_ask;

typedef struct dw_transfer_water {
    double water_c, ice_kg, liquid_c; /* as heat.water */
} dw_transfer_water;
typedef struct dw_transfer_reply {
    double percent; /* of yeast, there */
    double dough_c; /* there */
    dw_transfer_water here_water, there_water;
    double mark_h; /* here, and so there */
    dw_window here;
    dw_life_reply there;
} dw_transfer_reply;
extern const dw_shape dw_transfer_ask_shape, dw_transfer_reply_shape;

/* The percent of yeast, or the dough temperature, with which the mark comes in
 * the other shop at the hour it comes in this one, and the water and ice that
 * make that dough in either. There and back is the start again. Fails as
 * dw_life_run and dw_heat_water, with `here` or `there` before the field;
 * DW_E_SUM without exactly one line of yeast; DW_E_UNREACHABLE on `mark` when
 * it does not come here, or when the yeast does not decide it (the shop's
 * earliest use does, or age): choose another mark. */
dw_status dw_answer_transfer(const dw_transfer_ask *ask, dw_arena *arena,
                             dw_transfer_reply *reply, dw_err *err);

/* ---- emergency dough ---- */

typedef struct dw_hurry_ask {
    dw_formula formula;
    double piece_g;
    double usable_in_h;        /* after the mixer's stop */
    double dough_c;            /* preset 27: as warm as is usual */
    double dough_most_c;       /* preset 35: as warm as it may be made */
    double yeast_most_percent; /* of the formula's own kind: preset 2 */
    double room_c, h_w_per_m2_k;
    double elevation_m;
    dw_ferment_model model;
    dw_life_range *ranges; /* of the band (life.h) */
    size_t ranges_count;
    int64_t members;
} dw_hurry_ask;
typedef struct dw_hurry_reply {
    double percent; /* of yeast */
    double dough_c;
    bool warmer; /* than dough_c: yeast alone was not enough */
    dw_life_reply life;
} dw_hurry_reply;
extern const dw_shape dw_hurry_ask_shape, dw_hurry_reply_shape;

/* Yeast first, at the usual warmth; when that needs more than
 * yeast_most_percent, that much and a warmer dough. As dw_life_run;
 * DW_E_SUM without exactly one line of yeast; DW_E_RANGE when dough_most_c is
 * below dough_c; DW_E_UNREACHABLE on usable_in_h with what can be reached. */
dw_status dw_answer_hurry(const dw_hurry_ask *ask, dw_arena *arena,
                          dw_hurry_reply *reply, dw_err *err);

#endif
