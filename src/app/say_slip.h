/* Slips as sentences: the one table of their wording. */
#ifndef DW_APP_SAY_SLIP_H
#define DW_APP_SAY_SLIP_H

#include "doughwright/quantity.h"
#include "doughwright/slip.h"

/* The sentence in `lang`, in the arena; NULL when it is full. What is usual is
 * told of the process, or of the shop's own formula when that is the norm. */
const char *dw_say_slip(dw_arena *arena, const char *lang, const dw_slip *slip,
                        const dw_slip_basis *basis);
const char *dw_say_weighing(dw_arena *arena, const char *lang,
                            const char *material, double planned_kg,
                            double weighed_kg, const dw_weighing *weighing,
                            dw_units_choice units);
/* "instant yeast" for DW_YEAST_INSTANT: a line kind in words. */
const char *dw_say_kind(const char *lang, int kind);

#endif
