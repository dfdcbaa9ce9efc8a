/* Any bytes as a file of sales: refused as a whole, or read with each row
 * either good by its shape or kept aside with a reason. */
#include "app/sales_sheet.h"

#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t bytes);

enum { ARENA_BYTES = 8 << 20 };

static void check_rows(const dw_sales_sheet *sheet)
{
    const dw_sales_given given = {sheet->rows, sheet->rows_count, false};
    dw_err err;
    if (given.rows_count > 0)
        DW_ASSERT(dw_shape_check(&dw_sales_given_shape, &given, &err) == DW_OK);
    for (size_t i = 0; i < sheet->refused_count; i++)
        DW_ASSERT(dw_shape_check(&dw_sale_refused_shape, &sheet->refused[i],
                                 &err) == DW_OK);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t bytes)
{
    static unsigned char block[ARENA_BYTES];
    dw_arena arena;
    dw_sales_sheet sheet;
    dw_err err = {.status = DW_OK};
    dw_arena_init(&arena, block, sizeof block);
    char *text = malloc(bytes + (bytes == 0));
    DW_ASSERT(text != NULL);
    memcpy(text, data, bytes);
    dw_sales_mapping mapping;
    dw_status status = dw_sales_propose(text, bytes, &arena, &mapping, &err);
    if (status == DW_OK)
        status =
            dw_sales_read(text, bytes, &mapping, "es", &arena, &sheet, &err);
    free(text);
    DW_ASSERT(status == err.status);
    if (status == DW_OK)
        check_rows(&sheet);
    return 0;
}
