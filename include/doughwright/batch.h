/* From an order of balls to batches that fit the mixer, the bench and the
 * shop's bags; then each batch's weighings.
 *
 * Packing. An order is counts of balls by size. A batch of F kg of flour gives
 *     usable = F * total_percent / 100 * (1 - loss_percent / 100)     (1)
 * kg of balls. Batches are chosen from the shop's standard ones (whole, 3/4,
 * 1/2 bag): the fewest that hold the order, and of those the least flour; or
 * all equal, for an order rounded up to full boxes. With x[j][s] balls of size
 * s in batch j,
 *     least  sum_j ( odd_j + part_box_kg * part_boxes_j )             (2)
 *     odd_j = usable_j - sum_s x[j][s] w_s >= 0
 *     sum_j x[j][s] >= ordered_s,   sum_s x[j][s] <= bench_balls
 * What is made beyond the order is surplus: named, and put into stock. The
 * search is exact; when its budget runs out before the proof, `proved` is false
 * and the optimum is not below `bound_kg`. See docs/models/batch.md.
 *
 * bench_balls = hands * balls_per_minute * minutes (a trade rule; 20 min).
 *
 * Note codes: standard_over_mixer (subject the standard, value its dough kg,
 * limit most kg), standard_under_mixer (limit least kg), no_standard_fits,
 * batch_under_mixer (subject the batch number, value dough kg, limit least
 * kg), not_proved (value cost kg, limit bound kg), surplus (subject product,
 * value balls).
 */
#ifndef DOUGHWRIGHT_BATCH_H
#define DOUGHWRIGHT_BATCH_H

#include "doughwright/note.h"

enum {
    DW_PACK_SIZES = 6, /* ball sizes in one order */
    DW_PACK_STANDARDS = 6,
    DW_PACK_BATCHES = 24,
    DW_PACK_BALLS = 5000 /* of one size in one order */
};

/* Balls of one size: as ordered. */
typedef struct dw_pack_size {
    const char *product;
    double piece_g;
    int64_t count;
    int64_t per_box; /* 0: boxes are not counted */
} dw_pack_size;

/* A batch the shop is used to: "whole bag". */
typedef struct dw_pack_standard {
    const char *name;
    double flour_kg;
} dw_pack_standard;

typedef struct dw_pack_bench {
    double hands;
    double balls_per_minute; /* of one pair of hands, 3 to 6 (from memory) */
    double minutes;          /* from dough out to last box */
} dw_pack_bench;

typedef enum dw_pack_split { DW_PACK_STANDARD, DW_PACK_EQUAL } dw_pack_split;
extern const char *const dw_pack_split_words[]; /* standard equal */

typedef struct dw_pack_request {
    dw_pack_size *sizes;
    size_t sizes_count;
    double total_percent; /* of the formula: flour 100 and the rest */
    double loss_percent;  /* dough that never becomes a ball */
    dw_pack_standard *standards;
    size_t standards_count;
    int split;         /* dw_pack_split; equal also when no standard fits */
    double part_box_g; /* odd dough worth leaving to avoid a part box; preset
                          1, so that of equal packings the one with fewer part
                          boxes is taken */
    bool has_max_dough_kg, has_min_dough_kg; /* of the mixer, this dough */
    double max_dough_kg, min_dough_kg;
    bool has_bench;
    dw_pack_bench bench;
} dw_pack_request;

typedef struct dw_pack_balls {
    const char *product;
    double piece_g;
    int64_t count;
    int64_t boxes;       /* full and part boxes */
    int64_t in_part_box; /* balls in the part box, 0 when all are full */
} dw_pack_balls;

typedef struct dw_pack_batch {
    const char *standard; /* its name; NULL for equal batches */
    double flour_kg, dough_kg, usable_kg, odd_kg;
    int64_t balls;
    dw_pack_balls *sizes;
    size_t sizes_count;
} dw_pack_batch;

/* One line of the account: ordered + surplus = made. */
typedef struct dw_pack_account {
    const char *product;
    double piece_g;
    int64_t ordered, made, surplus;
} dw_pack_account;

typedef struct dw_pack_reply {
    dw_pack_batch *batches;
    size_t batches_count;
    dw_pack_account *account;
    size_t account_count;
    double flour_kg, dough_kg, odd_kg;
    double bound_kg; /* no packing of these batches costs less, (2) */
    double cost_kg;  /* of this one */
    bool proved;
    bool has_bench_balls;
    int64_t bench_balls;
    dw_note *notes;
    size_t notes_count;
} dw_pack_reply;

extern const dw_shape dw_pack_request_shape, dw_pack_reply_shape;

/* Bytes of arena that are enough for any request. */
#define DW_PACK_BYTES ((size_t)12 << 20)

/* Fails with DW_E_RANGE (a ball heavier than any batch: sizes[i].piece_g;
 * more than DW_PACK_BATCHES batches: sizes), DW_E_UNREACHABLE (bench takes no
 * ball), DW_E_ROOM. Everything in the reply lives in the arena; names are
 * borrowed from the request. */
dw_status dw_batch_pack(const dw_pack_request *request, dw_arena *arena,
                        dw_err *err, dw_pack_reply *reply);

#endif
