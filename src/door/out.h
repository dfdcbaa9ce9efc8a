/* Writing JSON text straight into the free end of an arena. */
#ifndef DW_DOOR_OUT_H
#define DW_DOOR_OUT_H

#include "doughwright/base.h"

typedef struct dw_out {
    char *at;
    size_t room, used;
    bool full; /* what did not fit was dropped */
} dw_out;

void dw_out_init(dw_out *out, const dw_arena *arena);
/* Keep what was written, NUL-terminated. DW_E_ROOM when it did not fit. */
dw_status dw_out_keep(dw_out *out, dw_arena *arena, const char **text,
                      size_t *bytes);

void dw_out_raw(dw_out *out, const char *text);
/* A JSON string; NULL writes null. */
void dw_out_text(dw_out *out, const char *text);
/* The shortest of 15, 16 or 17 digits that reads back equal; NaN and infinities
 * write null. */
void dw_out_real(dw_out *out, double value);
void dw_out_whole(dw_out *out, int64_t value);
/* "name": with a comma before it unless it is the first of its object. */
void dw_out_name(dw_out *out, const char *name);

#endif
