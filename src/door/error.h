/* One failure as one sentence for people. */
#ifndef DW_DOOR_ERROR_H
#define DW_DOOR_ERROR_H

#include "doughwright/base.h"

/* "formula.lines[0].percent is 2000; allowed 0 to 1000 percent", in `lang`, cut
 * to fit. */
void dw_error_sentence(const dw_err *err, const char *lang, char *out,
                       size_t room);

/* A field's unit as people write it: "degC" is "°C". "" when it has none. */
const char *dw_unit_sentence(const char *unit, const char *lang);

#endif
