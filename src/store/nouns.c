/* Every stored noun: its table and its shape, held against each other whenever
 * a database is opened. */
#include "store/internal.h"
#include "store/nouns.h"

const dw_store__noun dw_store__nouns[] = {
    {"journal", &dw_journal_row_shape},
    {"answer", &dw_store__answer_shape},
#define ROW(type, table) {#table, &dw_##table##_noun},
    DW_NOUNS_SHOP(ROW) DW_NOUNS_BATCH(ROW) DW_NOUNS_TAUGHT(ROW)
        DW_NOUNS_SERVICE(ROW) DW_NOUNS_DEMAND(ROW) DW_NOUNS_CHECK(ROW)};
const size_t dw_store__nouns_count = DW_COUNT(dw_store__nouns);
