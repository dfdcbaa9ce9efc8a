/* What a report on a lot tells: its trace with the batches, kept scrap, stacks
 * and shipments by name, and the drills on it. */
#ifndef DW_APP_RECALL_H
#define DW_APP_RECALL_H

#include "app/trace.h"
#include "store/nouns.h"
#include "store/trace.h"

typedef struct dw_recall_batch {
    const dw_trace_place *place;
    const char *name; /* formula and number */
    int64_t day;      /* it was mixed */
    bool direct;      /* the lot itself was weighed in */
    bool assumed;     /* so the plan says; nobody tapped it */
    const char *by;   /* the scrap or the bags that carried it in; NULL */
} dw_recall_batch;

/* Scrap or old dough that was kept, and bags of minors. */
typedef struct dw_recall_kept {
    const dw_trace_place *place;
    const dw_trace_node *node;
    const dw_trace_balance *balance;
} dw_recall_kept;

typedef struct dw_recall_stack {
    const dw_trace_place *place;
    const char *product;
    int64_t batch_number, mixing_day, balls, here_balls;
} dw_recall_stack;

typedef struct dw_recall {
    dw_material_lot lot;
    dw_material material;
    dw_trace_found trace;
    dw_recall_batch *batches; /* each nearest first */
    size_t batches_count;
    dw_recall_kept *kept;
    size_t kept_count;
    dw_recall_stack *stacks; /* with balls that are here first */
    size_t stacks_count;
    dw_released_row *sent; /* by the moment they left */
    size_t sent_count;
    dw_recall_drill *drills; /* newest first */
    size_t drills_count;
} dw_recall;

/* DW_E_NOT_FOUND "id", and as dw_trace_find. All is in the call's arena. */
dw_status dw_recall_read(dw_call *call, int64_t lot_id, dw_recall *out);

#endif
