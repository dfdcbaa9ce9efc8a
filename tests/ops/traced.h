/* A small history of lots that the tests of trace and report are about. */
#ifndef DW_TEST_TRACED_H
#define DW_TEST_TRACED_H

#include "business.h"

/* Two lots of flour, A and B. Batch 1 of A; batch 2 of B; 0.5 kg of batch 1 is
 * kept and goes into batch 3, whose flour is B. */
void traced_start(business *b);
/* The day after all 40 balls of 1 go to Mill, 40 of 3 to Pond. */
void traced_ship(business *b);

/* The path of a member of the first element of a list whose `key` is `text`,
 * "weighings.3.weighing.id"; "" when there is none. */
const char *traced_at(business *b, const char *list, const char *key,
                      const char *text, const char *member, char path[80]);
/* The id of a material's weighing on the sheet that was got. */
long traced_weighing_of(business *b, const char *material);

#endif
