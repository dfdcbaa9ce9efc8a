/* JSON in and out, by shape. The only place besides src/files that knows JSON.
 */
#ifndef DW_DOOR_JSON_H
#define DW_DOOR_JSON_H

#include "app/app.h"

/* Strict: one object; duplicate keys, NaN, broken UTF-8, more than 8 MiB,
 * 500,000 values or 32 levels are refused; unknown fields are
 * DW_E_UNKNOWN_FIELD with their path. null is the same as not given. The object
 * is preset, filled (texts and lists copied into the arena), then held against
 * dw_shape_check; after a failure it is not to be used. */
dw_status dw_json_decode(const dw_shape *shape, const char *text, size_t bytes,
                         dw_arena *arena, void *object, dw_err *err);
/* Compact UTF-8, NUL-terminated, in the arena; absent optional members are
 * null; numbers in 15 significant digits or less, 17 where a double would not
 * read back equal with fewer. DW_E_ROOM when the arena is full, DW_E_RANGE for
 * a NaN or an infinity. */
dw_status dw_json_encode(const dw_shape *shape, const void *object,
                         dw_arena *arena, const char **text, size_t *bytes);
/* {"error":{"code","field","message","low","high"}}; the message is one
 * sentence in `lang` that names field, value and range. */
dw_status dw_json_error(const dw_err *err, const char *lang, dw_arena *arena,
                        const char **text, size_t *bytes);

extern const dw_codec dw_json_codec;

#endif
