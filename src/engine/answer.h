/* What the answers that are asked the other way round share. */
#ifndef DW_ENGINE_ANSWER_H
#define DW_ENGINE_ANSWER_H

#include "doughwright/life.h"

/* A moment of the window, INFINITY when it does not come. */
double dw_answer__mark_h(const dw_window *window, int mark);

/* The window of a life without its band; the arena is as before. */
dw_status dw_answer__window(const dw_life_request *life, dw_arena *arena,
                            dw_window *window, dw_err *err);

/* Of a life one number is turned until a mark of its window comes when it is
 * wanted; more of it must bring the mark sooner. */
typedef enum dw_answer__scale {
    DW_ANSWER__STRAIGHT,
    DW_ANSWER__LOG
} dw_answer__scale;
typedef struct dw_answer__turn {
    dw_life_request *life;
    double *number; /* in the life; holds a guess, then the answer */
    dw_answer__scale scale;
    double least, most; /* of it */
    double within;      /* of it; on a log scale, a part of it */
    int mark;
    double wanted_h;
    dw_arena *arena;
} dw_answer__turn;

/* DW_E_UNREACHABLE on wanted_h, with what can be reached; else as
 * dw_life_run. The arena is as before. */
dw_status dw_answer__bring(const dw_answer__turn *turn, dw_err *err);

/* Lines of the formula's own for the life, copied into the arena; *yeast is
 * the only line of yeast among them. DW_E_SUM on `field` when there is not
 * exactly one, DW_E_ROOM. */
dw_status dw_answer__open_yeast(dw_formula *formula, const char *field,
                                dw_arena *arena, dw_line **yeast, dw_err *err);

#endif
