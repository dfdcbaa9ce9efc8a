/* Checks of thermometers, scales, cold rooms and cleaning: when each is due. */
#ifndef DW_APP_CHECKS_H
#define DW_APP_CHECKS_H

#include "app/op.h"
#include "store/nouns.h"

/* A check, when it was last done and when it is due. */
typedef struct dw_check {
    dw_check_due due;
    bool has_last;
    dw_check_done last;
    int64_t due_ms;
} dw_check;

/* Those asked for, the soonest due first. */
dw_status dw_checks_read(dw_call *call, dw_check **checks, size_t *count);

#endif
