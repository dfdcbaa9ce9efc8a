/* Anything may come out of a scanner. */
#include "doughwright/gs1.h"

#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static unsigned char block[16384];
    char text[DW_GS1_LONGEST + 1];
    dw_arena arena;
    dw_err err;
    if (size > DW_GS1_LONGEST)
        return 0;
    memcpy(text, data, size);
    text[size] = '\0';
    dw_arena_init(&arena, block, sizeof block);
    const dw_gs1_read_request request = {text, 20782};
    dw_gs1_read_reply reply;
    if (dw_gs1_read(&request, &arena, &err, &reply) == DW_OK)
        DW_ASSERT(reply.elements_count > 0);
    return 0;
}
