/* Stored readings as what the lessons of teach.h ask for: which stack, in what
 * air, since when. What cannot be placed so is not asked of the engine; its
 * entry says why. */
#ifndef DW_APP_EVIDENCE_H
#define DW_APP_EVIDENCE_H

#include "app/formulary.h"

#include "doughwright/teach.h"
#include "store/taught.h"

/* Why a reading is used or not: the engine's words, then ours. */
extern const char *const dw_evidence_why_words[];
enum {
    DW_WHY_NO_STACK = DW_TEACH_GAP + 1, /* it is not told which, or gone */
    DW_WHY_NO_TIMES, /* of the mixer's stop or the boxes, or before them */
    DW_WHY_NO_DOUGH, /* the dough's temperature was not read */
    DW_WHY_NO_AIR,   /* nobody read the cold room */
    DW_WHY_NO_MODEL, /* for this form of dough or way of holding it */
    DW_WHY_CHANGED,  /* the batch's yeast was not as the formula says */
    DW_WHY_LATE      /* a cup long after the mixer, a verdict after 14 days */
};

/* One reading, verdict or look at a cup, and what became of it. */
typedef struct dw_evidence {
    int what; /* of dw_leave_words */
    int64_t of_id, batch_id, number;
    const char *name;    /* the product; NULL when none */
    const char *verdict; /* of a verdict */
    int64_t occurred_ms;
    bool has_value;
    double value; /* degC; of a cup its volume against the first */
    bool has_expected;
    double expected;    /* in the same; of a verdict mL of gas */
    int use, why;       /* dw_teach_use, dw_evidence_why_words */
    const char *reason; /* a person's, for leaving it out */
} dw_evidence;
extern const dw_shape dw_evidence_shape;

/* What is left out, read once for a call. */
typedef struct dw_left_outs {
    dw_left_out *rows;
    size_t count;
} dw_left_outs;
dw_status dw_left_outs_read(dw_call *call, dw_left_outs *outs);
/* The row that leaves it out, or NULL. */
const dw_left_out *dw_left_outs_find(const dw_left_outs *outs, int what,
                                     int64_t of_id);

/* What a lesson is made of: entries, oldest first, and for each of the ask's
 * items the entry it is. */
typedef struct dw_case {
    dw_evidence *entries;
    size_t entries_count;
    size_t *entry_of; /* of the ask's readings, verdicts or log */
} dw_case;

/* The newest of the shop's core probes. */
dw_status dw_evidence_stack(dw_call *call, const dw_shop *shop,
                            const dw_left_outs *outs, dw_teach_stack_ask *ask,
                            dw_case *probes);

/* Most entries of one yeast: 24 cups of 20 looks, 24 verdicts. */
enum {
    DW_CUP_LOOKS_MOST = 20,
    DW_EVIDENCE_YEAST_MOST = 24 * DW_CUP_LOOKS_MOST + 24
};
/* Whose cups and verdicts; formula_id and lot_id 0: of any. */
typedef struct dw_yeast_key {
    int yeast; /* dw_line_kind */
    int64_t formula_id, lot_id;
} dw_yeast_key;
/* Stacks give heat away by these, learned or not. */
typedef struct dw_stack_h {
    double open_w_per_m2_k, closed_w_per_m2_k;
} dw_stack_h;
/* cups: an entry for each look, entry_of the first of each cup. */
dw_status dw_evidence_yeast(dw_call *call, const dw_stack_h *h,
                            const dw_left_outs *outs, const dw_yeast_key *key,
                            dw_teach_yeast_ask *ask, dw_case *cups,
                            dw_case *verdicts);

/* The log of the cold room, the last seven days of it. from_ms: hour 0. */
dw_status dw_evidence_room(dw_call *call, const dw_left_outs *outs,
                           dw_teach_room_ask *ask, dw_case *log);

/* What every lesson wants of a batch: balls in the bench's air, then open,
 * then closed in the cold. Placing it fails with a word of
 * dw_evidence_why_words in *why, which is DW_TEACH_FINE else. */
typedef struct dw_stay {
    dw_batch_row batch;
    dw_product product;
    dw_formula formula; /* as it was in the bowl */
    double dough_c, room_c, air_c;
    double bench_h, open_h, closed_h; /* closed_h 0: still open */
} dw_stay;
dw_status dw_stay_until(dw_call *call, int64_t batch_id, int64_t product_id,
                        int64_t until_ms, dw_stay *stay, int *why);

/* The dough as it was in the bowl; *why becomes DW_WHY_CHANGED when its yeast
 * was forgotten, doubled or swapped. */
dw_status dw_batch_dough(dw_call *call, const dw_batch_row *batch,
                         dw_formula *formula, int *why);

#endif
