/* Any bytes as the request or reply of any operation: refused with a field and
 * a status, or taken, written, and read back the same. The first two bytes
 * choose the shape. */
#include "door/json.h"

#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t bytes);

enum { ARENA_BYTES = 1 << 20 };

static const dw_shape *chosen(const uint8_t *data)
{
    size_t count;
    const dw_op *ops = dw_ops(&count);
    const dw_op *op = &ops[data[0] % count];
    return data[1] % 2 ? op->request : op->reply;
}

/* Read `text`; written again into *again. */
static dw_status pass(const dw_shape *shape, const char *text, size_t bytes,
                      dw_arena *arena, const char **again, size_t *again_bytes)
{
    dw_err err = {.status = DW_OK};
    void *object = dw_arena_take(arena, shape->bytes);
    DW_ASSERT(object != NULL);
    dw_status status = dw_json_decode(shape, text, bytes, arena, object, &err);
    DW_ASSERT(status == err.status);
    DW_TRY(status);
    return dw_json_encode(shape, object, arena, again, again_bytes);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t bytes)
{
    static unsigned char block[ARENA_BYTES];
    if (bytes < 2)
        return 0;
    dw_arena arena;
    dw_arena_init(&arena, block, sizeof block);
    const dw_shape *shape = chosen(data);
    const char *first, *second;
    size_t first_bytes, second_bytes;
    /* a copy of its exact size, so that one byte too far is seen */
    char *text = malloc(bytes - 2 + (bytes == 2));
    DW_ASSERT(text != NULL);
    memcpy(text, data + 2, bytes - 2);
    dw_status status =
        pass(shape, text, bytes - 2, &arena, &first, &first_bytes);
    if (status == DW_OK) {
        status =
            pass(shape, first, first_bytes, &arena, &second, &second_bytes);
        DW_ASSERT(status == DW_OK && first_bytes == second_bytes &&
                  memcmp(first, second, first_bytes) == 0);
    }
    free(text);
    return 0;
}
