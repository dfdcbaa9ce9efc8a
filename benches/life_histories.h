/* What the benches of lives follow: 72 h of a 450-g ball in four legs, and the
 * same in a cold room that swings. */
#ifndef BENCH_LIFE_HISTORIES_H
#define BENCH_LIFE_HISTORIES_H

#include "doughwright/life.h"

enum { LIFE_LEGS_MOST = 3 + 2 * 3 * 66 };
typedef struct life_history {
    const char *what;
    dw_line lines[4];
    dw_leg legs[LIFE_LEGS_MOST];
    dw_life_request request; /* 12 shells, no band, nothing after 72 h */
} life_history;

void life_four_legs(life_history *history);
/* By 2 K, every 20 min. */
void life_swinging(life_history *history);
/* Processor time of this program, s. */
double life_seconds(void);

#endif
