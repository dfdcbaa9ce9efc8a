/* What passed from one thing to the next, as the record has it: lots weighed
 * into batches, scrap kept as a lot, bags of minors, stacks, shipments, shops.
 */
#ifndef DW_STORE_TRACE_H
#define DW_STORE_TRACE_H

#include "doughwright/trace.h"
#include "store/nouns.h"
#include "store/store.h"

/* One node that is next to another. */
typedef struct dw_trace_next {
    int kind;
    int64_t id;
    bool has_kg;
    double kg;
    bool assumed; /* worked out, nobody tapped it */
} dw_trace_next;

/* Where a node's mass went, and where it came from. Planned batches are not
 * there yet. */
dw_status dw_store_trace_from(dw_store *store, int kind, int64_t id,
                              dw_arena *arena, dw_trace_next **rows,
                              size_t *count, dw_err *err);
dw_status dw_store_trace_into(dw_store *store, int kind, int64_t id,
                              dw_arena *arena, dw_trace_next **rows,
                              size_t *count, dw_err *err);

/* The node itself: its name, its moment and what was received, left and wasted;
 * what passed to and from others is not in it. DW_E_NOT_FOUND with the kind as
 * field. A shipment or a shop of id 0 is what nobody wrote down. */
dw_status dw_store_trace_node(dw_store *store, int kind, int64_t id,
                              dw_arena *arena, dw_trace_node *node,
                              dw_err *err);

/* Keep which lots the text of one weighing of bags of minors names. */
dw_status dw_store_minors_parts(dw_store *store, int64_t minors_lot_id,
                                dw_err *err);

/* Lots with the name of their material and of the batch they come from, the
 * newest first. */
typedef struct dw_lot_row {
    dw_material_lot lot;
    const char *material, *source;
    double used_kg; /* weighed into batches and bags */
} dw_lot_row;
extern const dw_shape dw_lot_row_shape;
dw_status dw_store_lots(dw_store *store, int64_t from_ms, int64_t to_ms,
                        int64_t limit, dw_arena *arena, dw_lot_row **rows,
                        size_t *count, dw_err *err);

/* What left: a line of a shipment, with the batch that its stack is of. */
typedef struct dw_released_row {
    int64_t day, loaded_ms;
    const char *recipient, *product;
    int64_t batch_number, batch_id, stack_id; /* 0: not known */
    int64_t balls, boxes, refused;
    double kg;
    const char *carrier; /* who loaded it; NULL: not known */
} dw_released_row;
extern const dw_shape dw_released_row_shape;
/* Of days from..to, by day and shipment; stack_id 0: of all stacks. */
dw_status dw_store_released(dw_store *store, int64_t from_day, int64_t to_day,
                            int64_t stack_id, int64_t limit, dw_arena *arena,
                            dw_released_row **rows, size_t *count, dw_err *err);

#endif
