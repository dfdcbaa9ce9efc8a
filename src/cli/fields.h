/* Flags from the fields of a request, and a request from flags. */
#ifndef DW_CLI_FIELDS_H
#define DW_CLI_FIELDS_H

#include "cli/cli.h"

/* One flag for each field; the members of a nested object are flags of their
 * own with a dot ("--target.flour_kg"), and the whole of it can be given as
 * JSON. In the arena; DW_E_ROOM. */
dw_status dw_fields_flags(const dw_shape *shape, dw_arena *arena,
                          const dw_flag **flags, size_t *count);
/* The request as JSON text in the arena: numbers may carry units ("10 lb",
 * "80 F"), lists and objects are JSON text or @FILE. The door then decodes and
 * checks it like any other request. */
dw_status dw_fields_request(const dw_shape *shape, const dw_args *args,
                            dw_arena *arena, const char **text, size_t *bytes,
                            dw_err *err);

#endif
