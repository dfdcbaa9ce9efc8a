/* Papers: sheets and labels as PDF, enough to work by when the computer is off.
 *
 * A paper is asked for by one request and drawn from the replies of operations,
 * on a reader thread, in the person's language and units. It is the same byte
 * by byte when nothing has changed and the clock stands still.
 *
 *   batch      one batch: weigh, water, readings, mix, divide, box, dates
 *   procedure  a formula's procedure for the wall
 *   scale      a formula at a size, as weights
 *   run        the batches of a day on mixer and bench
 *   day        today: what to mix, close, use first, and the count
 *   handover   what the next shift must know
 *   labels     the boxes of a batch
 *   pull       which boxes come out of the cold when
 *   drops      what goes to which shop, and the door
 *   recall     where a lot went, and blanks for who was called
 *
 * It is no operation of the door's table, since its reply is bytes: a door
 * gives a job this operation and dw_paper_codec (app/app.h).
 */
#ifndef DW_PAPER_PAPER_H
#define DW_PAPER_PAPER_H

#include "app/app.h"
#include "doughwright/formula.h"

extern const char
    *const dw_paper_words[]; /* batch procedure scale run day
                                handover labels pull drops recall */
typedef enum dw_paper_what {
    DW_PAPER_BATCH,
    DW_PAPER_PROCEDURE,
    DW_PAPER_SCALE,
    DW_PAPER_RUN,
    DW_PAPER_DAY,
    DW_PAPER_HANDOVER,
    DW_PAPER_LABELS,
    DW_PAPER_PULL,
    DW_PAPER_DROPS,
    DW_PAPER_RECALL
} dw_paper_what;

extern const char *const dw_paper_size_words[]; /* usual a4 letter label */
typedef enum dw_paper_size {
    DW_PAPER_USUAL, /* letter with US units, else A4; labels: label */
    DW_PAPER_A4,
    DW_PAPER_LETTER,
    DW_PAPER_LABEL /* 100 x 60 mm, one a page; labels only */
} dw_paper_size;

extern const char *const dw_paper_units_words[]; /* shop metric us */

typedef struct dw_paper_request {
    int what;    /* dw_paper_what */
    int64_t id;  /* the batch; the formula of procedure and scale; the shop of
                    drops; the lot of recall */
    int64_t day; /* civil day of run, pull, drops; 0: today */
    int size;    /* dw_paper_size */
    int units;   /* 0 the shop's, 1 metric, 2 US */
    bool has_target;
    dw_target target; /* of scale; else the formula's flour is 10 kg */
} dw_paper_request;

/* A PDF, in the arena. */
typedef struct dw_paper {
    const char *bytes;
    size_t count;
} dw_paper;

extern const dw_shape dw_paper_request_shape;

/* DW_E_NOT_FOUND (id), DW_E_MISSING (id), DW_E_CHOICE (a size the paper has
 * not: size), DW_E_IO (font), DW_E_ROOM, and as the operations it is drawn
 * from. */
dw_status dw_paper_make(dw_call *call, const dw_paper_request *request,
                        dw_paper *paper);

/* For a dw_job: the request as JSON in, the PDF out. */
extern const dw_op dw_paper_op;
extern const dw_codec dw_paper_codec;

#endif
