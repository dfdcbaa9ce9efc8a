/* Which dimension a field's unit belongs to. */
#ifndef DW_CLI_MEASURE_H
#define DW_CLI_MEASURE_H

#include "doughwright/quantity.h"

/* The unit of that name and its dimension; NULL for units that people do not
 * type ("j_per_kg", "ms"), which stay plain numbers. */
const dw_unit *dw_measure_of(const char *unit);

#endif
