/* The trace of a lot, a batch, bags of minors, a stack or a shipment, out of
 * the record. */
#ifndef DW_APP_TRACE_H
#define DW_APP_TRACE_H

#include "app/op.h"
#include "doughwright/trace.h"

/* Exactly one is not 0. */
typedef struct dw_trace_asked {
    int64_t lot_id, batch_id, minors_lot_id, stack_id, drop_id;
} dw_trace_asked;
extern const dw_shape dw_trace_asked_shape;

/* A shop that got some of it. */
typedef struct dw_trace_shop {
    int64_t outlet_id; /* 0: used by the business itself */
    const char *name;
    int64_t shipments, last_ms; /* 0: its own use */
    double kg;                  /* of what was asked for */
    bool at_least;
} dw_trace_shop;

typedef struct dw_trace_found {
    /* node 0 is the one asked for */
    dw_trace_node *nodes;
    size_t nodes_count;
    dw_trace_link *links;
    size_t links_count;
    dw_trace_place *backward, *forward;
    size_t backward_count, forward_count;
    dw_trace_balance *balances; /* of each node but shops, and shipments that
                                   nobody wrote down */
    size_t balances_count;
    dw_trace_shop *shops;
    size_t shops_count;
    int64_t not_closing; /* masses that do not add up or are not known */
    bool sent_unknown;   /* some was sent, and nobody wrote where */
} dw_trace_found;
extern const dw_shape dw_trace_found_shape;

/* DW_E_MISSING "lot_id": none or more than one asked for. DW_E_NOT_FOUND.
 * DW_E_RANGE "nodes": more than DW_TRACE_NODES. */
dw_status dw_trace_find(dw_call *call, const dw_trace_asked *asked,
                        dw_trace_found *found);

#endif
