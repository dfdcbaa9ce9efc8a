/* Weighings: each line of a batch over the shop's scales, and the sums that
 * catch a slip.
 *
 * Whole bags are not weighed: a line of 53.40 kg with 25 kg bags is "2 bags +
 * 3.40 kg". The rest r goes over one scale of division d in k loads, each a
 * multiple of d and no more than the capacity:
 *     m = round(r / d) divisions, rounding = m d - r, |rounding| <= d / 2 (1)
 *     doubt = |rounding| + k d / 2                                       (2)
 * because a scale is not read better than half a division each time it is
 * read (0.25 oz on 3 oz of yeast is 4 %). Of the scales whose doubt stays
 * within the tolerance the one with the fewest loads is taken, then the one
 * with the least doubt; when none does, the one with the least doubt, and the
 * line is named.
 *
 * Two sums: minors before they go in; after dividing, balls + scrap + what
 * the bowl usually keeps against the dough. Salt forgotten is 1.1 % of it.
 * Practice of the trade, no source.
 *
 * Note codes: scale_coarse (subject material, value doubt %, limit tolerance
 * %), scale_too_coarse (subject material, value kg, limit half the finest
 * division: it cannot be weighed), dough_missing and dough_extra (value kg,
 * limit kg allowed), dough_adds_up (value kg).
 */
#ifndef DOUGHWRIGHT_WEIGH_H
#define DOUGHWRIGHT_WEIGH_H

#include "doughwright/formula.h"
#include "doughwright/note.h"

enum { DW_WEIGH_LINES = 40, DW_WEIGH_SCALES = 8 };

typedef struct dw_scale {
    const char *name;
    double capacity_kg, division_kg;
} dw_scale;

typedef struct dw_weigh_line {
    const char *material;
    int kind; /* dw_line_kind */
    double kg;
    bool has_bag_kg;
    double bag_kg; /* whole bags of so much are not weighed */
} dw_weigh_line;

typedef struct dw_weigh_request {
    dw_weigh_line *lines;
    size_t lines_count;
    dw_scale *scales;
    size_t scales_count;
    double tolerance_percent; /* of a line, preset 1 */
} dw_weigh_request;

/* So many times the same weight. */
typedef struct dw_weigh_load {
    int64_t times;
    double kg;
} dw_weigh_load;

typedef struct dw_weigh_row {
    const char *material; /* borrowed */
    int kind;
    double wanted_kg;
    int64_t bags;
    double bag_kg;
    const char *scale;    /* NULL when whole bags are all */
    dw_weigh_load *loads; /* one or two weights */
    size_t loads_count;
    double weighed_kg;    /* bags and loads */
    double rounding_kg;   /* weighed - wanted */
    double doubt_percent; /* (2), of the line */
} dw_weigh_row;

typedef struct dw_weigh_reply {
    dw_weigh_row *rows;
    size_t rows_count;
    double minors_kg; /* salt, sugar, yeast, malt, gluten, other: as weighed */
    double dough_kg;  /* all rows, as weighed */
    dw_note *notes;
    size_t notes_count;
} dw_weigh_reply;

extern const dw_shape dw_scale_shape, dw_weigh_load_shape,
    dw_weigh_request_shape, dw_weigh_reply_shape;

/* Is this kind weighed among the minors? */
bool dw_weigh_is_minor(int kind);

/* Fails with DW_E_RANGE (a scale whose division is above its capacity:
 * scales[i].division_kg), DW_E_ROOM. The reply lives in the arena; 64 KiB are
 * enough. */
dw_status dw_weigh_split(const dw_weigh_request *request, dw_arena *arena,
                         dw_err *err, dw_weigh_reply *reply);

/* After dividing. */
typedef struct dw_weigh_balance_request {
    double dough_kg; /* as weighed in, release oil apart */
    double balls_kg, scrap_kg;
    double residue_kg;        /* the bowl's usual */
    double tolerance_percent; /* of the dough, preset 1 */
} dw_weigh_balance_request;

typedef struct dw_weigh_balance_reply {
    double missing_kg; /* below 0: more came out than went in */
    double missing_percent;
    bool adds_up;
    dw_note *notes; /* one */
    size_t notes_count;
    dw_note note_;
} dw_weigh_balance_reply;

extern const dw_shape dw_weigh_balance_request_shape,
    dw_weigh_balance_reply_shape;

/* Cannot fail on a checked request; `reply` must not be moved. */
void dw_weigh_balance(const dw_weigh_balance_request *request,
                      dw_weigh_balance_reply *reply);

#endif
