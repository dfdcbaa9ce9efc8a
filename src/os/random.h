/* Random bytes from the system, fit for keys and tokens. */
#ifndef DW_OS_RANDOM_H
#define DW_OS_RANDOM_H

#include "doughwright/base.h"

/* DW_E_IO when the system has none. */
dw_status dw_random_bytes(void *out, size_t bytes, dw_err *err);

#endif
