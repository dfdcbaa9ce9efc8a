/* From "96 balls of 14 oz and 60 of 10 oz" to batches that fit mixer, bench and
 * boxes, each with its weighings and its steps, laid into one run. */
#ifndef DW_APP_PLAN_H
#define DW_APP_PLAN_H

#include "app/batches.h"
#include "doughwright/batch.h"
#include "doughwright/minors.h"
#include "doughwright/mixer.h"
#include "doughwright/runsheet.h"

typedef struct dw_plan_piece {
    int64_t product_id, balls;
} dw_plan_piece;

typedef struct dw_plan_request {
    int64_t day; /* 0: today */
    dw_plan_piece *pieces;
    size_t pieces_count;
    int split;          /* dw_pack_split */
    int64_t mixer_id;   /* 0: the shop's first */
    int64_t start_ms;   /* first mix; 0: now, or when the shop opens */
    int order;          /* dw_run_order */
    bool bag_of_minors; /* take a bag where one is made */
} dw_plan_request;

/* What the mixer takes of a dough, and why (doughwright/mixer.h). */
typedef struct dw_plan_takes {
    int origin; /* dw_mixer_origin */
    double absorption_percent, derating;
    bool has_rated_kg, has_max_dough_kg, has_min_dough_kg;
    double rated_kg, max_dough_kg, min_dough_kg;
    const char *mixer, *note; /* its name, and where the plate was read */
} dw_plan_takes;

/* One batch that was worked out; kept, it is a batch of the book. */
typedef struct dw_plan_batch {
    dw_batch_row batch;
    const char *formula_name, *standard;
    double odd_kg;
    dw_card_cut *pieces;
    size_t pieces_count;
    dw_batch_weighing *weighings;
    size_t weighings_count;
    dw_batch_step *steps;
    size_t steps_count;
    double dough_out_min; /* first step of the dough to the mixer's stop */
    dw_plan_takes takes;
} dw_plan_batch;

typedef struct dw_plan_account {
    int64_t product_id, ordered, made, surplus;
    const char *name;
} dw_plan_account;

typedef struct dw_plan {
    int64_t day;
    dw_plan_batch *batches;
    size_t batches_count;
    dw_plan_account *account;
    size_t account_count;
    bool proved; /* no other packing leaves less odd dough */
    dw_run_reply run;
    dw_note *notes;
    size_t notes_count;
} dw_plan;

extern const dw_shape dw_plan_request_shape, dw_plan_shape;

/* Work it out; nothing is written. */
dw_status dw_plan_make(dw_call *call, const dw_plan_request *request,
                       dw_plan *plan);
/* Write its batches; their ids and numbers are set. */
dw_status dw_plan_keep(dw_call *call, dw_plan *plan);

/* What a mixer takes of a recipe's dough, derated for today. */
dw_status dw_plan__mixer_takes(dw_call *call, const dw_mixer_row *mixer,
                               const dw_recipe *recipe, dw_mixer_answer *answer,
                               dw_plan_takes *takes);
/* Steps of one batch (plan_batch.c): weighings and card of a drafted batch. */
dw_status dw_plan__fill(dw_call *call, const dw_shop *shop,
                        const dw_recipe *recipe, const dw_mixer_row *mixer,
                        bool bag_of_minors, dw_plan_batch *batch,
                        dw_notes *notes);

#endif
