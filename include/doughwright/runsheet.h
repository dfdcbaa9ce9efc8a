/* The run sheet: several batches in a row, bench and mixer overlapping.
 *
 * One mixer, one bench. While batch 1 is divided and boxed, batch 2 mixes, so
 * that its dough comes off just as the bench is free; dough never waits on the
 * bench. With minutes from the first mix, for batch i (mix_i, ball_i =
 * balls / (hands * balls_per_minute), turn = scraping and loading the bowl):
 *     mix_start_i = max(dough_out_(i-1) + turn, boxed_(i-1) - mix_i)    (1)
 *     dough_out_i = mix_start_i + mix_i,  boxed_i = dough_out_i + ball_i (2)
 * A single pair of hands does not overlap: mix_start_i >= boxed_(i-1).
 * A stack closes close_minutes after its last box (by the trade's clock or the
 * life of the ball; the caller's).
 *
 * The bowl comes warm from the batch before. It leaves at the dough's
 * temperature and drifts to the room's with a time constant (preset 40 min, an
 * assumption without a source, settable):
 *     bowl_i = room + (dough - room) exp(-(mix_start_i - dough_out_(i-1)) / t)
 *                                                                        (3)
 * When a stack would close after the last person leaves, the sheet says so
 * before anything is mixed, with what would help and by when. Each way out was
 * worked through; one that does not help is not named. Practice, no source.
 *
 * Note codes: bench_over (subject batch, value minutes, limit minutes
 * allowed), closes_late (subject product, value minutes late), start_past
 * (value minutes before earliest_ms).
 * Advice codes: start_earlier, small_first, large_first, bag_singly.
 */
#ifndef DOUGHWRIGHT_RUNSHEET_H
#define DOUGHWRIGHT_RUNSHEET_H

#include "doughwright/note.h"

enum { DW_RUN_BATCHES = 24, DW_RUN_PIECES = 6 };

typedef struct dw_run_piece {
    const char *product;
    double piece_g;
    int64_t count;
    double close_minutes; /* from its last box until its stack closes */
} dw_run_piece;

typedef struct dw_run_batch {
    const char *name;
    double mix_minutes; /* first ingredient to dough out, by its card */
    dw_run_piece *pieces;
    size_t pieces_count;
} dw_run_batch;

typedef struct dw_run_person {
    const char *name;
} dw_run_person;

typedef enum dw_run_order {
    DW_RUN_AS_GIVEN,
    DW_RUN_SMALL_FIRST,
    DW_RUN_LARGE_FIRST
} dw_run_order;
extern const char *const dw_run_order_words[]; /* given small_first ... */

typedef struct dw_run_request {
    dw_run_batch *batches;
    size_t batches_count;
    int order; /* dw_run_order, of batches and of sizes within one */
    bool has_start_ms, has_boxed_by_ms; /* exactly one of them */
    int64_t start_ms, boxed_by_ms;
    bool has_earliest_ms, has_last_leaves_ms;
    int64_t earliest_ms; /* nobody is there before */
    int64_t last_leaves_ms;
    double hands, balls_per_minute; /* at the bench */
    double bench_minutes;           /* allowed from dough out to last box */
    double turn_minutes;            /* to scrape and load the bowl */
    bool has_room_c, has_dough_c, has_bowl_c;
    double room_c, dough_c, bowl_c; /* bowl_c: before the first batch */
    double bowl_minutes;            /* time constant of (3) */
    dw_run_person *people;          /* the first mixes, the others ball */
    size_t people_count;
} dw_run_request;

typedef struct dw_run_stack {
    const char *product;
    double piece_g;
    int64_t count;
    int64_t boxed_ms, close_ms;
    bool late;
} dw_run_stack;

typedef struct dw_run_line {
    const char *name;
    int64_t mix_start_ms, dough_out_ms, boxed_ms;
    double bench_minutes; /* from dough out to its last box */
    int64_t balls;
    bool has_bowl_c;
    double bowl_c; /* when its water goes in */
    const char *mixed_by, *balled_by;
    dw_run_stack *stacks; /* in the order they are balled */
    size_t stacks_count;
} dw_run_line;

typedef struct dw_run_advice {
    const char *code;
    const char *batch, *product; /* for bag_singly */
    bool has_start_ms;
    int64_t start_ms;    /* first mix, for start_earlier */
    int64_t done_ms;     /* when the last thing of it is done */
    bool enough;         /* all closed before the last person leaves */
    const char *message; /* the app's, in the reader's language; NULL here */
} dw_run_advice;

typedef struct dw_run_reply {
    dw_run_line *batches; /* in the order they are mixed */
    size_t batches_count;
    int64_t start_ms, boxed_ms, last_close_ms;
    bool has_latest_start_ms; /* there is something to be late for */
    int64_t latest_start_ms;
    dw_run_advice *advice;
    size_t advice_count;
    dw_note *notes;
    size_t notes_count;
} dw_run_reply;

extern const dw_shape dw_run_request_shape, dw_run_reply_shape;

/* Fails with DW_E_MISSING (neither start_ms nor boxed_by_ms: start_ms),
 * DW_E_CONFLICT (both: boxed_by_ms), DW_E_ROOM. The reply lives in the arena
 * (128 KiB are enough); names are borrowed. */
dw_status dw_run_sheet(const dw_run_request *request, dw_arena *arena,
                       dw_err *err, dw_run_reply *reply);

/* (3): the bowl that dough of dough_c left idle_minutes ago. */
double dw_run_bowl_c(double room_c, double dough_c, double idle_minutes,
                     double bowl_minutes);
/* The time constant when nobody set one. */
#define DW_RUN_BOWL_MINUTES 40

#endif
