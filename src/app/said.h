/* Codes of the engine turned into sentences in the caller's language. */
#ifndef DW_APP_SAID_H
#define DW_APP_SAID_H

#include "app/op.h"

#include "doughwright/heat.h"
#include "doughwright/note.h"
#include "doughwright/procedure.h"
#include "doughwright/runsheet.h"

/* Fill each note's message; a code without a sentence keeps none. DW_E_ROOM. */
dw_status dw_said_notes(dw_call *call, dw_note *notes, size_t count);
/* Each step of a card as sentences, in the call's arena. DW_E_ROOM. */
dw_status dw_said_card(dw_call *call, const dw_card_step *steps, size_t count,
                       dw_card_saying **sayings);
/* Fill message of each way out of a late run. */
void dw_said_advice(const dw_call *call, dw_run_advice *advice, size_t count);
/* Fill why->message. DW_E_ROOM. */
dw_status dw_said_why(dw_call *call, dw_heat_why *why);

#endif
