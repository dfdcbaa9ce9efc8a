/* Batches as the shop has them: planned, read whole, and what their numbers
 * mean today. Shared by the operations of the plan, the card, the book and the
 * paper. */
#ifndef DW_APP_BATCHES_H
#define DW_APP_BATCHES_H

#include "app/formulary.h"
#include "doughwright/adjust.h"
#include "doughwright/cold.h"
#include "doughwright/heat.h"
#include "doughwright/learn.h"
#include "doughwright/life.h"
#include "doughwright/weigh.h"
#include "store/batches.h"

/* A piece with its product's name and boxes. */
typedef struct dw_card_cut {
    dw_batch_piece piece;
    const char *name;
    int64_t balls_per_box, boxes, in_part_box; /* of the planned balls */
} dw_card_cut;

/* A weighing with the words a person needs. */
typedef struct dw_card_weighing {
    dw_batch_weighing weighing;
    const char *stage, *scale, *lot; /* NULL when none */
    double division_kg;              /* of the scale; 0 when none */
    dw_weigh_load *loads;            /* what it shows, load by load */
    size_t loads_count;
} dw_card_weighing;

/* Why the card's water is what it is. */
typedef struct dw_card_water {
    dw_heat_batch inputs; /* of use when there is an answer */
    bool has_answer;      /* false when the goal cannot be reached */
    dw_heat_answer answer;
    dw_estimate work; /* learned from this mixer's batches */
    bool flour_read, room_read, tap_read, bowl_read; /* else assumed */
    bool warm_bowl; /* the batch before left it warm */
} dw_card_water;

/* When to close a stack by the life of its balls, and what that was worked out
 * from. */
typedef struct dw_stack_close {
    int64_t from_ms, by_ms, by_early_ms, by_late_ms;
    double dough_c, room_c, air_c, bench_h, piece_g, open_w_per_m2_k;
    int64_t open_readings; /* core probes that was learned from; 0: set */
} dw_stack_close;
extern const dw_shape dw_stack_close_shape;

/* The clock on the wall: what is due when, by the trade's rules; and when to
 * close by the life of the balls, where it can be told. */
typedef struct dw_card_clock {
    bool has_box_by_ms, has_close;
    int64_t box_by_ms; /* mixer stop + the bench's minutes */
    int64_t close_from_ms, close_by_ms;
    double open_w_per_m2_k; /* of the open stack, by which it is reckoned */
    int64_t open_readings;  /* core probes it was learned from; 0: set */
    bool has_life, has_no_life;
    dw_stack_close life;
    int no_life; /* why the life cannot tell, once there are stacks */
    int64_t ready_day, best_day, use_first_day, last_day; /* civil days */
} dw_card_clock;

/* The window of the heaviest ball, hours from the mixer's stop: as it was
 * planned, and as the bowl makes it. */
typedef struct dw_card_window {
    dw_window planned, in_bowl;
} dw_card_window;

/* What is in the bowl with everything that was off. */
typedef struct dw_card_totals {
    double flour_kg, dough_kg, total_percent, hydration_percent;
    double minors_kg;      /* as planned to be weighed */
    double release_oil_kg; /* outside the percentages */
    int64_t cost_minor;    /* of the planned materials, release oil included */
    bool cost_complete;    /* false: a material's price is not known */
    const char *allergens; /* of its materials, as they stand on the label */
} dw_card_totals;

/* A batch, whole. */
typedef struct dw_card {
    dw_batch_row batch;
    const char *formula_name, *mixer_name, *person_name;
    int64_t version_number;
    dw_card_cut *pieces;
    dw_card_weighing *weighings;
    dw_batch_step *steps;
    dw_card_saying *sayings; /* one a step */
    dw_reading_row *readings;
    dw_batch_change *changes;
    dw_stack *stacks;
    dw_verdict *verdicts;
    size_t pieces_count, weighings_count, steps_count, sayings_count,
        readings_count, changes_count, stacks_count, verdicts_count;
    dw_card_water water;
    dw_card_clock clock;
    dw_card_totals totals;
    bool has_window; /* only when something went otherwise than planned */
    dw_card_window window;
    const char *new_flour_lot; /* its code, when no batch of it is on record */
    const char *message;       /* a slip to look at, or NULL */
} dw_card;
extern const dw_shape dw_card_shape, dw_card_cut_shape;

/* The rows of a batch and its names, without water, clock and sums. */
dw_status dw_card_outline(dw_call *call, int64_t batch_id, dw_card *card);
/* Everything about a batch, its water by today's readings included. */
dw_status dw_card_read(dw_call *call, int64_t batch_id, dw_card *card);

/* The newest reading of a kind: the batch's own, however old; of batch 0 the
 * shop's, of the last 18 hours. false when there is none. */
dw_status dw_reading_newest(dw_call *call, int64_t batch_id, int kind,
                            double *celsius, bool *found);
/* The same; else the shop's, else `usual`, which leaves *found false. */
dw_status dw_reading_or(dw_call *call, int64_t batch_id, int kind, double usual,
                        double *celsius, bool *found);

/* Where stacks go; 0 when the shop has no cold room. */
dw_status dw_first_cold_room(dw_call *call, int64_t *id);

/* Fill card->clock's life from its stacks (stack_close.c). */
dw_status dw_card_close_fill(dw_call *call, const dw_shop *shop, dw_card *card);

/* Hours from the last box until the core of such a ball is between the shop's
 * two closing temperatures, by today's cold room. *known false: the room is too
 * warm to tell. */
dw_status dw_close_hours(dw_call *call, const dw_shop *shop, double ball_kg,
                         double dough_c, dw_cold_close *close, bool *known);

/* What the batch costs and declares: fills cost, release oil and allergens of
 * card->totals (batch_cost.c). */
dw_status dw_card_declare(dw_call *call, const dw_formula *formula,
                          dw_card *card);

/* The formula with so much more water (of flour) in its first water line, for a
 * lot of flour that wants it. Lines are copied; the rest is borrowed. */
dw_status dw_formula_watered(dw_call *call, const dw_formula *formula,
                             double water_percent, dw_formula *watered);

/* A batch's dough in percents of its flour. `planned` is the version with its
 * lot's water; `now` has also the weighings that came otherwise (what is not
 * weighed yet is as planned) and the changes that were reported, in order. The
 * stages are the version's own in both. */
typedef struct dw_bowl {
    dw_formula planned, now;
    dw_adjusted sum; /* of now */
    bool off;        /* do they differ */
} dw_bowl;
/* Fails as dw_batch_adjust: a change that cannot be. */
dw_status dw_bowl_read(dw_call *call, const dw_shop *shop,
                       const dw_batch_row *batch, const dw_formula *formula,
                       dw_bowl *bowl);
/* Fill card->window by the card's own readings and times; before there are any,
 * by the goal, the bench's minutes and when the stack may be closed. */
dw_status dw_card_window_fill(dw_call *call, const dw_shop *shop,
                              const dw_bowl *bowl, dw_card *card);

/* The open lot of the formula's first flour that came last; *found false when
 * there is none. */
dw_status dw_flour_lot(dw_call *call, const dw_formula *formula,
                       dw_material_lot *lot, bool *found);
/* The code of the batch's lot of flour when no other batch of it was begun:
 * then nothing it does differently is known. NULL otherwise. */
dw_status dw_lot_unknown(dw_call *call, const dw_batch_row *batch,
                         const char **code);
/* Learn the lot's water anew from all its batches and keep it. */
dw_status dw_lot_learn(dw_call *call, int64_t lot_id);

/* Fill card->water from the batch, its recipe and the readings. */
dw_status dw_card_water_fill(dw_call *call, const dw_recipe *recipe,
                             dw_card *card);
/* What this mixer's batches taught about the work of this formula and time. */
dw_status dw_work_learned(dw_call *call, const dw_batch_row *batch,
                          int64_t formula_id, dw_estimate *estimate);

#endif
