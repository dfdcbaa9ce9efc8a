#include "doughwright/constants.h"

#include "doughwright/base.h"

static const dw_constant rows[] = {
#define ROW(symbol, value, unit, low, high, source, mark, says)                \
    {#symbol, value, unit, low, high, source, DW_MARK_##mark, says},
    DW_CONSTANT_LIST(ROW)
#undef ROW
};

const dw_constant *dw_constants(size_t *count)
{
    *count = DW_COUNT(rows);
    return rows;
}
