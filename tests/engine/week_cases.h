/* The lot-sizing cases of the books as plans of one product of one formula in
 * one mixer. */
#ifndef WEEK_CASES_H
#define WEEK_CASES_H

#include "doughwright/week.h"

enum { WEEK_CASES = 12 };

typedef struct week_case {
    char name[64];
    double best; /* of all plans */
    dw_week_request ask;
    dw_week_mixer mixer;
    dw_week_bowl bowl;
    dw_week_formula formula;
    dw_week_product product;
    dw_week_wanted wanted[DW_WEEK_DAYS];
    int64_t counts[DW_WEEK_DAYS];
    double starts[DW_WEEK_DAYS], makes[DW_WEEK_DAYS], minutes[DW_WEEK_DAYS];
} week_case;

/* Read the table into at most WEEK_CASES places, which must stay where they
 * are; how many there were. */
int week_cases(const char *path, week_case *cases);

#endif
