#include "files/measure.h"

const char *dw_measure_name(const char *unit)
{
    return dw_text_is(unit, "degC") ? "C" : unit;
}

const dw_unit *dw_measure_of(const char *unit)
{
    if (!unit || !*unit)
        return NULL;
    for (int d = 0; d < DW_DIMENSION_COUNT; d++) {
        const dw_unit *found =
            dw_unit_find((dw_dimension)d, dw_measure_name(unit));
        if (found)
            return found;
    }
    return NULL;
}
