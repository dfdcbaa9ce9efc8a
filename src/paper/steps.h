/* The steps of a card as rows to tick. Inside src/paper. */
#ifndef DW_PAPER_STEPS_H
#define DW_PAPER_STEPS_H

#include "app/batches.h"
#include "paper/sheet.h"

/* One row a step, what goes into the bowl in one row: check box, what, how much
 * or how long, minute from the mixer's start. It ends with closing the stack,
 * said by the sentence `close`. */
void dw_paper__draw_steps(dw_sheet *sheet, const dw_card *card,
                          const char *close);
/* What is done after the stack was closed, as sentences: another shift's. */
const char *dw_paper__after(dw_sheet *sheet, const dw_card *card);

/* A line that says which preferment the rows below are for; NULL: the dough. */
void dw_paper__stage(dw_sheet *sheet, const char *stage);
/* For other papers: the cautions of some steps once each in a frame, and a step
 * in one sentence. */
void dw_paper__draw_cautions(dw_sheet *sheet, const dw_card_saying *sayings,
                             size_t count);
const char *dw_paper__step(dw_sheet *sheet, const dw_card_step *step,
                           const dw_card_saying *saying);

#endif
