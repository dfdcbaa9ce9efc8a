/* Any text as a quantity: refused, or a number within its dimension that
 * prints as a text which reads back near it. The first byte chooses. */
#include "doughwright/quantity.h"

#include <math.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t bytes);

static const char *const bare[] = {"kg", "C", "%",  "m", "h", "count",
                                   "L",  "J", "Pa", "W", "K"};
_Static_assert(DW_COUNT(bare) == DW_DIMENSION_COUNT, "a unit for each");

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t bytes)
{
    char text[256], printed[128];
    double value, again;
    dw_err err = {.status = DW_OK};
    if (bytes < 1 || bytes > sizeof text)
        return 0;
    dw_dimension dimension = (dw_dimension)(data[0] % DW_DIMENSION_COUNT);
    memcpy(text, data + 1, bytes - 1);
    text[bytes - 1] = '\0';
    dw_status status =
        dw_quantity_parse(text, dimension, bare[dimension], &value, &err);
    DW_ASSERT(status == err.status);
    if (status != DW_OK)
        return 0;
    DW_ASSERT(isfinite(value));
    for (int units = DW_METRIC; units <= DW_US; units++) {
        dw_quantity_print(printed, sizeof printed, value, dimension,
                          (dw_units_choice)units);
        status = dw_quantity_parse(printed, dimension, bare[dimension], &again,
                                   &err);
        /* rounding for people may pass the edge of the range */
        DW_ASSERT(status == DW_OK || status == DW_E_RANGE);
    }
    return 0;
}
