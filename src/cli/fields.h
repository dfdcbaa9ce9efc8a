/* Flags from the fields of a request, and a request from flags. */
#ifndef DW_CLI_FIELDS_H
#define DW_CLI_FIELDS_H

#include "cli/cli.h"

/* One flag for each field; the members of a nested object are flags of their
 * own with a dot ("--target.flour_kg"), and the whole of it can be given as
 * JSON. Room for `more` flags is left behind them. *fields says which field
 * each flag is. In the arena; DW_E_ROOM. */
dw_status dw_fields_flags(const dw_shape *shape, dw_arena *arena, size_t more,
                          dw_flag **flags, const dw_field *const **fields,
                          size_t *count);
/* The request as JSON text in the arena: numbers may carry units ("10 lb",
 * "80 F"), lists and objects are JSON text or @FILE. The door then decodes and
 * checks it like any other request. */
dw_status dw_fields_request(const dw_shape *shape, const dw_args *args,
                            dw_arena *arena, const char **text, size_t *bytes,
                            dw_err *err);

#endif
