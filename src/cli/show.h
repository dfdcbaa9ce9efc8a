/* A reply for people: values with their units, lists as tables. */
#ifndef DW_CLI_SHOW_H
#define DW_CLI_SHOW_H

#include "doughwright/field.h"
#include "doughwright/quantity.h"

#include <stdio.h>

/* `reply` is the JSON of `shape`. */
dw_status dw_show(const dw_shape *shape, const char *reply, size_t bytes,
                  dw_units_choice units, FILE *to);

#endif
