/* Any bytes as a shop or a formula file: refused with a place and a status, or
 * taken, written, and read back the same. The first byte chooses. */
#include "app/load.h"
#include "files/yaml_file.h"

#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t bytes);

enum { ARENA_BYTES = 4 << 20 };

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t bytes)
{
    static unsigned char block[ARENA_BYTES];
    if (bytes < 1)
        return 0;
    dw_arena arena;
    dw_arena_init(&arena, block, sizeof block);
    const dw_shape *shape =
        data[0] % 2 ? &dw_shop_file_shape : &dw_formula_file_shape;
    /* a copy of its exact size, so that one byte too far is seen */
    char *text = malloc(bytes - 1 + (bytes == 1));
    void *first = dw_arena_take(&arena, shape->bytes);
    void *second = dw_arena_take(&arena, shape->bytes);
    DW_ASSERT(text && first && second);
    memcpy(text, data + 1, bytes - 1);
    dw_err err = {.status = DW_OK};
    const char *written;
    size_t length;
    dw_status status =
        dw_yaml_read(shape, "fuzz", text, bytes - 1, &arena, first, &err);
    free(text);
    DW_ASSERT(status == err.status);
    if (status != DW_OK)
        return 0;
    status = dw_yaml_write(shape, first, &arena, &written, &length, &err);
    if (status != DW_OK) /* many small values grow beyond the arena */
        return 0;
    status =
        dw_yaml_read(shape, "again", written, length, &arena, second, &err);
    DW_ASSERT(status == DW_E_ROOM || status == DW_E_TOO_LARGE ||
              (status == DW_OK && dw_shape_same(shape, first, second)));
    return 0;
}
