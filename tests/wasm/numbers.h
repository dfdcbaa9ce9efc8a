/* The same numbers from two builds of the engine: a scaled formula and one life
 * of a ball, for requests that are written down here. */
#ifndef DW_TESTS_WASM_NUMBERS_H
#define DW_TESTS_WASM_NUMBERS_H

#include <stddef.h>

/* The numbers, borrowed until the next call, and how many; NULL when the engine
 * refused. */
const double *dw_numbers(void);
size_t dw_numbers_count(void);

#endif
