/* The OpenAPI 3.1 page of the one door, from the table of operations. */
#ifndef DW_DOOR_OPENAPI_H
#define DW_DOOR_OPENAPI_H

#include "doughwright/base.h"

/* Every operation as POST /api/v1/OP, every shape as a schema. JSON in the
 * arena; DW_E_ROOM. */
dw_status dw_openapi(dw_arena *arena, const char **text, size_t *bytes);

#endif
