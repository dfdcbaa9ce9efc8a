/* Whether a stack's closing time came from the life of its balls. */
#include "store/internal.h"

const char *const dw_store__schema_close[] = {
    "ALTER TABLE stack ADD COLUMN close_by_life INTEGER NOT NULL DEFAULT 0",
    NULL};
