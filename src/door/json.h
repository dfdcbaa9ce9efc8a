/* JSON in and out, by shape. The only place besides src/files that knows JSON.
 */
#ifndef DW_DOOR_JSON_H
#define DW_DOOR_JSON_H

#include "app/app.h"

/* Strict: one value, duplicate keys, NaN, broken UTF-8 and more than 8 MiB are
 * refused; unknown fields are DW_E_UNKNOWN_FIELD with their path. The object
 * is preset, filled, then held against dw_shape_check. */
dw_status dw_json_decode(const dw_shape *shape, const char *text, size_t bytes,
                         dw_arena *arena, void *object, dw_err *err);
/* Compact UTF-8; absent optional members are null; numbers in up to 15
 * significant digits, so a double a person typed reads back the same. */
dw_status dw_json_encode(const dw_shape *shape, const void *object,
                         dw_arena *arena, const char **text, size_t *bytes);
/* {"error":{"code","field","message","low","high"}}; the message is one
 * sentence in `lang` that names field, value and range. */
dw_status dw_json_error(const dw_err *err, const char *lang, dw_arena *arena,
                        const char **text, size_t *bytes);

extern const dw_codec dw_json_codec;

#endif
