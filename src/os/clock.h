/* The two clocks of the machine.
 */
#ifndef DW_OS_CLOCK_H
#define DW_OS_CLOCK_H

#include <stdint.h>

/* The time of day, ms since 1970 UTC. People and networks set it, so it may
 * jump: it is for stamps, not for spans. */
int64_t dw_clock_now_ms(void);
/* For spans: never jumps, starts anywhere. */
int64_t dw_clock_steady_ms(void);

#endif
