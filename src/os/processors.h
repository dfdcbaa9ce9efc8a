/* How many processors this program may use at once, 1 and up. */
#ifndef DW_OS_PROCESSORS_H
#define DW_OS_PROCESSORS_H

#include <stddef.h>

size_t dw_processors(void);

#endif
