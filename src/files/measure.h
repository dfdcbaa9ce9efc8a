/* Which unit of quantity.h a field's unit is. */
#ifndef DW_FILES_MEASURE_H
#define DW_FILES_MEASURE_H

#include "doughwright/quantity.h"

/* How quantity.h writes a field's unit ("degC" is its "C"). */
const char *dw_measure_name(const char *unit);
/* The unit; NULL for those that people do not type ("J/kg", "ms"), which stay
 * plain numbers. */
const dw_unit *dw_measure_of(const char *unit);

#endif
