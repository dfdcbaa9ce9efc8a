#include "life_cases.h"

#include "dw_test.h"

dw_status case_run(life_case *c)
{
    static unsigned char block[48 << 20];
    dw_arena arena;
    dw_err err;
    dw_arena_init(&arena, block, sizeof block);
    dw_status status = dw_life_run(&c->request, &arena, &c->reply, &err);
    if (status != DW_OK)
        dw_test_fail(__FILE__, __LINE__, "%s: %s %s", dw_status_code(status),
                     err.field, err.value);
    return status;
}
