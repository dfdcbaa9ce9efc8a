#include "cli/measure.h"

const dw_unit *dw_measure_of(const char *unit)
{
    if (!unit || !*unit)
        return NULL;
    for (int d = 0; d < DW_DIMENSION_COUNT; d++) {
        const dw_unit *found = dw_unit_find((dw_dimension)d, unit);
        if (found)
            return found;
    }
    return NULL;
}
